package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// StaffSheet is all that the height staff shows.
type StaffSheet struct {
	Staff   view.Staff
	Units   scene.Units
	Named   []Rung // named heights
	Rungs   []Rung // findings at the height where they are worst
	Apart   bool
	At      float64 // the saddle, staff figure; the rear one when apart
	Front   float64 // the front saddle when apart
	Text    string  // figure on the saddle
	TextF   string
	Measure Measure
	Format  func(mm float64) string
}

// Rung is a named place on the staff.
type Rung struct {
	MM     float64
	Number string         // its figure, which is never cut off
	Words  []string       // what it is, the longest first; the first that fits is written
	First  bool           // the words stand before the number
	Status fitment.Status // empty for a named height
	Key    string         // the finding, or the worst of several
	Struck bool           // supposed mended: drawn struck through
}

// staffRim is how far from the card's border its words and marks keep, pixels.
const staffRim = 4.0

// Compose draws the staff.
func (s *StaffSheet) Compose(l *List) {
	st := &s.Staff
	card(l, st.Rect)
	l.Clip(st.Rect.Inset(1))
	l.Stroke(Paint{Tone: Ink}, 2, nil, mgl64.Vec2{st.LineX, st.Top}, mgl64.Vec2{st.LineX, st.Bottom})
	labels := &Placer{Frame: st.Rect.Inset(staffRim)}
	for _, r := range s.saddles() {
		labels.Reserve(r)
	}
	s.graduate(l)
	for _, n := range s.order() {
		s.rung(l, labels, n)
	}
	s.figures(l, labels)
	s.handles(l)
}

// order are the rungs in the order in which their words take their places: the
// named heights first, those whose mark lies under a saddle last.
func (s *StaffSheet) order() []Rung {
	var seen, covered []Rung
	for _, list := range [...][]Rung{s.Named, s.Rungs} {
		for _, n := range list {
			if s.covered(n) {
				covered = append(covered, n)
			} else {
				seen = append(seen, n)
			}
		}
	}
	return append(seen, covered...)
}

// covered says whether a saddle lies over a rung's mark.
func (s *StaffSheet) covered(n Rung) bool {
	p := mgl64.Vec2{s.Staff.LineX, s.Staff.Y(n.MM)}
	for _, r := range s.saddles() {
		if r.Contains(p) {
			return true
		}
	}
	return false
}

// beside says whether words at r would stand beside a mark that can be seen, and
// so be read as that one's.
func (s *StaffSheet) beside(r view.Rect) bool {
	for _, list := range [...][]Rung{s.Named, s.Rungs} {
		for _, n := range list {
			if y := s.Staff.Y(n.MM); y > r.Y-4 && y < r.Y+r.H+4 && !s.covered(n) {
				return true
			}
		}
	}
	return false
}

func (s *StaffSheet) saddles() []view.Rect {
	if s.Apart {
		return []view.Rect{s.Staff.SaddleFront(s.Front), s.Staff.SaddleRear(s.At)}
	}
	return []view.Rect{s.Staff.Saddle(s.At)}
}

// graduate draws the staff's marks: every fifth longer (every fourth in
// inches).
func (s *StaffSheet) graduate(l *List) {
	st := &s.Staff
	g := st.Graduation(s.Units, 5)
	every := 5
	if s.Units == scene.Inches {
		every = 4
	}
	for k := int(math.Ceil(st.LowMM / g)); float64(k)*g <= st.HighMM; k++ {
		y, long := st.Y(float64(k)*g), 6.0
		if k%every == 0 {
			long = 11
		}
		l.Stroke(Paint{Tone: Soft}, Fine, nil, mgl64.Vec2{st.LineX, y}, mgl64.Vec2{st.LineX + long, y})
	}
}

// tickFade is how much paler its own numbers are than the named heights: as much as
// leaves them readable.
const tickFade = 0.1

// figures writes the staff's own numbers where nothing else stands.
func (s *StaffSheet) figures(l *List, labels *Placer) {
	st := &s.Staff
	g := st.Graduation(s.Units, l.em(34))
	for k := int(math.Ceil(st.LowMM / g)); float64(k)*g <= st.HighMM; k++ {
		mm := float64(k) * g
		t := s.Format(mm)
		w := s.Measure(t, 13, false)
		r := view.Rect{X: st.LineX + 18, Y: st.Y(mm) - l.em(9), W: w, H: l.em(18)}
		if labels.Take(r) {
			l.Text(Paint{Tone: Soft, Fade: tickFade}, 13, false, Left, r.X, r.Y+l.em(14), t)
		}
	}
}

// rung draws a named place: a stroke at its height and its words as near to it
// as there is room.
func (s *StaffSheet) rung(l *List, labels *Placer, n Rung) {
	st := &s.Staff
	y := st.Y(n.MM)
	tone := StatusTone(n.Status, Ink)
	switch {
	case n.Struck:
		tone = Soft
		l.Stroke(Paint{Tone: tone}, 2, nil, mgl64.Vec2{st.LineX - 14, y}, mgl64.Vec2{st.LineX, y})
		Sign(l, n.Status, mgl64.Vec2{st.LineX - 18, y}, 6)
		l.Stroke(Paint{Tone: Ink}, 2, nil, mgl64.Vec2{st.LineX - 27, y + 7}, mgl64.Vec2{st.LineX - 4, y - 7})
	case n.Status != "":
		l.Stroke(Paint{Tone: tone}, 3, nil, mgl64.Vec2{st.LineX - 14, y}, mgl64.Vec2{st.LineX, y})
		Sign(l, n.Status, mgl64.Vec2{st.LineX - 18, y}, 7)
	default:
		l.Stroke(Paint{Tone: tone}, 2, nil, mgl64.Vec2{st.LineX, y}, mgl64.Vec2{st.LineX + 15, y})
	}
	room := st.Rect.X + st.Rect.W - staffRim - (st.LineX + 18)
	for _, lines := range n.layouts(room, s.Measure) {
		if s.rungText(l, labels, lines, y, tone, n) {
			return
		}
	}
}

// rungSize is the size of a rung's words, rungLine the height of a line.
const (
	rungSize = 14.0
	rungLine = 18.0
)

// layouts are the ways to write a rung within room pixels, the fullest first:
// number and words on a line, then on two, with ever fewer words, at last the
// number alone.
func (n *Rung) layouts(room float64, measure Measure) [][]string {
	fits := func(s string) bool { return measure(s, rungSize, false) <= room }
	var out [][]string
	for _, w := range n.Words {
		one, two := n.Number+" "+w, []string{n.Number, w}
		if n.First {
			one, two = w+" "+n.Number, []string{w, n.Number}
		}
		switch {
		case fits(one):
			out = append(out, []string{one})
		case fits(w):
			out = append(out, two)
		}
	}
	return append(out, []string{n.Number})
}

// rungText writes a rung as near to its height as there is room; false when
// there is none. The words of a mark that is covered keep off other marks.
func (s *StaffSheet) rungText(l *List, labels *Placer, lines []string, y float64, tone Tone, n Rung) bool {
	st := &s.Staff
	w, covered := 0.0, s.covered(n)
	for _, t := range lines {
		w = math.Max(w, s.Measure(t, rungSize, false))
	}
	line := l.em(rungLine)
	tall := line * float64(len(lines))
	for _, by := range [...]float64{0, -1, 1, -2, 2, -3, 3} {
		d := by * line
		r := view.Rect{X: st.LineX + 18, Y: y - tall/2 + d, W: w, H: tall}
		if covered && s.beside(r) || !labels.Take(r) {
			continue
		}
		if d != 0 {
			l.Stroke(Paint{Tone: tone, Fade: 0.4}, Fine, nil, mgl64.Vec2{st.LineX + 4, y}, mgl64.Vec2{st.LineX + 16, y + d})
		}
		for k, t := range lines {
			base := r.Y + l.em(14) + line*float64(k)
			l.Text(Paint{Tone: tone}, rungSize, false, Left, r.X, base, t)
			if n.Struck {
				l.Stroke(Paint{Tone: tone}, Fine, nil, mgl64.Vec2{r.X - 2, base - l.em(5)}, mgl64.Vec2{r.X + s.Measure(t, rungSize, false) + 2, base - l.em(5)})
			}
		}
		return true
	}
	return false
}

// handles draws the saddles.
func (s *StaffSheet) handles(l *List) {
	texts := []string{s.Text}
	if s.Apart {
		texts = []string{s.TextF, s.Text}
	}
	for i, r := range s.saddles() {
		rounded(l, Paint{Tone: Hand}, r, 5)
		size := 17.0
		for l.em(size) > 11 && s.Measure(texts[i], size, true) > r.W-10 {
			size--
		}
		if !s.Apart {
			l.Text(Paint{Tone: OnHand}, size, true, Centre, r.X+r.W/2, r.Y+r.H/2+l.em(size)*0.35, texts[i])
			continue
		}
		l.Text(Paint{Tone: OnHand}, 12, false, Centre, r.X+r.W/2, r.Y+r.H*15/44, [2]string{"front", "rear"}[i])
		l.Text(Paint{Tone: OnHand}, size, true, Centre, r.X+r.W/2, r.Y+r.H*34/44, texts[i])
	}
}

// rounded fills a rectangle with round corners.
func rounded(l *List, p Paint, r view.Rect, radius float64) {
	var pts []mgl64.Vec2
	for k, c := range corners(r.Inset(radius)) {
		for i := range 5 {
			sin, cos := math.Sincos(math.Pi + float64(k)*math.Pi/2 + float64(i)*math.Pi/8)
			pts = append(pts, mgl64.Vec2{c[0] + radius*cos, c[1] + radius*sin})
		}
	}
	l.Fill(p, 0, pts...)
}
