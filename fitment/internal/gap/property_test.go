package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// twoSolids draws two random solids of any kinds, of which about half touch.
func twoSolids(t *rapid.T) (a, b solid.Solid) {
	m := newMaker(rapid.Int64().Draw(t, "seed"))
	ka := solid.Kind(rapid.IntRange(0, kindCount-1).Draw(t, "kind of a"))
	kb := solid.Kind(rapid.IntRange(0, kindCount-1).Draw(t, "kind of b"))
	return m.pair(ka, kb)
}

// close2 is how far two results for the same pair may differ: each is within
// geom.GapTol of the same value.
const close2 = 2 * geom.GapTol

// The gap of a and b is that of b and a. Derived: definition.
func TestSymmetric(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := twoSolids(t)
		ab, ba := Between(&a, &b), Between(&b, &a)
		assert.InDelta(t, ab.Gap, ba.Gap, close2)
		if a.Kind != b.Kind { // measured the same way round
			assert.Equal(t, ab, Result{Gap: ba.Gap, A: ba.B, B: ba.A, N: ba.N.Neg()})
		}
	})
}

// A rigid motion of both changes no gap. Derived: distances are kept.
func TestRigidMotion(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := twoSolids(t)
		m := newMaker(rapid.Int64().Draw(t, "motion"))
		by := geom.Pose{R: m.turn(), P: m.vec(3000)}
		ma, mb := a.Moved(&by), b.Moved(&by)
		assert.InDelta(t, Between(&a, &b).Gap, Between(&ma, &mb).Gap, close2)
	})
}

// Growing one solid by r lowers the gap by r. Derived: see the package comment.
func TestGrowing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := twoSolids(t)
		r := rapid.Float64Range(0, 100).Draw(t, "r")
		before := Between(&a, &b).Gap
		a.Round += r
		assert.InDelta(t, before-r, Between(&a, &b).Gap, geom.Tiny)
	})
}

// Moving one solid by d changes the gap by no more than d. Derived: the signed
// distance is 1-Lipschitz.
func TestMovingIsLipschitz(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := twoSolids(t)
		m := newMaker(rapid.Int64().Draw(t, "move"))
		d := m.vec(10)
		moved := b.Moved(&geom.Pose{R: geom.Identity, P: d})
		change := math.Abs(Between(&a, &moved).Gap - Between(&a, &b).Gap)
		assert.LessOrEqual(t, change, d.Len()+close2)
	})
}

// The gap is no more than the distance of any two points of the surfaces.
func TestNoNearerPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := twoSolids(t)
		if a.Kind == solid.Arc || b.Kind == solid.Arc {
			return // their support is that of their hull, not of the surface
		}
		m := newMaker(rapid.Int64().Draw(t, "points"))
		gap := Between(&a, &b).Gap
		for range 100 {
			assert.LessOrEqual(t, gap, a.Support(m.unit()).Dist(b.Support(m.unit()))+geom.GapTol)
		}
	})
}

// The quick answers agree with the whole one, and their bound is a bound.
func TestQuickAnswers(t *testing.T) {
	var enough, all int
	rapid.Check(t, func(t *rapid.T) {
		a, b := twoSolids(t)
		gap := Between(&a, &b).Gap
		limit := gap + rapid.Float64Range(-40, 40).Draw(t, "limit from gap")
		r, ok := AtLeast(&a, &b, limit)
		assert.Equal(t, !ok, Closer(&a, &b, limit))
		all++
		switch {
		case ok:
			enough++
			assert.GreaterOrEqual(t, r.Gap, limit)
			assert.LessOrEqual(t, r.Gap, gap+geom.GapTol)
		default:
			assert.Less(t, gap, limit+close2)
			assert.InDelta(t, gap, r.Gap, close2)
		}
	})
	assert.InDelta(t, 0.5, float64(enough)/float64(all), 0.2, "share of answers that were enough")
}

// Every slab is a lower bound of the gap, and for convex solids that along N is
// the gap. Derived: separating planes; slab in the tests is another way to the
// same width.
func TestSlab(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := twoSolids(t)
		m := newMaker(rapid.Int64().Draw(t, "directions"))
		r := Between(&a, &b)
		for range 20 {
			n := m.unit()
			assert.LessOrEqual(t, Slab(&a, &b, n), r.Gap+geom.GapTol)
			assert.InDelta(t, slab(&a, &b, n), Slab(&a, &b, n), geom.GapTol*geom.GapTol)
		}
		if a.Kind != solid.Arc && b.Kind != solid.Arc {
			assert.InDelta(t, r.Gap, Slab(&a, &b, r.N), geom.GapTol)
		}
	})
}

// Through contact the gap is continuous and falls as fast as the solids close
// in along N, for cores that just touch as well. Derived: for convex solids the
// gap along the line of N is the distance left.
func TestContinuousThroughTouching(t *testing.T) {
	eachPair(12, 12, func(ka, kb solid.Kind, a, b *solid.Solid) {
		if ka == solid.Arc || kb == solid.Arc {
			return
		}
		r := Between(a, b)
		a.Round, b.Round = 0, 0
		core := Between(a, b)
		if core.Gap <= 0 {
			return
		}
		for _, left := range []float64{3, 1, 0.1, 0.01, geom.GapTol, geom.TouchTol, geom.TouchTol / 10, geom.Tiny, 0, -geom.Tiny} {
			moved := b.Moved(&geom.Pose{R: geom.Identity, P: r.N.Scale(left - core.Gap)})
			if left >= 0 {
				assert.InDelta(t, left, Between(a, &moved).Gap, close2, "%s–%s", kindNames[ka], kindNames[kb])
			} else {
				assert.LessOrEqual(t, math.Abs(Between(a, &moved).Gap), close2, "%s–%s", kindNames[ka], kindNames[kb])
			}
		}
	})
}
