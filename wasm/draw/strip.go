package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// StripSheet is all that the side strip shows.
type StripSheet struct {
	Rect     view.Rect
	Proj     view.Projection
	Ground   mgl64.Mat3
	Outs     []fitment.Outline // back to front
	Borders  *Borders
	Layers   *Layers // as in [Sheet]
	Parts    []PartLook
	Selected int
	Marks    []Mark
	Station  float64
	Text     string // figure on the flag
	Measure  Measure
	Letters  float64 // as in [List]
}

// flagHalf is half the flag's width, pixels: a finger needs 44.
const flagHalf = 40.0

// Flag is the flag's rectangle; it grows with the letters on it.
func (s *StripSheet) Flag() view.Rect {
	half, l := math.Max(flagHalf, s.Measure(s.Text, 15, true)/2+8), List{Letters: s.Letters}
	x := s.Proj.Screen(fitment.Pt{s.Station, 0})[0]
	x = mgl64.Clamp(x, s.Rect.X+half, s.Rect.X+s.Rect.W-half)
	return view.Rect{X: x - half, Y: s.Rect.Y + 4, W: 2 * half, H: l.em(30)}
}

// Compose draws the strip.
func (s *StripSheet) Compose(l *List) {
	card(l, s.Rect)
	l.Clip(s.Rect.Inset(1))
	sheet := Sheet{Rect: s.Rect, View: fitment.SideView, Proj: s.Proj, Ground: s.Ground,
		Outs: s.Outs, Borders: s.Borders, Layers: s.Layers, slot: stripSlot, Parts: s.Parts, Selected: s.Selected}
	y := sheet.level(0)
	l.Stroke(Paint{Tone: Ink}, Narrow, nil, mgl64.Vec2{s.Rect.X + 8, y}, mgl64.Vec2{s.Rect.X + s.Rect.W - 8, y})
	sheet.backToFront(l, func(i int) {
		if s.Outs[i].Part == s.Selected || s.Parts[s.Outs[i].Part].Picked {
			sheet.strokes(l, s.Outs[i].Seen, Paint{Tone: Hand}, Wide*0.8, nil)
		}
	})
	for i := len(s.Marks) - 1; i >= 0; i-- {
		Sign(l, s.Marks[i].Status, s.Marks[i].At(&s.Proj), 5.5)
	}
	s.caption(l)
	x := s.Proj.Screen(fitment.Pt{s.Station, 0})[0]
	l.Stroke(Paint{Tone: Hand}, 2, nil, mgl64.Vec2{x, s.Rect.Y + 20}, mgl64.Vec2{x, s.Rect.Y + s.Rect.H - 4})
	eyeArrow(l, mgl64.Vec2{x, s.Rect.Y + s.Rect.H - 9}, mgl64.Vec2{-1, 0})
	f := s.Flag()
	rounded(l, Paint{Tone: Hand}, f, 4)
	l.Text(Paint{Tone: OnHand}, 15, true, Centre, f.X+f.W/2, f.Y+l.em(20), s.Text)
}

// stripCaptions are what is said in the strip beside the vehicle, the fullest
// first; on a phone there is room for a word.
var stripCaptions = []string{"Side, front at the left", "Side, front left", "Side"}

// caption says what the strip shows, left of the vehicle or right of it, never
// on it and not where the flag stands.
func (s *StripSheet) caption(l *List) {
	sheet := Sheet{View: fitment.SideView, Proj: s.Proj, Borders: s.Borders, slot: stripSlot}
	left, right := s.Rect.X+s.Rect.W, s.Rect.X
	for i := range s.Outs {
		if k := sheet.silhouette(&s.Outs[i]); k.some {
			left, right = math.Min(left, k.box.X), math.Max(right, k.box.X+k.box.W)
		}
	}
	flag := s.Flag()
	for _, text := range stripCaptions {
		w := s.Measure(text, 14, false)
		box := view.Rect{X: s.Rect.X + 12, Y: s.Rect.Y + 8, W: w, H: l.em(18)}
		if box.X+w < left-6 && !box.Overlaps(flag.Inset(-4)) {
			l.Text(Paint{Tone: Soft}, 14, false, Left, box.X, box.Y+l.em(14), text)
			return
		}
		box.X = s.Rect.X + s.Rect.W - 12 - w
		if box.X > right+6 && !box.Overlaps(flag.Inset(-4)) {
			l.Text(Paint{Tone: Soft}, 14, false, Left, box.X, box.Y+l.em(14), text)
			return
		}
	}
}

// eyeArrow is the arrow at the end of a cutting plane's line, in the direction
// the section is looked at (ISO 128-3).
func eyeArrow(l *List, at, dir mgl64.Vec2) {
	n := mgl64.Vec2{-dir[1], dir[0]}.Mul(4)
	tip := at.Add(dir.Mul(16))
	l.Stroke(Paint{Tone: Hand}, 2, nil, at, tip)
	l.Fill(Paint{Tone: Hand}, 0, tip.Add(dir.Mul(2)), tip.Sub(dir.Mul(8)).Add(n), tip.Sub(dir.Mul(8)).Sub(n))
}
