package outline

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// A wedge that grows to the rear is seen ahead of a plane only as large as the
// plane cuts it: 40 + 60·(x/100) high at x.
func TestAheadOfAWedge(t *testing.T) {
	var pts []geom.Vec
	for _, y := range []float64{-50, 50} {
		pts = append(pts, geom.V(0, y, 0), geom.V(0, y, 40), geom.V(100, y, 0), geom.V(100, y, 100))
	}
	s, err := solid.NewHull(pts, 0)
	require.NoError(t, err)
	require.Empty(t, Ahead(&s, -1), "all of it lies behind the viewer")
	require.Equal(t, Seen(&s, Section), Ahead(&s, 101), "all of it lies ahead")
	for _, x := range []float64{10, 50, 90} {
		got := Ahead(&s, x)
		require.Len(t, got, 1)
		require.InDelta(t, 100*(40+0.6*x), area(got[0]), 1e-6)
	}
}

// A thin tube seen from its far end: the rim it closes with is there whole, one
// radius to each side of its middle. Sections alone, evenly spaced over a length
// of many radii, had left it out.
func TestAheadKeepsTheFarRim(t *testing.T) {
	s, err := solid.NewCylinder(geom.V(-1, 1, 1), geom.V(500, 1, 500), 5, 0)
	require.NoError(t, err)
	got := Ahead(&s, 60)
	require.Len(t, got, 1)
	low, high := 0.0, 0.0
	for _, p := range got[0] {
		low, high = min(low, p[0]-1), max(high, p[0]-1)
	}
	require.InDelta(t, -5, low, 0.25)
	require.InDelta(t, 5, high, 0.25)
	for _, piece := range Cut(&s, -1) { // through the far rim
		for _, p := range piece {
			require.LessOrEqual(t, outsideAll(got, p), 0.25, p)
		}
	}
}

// Whatever the solid: what lies ahead covers what the plane cuts and what it
// cuts farther ahead, and is covered by the whole silhouette.
func TestAheadLiesBetweenTheCutAndTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := func(lo, hi float64, what string) float64 { return rapid.Float64Range(lo, hi).Draw(t, what) }
		from := geom.V(d(-500, 0, "x0"), d(-500, 500, "y0"), d(-500, 500, "z0"))
		to := geom.V(d(50, 500, "x1"), d(-500, 500, "y1"), d(-500, 500, "z1"))
		r := d(5, 120, "r")
		s, err := solid.NewCylinder(from, to, r, 0)
		if rapid.Bool().Draw(t, "capsule") {
			s, err = solid.NewCapsule(from, to, r)
		}
		if err != nil {
			t.Fatal(err)
		}
		near, far := Extent(&s, Section)
		x := far + (near-far)*d(0.05, 0.95, "where")
		ahead, whole := Ahead(&s, x), Seen(&s, Section)
		for _, at := range []float64{x, far + (x-far)*d(0.1, 1, "farther")} {
			for _, piece := range Cut(&s, at) {
				for _, p := range piece {
					// Between two of the slices the border bulges by what a chord
					// of a sixteenth of its length leaves out.
					if o := outsideAll(ahead, p); o > 0.25+r/16 {
						t.Fatalf("%v of the cut at %v lies %v outside", p, at, o)
					}
				}
			}
		}
		for _, p := range ahead[0] {
			if o := outsideAll(whole, p); o > 2*allowedFor(r) {
				t.Fatalf("%v lies %v outside the whole silhouette", p, o)
			}
		}
	})
}
