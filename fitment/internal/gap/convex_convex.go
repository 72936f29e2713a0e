package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// convexConvex is the gap of any two convex cores, by search.
func convexConvex(a, b *solid.Solid, enough float64, c *core) {
	var m pair
	m.set(a, b)
	m.signed(enough, c)
	c.a, c.b, c.n = a.Pose.Apply(c.a), a.Pose.Apply(c.b), a.Pose.R.Apply(c.n)
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

// set is written out row by row: WebAssembly pays for every struct of more than
// four words that is copied or returned.
func (m *pair) set(a, b *solid.Solid) {
	m.a, m.b = a, b
	p, q := &a.Pose.R, &b.Pose.R
	x, y, z := p.ApplyT(q.AxisX()), p.ApplyT(q.AxisY()), p.ApplyT(q.AxisZ())
	m.r.X = geom.Vec{X: x.X, Y: y.X, Z: z.X}
	m.r.Y = geom.Vec{X: x.Y, Y: y.Y, Z: z.Y}
	m.r.Z = geom.Vec{X: x.Z, Y: y.Z, Z: z.Z}
	m.t = p.ApplyT(b.Pose.P.Sub(a.Pose.P))
}

// vertex is a point w of D with the point of the first core that it is from; that
// of the second is a − w.
type vertex struct{ w, a geom.Vec }

// b is the vertex's point of the second core.
func (v *vertex) b() geom.Vec { return v.a.Sub(v.w) }

// support finds the vertex of D farthest along d.
func (m *pair) support(d geom.Vec, v *vertex) {
	a, h := geom.Vec{}, &m.a.H
	switch m.a.Kind {
	case solid.Segment:
		a.X = math.Copysign(h.X, d.X)
	case solid.Box:
		a = geom.Vec{X: math.Copysign(h.X, d.X), Y: math.Copysign(h.Y, d.Y), Z: math.Copysign(h.Z, d.Z)}
	case solid.Disc:
		a = solid.Rim(h.X, d)
	case solid.Cylinder:
		a = solid.Rim(h.X, d)
		a.Z = math.Copysign(h.Z, d.Z)
	case solid.Hull:
		a = *solid.Farthest(m.a.Points, d)
	}
	v.a = a
	v.w = a.Sub(m.other(d))
}

// other is the point of b farthest against d.
func (m *pair) other(d geom.Vec) geom.Vec {
	q, h := geom.Vec{}, &m.b.H
	e := m.r.ApplyT(d)
	switch m.b.Kind {
	case solid.Point:
		return m.t
	case solid.Segment:
		q.X = math.Copysign(h.X, -e.X)
	case solid.Box:
		q = geom.Vec{X: math.Copysign(h.X, -e.X), Y: math.Copysign(h.Y, -e.Y), Z: math.Copysign(h.Z, -e.Z)}
	case solid.Disc:
		q = solid.Rim(h.X, e.Neg())
	case solid.Cylinder:
		q = solid.Rim(h.X, e.Neg())
		q.Z = math.Copysign(h.Z, -e.Z)
	case solid.Hull:
		q = *solid.Farthest(m.b.Points, e.Neg())
	}
	return m.r.Apply(q).Add(m.t)
}

// at is support as a value.
func (m *pair) at(d geom.Vec) (v vertex) {
	m.support(d, &v)
	return v
}

// signed is the signed gap in the axes of a. The search for the distance comes
// first; cores that touch or overlap are measured by depth.
func (m *pair) signed(enough float64, c *core) {
	var s simplex
	if !m.distance(&s, enough, c) {
		*c = m.depth()
	}
}

// distance is the search of Gilbert, Johnson and Keerthi (1988): the nearest
// point to the origin of a growing and shrinking simplex of vertices of D. It
// is false when the cores touch or overlap.
//
// The nearest point p so far is an upper bound |p|. The vertex w farthest
// towards the origin gives the plane through w square to p, beyond which D does
// not reach, and so the lower bound p·w/|p|. The search stops when these bounds
// are within geom.GapStop of each other. That p no longer changes is no reason
// to stop by itself: it is where rounding leaves nothing more to gain, and then
// the best bounds met are handed on as they are.
func (m *pair) distance(s *simplex, enough float64, c *core) bool {
	d := m.t
	if d == (geom.Vec{}) {
		d.X = 1
	}
	m.support(d, &s.v[0])
	s.start()
	c.lower = math.Inf(-1)
	for range searchSteps {
		if s.n == 4 || s.sq <= geom.TouchTol*geom.TouchTol {
			return false
		}
		w := s.spare()
		m.support(s.p.Neg(), w)
		dist := math.Sqrt(s.sq)
		lower := s.p.Dot(w.w) / dist
		if lower > c.lower {
			c.lower, c.n = lower, s.p
		}
		if dist-lower <= geom.GapStop {
			c.lower, c.n = lower, s.p
			break
		}
		if c.lower >= enough {
			c.dist = dist
			return true
		}
		if !s.add() {
			break
		}
	}
	c.dist = math.Sqrt(s.sq)
	c.n = c.n.Scale(-1 / c.n.Len())
	s.points(&c.a, &c.b)
	return true
}

// searchSteps only makes sure that every search ends. Random pairs and pairs full
// of ties have taken 31 steps at most; the proofs in the tests would show a cut.
const searchSteps = 200
