package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// Moving the second solid by the depth along N leaves the two just touching.
// Derived: definition of the least move that parts two convex sets.
func TestMovingByTheDepthParts(t *testing.T) {
	touching := 0
	eachPair(2, 200, func(ka, kb solid.Kind, a, b *solid.Solid) {
		r := Between(a, b)
		if r.Gap > 0 || ka == solid.Arc || kb == solid.Arc {
			return
		}
		touching++
		moved := b.Moved(&geom.Pose{R: geom.Identity, P: r.N.Scale(-r.Gap)})
		assert.InDelta(t, 0, Between(a, &moved).Gap, geom.GapTol,
			"%s–%s, gap %g", kindNames[ka], kindNames[kb], r.Gap)
	})
	assert.Greater(t, touching, 2000)
}

// No direction parts two overlapping convex solids with a lesser move: the
// overlap of their shadows along any direction is an upper bound of the depth.
// Directions are even over the sphere, and dense about N. Derived: the depth is
// the least overlap of shadows over all directions.
func TestNoDirectionIsShallower(t *testing.T) {
	m := newMaker(4)
	eachPair(3, 60, func(ka, kb solid.Kind, a, b *solid.Solid) {
		r := Between(a, b)
		if r.Gap > 0 || ka == solid.Arc || kb == solid.Arc {
			return
		}
		least := math.Inf(1)
		for i := range 600 {
			n := m.unit()
			if i%2 == 1 {
				n = r.N.AddScaled(n, 0.02*float64(1+i%5)).Unit()
			}
			least = math.Min(least, -slab(a, b, n))
		}
		assert.LessOrEqual(t, -r.Gap, least+geom.GapTol,
			"%s–%s, gap %g", kindNames[ka], kindNames[kb], r.Gap)
	})
}
