package outline

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

var allKinds = append(append([]solid.Kind(nil), convexKinds...), solid.Arc)

var views = []View{Section, Side, Plan}

// station draws a plane that cuts s, now and then exactly where s ends.
func station(t *rapid.T, s *solid.Solid) float64 {
	hi, lo := Extent(s, Section)
	f := rapid.OneOf(length(0, 1), rapid.SampledFrom([]float64{0, 0.5, 1})).Draw(t, "f")
	return lo + f*(hi-lo)
}

// pointIn draws a point of s in body axes: of the core, then off it by at most
// the rounding radius.
func pointIn(t *rapid.T, s *solid.Solid) geom.Vec {
	unit := func(name string) float64 { return length(-1, 1).Draw(t, name) }
	sin, cos := math.Sincos(math.Pi * unit("around"))
	down, flat := math.Sincos(math.Pi * unit("down"))
	up, out := math.Sincos(math.Pi * unit("up"))
	d := geom.V(flat*out, flat*up, down).Scale(s.Round)
	p := geom.Vec{}
	switch s.Kind {
	case solid.Segment:
		p.X = s.H.X * unit("a")
	case solid.Disc:
		p = geom.V(s.H.X*cos, s.H.X*sin, 0)
	case solid.Cylinder:
		p = geom.V(s.H.X*cos, s.H.X*sin, s.H.Z*unit("a"))
	case solid.Box:
		p = geom.V(s.H.X*unit("a"), s.H.Y*unit("b"), s.H.Z*unit("c"))
	case solid.Arc:
		sa, ca := math.Sincos(s.H.Y * unit("a"))
		k := s.H.X + s.Round*cos
		p, d = geom.V(k*ca, k*sa, s.Round*sin), geom.Vec{}
	}
	return s.Pose.Apply(p.Add(d))
}

// along the direction of looking.
func depth(v View, p geom.Vec) float64 { return [3]float64{p.X, p.Y, p.Z}[v] }

func TestEveryPointIsSeenWhereItIs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySolid(t, allKinds)
		for _, v := range views {
			seen := Seen(s, v)
			checkShape(t, seen)
			a, b := Extent(s, v)
			for range 8 {
				p := pointIn(t, s)
				if d := outsideAll(seen, v.flat(p)); d > allowedFor(sized(s)) {
					t.Fatalf("view %d: %v is %g mm outside", v, p, d)
				}
				if x := depth(v, p); x < math.Min(a, b)-noise || x > math.Max(a, b)+noise {
					t.Fatalf("view %d: %v beyond %g..%g", v, p, a, b)
				}
			}
		}
	})
}

// What is seen spans exactly the extents along the other two axes.
func TestSeenSpansTheExtents(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySolid(t, allKinds)
		far, nearX := Extent(s, Section)
		nearY, farY := Extent(s, Side)
		top, low := Extent(s, Plan)
		want := [3][2]float64{{nearX, far}, {nearY, farY}, {low, top}}
		axes := [3][2]int{{1, 2}, {0, 2}, {0, 1}}
		for _, v := range views {
			seen := Seen(s, v)
			for i, axis := range axes[v] {
				lo, hi := span(seen, i)
				near(t, "low", lo, want[axis][0], allowedFor(sized(s)))
				near(t, "high", hi, want[axis][1], allowedFor(sized(s)))
			}
		}
	})
}

// The section lies inside the shadow along X, and between what the side view
// and the plan show over the plane.
func TestCutLiesInsideSeen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySolid(t, allKinds)
		x := station(t, s)
		cut := Cut(s, x)
		checkShape(t, cut)
		front, side, plan := Seen(s, Section), Seen(s, Side), Seen(s, Plan)
		tol := 2 * allowedFor(sized(s))
		for _, poly := range cut {
			for _, p := range poly {
				a, b, c := outsideAll(front, p), outsideAll(side, Pt{x, p[1]}), outsideAll(plan, Pt{x, p[0]})
				if math.Max(a, math.Max(b, c)) > tol {
					t.Fatalf("%v of the cut at %g is outside by %g, %g, %g mm", p, x, a, b, c)
				}
			}
		}
	})
}

// The cut's points lie on the solid; no straight edge is further off its border
// than stated; points of the plane inside the solid lie inside the cut.
func TestCutFollowsTheSurface(t *testing.T) {
	hits, tries := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := anySolid(t, convexKinds)
		x := station(t, s)
		cut, tol := Cut(s, x), allowedFor(sized(s))
		at := func(p Pt) float64 { return signed(s, geom.V(x, p[0], p[1])) }
		for _, poly := range cut {
			for i, a := range poly {
				if at(a) > noise {
					t.Fatalf("%v is %g mm outside the solid", a, at(a))
				}
				if b := poly[(i+1)%len(poly)]; len(poly) > 2 {
					mid := Pt{(a[0] + b[0]) / 2, (a[1] + b[1]) / 2}
					if p := along(mid, outward(a, b), tol); at(p) < -noise {
						t.Fatalf("edge %v %v leaves out more than %g mm", a, b, tol)
					}
				}
			}
		}
		y0, y1 := span(Seen(s, Section), 0)
		z0, z1 := span(Seen(s, Section), 1)
		for range 8 {
			p := Pt{length(y0, y1).Draw(t, "y"), length(z0, z1).Draw(t, "z")}
			tries++
			if at(p) < -noise {
				hits++
				if d := outsideAll(cut, p); d > tol {
					t.Fatalf("%v of the solid is %g mm outside the cut", p, d)
				}
			}
		}
	})
	if share := float64(hits) / float64(tries); share < 0.1 || share > 0.9 {
		t.Errorf("%.0f %% of the points fell inside: the check has become empty", 100*share)
	}
}

// A hull of a box's corners and inner points is the box.
func TestHullEqualsBox(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		box := anySolid(t, []solid.Kind{solid.Box})
		h := *box
		h.Kind = solid.Hull
		for i := range 8 {
			sign := func(bit int) float64 { return float64(i>>bit&1)*2 - 1 }
			h.Points = append(h.Points, geom.V(box.H.X*sign(0), box.H.Y*sign(1), box.H.Z*sign(2)))
		}
		for range 3 {
			in := length(-0.9, 0.9)
			h.Points = append(h.Points, geom.V(box.H.X*in.Draw(t, "a"), box.H.Y*in.Draw(t, "b"), box.H.Z*in.Draw(t, "c")))
		}
		x, tol := station(t, box), noise
		if box.Round > 0 {
			// Where a plane just touches a rounding, noise decides whether it meets.
			hi, lo := Extent(box, Section)
			x = math.Min(math.Max(x, lo+0.01), hi-0.01)
			tol = allowedFor(box.Round) // rods inside the hull add points on the same curves
		}
		equalShapes(t, Cut(box, x), Cut(&h, x), tol)
		for _, v := range views {
			equalShapes(t, Seen(box, v), Seen(&h, v), noise)
			a, b := Extent(box, v)
			c, d := Extent(&h, v)
			near(t, "near", c, a, noise)
			near(t, "far", d, b, noise)
		}
	})
}

// equalShapes asserts that two single convex polygons cover the same.
func equalShapes(t rapid.TB, a, b [][]Pt, tol float64) {
	t.Helper()
	if len(a) != len(b) {
		t.Fatalf("%d polygons and %d", len(a), len(b))
	}
	for i := range a {
		for _, p := range a[i] {
			near(t, "distance", outside(b[i], p), 0, tol)
		}
		for _, p := range b[i] {
			near(t, "distance", outside(a[i], p), 0, tol)
		}
	}
}

// The pieces of an arc's section together follow the tube.
func TestArcCutFollowsTheTube(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anySolid(t, []solid.Kind{solid.Arc})
		x := station(t, s)
		cut, tol := Cut(s, x), allowedFor(sized(s))
		for _, poly := range cut {
			for _, p := range poly {
				// A whole ring's distance: a piece's inner side may pass its end by noise.
				ring := *s
				ring.H.Y = math.Pi
				near(t, "outside the tube", math.Max(0, signed(&ring, geom.V(x, p[0], p[1]))), 0, tol)
			}
		}
		// What the pieces leave out is thin: its points leave the tube within
		// the error along X too.
		for range 20 {
			p := pointIn(t, s)
			if outsideAll(Cut(s, p.X), Pt{p.Y, p.Z}) <= tol {
				continue
			}
			if before, behind := p.Sub(geom.V(tol, 0, 0)), p.Add(geom.V(tol, 0, 0)); signed(s, before) < 0 && signed(s, behind) < 0 {
				t.Fatalf("%v of the tube is not in the cut", p)
			}
		}
	})
}

// The answer stays finite in number and never panics on what is no number.
func TestNoNumberNoPanic(t *testing.T) {
	bad := []float64{math.NaN(), math.Inf(1), -1, 0, 1e300}
	for kind := solid.Point; kind <= solid.Arc+1; kind++ {
		for _, x := range bad {
			s := &solid.Solid{Kind: kind, Round: x, H: geom.V(x, x, x), Pose: geom.Still, Points: []geom.Vec{{X: x}, {Y: x}, {Z: 1}}}
			for _, v := range views {
				if n := len(Seen(s, v)); n > maxAround {
					t.Errorf("kind %d, size %g: %d polygons", kind, x, n)
				}
			}
			if n := len(Cut(s, 0)) + len(Cut(s, x)); n > 2*maxAround {
				t.Errorf("kind %d, size %g: %d polygons", kind, x, n)
			}
		}
	}
}
