// Package outline turns a solid into convex polygons to draw: what is seen of
// it in a view, and what the section plane cuts.
//
// Every polygon is counter-clockwise in its view's plane, convex, without
// repeated points and without points on a straight edge. A shape that is only
// a line there (a disc seen on edge) has two points; one that is only a point
// is left out.
//
// # How exact
//
// Straight edges and corners are exact. A curve is sampled so that the polygon's
// border and the true one are at most 0.25 mm apart, with at least 16 points
// around. [Seen], and both answers for an arc, take at most 96 points around;
// where these do not reach 0.25 mm (circles of more than about 230 mm radius),
// the error is at most 0.13 mm and 0.00054 of the radius; for an arc, of the
// bend's outermost radius and the tube's together.
package outline

import (
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// Pt is a point of a view's plane, millimetres.
type Pt = [2]float64

// View is a direction of looking.
type View int

const (
	Section View = iota // looks forward: (Y, Z)
	Side                // looks at the left side: (X, Z)
	Plan                // looks down: (X, Y)
)

const (
	// chord (mm) is how far a sampled curve may lie from the true one: a fifth
	// of what a tape reads, and less than a thin line drawn at 1:1.
	chord = 250 * geom.GapTol

	// same (mm) is the distance below which two points are one point, a corner
	// lies on a straight edge, and a point lies on the section plane. It is far
	// above the rounding noise of coordinates of a few metres (1e-12 mm).
	same = 1000 * geom.Tiny
)

// flat drops the coordinate along the direction of looking.
func (v View) flat(p geom.Vec) Pt {
	switch v {
	case Side:
		return Pt{p.X, p.Z}
	case Plan:
		return Pt{p.X, p.Y}
	}
	return Pt{p.Y, p.Z}
}

// Seen is the silhouette of s: convex polygons whose union it is. Every kind
// but the arc gives one polygon: the shadow of the core grown by the rounding
// radius. An arc gives one for each piece of its bend.
func Seen(s *solid.Solid, v View) [][]Pt {
	if s.Kind == solid.Arc {
		return seenArc(s, v)
	}
	allowed := chord
	if s.Round > 0 {
		allowed /= 2 // one half for the core, one for the rounding
	}
	var buf [2 * maxAround]Pt
	poly := hull(shadow(buf[:0], s, v, allowed))
	if s.Round > 0 {
		poly = grow(poly, s.Round, allowed)
	}
	return one(poly)
}

// one wraps a polygon, leaving out what is no more than a point.
func one(poly []Pt) [][]Pt {
	if len(poly) < 2 {
		return nil
	}
	return [][]Pt{poly}
}

// shadow appends points to dst whose hull is the projection of the core of s,
// curves within allowed (mm).
func shadow(dst []Pt, s *solid.Solid, v View, allowed float64) []Pt {
	switch s.Kind {
	case solid.Point:
		return append(dst, v.flat(s.Pose.P))
	case solid.Segment:
		a, b := geom.V(s.H.X, 0, 0), geom.V(-s.H.X, 0, 0)
		return append(dst, v.flat(s.Pose.Apply(a)), v.flat(s.Pose.Apply(b)))
	case solid.Disc:
		return discShadow(dst, s, v, 0, allowed)
	case solid.Cylinder:
		dst = discShadow(dst, s, v, -s.H.Z, allowed)
		return discShadow(dst, s, v, s.H.Z, allowed)
	case solid.Box:
		corners := boxCorners(s)
		for _, c := range corners {
			dst = append(dst, v.flat(c))
		}
	case solid.Hull:
		for _, p := range s.Points {
			dst = append(dst, v.flat(s.Pose.Apply(p)))
		}
	}
	return dst
}

// discShadow appends the projection of the disc of radius H.X at local height
// z. Its points are equally spaced on the circle; projecting brings no two
// points further apart, so the chord error of the circle bounds the ellipse's.
func discShadow(dst []Pt, s *solid.Solid, v View, z, allowed float64) []Pt {
	c := v.flat(s.Pose.Apply(geom.V(0, 0, z)))
	a := v.flat(s.Pose.R.Apply(geom.V(s.H.X, 0, 0)))
	b := v.flat(s.Pose.R.Apply(geom.V(0, s.H.X, 0)))
	return ellipse(dst, c, a, b, ringFor(s.H.X, allowed))
}

// ellipse appends c + cos φ·a + sin φ·b for every direction of the ring.
func ellipse(dst []Pt, c, a, b Pt, r *ring) []Pt {
	for _, d := range r.dir {
		dst = append(dst, Pt{
			c[0] + float64(d[0]*a[0]) + float64(d[1]*b[0]),
			c[1] + float64(d[0]*a[1]) + float64(d[1]*b[1]),
		})
	}
	return dst
}

// boxCorners lists the corners of a box core in body axes; bit 0 of the index
// is the side along local X, bit 1 along Y, bit 2 along Z.
func boxCorners(s *solid.Solid) [8]geom.Vec {
	var out [8]geom.Vec
	for i := range out {
		h := s.H
		if i&1 == 0 {
			h.X = -h.X
		}
		if i&2 == 0 {
			h.Y = -h.Y
		}
		if i&4 == 0 {
			h.Z = -h.Z
		}
		out[i] = s.Pose.Apply(h)
	}
	return out
}
