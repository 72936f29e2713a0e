package view

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/scene"
)

func heights(of, or, uf, ur float64) []scene.Height {
	return []scene.Height{{ID: scene.AiredOut, FrontMM: of, RearMM: or}, {ID: scene.Ride}, {ID: scene.AiredUp, FrontMM: uf, RearMM: ur}}
}

func TestTravelMeetsTheNamedHeights(t *testing.T) {
	tr := TravelOf(heights(-110, -130, 70, 60))
	for _, h := range heights(-110, -130, 70, 60) {
		f, r := tr.Pair(tr.Coord(h.FrontMM, h.RearMM))
		require.InDelta(t, h.FrontMM, f, 1e-9)
		require.InDelta(t, h.RearMM, r, 1e-9)
	}
	f, r := tr.Pair(-65) // half way down at the rear is half way down in front
	require.InDelta(t, -55, f, 1e-9)
	require.InDelta(t, -65, r, 1e-9)
	require.InDelta(t, -65, tr.AtFront(-55), 1e-9)
}

func TestTravelHoldsAndRises(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := func(name string) float64 { return rapid.Float64Range(0, 200).Draw(t, name) }
		tr := TravelOf(heights(-d("of"), -d("or"), d("uf"), d("ur")))
		a, b := rapid.Float64Range(-400, 400).Draw(t, "a"), rapid.Float64Range(-400, 400).Draw(t, "b")
		if a > b {
			a, b = b, a
		}
		fa, ra := tr.Pair(a)
		fb, rb := tr.Pair(b)
		if fa > fb+1e-9 || ra > rb+1e-9 {
			t.Fatalf("higher on the staff is lower on the vehicle: %v %v, %v %v", fa, ra, fb, rb)
		}
		if fa < tr.Front[0]-1e-9 || fb > tr.Front[2]+1e-9 || ra < tr.Rear[0]-1e-9 || rb > tr.Rear[2]+1e-9 {
			t.Fatalf("left the travel: %v %v, %v %v", fa, ra, fb, rb)
		}
	})
}

func TestStaffMapsBothWays(t *testing.T) {
	tr := TravelOf(heights(-110, -130, 70, 60))
	s := NewStaff(Rect{600, 0, 160, 600}, &tr)
	for mm := s.LowMM; mm <= s.HighMM; mm += 7 {
		require.InDelta(t, mm, s.MM(s.Y(mm)), 1e-9)
	}
	require.Equal(t, s.HighMM, s.MM(-100), "held to the staff")
	require.Less(t, s.Y(s.HighMM), s.Y(s.LowMM), "up is up")
	for _, r := range []Rect{s.Saddle(0), s.SaddleFront(0), s.SaddleRear(0)} {
		require.GreaterOrEqual(t, r.W, 44.0, "a finger needs 44 px")
		require.GreaterOrEqual(t, r.H, 44.0, "a finger needs 44 px")
	}
	require.False(t, s.SaddleFront(0).Overlaps(s.SaddleRear(0)))
}

func TestSlimStaffHasRoomForTwoFingers(t *testing.T) {
	tr := TravelOf(heights(-110, -130, 70, 60))
	s := NewStaff(Rect{0, 0, staffSlim, 400}, &tr)
	require.GreaterOrEqual(t, s.SaddleFront(0).W, 44.0)
	require.GreaterOrEqual(t, s.SaddleRear(0).W, 44.0)
}

func TestGraduationsAreStepsOfTheUnit(t *testing.T) {
	tr := TravelOf(heights(-130, -130, 70, 70))
	s := NewStaff(Rect{0, 0, 160, 600}, &tr)
	require.Equal(t, 5.0, s.Graduation(scene.Millimetres, 10))
	require.InDelta(t, 25.4/4, s.Graduation(scene.Inches, 10), 1e-9)
	require.GreaterOrEqual(t, s.Graduation(scene.Inches, 40)*s.PxPerMM(), 40.0)
}

func TestNoTravelIsAStaffStill(t *testing.T) {
	tr := TravelOf(heights(0, 0, 0, 0))
	s := NewStaff(Rect{0, 0, 160, 600}, &tr)
	require.False(t, math.IsNaN(s.Y(0)) || math.IsInf(s.Y(0), 0))
	f, r := tr.Pair(10)
	require.Zero(t, f)
	require.Zero(t, r)
}
