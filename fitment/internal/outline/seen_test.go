package outline

import (
	"math"
	"testing"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

const deg = math.Pi / 180

func posed(roll, pitch, yaw, x, y, z float64) geom.Pose {
	return geom.Pose{R: geom.Turn(roll*deg, pitch*deg, yaw*deg), P: geom.V(x, y, z)}
}

// sumArea is the area of polygons that do not overlap.
func sumArea(polys [][]Pt) float64 {
	sum := 0.0
	for _, p := range polys {
		sum += area(p)
	}
	return sum
}

// Areas of shadows: circle, stadium, ellipse and rectangle from elementary
// geometry; a convex figure grown by r has area A + P·r + π·r² (Steiner's
// formula).
func TestSeenArea(t *testing.T) {
	const r, half, theta = 60, 400, 35
	sin, cos := math.Sin(theta*deg), math.Cos(theta*deg)
	cases := []struct {
		what  string
		s     solid.Solid
		v     View
		want  float64
		round float64 // length of the curved border
	}{
		{"ball", solid.Solid{Kind: solid.Point, Round: r, Pose: posed(10, 20, 30, 1, 2, 3)}, Side,
			math.Pi * r * r, 2 * math.Pi * r},
		{"bar with round ends, square on", solid.Solid{Kind: solid.Segment, H: geom.V(half, 0, 0), Round: r, Pose: geom.Still}, Plan,
			math.Pi*r*r + 4*half*r, 2 * math.Pi * r},
		{"bar with round ends, end on", solid.Solid{Kind: solid.Segment, H: geom.V(half, 0, 0), Round: r, Pose: geom.Still}, Section,
			math.Pi * r * r, 2 * math.Pi * r},
		{"bar with round ends, foreshortened", solid.Solid{Kind: solid.Segment, H: geom.V(half, 0, 0), Round: r, Pose: posed(0, theta, 0, 5, 6, 7)}, Plan,
			math.Pi*r*r + 4*half*cos*r, 2 * math.Pi * r},
		{"cylinder, square on", solid.Solid{Kind: solid.Cylinder, H: geom.V(r, 0, half), Pose: geom.Still}, Side,
			4 * r * half, 0},
		{"cylinder, slanted", solid.Solid{Kind: solid.Cylinder, H: geom.V(r, 0, half), Pose: posed(0, theta, 0, 0, 0, 0)}, Plan,
			math.Pi*r*r*cos + 4*half*sin*r, 2 * math.Pi * r},
		{"disc, slanted", solid.Solid{Kind: solid.Disc, H: geom.V(r, 0, 0), Pose: posed(0, theta, 0, 0, 0, 0)}, Plan,
			math.Pi * r * r * cos, 2 * math.Pi * r},
		{"disc grown, on edge", solid.Solid{Kind: solid.Disc, H: geom.V(half, 0, 0), Round: r, Pose: geom.Still}, Side,
			math.Pi*r*r + 4*half*r, 2 * math.Pi * r},
		{"tyre from its side", solid.Solid{Kind: solid.Cylinder, H: geom.V(200, 0, 40), Round: r, Pose: posed(90, 0, 0, 0, 0, 0)}, Side,
			math.Pi * (200 + r) * (200 + r), 2 * math.Pi * (200 + r)},
		{"rounded box", solid.Solid{Kind: solid.Box, H: geom.V(300, 200, 100), Round: r, Pose: geom.Still}, Plan,
			4*300*200 + 4*(300+200)*r + math.Pi*r*r, 2 * math.Pi * r},
		// A cube seen along its diagonal: a regular hexagon with side
		// edge·√(2/3), so (3·√3/2)·(2/3)·edge² = √3·edge².
		{"cube along its diagonal", solid.Solid{Kind: solid.Box, H: geom.V(50, 50, 50), Pose: geom.Pose{R: onDiagonal}}, Section,
			math.Sqrt(3) * 100 * 100, 0},
	}
	for _, c := range cases {
		t.Run(c.what, func(t *testing.T) {
			poly := single(t, Seen(&c.s, c.v))
			near(t, "area", area(poly), c.want, c.round*0.25+noise)
		})
	}
}

// onDiagonal turns the diagonal (1, 1, 1) onto X.
var onDiagonal = func() geom.Mat {
	x, y := geom.V(1, 1, 1).Unit(), geom.V(1, -1, 0).Unit()
	return geom.Mat{X: x, Y: y, Z: x.Cross(y)}
}()

func TestSeenIsExactOnStraightThings(t *testing.T) {
	c := &solid.Solid{Kind: solid.Cylinder, H: geom.V(30, 0, 100), Pose: posed(0, 90, 0, 1000, -20, 50)}
	equalShapes(t, Seen(c, Side), [][]Pt{{{900, 20}, {1100, 20}, {1100, 80}, {900, 80}}}, noise)
	if n := len(single(t, Seen(c, Side))); n != 4 {
		t.Errorf("a cylinder from its side has %d corners", n)
	}
	b := &solid.Solid{Kind: solid.Box, H: geom.V(300, 200, 100), Pose: geom.Still}
	if n := len(single(t, Seen(b, Plan))); n != 4 {
		t.Errorf("a box from above has %d corners", n)
	}
	if n := len(single(t, Seen(&solid.Solid{Kind: solid.Box, H: geom.V(3, 2, 1), Pose: geom.Pose{R: onDiagonal}}, Section))); n != 6 {
		t.Errorf("a box along its diagonal has %d corners", n)
	}
	// Rounded corners end where the straight edges begin.
	b.Round = 40
	lo, hi := span(Seen(b, Plan), 0)
	near(t, "front", lo, -340, noise)
	near(t, "rear", hi, 340, noise)
}

func TestArcSeen(t *testing.T) {
	const R, r = 120, 30
	quarter := &solid.Solid{Kind: solid.Arc, H: geom.V(R, 45*deg, 0), Round: r, Pose: posed(0, 0, 45, 10, 20, 30)}
	// Along its axis: a sector of a ring, ((R+r)² − (R−r)²)·45°.
	seen := Seen(quarter, Plan)
	checkShape(t, seen)
	near(t, "area", sumArea(seen), 4*R*r*45*deg, 0.25*math.Pi/2*2*R)
	if n := len(seen); n < 9 || n > 24 {
		t.Errorf("%d pieces over 90°", n)
	}
	// It runs from +X to +Y about (10, 20): its ends are flat, on the two axes.
	lo, hi := span(seen, 0)
	near(t, "flat end", lo, 10, noise)
	near(t, "outside", hi, 10+R+r, noise)
	// From the side: a stadium's half, flat at the end that faces along X.
	side := Seen(quarter, Side)
	lo, hi = span(side, 1)
	near(t, "below", lo, 30-r, noise)
	near(t, "above", hi, 30+r, noise)

	ring := &solid.Solid{Kind: solid.Arc, H: geom.V(R, math.Pi, 0), Round: r, Pose: geom.Still}
	near(t, "ring", sumArea(Seen(ring, Plan)), 4*math.Pi*R*r, 0.25*2*math.Pi*2*R)
	if outsideAll(Seen(ring, Plan), Pt{0, 0}) < R-r-0.3 {
		t.Error("the ring's hole is filled")
	}
	// From the side a ring is a stadium, R long either way.
	for _, p := range [][3]float64{{R + r, 0, 0}, {R, r, 0}, {R + r*math.Sqrt2/2, r * math.Sqrt2 / 2, 0}, {R + r - 1, r - 1, 19}, {R + r + 2, 0, 2}} {
		d := outsideAll(Seen(ring, Side), Pt{p[0], p[1]})
		want := math.Max(0, math.Hypot(math.Max(p[0]-R, 0), p[1])-r)
		near(t, "distance to the stadium", d, want, 0.25)
	}
}

func TestSeenThin(t *testing.T) {
	disc := &solid.Solid{Kind: solid.Disc, H: geom.V(50, 0, 0), Pose: posed(0, 0, 0, 5, 6, 7)}
	equalShapes(t, Seen(disc, Side), [][]Pt{{{-45, 7}, {55, 7}}}, noise)
	flat := &solid.Solid{Kind: solid.Cylinder, H: geom.V(50, 0, 0), Pose: posed(90, 0, 0, 0, 0, 0)}
	equalShapes(t, Seen(flat, Plan), [][]Pt{{{-50, 0}, {50, 0}}}, noise)
	if got := Seen(&solid.Solid{Kind: solid.Point, Pose: geom.Still}, Plan); got != nil {
		t.Errorf("a bare point is seen as %v", got)
	}
	if got := Seen(&solid.Solid{Kind: solid.Hull, Pose: geom.Still}, Plan); got != nil {
		t.Errorf("a hull of nothing is seen as %v", got)
	}
	// No length: the ball.
	bar := &solid.Solid{Kind: solid.Segment, Round: 20, Pose: posed(0, 30, 0, 0, 0, 0)}
	ball := &solid.Solid{Kind: solid.Point, Round: 20, Pose: geom.Still}
	equalShapes(t, Seen(bar, Side), Seen(ball, Side), noise)
	equalShapes(t, Cut(bar, 3), Cut(ball, 3), 0.25)
	// No angle: the disc across the centreline, on edge from above.
	arc := &solid.Solid{Kind: solid.Arc, H: geom.V(100, 0, 0), Round: 10, Pose: geom.Still}
	equalShapes(t, Seen(arc, Plan), [][]Pt{{{90, 0}, {110, 0}}}, noise)
}

func TestExtent(t *testing.T) {
	s := &solid.Solid{Kind: solid.Box, H: geom.V(10, 20, 30), Round: 5, Pose: posed(0, 0, 0, 100, 200, 300)}
	quarter := &solid.Solid{Kind: solid.Arc, H: geom.V(120, 45*deg, 0), Round: 30, Pose: posed(0, 0, 45, 10, 20, 30)}
	cases := []struct {
		s         *solid.Solid
		v         View
		near, far float64
	}{
		{s, Section, 115, 85}, // looks forward: the rearmost is nearest
		{s, Side, 175, 225},   // looks at the left side: the leftmost is nearest
		{s, Plan, 335, 265},   // looks down: the highest is nearest
		{quarter, Section, 160, 10},
		{quarter, Side, 20, 170},
		{quarter, Plan, 60, 0},
	}
	for _, c := range cases {
		a, b := Extent(c.s, c.v)
		near(t, "near", a, c.near, noise)
		near(t, "far", b, c.far, noise)
	}
}
