package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// slab is the signed width between the supporting planes of a and b square to
// n: b's lowest along n less a's highest. It is a lower bound of the gap of
// convex solids for every unit n.
func slab(a, b *solid.Solid, n geom.Vec) float64 {
	return n.Dot(b.Support(n.Neg())) - n.Dot(a.Support(n))
}

// Every result for convex solids that are apart proves itself: its two points
// are points of the solids, so that the gap is no more than their distance, and
// the slab along N is no less. Both need only the support functions. Derived:
// separating axis and the definition of distance.
func TestConvexGapIsProved(t *testing.T) {
	var touching, all int
	worst := 0.0
	eachPair(1, 700, func(ka, kb solid.Kind, a, b *solid.Solid) {
		if ka == solid.Arc || kb == solid.Arc {
			return
		}
		all++
		r := Between(a, b)
		name := kindNames[ka] + "–" + kindNames[kb]
		if !assert.InDelta(t, 1, r.N.Len(), geom.GapTol, name) {
			return
		}
		assert.InDelta(t, r.Gap, r.B.Sub(r.A).Dot(r.N), geom.GapTol, "%s points", name)
		err := math.Abs(r.Gap - slab(a, b, r.N))
		worst = math.Max(worst, err)
		assert.LessOrEqual(t, err, geom.GapTol, "%s slab, gap %g", name, r.Gap)
		if r.Gap <= 0 {
			touching++
		} else {
			assert.InDelta(t, r.Gap, r.B.Dist(r.A), geom.GapTol, "%s distance", name)
		}
	})
	share := float64(touching) / float64(all)
	t.Logf("%d pairs, %.0f %% touch, worst slab %.3g mm", all, 100*share, worst)
	assert.GreaterOrEqual(t, all, 20000)
	assert.InDelta(t, 0.5, share, 0.2)
}
