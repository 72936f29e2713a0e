package trace

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The pose of a synthetic camera comes out of four corners: how far it leans,
// and, where the perspective shows it, how long its lens is and where it stood.
func TestTheCameraIsFound(t *testing.T) {
	for name, c := range sights() {
		cam, ok := rectangle(t, c).Camera(c.size)
		if !ok {
			t.Fatal(name)
		}
		// A long lens from almost straight on shows no perspective: the search
		// leans to a usual lens there, which takes a tenth off the tilt.
		near(t, name+": tilt", cam.TiltDeg, c.tiltDeg, 0.6)
		near(t, name+": misfit", cam.MisfitMM, 0, 0.4)
		if c.tiltDeg < 15 {
			continue // a photo from straight on says little about its lens
		}
		near(t, name+": focal length", cam.FocalPX, c.focal, 0.03*c.focal)
		near(t, name+": foot x", cam.FootMM[0], c.at[0], 0.03*c.at[2])
		near(t, name+": foot y", cam.FootMM[1], c.at[1], 0.03*c.at[2])
		near(t, name+": distance", cam.DistanceMM, c.at[2], 0.03*c.at[2])
	}
}

// With corners that slip by a pixel the lean is still right within a few
// degrees where it matters, from ten degrees on.
func TestTheLeanWithSlips(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tilt := rapid.Float64Range(10, 45).Draw(t, "tilt")
		c := aim(Pt{1600, 1200}, 1200, Pt{300, 200}, 1000, tilt, rapid.Float64Range(0, 360).Draw(t, "azimuth"), 2)
		k := c.corners(600, 400)
		for i := range k {
			for axis := range 2 {
				k[i][axis] += rapid.Float64Range(-1, 1).Draw(t, "slip")
			}
		}
		f, err := Rectangle(k, 600, 400, nil)
		if err != nil {
			t.Fatal(err)
		}
		cam, _ := f.Camera(c.size)
		// The rectangle is 720 by 480 px. A pixel at two ends changes a side by
		// 2/480 of itself; cos θ = 1 − θ²/2 then moves by as much, dθ = 0.0042/sin θ:
		// 1.4° at 10°. The unknown lens about trebles it.
		if d := math.Abs(cam.TiltDeg - tilt); d > 5 {
			t.Fatalf("%v° is taken for %v°", tilt, cam.TiltDeg)
		}
	})
}

// A width typed wrong cannot be seen in a residual of four points; the camera
// sees it, as soon as it is more than slips explain.
func TestTheCameraSeesAWrongWidth(t *testing.T) {
	seen := 0
	for name, c := range sights() {
		f, err := Rectangle(c.corners(600, 400), 400, 600, nil) // exchanged
		if err != nil {
			t.Fatal(err)
		}
		cam, _ := f.Camera(c.size)
		slip := f.Slip(c.size).MisfitMM
		if cam.MisfitMM > 3*slip && cam.MisfitMM > 10 {
			seen++
		} else if c.tiltDeg < 15 {
			t.Errorf("%s: exchanged sides pass with a misfit of %v (one pixel: %v)", name, cam.MisfitMM, slip)
		}
		good := rectangle(t, c)
		cam, _ = good.Camera(c.size)
		if slip := good.Slip(c.size).MisfitMM; cam.MisfitMM > 3*slip {
			t.Errorf("%s: right sides do not pass: %v, one pixel %v", name, cam.MisfitMM, slip)
		}
	}
	if n := len(sights()); seen < n*2/3 {
		t.Errorf("exchanged sides were seen in %d of %d photos", seen, n)
	}
}

// What stands proud of the plane is drawn where the pinhole camera sees it.
func TestProudThingsAreDrawnOff(t *testing.T) {
	c := aim(Pt{1600, 1200}, 1200, Pt{300, 200}, 1000, 20, 70, 2)
	f := rectangle(t, c)
	cam, _ := f.Camera(c.size)
	for _, at := range []Pt{{0, 0}, {600, 400}, {100, 350}} {
		px, _ := c.see(at[0], at[1], 50)
		drawn, _ := f.ToPlane.At(px)
		near(t, "drawn off by", cam.ProudMM(at, 50), drawn.dist(at), 0.03*drawn.dist(at))
	}
}

// The slip is a derivative: a tenth of a pixel does a tenth of it.
func TestSlipIsWhatAPixelDoes(t *testing.T) {
	c := aim(Pt{1600, 1200}, 1200, Pt{300, 200}, 1000, 25, 40, 2)
	s := rectangle(t, c).Slip(c.size)
	perPX := 1000.0 / 1200
	if s.InsideMM < perPX || s.InsideMM > 4*perPX {
		t.Errorf("inside %v mm, a pixel is %v", s.InsideMM, perPX)
	}
	if s.AroundMM < 2*s.InsideMM {
		t.Errorf("around %v, inside %v: further out it must be less sure", s.AroundMM, s.InsideMM)
	}
	// The same rectangle from twice as far: a pixel is twice as long.
	far := aim(Pt{1600, 1200}, 1200, Pt{300, 200}, 2000, 25, 40, 2)
	if d := rectangle(t, far).Slip(far.size).InsideMM; d < 1.7*s.InsideMM {
		t.Errorf("from twice as far %v, from near %v", d, s.InsideMM)
	}
	near(t, "share", rectangle(t, far).Share(far.size)/rectangle(t, c).Share(c.size), 0.25, 0.03)
}
