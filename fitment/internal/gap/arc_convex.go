package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// bend is a circular centreline in the axes of the other core.
type bend struct {
	c, x, y geom.Vec // centre, and the axes of its plane
	r       float64
}

// asBend places arc in the axes of s.
func asBend(arc, s *solid.Solid) bend {
	r := s.Pose.R.TMul(&arc.Pose.R)
	return bend{c: s.Pose.Inverse(arc.Pose.P), x: r.AxisX(), y: r.AxisY(), r: arc.H.X}
}

// at is the centreline's point at t.
func (b *bend) at(t turn) geom.Vec {
	return b.c.AddScaled(b.x, b.r*t.x).AddScaled(b.y, b.r*t.y)
}

// arcConvex is the gap of an arc's centreline and a convex core: the least
// signed distance f of its points, by branch and bound.
//
// The signed distance to a convex set is convex: with its value f0 at a point p0
// and outward direction g there, f(p) ≥ f0 + g·(p − p0) for every p. Along the
// circle p(t) = c + r(x·tx + y·ty) that is a plane wave in the turn t,
//
//	f(t) ≥ f0 + r (γ·t − γ·t0),   γ = (g·x, g·y),
//
// whose least value on a piece of less than half a turn is f0 − r|γ| − r γ·t0
// where the piece has the direction −γ in it, and at one of its ends where not.
// (Along the arc length s it is f0 + f0'·s − s²/2r at the least: a bound of
// second order, so that the pieces need not become short.) Each piece has the
// larger of the bounds from its two ends.
//
// A piece is cut until its bound is within geom.GapStop of the best point met:
// where f falls in at one end and out at the other, by turns where its slope
// would be nought if it were even, and in the middle.
func arcConvex(arc, s *solid.Solid, enough float64, c *core) {
	q := arcQueue{bend: asBend(arc, s), core: s, lower: math.Inf(1)}
	q.best.dist = math.Inf(1)
	var first looked
	q.look(nearestTurn(arc, &q.bend), &first)
	ends, n := pieces(arc.H.Y)
	q.look(ends[0], &q.span[0].lo)
	for i := range n {
		sp := &q.span[i]
		if i > 0 {
			sp.lo = q.span[i-1].hi
		}
		q.look(ends[i+1], &sp.hi)
		sp.bound(q.r)
	}
	q.n = n
	stop := geom.GapStop
	if s.Kind == solid.Hull {
		stop *= 2 // its own bound at a point is only within geom.GapStop
	}
	for q.n > 0 {
		sp := &q.span[q.n-1]
		if sp.lower < q.best.dist-stop && sp.lower < enough && q.n < arcSpans {
			q.split()
			continue
		}
		q.n--
		q.lower = min(q.lower, sp.lower)
	}
	c.placed(s.Pose.Apply(q.at(q.bestTurn)), s, &q.best)
	c.lower = min(q.lower, c.lower)
}

// nearestTurn is where the arc is nearest to the middle of the other core: a
// first guess.
func nearestTurn(arc *solid.Solid, b *bend) turn {
	d := geom.Vec{X: -b.c.Dot(b.x), Y: -b.c.Dot(b.y)}
	p := arc.LocalSupport(d)
	return turn{p.X / b.r, p.Y / b.r}
}

// looked is a turn of the arc with the lower bound of the signed distance there
// and the part γ of its outward direction in the arc's plane.
type looked struct {
	t, g  turn
	lower float64
}

// slope is that of f along the arc, anticlockwise.
func (l *looked) slope() float64 { return l.t.cross(l.g) }

// wave is the least value over the piece from t to u, in this order
// anticlockwise, of the bound from l, which is at one of its ends; far is the
// other end.
func (l *looked) wave(r float64, t, u, far turn) float64 {
	own := l.g.dot(l.t)
	down := turn{-l.g.x, -l.g.y}
	if t.cross(down) >= 0 && down.cross(u) >= 0 {
		return l.lower - float64(r*(math.Sqrt(l.g.dot(l.g))+own))
	}
	return l.lower + float64(r*min(0, l.g.dot(far)-own))
}

// span is a piece of the arc between two turns looked at. cuts counts the cuts
// it comes from.
type span struct {
	lo, hi looked
	lower  float64
	cuts   int
}

// arcQueue is the search: the pieces still open, the last first, the best point
// met, and the least bound of the pieces closed.
type arcQueue struct {
	bend
	core     *solid.Solid
	span     [arcSpans]span
	n        int
	best     placed
	bestTurn turn
	lower    float64
}

// arcSpans is enough: every second cut halves, and on 6 m a piece halved 40 times
// is shorter than geom.Tiny; its bound, which falls by no more than its length,
// closes it. Without room a piece is closed with the bound it has.
const arcSpans = 4 + 2*40

// look measures at t, and keeps the best.
func (q *arcQueue) look(t turn, l *looked) {
	var p placed
	place(q.core, q.at(t), &p)
	if p.dist < q.best.dist {
		q.best, q.bestTurn = p, t
	}
	l.t, l.g, l.lower = t, turn{p.out.Dot(q.x), p.out.Dot(q.y)}, p.lower
}

// bound finds the lower bound of a piece from its two ends.
func (s *span) bound(r float64) {
	s.lower = max(s.lo.wave(r, s.lo.t, s.hi.t, s.hi.t), s.hi.wave(r, s.lo.t, s.hi.t, s.lo.t))
}

// split cuts the last piece in two, the better on top.
func (q *arcQueue) split() {
	a, b := &q.span[q.n-1], &q.span[q.n]
	q.n++
	q.look(a.cut(), &b.lo)
	b.hi, a.hi = a.hi, b.lo
	a.cuts++
	b.cuts = a.cuts
	a.bound(q.r)
	b.bound(q.r)
	if a.lower < b.lower {
		*a, *b = *b, *a
	}
}

// cut is where a piece is cut.
func (s *span) cut() turn {
	mid := s.lo.t.between(s.hi.t)
	l, h := s.lo.slope(), s.hi.slope()
	if s.cuts&1 == 1 || l >= 0 || h <= 0 {
		return mid
	}
	w := l / (l - h)
	x := s.lo.t.x + float64((s.hi.t.x-s.lo.t.x)*w)
	y := s.lo.t.y + float64((s.hi.t.y-s.lo.t.y)*w)
	k := math.Sqrt(float64(x*x) + float64(y*y))
	t := turn{x / k, y / k}
	if s.lo.t.cross(t) <= 0 || t.cross(s.hi.t) <= 0 {
		return mid
	}
	return t
}
