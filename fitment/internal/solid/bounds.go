package solid

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// Bounds is the smallest box along the world's axes that holds the solid.
func (s *Solid) Bounds() (lo, hi geom.Vec) {
	r := &s.Pose.R
	xl, xh := s.extent(r.X)
	yl, yh := s.extent(r.Y)
	zl, zh := s.extent(r.Z)
	p, k := s.Pose.P, s.Round
	return geom.V(p.X+xl-k, p.Y+yl-k, p.Z+zl-k), geom.V(p.X+xh+k, p.Y+yh+k, p.Z+zh+k)
}

// extent is the range of d·p over the core, d a local unit direction. A row of
// the pose's rotation is a world axis in local axes.
func (s *Solid) extent(d geom.Vec) (lo, hi float64) {
	switch s.Kind {
	case Hull, Arc:
		return d.Dot(s.LocalSupport(d.Neg())), d.Dot(s.LocalSupport(d))
	}
	hi = d.Dot(s.LocalSupport(d))
	return -hi, hi
}

// BoundingBall holds the solid: its centre in the world, and its radius.
func (s *Solid) BoundingBall() (center geom.Vec, radius float64) {
	switch s.Kind {
	case Segment, Disc:
		return s.Pose.P, s.H.X + s.Round
	case Cylinder, Box:
		return s.Pose.P, s.H.Len() + s.Round
	case Hull:
		return s.Pose.P, hullRadius(s.Points) + s.Round
	case Arc:
		if s.H.Y >= math.Pi/2 {
			return s.Pose.P, s.H.X + s.Round
		}
		// About the middle of the chord: half the chord, which is longer than
		// the rise of the arc over it while the arc is no more than half a circle.
		sin, cos := geom.Sincos(s.H.Y)
		return s.Pose.Apply(geom.V(s.H.X*cos, 0, 0)), float64(s.H.X*sin) + s.Round
	}
	return s.Pose.P, s.Round
}

func hullRadius(points []geom.Vec) float64 {
	far := 0.0
	for i := range points {
		far = math.Max(far, points[i].LenSq())
	}
	return math.Sqrt(far)
}

// MaxDistToAxis is no less than the distance of any point of the solid from
// the line through p along the unit vector dir. The distance to a line is
// convex, so that corners decide: it is exact for points, segments, boxes and
// hulls; for discs, cylinders and arcs it may be too large.
func (s *Solid) MaxDistToAxis(p, dir geom.Vec) float64 {
	// In local axes.
	p, dir = s.Pose.Inverse(p), s.Pose.R.ApplyT(dir)
	off := func(q geom.Vec) float64 { return q.Sub(p).Cross(dir).Len() }
	far := 0.0
	switch s.Kind {
	case Point:
		far = off(geom.Vec{})
	case Segment:
		far = math.Max(off(geom.V(s.H.X, 0, 0)), off(geom.V(-s.H.X, 0, 0)))
	case Disc, Cylinder:
		far = s.H.X + math.Max(off(geom.V(0, 0, s.H.Z)), off(geom.V(0, 0, -s.H.Z)))
	case Box:
		for i := range 8 {
			far = math.Max(far, off(s.corner(i)))
		}
	case Hull:
		for i := range s.Points {
			far = math.Max(far, off(s.Points[i]))
		}
	case Arc:
		c, r := s.BoundingBall()
		far = off(s.Pose.Inverse(c)) + r - s.Round
	}
	return far + s.Round
}

// corner is the box's corner i in local axes: bits 0, 1 and 2 of i choose the
// sides along X, Y and Z.
func (s *Solid) corner(i int) geom.Vec {
	side := func(h float64, bit int) float64 {
		if i&bit != 0 {
			return h
		}
		return -h
	}
	return geom.V(side(s.H.X, 1), side(s.H.Y, 2), side(s.H.Z, 4))
}
