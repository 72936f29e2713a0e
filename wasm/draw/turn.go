package draw

import (
	"math"
	"slices"
	"sort"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// TurnSheet is the outline of everything, looked at from anywhere: for finding
// one's way, not for measuring.
type TurnSheet struct {
	Rect     view.Rect
	Turn     view.Turn
	Wires    []fitment.Wire
	Parts    []PartLook
	Selected int
	Ground   []scene.Vec  // corners of a piece of the ground
	Front    [2]scene.Vec // an arrow on the ground, from and to
	Marks    []TurnMark
	Tapes    []TapeLine
	Held     *TapePoint
	Caption  string
	Measure  Measure
}

// TurnMark is a place where two parts touch or come too close.
type TurnMark struct {
	At       scene.Vec
	Status   fitment.Status
	Selected bool
}

// Compose draws it: the ground, the solids from far to near, each the fainter
// the farther, the marks, and which way is which.
func (s *TurnSheet) Compose(l *List) {
	card(l, s.Rect)
	l.Clip(s.Rect.Inset(1))
	s.ground(l)
	lines := make([]wireLines, len(s.Wires))
	near, far := math.Inf(-1), math.Inf(1)
	for i := range s.Wires {
		lines[i] = s.linesOf(&s.Wires[i])
		near, far = math.Max(near, lines[i].depth), math.Min(far, lines[i].depth)
	}
	sort.SliceStable(lines, func(i, j int) bool { return lines[i].depth < lines[j].depth })
	for pass := range 2 {
		for i := range lines {
			if k := &lines[i]; (k.part == s.Selected) == (pass == 1) {
				s.stroke(l, k, near, math.Min(far, near-1))
			}
		}
	}
	s.marks(l)
	labels := &Placer{Frame: s.Rect.Inset(6)}
	caption := view.Rect{X: s.Rect.X + 6, Y: s.Rect.Y + 6, W: s.Measure(s.Caption, 15, false) + 16, H: l.em(28)}
	labels.Reserve(caption)
	keepTapesClear(labels, s.Tapes)
	s.cross(l, labels)
	(&tapeSheet{s.Tapes, s.Held, s.Rect, s.Measure}).compose(l, labels)
	knockout(l, caption)
	l.Text(Paint{Tone: Soft}, 15, false, Left, s.Rect.X+14, caption.Y+l.em(20), s.Caption)
}

// wireLines is one solid as lines on the screen.
type wireLines struct {
	part  int
	lines [][]mgl64.Vec2
	depth float64 // of its middle; larger is nearer
}

func (s *TurnSheet) linesOf(w *fitment.Wire) wireLines {
	k := wireLines{part: w.Part}
	n := 0.0
	put := func(pts []scene.Vec) []mgl64.Vec2 {
		out := make([]mgl64.Vec2, len(pts))
		for i, p := range pts {
			var d float64
			out[i], d = s.Turn.Screen(s.Rect, p)
			k.depth, n = k.depth+d, n+1
		}
		return out
	}
	for _, e := range w.Edges {
		k.lines = append(k.lines, put(e))
	}
	if w.Radius > 0 {
		k.lines = append(k.lines, beside(put(w.Spine), w.Radius*s.Turn.PxPerMM, w.Ball)...)
	}
	if n > 0 {
		k.depth /= n
	}
	return k
}

// endOn (pixels) is the length up to which a round bar is seen on its end.
const endOn = 0.5

// beside is the outline of what is round along a line: the two lines a radius
// beside it as it is seen, which is what all the balls along it cover, and
// circles where it ends round or is seen on its end.
func beside(spine []mgl64.Vec2, radius float64, ball bool) [][]mgl64.Vec2 {
	var out [][]mgl64.Vec2
	first, last := spine[0], spine[len(spine)-1]
	if ball {
		out = append(out, ringAt(first, radius))
		if len(spine) > 1 {
			out = append(out, ringAt(last, radius))
		}
	}
	long := 0.0
	for i := 1; i < len(spine); i++ {
		long += spine[i].Sub(spine[i-1]).Len()
	}
	if long <= endOn {
		return out
	}
	var left, right []mgl64.Vec2
	for i, p := range spine {
		d := spine[min(i+1, len(spine)-1)].Sub(spine[max(i-1, 0)])
		if d.Len() < 1e-9 {
			continue
		}
		d = d.Normalize().Mul(radius)
		left = append(left, p.Add(mgl64.Vec2{-d[1], d[0]}))
		right = append(right, p.Add(mgl64.Vec2{d[1], -d[0]}))
	}
	return append(out, left, right)
}

// ringAt is a closed circle.
func ringAt(c mgl64.Vec2, r float64) []mgl64.Vec2 {
	ring := circle(c, r)
	return append(ring, ring[0])
}

func (s *TurnSheet) stroke(l *List, k *wireLines, near, far float64) {
	p, width := Paint{Tone: Ink, Fade: 0.78 * math.Sqrt(mgl64.Clamp((near-k.depth)/(near-far), 0, 1))}, Fine
	if st := s.Parts[k.part].Status; st != "" {
		p, width = Paint{Tone: StatusTone(st, Ink), Fade: p.Fade / 2}, Narrow
	}
	if k.part == s.Selected {
		p, width = Paint{Tone: Hand}, Wide*0.8
	}
	for _, line := range k.lines {
		if len(line) > 1 {
			l.Stroke(p, width, nil, line...)
		}
	}
}

// PartAt is the part whose lines are nearest to a point of the screen, within
// reach (pixels); of several equally near the nearest to the eye, −1 for none.
func (s *TurnSheet) PartAt(p mgl64.Vec2, reach float64) int {
	best, part, depth := reach, -1, math.Inf(-1)
	for i := range s.Wires {
		k := s.linesOf(&s.Wires[i])
		d := math.Inf(1)
		for _, line := range k.lines {
			for j := 1; j < len(line); j++ {
				d = math.Min(d, toLine(p, line[j-1], line[j]))
			}
		}
		if d < best-2 || d < best+2 && d < reach && k.depth > depth {
			best, part, depth = math.Min(d, best), k.part, k.depth
		}
	}
	return part
}

func toLine(p, a, b mgl64.Vec2) float64 { return p.Sub(onLine(p, a, b)).Len() }

// onLine is the point of the line a–b nearest to p.
func onLine(p, a, b mgl64.Vec2) mgl64.Vec2 {
	d := b.Sub(a)
	if l := d.Dot(d); l > 0 {
		return a.Add(d.Mul(mgl64.Clamp(p.Sub(a).Dot(d)/l, 0, 1)))
	}
	return a
}

// ground draws the piece of ground under the vehicle and, on it, the way the
// vehicle faces.
func (s *TurnSheet) ground(l *List) {
	pts := make([]mgl64.Vec2, len(s.Ground))
	for i, p := range s.Ground {
		pts[i], _ = s.Turn.Screen(s.Rect, p)
	}
	if len(pts) > 2 {
		l.Loop(Paint{Tone: Soft, Fade: 0.5}, Fine, nil, pts...)
	}
	from, _ := s.Turn.Screen(s.Rect, s.Front[0])
	to, _ := s.Turn.Screen(s.Rect, s.Front[1])
	l.Stroke(Paint{Tone: Hand}, 2, nil, from, to)
	across := mgl64.Vec2{}
	tip := to.Sub(from)
	if n := tip.Len(); n > 1 {
		tip = tip.Mul(12 / n)
		across = mgl64.Vec2{-tip[1], tip[0]}.Mul(0.45)
	}
	l.Fill(Paint{Tone: Hand}, 0, to.Add(tip.Mul(0.3)), to.Sub(tip.Mul(0.8)).Add(across), to.Sub(tip.Mul(0.8)).Sub(across))
	s.frontName(l, to, to.Add(tip.Mul(l.em(1.6))))
}

// frontName writes which way the vehicle faces at the arrow's point; where the
// sheet ends there, over the arrow, as long as that is on the sheet.
func (s *TurnSheet) frontName(l *List, point, at mgl64.Vec2) {
	const word = "front"
	half := s.Measure(word, 14, true)/2 + 4
	if !s.Rect.Contains(point) {
		return
	}
	if x := mgl64.Clamp(at[0], s.Rect.X+half, s.Rect.X+s.Rect.W-half); math.Abs(x-at[0]) > 1 {
		at = mgl64.Vec2{x, point[1] - l.em(14)}
	}
	at[1] = mgl64.Clamp(at[1], s.Rect.Y+l.em(12), s.Rect.Y+s.Rect.H-l.em(12))
	knockout(l, view.Rect{X: at[0] - half, Y: at[1] - l.em(9), W: 2 * half, H: l.em(18)})
	l.Text(Paint{Tone: Hand}, 14, true, Centre, at[0], at[1]+l.em(5), word)
}

func (s *TurnSheet) marks(l *List) {
	for i := len(s.Marks) - 1; i >= 0; i-- {
		m := &s.Marks[i]
		at, _ := s.Turn.Screen(s.Rect, m.At)
		if m.Selected {
			l.Loop(Paint{Tone: Hand}, 2, nil, circle(at, markSize+7)...)
		}
		Sign(l, m.Status, at, markSize-2)
	}
}

// atFront says whether the arrow of the vehicle's front runs into a rectangle.
func (s *TurnSheet) atFront(r view.Rect) bool {
	from, _ := s.Turn.Screen(s.Rect, s.Front[0])
	to, _ := s.Turn.Screen(s.Rect, s.Front[1])
	return Leader{from, to}.crosses(r)
}

// crossArm is the length of the axis cross's arms, pixels.
const crossArm = 36.0

// cross is the axis cross in the corner: rearward, right and up, as they are
// seen now. On a sheet where it would lie on the vehicle there is none.
func (s *TurnSheet) cross(l *List, labels *Placer) {
	if l.em(116) > 0.6*s.Rect.W || l.em(108) > 0.6*s.Rect.H {
		return
	}
	o := mgl64.Vec2{s.Rect.X + l.em(62), s.Rect.Y + s.Rect.H - l.em(58)}
	around := func() view.Rect {
		return view.Rect{X: o[0] - l.em(58), Y: o[1] - l.em(54), W: l.em(116), H: l.em(108)}
	}
	if s.atFront(around().Inset(-l.em(24))) {
		o[0] = s.Rect.X + s.Rect.W - l.em(62)
	}
	labels.Reserve(around())
	rows := s.Turn.Rows()
	words, ends := [3]string{"rear", "right", "up"}, [3]mgl64.Vec2{}
	order := []int{0, 1, 2}
	for i := range words {
		ends[i] = mgl64.Vec2{rows.At(0, i), -rows.At(1, i)}.Mul(crossArm)
		l.Stroke(Paint{Tone: Ink}, Narrow, nil, o, o.Add(ends[i]))
	}
	sort.SliceStable(order, func(i, j int) bool { return ends[order[i]].Len() > ends[order[j]].Len() })
	var taken []view.Rect
	for _, i := range order {
		n := ends[i].Len()
		if n <= 8 {
			continue
		}
		t := o.Add(ends[i].Mul(1 + l.em(14)/n))
		half := RoughWidth(words[i], l.em(13), false) / 2
		t[0] = mgl64.Clamp(t[0], s.Rect.X+l.em(8)+half, s.Rect.X+s.Rect.W-l.em(8)-half) // whole, however it is turned
		box := view.Rect{X: t[0] - half, Y: t[1] - l.em(8), W: 2 * half, H: l.em(15)}
		if slices.ContainsFunc(taken, box.Overlaps) {
			continue // two arms that lie on each other: the longer one says it
		}
		taken = append(taken, box)
		l.Text(Paint{Tone: Ink}, 13, false, Centre, t[0], t[1]+l.em(4), words[i])
	}
	l.Fill(Paint{Tone: Ink}, 0, circle(o, 2.5)...)
}
