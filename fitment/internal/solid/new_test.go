package solid

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/geom"
)

// near compares two points.
func near(t *testing.T, want, have geom.Vec, msg string) {
	t.Helper()
	assert.InDelta(t, 0, want.Dist(have), geom.GapTol*geom.GapTol, "%s: want %v, have %v", msg, want, have)
}

// A cylinder's outer radius and length stay what was asked for, whatever core
// the rounding leaves. Derived.
func TestCylinderKeepsItsOuterSize(t *testing.T) {
	a, b := geom.V(10, 20, 30), geom.V(10, 20, 230)
	for _, c := range []struct {
		name      string
		r, round  float64
		kind      Kind
		coreRound float64
	}{
		{"sharp", 50, 0, Cylinder, 0},
		{"rounded", 50, 20, Cylinder, 20},
		{"as round as its radius", 50, 50, Segment, 50},
		{"rounder than its radius", 50, 80, Segment, 50},
		{"as round as half its length", 150, 100, Disc, 100},
		{"rounder than half its length", 150, 140, Disc, 100},
		{"a ball", 100, 100, Point, 100},
		{"a line", 0, 0, Segment, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := NewCylinder(a, b, c.r, c.round)
			require.NoError(t, err)
			assert.Equal(t, c.kind, s.Kind)
			assert.InDelta(t, c.coreRound, s.Round, geom.Tiny)
			lo, hi := s.Bounds()
			near(t, geom.V(10-c.r, 20-c.r, 30), lo, "low")
			near(t, geom.V(10+c.r, 20+c.r, 230), hi, "high")
		})
	}
}

func TestCylinderWithoutLengthIsADisc(t *testing.T) {
	s, err := NewCylinder(geom.V(1, 2, 3), geom.V(1, 2, 3), 5, 1)
	require.NoError(t, err)
	assert.Equal(t, Disc, s.Kind)
	assert.Equal(t, 5.0, s.H.X)
}

// A box keeps its outer size; one without thickness two or three ways is the
// segment or ball that it is. Derived.
func TestBoxKeepsItsOuterSize(t *testing.T) {
	for _, c := range []struct {
		name  string
		size  geom.Vec
		round float64
		kind  Kind
	}{
		{"sharp", geom.V(200, 100, 50), 0, Box},
		{"rounded", geom.V(200, 100, 50), 10, Box},
		{"rounder than its thickness", geom.V(200, 100, 50), 90, Box},
		{"bar along X", geom.V(200, 50, 50), 25, Segment},
		{"bar along Y", geom.V(50, 200, 50), 25, Segment},
		{"bar along Z", geom.V(50, 50, 200), 25, Segment},
		{"ball", geom.V(50, 50, 50), 25, Point},
		{"sheet", geom.V(200, 100, 0), 5, Box},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, err := NewBox(geom.V(7, 8, 9), c.size, geom.Identity, c.round)
			require.NoError(t, err)
			assert.Equal(t, c.kind, s.Kind)
			lo, hi := s.Bounds()
			near(t, geom.V(7, 8, 9).Sub(c.size.Scale(.5)), lo, "low")
			near(t, geom.V(7, 8, 9).Add(c.size.Scale(.5)), hi, "high")
		})
	}
}

func TestHulls(t *testing.T) {
	bar, err := NewHull([]geom.Vec{{X: 1}, {X: 5}, {X: 3}, {X: -4}}, 2)
	require.NoError(t, err)
	assert.Equal(t, Segment, bar.Kind, "points on one line")
	lo, hi := bar.Bounds()
	near(t, geom.V(-6, -2, -2), lo, "low")
	near(t, geom.V(7, 2, 2), hi, "high")

	one, err := NewHull([]geom.Vec{{X: 1, Y: 2, Z: 3}}, 2)
	require.NoError(t, err)
	assert.Equal(t, Point, one.Kind)

	wedge, err := NewHull([]geom.Vec{{}, {X: 100}, {Y: 50}, {Z: 30}}, 5)
	require.NoError(t, err)
	assert.Equal(t, Hull, wedge.Kind)
	lo, hi = wedge.Bounds()
	near(t, geom.V(-5, -5, -5), lo, "low")
	near(t, geom.V(105, 55, 35), hi, "high")
}

// A 90° bend of centreline radius 100 from the X axis to the Y axis, either way
// round. Derived.
func TestArcPlacesItsEnds(t *testing.T) {
	for _, sweep := range []float64{math.Pi / 2, -3 * math.Pi / 2} {
		s, err := NewArc(geom.Vec{}, geom.V(0, 0, 2), geom.V(100, 0, 0), sweep, 10)
		require.NoError(t, err)
		assert.Equal(t, Arc, s.Kind)
		end := func(side float64) geom.Vec {
			sin, cos := geom.Sincos(side * s.H.Y)
			return s.Pose.Apply(geom.V(s.H.X*cos, s.H.X*sin, 0))
		}
		near(t, geom.V(100, 0, 0), end(-1), "start")
		near(t, geom.V(0, 100, 0), end(1), "end")
	}
	s, err := NewArc(geom.Vec{}, geom.V(0, 0, 1), geom.V(100, 0, 0), math.Pi/2, 10)
	require.NoError(t, err)
	lo, hi := s.Bounds()
	near(t, geom.V(-10, -10, -10), lo, "low")
	near(t, geom.V(110, 110, 10), hi, "high")

	none, err := NewArc(geom.Vec{}, geom.V(0, 0, 1), geom.V(100, 0, 0), 0, 10)
	require.NoError(t, err)
	assert.Equal(t, Point, none.Kind, "no sweep")
}

// What is no solid is refused with the item and the value in the message.
func TestBadSolidsAreRefused(t *testing.T) {
	nan, inf := math.NaN(), math.Inf(1)
	p, q := geom.V(0, 0, 0), geom.V(0, 0, 1)
	for want, f := range map[string]func() (Solid, error){
		"ball: length -1":       func() (Solid, error) { return NewBall(p, -1) },
		"ball: point (NaN":      func() (Solid, error) { return NewBall(geom.V(nan, 0, 0), 1) },
		"capsule: point (0, +I": func() (Solid, error) { return NewCapsule(p, geom.V(0, inf, 0), 1) },
		"cylinder: length NaN":  func() (Solid, error) { return NewCylinder(p, q, nan, 0) },
		"box: length -2":        func() (Solid, error) { return NewBox(p, geom.V(1, -2, 1), geom.Identity, 0) },
		"hull: no points":       func() (Solid, error) { return NewHull(nil, 0) },
		"hull: point (1e+09":    func() (Solid, error) { return NewHull([]geom.Vec{{X: 1e9}}, 0) },
		"arc: the normal":       func() (Solid, error) { return NewArc(p, p, q, 1, 1) },
		"arc: sweep is 7":       func() (Solid, error) { return NewArc(p, q, geom.V(1, 0, 0), 7, 1) },
		"arc: length NaN":       func() (Solid, error) { return NewArc(p, q, geom.V(1, 0, 0), nan, 1) },
	} {
		_, err := f()
		assert.ErrorContains(t, err, want)
	}
}
