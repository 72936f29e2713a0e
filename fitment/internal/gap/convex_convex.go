package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// convexConvex is the gap of any two convex cores, by search.
func convexConvex(a, b *solid.Solid, enough float64) core {
	m := pair{a: a, b: b, r: a.Pose.R.TMul(&b.Pose.R), t: a.Pose.Inverse(b.Pose.P)}
	c := m.signed(enough)
	c.a, c.b, c.n = a.Pose.Apply(c.a), a.Pose.Apply(c.b), a.Pose.R.Apply(c.n)
	return c
}

// pair is two convex cores, the second placed in the axes of the first:
// the point p of b stands at r·p + t. The search is for the origin's place
// from the set D of differences a − b of their points: outside D the distance
// is the gap, inside D the least depth is.
type pair struct {
	a, b *solid.Solid
	r    geom.Mat
	t    geom.Vec
}

// vertex is a point of D with the two points it is the difference of.
type vertex struct{ w, a, b geom.Vec }

// support finds the vertex of D farthest along d.
func (m *pair) support(d geom.Vec, v *vertex) {
	v.a = m.a.LocalSupport(d)
	v.b = m.t
	if m.b.Kind != solid.Point {
		q := m.b.LocalSupport(m.r.ApplyT(d.Neg()))
		v.b = m.r.Apply(q).Add(m.t)
	}
	v.w = v.a.Sub(v.b)
}

// at is support as a value.
func (m *pair) at(d geom.Vec) (v vertex) {
	m.support(d, &v)
	return v
}

// signed is the signed gap in the axes of a. The search for the distance comes
// first; cores that touch or overlap are measured by depth.
func (m *pair) signed(enough float64) core {
	var s simplex
	if c, ok := m.distance(&s, enough); ok {
		return c
	}
	return m.depth()
}

// distance is the search of Gilbert, Johnson and Keerthi (1988): the nearest
// point to the origin of a growing and shrinking simplex of vertices of D. ok
// is false when the cores touch or overlap.
//
// The nearest point v so far is an upper bound |v|. The vertex w farthest
// towards the origin gives the plane through w square to v, beyond which D does
// not reach, and so the lower bound v·w/|v|. The search stops when these bounds
// are within geom.GapStop of each other. That v no longer changes is no reason
// to stop by itself: it is where rounding leaves nothing more to gain, and then
// the best bounds met are handed on as they are.
func (m *pair) distance(s *simplex, enough float64) (c core, ok bool) {
	d := m.t
	if d == (geom.Vec{}) {
		d.X = 1
	}
	var w vertex
	m.support(d, &w)
	s.start(&w)
	best := math.Inf(-1)
	var bestN geom.Vec
	for range searchSteps {
		if s.n == 4 || s.sq <= geom.TouchTol*geom.TouchTol {
			return core{}, false
		}
		dist := math.Sqrt(s.sq)
		n := s.p.Scale(-1 / dist)
		m.support(n, &w)
		lower := -n.Dot(w.w)
		if lower > best {
			best, bestN = lower, n
		}
		if dist-lower <= geom.GapStop {
			return s.result(dist, lower, n), true
		}
		if best >= enough {
			return core{dist: dist, lower: best}, true
		}
		if !s.add(&w) {
			break
		}
	}
	return s.result(math.Sqrt(s.sq), best, bestN), true
}

// searchSteps only makes sure that every search ends. Random pairs and pairs full
// of ties have taken 31 steps at most; the proofs in the tests would show a cut.
const searchSteps = 200
