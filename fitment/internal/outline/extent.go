package outline

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// Extent is how far s reaches along the direction of looking, nearest to the
// eye first: X in the section (the larger is nearer), Y in the side view (the
// smaller is nearer), Z in the plan (the larger is nearer). Exact.
func Extent(s *solid.Solid, v View) (near, far float64) {
	axis, at := geom.V(1, 0, 0), s.Pose.P.X
	switch v {
	case Side:
		axis, at = geom.V(0, -1, 0), s.Pose.P.Y
	case Plan:
		axis, at = geom.V(0, 0, 1), s.Pose.P.Z
	}
	d := s.Pose.R.ApplyT(axis) // the eye's direction in the solid's axes
	near, far = reach(s, d), -reach(s, d.Neg())
	if v == Side {
		near, far = -near, -far
	}
	return at + near, at + far
}

// reach is the largest d·p over the solid in its own axes, for unit d.
func reach(s *solid.Solid, d geom.Vec) float64 {
	across := math.Sqrt(float64(d.X*d.X) + float64(d.Y*d.Y)) // part of d in the local XY plane
	core := 0.0
	switch s.Kind {
	case solid.Segment:
		core = math.Abs(d.X) * s.H.X
	case solid.Disc:
		core = across * s.H.X
	case solid.Cylinder:
		core = float64(across*s.H.X) + float64(math.Abs(d.Z)*s.H.Z)
	case solid.Box:
		core = float64(math.Abs(d.X)*s.H.X) + float64(math.Abs(d.Y)*s.H.Y) + float64(math.Abs(d.Z)*s.H.Z)
	case solid.Hull:
		for i, p := range s.Points {
			if t := d.Dot(p); i == 0 || t > core {
				core = t
			}
		}
	case solid.Arc:
		return arcReach(s, d, across)
	}
	return core + s.Round
}

// arcReach is [reach] of the bend of a tube with flat ends: the discs across
// it at angle θ reach R·g + r·√(g² + d.Z²), with g = d.X·cos θ + d.Y·sin θ.
// That is convex in g, so the largest and the smallest g decide.
func arcReach(s *solid.Solid, d geom.Vec, across float64) float64 {
	at := func(g float64) float64 {
		return float64(s.H.X*g) + float64(s.Round*math.Sqrt(float64(g*g)+float64(d.Z*d.Z)))
	}
	sin, cos := math.Sincos(s.H.Y)
	a := float64(d.X*cos) + float64(d.Y*sin)
	b := float64(d.X*cos) - float64(d.Y*sin)
	best := math.Max(at(a), at(b))
	if turn := math.Abs(math.Atan2(d.Y, d.X)); turn <= s.H.Y {
		best = math.Max(best, at(across))
	}
	if turn := math.Abs(math.Atan2(-d.Y, -d.X)); turn <= s.H.Y {
		best = math.Max(best, at(-across))
	}
	return best
}
