package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// round is a segment, disc or cylinder seen as a body of revolution.
type round struct {
	axis    geom.Vec
	r, half float64
}

func asRound(s *solid.Solid) round {
	if s.Kind == solid.Segment {
		return round{axis: s.Pose.R.AxisX(), half: s.H.X}
	}
	return round{axis: s.Pose.R.AxisZ(), r: s.H.X, half: s.H.Z}
}

// roundRound is the gap of two round cores with parallel axes: discs,
// cylinders and segments as they stand in a drum, a hub or a sleeve. The
// difference of the two is a cylinder of radius rA + rB and half length hA + hB,
// so that the gap is the place of one centre from it, as in placeRound. Where
// the two share one axis every direction square to it is as deep as any other,
// which a polytope could prove only with thousands of facets.
//
// Turning the smaller by an angle k into line moves none of its points by more
// than k times its own reach; below half of geom.GapStop that is allowed for.
// It is false when it is more.
func roundRound(sa, sb *solid.Solid, c *core) bool {
	a, b := asRound(sa), asRound(sb)
	if a.r+a.half < b.r+b.half { // along the larger one's axis: the smaller leans
		if !roundRound(sb, sa, c) {
			return false
		}
		c.swap()
		return true
	}
	reach := b.r + b.half
	lean := a.axis.Cross(b.axis).Len() * reach
	if lean > geom.GapStop/2 {
		return false
	}
	off := sb.Pose.P.Sub(sa.Pose.P)
	z := off.Dot(a.axis)
	e := off.AddScaled(a.axis, -z)
	rho := e.Len()
	if rho > geom.Tiny {
		e = e.Scale(1 / rho)
	} else {
		e, rho = a.axis.Perp(), 0
	}
	alongAxis(a, b, z, rho, e, c)
	c.a, c.b = c.a.Add(sa.Pose.P), c.b.Add(sa.Pose.P)
	c.lower -= lean
	return true
}

// alongAxis measures in the half plane of the axis of a and the unit vector e
// towards the axis of b, with the centre of a as origin and that of b at
// (z along the axis, rho along e).
func alongAxis(a, b round, z, rho float64, e geom.Vec, c *core) {
	side, end := rho-(a.r+b.r), math.Abs(z)-(a.half+b.half)
	up := math.Copysign(1, z)
	point := func(along, out float64) geom.Vec { return a.axis.Scale(along).AddScaled(e, out) }
	switch {
	case side > 0 && end > 0:
		c.apart(point(up*a.half, a.r), point(z-float64(up*b.half), rho-b.r), e)
	case side > end:
		mid := middle(-a.half, a.half, z-b.half, z+b.half)
		c.exact(side, point(mid, a.r), point(mid, rho-b.r), e)
	default:
		mid := middle(-a.r, a.r, rho-b.r, rho+b.r)
		c.exact(end, point(up*a.half, mid), point(z-float64(up*b.half), mid), a.axis.Scale(up))
	}
}

// middle is the middle of what two ranges share.
func middle(lo1, hi1, lo2, hi2 float64) float64 {
	return (math.Max(lo1, lo2) + math.Min(hi1, hi2)) / 2
}
