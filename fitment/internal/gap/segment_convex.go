package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// segmentConvex is the gap of a segment and a core of closed form.
//
// The signed distance f(s) along the segment is convex, and place gives its
// value and slope. The least value is in the bracket [lo, hi] of a falling and a
// rising place. The root of the slope between them is the next place, with one
// side's slope halved when the same side has moved twice (the Illinois rule);
// where that crawls, in a kink, halving takes over.
//
// It stops when the tangent at the best place, drawn on to the segment's end, is
// within geom.GapStop of it: that is the width of the slab between supporting
// planes square to the result's direction. (The tangents of lo and hi meet
// higher, and serve as the bound for a search that may end early; but their
// meeting says nothing about the direction, nor, at nought, about the depth.)
//
// A segment nearer than geom.GapTol, or in the core, is left to the general
// search: the least move that parts them is more than its deepest point needs.
func segmentConvex(seg, s *solid.Solid, enough float64, c *core) {
	mid, u := s.Pose.Inverse(seg.Pose.P), s.Pose.R.ApplyT(seg.Pose.R.AxisX())
	l := line{core: s, mid: mid, u: u, half: seg.H.X}
	at, lower := l.least(enough)
	if at.dist <= geom.GapTol {
		convexConvex(seg, s, enough, c)
		return
	}
	c.placed(s.Pose.Apply(mid.AddScaled(u, at.s)), s, &at.placed)
	c.lower = lower
}

// line is a segment in the axes of a core: mid + s·u, |s| ≤ half.
type line struct {
	core   *solid.Solid
	mid, u geom.Vec
	half   float64
}

// stop is a place along the segment, with the slope of the distance there.
type stop struct {
	placed
	s, slope float64
}

func (l *line) look(s float64) (p stop) {
	place(l.core, l.mid.AddScaled(l.u, s), &p.placed)
	p.s, p.slope = s, p.out.Dot(l.u)
	return p
}

// slab is the lower bound from a stop alone: its tangent, drawn on to the end of
// the segment that it falls towards.
func (l *line) slab(p *stop) float64 {
	end := l.half
	if p.slope > 0 {
		end = -l.half
	}
	return p.lower + float64(p.slope*(end-p.s))
}

// least is the place of the least distance and a lower bound of it. It ends
// early when something is too near, or when the bound is enough.
func (l *line) least(enough float64) (best stop, lower float64) {
	lo := l.look(-l.half)
	if lo.slope >= 0 {
		return lo, lo.lower
	}
	hi := l.look(l.half)
	if hi.slope <= 0 {
		return hi, hi.lower
	}
	best = lo
	if hi.dist < lo.dist {
		best = hi
	}
	fl, fh := lo.slope, hi.slope // slopes, as the Illinois rule weighs them
	for i := range lineSteps {
		if lower = l.slab(&best); best.dist-lower <= geom.GapStop || best.dist <= geom.GapTol {
			return best, lower
		}
		if lower = tangents(&lo, &hi); lower >= enough && lower > geom.GapTol {
			return best, lower
		}
		t := lo.s + float64((hi.s-lo.s)*(fl/(fl-fh)))
		if i%4 == 3 || !(t > lo.s && t < hi.s) {
			t = (lo.s + hi.s) / 2
		}
		m := l.look(t)
		if m.dist < best.dist || (m.dist == best.dist && m.slope*m.slope < best.slope*best.slope) {
			best = m
		}
		if m.slope < 0 {
			lo, fl, fh = m, m.slope, fh/2
		} else {
			hi, fl, fh = m, fl/2, m.slope
		}
	}
	return best, lower
}

// lineSteps is more than halving, every fourth step, needs to bring 6 m down to
// rounding.
const lineSteps = 4 * 32

// tangents is the height at which the tangents of a falling and a rising place
// meet.
func tangents(lo, hi *stop) float64 {
	d := hi.s - lo.s
	x := (hi.lower - lo.lower - float64(hi.slope*d)) / (lo.slope - hi.slope)
	return lo.lower + float64(lo.slope*math.Min(math.Max(x, 0), d))
}
