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
// larger of the bounds from its two ends. A piece is cut in half until its bound
// is within geom.GapStop of the best point met.
func arcConvex(arc, s *solid.Solid, enough float64) core {
	b := asBend(arc, s)
	q := arcQueue{lower: math.Inf(1)}
	ends, n := pieces(arc.H.Y)
	best := q.look(&b, s, nearestTurn(arc, &b))
	lo := q.look(&b, s, ends[0])
	for i := range n {
		hi := q.look(&b, s, ends[i+1])
		q.push(b.r, lo, hi)
		lo = hi
		best = best.nearer(hi)
	}
	best = best.nearer(q.span[0].lo)
	for q.n > 0 {
		sp := q.pop()
		if sp.lower >= math.Min(best.dist-geom.GapStop, enough) {
			q.lower = math.Min(q.lower, sp.lower)
			continue
		}
		mid := q.look(&b, s, sp.lo.t.between(sp.hi.t))
		best = best.nearer(mid)
		q.split(b.r, sp, mid)
	}
	p := b.at(best.t)
	return core{
		dist: best.dist, lower: math.Min(q.lower, best.lower),
		a: s.Pose.Apply(p), b: s.Pose.Apply(best.at), n: s.Pose.R.Apply(best.out).Neg(),
	}
}

// nearestTurn is where the arc is nearest to the middle of the other core: a
// first guess.
func nearestTurn(arc *solid.Solid, b *bend) turn {
	d := geom.Vec{X: -b.c.Dot(b.x), Y: -b.c.Dot(b.y)}
	p := arc.LocalSupport(d)
	return turn{p.X / b.r, p.Y / b.r}
}

// looked is a turn of the arc with its place from the core and the part of the
// outward direction in the arc's plane.
type looked struct {
	placed
	t  turn
	gx float64
	gy float64
}

func (l looked) nearer(o looked) looked {
	if o.dist < l.dist {
		return o
	}
	return l
}

// wave is the least value over the piece from t to u, in this order
// anticlockwise, of the bound from l, which is at one of its ends; far is the
// other end.
func (l *looked) wave(r float64, t, u, far turn) float64 {
	g := math.Sqrt(float64(l.gx*l.gx) + float64(l.gy*l.gy))
	own := float64(l.gx*l.t.x) + float64(l.gy*l.t.y)
	down := turn{-l.gx, -l.gy}
	if t.cross(down) >= 0 && down.cross(u) >= 0 {
		return l.lower - float64(r*(g+own))
	}
	end := float64(l.gx*far.x) + float64(l.gy*far.y)
	return l.lower + float64(r*math.Min(0, end-own))
}

// span is a piece of the arc between two turns looked at.
type span struct {
	lo, hi looked
	lower  float64
}

// arcQueue is the pieces still open, the last first.
type arcQueue struct {
	span  [arcSpans]span
	n     int
	lower float64 // least bound of the pieces closed
}

// arcSpans is enough: a piece halved 50 times is a millionth of geom.GapTol
// long, and its bound, which falls by no more than its length, closes it.
const arcSpans = 56

func (q *arcQueue) look(b *bend, s *solid.Solid, t turn) looked {
	p := place(s, b.at(t))
	return looked{placed: p, t: t, gx: p.out.Dot(b.x), gy: p.out.Dot(b.y)}
}

func (q *arcQueue) push(r float64, lo, hi looked) {
	q.span[q.n] = span{lo: lo, hi: hi, lower: bound(r, &lo, &hi)}
	q.n++
}

func bound(r float64, lo, hi *looked) float64 {
	return math.Max(lo.wave(r, lo.t, hi.t, hi.t), hi.wave(r, lo.t, hi.t, lo.t))
}

func (q *arcQueue) pop() span {
	q.n--
	return q.span[q.n]
}

// split puts back the two halves of a piece, the better on top.
func (q *arcQueue) split(r float64, s span, mid looked) {
	l := span{lo: s.lo, hi: mid, lower: bound(r, &s.lo, &mid)}
	h := span{lo: mid, hi: s.hi, lower: bound(r, &mid, &s.hi)}
	if l.lower < h.lower {
		l, h = h, l
	}
	q.span[q.n], q.span[q.n+1] = l, h
	q.n += 2
}
