package main

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

func runGap(args []string, stdout, stderr io.Writer) int {
	rest, flags, err := split(args, map[string]bool{"json": true}, map[string]bool{"at": true, "move": true, "variant": true})
	if err == nil && len(rest) != 3 {
		err = fmt.Errorf("gap takes a scene file and two part ids")
	}
	var st fitment.State
	if err == nil && flags["at"] != "" {
		st, err = parseState(flags["at"])
	}
	if err != nil {
		complain(stderr, "%v", err)
		return exitBad
	}
	m := loadVariant(rest[0], flags["variant"], stderr)
	if m == nil {
		return exitBad
	}
	if err := parseMoves(m.Doc, flags["move"], &st); err != nil {
		complain(stderr, "%v", err)
		return exitBad
	}
	g, err := m.GapBetween(rest[1], rest[2], st)
	if err != nil {
		complain(stderr, "%s: %v", rest[0], err)
		return exitBad
	}
	if flags["json"] != "" {
		stdout.Write(m.GapJSON(&g))
	} else {
		printGap(stdout, &g)
	}
	if g.Source != "" && g.GapMM < g.NeedMM {
		return exitShort
	}
	return exitClear
}

// parseState reads FL,FR,RL,RR[,STEER].
func parseState(text string) (fitment.State, error) {
	fields := strings.Split(text, ",")
	var v [5]float64
	bad := fmt.Errorf("-at takes four corner heights in mm over ride and perhaps a steer in degrees, as in -at -100,-100,-120,-120,0; got %q", text)
	if len(fields) < 4 || len(fields) > 5 {
		return fitment.State{}, bad
	}
	for i, f := range fields {
		n, err := strconv.ParseFloat(strings.TrimSpace(f), 64)
		if err != nil || math.IsNaN(n) || math.Abs(n) > 2000 {
			return fitment.State{}, bad
		}
		v[i] = n
	}
	return fitment.State{FL: v[0], FR: v[1], RL: v[2], RR: v[3], Steer: v[4]}, nil
}

// parseMoves reads ID=BY[,ID=BY…]: where movements stand, in degrees of a hinge
// or millimetres of a slide.
func parseMoves(doc *scene.Document, text string, st *fitment.State) error {
	if text == "" {
		return nil
	}
	for _, f := range strings.Split(text, ",") {
		id, by, _ := strings.Cut(f, "=")
		i := slices.IndexFunc(doc.Movements, func(m scene.Movement) bool { return m.ID == id })
		if i < 0 {
			return fmt.Errorf("-move takes ID=BY of a movement in the file; got %q", f)
		}
		v, err := strconv.ParseFloat(by, 64)
		if m := &doc.Movements[i]; err != nil || !(v >= m.From && v <= m.To) {
			return fmt.Errorf("%s goes from %g to %g; got %q", id, m.From, m.To, by)
		}
		st.Moves[i] = v
	}
	return nil
}

func printGap(w io.Writer, g *fitment.Gap) {
	fmt.Fprintf(w, "%s – %s\n", g.A, g.B)
	fmt.Fprintf(w, "  gap    %10.3f mm", g.GapMM)
	if g.GapMM < 0 {
		fmt.Fprint(w, "  (overlap)")
	}
	fmt.Fprintln(w)
	if g.Source != "" {
		fmt.Fprintf(w, "  need   %10.3f mm  %s\n", g.NeedMM, g.Source)
	} else {
		fmt.Fprintln(w, "  need          none: declared as meant to touch")
	}
	fmt.Fprintf(w, "  at     FL %g  FR %g  RL %g  RR %g mm, steer %g°\n", g.At.FL, g.At.FR, g.At.RL, g.At.RR, g.At.Steer)
	for i, p := range g.PointsMM {
		fmt.Fprintf(w, "  point on %-24s station %10.3f  right %10.3f  up %10.3f\n", [2]string{g.A, g.B}[i], p[0], p[1], p[2])
	}
}
