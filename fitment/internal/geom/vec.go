// Package geom has the engine's vectors, poses, tolerances and deterministic
// functions. Axes are the body's (X rearward, Y right, Z up), lengths
// millimetres, angles radians.
package geom

import "math"

// Vec is a point or direction. A struct is several times faster than an array
// in the hot kernels (measured; see DEVELOPERS.md).
type Vec struct{ X, Y, Z float64 }

// V is short for a vector literal.
func V(x, y, z float64) Vec { return Vec{x, y, z} }

func (a Vec) Add(b Vec) Vec             { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }
func (a Vec) Sub(b Vec) Vec             { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }
func (a Vec) Neg() Vec                  { return Vec{-a.X, -a.Y, -a.Z} }
func (a Vec) Len() float64              { return math.Sqrt(a.Dot(a)) }
func (a Vec) LenSq() float64            { return a.Dot(a) }
func (a Vec) Dist(b Vec) float64        { return a.Sub(b).Len() }
func (a Vec) Lerp(b Vec, t float64) Vec { return a.AddScaled(b.Sub(a), t) }

// Each product below is wrapped in float64(): Go may otherwise fuse the
// multiplication into the addition on some processors, and the last bits would
// differ between builds.

// Scale is s·a.
func (a Vec) Scale(s float64) Vec {
	return Vec{float64(a.X * s), float64(a.Y * s), float64(a.Z * s)}
}

// Dot is the scalar product.
func (a Vec) Dot(b Vec) float64 {
	return float64(a.X*b.X) + float64(a.Y*b.Y) + float64(a.Z*b.Z)
}

// Cross is the vector product.
func (a Vec) Cross(b Vec) Vec {
	return Vec{
		float64(a.Y*b.Z) - float64(a.Z*b.Y),
		float64(a.Z*b.X) - float64(a.X*b.Z),
		float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

// AddScaled is a + s·b.
func (a Vec) AddScaled(b Vec, s float64) Vec {
	return Vec{a.X + float64(b.X*s), a.Y + float64(b.Y*s), a.Z + float64(b.Z*s)}
}

// Unit is a scaled to length 1; the zero vector stays zero.
func (a Vec) Unit() Vec {
	l := a.Len()
	if l == 0 {
		return a
	}
	return Vec{a.X / l, a.Y / l, a.Z / l}
}

// Mat is a rotation by rows.
type Mat struct{ X, Y, Z Vec }

// Identity leaves everything where it is.
var Identity = Mat{Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}}

// Apply rotates v.
func (m *Mat) Apply(v Vec) Vec { return Vec{m.X.Dot(v), m.Y.Dot(v), m.Z.Dot(v)} }

// ApplyT rotates v back.
func (m *Mat) ApplyT(v Vec) Vec {
	return Vec{
		float64(m.X.X*v.X) + float64(m.Y.X*v.Y) + float64(m.Z.X*v.Z),
		float64(m.X.Y*v.X) + float64(m.Y.Y*v.Y) + float64(m.Z.Y*v.Z),
		float64(m.X.Z*v.X) + float64(m.Y.Z*v.Y) + float64(m.Z.Z*v.Z),
	}
}

// Mul is the rotation n first, then m.
func (m *Mat) Mul(n *Mat) Mat {
	cx, cy, cz := Vec{n.X.X, n.Y.X, n.Z.X}, Vec{n.X.Y, n.Y.Y, n.Z.Y}, Vec{n.X.Z, n.Y.Z, n.Z.Z}
	row := func(r Vec) Vec { return Vec{r.Dot(cx), r.Dot(cy), r.Dot(cz)} }
	return Mat{row(m.X), row(m.Y), row(m.Z)}
}

// Turn is roll about X, then pitch about Y, then yaw about Z, in radians, each
// right-handed about fixed axes.
//
// Axles only roll and wheels only steer, and that many times: one angle is written
// down as the products of three leave it, to the sign of each nought.
func Turn(roll, pitch, yaw float64) Mat {
	switch {
	case pitch == 0 && yaw == 0:
		s, c := Sincos(roll)
		return Mat{Vec{1, 0, 0}, Vec{0, c, 0 - s}, Vec{0, 0 + s, c}}
	case pitch == 0 && roll == 0:
		s, c := Sincos(yaw)
		return Mat{Vec{c, 0 - s, 0}, Vec{0 + s, c, 0}, Vec{0, 0, 1}}
	}
	return turn(roll, pitch, yaw)
}

// turn is Turn for any three angles.
func turn(roll, pitch, yaw float64) Mat {
	sr, cr := Sincos(roll)
	sp, cp := Sincos(pitch)
	sy, cy := Sincos(yaw)
	rx := Mat{Vec{1, 0, 0}, Vec{0, cr, -sr}, Vec{0, sr, cr}}
	ry := Mat{Vec{cp, 0, sp}, Vec{0, 1, 0}, Vec{-sp, 0, cp}}
	rz := Mat{Vec{cy, -sy, 0}, Vec{sy, cy, 0}, Vec{0, 0, 1}}
	m := ry.Mul(&rx)
	return rz.Mul(&m)
}

// Pose places a solid: rotate, then move.
type Pose struct {
	R Mat
	P Vec
}

// Still is the pose that leaves everything where it is.
var Still = Pose{R: Identity}

// Apply carries a point of the solid to where it is.
func (p *Pose) Apply(v Vec) Vec { return p.R.Apply(v).Add(p.P) }

// Inverse carries a point back into the solid's own axes.
func (p *Pose) Inverse(v Vec) Vec { return p.R.ApplyT(v.Sub(p.P)) }

// Then is the pose p followed by q.
func (p *Pose) Then(q *Pose) Pose { return Pose{R: q.R.Mul(&p.R), P: q.Apply(p.P)} }

// ThenInto is Then, written into out, which is neither p nor q. WebAssembly calls
// out of its own code for every struct of more than four words that is copied, so
// that the innermost loops write where the result is wanted.
func (p *Pose) ThenInto(q, out *Pose) {
	m, n := &q.R, &p.R
	cx, cy, cz := n.AxisX(), n.AxisY(), n.AxisZ()
	out.R.X = Vec{m.X.Dot(cx), m.X.Dot(cy), m.X.Dot(cz)}
	out.R.Y = Vec{m.Y.Dot(cx), m.Y.Dot(cy), m.Y.Dot(cz)}
	out.R.Z = Vec{m.Z.Dot(cx), m.Z.Dot(cy), m.Z.Dot(cz)}
	out.P = m.Apply(p.P).Add(q.P)
}

// Set is p = *q, vector by vector, for the same reason.
func (p *Pose) Set(q *Pose) { p.R.X, p.R.Y, p.R.Z, p.P = q.R.X, q.R.Y, q.R.Z, q.P }
