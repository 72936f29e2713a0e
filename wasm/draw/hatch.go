package draw

import (
	"math"
	"sort"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// hatchedOf is the hatching of what is cut of a part, and the box around that.
type hatchedOf struct {
	part      int
	cut, bore [][]fitment.Pt
	spacing   float64
	lines     [][2]fitment.Pt
	box       view.Extent
}

// hatched is what it was before when neither the cut nor the spacing has changed.
func (s *Sheet) hatched(o *fitment.Outline) *hatchedOf {
	spacing := hatchSpacing(s.scale())
	b := s.Borders
	if b != nil {
		if k := b.hatched[o.Part]; k != nil && k.spacing == spacing && same(k.cut, o.Cut) && same(k.bore, o.Bore) {
			return k
		}
	}
	k := &hatchedOf{part: o.Part, cut: o.Cut, bore: o.Bore, spacing: spacing, lines: Hatch(o.Cut, o.Bore, hatchAngle(o.Part), spacing)}
	k.box, _ = view.ExtentOf(o.Cut)
	if b != nil {
		if b.hatched == nil {
			b.hatched = map[int]*hatchedOf{}
		}
		b.hatched[o.Part] = k
	}
	return k
}

// holds says whether a point of the plane lies on what is cut.
func (k *hatchedOf) holds(p fitment.Pt) bool {
	return p[0] >= k.box.Lo[0] && p[0] <= k.box.Hi[0] && p[1] >= k.box.Lo[1] && p[1] <= k.box.Hi[1] && on(p, k.cut)
}

// Hatch is the hatching of a cut: parallel lines at angle (radians) from the
// first axis, spacing millimetres apart, anchored to the axes so that it stays
// still while pieces move over it, within the union of the convex pieces and
// outside the convex holes. Each result is a line from its first point to its
// second.
func Hatch(pieces, holes [][]fitment.Pt, angle, spacing float64) [][2]fitment.Pt {
	sin, cos := math.Sincos(angle)
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, piece := range pieces {
		for _, p := range piece {
			v := p[1]*cos - p[0]*sin
			lo, hi = math.Min(lo, v), math.Max(hi, v)
		}
	}
	if spacing <= 0 || hi-lo > spacing*4000 {
		return nil
	}
	var out [][2]fitment.Pt
	for v := math.Ceil(lo/spacing) * spacing; v < hi; v += spacing {
		for _, s := range without(chords(pieces, sin, cos, v), chords(holes, sin, cos, v)) {
			out = append(out, [2]fitment.Pt{
				{s.from*cos - v*sin, s.from*sin + v*cos},
				{s.to*cos - v*sin, s.to*sin + v*cos},
			})
		}
	}
	return out
}

// chords are the stretches of the line at offset v inside the convex pieces,
// joined where they overlap, in order.
func chords(pieces [][]fitment.Pt, sin, cos, v float64) []span {
	var list []span
	for _, piece := range pieces {
		from, to := math.Inf(1), math.Inf(-1)
		for i, a := range piece {
			b := piece[(i+1)%len(piece)]
			va, vb := a[1]*cos-a[0]*sin-v, b[1]*cos-b[0]*sin-v
			if (va < 0) == (vb < 0) {
				continue
			}
			t := va / (va - vb)
			u := (a[0]+(b[0]-a[0])*t)*cos + (a[1]+(b[1]-a[1])*t)*sin
			from, to = math.Min(from, u), math.Max(to, u)
		}
		if to > from {
			list = append(list, span{from, to})
		}
	}
	sort.Slice(list, func(i, j int) bool { return list[i].from < list[j].from })
	var joined []span
	for _, s := range list {
		if n := len(joined); n > 0 && s.from <= joined[n-1].to+slack {
			joined[n-1].to = math.Max(joined[n-1].to, s.to)
			continue
		}
		joined = append(joined, s)
	}
	return joined
}

// without is what of the sorted spans the sorted holes leave.
func without(spans, holes []span) []span {
	if len(holes) == 0 {
		return spans
	}
	var out []span
	for _, s := range spans {
		at := s.from
		for _, h := range holes {
			if h.to <= at || h.from >= s.to {
				continue
			}
			if h.from > at {
				out = append(out, span{at, h.from})
			}
			at = math.Max(at, h.to)
		}
		if at < s.to {
			out = append(out, span{at, s.to})
		}
	}
	return out
}
