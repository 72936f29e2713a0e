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
	polys := makePolys(pieces)
	var out []Path
	var near []*poly
	for i := range polys {
		p := &polys[i]
		if len(p.pts) < 2 {
			continue
		}
		near = near[:0]
		for j := range polys {
			if j != i && p.meets(&polys[j].box) {
				near = append(near, &polys[j])
			}
		}
		if len(near) == 0 || len(p.pts) == 2 {
			out = append(out, Path{p.pts, len(p.pts) > 2})
			continue
		}
		out = append(out, openEdges(p, near)...)
	}
	return out
}

// poly is a convex piece made ready to be asked what lies inside it.
type poly struct {
	pts   []fitment.Pt // anticlockwise
	box   view.Extent
	in    []half // one for each edge; none for less than three corners
	order int    // place among the pieces
}

// half is the half plane inside an edge: nx·x + ny·y + d ≥ 0, n of unit length.
type half struct{ nx, ny, d float64 }

func makePolys(pieces [][]fitment.Pt) []poly {
	polys := make([]poly, len(pieces))
	for i, piece := range pieces {
		p := &polys[i]
		p.pts, p.order = anticlockwise(piece), i
		p.box, _ = view.ExtentOf([][]fitment.Pt{piece})
		if len(p.pts) < 3 {
			continue
		}
		p.in = make([]half, 0, len(p.pts))
		for k, c := range p.pts {
			e := p.pts[(k+1)%len(p.pts)]
			dx, dy := e[0]-c[0], e[1]-c[1]
			if l := math.Hypot(dx, dy); l > 0 {
				p.in = append(p.in, half{-dy / l, dx / l, (dy*c[0] - dx*c[1]) / l})
			}
		}
	}
	return polys
}

// meets says whether the piece's box comes within slack of another box.
func (p *poly) meets(b *view.Extent) bool {
	return p.box.Lo[0] <= b.Hi[0]+slack && b.Lo[0] <= p.box.Hi[0]+slack &&
		p.box.Lo[1] <= b.Hi[1]+slack && b.Lo[1] <= p.box.Hi[1]+slack
}

// clearOf says whether the edge a–b lies clear of the piece's box.
func (p *poly) clearOf(a, b fitment.Pt) bool {
	return a[0] > p.box.Hi[0] && b[0] > p.box.Hi[0] || a[0] < p.box.Lo[0] && b[0] < p.box.Lo[0] ||
		a[1] > p.box.Hi[1] && b[1] > p.box.Hi[1] || a[1] < p.box.Lo[1] && b[1] < p.box.Lo[1]
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

// openEdges is what stays of a piece's edges outside its neighbours, joined
// where one ends as the next begins.
func openEdges(of *poly, near []*poly) []Path {
	var out []Path
	var hidden []span
	p := of.pts
	whole := true
	for k, a := range p {
		b := p[(k+1)%len(p)]
		hidden = hidden[:0]
		for _, q := range near {
			if s, ok := q.hides(a, b, q.order < of.order); ok {
				hidden = append(hidden, s)
			}
			if len(hidden) > 0 && hidden[len(hidden)-1] == (span{0, 1}) {
				break
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

// hides is the part of edge a–b inside the piece. An edge that runs along an
// edge of the piece is hidden when the two pieces lie on opposite sides of it,
// or when this one comes first: of two equal edges one is drawn.
func (p *poly) hides(a, b fitment.Pt, first bool) (span, bool) {
	if len(p.in) < 3 || p.clearOf(a, b) {
		return span{}, false
	}
	s := span{0, 1}
	for i := range p.in {
		h := &p.in[i]
		da := h.nx*a[0] + h.ny*a[1] + h.d // inside is positive
		db := h.nx*b[0] + h.ny*b[1] + h.d
		switch {
		case da < slack && da > -slack && db < slack && db > -slack:
			along := h.ny*(b[0]-a[0]) - h.nx*(b[1]-a[1])
			if along > 0 && !first {
				return span{}, false
			}
		case da <= 0 && db <= 0:
			return span{}, false
		case da < 0:
			s.from = max(s.from, da/(da-db))
		case db < 0:
			s.to = min(s.to, da/(da-db))
		}
	}
	if s.to <= s.from {
		return span{}, false
	}
	return s, (s.to-s.from)*math.Hypot(b[0]-a[0], b[1]-a[1]) > slack
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

// Borders keeps borders for as long as the pieces they are of stay: the engine
// hands out the same silhouette again while a part does not move in the body.
type Borders struct {
	kept    map[borderKey]borderOf
	placed  map[placedKey]*placedOf
	hatched map[int]*hatchedOf // by part
	hidden  map[borderKey]*hiddenKept
}

type borderKey struct {
	view fitment.View
	part int
}

type borderOf struct {
	pieces [][]fitment.Pt
	paths  []Path
}

// Of is the border of a part's pieces in a view.
func (b *Borders) Of(v fitment.View, part int, pieces [][]fitment.Pt) []Path {
	if b == nil {
		return Border(pieces)
	}
	key := borderKey{v, part}
	if k, ok := b.kept[key]; ok && same(k.pieces, pieces) {
		return k.paths
	}
	if b.kept == nil {
		b.kept = map[borderKey]borderOf{}
	}
	paths := Border(pieces)
	b.kept[key] = borderOf{append([][]fitment.Pt(nil), pieces...), paths}
	return paths
}

// same says whether two lists hold the very same pieces. Pieces are never
// written to, so the same memory is the same outline.
func same(a, b [][]fitment.Pt) bool {
	if len(a) != len(b) {
		return false
	}
	for i := range a {
		if len(a[i]) != len(b[i]) || len(a[i]) > 0 && &a[i][0] != &b[i][0] {
			return false
		}
	}
	return true
}
