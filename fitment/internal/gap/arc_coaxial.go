package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// An arc about the axis of a round core, or of another arc, is as near all along:
// nested bends, a ring in a drum. The searches would have to follow it all the
// way in steps of √(r·geom.GapTol); here one place tells.

// shift is how far the points of the first of two circles about nearly one axis
// are from their places if it were one axis: the angle between the axes times
// the reach of the smaller, and the distance between the axes.
func shift(u, v, off geom.Vec, reachA, reachB float64) float64 {
	across := off.AddScaled(u, -off.Dot(u))
	return float64(u.Cross(v).Len()*math.Min(reachA, reachB)) + across.Len()
}

// arcAboutRound is the gap of an arc and a segment, disc or cylinder on one axis.
// It is false when they are not, within what geom.GapStop allows.
func arcAboutRound(arc, s *solid.Solid, c *core) bool {
	if s.Kind > solid.Cylinder {
		return false
	}
	r := asRound(s)
	moved := shift(arc.Pose.R.AxisZ(), r.axis, s.Pose.P.Sub(arc.Pose.P), arc.H.X, r.r+r.half)
	if moved > geom.GapStop/4 {
		return false
	}
	p := arc.Pose.Apply(geom.Vec{X: arc.H.X})
	var q placed
	place(s, s.Pose.Inverse(p), &q)
	// Both this point and the nearest may have moved.
	c.placed(p, s, &q)
	c.lower -= 2 * moved
	return true
}

// coaxialArcs is the gap of two arcs on one axis that share a direction from it.
// It is false when they are not or do not, within what geom.GapStop allows.
func coaxialArcs(a, b *solid.Solid, c *core) bool {
	u := a.Pose.R.AxisZ()
	off := b.Pose.P.Sub(a.Pose.P)
	moved := shift(u, b.Pose.R.AxisZ(), off, a.H.X, b.H.X)
	if moved > geom.GapStop/4 {
		return false
	}
	d, ok := shared(a, b)
	if !ok {
		return false
	}
	p := a.Pose.P.AddScaled(d, a.H.X)
	var q placed
	placeArc(b, b.Pose.Inverse(p), &q)
	z, r := off.Dot(u), a.H.X-b.H.X
	c.placed(p, b, &q)
	c.lower = math.Sqrt(float64(z*z)+float64(r*r)) - moved
	return true
}

// shared is a direction from the common axis of two arcs that meets both. Where
// the arcs overlap at all, the middle or an end of one is on the other.
func shared(a, b *solid.Solid) (d geom.Vec, ok bool) {
	for _, s := range [2]*solid.Solid{a, b} {
		sin, cos := geom.Sincos(s.H.Y)
		x, y := s.Pose.R.AxisX(), s.Pose.R.AxisY()
		for _, d := range [3]geom.Vec{x, x.Scale(cos).AddScaled(y, sin), x.Scale(cos).AddScaled(y, -sin)} {
			if meets(a, d) && meets(b, d) {
				return d, true
			}
		}
	}
	return geom.Vec{}, false
}

// meets says that direction d from the axis meets the arc.
func meets(s *solid.Solid, d geom.Vec) bool {
	_, cos := geom.Sincos(s.H.Y)
	return d.Dot(s.Pose.R.AxisX()) >= cos-geom.Tiny
}
