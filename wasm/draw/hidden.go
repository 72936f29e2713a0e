package draw

import (
	"scrubline/fitment"
	"scrubline/wasm/view"
)

// Hidden is what nearer outlines hide of each outline's border: for every
// index of outs, which lie back to front, the hidden stretches. Drafting shows
// them dashed (ISO 128-2 line type 02), so that nothing under a panel is lost.
func Hidden(outs []fitment.Outline) [][][2]fitment.Pt {
	extents := make([]view.Extent, len(outs))
	pieces := make([][][]fitment.Pt, len(outs))
	for i := range outs {
		extents[i], _ = view.ExtentOf(outs[i].Seen)
		for _, p := range outs[i].Seen {
			pieces[i] = append(pieces[i], anticlockwise(p))
		}
	}
	out := make([][][2]fitment.Pt, len(outs))
	for i := range outs {
		var over [][]fitment.Pt // pieces in front that can hide any of it
		for j := i + 1; j < len(outs); j++ {
			if meet(extents[i], extents[j]) {
				over = append(over, pieces[j]...)
			}
		}
		if len(over) == 0 {
			continue
		}
		for _, path := range Border(outs[i].Seen) {
			out[i] = append(out[i], hiddenOf(path, over)...)
		}
	}
	return out
}

// hiddenOf is what of a path lies under pieces.
func hiddenOf(path Path, over [][]fitment.Pt) [][2]fitment.Pt {
	var out [][2]fitment.Pt
	n := len(path.Pts)
	last := n - 1
	if path.Closed {
		last = n
	}
	for k := range last {
		a, b := path.Pts[k], path.Pts[(k+1)%n]
		var covered []span
		for _, q := range over {
			if s, ok := hiddenBy(a, b, q, false); ok {
				covered = append(covered, s)
			}
		}
		for _, s := range joined(covered) {
			out = append(out, [2]fitment.Pt{lerp(a, b, s.from), lerp(a, b, s.to)})
		}
	}
	return out
}

// joined is the union of spans, in order.
func joined(list []span) []span {
	var out []span
	at := 0.0
	for _, open := range complement(list) {
		if open.from > at {
			out = append(out, span{at, open.from})
		}
		at = open.to
	}
	if at < 1 {
		out = append(out, span{at, 1})
	}
	return out
}

func meet(a, b view.Extent) bool {
	return a.Lo[0] < b.Hi[0] && b.Lo[0] < a.Hi[0] && a.Lo[1] < b.Hi[1] && b.Lo[1] < a.Hi[1]
}
