package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// onLattice is a solid whose sizes, place and turn are whole tens and right
// angles: faces in one plane, edges on one line, parts just touching, centres on
// one point and directions with ties are the rule here, not the exception.
func (m maker) onLattice(k solid.Kind) solid.Solid {
	ten := func(n int) float64 { return 10 * float64(m.Intn(n)) }
	q := math.Pi / 2
	s := solid.Solid{Kind: k, Round: ten(3)}
	s.Pose.R = geom.Turn(q*float64(m.Intn(4)), q*float64(m.Intn(4)), 0)
	if m.Intn(2) == 0 {
		s.Pose.R = quarterTurns[m.Intn(len(quarterTurns))]
	}
	s.Pose.P = geom.V(ten(9)-40, ten(9)-40, ten(9)-40)
	switch k {
	case solid.Segment, solid.Disc:
		s.H = geom.V(10+ten(4), 0, 0)
	case solid.Cylinder:
		s.H = geom.V(10+ten(4), 0, 10+ten(4))
	case solid.Box:
		s.H = geom.V(10+ten(4), 10+ten(4), ten(4)) // one in four is a sheet
	case solid.Hull:
		for range 4 + m.Intn(20) {
			s.Points = append(s.Points, geom.V(ten(5)-20, ten(5)-20, ten(5)-20))
		}
	case solid.Arc:
		s.H = geom.V(10+ten(4), q*float64(1+m.Intn(2)), 0)
	}
	return s
}

// quarterTurns are exact: no rounding blurs the ties.
var quarterTurns = []geom.Mat{
	geom.Identity,
	{X: geom.V(0, -1, 0), Y: geom.V(1, 0, 0), Z: geom.V(0, 0, 1)},
	{X: geom.V(1, 0, 0), Y: geom.V(0, 0, -1), Z: geom.V(0, 1, 0)},
	{X: geom.V(0, 0, 1), Y: geom.V(0, 1, 0), Z: geom.V(-1, 0, 0)},
	{X: geom.V(0, -1, 0), Y: geom.V(0, 0, -1), Z: geom.V(1, 0, 0)},
}

// Every convex result on the lattice proves itself from above and below, and
// overlaps part when moved by their depth. Derived: as for random pairs.
func TestLattice(t *testing.T) {
	m := newMaker(21)
	var touching, all int
	for ka := solid.Kind(0); ka < solid.Arc; ka++ {
		for kb := solid.Kind(0); kb < solid.Arc; kb++ {
			for range 600 {
				a, b := m.onLattice(ka), m.onLattice(kb)
				r := Between(&a, &b)
				name := kindNames[ka] + "–" + kindNames[kb]
				assert.InDelta(t, r.Gap, slab(&a, &b, r.N), geom.GapTol, "%s slab", name)
				assert.InDelta(t, r.Gap, r.B.Sub(r.A).Dot(r.N), geom.GapTol, "%s points", name)
				moved := b.Moved(&geom.Pose{R: geom.Identity, P: r.N.Scale(-r.Gap)})
				assert.InDelta(t, 0, Between(&a, &moved).Gap, geom.GapTol, "%s moved, gap %g", name, r.Gap)
				all++
				if r.Gap <= 0 {
					touching++
				}
			}
		}
	}
	assert.InDelta(t, 0.5, float64(touching)/float64(all), 0.2)
}

// The deepest depth on the lattice is found too: no direction of the lattice
// and its diagonals is shallower.
func TestLatticeDepth(t *testing.T) {
	m := newMaker(22)
	for ka := solid.Kind(0); ka < solid.Arc; ka++ {
		for kb := solid.Kind(0); kb < solid.Arc; kb++ {
			for range 150 {
				a, b := m.onLattice(ka), m.onLattice(kb)
				r := Between(&a, &b)
				for i := range 343 {
					n := geom.V(float64(i%7-3), float64(i/7%7-3), float64(i/49-3)).Unit()
					if n != (geom.Vec{}) {
						assert.LessOrEqual(t, slab(&a, &b, n), r.Gap+geom.GapTol,
							"%s–%s along %v", kindNames[ka], kindNames[kb], n)
					}
				}
			}
		}
	}
}

// Arcs on the lattice against balls along them.
func TestLatticeArcs(t *testing.T) {
	m := newMaker(23)
	for kb := solid.Kind(0); kb < kindCount; kb++ {
		for range 60 {
			a, b := m.onLattice(solid.Arc), m.onLattice(kb)
			r := Between(&a, &b)
			least, below := sampled(&a, &b, 1000)
			assert.LessOrEqual(t, r.Gap, least+geom.GapTol, "arc–%s above a ball", kindNames[kb])
			assert.GreaterOrEqual(t, r.Gap, least-below-geom.GapTol, "arc–%s below all balls", kindNames[kb])
			assert.InDelta(t, r.Gap, r.B.Sub(r.A).Dot(r.N), geom.GapTol, "arc–%s points", kindNames[kb])
		}
	}
}
