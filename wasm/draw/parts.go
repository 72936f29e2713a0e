package draw

import (
	"cmp"
	"math"
	"slices"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// PaintOrder sorts outlines back to front as the view's eye sees them, and in
// a section drops what lies behind the viewer's back. Equal depths keep the
// document's order.
func PaintOrder(v fitment.View, station float64, outs []fitment.Outline) []fitment.Outline {
	type place struct {
		index int
		cut   bool
		depth float64
	}
	order := make([]place, 0, len(outs))
	for i := range outs {
		o := &outs[i]
		if v == fitment.SectionView && math.Min(o.Near, o.Far) > station && len(o.Cut) == 0 {
			continue
		}
		order = append(order, place{i, len(o.Cut) > 0, depth(v, station, o)})
	}
	slices.SortStableFunc(order, func(a, b place) int {
		switch {
		case a.cut != b.cut && b.cut:
			return -1
		case a.cut != b.cut:
			return 1
		}
		return cmp.Compare(a.depth, b.depth)
	})
	kept := make([]fitment.Outline, len(order))
	for i, p := range order {
		kept[i] = outs[p.index]
	}
	return kept
}

// parts paints the outlines back to front, then what the plane cuts, then the
// selected part once more so that nothing hides it.
func (s *Sheet) parts(l *List) {
	s.backToFront(l, func(i int) {
		if o := &s.Outs[i]; len(o.Cut) > 0 && !s.chosen(o.Part) {
			s.cut(l, o)
		}
		if s.Hidden == nil {
			return
		}
		p := Paint{Tone: StatusTone(s.Parts[s.Outs[i].Part].Status, Line), Fade: 0.35}
		for _, h := range s.Hidden[i] { // never where something is cut
			l.Stroke(p, Fine, Dashed, s.Proj.Screen(h[0]), s.Proj.Screen(h[1]))
		}
	})
	for i := range s.Outs {
		o := &s.Outs[i]
		if !s.chosen(o.Part) && !s.Parts[o.Part].Room {
			continue
		}
		switch {
		case !s.chosen(o.Part):
		case len(o.Cut) > 0:
			s.cut(l, o)
		case s.uncut(o): // dashed: it lies elsewhere
			s.strokes(l, o.Seen, Paint{Tone: Hand}, Wide*0.8, Dashed)
		default:
			s.strokes(l, o.Seen, Paint{Tone: Hand}, Wide*0.8, nil)
		}
		for _, piece := range o.Room {
			l.Fill(Paint{Tone: RoomWash}, 0, s.screen(piece)...)
		}
		s.strokes(l, o.Room, Paint{Tone: Room}, Narrow, Dashed)
	}
}

// uncut says that a section does not go through a part.
func (s *Sheet) uncut(o *fitment.Outline) bool {
	return s.View == fitment.SectionView && len(o.Cut) == 0
}

// depths is the depth of the nearest and of the farthest outline.
func (s *Sheet) depths() (near, far float64) {
	if len(s.Outs) == 0 {
		return 0, 1
	}
	near, far = math.Inf(-1), math.Inf(1)
	for i := range s.Outs {
		d := s.depth(&s.Outs[i])
		near, far = math.Max(near, d), math.Min(far, d)
	}
	return near, math.Min(far, near-1)
}

func (s *Sheet) depth(o *fitment.Outline) float64 { return depth(s.View, s.Station, o) }

// depth is how near an outline comes to the eye; larger is nearer. The eye
// stands at the rear in a section, at the left in the side view (least Y), ahead
// in the front view (least X) and above in the plan.
func depth(v fitment.View, station float64, o *fitment.Outline) float64 {
	switch v {
	case fitment.SideView, fitment.FrontView:
		return -math.Min(o.Near, o.Far)
	case fitment.SectionView:
		return math.Min(math.Max(o.Near, o.Far), station)
	}
	return math.Max(o.Near, o.Far)
}

// seen paints what lies behind the plane: paper, and a thin border that fades
// with depth.
func (s *Sheet) seen(l *List, o *fitment.Outline, near, far float64) {
	if len(o.Seen) == 0 {
		return
	}
	fade := 0.62 * math.Sqrt(mgl64.Clamp((near-s.depth(o))/(near-far), 0, 1))
	line, width := Paint{Tone: Line, Fade: fade}, Narrow
	if s.View != fitment.SectionView {
		line = Paint{Tone: Ink, Fade: fade}
	}
	if st := s.Parts[o.Part].Status; st != "" {
		line = Paint{Tone: StatusTone(st, Line), Fade: fade / 2}
		width = Narrow * 1.4
	}
	fill := Paint{Tone: Paper}
	if s.chosen(o.Part) {
		fill = Paint{Tone: HandWash}
	}
	k := s.silhouette(o)
	for _, piece := range k.fills {
		l.Fill(fill, 0.4, piece...)
	}
	for _, path := range k.lines {
		l.Ops = append(l.Ops, Op{Kind: LineOp, Pts: path.pts, Closed: path.closed, Width: width, Paint: line})
	}
}

// cut paints what the plane cuts: paper, hatching, bore and a heavy border.
func (s *Sheet) cut(l *List, o *fitment.Outline) {
	line, fill := Paint{Tone: StatusTone(s.Parts[o.Part].Status, Ink)}, Paint{Tone: Paper}
	if s.chosen(o.Part) {
		fill = Paint{Tone: HandWash}
		if line.Tone == Ink {
			line.Tone = Hand
		}
	}
	for _, piece := range o.Cut {
		l.Fill(fill, 0.4, s.screen(piece)...)
	}
	for _, h := range s.hatched(o).lines {
		l.Stroke(Paint{Tone: line.Tone, Fade: 0.45}, Fine, nil, s.Proj.Screen(h[0]), s.Proj.Screen(h[1]))
	}
	for _, piece := range o.Bore {
		l.Fill(Paint{Tone: Paper}, 0, s.screen(piece)...)
	}
	s.strokes(l, o.Bore, line, Narrow, nil)
	s.strokes(l, o.Cut, line, Wide, nil)
}

// hatchAngle turns the hatching of neighbouring parts: ISO 128-50 lets
// adjacent parts differ in direction or spacing.
func hatchAngle(part int) float64 {
	return [...]float64{math.Pi / 4, 3 * math.Pi / 4, math.Pi / 3, 2 * math.Pi / 3}[part%4]
}

// hatchSpacing is the power of two of millimetres nearest to seven pixels, so
// that the hatching stays put while the zoom changes a little.
func hatchSpacing(pxPerMM float64) float64 { return math.Exp2(math.Round(math.Log2(7 / pxPerMM))) }

func (s *Sheet) scale() float64 { return math.Abs(s.Ground.At(0, 0)) }

func (s *Sheet) strokes(l *List, pieces [][]fitment.Pt, p Paint, width float64, dash []float64) {
	s.strokePaths(l, Border(pieces), p, width, dash)
}

func (s *Sheet) strokePaths(l *List, paths []Path, p Paint, width float64, dash []float64) {
	for _, path := range paths {
		l.Ops = append(l.Ops, Op{Kind: LineOp, Pts: s.screen(path.Pts), Closed: path.Closed, Width: width, Dash: dash, Paint: p})
	}
}

func (s *Sheet) screen(pts []fitment.Pt) []mgl64.Vec2 {
	out := make([]mgl64.Vec2, len(pts))
	for i, p := range pts {
		out[i] = s.Proj.Screen(p)
	}
	return out
}

// box is the screen rectangle around pieces.
func (s *Sheet) box(groups ...[][]fitment.Pt) (view.Rect, bool) {
	lo, hi := mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
	found := false
	for _, pieces := range groups {
		for _, piece := range pieces {
			for _, p := range piece {
				q := s.Proj.Screen(p)
				found = true
				for k := range 2 {
					lo[k], hi[k] = math.Min(lo[k], q[k]), math.Max(hi[k], q[k])
				}
			}
		}
	}
	return view.Rect{X: lo[0], Y: lo[1], W: hi[0] - lo[0], H: hi[1] - lo[1]}, found
}
