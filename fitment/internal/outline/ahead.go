package outline

import (
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// sections is how many sections of a convex solid that the plane cuts are taken
// ahead of it, besides those through its corners. They lie closer the farther
// ahead: where a rounded end closes, its width grows with the root of the depth,
// which sections at the squares of equal steps follow in equal steps.
const sections = 16

// Ahead is the silhouette, seen along the vehicle, of what lies of s ahead of
// the plane X = stationX: what a viewer at the plane sees of it. A solid wholly
// ahead is seen whole, one wholly behind the viewer not at all. Of a convex
// solid that the plane cuts it is the hull of its sections ahead: exact at each,
// and exact as a whole for flat-faced solids without rounding, whose corners
// are among the sections. An arc that the plane cuts is left out: its section
// shows it.
func Ahead(s *solid.Solid, stationX float64) [][]Pt {
	near, far := Extent(s, Section)
	switch {
	case near <= stationX+same:
		return Seen(s, Section)
	case far >= stationX-same || s.Kind == solid.Arc:
		return nil
	}
	var pts []Pt
	at := func(x float64) {
		for _, piece := range Cut(s, x) {
			pts = append(pts, piece...)
		}
	}
	for i := 0; i <= sections; i++ {
		at(far + (stationX-far)*float64(i*i)/(sections*sections))
	}
	for _, x := range cornersX(s) {
		if x > far && x < stationX {
			at(x)
		}
	}
	return one(hull(rims(pts, s, stationX)))
}

// rims appends the points ahead of the plane of the rims of a disc or cylinder
// without rounding: its only points, besides those of the section, that are not
// between two others.
func rims(dst []Pt, s *solid.Solid, stationX float64) []Pt {
	if s.Round > 0 || s.Kind != solid.Disc && s.Kind != solid.Cylinder {
		return dst
	}
	for _, z := range [2]float64{-s.H.Z, s.H.Z} {
		for _, d := range ringFor(s.H.X, chord).dir {
			if p := s.Pose.Apply(geom.V(s.H.X*d[0], s.H.X*d[1], z)); p.X <= stationX {
				dst = append(dst, Section.flat(p))
			}
		}
	}
	return dst
}

// cornersX are the stations of the corners of a flat-faced core.
func cornersX(s *solid.Solid) []float64 {
	var out []float64
	switch s.Kind {
	case solid.Box:
		for _, c := range boxCorners(s) {
			out = append(out, c.X)
		}
	case solid.Hull:
		for _, p := range s.Points {
			out = append(out, s.Pose.Apply(p).X)
		}
	}
	return out
}
