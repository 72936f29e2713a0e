package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// Two cylinders nearly on one axis, from exactly so to plainly not: every
// direction across is nearly as deep as any other, which is hard on a search.
// The depth along N is a true move apart, and no direction across, of very many,
// is shallower. Derived: as for random overlaps.
func TestNearlyCoaxialCylinders(t *testing.T) {
	for _, lean := range []float64{0, 1e-9, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 0.1} {
		for _, off := range []float64{0, 1e-6, 1e-4, 1e-2, 1, 30} {
			a := solid.Solid{Kind: solid.Cylinder, H: geom.V(1000, 0, 1500), Pose: geom.Still}
			b := solid.Solid{Kind: solid.Cylinder, H: geom.V(300, 0, 800),
				Pose: geom.Pose{R: geom.Turn(lean, lean/3, 0), P: geom.V(off, off/7, 3)}}
			r := Between(&a, &b)
			assert.InDelta(t, r.Gap, slab(&a, &b, r.N), geom.GapTol, "lean %g, off %g", lean, off)
			assert.InDelta(t, r.Gap, r.B.Sub(r.A).Dot(r.N), geom.GapTol, "lean %g, off %g", lean, off)
			pa, pb := ball(r.A.X, r.A.Y, r.A.Z, 0), ball(r.B.X, r.B.Y, r.B.Z, 0)
			assert.LessOrEqual(t, Between(&pa, &a).Gap, geom.GapTol, "A outside, lean %g, off %g", lean, off)
			assert.LessOrEqual(t, Between(&pb, &b).Gap, geom.GapTol, "B outside, lean %g, off %g", lean, off)
			least := math.Inf(1)
			for i := range 20000 {
				sin, cos := math.Sincos(float64(i) * math.Pi / 10000)
				n := geom.V(cos, sin, 0)
				least = math.Min(least, -slab(&a, &b, n))
				// Square to the other axis as well.
				u := b.Pose.R.AxisZ()
				least = math.Min(least, -slab(&a, &b, n.AddScaled(u, -n.Dot(u)).Unit()))
			}
			assert.LessOrEqual(t, -r.Gap, least+geom.GapTol, "lean %g, off %g", lean, off)
		}
	}
}
