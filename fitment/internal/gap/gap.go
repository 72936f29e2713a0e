// Package gap measures the signed gap between two solids.
//
// # What is measured
//
// A solid is a core grown by its rounding radius. The gap of two solids is the
// signed distance of their cores less both radii. For convex cores the signed
// distance is the distance apart or minus the least move that parts them, and
// taking off the radii is exact: the difference of the two grown sets is the
// difference of the cores grown by the sum of the radii, and a supporting plane
// of the one, moved by that sum, supports the other. For an arc, which is not
// convex, the signed gap is by definition the least signed distance of the
// points of its centreline to the other core, less both radii.
//
// # Exactness
//
// Closed forms where they exist; else a search that stops when an upper bound
// (two points of the solids) and a lower bound (a slab between supporting
// planes) are within geom.GapStop. Every result is within geom.GapTol.
//
// One file holds one pair of kinds or one family of pairs; between and ordered
// are the table of which.
package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// Result is a signed gap (mm): the distance apart, or minus the depth of the
// overlap, with the nearest (or deepest) point on the surface of each solid.
// N is the unit direction from A to B along which the gap is measured: moving
// the second solid by −Gap along N makes the two just touch. For an arc that
// holds when they are apart; when they overlap, N parts the deepest point of
// its centreline from the other core, and the rest of the arc may still touch.
//
// The gap is (B − A)·N within geom.GapTol.
type Result struct {
	Gap  float64
	A, B geom.Vec
	N    geom.Vec
}

// Between is the signed gap of two solids.
func Between(a, b *solid.Solid) (r Result) {
	switch {
	case a.Kind|b.Kind == solid.Point: // the most frequent
		ballBall(a, b, &r)
	case a.Kind > b.Kind:
		between(b, a, &r)
		r.A, r.B, r.N = r.B, r.A, r.N.Neg()
	default:
		between(a, b, &r)
	}
	return r
}

// between is Between for kinds in the order of package solid. Here and below,
// results are written where they are wanted: WebAssembly pays for every struct of
// more than four words that is returned or copied.
func between(a, b *solid.Solid, r *Result) {
	switch {
	case b.Kind <= solid.Segment:
		segmentSegment(a, b, r)
	case closed(a.Kind, b.Kind):
		pointConvex(a, b, r)
	default:
		var c core
		ordered(a, b, math.Inf(1), &c)
		c.grown(a.Round, b.Round, r)
	}
}

// closed says that the gap of these kinds, in order, has a closed form, with no
// core and no bound to speak of.
func closed(a, b solid.Kind) bool {
	return b <= solid.Segment || a == solid.Point && b <= solid.Box
}

// AtLeast asks whether the gap is enough, and stops as soon as that is sure.
// If so, ok is true, Result.Gap is a certified lower bound, no less than enough,
// and nothing else of the result is meant. If not, the result is whole; its gap
// may then be above enough by geom.GapTol at most.
func AtLeast(a, b *solid.Solid, enough float64) (r Result, ok bool) {
	if closed(min(a.Kind, b.Kind), max(a.Kind, b.Kind)) {
		r = Between(a, b) // as fast as asking
		return r, r.Gap >= enough
	}
	ca, ra := a.BoundingBall()
	cb, rb := b.BoundingBall()
	if far := ca.Dist(cb) - ra - rb; far >= enough {
		r.Gap = far
		return r, true
	}
	grow := a.Round + b.Round
	var c core
	coreGap(a, b, enough+grow, &c)
	if c.lower >= enough+grow {
		r.Gap = max(enough, c.lower-grow)
		return r, true
	}
	c.grown(a.Round, b.Round, &r)
	return r, false
}

// Slab is the signed width between the supporting planes of a and b square to
// the unit vector n, from a to b: a lower bound of the gap for every n, and for
// convex solids the gap itself at the N of the result. It costs a fraction of a
// gap; with the N of a state nearby it often settles what is far enough apart.
func Slab(a, b *solid.Solid, n geom.Vec) float64 {
	la, lb := a.Pose.R.ApplyT(n), b.Pose.R.ApplyT(n)
	ha := la.Dot(a.LocalSupport(la))
	hb := lb.Dot(b.LocalSupport(lb.Neg()))
	return n.Dot(b.Pose.P.Sub(a.Pose.P)) + hb - ha - a.Round - b.Round
}

// Closer says that the gap is below limit. It is never false when the gap is
// below limit; it may be true up to geom.GapTol above it.
func Closer(a, b *solid.Solid, limit float64) bool {
	_, ok := AtLeast(a, b, limit)
	return !ok
}

// core is the signed gap of two cores, in the world unless said otherwise.
type core struct {
	dist  float64  // an upper bound of the signed distance, within the tolerance of it
	lower float64  // a certified lower bound
	a, b  geom.Vec // points of the two cores with (b − a)·n = dist
	n     geom.Vec // from a to b
}

func (c *core) grown(ra, rb float64, r *Result) {
	r.Gap = c.dist - ra - rb
	r.A, r.B, r.N = c.a.AddScaled(c.n, ra), c.b.AddScaled(c.n, -rb), c.n
}

// swap makes it the same gap seen from the other solid.
func (c *core) swap() { c.a, c.b, c.n = c.b, c.a, c.n.Neg() }

// coreGap finds the way to measure two cores. The search may stop as soon as
// the lower bound reaches enough; then only lower is meant.
func coreGap(a, b *solid.Solid, enough float64, c *core) {
	if a.Kind > b.Kind {
		ordered(b, a, enough, c)
		c.swap()
		return
	}
	ordered(a, b, enough, c)
}

// ordered is coreGap for kinds in the order of package solid:
//
//	           Point    Segment  Disc     Cylinder  Box      Hull    Arc
//	Point      –        –        –        –         –        convex  arc_point
//	Segment             –        segment* segment*  convex   convex  arc_convex°
//	Disc                         convex*  convex*   convex   convex  arc_convex°
//	Cylinder                              convex*   convex   convex  arc_convex°
//	Box                                             convex   convex  arc_convex
//	Hull                                                     convex  arc_convex
//	Arc                                                              arc_arc°
//
// – is a closed form of the whole solids, from segment_segment or point_convex:
// see between. segment is segment_convex, convex is convex_convex, which is
// faster than segment_convex for a box; * is round_round when the axes are
// parallel, ° arc_coaxial when there is one axis.
func ordered(a, b *solid.Solid, enough float64, c *core) {
	switch {
	case b.Kind == solid.Arc:
		withArc(a, b, enough, c)
		return
	case b.Kind <= solid.Cylinder && roundRound(a, b, c):
		return
	case a.Kind == solid.Segment && b.Kind <= solid.Cylinder:
		segmentConvex(a, b, enough, c)
		return
	}
	convexConvex(a, b, enough, c)
}

func withArc(a, arc *solid.Solid, enough float64, c *core) {
	switch {
	case a.Kind == solid.Arc:
		if !coaxialArcs(a, arc, c) {
			arcArc(a, arc, enough, c)
		}
		return
	case a.Kind == solid.Point:
		pointArc(a, arc, c)
		return
	case !arcAboutRound(arc, a, c):
		arcConvex(arc, a, enough, c)
	}
	c.swap()
}

// exact makes it a gap from a closed form.
func (c *core) exact(dist float64, a, b, n geom.Vec) {
	c.dist, c.lower, c.a, c.b, c.n = dist, dist, a, b, n
}

// apart makes it the exact gap of two nearest points; fallback is the direction
// when they are one point.
func (c *core) apart(a, b, fallback geom.Vec) {
	v := b.Sub(a)
	d := v.Len()
	if d > geom.Tiny {
		fallback = v.Scale(1 / d)
	}
	c.exact(d, a, b, fallback)
}

// placed makes it the gap of the point p of a core and the place that it has,
// in the axes of s, from s.
func (c *core) placed(p geom.Vec, s *solid.Solid, q *placed) {
	c.exact(q.dist, p, s.Pose.Apply(q.at), s.Pose.R.Apply(q.out).Neg())
	c.lower = q.lower
}
