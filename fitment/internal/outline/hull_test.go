package outline

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func points(t *rapid.T) []Pt {
	// A coarse grid as often as anything: repeated points and points in line.
	c := rapid.OneOf(rapid.Map(rapid.IntRange(-3, 3), func(i int) float64 { return float64(i) * 100 }), length(-500, 500))
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) Pt { return Pt{c.Draw(t, "x"), c.Draw(t, "y")} }), 1, 30).Draw(t, "points")
}

func TestHullHoldsItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := points(t)
		poly := hull(slices.Clone(pts))
		if len(poly) == 1 {
			for _, p := range pts {
				near(t, "apart", math.Sqrt(distSq(p, poly[0])), 0, noise)
			}
			return
		}
		checkShape(t, [][]Pt{poly})
		for _, p := range pts {
			near(t, "outside", outside(poly, p), 0, noise)
		}
		for _, p := range poly {
			if !slices.Contains(pts, p) {
				t.Fatalf("%v is none of the points", p)
			}
		}
	})
}

func TestHullOfNoisyEdge(t *testing.T) {
	// The ends of an upright edge sort between its other points.
	for _, x := range [][5]float64{{0, 1, 2, 3, 4}, {2, 0, 1, 4, 3}, {4, 3, 2, 1, 0}, {1, 4, 0, 2, 3}, {0, 0, 0, 0, 0}} {
		var edge []Pt
		for i, k := range x {
			edge = append(edge, Pt{100 + k*2e-13, float64(i) * 10})
		}
		equalShapes(t, [][]Pt{hull(slices.Clone(edge))}, [][]Pt{{{100, 0}, {100, 40}}}, noise)
		for _, side := range []float64{0, 200} {
			tri := hull(append(slices.Clone(edge), Pt{side, 20}))
			checkShape(t, [][]Pt{tri})
			near(t, "area", area(tri), 40*100/2, noise)
			if len(tri) != 3 {
				t.Errorf("%d corners: %v", len(tri), tri)
			}
		}
	}
}

// Steiner's formula: a convex figure grown by r has area A + P·r + π·r²; its
// border is r off the figure.
func TestGrow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		poly := hull(points(t))
		r, allowed := length(0.01, 500).Draw(t, "r"), length(0.05, 1).Draw(t, "allowed")
		out := grow(poly, r, allowed)
		checkShape(t, [][]Pt{out})
		perimeter := 0.0
		for i, p := range poly {
			perimeter += math.Sqrt(distSq(p, poly[(i+1)%len(poly)]))
		}
		off := math.Max(allowed, r*rings[len(rings)-1].sag)
		want := perimeter*r + math.Pi*r*r
		if len(poly) > 2 {
			want += area(poly)
		}
		near(t, "area", area(out), want, 2*math.Pi*(r+off)*off+noise)
		for i, p := range out {
			q := out[(i+1)%len(out)]
			for _, f := range []float64{0, 0.25, 0.5} {
				at := Pt{p[0] + f*(q[0]-p[0]), p[1] + f*(q[1]-p[1])}
				d := math.Sqrt(distSq(at, poly[0]))
				if len(poly) > 1 {
					d = outside(poly, at)
				}
				near(t, "offset", d, r, off+noise)
			}
		}
	})
}

// A bar's round ends stay whole where its border's normals lie on directions of
// the ring, but for noise.
func TestGrowHalfTurn(t *testing.T) {
	for i := range 360 {
		sin, cos := math.Sincos(float64(i) * deg)
		b := Pt{424 * cos, 424 * sin}
		for _, noisy := range []float64{0, 6e-14, -6e-14} {
			line := hull([]Pt{{0, noisy}, {b[0] - noisy, b[1]}})
			near(t, "stadium", area(grow(line, 30, 0.125)), math.Pi*900+2*30*424, 2*math.Pi*30*0.125)
		}
	}
}

func TestRings(t *testing.T) {
	for _, r := range rings {
		n := len(r.dir)
		for k, d := range r.dir {
			near(t, "length", math.Hypot(d[0], d[1]), 1, 1e-15)
			near(t, "angle", math.Remainder(math.Atan2(d[1], d[0])-2*math.Pi*float64(k)/float64(n), 2*math.Pi), 0, 1e-14)
			if got := r.after(along(d, Pt{-d[1], d[0]}, 1e-9)); got != (k+1)%n {
				t.Errorf("ring of %d: after direction %d comes %d", n, k, got)
			}
		}
		if r.dir[n/4] != (Pt{0, 1}) && r.dir[n/4] != (Pt{math.Copysign(0, -1), 1}) {
			t.Errorf("ring of %d misses the axis: %v", n, r.dir[n/4])
		}
	}
	// Chord error r·(1 − cos(π/n)): radius 100 within 0.25 mm takes 44.4.
	if n := len(ringFor(100, 0.25).dir); n != 48 {
		t.Errorf("%d points around radius 100", n)
	}
	if n := len(ringFor(1, 0.25).dir); n != minAround {
		t.Errorf("%d points around radius 1", n)
	}
	if n := len(ringFor(5000, 0.25).dir); n != maxAround {
		t.Errorf("%d points around radius 5000", n)
	}
}
