package draw

import (
	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// RoomMap is where a part's reference point may be: its free area as convex
// pieces of the view's plane, the border of it, and what bounds it.
type RoomMap struct {
	Free  [][]fitment.Pt
	Hatch [][]fitment.Pt // lines over the free area
	Sides [][]fitment.Pt // straight pieces
	Names []RoomName     // the longest border first
	At    fitment.Pt     // where the reference point is
	Fits  bool           // it is within the free area
}

// RoomName is what bounds a room, to be written at a point of its border.
type RoomName struct {
	At   fitment.Pt
	Text string
}

// roomNamesMost is how many names a border carries at most.
const roomNamesMost = 5

// narrowPX: a main view of less than this is a phone's.
const narrowPX = 360.0

// roomGround tints the free area, under the parts; what is seen of it beside them
// and the hatching over all of it say the same.
func (s *Sheet) roomGround(l *List) {
	if s.Room == nil {
		return
	}
	for _, q := range s.Room.Free {
		l.Fill(Paint{Tone: HandWash}, 0.5, s.screen(q)...)
	}
}

// roomBorder draws the border over the parts, and the reference point as a cross
// that has to stay inside.
func (s *Sheet) roomBorder(l *List) {
	r := s.Room
	if r == nil {
		return
	}
	for _, line := range r.Hatch {
		l.Stroke(Paint{Tone: Hand, Fade: 0.6}, Fine, nil, s.screen(line)...)
	}
	for _, side := range r.Sides {
		l.Stroke(Paint{Tone: Hand}, Narrow, nil, s.screen(side)...)
	}
	tone := Hand
	if !r.Fits {
		tone = Touch
	}
	c := s.Proj.Screen(r.At)
	const arm = 9.0
	for _, d := range [2]mgl64.Vec2{{arm, 0}, {0, arm}} {
		l.Stroke(Paint{Tone: Paper}, Wide+3, nil, c.Sub(d), c.Add(d))
	}
	for _, d := range [2]mgl64.Vec2{{arm, 0}, {0, arm}} {
		l.Stroke(Paint{Tone: tone}, Wide, nil, c.Sub(d), c.Add(d))
	}
}

// roomNames writes what bounds the free area at its border, as far as there is
// place for it.
func (s *Sheet) roomNames(l *List, labels *Placer) {
	if s.Room == nil {
		return
	}
	written, most := 0, roomNamesMost
	if s.Rect.W < narrowPX {
		most = 3 // more would lie on what they are about
	}
	for _, n := range s.Room.Names {
		p := s.Proj.Screen(n.At)
		if written == most || !s.Rect.Contains(p) {
			continue
		}
		w := s.Measure(n.Text, 14, false) + 8
		at := view.Rect{X: p[0] - 2, Y: p[1] - 2, W: 4, H: 4}
		lead := func(r view.Rect) Leader {
			return Leader{From: p, To: mgl64.Vec2{max(r.X, min(r.X+r.W, p[0])), max(r.Y, min(r.Y+r.H, p[1]))}}
		}
		r, ok := labels.Beside(at, w, l.em(20), lead)
		if !ok {
			continue
		}
		k := lead(r)
		l.Stroke(Paint{Tone: Hand}, Fine, nil, k.From, k.To)
		knockout(l, r)
		l.Text(Paint{Tone: Hand}, 14, false, Left, r.X+4, r.Y+l.em(15), n.Text)
		written++
	}
}
