package draw

import (
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// Sheet is all that the main view shows.
type Sheet struct {
	Rect     view.Rect
	View     fitment.View
	Proj     view.Projection
	Ground   mgl64.Mat3 // ground axes to screen
	Station  float64
	Outs     []fitment.Outline // as painted, back to front; see [PaintOrder]
	Hidden   [][][2]fitment.Pt // by index of Outs; see [Hidden]
	Borders  *Borders          // borders drawn before; nil for none
	Layers   *Layers           // pictures of what does not move; nil: all is painted
	slot     slot              // where among the drawings it stands
	cuts     []*hatchedOf      // what is cut; nil: not listed yet
	Parts    []PartLook        // by part index
	Links    []Link            // bars of the suspensions
	Photos   []Photo           // behind the view
	Tapes    []TapeLine        // tapes laid between two places
	Room     *RoomMap          // where the part in hand may be; nil for none
	Ghost    [][]fitment.Pt    // a part where a move would put it, as convex pieces
	Contacts [][2]int          // parts that touch here, by part index
	Held     *TapePoint        // the first end of a tape that is being laid
	Selected int               // part index, −1 for none
	Marks    []Mark
	Guides   []view.Guide // lines the dragged part settled on
	RimLine  float64      // mm over the ground; 0 when unknown
	RimText  string
	Lowest   *Drop
	Caption  string
	Readout  string // where the dragged part stands; empty otherwise
	Measure  Measure
	Over     []view.Rect // what the page lays over the drawing
}

// PartLook is what the drawing needs to know of a part.
type PartLook struct {
	Name   string
	Status fitment.Status // to be coloured as; empty for plain ink
	Room   bool           // its service room is shown
	Wheel  bool           // a tyre: not counted for ground clearance
	Picked bool           // picked with others to be arranged: drawn as the selected one
}

// chosen says whether a part is drawn as selected.
func (s *Sheet) chosen(part int) bool { return part == s.Selected || s.Parts[part].Picked }

// Drop is a ground clearance to dimension: from a point of the plane straight
// down to the ground.
type Drop struct {
	From fitment.Pt
	Text string
	More string // on a line below Text; empty for none
}

// Mark is a place where two parts touch or come too close.
type Mark struct {
	Key      string
	Status   fitment.Status
	P, Q     fitment.Pt // the two nearest points
	Text     string     // "−6.5, needs 25"; empty for a mark without words
	Selected bool
	// Dimension says that P and Q are the ends of a part whose length is wrong:
	// a dimension line between them carries the words.
	Dimension bool
}

// StatusTone is the colour of a status; clear is ink.
func StatusTone(s fitment.Status, clear Tone) Tone {
	switch s {
	case fitment.Contact:
		return Touch
	case fitment.Tight:
		return Tight
	}
	return clear
}

// At is where a mark stands on the screen.
func (m *Mark) At(p *view.Projection) mgl64.Vec2 {
	return p.Screen(m.P).Add(p.Screen(m.Q)).Mul(0.5)
}

// Compose draws the main view.
func (s *Sheet) Compose(l *List) {
	card(l, s.Rect)
	l.Clip(s.Rect.Inset(1))
	labels := &Placer{Frame: s.Rect.Inset(6)}
	caption := view.Rect{X: s.Rect.X + 6, Y: s.Rect.Y + 6, W: s.Measure(s.Caption, 15, false) + 16, H: l.em(28)}
	labels.Reserve(caption)
	for _, r := range s.Over {
		labels.Reserve(r)
	}
	readout := s.readoutLines(l, caption)
	for i := range readout {
		labels.Reserve(readout[i].box)
	}
	s.keepClear(labels)
	if s.View != fitment.PlanView {
		s.ground(l, labels)
	}
	s.roomGround(l)
	s.parts(l)
	s.links(l)
	s.photos(l)
	s.centreline(l)
	datum, hasDatum := s.datum(l)
	s.guides(l, labels)
	s.rimLine(l, labels)
	s.contacts(l)
	s.ghost(l)
	s.roomBorder(l)
	s.marks(l, labels)
	s.tapes(l, labels)
	s.roomNames(l, labels)
	s.lowest(l, labels)
	s.names(l, labels)
	if hasDatum {
		s.datumName(l, labels, datum)
	}
	for _, line := range readout {
		knockout(l, line.box)
		l.Text(Paint{Tone: Hand}, 17, true, Left, line.box.X+8, line.box.Y+l.em(20), line.text)
	}
	knockout(l, caption)
	l.Text(Paint{Tone: Soft}, 15, false, Left, s.Rect.X+14, caption.Y+l.em(20), s.Caption)
}

// card is a sheet of paper on the desk.
func card(l *List, r view.Rect) {
	l.FillRect(Paint{Tone: Edge}, r)
	l.FillRect(Paint{Tone: Paper}, r.Inset(1))
}

// level is the screen height of a height over the ground.
func (s *Sheet) level(mm float64) float64 {
	return s.Ground.Mul3x1(mgl64.Vec3{0, mm, 1})[1]
}

// ground draws the ground line with short strokes below it, anchored to the
// ground so that they move with it.
func (s *Sheet) ground(l *List, labels *Placer) {
	y := s.level(0)
	r := s.Rect
	if y < r.Y || y > r.Y+r.H {
		return
	}
	l.Stroke(Paint{Tone: Ink}, Wide, nil, mgl64.Vec2{r.X + 6, y}, mgl64.Vec2{r.X + r.W - 6, y})
	const step = 22.0
	from := math.Mod(s.Ground.At(0, 2), step) - step
	for x := from; x < r.X+r.W; x += step {
		if x > r.X+14 && x < r.X+r.W-8 {
			l.Stroke(Paint{Tone: Ink}, Fine, nil, mgl64.Vec2{x, y + 1}, mgl64.Vec2{x - 8, y + 9})
		}
	}
	labels.Reserve(view.Rect{X: r.X, Y: y - 2, W: r.W, H: 12})
}

// centreline is the vehicle's middle plane where the view shows it as a line.
func (s *Sheet) centreline(l *List) {
	r := s.Rect
	switch s.View {
	case fitment.SectionView, fitment.FrontView:
		top, bottom := s.Proj.World(mgl64.Vec2{r.X, r.Y}), s.Proj.World(mgl64.Vec2{r.X, r.Y + r.H})
		a, b := s.Proj.Screen(fitment.Pt{0, top[1]}), s.Proj.Screen(fitment.Pt{0, bottom[1]})
		a[1], b[1] = math.Max(a[1], r.Y+l.em(40)), math.Min(math.Min(b[1], r.Y+r.H-8), s.level(0)+40)
		if a[0] > r.X && a[0] < r.X+r.W {
			l.Stroke(Paint{Tone: Soft}, Fine, DashDot, a, b)
		}
	case fitment.PlanView:
		y := s.Proj.Screen(fitment.Pt{0, 0})[1]
		if y > r.Y && y < r.Y+r.H {
			l.Stroke(Paint{Tone: Soft}, Fine, DashDot, mgl64.Vec2{r.X + 8, y}, mgl64.Vec2{r.X + r.W - 8, y})
		}
		x := s.Proj.Screen(fitment.Pt{s.Station, 0})[0]
		top, bottom := mgl64.Vec2{x, r.Y + l.em(40)}, mgl64.Vec2{x, r.Y + r.H - 8}
		l.Stroke(Paint{Tone: Hand}, Fine, DashDot, top, bottom)
		eyeArrow(l, top, mgl64.Vec2{-1, 0})
		eyeArrow(l, bottom, mgl64.Vec2{-1, 0})
	case fitment.SideView:
		a, b := s.Proj.Screen(fitment.Pt{s.Station, 2500}), s.Proj.Screen(fitment.Pt{s.Station, -300})
		b[1] = math.Min(b[1], s.level(0))
		l.Stroke(Paint{Tone: Hand}, Fine, DashDot, a, b)
		eyeArrow(l, a, mgl64.Vec2{-1, 0})
	}
}

// readoutLine is a line of where the dragged part stands.
type readoutLine struct {
	text string
	box  view.Rect
}

// readoutLines are the readout below the caption, in as many lines as a narrow
// drawing needs: what stands last, whether the part fits there, is never cut off.
func (s *Sheet) readoutLines(l *List, caption view.Rect) []readoutLine {
	var lines []readoutLine
	room := s.Rect.X + s.Rect.W - 6 - caption.X
	line := ""
	end := func() {
		if line != "" {
			lines = append(lines, readoutLine{line, view.Rect{X: caption.X, Y: caption.Y + caption.H + float64(len(lines))*l.em(24),
				W: s.Measure(line, 17, true) + 16, H: l.em(28)}})
		}
	}
	for _, word := range strings.Fields(s.Readout) {
		if longer := strings.TrimSpace(line + " " + word); line == "" || s.Measure(longer, 17, true)+16 <= room {
			line = longer
			continue
		}
		end()
		line = word
	}
	end()
	return lines
}

// guides shows what a dragged part has settled on.
func (s *Sheet) guides(l *List, labels *Placer) {
	r := s.Rect
	for _, g := range s.Guides {
		if g.Second {
			y := s.Proj.Screen(fitment.Pt{0, g.MM})[1]
			l.Stroke(Paint{Tone: Hand}, Fine, Dashed, mgl64.Vec2{r.X, y}, mgl64.Vec2{r.X + r.W, y})
			var at []mgl64.Vec2
			for _, x := range [...]float64{0, 0.2, 0.4, 0.6, 0.8} {
				at = append(at, mgl64.Vec2{r.X + 12 + x*r.W, y - l.em(20)})
			}
			s.guideName(l, labels, g.Name, at)
			continue
		}
		x := s.Proj.Screen(fitment.Pt{g.MM, 0})[0]
		l.Stroke(Paint{Tone: Hand}, Fine, Dashed, mgl64.Vec2{x, r.Y}, mgl64.Vec2{x, r.Y + r.H})
		var at []mgl64.Vec2
		for _, y := range [...]float64{60, 100, 140, 180, 240, 300} {
			at = append(at, mgl64.Vec2{x + 6, r.Y + r.H - y})
		}
		s.guideName(l, labels, g.Name, at)
	}
}

// guideName writes a guide's name at the first of some places that is free.
func (s *Sheet) guideName(l *List, labels *Placer, name string, places []mgl64.Vec2) {
	for _, at := range places {
		box := view.Rect{X: at[0], Y: at[1], W: s.Measure(name, 14, false) + 8, H: l.em(18)}
		box.X = min(box.X, s.Rect.X+s.Rect.W-box.W-8)
		if labels.Take(box) {
			knockout(l, box)
			l.Text(Paint{Tone: Hand}, 14, false, Left, box.X+4, box.Y+l.em(14), name)
			return
		}
	}
}

// rimLine is the level nothing but wheels may hang below.
func (s *Sheet) rimLine(l *List, labels *Placer) {
	if s.View == fitment.PlanView || s.RimLine <= 0 {
		return
	}
	r, y := s.Rect, s.level(s.RimLine)
	if y < r.Y+l.em(40) || y > r.Y+r.H-4 {
		return
	}
	l.Stroke(Paint{Tone: Soft}, Fine, DashDot, mgl64.Vec2{r.X + 8, y}, mgl64.Vec2{r.X + r.W - 8, y})
	w := s.Measure(s.RimText, 14, false)
	for _, x := range [...]float64{r.X + r.W - w - 18, r.X + 10, r.X + r.W*0.66, r.X + r.W*0.25} {
		if box := (view.Rect{X: x, Y: y - l.em(22), W: w + 8, H: l.em(19)}); labels.Take(box) {
			knockout(l, box)
			l.Text(Paint{Tone: Soft}, 14, false, Left, box.X+4, y-l.em(7), s.RimText)
			return
		}
	}
}

// knockout is a piece of clean paper for a text.
func knockout(l *List, r view.Rect) { l.Fill(Paint{Tone: Paper}, 0, corners(r)...) }

// lowest dimensions the ground clearance, ISO 129: a line with two arrows and
// the figure beside it.
func (s *Sheet) lowest(l *List, labels *Placer) {
	if s.Lowest == nil {
		return
	}
	a := s.Proj.Screen(s.Lowest.From)
	b := mgl64.Vec2{a[0], s.level(0)}
	if b[1]-a[1] < 26 || !s.Rect.Contains(a) {
		return
	}
	w, tall := s.Measure(s.Lowest.Text, 15, false), l.em(20)
	if s.Lowest.More != "" {
		w, tall = math.Max(w, s.Measure(s.Lowest.More, 14, false)), l.em(38)
	}
	for _, f := range [...]float64{0.5, 0.35, 0.65, 0.2, 0.8} {
		y := a[1] + (b[1]-a[1])*f
		for _, x := range [...]float64{a[0] + 8, a[0] - 16 - w} {
			box := view.Rect{X: x, Y: y - l.em(10), W: w + 8, H: tall}
			if !labels.Take(box) {
				continue
			}
			dimension(l, a, b)
			knockout(l, box)
			l.Text(Paint{Tone: Ink}, 15, false, Left, box.X+4, y+l.em(5), s.Lowest.Text)
			if s.Lowest.More != "" {
				l.Text(Paint{Tone: Soft}, 14, false, Left, box.X+4, y+l.em(23), s.Lowest.More)
			}
			labels.Reserve(view.Rect{X: a[0] - 4, Y: a[1], W: 8, H: b[1] - a[1]})
			return
		}
	}
}

// dimension is a dimension line with open arrows.
func dimension(l *List, a, b mgl64.Vec2) { dimensionIn(l, Paint{Tone: Soft}, a, b) }

func dimensionIn(l *List, p Paint, a, b mgl64.Vec2) {
	if b.Sub(a).Len() < 1 {
		return
	}
	l.Stroke(p, Fine, nil, a, b)
	u := b.Sub(a).Normalize().Mul(8)
	n := mgl64.Vec2{-u[1], u[0]}.Mul(0.35)
	l.Stroke(p, Fine, nil, a.Add(u).Add(n), a, a.Add(u).Sub(n))
	l.Stroke(p, Fine, nil, b.Sub(u).Add(n), b, b.Sub(u).Sub(n))
}
