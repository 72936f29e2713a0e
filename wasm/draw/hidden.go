package draw

import (
	"scrubline/fitment"
	"scrubline/wasm/view"
)

// Hidden is what nearer outlines hide of each outline's border: for every
// index of outs, which lie back to front, the hidden stretches. Drafting shows
// them dashed (ISO 128-2 line type 02), so that nothing under a panel is lost.
//
// With borders that are kept, an outline's stretches come back, the very same,
// as long as neither it nor any that could hide some of it has moved.
func Hidden(outs []fitment.Outline, v fitment.View, borders *Borders) [][][2]fitment.Pt {
	extents := make([]view.Extent, len(outs))
	for i := range outs {
		extents[i], _ = view.ExtentOf(outs[i].Seen)
	}
	h := hiding{outs, v, borders, make([][]poly, len(outs))}
	out := make([][][2]fitment.Pt, len(outs))
	var nearer []int
	for i := range outs {
		nearer = nearer[:0]
		for j := i + 1; j < len(outs); j++ {
			if meet(extents[i], extents[j]) {
				nearer = append(nearer, j)
			}
		}
		if len(nearer) > 0 {
			out[i] = h.lines(i, extents[i], nearer)
		}
	}
	return out
}

// hiding is one call of [Hidden]; its pieces are made ready when asked for.
type hiding struct {
	outs    []fitment.Outline
	view    fitment.View
	borders *Borders
	polys   [][]poly
}

// hiddenKept is what was hidden of a part, and by what.
type hiddenKept struct {
	seen  [][]fitment.Pt
	by    []hider
	lines [][2]fitment.Pt
}

type hider struct {
	part int
	seen [][]fitment.Pt
}

// lines are the hidden stretches of an outline, as they were when nothing of what
// they come from has changed.
func (h *hiding) lines(i int, box view.Extent, nearer []int) [][2]fitment.Pt {
	o, b := &h.outs[i], h.borders
	key := borderKey{h.view, o.Part}
	if b != nil {
		if k := b.hidden[key]; k != nil && same(k.seen, o.Seen) && h.sameHiders(k.by, nearer) {
			return k.lines
		}
	}
	var over []*poly // pieces in front that can hide any of it
	for _, j := range nearer {
		for k := range h.pieces(j) {
			if q := &h.polys[j][k]; meet(box, q.box) {
				over = append(over, q)
			}
		}
	}
	var lines [][2]fitment.Pt
	if len(over) > 0 {
		for _, path := range b.Of(h.view, o.Part, o.Seen) {
			lines = append(lines, hiddenOf(path, over)...)
		}
	}
	if b != nil {
		k := &hiddenKept{seen: o.Seen, lines: lines}
		for _, j := range nearer {
			k.by = append(k.by, hider{h.outs[j].Part, h.outs[j].Seen})
		}
		if b.hidden == nil {
			b.hidden = map[borderKey]*hiddenKept{}
		}
		b.hidden[key] = k
	}
	return lines
}

func (h *hiding) sameHiders(by []hider, nearer []int) bool {
	if len(by) != len(nearer) {
		return false
	}
	for k, j := range nearer {
		if by[k].part != h.outs[j].Part || !same(by[k].seen, h.outs[j].Seen) {
			return false
		}
	}
	return true
}

func (h *hiding) pieces(j int) []poly {
	if h.polys[j] == nil {
		h.polys[j] = makePolys(h.outs[j].Seen)
	}
	return h.polys[j]
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
