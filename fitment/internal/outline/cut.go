package outline

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// Cut is where the plane X = stationX cuts s, in (Y, Z); empty when it misses.
// Flat-faced solids are exact, also with the plane on a face. Round ones are
// exact at their points, with chord errors as the package says. Every kind but
// the arc gives at most one polygon.
func Cut(s *solid.Solid, stationX float64) [][]Pt {
	near, far := Extent(s, Section)
	if !(stationX <= near+same && stationX >= far-same) {
		return nil
	}
	var buf [4 * maxAround]Pt
	pts := buf[:0]
	switch s.Kind {
	case solid.Arc:
		return cutArc(s, stationX)
	case solid.Box:
		corners := boxCorners(s)
		for _, e := range boxEdges {
			pts = cutRod(pts, corners[e[0]], corners[e[1]], s.Round, stationX)
		}
		return one(hull(pts))
	case solid.Hull:
		return one(hull(cutPairs(pts, s, stationX)))
	case solid.Point, solid.Segment, solid.Disc, solid.Cylinder:
		b := spindleOf(s)
		return one(clean(b.section(pts, stationX)))
	}
	return nil
}

// boxEdges joins the corners of [boxCorners] that differ in one bit.
var boxEdges = [12][2]uint8{
	{0, 1}, {2, 3}, {4, 5}, {6, 7},
	{0, 2}, {1, 3}, {4, 6}, {5, 7},
	{0, 4}, {1, 5}, {2, 6}, {3, 7},
}

// cutPairs appends the cut through the rod between every two points of a hull.
// Rods along its edges make the section (see [cutRod]); those inside it add
// nothing, and so the edges need not be known.
func cutPairs(dst []Pt, s *solid.Solid, x float64) []Pt {
	var buf [32]geom.Vec
	at := buf[:0]
	for _, p := range s.Points {
		at = append(at, s.Pose.Apply(p))
	}
	if len(at) == 1 {
		return cutRod(dst, at[0], at[0], s.Round, x)
	}
	for i, a := range at {
		for _, b := range at[:i] {
			dst = cutRod(dst, a, b, s.Round, x)
		}
	}
	return dst
}

// cutRod appends the cut through the segment a–b grown by r.
//
// Why edges are enough: a corner of the section of a convex solid is no inner
// point of a flat face, for there the section's border runs straight; of a
// polyhedron grown by r only rounded edges and corners remain, and those are
// rods. So the section is the hull of the sections of the rods.
func cutRod(dst []Pt, a, b geom.Vec, r, x float64) []Pt {
	da, db := a.X-x, b.X-x
	if math.Min(da, db) > r+same || math.Max(da, db) < -r-same {
		return dst
	}
	if r > 0 {
		d := b.Sub(a)
		rod := spindle{centre: a.Lerp(b, 0.5), axis: d.Unit(), half: d.Len() / 2, round: r}
		if rod.half == 0 {
			rod.axis = geom.V(1, 0, 0)
		}
		return rod.section(dst, x)
	}
	onA, onB := math.Abs(da) <= same, math.Abs(db) <= same
	if onA {
		dst = append(dst, Pt{a.Y, a.Z})
	}
	if onB {
		dst = append(dst, Pt{b.Y, b.Z})
	}
	if !onA && !onB {
		p := a.Lerp(b, da/(da-db))
		dst = append(dst, Pt{p.Y, p.Z})
	}
	return dst
}
