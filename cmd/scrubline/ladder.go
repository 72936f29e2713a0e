package main

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"text/tabwriter"

	"scrubline/fitment"
	"scrubline/scene"
)

func runLadder(args []string, stdout, stderr io.Writer) int {
	args, without, err := struckOut(args)
	var rest []string
	var flags map[string]string
	if err == nil {
		rest, flags, err = split(args, map[string]bool{"json": true, "up": true}, map[string]bool{"end": true, "variant": true})
	}
	if err == nil && len(rest) != 1 {
		err = fmt.Errorf("ladder takes one scene file")
	}
	ask := fitment.LadderAsk{Up: flags["up"] != "", Ends: fitment.Ends(flags["end"]), Without: map[string]bool{}}
	if ask.Ends == "" {
		ask.Ends = fitment.BothEnds
	}
	if ends := []fitment.Ends{fitment.FrontOnly, fitment.RearOnly, fitment.BothEnds}; err == nil && !slices.Contains(ends, ask.Ends) {
		err = fmt.Errorf("-end takes front, rear or both; got %q", flags["end"])
	}
	if err != nil {
		complain(stderr, "%v", err)
		return exitBad
	}
	m := loadVariant(rest[0], flags["variant"], stderr)
	if m == nil {
		return exitBad
	}
	for _, key := range without {
		cause, err := causeOf(m.Doc, key)
		if err != nil {
			complain(stderr, "%s: %v", rest[0], err)
			return exitBad
		}
		ask.Without[cause] = true
	}
	l := m.Ladder(ask)
	if flags["json"] != "" {
		stdout.Write(m.LadderJSON(l))
	} else {
		printLadder(stdout, m, l)
	}
	if len(l.Rungs) > 1 || len(l.Undecided) > 0 {
		return exitShort
	}
	return exitClear
}

// struckOut takes every -without KEY out of the arguments; there may be several.
func struckOut(args []string) (rest, keys []string, err error) {
	for i := 0; i < len(args); i++ {
		name, value, has := strings.Cut(args[i], "=")
		if name != "-without" && name != "--without" {
			rest = append(rest, args[i])
			continue
		}
		if !has {
			if i++; i == len(args) {
				return nil, nil, fmt.Errorf("-without takes the key of a rung")
			}
			value = args[i]
		}
		keys = append(keys, value)
	}
	return rest, keys, nil
}

// causeOf is a key as a cause of the document: a pair in either order.
func causeOf(doc *scene.Document, key string) (string, error) {
	index := func(id string) int {
		return slices.IndexFunc(doc.Parts, func(p scene.Part) bool { return p.ID == id })
	}
	known := func(ids ...string) error {
		for _, id := range ids {
			if index(id) < 0 {
				return fmt.Errorf("-without %s: there is no part with the id %q", key, id)
			}
		}
		return nil
	}
	kind, what, named := strings.Cut(key, ":")
	if !named {
		kind, what = "pair", key
	}
	a, b, two := strings.Cut(what, "+")
	switch {
	case kind == "pair" && two:
		if err := known(a, b); err != nil {
			return "", err
		}
		if index(a) > index(b) {
			a, b = b, a
		}
		return fitment.PairCause(a, b), nil
	case kind == "room" && two:
		return fitment.RoomCause(a, b), known(a, b)
	case kind == "low":
		return fitment.LowCause(what), known(what)
	case kind == "suspension" && (what == "front" || what == "rear"):
		return fitment.SuspensionCause(what), nil
	case kind == "limit":
		part, limit, _ := strings.Cut(what, ":")
		for _, k := range []fitment.LimitKind{fitment.TooShort, fitment.TooLong, fitment.FrontJoint, fitment.RearJoint} {
			if limit == string(k) {
				return fitment.LimitCause(part, k), known(part)
			}
		}
	}
	return "", fmt.Errorf("-without takes the key of a rung, as the ladder prints it: PART+PART, room:PART+PART, limit:PART:too_short, suspension:front, low:PART; got %q", key)
}

// printLadder prints a line for each rung: the height, what happens, how much
// further it goes without, and the key to strike it out by.
func printLadder(out io.Writer, m *fitment.Model, l *fitment.Ladder) {
	w := fitment.NewWords(m.Doc)
	way := map[fitment.Ends]string{fitment.BothEnds: "front and rear together", fitment.FrontOnly: "front alone", fitment.RearOnly: "rear alone"}
	dir := "down"
	if l.Ask.Up {
		dir = "up"
	}
	fmt.Fprintf(out, "%s: from ride %s, %s (%s)\n%s\n", m.Doc.Name, dir, way[l.Ask.Ends], w.Units(), l.GoesToWords(w))
	if meets := l.MeetsWords(w); meets != "" {
		fmt.Fprintln(out, meets)
	}
	fmt.Fprintln(out)
	t := tabwriter.NewWriter(out, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "HEIGHT\tWHAT\tMENDED\tKEY")
	for i := range l.Rungs {
		printRung(t, w, &l.Rungs[i], l.Ask)
	}
	t.Flush()
	if len(l.Struck) > 0 {
		fmt.Fprintln(out, "\nSupposed mended")
		for i := range l.Struck {
			printRung(t, w, &l.Struck[i], l.Ask)
		}
		t.Flush()
	}
	for _, u := range l.Undecided {
		fmt.Fprintf(out, "\n%s and %s are undecided: a rung of theirs may be missing\n", w.Name(u.A), w.Name(u.B))
	}
	if said := l.Cautions(); len(said) > 0 {
		fmt.Fprintln(out)
		for _, c := range said {
			fmt.Fprintf(out, "Caution: %s\n", c)
		}
	}
}

func printRung(t io.Writer, w *fitment.Words, r *fitment.Rung, ask fitment.LadderAsk) {
	text := w.RungTitle(r)
	if note := w.RungNote(r, ask); note != "" {
		text += " (" + note + ")"
	}
	fmt.Fprintf(t, "%s\t%s\t%s\t%s\n", w.LadderLevel(r.At, ask), text, w.RungFurther(r, ask), r.Cause)
}
