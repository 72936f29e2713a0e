package outline

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// noise (mm) is the rounding that tests allow on coordinates of some metres.
const noise = 1e-5

// allowedFor (mm) is the error that the package's doc comment states for a
// round thing of this radius.
func allowedFor(radius float64) float64 { return math.Max(0.25, 0.13+0.00054*radius) }

// area is the shoelace formula: positive when counter-clockwise.
func area(poly []Pt) float64 {
	sum := 0.0
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		sum += p[0]*q[1] - p[1]*q[0]
	}
	return sum / 2
}

// outside is how far p lies outside a convex counter-clockwise polygon or a
// line; 0 inside.
func outside(poly []Pt, p Pt) float64 {
	in, best := len(poly) > 2, math.Inf(1)
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		d := Pt{b[0] - a[0], b[1] - a[1]}
		if cross(a, b, p) < 0 {
			in = false
		}
		t := ((p[0]-a[0])*d[0] + (p[1]-a[1])*d[1]) / (d[0]*d[0] + d[1]*d[1])
		t = math.Min(1, math.Max(0, t))
		best = math.Min(best, math.Hypot(p[0]-a[0]-t*d[0], p[1]-a[1]-t*d[1]))
	}
	if in {
		return 0
	}
	return best
}

// outsideAll is how far p lies outside the union.
func outsideAll(polys [][]Pt, p Pt) float64 {
	best := math.Inf(1)
	for _, poly := range polys {
		best = math.Min(best, outside(poly, p))
	}
	return best
}

// checkShape asserts what every polygon promises.
func checkShape(t rapid.TB, polys [][]Pt) {
	t.Helper()
	for _, poly := range polys {
		if len(poly) < 2 {
			t.Fatalf("polygon of %d points: %v", len(poly), poly)
		}
		for i, a := range poly {
			b, c := poly[(i+1)%len(poly)], poly[(i+2)%len(poly)]
			if math.Hypot(b[0]-a[0], b[1]-a[1]) <= same/2 {
				t.Fatalf("repeated point %v", a)
			}
			if len(poly) > 2 && cross(a, b, c) <= 0 {
				t.Fatalf("no left turn at %v %v %v", a, b, c)
			}
		}
	}
}

func near(t rapid.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Fatalf("%s: got %.6f, want %.6f ± %g", what, got, want, tol)
	}
}

// single is the one polygon of polys.
func single(t testing.TB, polys [][]Pt) []Pt {
	t.Helper()
	checkShape(t, polys)
	if len(polys) != 1 {
		t.Fatalf("%d polygons, want 1", len(polys))
	}
	return polys[0]
}

// span is the range of one coordinate.
func span(polys [][]Pt, axis int) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, poly := range polys {
		for _, p := range poly {
			lo, hi = math.Min(lo, p[axis]), math.Max(hi, p[axis])
		}
	}
	return lo, hi
}

// boxSDF is the signed distance to a rectangle of half sizes a, b.
func boxSDF(x, y, a, b float64) float64 {
	x, y = math.Abs(x)-a, math.Abs(y)-b
	return math.Hypot(math.Max(x, 0), math.Max(y, 0)) + math.Min(math.Max(x, y), 0)
}

// signed is the textbook signed distance of a body point to a solid other than
// a hull; inside the flat ends of an arc, the tube's.
func signed(s *solid.Solid, at geom.Vec) float64 {
	p := s.Pose.Inverse(at)
	axial := math.Hypot(p.X, p.Y)
	switch s.Kind {
	case solid.Point:
		return p.Len() - s.Round
	case solid.Segment:
		return geom.V(math.Max(math.Abs(p.X)-s.H.X, 0), p.Y, p.Z).Len() - s.Round
	case solid.Disc:
		return boxSDF(axial, p.Z, s.H.X, 0) - s.Round
	case solid.Cylinder:
		return boxSDF(axial, p.Z, s.H.X, s.H.Z) - s.Round
	case solid.Box:
		q := geom.V(math.Abs(p.X)-s.H.X, math.Abs(p.Y)-s.H.Y, math.Abs(p.Z)-s.H.Z)
		out := geom.V(math.Max(q.X, 0), math.Max(q.Y, 0), math.Max(q.Z, 0)).Len()
		return out + math.Min(math.Max(q.X, math.Max(q.Y, q.Z)), 0) - s.Round
	case solid.Arc:
		if math.Abs(math.Atan2(p.Y, p.X)) > s.H.Y {
			return math.Inf(1)
		}
		return math.Hypot(axial-s.H.X, p.Z) - s.Round
	}
	panic("no signed distance for this kind")
}

// sized is the radius by which the doc comment states the error.
func sized(s *solid.Solid) float64 {
	switch s.Kind {
	case solid.Disc, solid.Cylinder:
		return s.H.X + s.Round
	case solid.Arc:
		return s.H.X + 2*s.Round
	}
	return s.Round
}

func length(lo, hi float64) *rapid.Generator[float64] { return rapid.Float64Range(lo, hi) }

// anyPose has straight poses as often as slanted ones: both have branches of
// their own.
func anyPose(t *rapid.T) geom.Pose {
	angle := rapid.OneOf(rapid.SampledFrom([]float64{0, math.Pi / 2, math.Pi, -math.Pi / 2}), length(-4, 4))
	return geom.Pose{
		R: geom.Turn(angle.Draw(t, "roll"), angle.Draw(t, "pitch"), angle.Draw(t, "yaw")),
		P: geom.V(length(-3000, 3000).Draw(t, "x"), length(-900, 900).Draw(t, "y"), length(-200, 900).Draw(t, "z")),
	}
}

var convexKinds = []solid.Kind{solid.Point, solid.Segment, solid.Disc, solid.Cylinder, solid.Box}

func anySolid(t *rapid.T, kinds []solid.Kind) *solid.Solid {
	s := &solid.Solid{Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), Pose: anyPose(t)}
	round := rapid.OneOf(rapid.Just(0.0), length(1, 200))
	switch s.Kind {
	case solid.Point:
		s.Round = length(1, 400).Draw(t, "r")
	case solid.Segment:
		s.H.X, s.Round = length(0, 1500).Draw(t, "half"), length(1, 200).Draw(t, "r")
	case solid.Disc, solid.Cylinder, solid.Box:
		s.H = geom.V(length(1, 450).Draw(t, "hx"), length(1, 900).Draw(t, "hy"), length(1, 900).Draw(t, "hz"))
		s.Round = round.Draw(t, "r")
	case solid.Arc:
		s.H.X = length(20, 400).Draw(t, "R")
		s.H.Y = rapid.OneOf(rapid.Just(math.Pi), rapid.Just(math.Pi/4), length(0.05, 3.1)).Draw(t, "half")
		s.Round = s.H.X * length(0.05, 0.95).Draw(t, "r/R")
	}
	return s
}
