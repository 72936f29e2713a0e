package geom_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/geom"
)

// bits are a pose's numbers to the last bit, the sign of a nought included.
func bits(p geom.Pose) (out [12]uint64) {
	for i, v := range [4]geom.Vec{p.R.X, p.R.Y, p.R.Z, p.P} {
		for k, f := range [3]float64{v.X, v.Y, v.Z} {
			out[3*i+k] = math.Float64bits(f)
		}
	}
	return out
}

// A turn about one axis is written down; it must be what the product of the
// three turns gives.
func TestTurnAboutOneAxisIsTheProduct(t *testing.T) {
	product := func(roll, yaw float64) geom.Mat {
		sr, cr := geom.Sincos(roll)
		sp, cp := geom.Sincos(0)
		sy, cy := geom.Sincos(yaw)
		rx := geom.Mat{X: geom.V(1, 0, 0), Y: geom.V(0, cr, -sr), Z: geom.V(0, sr, cr)}
		ry := geom.Mat{X: geom.V(cp, 0, sp), Y: geom.V(0, 1, 0), Z: geom.V(-sp, 0, cp)}
		rz := geom.Mat{X: geom.V(cy, -sy, 0), Y: geom.V(sy, cy, 0), Z: geom.V(0, 0, 1)}
		m := ry.Mul(&rx)
		return rz.Mul(&m)
	}
	angles := []float64{0, math.Copysign(0, -1), 1e-300, -1e-300, math.Pi / 2, -math.Pi / 2, math.Pi, -math.Pi, 2 * math.Pi}
	r := rand.New(rand.NewSource(1))
	for range 2000 {
		angles = append(angles, (r.Float64()-0.5)*14)
	}
	for _, a := range angles {
		require.Equal(t, bits(geom.Pose{R: product(a, 0)}), bits(geom.Pose{R: geom.Turn(a, 0, 0)}), "roll %g", a)
		require.Equal(t, bits(geom.Pose{R: product(0, a)}), bits(geom.Pose{R: geom.Turn(0, 0, a)}), "yaw %g", a)
	}
}

// What is written in place is what is returned.
func TestThenIntoIsThen(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for i := range 500 {
		p := geom.Pose{R: geom.Turn(r.NormFloat64(), r.NormFloat64(), r.NormFloat64()), P: geom.V(r.NormFloat64(), 0, -1)}
		q := geom.Pose{R: geom.Turn(r.NormFloat64(), 0, 0), P: geom.V(0, r.NormFloat64(), 300)}
		if i%3 == 0 {
			p = geom.Still
		}
		var out, set geom.Pose
		p.ThenInto(&q, &out)
		set.Set(&out)
		require.Equal(t, bits(p.Then(&q)), bits(out))
		require.Equal(t, bits(out), bits(set))
	}
}
