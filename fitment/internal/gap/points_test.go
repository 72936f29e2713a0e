package gap

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// The two points of a result are on the surfaces of their convex solids: no gap
// from them, and no depth in them. Derived: Result.
func TestPointsAreOnTheSurfaces(t *testing.T) {
	check := func(ka, kb solid.Kind, a, b *solid.Solid) {
		if ka == solid.Arc || kb == solid.Arc {
			return
		}
		r := Between(a, b)
		pa, pb := ball(r.A.X, r.A.Y, r.A.Z, 0), ball(r.B.X, r.B.Y, r.B.Z, 0)
		assert.InDelta(t, 0, Between(&pa, a).Gap, geom.GapTol, "A of %s–%s, gap %g", kindNames[ka], kindNames[kb], r.Gap)
		assert.InDelta(t, 0, Between(&pb, b).Gap, geom.GapTol, "B of %s–%s, gap %g", kindNames[ka], kindNames[kb], r.Gap)
	}
	eachPair(31, 200, check)
	m := newMaker(32)
	for ka := solid.Kind(0); ka < solid.Arc; ka++ {
		for kb := solid.Kind(0); kb < solid.Arc; kb++ {
			for range 200 {
				a, b := m.onLattice(ka), m.onLattice(kb)
				check(ka, kb, &a, &b)
			}
		}
	}
}
