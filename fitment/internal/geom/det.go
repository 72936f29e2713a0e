package geom

import "math"

// The library's sine and cosine are compiled with fused multiply-add on some
// processors, and their last bits differ there. Sincos has every product
// rounded, so that all builds agree.

// A quarter turn's half, π/4, in three parts of which the first two have so few
// bits that their products with a small whole number are exact (Cody and Waite,
// Software Manual for the Elementary Functions, 1980).
const (
	quarter1 = 7.85398125648498535156e-1
	quarter2 = 3.77489470793079817668e-8
	quarter3 = 2.69515142907905952645e-15
)

// Coefficients of the minimax polynomials on [−π/4, π/4] from the Cephes
// Mathematical Library, release 2.8 (Moshier, 2000), sin.c:
//
//	sin z = z + z³ P(z²),   cos z = 1 − z²/2 + z⁴ Q(z²)
//
// with an error below 1e-16.
var (
	sinP = [6]float64{
		1.58962301576546568060e-10, -2.50507477628578072866e-8, 2.75573136213857245213e-6,
		-1.98412698295895385996e-4, 8.33333333332211858878e-3, -1.66666666666666307295e-1,
	}
	cosQ = [6]float64{
		-1.13585365213876817300e-11, 2.08757008419747316778e-9, -2.75573141792967388112e-7,
		2.48015872888517045348e-5, -1.38888888888730564116e-3, 4.16666666666665929218e-2,
	}
)

// Sincos is the sine and cosine of an angle in radians, the same to the last
// bit in every build. Angles that are no numbers or infinite have no sine: both
// are NaN.
func Sincos(rad float64) (sin, cos float64) {
	x := math.Abs(rad)
	if x > 1<<20 {
		x = math.Mod(x, 2*math.Pi) // exact; NaN for infinity
	}
	if math.IsNaN(x) {
		return x, x
	}
	octant := math.Ceil(math.Floor(x*(4/math.Pi))/2) * 2 // even: the nearest quarter turn
	z := x - float64(octant*quarter1) - float64(octant*quarter2) - float64(octant*quarter3)
	zz := z * z
	sin = z + float64(float64(z*zz)*horner(&sinP, zz))
	cos = 1 - float64(0.5*zz) + float64(float64(zz*zz)*horner(&cosQ, zz))
	switch int(octant/2) & 3 {
	case 1:
		sin, cos = cos, -sin
	case 2:
		sin, cos = -sin, -cos
	case 3:
		sin, cos = -cos, sin
	}
	if rad < 0 {
		sin = -sin
	}
	return sin, cos
}

func horner(c *[6]float64, x float64) float64 {
	y := float64(c[0]*x) + c[1]
	y = float64(y*x) + c[2]
	y = float64(y*x) + c[3]
	y = float64(y*x) + c[4]
	return float64(y*x) + c[5]
}
