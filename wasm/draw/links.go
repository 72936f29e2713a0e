package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// Link is a bar of a suspension by its centreline, from joint to joint, in the
// view's plane.
type Link struct {
	P, Q  fitment.Pt
	Ends  [2]bool // whether P and Q are joints; a bar that a section cuts ends at the plane without one
	Depth float64 // of its middle; larger is nearer to the eye
}

// NewLink is a bar between two points of the body as a view shows it. A section
// shows what lies ahead of its plane; false when nothing of the bar does.
func NewLink(v fitment.View, station float64, from, to scene.Vec) (Link, bool) {
	k := Link{Ends: [2]bool{true, true}}
	if v == fitment.SectionView {
		if from[0] > station && to[0] > station {
			return k, false
		}
		from, to, k.Ends = clipped(station, from, to)
	}
	k.P, k.Q = view.Drop(v, from), view.Drop(v, to)
	switch v {
	case fitment.SideView:
		k.Depth = -(from[1] + to[1]) / 2
	case fitment.SectionView:
		k.Depth = (from[0] + to[0]) / 2
	default:
		k.Depth = (from[2] + to[2]) / 2
	}
	return k, true
}

// clipped is what of a bar lies ahead of the plane, and which of its ends are
// still joints; one of the two points lies ahead.
func clipped(station float64, from, to scene.Vec) (p, q scene.Vec, ends [2]bool) {
	cut := from
	if from[0] != to[0] {
		t := (station - from[0]) / (to[0] - from[0])
		for i := range cut {
			cut[i] += t * (to[i] - from[i])
		}
	}
	p, q, ends = from, to, [2]bool{true, true}
	if from[0] > station {
		p, ends[0] = cut, false
	}
	if to[0] > station {
		q, ends[1] = cut, false
	}
	return p, q, ends
}

// jointSize is the radius of a bar's joint, pixels.
const jointSize = 3.5

// links draws the bars over the parts, as centrelines: many of them lie inside
// the tubes and rails that are drawn for them. The farther from the eye, the
// fainter.
func (s *Sheet) links(l *List) {
	if len(s.Links) == 0 {
		return
	}
	near, far := s.depths()
	for i := range s.Links {
		k := &s.Links[i]
		paint := Paint{Tone: Ink, Fade: 0.45 * math.Sqrt(mgl64.Clamp((near-k.Depth)/(near-far), 0, 1))}
		p, q := s.Proj.Screen(k.P), s.Proj.Screen(k.Q)
		l.Stroke(paint, Fine, DashDot, p, q)
		for e, at := range [2]mgl64.Vec2{p, q} {
			if k.Ends[e] {
				ring := circle(at, jointSize)
				l.Fill(Paint{Tone: Paper}, 0, ring...)
				l.Loop(paint, Narrow, nil, ring...)
			}
		}
	}
}
