package trace

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// Without noise, what the pinhole camera sees is put back where it is: the
// homography of a plane is exact (closed form, the pinhole equations).
func TestPlanePointsComeBack(t *testing.T) {
	for name, c := range sights() {
		f := rectangle(t, c)
		for _, mm := range []Pt{{0, 0}, {600, 400}, {300, 200}, {-200, 500}, {700, -150}, {123.4, 56.7}} {
			p, w := f.ToPlane.At(c.px(mm))
			if !(w > 0) || p.dist(mm) > 1e-6 {
				t.Errorf("%s: %v comes back at %v, weight %v", name, mm, p, w)
			}
			q, _ := f.ToPicture.At(mm)
			if q.dist(c.px(mm)) > 1e-6 {
				t.Errorf("%s: %v is seen at %v, want %v", name, mm, q, c.px(mm))
			}
		}
		if _, _, _, ok := f.Residual(); ok {
			t.Error("four corners have a residual that says something")
		}
	}
}

// A projective map keeps lines, so the middle of a rectangle goes to where the
// diagonals of its picture meet: worked out by hand.
func TestDiagonalsMeet(t *testing.T) {
	f, err := Rectangle([4]Pt{{100, 300}, {500, 300}, {400, 100}, {100, 100}}, 1, 1, nil)
	if err != nil {
		t.Fatal(err)
	}
	p, _ := f.ToPicture.At(Pt{0.5, 0.5})
	// From the lower left, y up, in hundreds: the line to (3,2) and the one
	// from (4,0) to (0,2) meet where 2x/3 = 2 − x/2, x = 12/7, y = 8/7.
	near(t, "x", p[0], 100+1200.0/7, 1e-9)
	near(t, "y", p[1], 300-800.0/7, 1e-9)
}

// Corners that slip by up to two pixels put no point of the rectangle further
// off than the bound that follows from [Slip].
func TestNoiseStaysWithinItsBound(t *testing.T) {
	checked := 0
	rapid.Check(t, func(t *rapid.T) {
		focal := rapid.Float64Range(14, 70).Draw(t, "focal") / 43.27 * 2000
		c := aim(Pt{1600, 1200}, focal, Pt{300, 200}, 1.2*focal,
			rapid.Float64Range(0, 45).Draw(t, "tilt"), rapid.Float64Range(0, 360).Draw(t, "azimuth"), rapid.Float64Range(-20, 20).Draw(t, "roll"))
		const slip = 2.0 // px, the most on each axis
		jitter := func(p Pt) Pt {
			return Pt{p[0] + rapid.Float64Range(-slip, slip).Draw(t, "dx"), p[1] + rapid.Float64Range(-slip, slip).Draw(t, "dy")}
		}
		exact := c.corners(600, 400)
		noisy := exact
		for i := range noisy {
			noisy[i] = jitter(noisy[i])
		}
		f, err := Rectangle(noisy, 600, 400, nil)
		if err != nil {
			t.Fatal(err)
		}
		clean, err := Rectangle(exact, 600, 400, nil)
		if err != nil {
			t.Fatal(err)
		}
		mm := Pt{rapid.Float64Range(0, 600).Draw(t, "u"), rapid.Float64Range(0, 400).Draw(t, "v")}
		got, _ := f.ToPlane.At(c.px(mm))
		// First order: each of the eight coordinates moves the point by its own
		// share, all at once by at most their sum; √8 times the root of the
		// summed squares is at least that sum (Cauchy–Schwarz). A fifth more
		// for the second order, and the place between the probes.
		bound := 1.2 * slip * math.Sqrt(8) * clean.Slip(c.size).InsideMM
		if d := got.dist(mm); d > bound {
			t.Fatalf("%v comes back %v mm off, more than %v", mm, d, bound)
		}
		if got.dist(mm) > bound/20 {
			checked++
		}
	})
	if checked == 0 {
		t.Error("the bound is never within a factor of twenty of what happens: it says nothing")
	}
}

// Eight known points, each off by up to a pixel: the residual is of the size of
// the noise, and it names the point that is far off.
func TestResidualOfMorePoints(t *testing.T) {
	c := aim(Pt{1600, 1200}, 1200, Pt{300, 200}, 1100, 20, 60, 3)
	off := []Pt{{0.6, -0.8}, {-0.9, 0.3}, {0.2, 0.9}, {-0.5, -0.7}}
	var more []Known
	for i, mm := range []Pt{{300, 0}, {600, 200}, {300, 400}, {150, 200}} {
		px := c.px(mm)
		more = append(more, Known{Pt{px[0] + off[i][0], px[1] + off[i][1]}, mm})
	}
	f := rectangle(t, c, more...)
	rms, worst, _, ok := f.Residual()
	perPX := 1100.0 / 1200 // mm in the middle, straight on
	if !ok || rms > 1.5*perPX || rms < 0.1*perPX || worst < rms {
		t.Errorf("residual %v, worst %v (%v)", rms, worst, ok)
	}
	more[2].MM[1] += 30 // measured wrong
	f = rectangle(t, c, more...)
	if _, worst, at, _ := f.Residual(); at != 6 || worst < 10 {
		t.Errorf("the wrong point: %v off by %v", at, worst)
	}
	// Exact ones leave nothing.
	f = rectangle(t, c, Known{c.px(Pt{300, 100}), Pt{300, 100}}, Known{c.px(Pt{900, 300}), Pt{900, 300}})
	if rms, _, _, _ := f.Residual(); rms > 1e-6 {
		t.Errorf("exact points have a residual of %v", rms)
	}
}

// Least squares is at a minimum: shifting any coefficient makes the sum larger.
func TestMorePointsAreAtTheLeastSum(t *testing.T) {
	c := aim(Pt{1600, 1200}, 1200, Pt{300, 200}, 1100, 30, 20, 3)
	f := rectangle(t, c, Known{c.px(Pt{310, 100}), Pt{300, 100}}, Known{c.px(Pt{500, 295}), Pt{500, 300}})
	var mm, px []Pt
	for _, k := range f.Known {
		mm, px = append(mm, k.MM), append(px, k.PX)
	}
	best := misses(&f.ToPicture, mm, px)
	for i := range 8 {
		for _, by := range []float64{1 - 1e-5, 1 + 1e-5} {
			h := f.ToPicture
			h[i] *= by
			if misses(&h, mm, px) < best {
				t.Errorf("coefficient %d times %v fits better", i, by)
			}
		}
	}
}

func TestBadCornersAreToldApart(t *testing.T) {
	good := [4]Pt{{100, 500}, {600, 520}, {580, 120}, {120, 100}}
	for _, c := range []struct {
		name, says string
		corners    [4]Pt
	}{
		{"in a line", "three corners stand in a line: lower left, lower right and upper right", [4]Pt{{100, 500}, {350, 502}, {600, 500}, {120, 100}}},
		{"in a line, upright", "three corners stand in a line: upper right, upper left and lower left", [4]Pt{{100, 500}, {600, 500}, {98, 100}, {99, 300}}},
		{"crossed", "the sides cross", [4]Pt{good[0], good[1], good[3], good[2]}},
		{"crossed the other way", "the sides cross", [4]Pt{good[1], good[3], good[0], good[2]}},
		{"round the wrong way", "left and right, or upper and lower, are exchanged", [4]Pt{good[1], good[0], good[3], good[2]}},
		{"one inside", "one corner lies between the other three", [4]Pt{{100, 500}, {600, 500}, {350, 400}, {350, 100}}},
		{"two on each other", "two corners stand on each other: lower left and upper right", [4]Pt{good[0], good[1], {101, 501}, good[3]}},
	} {
		if _, err := Rectangle(c.corners, 600, 400, nil); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	if _, err := Rectangle(good, 600, 400, nil); err != nil {
		t.Error(err)
	}
	for _, size := range [][2]float64{{0, 400}, {600, -1}, {math.NaN(), 400}, {math.Inf(1), 400}} {
		if _, err := Rectangle(good, size[0], size[1], nil); err == nil {
			t.Errorf("%v is taken for a size", size)
		}
	}
}

// Any four points and any numbers give an answer or a sentence, never a panic.
func TestAnyPointsAreAnswered(t *testing.T) {
	taken := 0
	rapid.Check(t, func(t *rapid.T) {
		c := [4]Pt{{300, 900}, {1300, 900}, {1300, 300}, {300, 300}}
		far := rapid.SampledFrom([]float64{250, 1000}).Draw(t, "far") // the nearer mostly make a quadrilateral
		for i := range c {
			for k := range 2 {
				c[i][k] += rapid.Float64Range(-far, far).Draw(t, "off")
			}
		}
		more := []Known{{Pt{rapid.Float64Range(0, 1600).Draw(t, "x"), 600}, Pt{rapid.Float64Range(-900, 900).Draw(t, "u"), 77}}}
		f, err := Rectangle(c, 600, 400, more[:rapid.IntRange(0, 1).Draw(t, "more")])
		if err != nil {
			return
		}
		taken++
		for _, k := range f.Known[:4] {
			if _, w := f.ToPlane.At(k.PX); !(w > 0) {
				t.Fatalf("a corner lies behind the horizon: %v", f)
			}
		}
		cam, ok := f.Camera(Pt{1600, 1200})
		if !ok || math.IsNaN(cam.TiltDeg+cam.MisfitMM+cam.DistanceMM+cam.FootMM[0]+f.Slip(Pt{1600, 1200}).InsideMM) {
			t.Fatalf("%+v", cam)
		}
		Lay(f.ToPlane, Pt{1600, 1200}, Pt{-500, -500}, Pt{500, 500}, 0.5)
	})
	if taken == 0 {
		t.Error("no four points were ever taken")
	}
}

func TestStraightOn(t *testing.T) {
	f, err := Straight(Pt{200, 700}, Pt{600, 400}, 1000) // 500 px
	if err != nil {
		t.Fatal(err)
	}
	p, _ := f.ToPlane.At(Pt{600, 400})
	near(t, "right", p[0], 800, 1e-9)
	near(t, "up", p[1], 600, 1e-9)
	mm, ok := f.Length(Pt{0, 0}, Pt{0, 100})
	if !ok || math.Abs(mm-200) > 1e-9 {
		t.Errorf("100 px are %v mm", mm)
	}
	q, _ := f.ToPicture.At(p)
	if q.dist(Pt{600, 400}) > 1e-9 {
		t.Errorf("back at %v", q)
	}
	if _, ok := f.Camera(Pt{1600, 1200}); ok {
		t.Error("two points tell of a camera")
	}
	// The length between the two is as sure as the two are: √2 px each way.
	near(t, "slip", f.Slip(Pt{1600, 1200}).InsideMM, 2*2, 1.5)
	if _, err := Straight(Pt{200, 700}, Pt{201, 700}, 1000); err == nil {
		t.Error("two points on each other are taken")
	}
	if _, err := Straight(Pt{200, 700}, Pt{600, 400}, 0); err == nil {
		t.Error("a length of 0 is taken")
	}
}
