package view

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment"
	"scrubline/scene"
)

func drawCamera(t *rapid.T) (Camera, Rect) {
	c := Camera{
		mgl64.Vec2{rapid.Float64Range(-3000, 3000).Draw(t, "cx"), rapid.Float64Range(-500, 2500).Draw(t, "cy")},
		rapid.Float64Range(minPxPerMM, maxPxPerMM).Draw(t, "scale"),
	}
	r := Rect{rapid.Float64Range(0, 100).Draw(t, "x"), rapid.Float64Range(0, 100).Draw(t, "y"),
		rapid.Float64Range(50, 1500).Draw(t, "w"), rapid.Float64Range(50, 1500).Draw(t, "h")}
	return c, r
}

// drawGround is a ground plane with a pitch and a roll no vehicle exceeds.
func drawGround(t *rapid.T) (scene.Vec, float64) {
	p, q := rapid.Float64Range(-0.1, 0.1).Draw(t, "pitch"), rapid.Float64Range(-0.1, 0.1).Draw(t, "roll")
	l := math.Sqrt(1 + p*p + q*q)
	return scene.Vec{p / l, q / l, 1 / l}, rapid.Float64Range(0, 600).Draw(t, "height")
}

var allViews = []fitment.View{fitment.SectionView, fitment.SideView, fitment.PlanView}

func TestScreenAndWorldAreInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cam, r := drawCamera(t)
		n, c := drawGround(t)
		v := rapid.SampledFrom(allViews).Draw(t, "view")
		p := Project(v, rapid.Float64Range(-1000, 5000).Draw(t, "station"), n, c, cam, r)
		w := fitment.Pt{rapid.Float64Range(-5000, 5000).Draw(t, "u"), rapid.Float64Range(-5000, 5000).Draw(t, "v")}
		back := p.World(p.Screen(w))
		if math.Hypot(back[0]-w[0], back[1]-w[1]) > 1e-6 {
			t.Fatalf("%v came back as %v", w, back)
		}
		d := mgl64.Vec2{rapid.Float64Range(-300, 300).Draw(t, "dx"), rapid.Float64Range(-300, 300).Draw(t, "dy")}
		step := p.Step(d)
		moved := p.Screen(fitment.Pt{w[0] + step[0], w[1] + step[1]}).Sub(p.Screen(w))
		if moved.Sub(d).Len() > 1e-6 {
			t.Fatalf("a step of %v pixels moved %v", d, moved)
		}
	})
}

// The ground's equation n·p + c is the definition of the height over it; the
// projection must agree with it for points in the view's plane.
func TestGroundAxesMeasureHeight(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n, c := drawGround(t)
		n[1] = 0 // the side view shows points at any Y: a rolled body has no one height there
		n = unit(n)
		x, z := rapid.Float64Range(-1000, 5000).Draw(t, "x"), rapid.Float64Range(-500, 2500).Draw(t, "z")
		g := GroundAxes(fitment.SideView, 0, n, c).Mul3x1(mgl64.Vec3{x, z, 1})
		if want := n[0]*x + n[2]*z + c; math.Abs(g[1]-want) > 1e-6 {
			t.Fatalf("height %v, the ground's equation says %v", g[1], want)
		}
	})
}

func unit(n scene.Vec) scene.Vec {
	l := math.Sqrt(n[0]*n[0] + n[1]*n[1] + n[2]*n[2])
	return scene.Vec{n[0] / l, n[1] / l, n[2] / l}
}

func TestLoweredBodyMovesDownOnTheScreen(t *testing.T) {
	cam, r := Camera{mgl64.Vec2{0, 500}, 0.3}, Rect{0, 0, 800, 600}
	for _, v := range []fitment.View{fitment.SectionView, fitment.SideView} {
		ride := Project(v, 0, scene.Vec{0, 0, 1}, 300, cam, r)
		low := Project(v, 0, scene.Vec{0, 0, 1}, 200, cam, r)
		p := fitment.Pt{100, 50}
		require.InDelta(t, 30, low.Screen(p)[1]-ride.Screen(p)[1], 1e-9, "100 mm lower at 0.3 px/mm")
	}
}

func TestZoomKeepsThePointUnderTheFinger(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cam, r := drawCamera(t)
		p := mgl64.Vec2{r.X + r.W*rapid.Float64Range(0, 1).Draw(t, "px"), r.Y + r.H*rapid.Float64Range(0, 1).Draw(t, "py")}
		before := cam.Matrix(r).Inv().Mul3x1(p.Vec3(1))
		z := cam.ZoomAbout(r, p, rapid.Float64Range(0.2, 5).Draw(t, "factor"))
		after := z.Matrix(r).Mul3x1(before)
		if after.Vec2().Sub(p).Len() > 1e-6 {
			t.Fatalf("the point under %v went to %v", p, after)
		}
		if z.PxPerMM < minPxPerMM || z.PxPerMM > maxPxPerMM {
			t.Fatalf("zoomed out of range: %v", z.PxPerMM)
		}
	})
}

func TestFitShowsTheWholeBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := Rect{0, 0, rapid.Float64Range(300, 1200).Draw(t, "w"), rapid.Float64Range(300, 1200).Draw(t, "h")}
		lo := mgl64.Vec2{rapid.Float64Range(-3000, 0).Draw(t, "x0"), rapid.Float64Range(-500, 0).Draw(t, "y0")}
		hi := lo.Add(mgl64.Vec2{rapid.Float64Range(10, 6000).Draw(t, "dx"), rapid.Float64Range(10, 2500).Draw(t, "dy")})
		m := Fit(r, lo, hi, 20).Matrix(r)
		for _, p := range []mgl64.Vec2{lo, hi} {
			if q := m.Mul3x1(p.Vec3(1)).Vec2(); !r.Inset(19).Contains(q) {
				t.Fatalf("the corner %v stands at %v, outside", p, q)
			}
		}
	})
}

func TestCardsDoNotOverlap(t *testing.T) {
	for _, size := range [][2]float64{{828, 746}, {1180, 820}, {820, 700}, {390, 500}, {320, 300}} {
		for _, letters := range []float64{1, 1.75} {
			l := Arrange(size[0], size[1], letters)
			require.False(t, l.Main.Overlaps(l.Staff), "%v", size)
			require.False(t, l.Main.Overlaps(l.Strip), "%v", size)
			require.False(t, l.Staff.Overlaps(l.Strip), "%v", size)
			for _, r := range []Rect{l.Main, l.Staff, l.Strip} {
				require.True(t, r.Inside(l.Canvas), "%v of %v", r, size)
			}
		}
	}
}
