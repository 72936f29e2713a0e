package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// pointConvex is the gap of a point and a core of closed form.
func pointConvex(p, s *solid.Solid) core {
	q := place(s, s.Pose.Inverse(p.Pose.P))
	return exact(q.dist, p.Pose.P, s.Pose.Apply(q.at), s.Pose.R.Apply(q.out).Neg())
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
func place(s *solid.Solid, p geom.Vec) placed {
	switch s.Kind {
	case solid.Segment:
		return placeSegment(s.H.X, p)
	case solid.Disc, solid.Cylinder:
		return placeRound(s.H.X, s.H.Z, p)
	case solid.Box:
		return placeBox(s.H, p)
	case solid.Hull:
		return placeHull(s, p)
	}
	return from(geom.Vec{}, p, geom.Vec{Z: 1})
}

// from is a place outside, nearest to the point q; fallback is the direction
// when p is q.
func from(q, p, fallback geom.Vec) placed {
	v := p.Sub(q)
	d := v.Len()
	if d <= geom.Tiny {
		return placed{dist: d, lower: d, at: q, out: fallback}
	}
	return placed{dist: d, lower: d, at: q, out: v.Scale(1 / d)}
}

func placeSegment(half float64, p geom.Vec) placed {
	return from(geom.Vec{X: clamp(p.X, half)}, p, geom.Vec{Z: 1})
}

// placeBox clamps a point outside onto the box; inside, the nearest face is
// nearest. A flat box has no inside, and both sides are its nearest face.
func placeBox(h, p geom.Vec) placed {
	q := geom.Vec{X: clamp(p.X, h.X), Y: clamp(p.Y, h.Y), Z: clamp(p.Z, h.Z)}
	v := p.Sub(q)
	d := v.Len()
	if d <= geom.Tiny {
		return boxFace(h, p)
	}
	return placed{dist: d, lower: d, at: q, out: v.Scale(1 / d)}
}

// boxFace is the place of a point inside a box or on it.
func boxFace(h, p geom.Vec) placed {
	x, y, z := math.Abs(p.X)-h.X, math.Abs(p.Y)-h.Y, math.Abs(p.Z)-h.Z
	r := placed{at: p}
	switch {
	case x >= y && x >= z:
		r.dist, r.at.X, r.out.X = x, math.Copysign(h.X, p.X), math.Copysign(1, p.X)
	case y >= z:
		r.dist, r.at.Y, r.out.Y = y, math.Copysign(h.Y, p.Y), math.Copysign(1, p.Y)
	default:
		r.dist, r.at.Z, r.out.Z = z, math.Copysign(h.Z, p.Z), math.Copysign(1, p.Z)
	}
	r.lower = r.dist
	return r
}

// placeRound is the place from a cylinder of radius r and half length h about
// Z; h = 0 is a disc. In the half plane through the axis and p the core is a
// rectangle: ρ past the side, z past the end, both past the rim.
func placeRound(r, h float64, p geom.Vec) placed {
	rho := math.Sqrt(float64(p.X*p.X) + float64(p.Y*p.Y))
	e := geom.Vec{X: 1}
	if rho > 0 {
		e = geom.Vec{X: p.X / rho, Y: p.Y / rho}
	}
	side, end := rho-r, math.Abs(p.Z)-h
	switch {
	case side > 0 && end > 0:
		q := e.Scale(r)
		q.Z = math.Copysign(h, p.Z)
		return from(q, p, e)
	case side > end:
		q := e.Scale(r)
		q.Z = p.Z
		return placed{dist: side, lower: side, at: q, out: e}
	}
	q := geom.Vec{X: p.X, Y: p.Y, Z: math.Copysign(h, p.Z)}
	return placed{dist: end, lower: end, at: q, out: geom.Vec{Z: math.Copysign(1, p.Z)}}
}

// placeHull measures by the general search, in the hull's axes.
func placeHull(s *solid.Solid, p geom.Vec) placed {
	m := pair{a: s, b: &point, r: geom.Identity, t: p}
	var c core
	m.signed(math.Inf(1), &c)
	return placed{dist: c.dist, lower: c.lower, at: c.a, out: c.n}
}

// point is a bare point; it is never written.
var point = solid.Solid{Kind: solid.Point, Pose: geom.Still}
