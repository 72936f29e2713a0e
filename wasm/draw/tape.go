package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/wasm/view"
)

// TapeLine is a tape as it stands on the screen: a dimension line between two
// points with its length (ISO 129-1), and the lengths along the axes below it
// where there is room.
type TapeLine struct {
	P, Q     mgl64.Vec2
	Text     string
	More     string // along X, Y and Z; empty when the length says it all
	Selected bool
}

// TapePoint is an end of a tape that is being laid.
type TapePoint struct {
	At    mgl64.Vec2
	Words string
}

// tapeSheet is all tapes of one drawing.
type tapeSheet struct {
	tapes   []TapeLine
	held    *TapePoint
	rect    view.Rect
	measure Measure
}

// tapes draws the tapes and the end that is held.
func (s *Sheet) tapes(l *List, labels *Placer) {
	(&tapeSheet{s.Tapes, s.Held, s.Rect, s.Measure}).compose(l, labels)
}

// keepTapesClear keeps words off the tapes, their own words included.
func keepTapesClear(labels *Placer, tapes []TapeLine) {
	for i := range tapes {
		labels.leaders = append(labels.leaders, Leader{tapes[i].P, tapes[i].Q})
		for _, end := range [2]mgl64.Vec2{tapes[i].P, tapes[i].Q} {
			labels.Reserve(around(end, 5))
		}
	}
}

// compose draws the tapes; [keepTapesClear] has gone before.
func (s *tapeSheet) compose(l *List, labels *Placer) {
	for i := range s.tapes {
		s.line(l, &s.tapes[i])
	}
	for pass := range 2 {
		for i := range s.tapes {
			if s.tapes[i].Selected == (pass == 0) {
				s.label(l, labels, &s.tapes[i])
			}
		}
	}
	if s.held != nil {
		s.heldEnd(l, labels)
	}
}

func around(p mgl64.Vec2, r float64) view.Rect {
	return view.Rect{X: p[0] - r, Y: p[1] - r, W: 2 * r, H: 2 * r}
}

// pointed (pixels) is the length below which a tape is seen on its end: a ring
// stands for it.
const pointed = 6.0

func tapeTone(selected bool) Paint {
	if selected {
		return Paint{Tone: Hand}
	}
	return Paint{Tone: Ink}
}

func (s *tapeSheet) line(l *List, t *TapeLine) {
	p := tapeTone(t.Selected)
	if t.Q.Sub(t.P).Len() < pointed {
		ring := circle(t.P, 4.5)
		l.Fill(Paint{Tone: Paper}, 0, ring...)
		l.Loop(p, Narrow, nil, ring...)
		return
	}
	if t.Selected {
		l.Stroke(p, Narrow, nil, t.P, t.Q)
	}
	dimensionIn(l, p, t.P, t.Q)
	n := t.Q.Sub(t.P).Normalize()
	n = mgl64.Vec2{-n[1], n[0]}.Mul(6)
	for _, end := range [2]mgl64.Vec2{t.P, t.Q} { // short strokes square to it, where it is held
		l.Stroke(p, Narrow, nil, end.Add(n), end.Sub(n))
	}
}

// label writes the length beside the line, at its middle if there is room.
func (s *tapeSheet) label(l *List, labels *Placer, t *TapeLine) {
	w, tall := s.measure(t.Text, 15, true)+8, l.em(22)
	more := t.More
	if more != "" {
		w, tall = math.Max(w, s.measure(more, 13, false)+8), l.em(38)
	}
	for _, f := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8} {
		at := t.P.Add(t.Q.Sub(t.P).Mul(f))
		if !s.rect.Inset(8).Contains(at) {
			continue
		}
		for range 2 { // with the lengths along the axes, then without
			r, ok := labels.Beside(around(at, 2), w, tall, func(r view.Rect) Leader {
				return Leader{at, mgl64.Vec2{mgl64.Clamp(at[0], r.X, r.X+r.W), mgl64.Clamp(at[1], r.Y, r.Y+r.H)}}
			})
			if ok {
				s.words(l, t, more, at, r)
				return
			}
			w, tall, more = s.measure(t.Text, 15, true)+8, l.em(22), ""
		}
	}
}

func (s *tapeSheet) words(l *List, t *TapeLine, more string, at mgl64.Vec2, r view.Rect) {
	p := tapeTone(t.Selected)
	knockout(l, r)
	end := mgl64.Vec2{mgl64.Clamp(at[0], r.X, r.X+r.W), mgl64.Clamp(at[1], r.Y, r.Y+r.H)}
	if end.Sub(at).Len() > 18 {
		l.Stroke(Paint{Tone: p.Tone, Fade: 0.2}, Fine, nil, at, end)
	}
	l.Text(p, 15, true, Left, r.X+4, r.Y+l.em(16), t.Text)
	if more != "" {
		l.Text(Paint{Tone: Soft}, 13, false, Left, r.X+4, r.Y+l.em(33), more)
	}
}

// heldEnd shows what the tape is held to first, by name.
func (s *tapeSheet) heldEnd(l *List, labels *Placer) {
	at := s.held.At
	l.Loop(Paint{Tone: Hand}, 2, nil, circle(at, 10)...)
	l.Fill(Paint{Tone: Hand}, 0, circle(at, 2.5)...)
	w := s.measure(s.held.Words, 14, true) + 10
	labels.Reserve(around(at, 11))
	r, ok := labels.Beside(around(at, 11), w, l.em(22), func(r view.Rect) Leader {
		return Leader{at, mgl64.Vec2{mgl64.Clamp(at[0], r.X, r.X+r.W), mgl64.Clamp(at[1], r.Y, r.Y+r.H)}}
	})
	if ok {
		knockout(l, r)
		l.Text(Paint{Tone: Hand}, 14, true, Left, r.X+5, r.Y+l.em(16), s.held.Words)
	}
}
