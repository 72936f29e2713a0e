package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// pointConvex is the gap of a ball and a solid whose core has a closed form.
func pointConvex(p, s *solid.Solid, r *Result) {
	var q placed
	place(s, s.Pose.R.ApplyT(p.Pose.P.Sub(s.Pose.P)), &q)
	n := s.Pose.R.Apply(q.out).Neg()
	r.Gap = q.dist - p.Round - s.Round
	r.A, r.B, r.N = p.Pose.P.AddScaled(n, p.Round), p.Pose.P.AddScaled(n, q.dist-s.Round), n
}

// placed is where a point stands from a convex core, in the core's axes.
type placed struct {
	dist  float64  // signed distance
	lower float64  // a certified lower bound of it
	at    geom.Vec // nearest point of the core's surface
	out   geom.Vec // unit vector outward: the gradient of the signed distance
}

// place finds where p, in the core's own axes, stands from the core.
//
// The signed distance to a convex set is convex, and out is one of its
// subgradients: everywhere f(p') ≥ lower + out·(p' − p).
func place(s *solid.Solid, p geom.Vec, q *placed) {
	switch s.Kind {
	case solid.Segment:
		q.from(geom.Vec{X: clamp(p.X, s.H.X)}, p, geom.Vec{Z: 1})
	case solid.Disc, solid.Cylinder:
		q.round(s.H.X, s.H.Z, p)
	case solid.Box:
		q.box(s.H, p)
	case solid.Hull:
		q.hull(s, p)
	default:
		q.from(geom.Vec{}, p, geom.Vec{Z: 1})
	}
}

// exact is a place known from a closed form.
func (q *placed) exact(dist float64, at, out geom.Vec) {
	q.dist, q.lower, q.at, q.out = dist, dist, at, out
}

// from is a place outside, nearest to the point at; fallback is the direction
// when p is there.
func (q *placed) from(at, p, fallback geom.Vec) {
	v := p.Sub(at)
	d := v.Len()
	if d > geom.Tiny {
		fallback = v.Scale(1 / d)
	}
	q.exact(d, at, fallback)
}

// box clamps a point outside onto the box; inside, the nearest face is nearest.
// A flat box has no inside, and both sides are its nearest face.
func (q *placed) box(h, p geom.Vec) {
	at := geom.Vec{X: clamp(p.X, h.X), Y: clamp(p.Y, h.Y), Z: clamp(p.Z, h.Z)}
	v := p.Sub(at)
	d := v.Len()
	if d <= geom.Tiny {
		q.face(h, p)
		return
	}
	q.exact(d, at, v.Scale(1/d))
}

// face is the place of a point inside a box or on it.
func (q *placed) face(h, p geom.Vec) {
	x, y, z := math.Abs(p.X)-h.X, math.Abs(p.Y)-h.Y, math.Abs(p.Z)-h.Z
	at, out := p, geom.Vec{}
	switch {
	case x >= y && x >= z:
		at.X, out.X = math.Copysign(h.X, p.X), math.Copysign(1, p.X)
		q.exact(x, at, out)
	case y >= z:
		at.Y, out.Y = math.Copysign(h.Y, p.Y), math.Copysign(1, p.Y)
		q.exact(y, at, out)
	default:
		at.Z, out.Z = math.Copysign(h.Z, p.Z), math.Copysign(1, p.Z)
		q.exact(z, at, out)
	}
}

// round is the place from a cylinder of radius r and half length h about Z;
// h = 0 is a disc. In the half plane through the axis and p the core is a
// rectangle: ρ past the side, z past the end, both past the rim.
func (q *placed) round(r, h float64, p geom.Vec) {
	rho := math.Sqrt(float64(p.X*p.X) + float64(p.Y*p.Y))
	e := geom.Vec{X: 1}
	if rho > 0 {
		e = geom.Vec{X: p.X / rho, Y: p.Y / rho}
	}
	side, end := rho-r, math.Abs(p.Z)-h
	at := geom.Vec{X: float64(e.X * r), Y: float64(e.Y * r), Z: p.Z}
	switch {
	case side > 0 && end > 0:
		at.Z = math.Copysign(h, p.Z)
		q.from(at, p, e)
	case side > end:
		q.exact(side, at, e)
	default:
		q.exact(end, geom.Vec{X: p.X, Y: p.Y, Z: math.Copysign(h, p.Z)}, geom.Vec{Z: math.Copysign(1, p.Z)})
	}
}

// hull measures by the general search, in the hull's axes.
func (q *placed) hull(s *solid.Solid, p geom.Vec) {
	m := pair{a: s, b: &point, r: geom.Identity, t: p}
	var c core
	m.signed(math.Inf(1), &c)
	q.dist, q.lower, q.at, q.out = c.dist, c.lower, c.a, c.n
}

// point is a bare point; it is never written.
var point = solid.Solid{Kind: solid.Point, Pose: geom.Still}
