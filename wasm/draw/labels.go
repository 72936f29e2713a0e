package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/wasm/view"
)

// Placer finds places for labels, one after the other: inside a frame, over no
// earlier label and over nothing that was reserved.
type Placer struct {
	Frame view.Rect
	taken []view.Rect
}

// Reserve keeps labels off r.
func (p *Placer) Reserve(r view.Rect) { p.taken = append(p.taken, r) }

// Free says whether r is in the frame and free.
func (p *Placer) Free(r view.Rect) bool {
	if !r.Inside(p.Frame) {
		return false
	}
	for _, t := range p.taken {
		if t.Overlaps(r) {
			return false
		}
	}
	return true
}

// Take reserves r when it is free.
func (p *Placer) Take(r view.Rect) bool {
	ok := p.Free(r)
	if ok {
		p.Reserve(r)
	}
	return ok
}

// Beside places a label of w by h beside a subject: ever further around it,
// the upper sides first. It returns where, or false when there is no room
// within 220 pixels. The caller has reserved the subject itself.
func (p *Placer) Beside(subject view.Rect, w, h float64) (view.Rect, bool) {
	m := subject.Middle()
	for _, far := range [...]float64{14, 30, 50, 75, 105, 140, 180, 220} {
		for _, turn := range [...]float64{-50, -130, -25, -155, 0, 180, 25, 155, 50, 130, -90, 90} {
			sin, cos := math.Sincos(turn * math.Pi / 180)
			c := mgl64.Vec2{
				m[0] + cos*(subject.W/2+far) + sign(cos)*w/2,
				m[1] + sin*(subject.H/2+far) + sign(sin)*h/2,
			}
			r := view.Rect{X: c[0] - w/2, Y: c[1] - h/2, W: w, H: h}
			if p.Take(r) {
				return r, true
			}
		}
	}
	return view.Rect{}, false
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
