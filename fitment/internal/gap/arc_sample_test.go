package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// arcPoint is the point of an arc's centreline at angle t from its middle.
func arcPoint(s *solid.Solid, t float64) geom.Vec {
	sin, cos := geom.Sincos(t)
	return s.Pose.Apply(geom.V(s.H.X*cos, s.H.X*sin, 0))
}

// sampled is the least gap of a ball at places along an arc to another solid,
// and how far the true least gap may lie below it: gap is 1-Lipschitz, so that
// it is half a step.
func sampled(arc, other *solid.Solid, n int) (least, below float64) {
	least = math.Inf(1)
	for i := range n + 1 {
		t := arc.H.Y * (2*float64(i)/float64(n) - 1)
		ball := solid.Solid{Round: arc.Round, Pose: geom.Pose{R: geom.Identity, P: arcPoint(arc, t)}}
		least = math.Min(least, Between(&ball, other).Gap)
	}
	return least, arc.H.X * arc.H.Y / float64(n)
}

// An arc's gap is no more than that of any ball along it, and no less than the
// least of many such balls less half their spacing. The ball's own gap is
// checked elsewhere. Derived: definition of an arc's gap.
func TestArcAgainstBallsAlongIt(t *testing.T) {
	m := newMaker(5)
	var touching, all int
	for kb := solid.Kind(0); kb < kindCount; kb++ {
		for range 150 {
			a, b := m.pair(solid.Arc, kb)
			r := Between(&a, &b)
			least, below := sampled(&a, &b, 4000)
			assert.LessOrEqual(t, r.Gap, least+geom.GapTol, "arc–%s above a ball", kindNames[kb])
			assert.GreaterOrEqual(t, r.Gap, least-below-geom.GapTol, "arc–%s below all balls", kindNames[kb])
			assert.InDelta(t, r.Gap, r.B.Sub(r.A).Dot(r.N), geom.GapTol, "arc–%s points", kindNames[kb])
			all++
			if r.Gap < 0 {
				touching++
			}
		}
	}
	assert.InDelta(t, 0.5, float64(touching)/float64(all), 0.2)
}

// The two points of an arc's result are on the surfaces it claims: A at the
// tube radius from the centreline, and B at no gap from the other solid.
func TestArcPointsAreOnTheSurfaces(t *testing.T) {
	m := newMaker(6)
	for kb := solid.Kind(0); kb < kindCount; kb++ {
		for range 200 {
			a, b := m.pair(solid.Arc, kb)
			r := Between(&a, &b)
			pa := solid.Solid{Pose: geom.Pose{R: geom.Identity, P: r.A}}
			pb := solid.Solid{Pose: geom.Pose{R: geom.Identity, P: r.B}}
			assert.LessOrEqual(t, Between(&pa, &a).Gap, geom.GapTol, "arc–%s A outside", kindNames[kb])
			assert.LessOrEqual(t, Between(&pb, &b).Gap, geom.GapTol, "arc–%s B outside", kindNames[kb])
		}
	}
}
