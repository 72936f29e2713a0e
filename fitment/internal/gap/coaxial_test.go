package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// A round core with another nearly on its axis, from exactly so to plainly not:
// every direction across, or across one half, is nearly as deep as any other,
// which is hard on a search. The depth along N is a true move apart, and no
// direction across, of very many, is shallower. Derived: as for random overlaps.
func TestNearlyCoaxial(t *testing.T) {
	about := []solid.Solid{
		{Kind: solid.Cylinder, H: geom.V(1000, 0, 1500), Pose: geom.Still},
		{Kind: solid.Disc, H: geom.V(1000, 0, 0), Pose: geom.Pose{R: geom.Identity, P: geom.V(0, 0, 100)}},
	}
	in := []solid.Solid{
		{Kind: solid.Cylinder, H: geom.V(300, 0, 1800)},
		{Kind: solid.Segment, H: geom.V(1700, 0, 0)},
		{Kind: solid.Box, H: geom.V(400, 0, 1900)},
		{Kind: solid.Hull, Points: prism(24, 200, 1900)},
	}
	for _, a := range about {
		for _, b := range in {
			for _, lean := range []float64{0, 1e-9, 1e-7, 1e-6, 1e-5, 1e-4, 1e-3, 1e-2, 0.1} {
				for _, off := range []float64{0, 1e-6, 1e-4, 1e-2, 1, 30} {
					b.Pose = geom.Pose{R: geom.Turn(lean, lean/3, 0), P: geom.V(off, off/7, 3)}
					if b.Kind == solid.Segment {
						b.Pose.R = geom.AlongX(b.Pose.R.AxisZ())
					}
					checkDeepest(t, &a, &b)
				}
			}
		}
	}
}

// prism is the points of a regular prism about Z.
func prism(sides int, r, half float64) []geom.Vec {
	var p []geom.Vec
	for i := range sides {
		sin, cos := geom.Sincos(2 * math.Pi * float64(i) / float64(sides))
		p = append(p, geom.V(r*cos, r*sin, half), geom.V(r*cos, r*sin, -half))
	}
	return p
}

func checkDeepest(t *testing.T, a, b *solid.Solid) {
	t.Helper()
	r := Between(a, b)
	name := kindNames[a.Kind] + "–" + kindNames[b.Kind]
	assert.InDelta(t, r.Gap, slab(a, b, r.N), geom.GapTol, name)
	assert.InDelta(t, r.Gap, r.B.Sub(r.A).Dot(r.N), geom.GapTol, name)
	pa, pb := ball(r.A.X, r.A.Y, r.A.Z, 0), ball(r.B.X, r.B.Y, r.B.Z, 0)
	assert.LessOrEqual(t, Between(&pa, a).Gap, geom.GapTol, "%s: A outside", name)
	assert.LessOrEqual(t, Between(&pb, b).Gap, geom.GapTol, "%s: B outside", name)
	least := math.Inf(1)
	u := b.Pose.R.AxisZ()
	if b.Kind == solid.Segment {
		u = b.Pose.R.AxisX()
	}
	for i := range 2000 {
		sin, cos := geom.Sincos(float64(i) * math.Pi / 1000)
		n := geom.V(cos, sin, 0)
		least = math.Min(least, -slab(a, b, n))
		least = math.Min(least, -slab(a, b, n.AddScaled(u, -n.Dot(u)).Unit()))
	}
	assert.LessOrEqual(t, -r.Gap, least+geom.GapTol, "%s at %v", name, b.Pose)
}
