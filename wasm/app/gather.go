package app

import (
	"fmt"
	"math"
	"strconv"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// gathered are the report's pairs of one status as they are read: each group
// stands where its worst finding does, what is folded behind it.
func (a *App) gathered(w *fitment.Words, s fitment.Status, here map[string]*fitment.Reading) (items []FindingItem) {
	r := a.checked.Check()
	for _, g := range a.checked.Groups() {
		first := &r.Findings[g.Findings[0]]
		if first.Status != s {
			continue
		}
		for n, i := range g.Findings {
			f := &r.Findings[i]
			it := a.pairItem(w, f, here[f.Key()])
			if n > 0 {
				it.Under = first.Key()
			} else {
				it.More = minus(w.GroupMore(r, g))
			}
			items = append(items, it)
		}
	}
	return items
}

// sentence is a finding in the two halves of its sentence.
func (a *App) sentence(w *fitment.Words, f *fitment.Finding) (what, figures string) {
	spans, _ := a.spans(f)
	what, figures = w.Sentence(f, spans)
	if !f.Sure {
		figures += ", within tape tolerance"
	}
	return minus(what), minus(figures)
}

// GapDrawing is the two parts of the open finding at its worst state, drawn in
// the view that shows the gap best. Its plane is in mm, downwards positive.
type GapDrawing struct {
	Key    string     `json:"key"`   // the finding's
	Where  string     `json:"where"` // "Section at 2796, looking forward"
	Box    [4]float64 `json:"box"`   // what is shown: left, top, width, height
	A      GapPart    `json:"a"`     // for a service room: the room
	B      GapPart    `json:"b"`
	P      [2]float64 `json:"p"` // the nearest (or deepest) point of each
	Q      [2]float64 `json:"q"`
	Figure string     `json:"figure"` // "6.2 deep"
	Alt    string     `json:"alt"`
}

// GapPart is one of the two.
type GapPart struct {
	Name string `json:"name"`
	Path string `json:"path"` // convex pieces whose union is the part, as an SVG path
}

// gapKept is the drawing last made, and what of.
type gapKept struct {
	key   string
	model *fitment.Model
	units scene.Units
	made  *GapDrawing
}

// gapDrawing is the drawing of the open finding; nil when no pair is open.
func (a *App) gapDrawing() *GapDrawing {
	if a.finding == "" || a.checked == nil {
		return nil
	}
	k := &a.gap
	if k.key != a.finding || k.model != a.checked || k.units != a.checked.Doc.Show {
		*k = gapKept{key: a.finding, model: a.checked, units: a.checked.Doc.Show}
		fs := a.checked.Check().Findings
		for i := range fs {
			if fs[i].Key() == a.finding {
				k.made = drawGap(a.checked, &fs[i])
			}
		}
	}
	return k.made
}

// drawGap draws a finding. In the section the parts are shown as the plane
// through the gap cuts them, when it cuts both.
func drawGap(m *fitment.Model, f *fitment.Finding) *GapDrawing {
	w := fitment.NewWords(m.Doc)
	v := bestView(f)
	mid := scene.Vec{}
	for i := range mid {
		mid[i] = (f.PointsMM[0][i] + f.PointsMM[1][i]) / 2
	}
	d := &GapDrawing{Key: f.Key(), P: down(view.Drop(v, f.PointsMM[0])), Q: down(view.Drop(v, f.PointsMM[1]))}
	d.A.Name, d.B.Name = upper(w.Name(f.A)), upper(w.Name(f.B))
	if f.Service != "" {
		d.A.Name = "Room for " + f.For
	}
	a, b := partOutlines(m, f, v, mid[0])
	d.A.Path, d.B.Path = pathOf(a), pathOf(b)
	half := math.Max(70, math.Max(1.3*f.NeedMM, 2.2*math.Abs(f.GapMM)))
	c := down(view.Drop(v, mid))
	d.Box = [4]float64{tenth(c[0] - 1.5*half), tenth(c[1] - half), tenth(3 * half), tenth(2 * half)}
	switch v {
	case fitment.SideView:
		d.Where = "Side view, front at the left"
	case fitment.PlanView:
		d.Where = "Plan, front at the left"
	default:
		d.Where = "Section at " + w.Length(math.Round(mid[0])) + ", looking forward"
	}
	what, figures := w.Sentence(f, fitment.Spans{})
	d.Figure = w.Amount(f)
	d.Alt = minus(fmt.Sprintf("%s: %s, %s.", d.Where, what, figures))
	d.Where, d.Figure = minus(d.Where), minus(d.Figure)
	return d
}

// bestView is the view in whose plane the gap lies most.
func bestView(f *fitment.Finding) fitment.View {
	best, least := fitment.SectionView, math.Inf(1)
	for axis, v := range [3]fitment.View{fitment.SectionView, fitment.SideView, fitment.PlanView} {
		if off := math.Abs(f.PointsMM[0][axis] - f.PointsMM[1][axis]); off < least-1 { // a section where it is about as good
			best, least = v, off
		}
	}
	return best
}

// partOutlines are a finding's two parts, or the first one's service room, in
// its worst state.
func partOutlines(m *fitment.Model, f *fitment.Finding, v fitment.View, station float64) (a, b [][]fitment.Pt) {
	find := func(station float64) (x, y *fitment.Outline) {
		outs := m.Outlines(v, station, f.At)
		for i := range outs {
			switch m.Doc.Parts[outs[i].Part].ID {
			case f.A:
				x = &outs[i]
			case f.B:
				y = &outs[i]
			}
		}
		return x, y
	}
	if v == fitment.SectionView {
		if x, y := find(station); len(y.Cut) > 0 && (len(x.Cut) > 0 || f.Service != "") {
			if f.Service != "" {
				return x.Room, y.Cut
			}
			return x.Cut, y.Cut
		}
	}
	x, y := find(farBehind)
	if f.Service != "" {
		return x.Room, y.Seen
	}
	return x.Seen, y.Seen
}

// down turns a point of a view's plane over, as the page draws.
func down(p fitment.Pt) [2]float64 { return [2]float64{tenth(p[0]), tenth(-p[1])} }

func tenth(v float64) float64 { return math.Round(v*10)/10 + 0 }

// pathOf writes pieces as an SVG path.
func pathOf(pieces [][]fitment.Pt) string {
	var b []byte
	for _, piece := range pieces {
		for i, p := range piece {
			if i == 0 {
				b = append(b, 'M')
			} else {
				b = append(b, 'L')
			}
			q := down(p)
			b = strconv.AppendFloat(b, q[0], 'f', -1, 64)
			b = append(b, ' ')
			b = strconv.AppendFloat(b, q[1], 'f', -1, 64)
		}
		if len(piece) > 0 {
			b = append(b, 'Z')
		}
	}
	return string(b)
}
