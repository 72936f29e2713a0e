package draw

import (
	"math"
	"sort"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// Path is a polyline in a view's plane.
type Path struct {
	Pts    []fitment.Pt
	Closed bool
}

// slack (mm) is how close two edges of neighbouring pieces must lie to count
// as one: far below what a screen shows, far above rounding.
const slack = 0.02

// Border is the outer border of the union of convex pieces: the edges of each
// piece less what lies inside another. A piece that meets no other comes back
// whole, as a closed path.
func Border(pieces [][]fitment.Pt) []Path {
	boxes := make([]view.Extent, len(pieces))
	turned := make([][]fitment.Pt, len(pieces))
	for i, p := range pieces {
		boxes[i], _ = view.ExtentOf([][]fitment.Pt{p})
		turned[i] = anticlockwise(p)
	}
	var out []Path
	for i, p := range turned {
		if len(p) < 2 {
			continue
		}
		near := neighbours(boxes, i)
		if len(near) == 0 || len(p) == 2 {
			out = append(out, Path{p, len(p) > 2})
			continue
		}
		out = append(out, openEdges(turned, i, near)...)
	}
	return out
}

func neighbours(boxes []view.Extent, i int) []int {
	var near []int
	a := boxes[i]
	for j, b := range boxes {
		if j != i && a.Lo[0] <= b.Hi[0]+slack && b.Lo[0] <= a.Hi[0]+slack &&
			a.Lo[1] <= b.Hi[1]+slack && b.Lo[1] <= a.Hi[1]+slack {
			near = append(near, j)
		}
	}
	return near
}

func anticlockwise(p []fitment.Pt) []fitment.Pt {
	if len(p) < 3 || view.Area(p) >= 0 {
		return p
	}
	q := make([]fitment.Pt, len(p))
	for i := range p {
		q[len(p)-1-i] = p[i]
	}
	return q
}

// span is a part of an edge, by fractions of its length.
type span struct{ from, to float64 }

// openEdges is what stays of piece i's edges outside its neighbours, joined
// where one ends as the next begins.
func openEdges(pieces [][]fitment.Pt, i int, near []int) []Path {
	var out []Path
	p := pieces[i]
	whole := true
	for k, a := range p {
		b := p[(k+1)%len(p)]
		var hidden []span
		for _, j := range near {
			if s, ok := hiddenBy(a, b, pieces[j], j < i); ok {
				hidden = append(hidden, s)
			}
		}
		whole = whole && len(hidden) == 0
		for _, s := range complement(hidden) {
			from, to := lerp(a, b, s.from), lerp(a, b, s.to)
			last := len(out) - 1
			if s.from == 0 && last >= 0 && out[last].Pts[len(out[last].Pts)-1] == from {
				out[last].Pts = append(out[last].Pts, to)
				continue
			}
			out = append(out, Path{Pts: []fitment.Pt{from, to}})
		}
	}
	if whole {
		return []Path{{p, true}}
	}
	if n := len(out); n > 1 {
		first, last := &out[0], &out[n-1]
		if last.Pts[len(last.Pts)-1] == first.Pts[0] {
			last.Pts = append(last.Pts, first.Pts[1:]...)
			out = out[1:]
		}
	}
	return out
}

// hiddenBy is the part of edge a–b inside the anticlockwise convex polygon q.
// An edge that runs along an edge of q is hidden when the two pieces lie on
// opposite sides of it, or when q comes first: of two equal edges one is drawn.
func hiddenBy(a, b fitment.Pt, q []fitment.Pt, first bool) (span, bool) {
	if len(q) < 3 {
		return span{}, false
	}
	s := span{0, 1}
	length := math.Hypot(b[0]-a[0], b[1]-a[1])
	if length == 0 {
		return span{}, false
	}
	for k, c := range q {
		d := q[(k+1)%len(q)]
		ex, ey := d[0]-c[0], d[1]-c[1]
		l := math.Hypot(ex, ey)
		if l == 0 {
			continue
		}
		da := (ex*(a[1]-c[1]) - ey*(a[0]-c[0])) / l // inside is positive
		db := (ex*(b[1]-c[1]) - ey*(b[0]-c[0])) / l
		if math.Abs(da) < slack && math.Abs(db) < slack {
			same := ex*(b[0]-a[0])+ey*(b[1]-a[1]) > 0
			if same && !first {
				return span{}, false
			}
			continue
		}
		switch {
		case da <= 0 && db <= 0:
			return span{}, false
		case da < 0:
			s.from = math.Max(s.from, da/(da-db))
		case db < 0:
			s.to = math.Min(s.to, da/(da-db))
		}
	}
	return s, (s.to-s.from)*length > slack
}

// complement is what of 0…1 no span covers.
func complement(hidden []span) []span {
	sort.Slice(hidden, func(i, j int) bool { return hidden[i].from < hidden[j].from })
	var open []span
	at := 0.0
	for _, h := range hidden {
		if h.from > at {
			open = append(open, span{at, h.from})
		}
		at = math.Max(at, h.to)
	}
	if at < 1 {
		open = append(open, span{at, 1})
	}
	return open
}

func lerp(a, b fitment.Pt, t float64) fitment.Pt {
	switch t {
	case 0:
		return a
	case 1:
		return b
	}
	return fitment.Pt{a[0] + (b[0]-a[0])*t, a[1] + (b[1]-a[1])*t}
}
