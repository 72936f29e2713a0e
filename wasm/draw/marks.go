package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// markSize is half the width of a mark, pixels.
const markSize = 9.0

// mostFigures is how many marks, worst first, are tried to be given their
// figures in one drawing: more are no longer read there but in the list, and
// looking for room for each takes longer than a frame.
const mostFigures = 24

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

// markBoxes are the squares the marks stand in.
func (s *Sheet) markBoxes() []view.Rect {
	boxes := make([]view.Rect, len(s.Marks))
	for i := range s.Marks {
		boxes[i] = around(s.Marks[i].At(&s.Proj), markSize)
	}
	return boxes
}

// keepClear reserves what no words may stand on, before any are placed: the
// marks, the gaps they dimension, and the tapes with their ends.
func (s *Sheet) keepClear(labels *Placer) {
	for i, box := range s.markBoxes() {
		labels.Reserve(box)
		if p, q := s.Proj.Screen(s.Marks[i].P), s.Proj.Screen(s.Marks[i].Q); q.Sub(p).Len() > 2*markSize {
			labels.leaders = append(labels.leaders, Leader{p, q})
		}
	}
	keepTapesClear(labels, s.Tapes)
}

// marks draws the marks and, where there is room, what they measure.
func (s *Sheet) marks(l *List, labels *Placer) {
	boxes := s.markBoxes()
	for i := len(s.Marks) - 1; i >= 0; i-- {
		m := &s.Marks[i]
		switch {
		case m.Dimension:
			dimensionIn(l, Paint{Tone: StatusTone(m.Status, Hand)}, s.Proj.Screen(m.P), s.Proj.Screen(m.Q))
		case m.Status == "":
			gapLine(l, Paint{Tone: Hand}, s.Proj.Screen(m.P), s.Proj.Screen(m.Q), false)
		case m.Status == fitment.Tight:
			gapLine(l, Paint{Tone: Tight}, s.Proj.Screen(m.P), s.Proj.Screen(m.Q), crowded(boxes, i))
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
	figures := 0
	for i := range s.Marks {
		if s.Marks[i].Text != "" && boxes[i].Inside(s.Rect) && figures < mostFigures {
			s.markLabel(l, labels, &s.Marks[i], boxes[i])
			figures++
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
	r, ok := labels.Beside(subject.Inset(-4), w, l.em(26), leader)
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
	l.Text(p, 15, true, Left, r.X+4, r.Y+r.H-l.em(8), m.Text)
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
	h, ok2 := s.anchor(o)
	if !ok || !ok2 {
		return
	}
	at := s.Proj.Screen(h)
	if !s.Rect.Contains(at) {
		return // a name at the edge for what lies beyond it would mislead
	}
	text, tone := s.Parts[o.Part].Name, Soft
	if selected {
		if tone = Hand; s.uncut(o) {
			text += ", not in this cut"
		}
	}
	w := s.Measure(text, 14, selected) + 8
	r := view.Rect{X: at[0] - w/2, Y: at[1] - l.em(10), W: w, H: l.em(20)}
	if w < box.W*0.9 && box.H > l.em(26) && len(o.Bore) == 0 && s.holds(pieces, r) && labels.Take(r) {
		if !selected {
			knockout(l, r)
		} else {
			l.Fill(Paint{Tone: HandWash}, 0, corners(r)...)
		}
		l.Text(Paint{Tone: tone}, 14, selected, Left, r.X+4, r.Y+l.em(15), text)
		return
	}
	if !selected && s.scale() < l.em(namesFrom) {
		return
	}
	subject := view.Rect{X: at[0] - 3, Y: at[1] - 3, W: 6, H: 6}
	if box.W < 160 && box.H < 160 {
		subject = box
	}
	covers := s.covers(pieces)
	labels.Not = func(r view.Rect) bool { return covers(r) || s.namesAnother(o.Part, r) }
	labels.Cost = s.strays(o.Part, pieces)
	defer func() { labels.Not, labels.Cost = nil, nil }()
	leader := func(r view.Rect) Leader {
		return Leader{at, mgl64.Vec2{mgl64.Clamp(at[0], r.X, r.X+r.W), mgl64.Clamp(at[1], r.Y, r.Y+r.H)}}
	}
	if r, ok = labels.Beside(subject, w, l.em(20), leader); !ok {
		return
	}
	knockout(l, r)
	pointer(l, Paint{Tone: tone}, leader(r))
	l.Text(Paint{Tone: tone}, 14, selected, Left, r.X+4, r.Y+l.em(15), text)
}

// pointer draws the line from a name beside its part to the dot in the part
// (ISO 128-22), on a strip of clean paper: it has to be followed over all that
// it crosses.
func pointer(l *List, p Paint, to Leader) {
	l.Stroke(Paint{Tone: Paper}, 4, nil, to.From, to.To)
	l.Fill(Paint{Tone: Paper}, 0, circle(to.From, 4.5)...)
	l.Stroke(p, Narrow, nil, to.From, to.To)
	l.Fill(p, 0, circle(to.From, 2.8)...)
}

// anchor is where a leader to an outline ends: the middle of its longest
// hatching line, so that it never points into a bore, or else the middle of its
// largest piece.
func (s *Sheet) anchor(o *fitment.Outline) (fitment.Pt, bool) {
	longest, at := 0.0, fitment.Pt{}
	for _, h := range s.hatched(o).lines {
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
		if !on(s.Proj.World(c), pieces) {
			return false
		}
	}
	return true
}

// covers says of a screen rectangle whether it lies on any of the pieces: a name
// beside a part never covers the part.
func (s *Sheet) covers(pieces [][]fitment.Pt) func(view.Rect) bool {
	on := make([][]fitment.Pt, len(pieces))
	for i, piece := range pieces {
		for _, p := range s.screen(piece) {
			on[i] = append(on[i], fitment.Pt(p))
		}
		on[i] = anticlockwise(on[i])
	}
	return func(r view.Rect) bool {
		var c []fitment.Pt
		for _, p := range corners(r) {
			c = append(c, fitment.Pt(p))
		}
		for _, q := range on {
			if len(q) > 2 && len(common(anticlockwise(c), q)) > 2 {
				return true
			}
		}
		return false
	}
}

// namesAnother says whether a name at r would be read as that of another part:
// the middle of its letters lies on what is cut of that.
func (s *Sheet) namesAnother(part int, r view.Rect) bool {
	if s.cuts == nil {
		s.cuts = []*hatchedOf{}
		for i := range s.Outs {
			if o := &s.Outs[i]; len(o.Cut) > 0 {
				s.cuts = append(s.cuts, s.hatched(o))
			}
		}
	}
	m := r.Middle()
	for _, at := range [...]mgl64.Vec2{m, {m[0], m[1] - r.H/4}, {m[0], m[1] + r.H/4}} {
		w := s.Proj.World(at)
		for _, k := range s.cuts {
			if k.part != part && k.holds(w) {
				return true
			}
		}
	}
	return false
}

// A name is first read as that of the part it stands at: nearer (pixels) is by how
// much that has to be its own, and overAnother is what it costs when the line to
// it runs over another part.
const nearer, overAnother = 4.0, 25.0

// strays says of a screen rectangle and the line to it how much nearer another
// cut part is than the one whose pieces these are, pixels, and whether the line
// runs over one; 0 when neither.
func (s *Sheet) strays(part int, own [][]fitment.Pt) func(view.Rect, Leader) float64 {
	type near struct {
		box    view.Rect
		pieces [][]fitment.Pt
	}
	var others []near
	for i := range s.Outs {
		if o := &s.Outs[i]; o.Part != part && len(o.Cut) > 0 {
			if box, ok := s.box(o.Cut); ok {
				others = append(others, near{box, o.Cut})
			}
		}
	}
	return func(r view.Rect, l Leader) float64 {
		edge := rim(r)
		d, cost := s.apart(edge, own)+nearer, 0.0
		for _, o := range others {
			if o.box.Overlaps(r.Inset(-d)) {
				cost = math.Max(cost, d-s.apart(edge, o.pieces))
			}
			if l.crosses(o.box) && s.runsOver(l, o.pieces) {
				cost += overAnother
			}
		}
		return cost
	}
}

// runsOver says whether a line crosses pieces that it does not begin on: what
// lies in another part is named from there.
func (s *Sheet) runsOver(l Leader, pieces [][]fitment.Pt) bool {
	if on(s.Proj.World(l.From), pieces) {
		return false
	}
	d := l.To.Sub(l.From)
	for n, k := int(d.Len()/4)+1, 1; k <= n; k++ {
		if on(s.Proj.World(l.From.Add(d.Mul(float64(k)/float64(n)))), pieces) {
			return true
		}
	}
	return false
}

// apart is how far points of the screen are from pieces, pixels.
func (s *Sheet) apart(edge []mgl64.Vec2, pieces [][]fitment.Pt) float64 {
	best := math.Inf(1)
	for _, p := range edge {
		w := s.Proj.World(p)
		for _, q := range pieces {
			best = math.Min(best, view.Distance(w, q))
		}
	}
	return best * s.scale()
}

// rim are points around a rectangle, close enough together for words.
func rim(r view.Rect) []mgl64.Vec2 {
	var out []mgl64.Vec2
	for i := range 5 {
		x := r.X + r.W*float64(i)/4
		out = append(out, mgl64.Vec2{x, r.Y}, mgl64.Vec2{x, r.Y + r.H})
	}
	return append(out, mgl64.Vec2{r.X, r.Y + r.H/2}, mgl64.Vec2{r.X + r.W, r.Y + r.H/2})
}

// on says whether a point lies on one of the pieces.
func on(w fitment.Pt, pieces [][]fitment.Pt) bool {
	for _, p := range pieces {
		if len(p) > 2 && view.Distance(w, p) == 0 {
			return true
		}
	}
	return false
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

// crowded says that a mark stands on one before it, which is worse or meant.
func crowded(boxes []view.Rect, i int) bool {
	for k := range i {
		if boxes[k].Overlaps(boxes[i]) {
			return true
		}
	}
	return false
}

// gapLine dimensions a gap between its two nearest points, ISO 129-1: arrows
// between them where there is room, and from outside where there is not. plain
// leaves the arrows out, where marks stand close.
func gapLine(l *List, p Paint, a, b mgl64.Vec2, plain bool) {
	d := b.Sub(a)
	n := d.Len()
	switch {
	case n < 1:
		return
	case n > 2*markSize+16:
		dimensionIn(l, p, a, b)
		return
	}
	l.Stroke(p, Narrow, nil, a, b)
	if plain {
		return
	}
	u := d.Mul(1 / n)
	w := mgl64.Vec2{-u[1], u[0]}.Mul(2.8)
	for _, end := range [2]struct{ at, out mgl64.Vec2 }{{a, u.Mul(-1)}, {b, u}} {
		tail := end.at.Add(end.out.Mul(markSize + 13))
		l.Stroke(p, Narrow, nil, end.at, tail)
		back := end.at.Add(end.out.Mul(8))
		l.Stroke(p, Narrow, nil, back.Add(w), end.at, back.Sub(w))
	}
}
