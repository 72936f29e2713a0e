package gap

import "scrubline/fitment/internal/geom"

// simplex is one to four vertices with the weights of the point of their hull
// nearest to the origin.
type simplex struct {
	v [4]vertex
	k [4]float64
	p geom.Vec // nearest point
	n int
}

func (s *simplex) start(v vertex) { s.v[0], s.k[0], s.p, s.n = v, 1, v.w, 1 }

// nearest is the point of the simplex nearest to the origin. With four
// vertices left the origin is inside.
func (s *simplex) nearest() geom.Vec { return s.p }

// add takes in a vertex and drops those that no longer matter. It is false, and
// the simplex as it was, when that brings nothing nearer than dist.
func (s *simplex) add(v vertex, dist float64) bool {
	old := *s
	s.v[s.n] = v
	s.n++
	switch s.n {
	case 2:
		s.onSegment()
	case 3:
		s.onTriangle()
	default:
		s.onTetrahedron()
	}
	if s.n == 4 || s.p.Len() < dist {
		return true
	}
	*s = old
	return false
}

// result has the gap with its two points. n is the direction of the lower bound.
func (s *simplex) result(dist, lower float64, n geom.Vec) core {
	c := core{dist: dist, lower: lower, n: n}
	for i := range s.n {
		c.a = c.a.AddScaled(s.v[i].a, s.k[i])
		c.b = c.b.AddScaled(s.v[i].b, s.k[i])
	}
	return c
}

// keep leaves the one vertex i.
func (s *simplex) keep(i int) {
	s.start(s.v[i])
}

// keep2 leaves vertices i and j with the point that divides them at t.
func (s *simplex) keep2(i, j int, t float64) {
	vi, vj := s.v[i], s.v[j]
	s.v[0], s.v[1] = vi, vj
	s.k[0], s.k[1] = 1-t, t
	s.p, s.n = vi.w.Lerp(vj.w, t), 2
}

func (s *simplex) onSegment() {
	a, b := s.v[0].w, s.v[1].w
	ab := b.Sub(a)
	t, l := -a.Dot(ab), ab.LenSq()
	switch {
	case t <= 0:
		s.keep(0)
	case t >= l:
		s.keep(1)
	default:
		s.keep2(0, 1, t/l)
	}
}

// onTriangle goes through the seven regions of a triangle: Ericson, Real-Time
// Collision Detection (2005), section 5.1.5, for the origin.
func (s *simplex) onTriangle() {
	a, b, c := s.v[0].w, s.v[1].w, s.v[2].w
	ab, ac := b.Sub(a), c.Sub(a)
	d1, d2 := -ab.Dot(a), -ac.Dot(a)
	if d1 <= 0 && d2 <= 0 {
		s.keep(0)
		return
	}
	d3, d4 := -ab.Dot(b), -ac.Dot(b)
	if d3 >= 0 && d4 <= d3 {
		s.keep(1)
		return
	}
	// The areas over the edges are taken along the triangle's normal, which
	// keeps their sign down to thinner triangles than products of d1 to d6.
	n := ab.Cross(ac)
	vc := n.Dot(a.Cross(b))
	if vc <= 0 && d1 >= 0 && d3 <= 0 {
		s.keep2(0, 1, d1/(d1-d3))
		return
	}
	d5, d6 := -ab.Dot(c), -ac.Dot(c)
	if d6 >= 0 && d5 <= d6 {
		s.keep(2)
		return
	}
	vb := n.Dot(c.Cross(a))
	if vb <= 0 && d2 >= 0 && d6 <= 0 {
		s.keep2(0, 2, d2/(d2-d6))
		return
	}
	va := n.Dot(b.Cross(c))
	if va <= 0 && d4 >= d3 && d5 >= d6 {
		s.keep2(1, 2, (d4-d3)/((d4-d3)+(d5-d6)))
		return
	}
	s.inside(n, va, vb, vc)
}

// inside is the region over the triangle itself. The nearest point is taken
// along the normal, which is exact where the weights have cancelled.
func (s *simplex) inside(n geom.Vec, va, vb, vc float64) {
	sum := va + vb + vc
	s.k[0], s.k[1], s.k[2] = va/sum, vb/sum, vc/sum
	s.p = n.Scale(n.Dot(s.v[0].w) / n.LenSq())
}

// onTetrahedron tries each face whose plane does not have the origin on the
// side of the fourth vertex, and keeps the nearest. No such face: the origin is
// inside. A tetrahedron thin to rounding tries all four.
func (s *simplex) onTetrahedron() {
	var best simplex
	found := false
	for i := range 4 {
		var f simplex
		f.v[0], f.v[1], f.v[2] = s.v[(i+1)&3], s.v[(i+2)&3], s.v[(i+3)&3]
		f.n = 3
		if !beyond(&f, s.v[i].w) {
			continue
		}
		f.onTriangle()
		if !found || f.p.LenSq() < best.p.LenSq() {
			best, found = f, true
		}
	}
	if found {
		*s = best
	}
}

// settle gives a simplex that holds the origin weights: those of its nearest
// face when it is a tetrahedron.
func (s *simplex) settle() {
	if s.n < 4 {
		return
	}
	best := simplex{}
	for i := range 4 {
		f := simplex{n: 3}
		f.v[0], f.v[1], f.v[2] = s.v[(i+1)&3], s.v[(i+2)&3], s.v[(i+3)&3]
		f.onTriangle()
		if i == 0 || f.p.LenSq() < best.p.LenSq() {
			best = f
		}
	}
	*s = best
}

// beyond says that the origin is not on the side of apex of a face.
func beyond(f *simplex, apex geom.Vec) bool {
	a := f.v[0].w
	n := f.v[1].w.Sub(a).Cross(f.v[2].w.Sub(a))
	toApex, toOrigin := n.Dot(apex.Sub(a)), -n.Dot(a)
	return toApex == 0 || (toApex > 0) != (toOrigin > 0)
}
