package outline

import (
	"cmp"
	"slices"
)

// cross is the z of (b−a) × (c−a): positive when a, b, c turn left.
func cross(a, b, c Pt) float64 {
	return float64((b[0]-a[0])*(c[1]-a[1])) - float64((b[1]-a[1])*(c[0]-a[0]))
}

// distSq is the squared distance of two points.
func distSq(a, b Pt) float64 {
	x, y := b[0]-a[0], b[1]-a[1]
	return float64(x*x) + float64(y*y)
}

// straight says whether b adds nothing between a and c: it lies on or right of
// the chord, or within same of it, and not beyond its ends. A sharp turn is
// the tip of something thin and stays.
func straight(a, b, c Pt) bool {
	t := cross(a, b, c)
	if t > 0 && t*t > same*same*distSq(a, c) {
		return false
	}
	return float64((b[0]-a[0])*(c[0]-b[0]))+float64((b[1]-a[1])*(c[1]-b[1])) >= 0
}

// hull is the convex hull of pts as a new polygon; pts is sorted in place
// (Andrew's monotone chain). Points in line give two points, coincident points
// one.
//
// The chain itself turns without a tolerance: points of an upright edge sort by
// the noise in their first coordinate, and one that looks straight between two
// such neighbours may still be the edge's end. What is nearly straight in the
// finished loop is dropped afterwards.
func hull(pts []Pt) []Pt {
	if len(pts) == 0 {
		return nil
	}
	slices.SortFunc(pts, func(a, b Pt) int {
		if c := cmp.Compare(a[0], b[0]); c != 0 {
			return c
		}
		return cmp.Compare(a[1], b[1])
	})
	var buf [2*maxAround + 2]Pt
	out := buf[:0]
	for _, p := range pts {
		out = turnTo(out, 0, p)
	}
	lower := len(out) - 1
	for i := len(pts) - 2; i >= 0; i-- {
		out = turnTo(out, lower, pts[i])
	}
	return clean(out)
}

// turnTo appends p to the left-turning chain out[from:], first dropping what
// it makes straight or dented.
func turnTo(out []Pt, from int, p Pt) []Pt {
	for len(out) >= from+2 && !(cross(out[len(out)-2], out[len(out)-1], p) > 0) {
		out = out[:len(out)-1]
	}
	return append(out, p)
}

// clean is the polygon of points that already run counter-clockwise round a
// convex shape, as a new slice: no repeated points, no straight corners. What
// is left of a line is its two ends, of a point that point.
func clean(loop []Pt) []Pt {
	var buf [2*maxAround + 2]Pt
	out := buf[:0]
	for _, p := range loop {
		if n := len(out); n > 0 && distSq(out[n-1], p) <= same*same {
			continue
		}
		for len(out) >= 2 && straight(out[len(out)-2], out[len(out)-1], p) {
			out = out[:len(out)-1]
		}
		out = append(out, p)
	}
	for n := len(out); n >= 2; n = len(out) {
		switch {
		case distSq(out[n-1], out[0]) <= same*same,
			n > 2 && straight(out[n-2], out[n-1], out[0]):
			out = out[:n-1]
		case n > 2 && straight(out[n-1], out[0], out[1]):
			out = out[1:]
		default:
			return sound(out)
		}
	}
	return slices.Clone(out)
}

// sound is a copy of the cleaned loop, or the two ends of its longest diagonal
// where it has so little area that dropping points took its left turns away.
func sound(loop []Pt) []Pt {
	n := len(loop)
	for i := range n {
		if n > 2 && !(cross(loop[i], loop[(i+1)%n], loop[(i+2)%n]) > 0) {
			return longest(loop)
		}
	}
	return slices.Clone(loop)
}

// longest is the pair of points furthest apart.
func longest(pts []Pt) []Pt {
	best, pair := -1.0, []Pt{pts[0], pts[1]}
	for i, a := range pts {
		for _, b := range pts[:i] {
			if d := distSq(a, b); d > best {
				best, pair[0], pair[1] = d, b, a
			}
		}
	}
	return pair
}
