package main

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/testdata/vehicles"
)

// A generated vehicle is valid, has the parts asked for, is the same each time,
// another for another seed, and keeps to its mix: every kind in it appears.
func TestGeneratedVehicles(t *testing.T) {
	for _, parts := range []int{25, 50, 100, 150, 200, 400} {
		for seed := int64(1); seed <= 3; seed++ {
			doc := vehicles.Generate(parts, seed)
			require.NoError(t, doc.Validate())
			require.Len(t, doc.Parts, parts)
			assert.Equal(t, string(scene.Encode(doc)), string(scene.Encode(vehicles.Generate(parts, seed))))
			assert.NotEqual(t, string(scene.Encode(doc)), string(scene.Encode(vehicles.Generate(parts, seed+3))))
		}
	}
	seen := map[string]bool{}
	doc := vehicles.Generate(200, 1)
	for i := range doc.Parts {
		seen[doc.Parts[i].Kind] = true
	}
	assert.GreaterOrEqual(t, len(seen), 20)
}

// Density stays: the pairs whose travel has to be searched grow about as the
// parts do, and are there at every size.
func TestGeneratedDensityStays(t *testing.T) {
	perPart := func(parts int) float64 {
		n := 0
		for seed := int64(1); seed <= 5; seed++ {
			m, err := fitment.Compile(vehicles.Generate(parts, seed))
			require.NoError(t, err)
			n += m.Effort().Solids
		}
		return float64(n) / float64(5*parts)
	}
	few, many := perPart(50), perPart(400)
	assert.Greater(t, few, 0.2)
	assert.InDelta(t, 1, many/few, 0.5)
}

// A bend's capsules follow it: their ends stand on two ends of the arc and meet,
// their middles no farther inside it than the rise of 30 degrees, R(1 − cos 15°).
// Derived: geometry of the chord.
func TestChainFollowsTheBend(t *testing.T) {
	b := fitment.Body{Kind: "arc", Round: 20, Size: [3]float64{100, math.Pi / 4, 0},
		Turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}, At: [3]float64{10, 20, 30}}
	cs := chain(&b)
	require.Len(t, cs, 3)
	ends := func(i int, side float64) [3]float64 {
		s := cs[i]
		var p [3]float64
		for k := range 3 {
			p[k] = s.P[k] + side*s.H[0]*s.R[3*k]
		}
		return p
	}
	near := func(want, got [3]float64) {
		t.Helper()
		for k := range 3 {
			assert.InDelta(t, want[k], got[k], 1e-9)
		}
	}
	c := 100 * math.Cos(math.Pi/4)
	near([3]float64{10 + c, 20 - c, 30}, ends(0, -1))
	near([3]float64{10 + c, 20 + c, 30}, ends(2, 1))
	near(ends(0, 1), ends(1, -1))
	near(ends(1, 1), ends(2, -1))
	for _, s := range cs {
		assert.InDelta(t, 100*math.Cos(math.Pi/12), math.Hypot(s.P[0]-10, s.P[1]-20), 1e-9)
	}
}

// Time that grows as a power gives that power. Derived: definition.
func TestSlope(t *testing.T) {
	var xs, ys []float64
	for _, n := range []float64{25, 50, 100, 200, 400} {
		xs, ys = append(xs, math.Log(n)), append(ys, math.Log(3*n*math.Sqrt(n)))
	}
	assert.InDelta(t, 1.5, slope(xs, ys), 1e-12)
}

// The text for the outside program has its counts where the program reads them.
func TestSampledScene(t *testing.T) {
	doc := vehicles.Generate(25, 1)
	text, err := sampledScene(doc)
	require.NoError(t, err)
	m, err := fitment.Compile(doc)
	require.NoError(t, err)
	solids := outsideSolids(m, fitment.State{})
	lines := strings.Split(strings.TrimSpace(text), "\n")
	require.Len(t, lines, len(solids)*(1+sampledHeights))
	for _, l := range lines[len(solids)+1:] {
		require.Len(t, strings.Fields(l), 12)
	}
}
