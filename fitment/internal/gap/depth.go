package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// depth measures cores that touch or overlap: the least move that parts them,
// which is the least distance of the origin to a supporting plane of the
// difference set D, min h(n) over unit n with h(n) = max w·n over D.
//
// A polytope inside D grows towards it (van den Bergen, Proximity Queries and
// Penetration Depth Computation on 3D Game Objects, 2001). For the face with
// the least plane distance d, the farthest vertex along its normal gives h(n):
// every h is an upper bound of the depth, the least d a lower one, as D holds
// the polytope. It stops when they are within geom.GapStop.
//
// The first polytope is not the one the distance search ends with, which may be
// as thin as a sheet, but a fat one; it need not hold the origin. While it does
// not, the least d is negative, and growing goes towards the origin.
//
// A set D without thickness (two segments, a disc in the plane of another) has
// depth nought along its normal.
func (m *pair) depth() core {
	var few fewFaces
	p := polytope{v: few.v[:], f: few.f[:]}
	c, ok := m.depthIn(&p)
	if ok {
		return c
	}
	return m.depthInMany()
}

// depthInMany is apart from depth so that the large polytope is cleared only
// when it is needed.
//
//go:noinline
func (m *pair) depthInMany() core {
	var many manyFaces
	p := polytope{v: many.v[:], f: many.f[:]}
	c, ok := m.depthIn(&p)
	if !ok && m.bothRound() {
		return m.roundDepth(c)
	}
	return c
}

// depthIn is the search. ok is false when it ended for lack of room or by
// rounding; then the result is the least move apart that was met.
func (m *pair) depthIn(p *polytope) (c core, ok bool) {
	if n, flat := p.begin(m); flat {
		return m.flat(n), true
	}
	best := math.Inf(1)
	var bestFace face
	for {
		at := p.nearestFace()
		f := &p.f[at]
		w := m.at(f.n)
		h := f.n.Dot(w.w)
		if h-f.d <= geom.GapStop {
			return p.result(f, h), true
		}
		if h < best {
			best, bestFace = h, *f
		}
		if !p.grow(at, w) {
			return p.result(&bestFace, best), false
		}
	}
}

// flat is the result for a D without thickness along n: n or its opposite,
// whichever is nearer, with the deepest points as the nearest of the distance
// search where there are any.
func (m *pair) flat(n geom.Vec) core {
	up, down := m.at(n), m.at(n.Neg())
	h := n.Dot(up.w)
	if l := -n.Dot(down.w); l < h {
		n, h = n.Neg(), l
	}
	a, b := m.meeting()
	return core{dist: -h, lower: -h, a: a, b: b, n: n}
}

// meeting is a point of each core where the two touch, from the distance search.
func (m *pair) meeting() (a, b geom.Vec) {
	var s simplex
	c, _ := m.distance(&s, math.Inf(1))
	if c.n == (geom.Vec{}) {
		s.settle()
		c = s.result(0, 0, geom.Vec{})
	}
	return c.a, c.b
}

// result is the gap at a face with depth h along its normal: the point of its
// plane nearest to the origin, as a mix of its three vertices. What the plane
// lies deeper than h is shared between the two points.
func (p *polytope) result(f *face, h float64) core {
	a, b, c := &p.v[f.v[0]], &p.v[f.v[1]], &p.v[f.v[2]]
	q := f.n.Scale(f.d)
	n := b.w.Sub(a.w).Cross(c.w.Sub(a.w))
	ka := n.Dot(b.w.Sub(q).Cross(c.w.Sub(q))) / n.LenSq()
	kb := n.Dot(c.w.Sub(q).Cross(a.w.Sub(q))) / n.LenSq()
	// The nearest face holds the foot of the origin; rounding may leave it just
	// outside, and a search cut short further.
	ka = math.Min(math.Max(ka, 0), 1)
	kb = math.Min(math.Max(kb, 0), 1-ka)
	kc := 1 - ka - kb
	mix := func(x, y, z geom.Vec) geom.Vec {
		return x.Scale(ka).AddScaled(y, kb).AddScaled(z, kc)
	}
	rest := (h - f.d) / 2
	pa, pb := mix(a.a, b.a, c.a).AddScaled(f.n, rest), mix(a.b, b.b, c.b).AddScaled(f.n, -rest)
	return core{dist: -h, lower: -h, a: pa, b: pb, n: f.n}
}

// begin makes the first polytope: the tetrahedron of a vertex, the vertex
// farthest from it, the one farthest from their line, and the one farthest from
// their plane. flat says that D has no thickness along n.
func (p *polytope) begin(m *pair) (n geom.Vec, flat bool) {
	a := m.at(geom.Vec{X: 1})
	b := farthest(m, a, geom.Vec{X: 1}, geom.Vec{Y: 1}, geom.Vec{Z: 1})
	u := b.w.Sub(a.w)
	if u.Len() <= geom.FlatTol {
		return geom.Vec{X: 1}, true
	}
	u = u.Unit()
	e := u.Perp()
	g := u.Cross(e)
	c := farthest(m, a, e, g, g)
	n = u.Cross(c.w.Sub(a.w))
	if n.Len() <= geom.FlatTol {
		return e, true
	}
	n = n.Unit()
	d := farthest(m, a, n, n, n)
	out := n.Dot(d.w.Sub(a.w))
	if math.Abs(out) <= geom.FlatTol {
		return n, true
	}
	if out > 0 {
		b, c = c, b
	}
	p.tetrahedron(a, b, c, d)
	return geom.Vec{}, false
}

// farthest is the vertex of D among those along ±d1, ±d2, ±d3 that is farthest
// from a along its own direction.
func farthest(m *pair, a vertex, d1, d2, d3 geom.Vec) vertex {
	best, far := a, 0.0
	for _, d := range [6]geom.Vec{d1, d1.Neg(), d2, d2.Neg(), d3, d3.Neg()} {
		v := m.at(d)
		if f := d.Dot(v.w.Sub(a.w)); f > far {
			best, far = v, f
		}
	}
	return best
}
