package main

import (
	"fmt"
	"io"
	"strconv"
	"strings"

	"scrubline/fitment"
)

func runMend(args []string, stdout, stderr io.Writer) int {
	rest, flags, err := split(args, map[string]bool{"json": true, "noturn": true}, map[string]bool{"along": true, "within": true, "variant": true})
	if err == nil && len(rest) != 2 {
		err = fmt.Errorf("mend takes one scene file and the id of one part")
	}
	o := fitment.MendOptions{NoTurns: flags["noturn"] != ""}
	if err == nil {
		o.Axes, err = axesOf(flags["along"])
	}
	if within, ok := flags["within"]; err == nil && ok {
		if o.LimitMM, err = strconv.ParseFloat(within, 64); err != nil || !(o.LimitMM > 0) {
			err = fmt.Errorf("-within takes millimetres, more than 0; got %q", within)
		}
	}
	if err != nil {
		complain(stderr, "%v", err)
		return exitBad
	}
	m := loadVariant(rest[0], flags["variant"], stderr)
	if m == nil {
		return exitBad
	}
	d, err := m.Mend(rest[1], o)
	if err != nil {
		complain(stderr, "%s: %v", rest[0], err)
		return exitBad
	}
	if flags["json"] != "" {
		stdout.Write(m.MendJSON(d))
	} else {
		printMend(stdout, fitment.NewWords(m.Doc), d)
	}
	if d.Clear || len(d.Moves) > 0 {
		return exitClear
	}
	return exitShort
}

// axesOf reads -along: some of x, y and z, with or without commas.
func axesOf(text string) (axes [3]bool, err error) {
	for _, c := range strings.ReplaceAll(text, ",", "") {
		k := strings.IndexRune("xyz", c)
		if k < 0 {
			return axes, fmt.Errorf("-along takes x, y and z, as in -along y,z; got %q", text)
		}
		axes[k] = true
	}
	if text != "" && axes == ([3]bool{}) {
		return axes, fmt.Errorf("-along takes x, y and z, as in -along y,z; got %q", text)
	}
	return axes, nil
}

func printMend(out io.Writer, w *fitment.Words, d *fitment.Mend) {
	fmt.Fprintln(out, w.MendTitle(d))
	for i := range d.Moves {
		mv := &d.Moves[i]
		fmt.Fprintf(out, "  %s\n", w.MendMove(mv))
		by := mv.ByMM
		if mv.TurnDeg != 0 {
			fmt.Fprintf(out, "      exactly %.3f° about %c; its farthest point goes at most %.2f mm\n", mv.TurnDeg, "xyz"[mv.Axis], mv.SizeMM)
		} else {
			fmt.Fprintf(out, "      exactly %.2f, %.2f, %.2f mm, %.2f mm in all\n", by[0]+0, by[1]+0, by[2]+0, mv.SizeMM)
		}
		if text := w.MendKeeps(mv); text != "" {
			fmt.Fprintf(out, "      %s\n", text)
		}
		if text := w.MendFollows(d, mv); text != "" {
			fmt.Fprintf(out, "      %s\n", text)
		}
	}
	if d.Partial {
		fmt.Fprintln(out, "Not every move could be tried: there may be a smaller one.")
	}
}
