package trace

import (
	"fmt"
	"math"
	"testing"
)

// pinhole is a camera of known pose, written down independently of the
// package: three axes, a place, and a division by the depth. The plane is
// z = 0, seen from z > 0.
type pinhole struct {
	size               Pt
	focal              float64
	at                 [3]float64
	right, down, ahead [3]float64
	tiltDeg            float64
}

// aim is a camera that looks at target from so far, leaning by tilt towards
// the azimuth (degrees) and rolled about its own axis.
func aim(size Pt, focal float64, target Pt, far, tilt, azimuth, roll float64) *pinhole {
	rad := math.Pi / 180
	st, ct := math.Sincos(tilt * rad)
	sa, ca := math.Sincos(azimuth * rad)
	sr, cr := math.Sincos(roll * rad)
	c := &pinhole{size: size, focal: focal, tiltDeg: tilt}
	c.ahead = [3]float64{st * ca, st * sa, -ct}
	// Turning the axes of a camera that looks straight down the normal by the
	// tilt: side lies in the plane, lean is the way the camera leans.
	side := [3]float64{-sa, ca, 0}
	lean := [3]float64{ct * ca, ct * sa, st}
	for k := range 3 {
		x := ca*lean[k] - sa*side[k]
		y := sa*lean[k] + ca*side[k]
		c.right[k] = cr*x + sr*y
		c.down[k] = sr*x - cr*y
		c.at[k] = -far * c.ahead[k]
	}
	c.at[0] += target[0]
	c.at[1] += target[1]
	return c
}

func (c *pinhole) see(x, y, z float64) (px Pt, depth float64) {
	d := [3]float64{x - c.at[0], y - c.at[1], z - c.at[2]}
	depth = dot3(d, c.ahead)
	return Pt{c.size[0]/2 + c.focal*dot3(d, c.right)/depth, c.size[1]/2 + c.focal*dot3(d, c.down)/depth}, depth
}

func (c *pinhole) px(mm Pt) Pt {
	p, _ := c.see(mm[0], mm[1], 0)
	return p
}

// corners are those of a rectangle from the origin.
func (c *pinhole) corners(wide, high float64) [4]Pt {
	return [4]Pt{c.px(Pt{0, 0}), c.px(Pt{wide, 0}), c.px(Pt{wide, high}), c.px(Pt{0, high})}
}

// sights are cameras as they are held in a shop: a phone's main camera (26 mm
// on 35 mm film), a wide and a long one, straight on and leaning every way.
func sights() map[string]*pinhole {
	size := Pt{1600, 1200}
	diagonal := 2000.0
	all := map[string]*pinhole{}
	for _, mm := range []float64{14, 26, 70} {
		focal := mm / 43.27 * diagonal
		for _, tilt := range []float64{0, 5, 15, 30, 45} {
			for _, azimuth := range []float64{0, 35, 90, 200} {
				far := 900 * focal / 800 // the 600 by 400 rectangle fills about a third
				all[fmt.Sprintf("%v mm, %v° towards %v°", mm, tilt, azimuth)] =
					aim(size, focal, Pt{320, 190}, far, tilt, azimuth, 4)
			}
		}
	}
	return all
}

func rectangle(t testing.TB, c *pinhole, more ...Known) *Fit {
	t.Helper()
	f, err := Rectangle(c.corners(600, 400), 600, 400, more)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func near(t testing.TB, what string, got, want, by float64) {
	t.Helper()
	if !(math.Abs(got-want) <= by) {
		t.Errorf("%s: %v, want %v within %v", what, got, want, by)
	}
}
