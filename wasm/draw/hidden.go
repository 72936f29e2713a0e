package draw

import (
	"scrubline/fitment"
	"scrubline/wasm/view"
)

// Hidden is what nearer outlines hide of each outline's border: for every
// index of outs, which lie back to front, the hidden stretches. Drafting shows
// them dashed (ISO 128-2 line type 02), so that nothing under a panel is lost.
func Hidden(outs []fitment.Outline, v fitment.View, borders *Borders) [][][2]fitment.Pt {
	extents := make([]view.Extent, len(outs))
	pieces := make([][]poly, len(outs))
	for i := range outs {
		extents[i], _ = view.ExtentOf(outs[i].Seen)
		pieces[i] = makePolys(outs[i].Seen)
	}
	out := make([][][2]fitment.Pt, len(outs))
	var over []*poly // pieces in front that can hide any of it
	for i := range outs {
		over = over[:0]
		for j := i + 1; j < len(outs); j++ {
			if !meet(extents[i], extents[j]) {
				continue
			}
			for k := range pieces[j] {
				if meet(extents[i], pieces[j][k].box) {
					over = append(over, &pieces[j][k])
				}
			}
		}
		if len(over) == 0 {
			continue
		}
		for _, path := range borders.Of(v, outs[i].Part, outs[i].Seen) {
			out[i] = append(out[i], hiddenOf(path, over)...)
		}
	}
	return out
}

// hiddenOf is what of a path lies under pieces.
func hiddenOf(path Path, over []*poly) [][2]fitment.Pt {
	var out [][2]fitment.Pt
	var covered []span
	n := len(path.Pts)
	last := n - 1
	if path.Closed {
		last = n
	}
	for k := range last {
		a, b := path.Pts[k], path.Pts[(k+1)%n]
		covered = covered[:0]
		for _, q := range over {
			if s, ok := q.hides(a, b, false); ok {
				covered = append(covered, s)
				if s == (span{0, 1}) {
					break
				}
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
