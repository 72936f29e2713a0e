package outline

import "scrubline/fitment/internal/solid"

// sections is how many sections of a convex solid that the plane cuts are taken
// ahead of it, besides those through its corners.
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
		at(far + (stationX-far)*float64(i)/sections)
	}
	for _, x := range cornersX(s) {
		if x > far && x < stationX {
			at(x)
		}
	}
	return one(hull(pts))
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
