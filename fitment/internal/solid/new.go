package solid

import (
	"fmt"
	"math"

	"scrubline/fitment/internal/geom"
)

// NewBall is a ball of radius r about p.
func NewBall(p geom.Vec, r float64) (Solid, error) {
	if err := check("ball", []geom.Vec{p}, r); err != nil {
		return Solid{}, err
	}
	return Solid{Kind: Point, Round: r, Pose: at(p)}, nil
}

// NewCapsule is a bar of radius r with round ends about a and b.
func NewCapsule(a, b geom.Vec, r float64) (Solid, error) {
	if err := check("capsule", []geom.Vec{a, b}, r); err != nil {
		return Solid{}, err
	}
	half := a.Dist(b) / 2
	if half <= geom.Tiny {
		return NewBall(a.Lerp(b, 0.5), r)
	}
	pose := geom.Pose{R: geom.AlongX(b.Sub(a).Unit()), P: a.Lerp(b, 0.5)}
	return Solid{Kind: Segment, Round: r, H: geom.V(half, 0, 0), Pose: pose}, nil
}

// NewCylinder is a bar of radius r with flat ends at a and b. round rounds its
// rims inside it: the core shrinks by it, so that radius and length stay. A
// round larger than the radius or half the length is cut down to that.
func NewCylinder(a, b geom.Vec, r, round float64) (Solid, error) {
	var s Solid
	if err := s.SetCylinder(a, b, r, round); err != nil {
		return Solid{}, err
	}
	return s, nil
}

// SetCylinder makes s what NewCylinder gives, without copying it; after an error s
// is as it was.
func (s *Solid) SetCylinder(a, b geom.Vec, r, round float64) error {
	if !inReach(a) || !inReach(b) || !fits(r) || !fits(round) {
		return check("cylinder", []geom.Vec{a, b}, r, round)
	}
	half := a.Dist(b) / 2
	round = math.Min(round, math.Min(r, half))
	core, length := r-round, half-round
	mid, axis := a.Lerp(b, 0.5), b.Sub(a).Unit()
	if axis == (geom.Vec{}) {
		axis = geom.V(0, 0, 1)
	}
	s.Round, s.Points, s.Pose.P = round, nil, mid
	side := axis.Perp()
	switch {
	case core <= geom.Tiny && length <= geom.Tiny:
		s.Kind, s.H = Point, geom.Vec{}
		s.Pose.R.SetColumns(geom.Vec{X: 1}, geom.Vec{Y: 1}, geom.Vec{Z: 1})
	case core <= geom.Tiny:
		s.Kind, s.H = Segment, geom.Vec{X: length}
		s.Pose.R.SetColumns(axis, side, axis.Cross(side))
	case length <= geom.Tiny:
		s.Kind, s.H = Disc, geom.Vec{X: core}
		s.Pose.R.SetColumns(side, axis.Cross(side), axis)
	default:
		s.Kind, s.H = Cylinder, geom.Vec{X: core, Z: length}
		s.Pose.R.SetColumns(side, axis.Cross(side), axis)
	}
	return nil
}

// NewBox is a block about center with full lengths size, turned by turn.
// round rounds its edges inside it; a round larger than half the least length
// is cut down to that.
func NewBox(center, size geom.Vec, turn geom.Mat, round float64) (Solid, error) {
	if err := check("box", []geom.Vec{center}, size.X, size.Y, size.Z, round); err != nil {
		return Solid{}, err
	}
	h := size.Scale(0.5)
	round = math.Min(round, math.Min(h.X, math.Min(h.Y, h.Z)))
	h = geom.V(h.X-round, h.Y-round, h.Z-round)
	pose := geom.Pose{R: turn, P: center}
	return flatten(Solid{Kind: Box, Round: round, H: h, Pose: pose}), nil
}

// flatten turns a box without volume in two or three directions into the
// simpler core that it is.
func flatten(s Solid) Solid {
	x, y, z := s.H.X > geom.Tiny, s.H.Y > geom.Tiny, s.H.Z > geom.Tiny
	r := s.Pose.R
	switch {
	case !x && !y && !z:
		s.Kind, s.H = Point, geom.Vec{}
	case x && !y && !z:
		s.Kind, s.H = Segment, geom.V(s.H.X, 0, 0)
	case y && !x && !z:
		s.Kind, s.H = Segment, geom.V(s.H.Y, 0, 0)
		s.Pose.R = geom.Columns(r.AxisY(), r.AxisZ(), r.AxisX())
	case z && !x && !y:
		s.Kind, s.H = Segment, geom.V(s.H.Z, 0, 0)
		s.Pose.R = geom.Columns(r.AxisZ(), r.AxisX(), r.AxisY())
	}
	return s
}

// NewHull is the convex hull of points, grown outward by round. Its local
// origin is the middle of the points' bounds.
func NewHull(points []geom.Vec, round float64) (Solid, error) {
	if len(points) == 0 {
		return Solid{}, fmt.Errorf("hull: no points; expected at least one")
	}
	if err := check("hull", points, round); err != nil {
		return Solid{}, err
	}
	lo, hi := points[0], points[0]
	for _, p := range points {
		lo = geom.V(math.Min(lo.X, p.X), math.Min(lo.Y, p.Y), math.Min(lo.Z, p.Z))
		hi = geom.V(math.Max(hi.X, p.X), math.Max(hi.Y, p.Y), math.Max(hi.Z, p.Z))
	}
	mid := lo.Lerp(hi, 0.5)
	if a, b, ok := line(points); ok {
		return NewCapsule(a, b, round)
	}
	local := make([]geom.Vec, len(points))
	for i, p := range points {
		local[i] = p.Sub(mid)
	}
	return Solid{Kind: Hull, Round: round, H: hi.Sub(lo).Scale(0.5), Points: local, Pose: at(mid)}, nil
}

// line is the two ends of points that all lie on one line.
func line(points []geom.Vec) (a, b geom.Vec, ok bool) {
	a = farthest(points, points[0])
	b = farthest(points, a)
	u := b.Sub(a).Unit()
	for _, p := range points {
		if p.Sub(a).Cross(u).Len() > geom.Tiny {
			return a, b, false
		}
	}
	return a, b, true
}

func farthest(points []geom.Vec, from geom.Vec) geom.Vec {
	best := from
	for _, p := range points {
		if p.Sub(from).LenSq() > best.Sub(from).LenSq() {
			best = p
		}
	}
	return best
}

// NewArc is a tube of radius tube about a circular arc: from start, about the
// axis through center along normal, by sweep radians (right-handed, at most a
// full turn either way). The part of start along normal is taken off, so that
// the circle lies square to normal through center's height. Its ends are balls:
// at a free flat end that is too much by up to the tube radius, never too little.
func NewArc(center, normal, start geom.Vec, sweep, tube float64) (Solid, error) {
	if err := check("arc", []geom.Vec{center, normal, start}, math.Abs(sweep), tube); err != nil {
		return Solid{}, err
	}
	n := normal.Unit()
	if n == (geom.Vec{}) {
		return Solid{}, fmt.Errorf("arc: the normal has no length; expected a direction")
	}
	if math.Abs(sweep) > 2*math.Pi {
		return Solid{}, fmt.Errorf("arc: sweep is %g rad; expected at most a full turn, %g", sweep, 2*math.Pi)
	}
	out := start.Sub(center)
	out = out.AddScaled(n, -out.Dot(n))
	r := out.Len()
	if r*math.Abs(sweep) <= geom.Tiny {
		return NewBall(center.Add(out), tube)
	}
	if sweep < 0 {
		n = n.Neg()
	}
	half := math.Abs(sweep) / 2
	x, y := out.Unit(), n.Cross(out.Unit())
	sin, cos := geom.Sincos(half)
	mid := x.Scale(cos).AddScaled(y, sin)
	pose := geom.Pose{R: geom.Columns(mid, n.Cross(mid), n), P: center}
	return Solid{Kind: Arc, Round: tube, H: geom.V(r, half, 0), Pose: pose}, nil
}

// inReach and fits say that a point and a length are within reach.
func inReach(p geom.Vec) bool { return p.Finite() && p.Len() <= geom.Reach }

func fits(l float64) bool { return l >= 0 && l <= geom.Reach }

func at(p geom.Vec) geom.Pose { return geom.Pose{R: geom.Identity, P: p} }

// check refuses points and lengths that are no numbers, out of reach or
// negative.
func check(what string, points []geom.Vec, lengths ...float64) error {
	for _, p := range points {
		if !inReach(p) {
			return fmt.Errorf("%s: point (%g, %g, %g) is out of reach; expected within %g mm of the origin",
				what, p.X, p.Y, p.Z, float64(geom.Reach))
		}
	}
	for _, l := range lengths {
		if !fits(l) {
			return fmt.Errorf("%s: length %g is out of range; expected 0 to %g mm", what, l, float64(geom.Reach))
		}
	}
	return nil
}
