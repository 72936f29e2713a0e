package view

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment"
	"scrubline/scene"
)

func TestGridIsTheTapesOwn(t *testing.T) {
	require.Equal(t, 5.0, Grid(scene.Millimetres, 0.3))
	require.Equal(t, 1.0, Grid(scene.Millimetres, 10))
	require.Equal(t, 6.35, Grid(scene.Inches, 0.3))
	require.Equal(t, 1.5875, Grid(scene.Inches, 10))
}

func TestSnap(t *testing.T) {
	e := Extent{Lo: fitment.Pt{-103, -40}, Hi: fitment.Pt{97, 60}} // 200 by 100, about (-3, 10)
	at := fitment.Pt{-3, 10}
	guides := []Guide{
		{MM: 370, Name: "rail"},
		{MM: 0, Name: "centre", Middle: true},
		{Second: true, MM: 127, Name: "rail"},
	}
	cases := []struct {
		name          string
		move, want    fitment.Pt
		first, second string
	}{
		{"onto the grid", fitment.Pt{50, 21}, fitment.Pt{48, 20}, "", ""},
		{"right face onto the rail", fitment.Pt{268, 0}, fitment.Pt{273, 0}, "rail", ""},
		{"left face onto the rail", fitment.Pt{470, 0}, fitment.Pt{473, 0}, "rail", ""},
		{"middle onto the centreline", fitment.Pt{-2, 0}, fitment.Pt{3, 0}, "centre", ""},
		{"top onto the rail's top", fitment.Pt{50, 70}, fitment.Pt{48, 67}, "", "rail"},
	}
	for _, c := range cases {
		s := Snap(at, e, c.move, 5, 8, guides)
		require.InDeltaSlice(t, c.want[:], s.Move[:], 1e-9, c.name)
		require.Equal(t, c.first, nameOf(s.First), c.name)
		require.Equal(t, c.second, nameOf(s.Second), c.name)
	}
}

func nameOf(g *Guide) string {
	if g == nil {
		return ""
	}
	return g.Name
}

// Whatever it settles on, a part never goes farther from the finger than half
// a grid step or the reach of a guide.
func TestSnapStaysNearTheFinger(t *testing.T) {
	guided, free := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		v := func(n string) float64 { return rapid.Float64Range(-400, 400).Draw(t, n) }
		e := Extent{Lo: fitment.Pt{-50, -50}, Hi: fitment.Pt{50, 50}}
		guides := []Guide{{MM: v("a")}, {MM: v("b"), Middle: true}, {Second: true, MM: v("c")}}
		move := fitment.Pt{v("x"), v("y")}
		s := Snap(fitment.Pt{v("atx"), v("aty")}, e, move, 5, 20, guides)
		for k := range 2 {
			if math.Abs(s.Move[k]-move[k]) > 20+1e-9 {
				t.Fatalf("went %v for %v", s.Move, move)
			}
		}
		if s.First != nil {
			guided++
		} else {
			free++
		}
	})
	require.NotZero(t, guided, "no case met a guide")
	require.NotZero(t, free, "every case met a guide")
}

func TestNearest(t *testing.T) {
	v, ok := Nearest(102, 5, []float64{0, 100, 104.5})
	require.True(t, ok)
	require.Equal(t, 100.0, v)
	_, ok = Nearest(50, 5, []float64{0, 100})
	require.False(t, ok)
}

func square(x, y, half float64) []fitment.Pt {
	return []fitment.Pt{{x - half, y - half}, {x + half, y - half}, {x + half, y + half}, {x - half, y + half}}
}

func TestDistanceToASquare(t *testing.T) {
	q := square(0, 0, 10)
	for _, c := range []struct {
		p    fitment.Pt
		want float64
	}{{fitment.Pt{0, 0}, 0}, {fitment.Pt{9, 9}, 0}, {fitment.Pt{14, 0}, 4}, {fitment.Pt{13, 14}, 5}} {
		require.InDelta(t, c.want, Distance(c.p, q), 1e-9)
	}
	turned := []fitment.Pt{q[3], q[2], q[1], q[0]}
	require.Zero(t, Distance(fitment.Pt{1, 2}, turned), "either way round")
	require.InDelta(t, 5, Distance(fitment.Pt{3, 4}, []fitment.Pt{{0, 0}}), 1e-9, "a point")
}

func TestHitsAreNearestToTheEyeFirst(t *testing.T) {
	outs := []fitment.Outline{ // back to front
		{Part: 7, Seen: [][]fitment.Pt{square(0, 0, 100)}},
		{Part: 8, Seen: [][]fitment.Pt{square(0, 0, 10)}},
	}
	k := NewPicker(outs)
	require.Equal(t, []int{1, 0}, k.Hits(fitment.Pt{0, 0}, 12), "the front one, then the one behind")
	require.Equal(t, []int{0}, k.Hits(fitment.Pt{15, 0}, 12), "beside the front one, the one it lies on")
	require.Equal(t, []int{0}, k.Hits(fitment.Pt{110, 0}, 12), "within reach")
	require.Empty(t, k.Hits(fitment.Pt{120, 0}, 12), "nothing there")
}

func TestHandleLiesOnThePart(t *testing.T) {
	o := fitment.Outline{Seen: [][]fitment.Pt{square(0, 0, 5), square(100, 0, 20)}}
	p, ok := Handle(&o)
	require.True(t, ok)
	require.Equal(t, fitment.Pt{100, 0}, p, "on the larger piece")
	_, ok = Handle(&fitment.Outline{})
	require.False(t, ok)
}

func TestAxesDropAndLift(t *testing.T) {
	p := scene.Vec{1, 2, 3}
	require.Equal(t, fitment.Pt{2, 3}, Drop(fitment.SectionView, p))
	require.Equal(t, fitment.Pt{1, 3}, Drop(fitment.SideView, p))
	require.Equal(t, fitment.Pt{1, 2}, Drop(fitment.PlanView, p))
	for _, v := range allViews {
		l := Lift(v, Drop(v, p))
		require.Equal(t, Drop(v, p), Drop(v, l))
	}
}
