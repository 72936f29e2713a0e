package draw

import (
	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// slot is one of the drawings that stand side by side.
type slot uint8

const (
	mainSlot slot = iota
	stripSlot
	smallSlot
)

type placedKey struct {
	slot slot
	borderKey
}

// placedOf is a silhouette where a drawing shows it, in pixels.
type placedOf struct {
	proj   view.Projection
	pieces [][]fitment.Pt
	fills  [][]mgl64.Vec2
	lines  []placedPath
	box    view.Rect
	some   bool // there is anything of it
}

type placedPath struct {
	pts    []mgl64.Vec2
	closed bool
}

// silhouette is a part's pieces and their border in pixels, as they were placed
// before when neither they nor the drawing has moved: of a drag, one part moves.
func (s *Sheet) silhouette(o *fitment.Outline) *placedOf {
	b, key := s.Borders, placedKey{s.slot, borderKey{s.View, o.Part}}
	if b != nil {
		if k, ok := b.placed[key]; ok && k.proj == s.Proj && same(k.pieces, o.Seen) {
			return k
		}
	}
	k := &placedOf{proj: s.Proj, pieces: append([][]fitment.Pt(nil), o.Seen...)}
	for _, piece := range o.Seen {
		k.fills = append(k.fills, thinned(s.screen(piece), true))
	}
	for _, path := range b.Of(s.View, o.Part, o.Seen) {
		k.lines = append(k.lines, placedPath{thinned(s.screen(path.Pts), path.Closed), path.Closed})
	}
	k.box, k.some = s.box(o.Seen)
	if b != nil {
		if b.placed == nil {
			b.placed = map[placedKey]*placedOf{}
		}
		b.placed[key] = k
	}
	return k
}

// unseenPX is how far a silhouette may be drawn from where it is, pixels: less
// than anybody sees, and a wheel in the small strip needs few of its corners.
const unseenPX = 0.15

// thinned is a polyline, or a closed one, with fewer corners, none of it farther
// than [unseenPX] from where it was. Its ends stay; so do three corners.
func thinned(pts []mgl64.Vec2, closed bool) []mgl64.Vec2 {
	if len(pts) < 5 {
		return pts
	}
	last := len(pts) - 1
	out := make([]mgl64.Vec2, 0, len(pts))
	out = append(out, pts[0])
	for at := 0; at < last; {
		next := at + 1
		for next < last && straight(pts[at:next+2]) {
			next++
		}
		out = append(out, pts[next])
		at = next
	}
	if closed && len(out) < 3 {
		return pts
	}
	return out
}

// straight says whether all points between the first and the last lie on the
// line between those two, for the eye.
func straight(pts []mgl64.Vec2) bool {
	a, d := pts[0], pts[len(pts)-1].Sub(pts[0])
	l := d.LenSqr()
	for _, p := range pts[1 : len(pts)-1] {
		e := p.Sub(a)
		along := e.Dot(d)
		if along < 0 || along > l {
			if min(e.LenSqr(), e.Sub(d).LenSqr()) > unseenPX*unseenPX {
				return false
			}
			continue
		}
		if off := e[0]*d[1] - e[1]*d[0]; off*off > unseenPX*unseenPX*l {
			return false
		}
	}
	return true
}
