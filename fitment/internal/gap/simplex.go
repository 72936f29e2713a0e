package gap

import "scrubline/fitment/internal/geom"

// simplex is one to four vertices with the point of their hull nearest to the
// origin. The vertices stay in their places; what is in use is listed beside.
type simplex struct {
	v [4]vertex
	nearest
}

// nearest is the point p of a simplex nearest to the origin as a mix of n
// vertices: k[i] of the one in place at[i]. With four the origin is inside, and
// there is no mix.
type nearest struct {
	p  geom.Vec
	sq float64 // |p|²
	k  [4]float64
	at [4]uint8
	n  int
}

func (s *simplex) start(v *vertex) {
	s.v[0] = *v
	s.nearest.corner(v.w, 0)
}

// add takes in a vertex and drops those that no longer matter. It is false, and
// the mix as it was, when that brings nothing nearer.
func (s *simplex) add(v *vertex) bool {
	d := s.spare()
	s.v[d] = *v
	var q nearest
	switch s.n {
	case 1:
		s.segment(&q, s.at[0], d)
	case 2:
		s.triangle(&q, s.at[0], s.at[1], d)
	default:
		s.tetrahedron(&q, s.at[0], s.at[1], s.at[2], d)
	}
	if q.n < 4 && !(q.sq < s.sq) {
		return false
	}
	s.nearest = q
	return true
}

// spare is a place not in use.
func (s *simplex) spare() uint8 {
	used := 0
	for i := range s.n {
		used |= 1 << s.at[i]
	}
	for d := uint8(0); d < 3; d++ {
		if used&(1<<d) == 0 {
			return d
		}
	}
	return 3
}

// result has the gap with its two points. n is the direction of the lower bound.
func (s *simplex) result(dist, lower float64, n geom.Vec) core {
	c := core{dist: dist, lower: lower, n: n}
	for i := range s.n {
		v := &s.v[s.at[i]]
		c.a = c.a.AddScaled(v.a, s.k[i])
		c.b = c.b.AddScaled(v.b, s.k[i])
	}
	return c
}

func (q *nearest) corner(p geom.Vec, i uint8) {
	q.p, q.sq, q.n = p, p.LenSq(), 1
	q.at[0], q.k[0] = i, 1
}

// edge is the place at t between i and j.
func (s *simplex) edge(q *nearest, i, j uint8, t float64) {
	q.p = s.v[i].w.Lerp(s.v[j].w, t)
	q.sq, q.n = q.p.LenSq(), 2
	q.at[0], q.at[1] = i, j
	q.k[0], q.k[1] = 1-t, t
}

func (s *simplex) segment(q *nearest, i, j uint8) {
	a, b := s.v[i].w, s.v[j].w
	ab := b.Sub(a)
	t, l := -a.Dot(ab), ab.LenSq()
	switch {
	case t <= 0:
		q.corner(a, i)
	case t >= l:
		q.corner(b, j)
	default:
		s.edge(q, i, j, t/l)
	}
}

// triangle goes through the seven regions of a triangle: Ericson, Real-Time
// Collision Detection (2005), section 5.1.5, for the origin. The areas over the
// edges are taken along the triangle's normal, which keeps their sign down to
// thinner triangles than products of the d1 to d6 there.
func (s *simplex) triangle(q *nearest, i, j, k uint8) {
	a, b, c := s.v[i].w, s.v[j].w, s.v[k].w
	ab, ac := b.Sub(a), c.Sub(a)
	d1, d2 := -ab.Dot(a), -ac.Dot(a)
	if d1 <= 0 && d2 <= 0 {
		q.corner(a, i)
		return
	}
	d3, d4 := -ab.Dot(b), -ac.Dot(b)
	if d3 >= 0 && d4 <= d3 {
		q.corner(b, j)
		return
	}
	d5, d6 := -ab.Dot(c), -ac.Dot(c)
	if d6 >= 0 && d5 <= d6 {
		q.corner(c, k)
		return
	}
	n := ab.Cross(ac)
	vc := n.Dot(a.Cross(b))
	if vc <= 0 && d1 >= 0 && d3 <= 0 {
		s.edge(q, i, j, d1/(d1-d3))
		return
	}
	vb := n.Dot(c.Cross(a))
	if vb <= 0 && d2 >= 0 && d6 <= 0 {
		s.edge(q, i, k, d2/(d2-d6))
		return
	}
	va := n.Dot(b.Cross(c))
	if va <= 0 && d4 >= d3 && d5 >= d6 {
		s.edge(q, j, k, (d4-d3)/((d4-d3)+(d5-d6)))
		return
	}
	sum := va + vb + vc
	if !(sum > 0) {
		// No area, and rounding has put the origin beside no edge.
		s.segment(q, i, k)
		return
	}
	// Along the normal the point is exact where the weights have cancelled.
	h := n.Dot(a)
	l := n.LenSq()
	q.p = n.Scale(h / l)
	q.sq, q.n = h*h/l, 3
	q.at[0], q.at[1], q.at[2] = i, j, k
	q.k[0], q.k[1], q.k[2] = va/sum, vb/sum, vc/sum
}

// tetrahedron takes the new vertex d over the triangle a, b, c that was nearest
// before. As d brought the simplex nearer, the nearest point is on one of the
// three new faces, or the origin is inside. Each face is tried that does not
// have the origin on its inner side; without volume, all are.
func (s *simplex) tetrahedron(q *nearest, a, b, c, d uint8) {
	w := s.v[d].w
	da, db, dc := s.v[a].w.Sub(w), s.v[b].w.Sub(w), s.v[c].w.Sub(w)
	nab, nbc, nca := da.Cross(db), db.Cross(dc), dc.Cross(da)
	volume := da.Dot(nbc)
	q.n = 4
	s.beyond(q, -nab.Dot(w), volume, a, b, d)
	s.beyond(q, -nbc.Dot(w), volume, b, c, d)
	s.beyond(q, -nca.Dot(w), volume, c, a, d)
}

// beyond tries a face: side says where the origin is from it, volume where the
// rest of the tetrahedron is.
func (s *simplex) beyond(q *nearest, side, volume float64, i, j, d uint8) {
	if volume != 0 && (side > 0) == (volume > 0) {
		return
	}
	if q.n == 4 {
		s.triangle(q, i, j, d)
		return
	}
	var f nearest
	s.triangle(&f, i, j, d)
	if f.sq < q.sq {
		*q = f
	}
}

// settle gives a simplex that holds the origin a mix: that of its nearest face
// when it is a tetrahedron.
func (s *simplex) settle() {
	if s.n < 4 {
		return
	}
	var best, q nearest
	s.triangle(&best, 0, 1, 2)
	for _, f := range [3][3]uint8{{0, 1, 3}, {0, 2, 3}, {1, 2, 3}} {
		if s.triangle(&q, f[0], f[1], f[2]); q.sq < best.sq {
			best = q
		}
	}
	s.nearest = best
}
