package scene

import "math"

// Every product that goes into a sum is wrapped in float64(): some processors
// would otherwise fuse the two, and the last bits would differ between builds.

func (a Vec) add(b Vec) Vec { return Vec{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }
func (a Vec) sub(b Vec) Vec { return Vec{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a Vec) neg() Vec      { return Vec{-a[0], -a[1], -a[2]} }

func (a Vec) scale(s float64) Vec {
	return Vec{float64(a[0] * s), float64(a[1] * s), float64(a[2] * s)}
}

func (a Vec) dot(b Vec) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}

func (a Vec) cross(b Vec) Vec {
	return Vec{
		float64(a[1]*b[2]) - float64(a[2]*b[1]),
		float64(a[2]*b[0]) - float64(a[0]*b[2]),
		float64(a[0]*b[1]) - float64(a[1]*b[0]),
	}
}

func (a Vec) len() float64 { return math.Sqrt(a.dot(a)) }

// unit is a scaled to length 1; the zero vector stays zero.
func (a Vec) unit() Vec {
	l := a.len()
	if l == 0 {
		return a
	}
	return Vec{a[0] / l, a[1] / l, a[2] / l}
}

// radians turns degrees into radians.
func radians(deg float64) float64 { return deg * math.Pi / 180 }
