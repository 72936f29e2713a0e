package motion

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// rotationVector is the axis of a rotation times its angle (radians), below a
// half turn: the axis is the odd part of the matrix, 2·sin·axis.
func rotationVector(m *geom.Mat) geom.Vec {
	odd := geom.V(m.Z.Y-m.Y.Z, m.X.Z-m.Z.X, m.Y.X-m.X.Y).Scale(0.5)
	sin := odd.Len()
	angle := math.Atan2(sin, (m.X.X+m.Y.Y+m.Z.Z-1)/2)
	if angle < small {
		return odd.Scale(1 + angle*angle/6)
	}
	return odd.Scale(angle / sin)
}

// rotationOf is the rotation by a rotation vector (Rodrigues): I + A·K + B·K²
// with K its cross matrix, A = sin a/a and B = (1 − cos a)/a².
func rotationOf(v geom.Vec) geom.Mat {
	aa := v.LenSq()
	angle := math.Sqrt(aa)
	a, b := 1-aa/6, 0.5-aa/24
	if angle >= small {
		sin, cos := geom.Sincos(angle)
		a, b = sin/angle, (1-cos)/aa
	}
	x, y, z := float64(a*v.X), float64(a*v.Y), float64(a*v.Z)
	xy, xz, yz := float64(b*v.X*v.Y), float64(b*v.X*v.Z), float64(b*v.Y*v.Z)
	xx, yy, zz := float64(b*v.X*v.X), float64(b*v.Y*v.Y), float64(b*v.Z*v.Z)
	return geom.Mat{
		X: geom.V(1-yy-zz, xy-z, xz+y),
		Y: geom.V(xy+z, 1-xx-zz, yz-x),
		Z: geom.V(xz-y, yz+x, 1-xx-yy),
	}
}

// small (radians): below it the first terms of the series are exact to the last
// digit.
const small = 1e-4
