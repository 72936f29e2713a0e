package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// simplex is one to four vertices with the point p of their hull nearest to the
// origin. The vertices stay in their places; at lists the n places in use first
// and the spare ones behind. The mix of p is worked out at the end, from the
// vertices alone: the search needs only p.
//
// With four vertices the origin is inside, and there is no p.
type simplex struct {
	v  [4]vertex
	p  geom.Vec
	sq float64 // |p|²
	at [4]uint8
	n  int
}

// start begins with the vertex in the first place.
func (s *simplex) start() {
	s.at = [4]uint8{0, 1, 2, 3}
	s.p, s.n = s.v[0].w, 1
	s.sq = s.p.LenSq()
}

// spare is the place for the next vertex.
func (s *simplex) spare() *vertex { return &s.v[s.at[s.n&3]&3] }

// add takes in the vertex that was put in the spare place, and drops those that
// no longer matter. It is false, and the simplex as it was, when that brings
// nothing nearer.
//
// As p was the nearest point of the old vertices with a share of each, anything
// nearer has a share of the new one, so that only those corners, edges and faces
// are looked at.
func (s *simplex) add() bool {
	was := s.sq
	i, j, k, l := s.at[0], s.at[1], s.at[2], s.at[3]
	switch s.n {
	case 1:
		s.segment(i, j, k, l)
	case 2:
		s.triangle(i, j, k, l)
	default:
		if s.tetrahedron(i, j, k, l) {
			s.n = 4
			return true
		}
	}
	return s.sq < was
}

// corner, edge and face make p the place on one vertex, two or three, if that is
// nearer. The rest are spare.
func (s *simplex) corner(i, r0, r1, r2 uint8) {
	p := s.v[i&3].w
	if sq := p.LenSq(); sq < s.sq {
		s.p, s.sq, s.n = p, sq, 1
		s.at = [4]uint8{i, r0, r1, r2}
	}
}

// edge is the place at t from c = v[d] along ac to v[i]; t is up to rounding at
// most 1.
func (s *simplex) edge(c, ac geom.Vec, t float64, i, d, r0, r1 uint8) {
	if t > 1 {
		t = 1
	}
	p := c.AddScaled(ac, t)
	if sq := p.LenSq(); sq < s.sq {
		s.p, s.sq, s.n = p, sq, 2
		s.at = [4]uint8{i, d, r0, r1}
	}
}

// segment looks at what is new in the segment from i to the new vertex d.
func (s *simplex) segment(i, d, r0, r1 uint8) {
	c := s.v[d&3].w
	ac := s.v[i&3].w.Sub(c)
	if t := -c.Dot(ac); t > 0 {
		s.edge(c, ac, t/ac.LenSq(), i, d, r0, r1)
		return
	}
	s.corner(d, i, r0, r1)
}

// triangle looks at what is new in the triangle of i, j and the new vertex d: the
// corner d, the edges from it, and the face. On which side of an edge the origin
// is, is taken along the triangle's normal, and so is the point on its face:
// that keeps its worth down to thinner triangles than the products of the dots
// do in Ericson, Real-Time Collision Detection (2005), section 5.1.5.
func (s *simplex) triangle(i, j, d, rest uint8) {
	c := s.v[d&3].w
	ac, bc := s.v[i&3].w.Sub(c), s.v[j&3].w.Sub(c)
	ta, tb := -c.Dot(ac), -c.Dot(bc)
	if ta <= 0 && tb <= 0 {
		s.corner(d, i, j, rest)
		return
	}
	n := ac.Cross(bc)
	m := n.Cross(c)
	va, vb := -m.Dot(bc), m.Dot(ac) // shares of i and j, times |n|²
	if vb <= 0 && ta > 0 {
		s.edge(c, ac, ta/ac.LenSq(), i, d, j, rest)
		return
	}
	if va <= 0 && tb > 0 {
		s.edge(c, bc, tb/bc.LenSq(), j, d, i, rest)
		return
	}
	l := n.LenSq()
	if !(va > 0 && vb > 0 && l-va-vb > 0) {
		s.thin(i, j, d, rest)
		return
	}
	k := n.Dot(c) / l
	if sq := n.Dot(c) * k; sq < s.sq {
		s.p, s.sq, s.n = n.Scale(k), sq, 3
		s.at = [4]uint8{i, j, d, rest}
	}
}

// thin is for a triangle without area, where rounding has put the origin beside
// none of the new edges.
func (s *simplex) thin(i, j, d, rest uint8) {
	s.segment(i, d, j, rest)
	s.segment(j, d, i, rest)
}

// tetrahedron takes the new vertex d over the triangle a, b, c that was nearest
// before: the nearest point is on one of the three new faces, or the origin is
// inside, and then it is true. Each face is tried that does not have the origin
// on its inner side; without volume, all are.
func (s *simplex) tetrahedron(i, j, k, d uint8) (inside bool) {
	w := s.v[d&3].w
	a, b, c := s.v[i&3].w.Sub(w), s.v[j&3].w.Sub(w), s.v[k&3].w.Sub(w)
	ab, bc, ca := a.Cross(b), b.Cross(c), c.Cross(a)
	volume := a.Dot(bc)
	inside = true
	if outside(-ab.Dot(w), volume) {
		s.triangle(i, j, d, k)
		inside = false
	}
	if outside(-bc.Dot(w), volume) {
		s.triangle(j, k, d, i)
		inside = false
	}
	if outside(-ca.Dot(w), volume) {
		s.triangle(k, i, d, j)
		inside = false
	}
	return inside
}

// outside says that the origin, on this side of a face, is not where the rest
// of the tetrahedron is.
func outside(side, volume float64) bool { return volume == 0 || (side > 0) != (volume > 0) }

// mix is the shares that the vertices in use have in p.
func (s *simplex) mix() (k [3]float64) {
	d := s.v[s.at[(s.n-1)&3]&3].w
	ac := s.v[s.at[0]&3].w.Sub(d)
	switch s.n {
	case 1:
		k[0] = 1
	case 2:
		k[0] = math.Min(-d.Dot(ac)/ac.LenSq(), 1)
		k[1] = 1 - k[0]
	case 3:
		bc := s.v[s.at[1]&3].w.Sub(d)
		n := ac.Cross(bc)
		m, l := n.Cross(d), n.LenSq()
		k[0], k[1] = -m.Dot(bc)/l, m.Dot(ac)/l
		k[2] = 1 - k[0] - k[1]
	}
	return k
}

// points are the two of the cores whose difference p is.
func (s *simplex) points(a, b *geom.Vec) {
	k := s.mix()
	var p, w geom.Vec
	for i := range s.n {
		v := &s.v[s.at[i&3]&3]
		p, w = p.AddScaled(v.a, k[i]), w.AddScaled(v.w, k[i])
	}
	*a, *b = p, p.Sub(w)
}

// settle gives a simplex that holds the origin the nearest place on its faces.
func (s *simplex) settle() {
	if s.n < 4 {
		return
	}
	s.sq = math.Inf(1)
	for _, f := range [4][4]uint8{{0, 1, 2, 3}, {0, 1, 3, 2}, {0, 2, 3, 1}, {1, 2, 3, 0}} {
		s.triangle(f[0], f[1], f[2], f[3])
		s.triangle(f[1], f[2], f[0], f[3])
		s.triangle(f[2], f[0], f[1], f[3])
	}
}
