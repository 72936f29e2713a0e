package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// markSize is half the width of a mark, pixels.
const markSize = 9.0

// Sign draws the mark of a status: a filled diamond for touch, an open
// triangle for tight. The shape carries the meaning, colour only helps.
func Sign(l *List, status fitment.Status, at mgl64.Vec2, size float64) {
	x, y := at[0], at[1]
	if status == fitment.Contact {
		d := []mgl64.Vec2{{x, y - size}, {x + size, y}, {x, y + size}, {x - size, y}}
		l.Loop(Paint{Tone: Paper}, 2.5, nil, d...)
		l.Fill(Paint{Tone: Touch}, 0, d...)
		return
	}
	t := []mgl64.Vec2{{x, y - size}, {x + size, y + 0.75*size}, {x - size, y + 0.75*size}}
	l.Fill(Paint{Tone: Paper}, 1.5, t...)
	l.Loop(Paint{Tone: Tight}, 2, nil, t...)
}

// marks draws the marks and, where there is room, what they measure.
func (s *Sheet) marks(l *List, labels *Placer) {
	boxes := make([]view.Rect, len(s.Marks))
	for i := range s.Marks {
		at := s.Marks[i].At(&s.Proj)
		boxes[i] = view.Rect{X: at[0] - markSize, Y: at[1] - markSize, W: 2 * markSize, H: 2 * markSize}
		labels.Reserve(boxes[i])
	}
	for i := len(s.Marks) - 1; i >= 0; i-- {
		m := &s.Marks[i]
		switch {
		case m.Dimension:
			dimensionIn(l, Paint{Tone: StatusTone(m.Status, Hand)}, s.Proj.Screen(m.P), s.Proj.Screen(m.Q))
		case m.Status == "":
			l.Stroke(Paint{Tone: Hand}, Narrow, nil, s.Proj.Screen(m.P), s.Proj.Screen(m.Q))
		case m.Status == fitment.Tight:
			l.Stroke(Paint{Tone: Tight}, Narrow, nil, s.Proj.Screen(m.P), s.Proj.Screen(m.Q))
		}
		size := markSize
		if m.Selected {
			size += 3
			ring := boxes[i].Inset(-7)
			l.Loop(Paint{Tone: Hand}, 2, nil, circle(ring.Middle(), ring.W/2)...)
		}
		if m.Status != "" {
			Sign(l, m.Status, boxes[i].Middle(), size)
		}
	}
	for i := range s.Marks {
		if s.Marks[i].Text != "" && boxes[i].Inside(s.Rect) {
			s.markLabel(l, labels, &s.Marks[i], boxes[i])
		}
	}
}

// markLabel writes what a mark measures on a line of its own, with a leader to
// the mark.
func (s *Sheet) markLabel(l *List, labels *Placer, m *Mark, subject view.Rect) {
	w := s.Measure(m.Text, 15, true) + 8
	from := subject.Middle()
	leader := func(r view.Rect) Leader {
		end := mgl64.Vec2{r.X, r.Y + r.H - 2} // the line under the words
		if r.Y > from[1] {
			end[1] = r.Y + 2 // or over them, when they stand below the mark
		}
		if r.Middle()[0] < from[0] {
			end[0] = r.X + r.W
		}
		return Leader{from, end}
	}
	r, ok := labels.Beside(subject.Inset(-4), w, 26, leader)
	if !ok {
		return
	}
	p, end := Paint{Tone: StatusTone(m.Status, Hand)}, leader(r).To
	knockout(l, r)
	l.Stroke(p, Narrow, nil, mgl64.Vec2{r.X, end[1]}, mgl64.Vec2{r.X + r.W, end[1]})
	d := end.Sub(from)
	if n := d.Len(); n > markSize+2 {
		l.Stroke(p, Narrow, nil, from.Add(d.Mul((markSize+1)/n)), end)
	}
	l.Text(p, 15, true, Left, r.X+4, r.Y+r.H-8, m.Text)
}

// names labels the selected part and the cut parts where there is room: inside
// when the name fits, otherwise close by with a thin leader.
func (s *Sheet) names(l *List, labels *Placer) {
	for pass := range 2 {
		for i := range s.Outs {
			o := &s.Outs[i]
			selected := s.chosen(o.Part)
			if selected == (pass == 0) && (selected || len(o.Cut) > 0) {
				s.name(l, labels, o, selected)
			}
		}
	}
}

// namesFrom (pixels per millimetre) is the zoom from which names stand beside
// their parts; farther out they would cover the drawing.
const namesFrom = 0.55

func (s *Sheet) name(l *List, labels *Placer, o *fitment.Outline, selected bool) {
	pieces := o.Cut
	if len(pieces) == 0 {
		pieces = o.Seen
	}
	box, ok := s.box(pieces)
	h, ok2 := anchor(o, hatchSpacing(s.scale()))
	if !ok || !ok2 {
		return
	}
	at := s.Proj.Screen(h)
	if !s.Rect.Contains(at) {
		return // a name at the edge for what lies beyond it would mislead
	}
	text, tone := s.Parts[o.Part].Name, Soft
	if selected {
		tone = Hand
	}
	w := s.Measure(text, 14, selected) + 8
	r := view.Rect{X: at[0] - w/2, Y: at[1] - 10, W: w, H: 20}
	if w < box.W*0.9 && box.H > 26 && len(o.Bore) == 0 && s.holds(pieces, r) && labels.Take(r) {
		if !selected {
			knockout(l, r)
		} else {
			l.Fill(Paint{Tone: HandWash}, 0, corners(r)...)
		}
		l.Text(Paint{Tone: tone}, 14, selected, Left, r.X+4, r.Y+15, text)
		return
	}
	if !selected && s.scale() < namesFrom {
		return
	}
	subject := view.Rect{X: at[0] - 3, Y: at[1] - 3, W: 6, H: 6}
	if box.W < 160 && box.H < 160 {
		subject = box
	}
	leader := func(r view.Rect) Leader {
		return Leader{at, mgl64.Vec2{mgl64.Clamp(at[0], r.X, r.X+r.W), mgl64.Clamp(at[1], r.Y, r.Y+r.H)}}
	}
	if r, ok = labels.Beside(subject, w, 20, leader); !ok {
		return
	}
	knockout(l, r)
	l.Stroke(Paint{Tone: tone, Fade: 0.2}, Fine, nil, at, leader(r).To)
	l.Text(Paint{Tone: tone}, 14, selected, Left, r.X+4, r.Y+15, text)
}

// anchor is where a leader to an outline ends: the middle of its longest
// hatching line, so that it never points into a bore, or else the middle of its
// largest piece.
func anchor(o *fitment.Outline, spacing float64) (fitment.Pt, bool) {
	longest, at := 0.0, fitment.Pt{}
	for _, h := range Hatch(o.Cut, o.Bore, hatchAngle(o.Part), spacing) {
		if d := math.Hypot(h[1][0]-h[0][0], h[1][1]-h[0][1]); d > longest {
			longest, at = d, lerp(h[0], h[1], 0.5)
		}
	}
	if longest > 0 {
		return at, true
	}
	return view.Handle(o)
}

// holds says whether the corners of a screen rectangle lie inside the pieces.
func (s *Sheet) holds(pieces [][]fitment.Pt, r view.Rect) bool {
	for _, c := range corners(r) {
		w, inside := s.Proj.World(c), false
		for _, p := range pieces {
			inside = inside || len(p) > 2 && view.Distance(w, p) == 0
		}
		if !inside {
			return false
		}
	}
	return true
}

// circle is a polygon close to a circle.
func circle(c mgl64.Vec2, r float64) []mgl64.Vec2 {
	out := make([]mgl64.Vec2, 32)
	for i := range out {
		sin, cos := math.Sincos(float64(i) * math.Pi / 16)
		out[i] = mgl64.Vec2{c[0] + r*cos, c[1] + r*sin}
	}
	return out
}
