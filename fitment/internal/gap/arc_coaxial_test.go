package gap

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// Arcs about one axis, from exactly so to plainly not, against balls along them:
// the short way and the search must agree where they meet. Derived: definition of
// an arc's gap.
func TestNearlyCoaxialArcs(t *testing.T) {
	others := []solid.Solid{
		{Kind: solid.Arc, H: geom.V(70, 0.8, 0)},
		{Kind: solid.Arc, H: geom.V(100, 3, 0)},
		{Kind: solid.Segment, H: geom.V(90, 0, 0)},
		{Kind: solid.Disc, H: geom.V(60, 0, 0)},
		{Kind: solid.Cylinder, H: geom.V(120, 0, 40)},
	}
	arc := solid.Solid{Kind: solid.Arc, H: geom.V(100, 0.7, 0), Pose: geom.Still}
	for _, b := range others {
		for _, lean := range []float64{0, 1e-9, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 0.1} {
			for _, off := range []float64{0, 1e-6, 1e-5, 1e-4, 1e-3, 0.01, 0.1, 5} {
				for _, yaw := range []float64{0, 1, 1.5, 2.5} {
					b.Pose = geom.Pose{R: geom.Turn(lean, lean/3, yaw), P: geom.V(off, off/7, 3)}
					if b.Kind == solid.Segment {
						b.Pose.R = geom.AlongX(b.Pose.R.AxisZ())
					}
					r := Between(&arc, &b)
					least, below := sampled(&arc, &b, 2000)
					assert.LessOrEqual(t, r.Gap, least+geom.GapTol, "%s lean %g off %g", kindNames[b.Kind], lean, off)
					assert.GreaterOrEqual(t, r.Gap, least-below-geom.GapTol, "%s lean %g off %g", kindNames[b.Kind], lean, off)
					assert.InDelta(t, r.Gap, r.B.Sub(r.A).Dot(r.N), geom.GapTol)
				}
			}
		}
	}
}

// BenchmarkNested is the pairs in which every direction is as near or as deep as
// any other, or nearly so.
func BenchmarkNested(b *testing.B) {
	for _, f := range []struct {
		name string
		x, y solid.Solid
	}{
		{"bends", bow(0, 0, 0, 150, 20), bow(0, 0, 0, 100, 20)},
		{"bends, nearly", bow(0, 0, 0, 150, 20), bow(1, 0, 0, 100, 20)},
		{"ring about a cylinder", ring(0, 0, 0, zAxis, 300, 20), cylinder(0, 0, 0, zAxis, 200, 100)},
		{"ring about a cylinder, nearly", ring(1, 0, 0, zAxis, 300, 20), cylinder(0, 0, 0, zAxis, 200, 100)},
		{"cylinders", cylinder(0, 0, 0, zAxis, 300, 100), cylinder(0, 0, 0, zAxis, 100, 400)},
		{"cylinders, nearly", cylinder(0, 0, 0, zAxis, 300, 100), cylinder(1, 0, 0, geom.V(0, 0.01, 1), 100, 400)},
	} {
		b.Run(f.name, func(b *testing.B) {
			b.ReportAllocs()
			for range b.N {
				sink += Between(&f.x, &f.y).Gap
			}
		})
	}
}
