package main

import (
	"fmt"
	"io"
	"math"
	"text/tabwriter"

	"scrubline/fitment"
)

func runCheck(args []string, stdout, stderr io.Writer) int {
	rest, flags, err := split(args, map[string]bool{"json": true}, map[string]bool{"variant": true})
	if err == nil && len(rest) != 1 {
		err = fmt.Errorf("check takes one scene file")
	}
	if err != nil {
		complain(stderr, "%v", err)
		return exitBad
	}
	m := loadVariant(rest[0], flags["variant"], stderr)
	if m == nil {
		return exitBad
	}
	r := m.Check()
	if flags["json"] != "" {
		stdout.Write(m.ReportJSON())
	} else {
		printReport(stdout, m, r)
	}
	if r.Short() {
		return exitShort
	}
	return exitClear
}

// printReport prints the findings worst first, then what hangs lowest at each
// height, then the counts.
func printReport(out io.Writer, m *fitment.Model, r *fitment.Report) {
	w := fitment.NewWords(m.Doc)
	name := m.Doc.Name
	if m.Variant != "" {
		name += ", variant " + m.Variant
	}
	fmt.Fprintf(out, "%s: %s (%s)\n", name, fitment.Headline(&r.Summary), w.Units())
	cautions := map[string]bool{}
	for _, g := range m.Groups() {
		printGathered(out, w, m, g)
		for _, i := range g.Findings {
			printCaution(out, cautions, r.Findings[i].Caution)
		}
	}
	for i := range r.Limits {
		l := &r.Limits[i]
		fmt.Fprintf(out, "\nlimit    %s\n         %s\n         %s\n         part: %s\n",
			w.LimitTitle(l), w.LimitFigures(l), w.LimitSpans(l), l.Part)
	}
	for _, u := range r.Undecided {
		fmt.Fprintf(out, "\nundecided  %s and %s\n         least gap found %.2f mm, proven no less than %.2f: the search was given up\n",
			w.Name(u.A), w.Name(u.B), u.GapMM, math.Floor(u.BoundMM*100)/100)
	}
	printGround(out, w, r)
	for i := range r.Suspension {
		if k := &r.Suspension[i]; fitment.SuspensionWords(k) != "" {
			fmt.Fprintf(out, "\n%s suspension (%s): %s\n", k.End, k.Kind, fitment.SuspensionWords(k))
		}
	}
	for _, l := range r.Lowered {
		fmt.Fprintf(out, "\nLooked at less strictly: %s\n", w.Lowered(&l))
		printCaution(out, cautions, l.Caution)
	}
	s := &r.Summary
	fmt.Fprintf(out, "\n%d pairs checked over the whole travel: %d touch, %d tight, %d clear, %d undecided\n",
		s.Pairs, s.Contact, s.Tight, s.Clear, s.Undecided)
	if n := len(m.Doc.NotMeasured()); n > 0 {
		fmt.Fprintf(out, "%s not measured yet: what is said above holds for the figures as they stand\n",
			map[bool]string{true: "1 value is", false: fmt.Sprint(n, " values are")}[n == 1])
	}
}

// printCaution prints a caution beside what it is for, the first time.
func printCaution(out io.Writer, said map[string]bool, caution string) {
	if caution != "" && !said[caution] {
		said[caution] = true
		fmt.Fprintf(out, "         Caution: %s\n", caution)
	}
}

// printGathered prints one thing that falls short: its sentence, what else is
// like it, then every finding with its figures.
func printGathered(out io.Writer, w *fitment.Words, m *fitment.Model, g fitment.Group) {
	r := m.Check()
	first := &r.Findings[g.Findings[0]]
	fmt.Fprintf(out, "\n%s.\n", w.GroupText(r, g, m.Spans(first)))
	if more := w.GroupMore(r, g); more != "" {
		fmt.Fprintf(out, "  %s\n", more)
	}
	for _, i := range g.Findings {
		f := &r.Findings[i]
		printFinding(out, w, m, f)
		if text := m.Unmeasured(f); text != "" {
			fmt.Fprintf(out, "         %s\n", text)
		}
	}
}

// needWords says where a finding's need comes from, in the shown unit.
func needWords(w *fitment.Words, m *fitment.Model, f *fitment.Finding) string {
	if n, err := m.Need(f.A, f.B); err == nil && f.Service == "" {
		return w.Need(&n)
	}
	return f.NeedSource
}

func printFinding(out io.Writer, w *fitment.Words, m *fitment.Model, f *fitment.Finding) {
	status := string(f.Status)
	if f.Service != "" {
		status = "blocked"
	}
	fmt.Fprintf(out, "%-8s %s\n", status, w.Title(f))
	sure := ""
	if !f.Sure {
		sure = " (within the tolerance of tape and fabrication)"
	}
	fmt.Fprintf(out, "         %s%s\n", w.Figures(f), sure)
	if text := w.Spans(f, m.Spans(f)); text != "" {
		fmt.Fprintf(out, "         %s\n", text)
	}
	p := f.PointsMM
	fmt.Fprintf(out, "         gap %.2f mm, proven no less than %.2f; at station %.0f, %s of centre, %s the frame datum\n",
		f.GapMM, math.Floor(f.BoundMM*100)/100, (p[0][0]+p[1][0])/2, sideOf((p[0][1]+p[1][1])/2), overUnder((p[0][2]+p[1][2])/2))
	fmt.Fprintf(out, "         %s\n", needWords(w, m, f))
	fmt.Fprintf(out, "         parts: %s, %s\n", f.A, f.B)
}

func sideOf(y float64) string {
	if y < 0 {
		return fmt.Sprintf("%.0f left", -y)
	}
	return fmt.Sprintf("%.0f right", y+0)
}

func overUnder(z float64) string {
	if z < 0 {
		return fmt.Sprintf("%.0f below", -z)
	}
	return fmt.Sprintf("%.0f above", z)
}

func printGround(out io.Writer, w *fitment.Words, r *fitment.Report) {
	fmt.Fprintln(out, "\nLowest over the ground, at the named heights, level")
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	for i := range r.Ground {
		c := &r.Ground[i]
		fmt.Fprintf(t, "  %s\t%s\t%s\trim line %s\n", w.Height(c.Height), w.Over(c.GroundMM), w.Name(c.Part), w.Length(c.RimLineMM))
	}
	t.Flush()
	for i := range r.Ground {
		for k := range r.Ground[i].Below {
			h := &r.Ground[i].Below[k]
			fmt.Fprintf(out, "  %s: %s\n", w.BelowTitle(h), w.BelowFigures(&r.Ground[i], h))
		}
	}
	if r.Summary.RimLine > 0 {
		fmt.Fprintf(out, "  %s\n", fitment.RimLineSource)
	}
}
