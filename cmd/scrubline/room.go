package main

import (
	"fmt"
	"io"
	"strconv"

	"scrubline/fitment"
)

var roomViews = map[string]fitment.View{"section": fitment.SectionView, "side": fitment.SideView, "plan": fitment.PlanView}

func runRoom(args []string, stdout, stderr io.Writer) int {
	rest, flags, err := split(args, map[string]bool{"json": true, "svg": true},
		map[string]bool{"view": true, "cell": true, "reach": true, "variant": true})
	if err == nil && len(rest) != 2 {
		err = fmt.Errorf("room takes one scene file and the id of one part")
	}
	view, known := roomViews[flags["view"]]
	if err == nil && !known {
		err = fmt.Errorf("-view takes section, side or plan; got %q", flags["view"])
	}
	if err == nil && flags["json"] != "" && flags["svg"] != "" {
		err = fmt.Errorf("room prints JSON or a picture, not both")
	}
	cell, reach := fitment.RoomCellMM, fitment.RoomReachMM
	for name, to := range map[string]*float64{"cell": &cell, "reach": &reach} {
		if text, ok := flags[name]; err == nil && ok {
			if *to, err = strconv.ParseFloat(text, 64); err != nil || !(*to > 0) {
				err = fmt.Errorf("-%s takes millimetres, more than 0; got %q", name, text)
			}
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
	r, err := m.RoomWithin(rest[1], view, reach, cell)
	if err != nil {
		complain(stderr, "%s: %v", rest[0], err)
		return exitBad
	}
	switch {
	case flags["json"] != "":
		stdout.Write(m.RoomJSON(r))
	case flags["svg"] != "":
		stdout.Write(m.RoomSVG(r))
	default:
		printRoom(stdout, fitment.NewWords(m.Doc), r)
	}
	if r.StandsFree() {
		return exitClear
	}
	return exitShort
}

// printRoom prints the map with a letter for each thing that bounds it, some
// cells to a letter so that it fits a terminal.
func printRoom(out io.Writer, w *fitment.Words, r *fitment.Room) {
	fmt.Fprintln(out, w.RoomTitle(r))
	mark := map[string]byte{"": ' '}
	borders := r.Borders()
	for i := range borders {
		mark[borders[i].By] = '+'
		if i < 26 {
			mark[borders[i].By] = byte('a' + i)
		}
	}
	across, up := "across", "up"
	switch r.View {
	case fitment.SideView:
		across = "to the rear"
	case fitment.PlanView:
		across, up = "to the rear", "to the right, downwards"
	default:
		across = "to the right"
	}
	each := max(1, (r.Nu+75)/76)
	fmt.Fprintf(out, "A sign is %g mm wide and %g high; %s, %s; blank is free, # is where it stands, a dot is far from any room\n",
		float64(each)*r.CellMM, float64(2*each)*r.CellMM, across, up)
	for n := range (r.Nw + 2*each - 1) / (2 * each) {
		row := n * 2 * each
		if r.View != fitment.PlanView {
			row = r.Nw - 1 - row
		}
		line := make([]byte, 0, 80)
		for u := 0; u < r.Nu; u += each {
			x, y := r.LoMM[0]+(float64(u)+0.5)*r.CellMM, r.LoMM[1]+(float64(row)+0.5)*r.CellMM
			by, _ := r.At(x, y)
			c, ok := mark[by]
			if !ok {
				c = '.'
			}
			if du, dw := r.AtMM[0]-x, r.AtMM[1]-y; du >= -r.CellMM && du < float64(each)*r.CellMM && dw < r.CellMM && dw >= -float64(2*each)*r.CellMM {
				c = '#'
			}
			line = append(line, c)
		}
		fmt.Fprintf(out, "|%s|\n", line)
	}
	for i := range borders {
		fmt.Fprintf(out, "  %c  %s\n", mark[borders[i].By], w.BorderWords(&borders[i]))
	}
}
