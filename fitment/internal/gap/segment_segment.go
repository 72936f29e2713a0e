package gap

import (
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// ballBall is the gap of two balls.
func ballBall(a, b *solid.Solid, r *Result) {
	w := b.Pose.P.Sub(a.Pose.P)
	d := w.Len()
	n := w.Scale(1 / d)
	if d <= geom.Tiny {
		n = b.Pose.R.AxisX().Perp()
	}
	r.Gap = d - a.Round - b.Round
	r.A, r.B, r.N = a.Pose.P.AddScaled(n, a.Round), b.Pose.P.AddScaled(n, -b.Round), n
}

// segmentSegment is the gap of two capsules, either or both of which may be a
// ball: the clamp method of Ericson, Real-Time Collision Detection (2005),
// section 5.1.9, with the middle of each segment as its origin.
func segmentSegment(a, b *solid.Solid, r *Result) {
	u, v := a.Pose.R.AxisX(), b.Pose.R.AxisX()
	s, t := nearestOnSegments(b.Pose.P.Sub(a.Pose.P), u, v, a.H.X, b.H.X)
	pa, pb := a.Pose.P.AddScaled(u, s), b.Pose.P.AddScaled(v, t)
	w := pb.Sub(pa)
	d := w.Len()
	n := w.Scale(1 / d)
	if d <= geom.Tiny {
		n = acrossSegments(a, b, u, v)
	}
	r.Gap = d - a.Round - b.Round
	r.A, r.B, r.N = pa.AddScaled(n, a.Round), pb.AddScaled(n, -b.Round), n
}

// acrossSegments is a direction that parts two touching segments with no move
// at all: square to both, or to the one that has a length.
func acrossSegments(a, b *solid.Solid, u, v geom.Vec) geom.Vec {
	if a.H.X == 0 {
		return v.Perp()
	}
	if n := u.Cross(v); b.H.X > 0 && n.LenSq() > geom.Tiny*geom.Tiny {
		return n.Unit()
	}
	return u.Perp()
}

// nearestOnSegments finds the parameters s in [−hu, hu] and t in [−hv, hv] of
// the nearest points of the segments s·u and c + t·v, u and v unit vectors.
//
// The squared distance |c + t·v − s·u|² is least over s, for a given t, at
// s = u·c + t·u·v, and over both, with e = u·v, at s = (u·c − e·v·c)/(1 − e²).
// That s is clamped, its t found and clamped, and if that clamped anything, the
// s of that t found and clamped: as the function is convex this is the least.
// Nearly parallel segments have 1 − e² down to rounding; any s will then do, as
// its t is exact for it, and 1 − e² itself is taken as |u × v|², which has no
// cancellation.
func nearestOnSegments(c, u, v geom.Vec, hu, hv float64) (s, t float64) {
	e, uc, vc := u.Dot(v), u.Dot(c), v.Dot(c)
	if den := u.Cross(v).LenSq(); den > 0 {
		s = clamp((uc-float64(e*vc))/den, hu)
	}
	t = float64(e*s) - vc
	if t < -hv || t > hv {
		t = clamp(t, hv)
	}
	return clamp(uc+float64(t*e), hu), t
}

// clamp brings x into [−h, h].
func clamp(x, h float64) float64 {
	if x > h {
		return h
	}
	if x < -h {
		return -h
	}
	return x
}
