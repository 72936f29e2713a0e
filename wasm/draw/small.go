package draw

import (
	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// SmallSheet is a small drawing beside the large one: what is seen and what is
// cut, and the marks, without figures.
type SmallSheet struct {
	Rect     view.Rect
	View     fitment.View
	Proj     view.Projection
	Ground   mgl64.Mat3
	Station  float64
	Outs     []fitment.Outline // back to front
	Borders  *Borders
	Layers   *Layers // as in [Sheet]
	Parts    []PartLook
	Selected int
	Marks    []Mark
	Caption  string
	Measure  Measure
}

// SmallHead is how much of a small drawing's height its caption takes, pixels at
// the usual size of letters.
const SmallHead = 18.0

// Compose draws it.
func (s *SmallSheet) Compose(l *List) {
	card(l, s.Rect)
	l.Clip(s.Rect.Inset(1))
	sheet := Sheet{Rect: s.Rect, View: s.View, Proj: s.Proj, Ground: s.Ground, Station: s.Station,
		Outs: s.Outs, Borders: s.Borders, Layers: s.Layers, slot: smallSlot, Parts: s.Parts, Selected: s.Selected}
	if s.View != fitment.PlanView {
		y := sheet.level(0)
		l.Stroke(Paint{Tone: Ink}, Narrow, nil, mgl64.Vec2{s.Rect.X + 8, y}, mgl64.Vec2{s.Rect.X + s.Rect.W - 8, y})
	}
	sheet.backToFront(l, func(i int) {
		o := &s.Outs[i]
		switch {
		case len(o.Cut) > 0:
			sheet.strokes(l, o.Cut, Paint{Tone: handOr(o.Part == s.Selected, Ink)}, Narrow*1.5, nil)
		case o.Part == s.Selected:
			sheet.strokes(l, o.Seen, Paint{Tone: Hand}, Wide*0.8, nil)
		}
	})
	for i := len(s.Marks) - 1; i >= 0; i-- {
		Sign(l, s.Marks[i].Status, s.Marks[i].At(&s.Proj), 5.5)
	}
	box := view.Rect{X: s.Rect.X + 4, Y: s.Rect.Y + 4, W: s.Measure(s.Caption, 14, false) + 12, H: l.em(22)}
	knockout(l, box)
	l.Text(Paint{Tone: Soft}, 14, false, Left, box.X+6, box.Y+l.em(16), s.Caption)
}

func handOr(selected bool, t Tone) Tone {
	if selected {
		return Hand
	}
	return t
}

// Frame rings the one of several drawings that the fingers work in.
func Frame(l *List, r view.Rect) {
	l.Loop(Paint{Tone: Hand}, 2, nil, corners(r.Inset(1))...)
}
