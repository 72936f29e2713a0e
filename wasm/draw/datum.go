package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// DatumText names the frame datum in the drawing.
const DatumText = "frame datum"

// datum draws the frame datum, the plane all heights are measured from, where
// the view shows it as a line: long dashed dotted and faint (ISO 128-2 line
// type 04). It returns the line on the screen; false when it is not in sight.
func (s *Sheet) datum(l *List) (line Leader, ok bool) {
	if s.View == fitment.PlanView {
		return line, false
	}
	r := s.Rect.Inset(8)
	a, b := s.Proj.Screen(fitment.Pt{0, 0}), s.Proj.Screen(fitment.Pt{1000, 0})
	if d := b[0] - a[0]; math.Abs(d) < 1e-9 {
		return line, false
	}
	slope := (b[1] - a[1]) / (b[0] - a[0])
	at := func(x float64) mgl64.Vec2 { return mgl64.Vec2{x, a[1] + slope*(x-a[0])} }
	line = Leader{at(r.X), at(r.X + r.W)}
	if !r.Contains(line.From) && !r.Contains(at(r.Middle()[0])) && !r.Contains(line.To.Sub(mgl64.Vec2{1, 0})) {
		return line, false
	}
	l.Stroke(Paint{Tone: Soft, Fade: 0.45}, Fine, DashDot, line.From, line.To)
	return line, true
}

// datumName writes what the line is where nothing else stands, near either end
// first.
func (s *Sheet) datumName(l *List, labels *Placer, line Leader) {
	w := s.Measure(DatumText, 13, false) + 8
	run := line.To.Sub(line.From)
	for _, f := range [...]float64{0, 1, 0.15, 0.85, 0.3, 0.7, 0.5} {
		for _, up := range [...]float64{-l.em(16) - 3, 3} {
			x := line.From[0] + f*(run[0]-w)
			y := line.From[1] + run[1]*(x+w/2-line.From[0])/run[0]
			box := view.Rect{X: x, Y: y + up, W: w, H: l.em(16)}
			if labels.Take(box) {
				knockout(l, box)
				l.Text(Paint{Tone: Soft}, 13, false, Left, box.X+4, box.Y+l.em(12), DatumText)
				return
			}
		}
	}
}
