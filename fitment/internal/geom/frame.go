package geom

import "math"

// Perp is a unit vector square to a, the same for the same input. The zero
// vector has the X axis.
func (a Vec) Perp() Vec {
	x, y, z := math.Abs(a.X), math.Abs(a.Y), math.Abs(a.Z)
	var p Vec
	switch {
	case x <= y && x <= z:
		p = Vec{0, a.Z, -a.Y}
	case y <= z:
		p = Vec{-a.Z, 0, a.X}
	default:
		p = Vec{a.Y, -a.X, 0}
	}
	if p = p.Unit(); p == (Vec{}) {
		return Vec{1, 0, 0}
	}
	return p
}

// Finite says that no component is infinite or not a number.
func (a Vec) Finite() bool {
	s := math.Abs(a.X) + math.Abs(a.Y) + math.Abs(a.Z)
	return s <= math.MaxFloat64
}

// Columns is the rotation whose local axes stand along x, y and z.
func Columns(x, y, z Vec) Mat {
	return Mat{Vec{x.X, y.X, z.X}, Vec{x.Y, y.Y, z.Y}, Vec{x.Z, y.Z, z.Z}}
}

// SetColumns makes m what Columns gives.
func (m *Mat) SetColumns(x, y, z Vec) {
	m.X, m.Y, m.Z = Vec{x.X, y.X, z.X}, Vec{x.Y, y.Y, z.Y}, Vec{x.Z, y.Z, z.Z}
}

// AxisX, AxisY and AxisZ are where the local axes point.
func (m *Mat) AxisX() Vec { return Vec{m.X.X, m.Y.X, m.Z.X} }
func (m *Mat) AxisY() Vec { return Vec{m.X.Y, m.Y.Y, m.Z.Y} }
func (m *Mat) AxisZ() Vec { return Vec{m.X.Z, m.Y.Z, m.Z.Z} }

// AlongX is a rotation that carries local X to the unit vector u.
func AlongX(u Vec) Mat {
	y := u.Perp()
	return Columns(u, y, u.Cross(y))
}

// AlongZ is a rotation that carries local Z to the unit vector u.
func AlongZ(u Vec) Mat {
	x := u.Perp()
	return Columns(x, u.Cross(x), u)
}

// TMul is the rotation n first, then m back: mᵀ·n.
func (m *Mat) TMul(n *Mat) Mat {
	return Columns(m.ApplyT(n.AxisX()), m.ApplyT(n.AxisY()), m.ApplyT(n.AxisZ()))
}
