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
	if !ok {
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
	var bestW, w vertex
	for {
		at := p.nearestFace()
		f := &p.f[at]
		m.support(f.n, &w)
		h := f.n.Dot(w.w)
		if h-f.d <= geom.GapStop {
			return p.result(f, &w), true
		}
		if h < best {
			best, bestFace, bestW = h, *f, w
		}
		if !p.grow(at, &w) {
			p.settle(m, &bestFace, &bestW)
			return p.result(&bestFace, &bestW), false
		}
	}
}

// settle looks, after a search cut short, for a face as good as the best met that
// has the foot of the origin in it, so that its two points are opposite.
func (p *polytope) settle(m *pair, best *face, bestW *vertex) {
	limit := best.n.Dot(bestW.w) + geom.GapStop
	for i := range p.f[:p.nf] {
		f := &p.f[i]
		if _, in := p.mix(f); !f.live || in < 0 {
			continue
		}
		w := m.at(f.n)
		if h := f.n.Dot(w.w); h < limit {
			*best, *bestW, limit = *f, w, h
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
	var c core
	if !m.distance(&s, math.Inf(1), &c) {
		s.settle()
		s.points(&c.a, &c.b)
	}
	return c.a, c.b
}

// result is the gap at a face with the farthest vertex w along its normal: the
// foot of the origin on its plane as a mix of its three vertices, each of the two
// points carried out to its core's supporting plane. A flat side of D is many
// faces in one plane, and the foot is in one of them: the one it is deepest in is
// taken.
func (p *polytope) result(f *face, w *vertex) core {
	k, in := p.mix(f)
	on := f
	for i := range p.f[:p.nf] {
		g := &p.f[i]
		if in >= 0 || !g.live || math.Abs(g.d-f.d) > geom.TouchTol || g.n.Sub(f.n).Len() > geom.TouchTol {
			continue
		}
		if kg, inG := p.mix(g); inG > in {
			on, k, in = g, kg, inG
		}
	}
	// Rounding, or a search cut short, may leave the foot just outside.
	k.X = math.Min(math.Max(k.X, 0), 1)
	k.Y = math.Min(math.Max(k.Y, 0), 1-k.X)
	k.Z = 1 - k.X - k.Y
	var a, b geom.Vec
	for i, share := range [3]float64{k.X, k.Y, k.Z} {
		v := &p.v[on.v[i]]
		a, b = a.AddScaled(v.a, share), b.AddScaled(v.b(), share)
	}
	a = a.AddScaled(f.n, f.n.Dot(w.a.Sub(a)))
	b = b.AddScaled(f.n, f.n.Dot(w.b().Sub(b)))
	h := f.n.Dot(w.w)
	return core{dist: -h, lower: -h, a: a, b: b, n: f.n}
}

// mix is the weights of a face's vertices for the foot of the origin on its
// plane, and the least of them: negative when the foot is outside.
func (p *polytope) mix(f *face) (k geom.Vec, least float64) {
	a, b, c := p.v[f.v[0]].w, p.v[f.v[1]].w, p.v[f.v[2]].w
	q := f.n.Scale(f.d)
	n := b.Sub(a).Cross(c.Sub(a))
	l := n.LenSq()
	k.X = n.Dot(b.Sub(q).Cross(c.Sub(q))) / l
	k.Y = n.Dot(c.Sub(q).Cross(a.Sub(q))) / l
	k.Z = 1 - k.X - k.Y
	return k, math.Min(k.X, math.Min(k.Y, k.Z))
}

// begin makes the first polytope: the tetrahedron of a vertex, the vertex
// farthest from it, the one farthest from their line, and the one farthest from
// their plane. flat says that D has no thickness along n.
func (p *polytope) begin(m *pair) (n geom.Vec, flat bool) {
	a := m.at(geom.Vec{X: 1})
	b := farthest(m, &a, geom.Vec{X: 1}, geom.Vec{Y: 1}, geom.Vec{Z: 1})
	u := b.w.Sub(a.w)
	if u.Len() <= geom.FlatTol {
		return geom.Vec{X: 1}, true
	}
	u = u.Unit()
	e := u.Perp()
	g := u.Cross(e)
	c := farthest(m, &a, e, g)
	n = u.Cross(c.w.Sub(a.w))
	if n.Len() <= geom.FlatTol {
		return e, true
	}
	n = n.Unit()
	d := farthest(m, &a, n)
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

// farthest is the vertex of D among those along the directions and against them
// that is farthest from a along its own direction.
func farthest(m *pair, a *vertex, along ...geom.Vec) (best vertex) {
	best = *a
	far := 0.0
	var v vertex
	for _, d := range along {
		for range 2 {
			m.support(d, &v)
			if f := d.Dot(v.w.Sub(a.w)); f > far {
				best, far = v, f
			}
			d = d.Neg()
		}
	}
	return best
}
