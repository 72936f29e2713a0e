package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/wasm/view"
)

// Placer finds places for labels, one after the other: inside a frame, over no
// earlier label or its leader, and over nothing that was reserved.
type Placer struct {
	Frame   view.Rect
	Not     func(view.Rect) bool            // where a label may not lie besides; nil for nowhere
	Cost    func(view.Rect, Leader) float64 // how badly it lies somewhere, 0 for well; nil: well anywhere
	taken   []view.Rect
	labels  []view.Rect // those of taken that are labels
	leaders []Leader
}

// Reserve keeps labels off r.
func (p *Placer) Reserve(r view.Rect) { p.taken = append(p.taken, r) }

// Free says whether r is in the frame and free.
func (p *Placer) Free(r view.Rect) bool {
	if !r.Inside(p.Frame) || p.Not != nil && p.Not(r) {
		return false
	}
	for _, t := range p.taken {
		if t.Overlaps(r) {
			return false
		}
	}
	for _, l := range p.leaders {
		if l.crosses(r) {
			return false
		}
	}
	return true
}

// Take reserves r when it is free.
func (p *Placer) Take(r view.Rect) bool {
	ok := p.Free(r)
	if ok {
		p.put(r)
	}
	return ok
}

// put notes that a label stands at r.
func (p *Placer) put(r view.Rect) {
	p.Reserve(r)
	p.labels = append(p.labels, r)
}

// Leader is a line from a subject to its label, which other labels keep off.
type Leader struct{ From, To mgl64.Vec2 }

// mostCost is how badly a label may lie.
const mostCost = 40.0

// Beside places a label of w by h beside a subject: ever further around it,
// the upper sides first, where it lies well or, without room there, where it
// costs least. leader says where the line to a label at r runs; it crosses no label, and no
// label covers it. Beside returns where the label goes, or false when there is
// no room within 220 pixels. The caller has reserved the subject itself.
func (p *Placer) Beside(subject view.Rect, w, h float64, leader func(r view.Rect) Leader) (view.Rect, bool) {
	m := subject.Middle()
	least, at := mostCost, view.Rect{}
	for _, far := range [...]float64{14, 30, 50, 75, 105, 140, 180, 220} {
		for _, turn := range [...]float64{-50, -130, -25, -155, 0, 180, 25, 155, 50, 130, -90, 90} {
			sin, cos := math.Sincos(turn * math.Pi / 180)
			c := mgl64.Vec2{
				m[0] + cos*(subject.W/2+far) + sign(cos)*w/2,
				m[1] + sin*(subject.H/2+far) + sign(sin)*h/2,
			}
			r := view.Rect{X: c[0] - w/2, Y: c[1] - h/2, W: w, H: h}
			if !p.Free(r) {
				continue
			}
			l := leader(r)
			if !p.open(l, subject) {
				continue
			}
			cost := 0.0
			if p.Cost != nil {
				cost = p.Cost(r, l)
			}
			if cost <= 0 {
				p.putBeside(r, l)
				return r, true
			}
			if cost < least {
				least, at = cost, r
			}
		}
	}
	if least == mostCost {
		return view.Rect{}, false
	}
	p.putBeside(at, leader(at))
	return at, true
}

func (p *Placer) putBeside(r view.Rect, l Leader) {
	p.put(r)
	p.leaders = append(p.leaders, l)
}

// open says whether a leader crosses no label, and nothing else but what lies
// at its subject.
func (p *Placer) open(l Leader, subject view.Rect) bool {
	for _, t := range p.labels {
		if l.crosses(t) {
			return false
		}
	}
	for _, t := range p.taken {
		if !t.Overlaps(subject) && l.crosses(t) {
			return false
		}
	}
	for _, k := range p.leaders {
		if meets(l.From, l.To, k.From, k.To) {
			return false
		}
	}
	return true
}

// crosses says whether the leader runs through r.
func (l Leader) crosses(r view.Rect) bool {
	right, bottom := r.X+r.W, r.Y+r.H
	if l.From[0] < r.X && l.To[0] < r.X || l.From[0] > right && l.To[0] > right ||
		l.From[1] < r.Y && l.To[1] < r.Y || l.From[1] > bottom && l.To[1] > bottom {
		return false // most leaders are elsewhere
	}
	if r.Contains(l.From) || r.Contains(l.To) {
		return true
	}
	c := corners(r)
	for i := range c {
		if meets(l.From, l.To, c[i], c[(i+1)%4]) {
			return true
		}
	}
	return false
}

// meets says whether the segments a–b and c–d cross.
func meets(a, b, c, d mgl64.Vec2) bool {
	side := func(p, q, r mgl64.Vec2) float64 {
		return (q[0]-p[0])*(r[1]-p[1]) - (q[1]-p[1])*(r[0]-p[0])
	}
	s, t := side(a, b, c), side(a, b, d)
	if s >= 0 && t >= 0 || s <= 0 && t <= 0 {
		return false
	}
	return side(c, d, a)*side(c, d, b) < 0
}

func sign(v float64) float64 {
	switch {
	case v > 1e-9:
		return 1
	case v < -1e-9:
		return -1
	}
	return 0
}
