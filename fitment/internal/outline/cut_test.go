package outline

import (
	"math"
	"testing"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

func TestCutBall(t *testing.T) {
	s := &solid.Solid{Kind: solid.Point, Round: 100, Pose: posed(0, 0, 0, 500, 10, 20)}
	for _, d := range []float64{0, 30, -60, 99} {
		r := math.Sqrt(100*100 - d*d)
		poly := single(t, Cut(s, 500+d))
		near(t, "area", area(poly), math.Pi*r*r, 2*math.Pi*r*0.25)
		lo, hi := span([][]Pt{poly}, 0)
		near(t, "left", lo, 10-r, noise)
		near(t, "right", hi, 10+r, noise)
	}
}

// A cylinder of radius r whose axis meets the plane at angle α is cut in an
// ellipse of semi-axes r and r/sin α (elementary geometry).
func TestCutSlantedCylinder(t *testing.T) {
	const r = 40
	for _, kind := range []solid.Kind{solid.Cylinder, solid.Segment} {
		for _, alpha := range []float64{90, 60, 30, 12} {
			s := &solid.Solid{Kind: kind, H: geom.V(r, 0, 2000), Pose: posed(0, alpha, 0, 100, 0, 50)}
			if kind == solid.Segment {
				s.H, s.Round, s.Pose = geom.V(2000, 0, 0), r, posed(0, 90-alpha, 0, 100, 0, 50)
			}
			poly := single(t, Cut(s, 100))
			b := r / math.Sin(alpha*deg)
			near(t, "area", area(poly), math.Pi*r*b, 4*(r+b)*0.25)
			lo, hi := span([][]Pt{poly}, 0)
			near(t, "across", hi-lo, 2*r, 0.25)
			lo, hi = span([][]Pt{poly}, 1)
			near(t, "along", hi-lo, 2*b, noise)
		}
	}
}

// A cylinder along the plane, off its axis by d, is cut in a rectangle of
// width 2·√(r² − d²).
func TestCutCylinderAlong(t *testing.T) {
	s := &solid.Solid{Kind: solid.Cylinder, H: geom.V(50, 0, 200), Pose: posed(0, 0, 0, 0, 7, 9)}
	equalShapes(t, Cut(s, 30), [][]Pt{{{-33, -191}, {47, -191}, {47, 209}, {-33, 209}}}, noise)
	if n := len(single(t, Cut(s, 30))); n != 4 {
		t.Errorf("%d corners", n)
	}
	// Rounded by 20 it is the shape of a cylinder of radius 30 grown: at its
	// axis a rounded rectangle, area by Steiner's formula.
	s.H, s.Round = geom.V(30, 0, 180), 20
	near(t, "area", area(single(t, Cut(s, 0))), 4*30*180+4*(30+180)*20+math.Pi*400, 2*math.Pi*20*0.25)
	// A bar with round ends along the plane, off by 12: a stadium of radius 16.
	bar := &solid.Solid{Kind: solid.Segment, H: geom.V(300, 0, 0), Round: 20, Pose: posed(0, 0, 90, 0, 0, 0)}
	near(t, "area", area(single(t, Cut(bar, 12))), math.Pi*256+4*300*16, 2*math.Pi*16*0.25)
}

// A cube cut square to its diagonal through the middle: a regular hexagon of
// side edge/√2, area (3·√3/4)·edge². Near a corner, x off it: an equilateral
// triangle of side √6·x, area (3·√3/2)·x².
func TestCutCube(t *testing.T) {
	s := &solid.Solid{Kind: solid.Box, H: geom.V(50, 50, 50), Pose: geom.Pose{R: onDiagonal, P: geom.V(9, 0, 0)}}
	poly := single(t, Cut(s, 9))
	near(t, "hexagon", area(poly), 3*math.Sqrt(3)/4*100*100, noise)
	if len(poly) != 6 {
		t.Errorf("%d corners", len(poly))
	}
	const x = 30
	poly = single(t, Cut(s, 9+50*math.Sqrt(3)-x))
	near(t, "triangle", area(poly), 3*math.Sqrt(3)/2*x*x, noise)
	if len(poly) != 3 {
		t.Errorf("%d corners", len(poly))
	}
}

func TestCutOnAFace(t *testing.T) {
	box := &solid.Solid{Kind: solid.Box, H: geom.V(10, 20, 30), Pose: geom.Still}
	hull := &solid.Solid{Kind: solid.Hull, Pose: geom.Still}
	for _, c := range boxCorners(box) {
		hull.Points = append(hull.Points, c)
	}
	rounded := &solid.Solid{Kind: solid.Box, H: geom.V(6, 20, 30), Round: 4, Pose: geom.Still}
	face := [][]Pt{{{-20, -30}, {20, -30}, {20, 30}, {-20, 30}}}
	for _, s := range []*solid.Solid{box, hull, rounded} {
		for _, x := range []float64{-10, 10} {
			equalShapes(t, Cut(s, x), face, noise)
			if got := Cut(s, x*1.001); got != nil {
				t.Errorf("beyond the face: %v", got)
			}
		}
	}
	// The flat end of a cylinder square to X, sharp and rounded: a circle.
	for _, round := range []float64{0, 5} {
		c := &solid.Solid{Kind: solid.Cylinder, H: geom.V(20, 0, 100-round), Round: round, Pose: posed(0, 90, 0, 0, 0, 0)}
		for _, x := range []float64{-100, 100} {
			near(t, "end", area(single(t, Cut(c, x))), math.Pi*400, 2*math.Pi*20*0.25)
			if got := Cut(c, x*1.001); got != nil {
				t.Errorf("beyond the end: %v", got)
			}
		}
	}
	// An edge in the plane is a line, a touched ball nothing.
	edge := &solid.Solid{Kind: solid.Box, H: geom.V(10, 10, 30), Pose: posed(0, 0, 45, 0, 0, 0)}
	equalShapes(t, Cut(edge, 10*math.Sqrt2), [][]Pt{{{0, -30}, {0, 30}}}, noise)
	if got := Cut(&solid.Solid{Kind: solid.Point, Round: 7, Pose: geom.Still}, 7); got != nil {
		t.Errorf("a touched ball gives %v", got)
	}
	// A disc without thickness is cut in a line.
	disc := &solid.Solid{Kind: solid.Disc, H: geom.V(50, 0, 0), Pose: geom.Still}
	equalShapes(t, Cut(disc, 30), [][]Pt{{{-40, 0}, {40, 0}}}, noise)
}

func TestCutArc(t *testing.T) {
	const R, r = 120, 30
	// Through the bend's axis the tube is cut square: a circle, once each.
	for _, half := range []float64{45 * deg, 30 * deg, 17 * deg} {
		s := &solid.Solid{Kind: solid.Arc, H: geom.V(R, half, 0), Round: r, Pose: posed(0, 0, 90, 100, 5, 6)}
		poly := single(t, Cut(s, 100))
		near(t, "area", area(poly), math.Pi*r*r, 2*math.Pi*r*0.25)
		lo, hi := span([][]Pt{poly}, 0)
		near(t, "inside", lo, 5+R-r, 0.25)
		near(t, "outside", hi, 5+R+r, 0.25)
	}
	// The flat end of a quarter bend lies in the plane.
	s := &solid.Solid{Kind: solid.Arc, H: geom.V(R, 45*deg, 0), Round: r, Pose: posed(0, 0, 45, 0, 0, 0)}
	near(t, "flat end", area(single(t, Cut(s, 0))), math.Pi*r*r, 2*math.Pi*r*0.25)
	if got := Cut(s, -0.01); got != nil {
		t.Errorf("beyond the flat end: %v", got)
	}
	// A full ring through its middle: two circles.
	ring := &solid.Solid{Kind: solid.Arc, H: geom.V(R, math.Pi, 0), Round: r, Pose: posed(0, 0, 0, 0, 0, 0)}
	for yaw := range 12 {
		ring.Pose = posed(0, 0, 7.5*float64(yaw), 0, 0, 0)
		cut := Cut(ring, 0)
		checkShape(t, cut)
		near(t, "two circles", sumArea(cut), 2*math.Pi*r*r, 4*math.Pi*r*0.25)
	}
	// Square to its axis, d off its middle: a ring 2·h wide, h = √(r² − d²).
	ring.Pose = posed(0, 90, 0, 0, 0, 0)
	for _, d := range []float64{0, 18, -24} {
		h := math.Sqrt(r*r - d*d)
		cut := Cut(ring, d)
		checkShape(t, cut)
		near(t, "ring", sumArea(cut), 4*math.Pi*R*h, 4*math.Pi*R*0.25)
		if outsideAll(cut, Pt{0, 0}) < R-h-0.3 {
			t.Error("the ring's hole is filled")
		}
	}
}
