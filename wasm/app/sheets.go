package app

import (
	"math"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// mainSheet is the main view as it stands.
func (a *App) mainSheet() *draw.Sheet {
	s := &draw.Sheet{
		Rect: a.lay.Main, View: a.view, Proj: a.projection(), Ground: a.camera().Matrix(a.lay.Main),
		Station: a.station, Outs: a.outs(), Borders: &a.cache.borders, Layers: a.layers(), Parts: a.looks(true), Selected: a.partIndex(a.selected),
		Photos: a.photosHere(), Marks: a.marks(), Links: a.links(), Tapes: a.tapeLines(), Guides: a.hand.on, RimText: "rim line", Measure: a.measure,
		Caption: a.caption(),
	}
	s.Ghost, s.Room = a.ghostHere(), a.roomHere()
	s.Held, s.Contacts = a.tapeHeld(), a.contacts()
	if a.hand.mode == dragPart {
		s.Readout = a.readout()
	}
	if a.selected == "" {
		s.Selected = -1
	}
	if a.view != fitment.SectionView && !a.hurried() {
		s.Hidden = a.cache.main[a.view].hiddenLines(&a.cache.borders)
	}
	s.RimLine = a.model.RimLine(a.state())
	s.Lowest = a.lowest(s)
	s.Over = a.chips()
	return s
}

// chips are about where the page lays its ways out over the drawing, below the
// caption: back to where the body stood, and which variant is shown (app.css,
// variants.css). No words may stand below them.
func (a *App) chips() []view.Rect {
	em := func(px float64) float64 { return px * max(a.letters, 1) }
	r := view.Rect{X: a.lay.Canvas.X + 10, Y: a.lay.Canvas.Y + 12 + em(30), H: max(44, em(28))}
	var list []view.Rect
	add := func(text string) {
		r.W = a.measure(text, em(15), true) + 30
		list = append(list, r)
		r.Y += 52
	}
	if v := a.doc.VariantNamed(a.doc.Shown); v != nil {
		add("Variant: " + v.Name)
	}
	if back := a.backWords(); back != "" {
		add(back)
	}
	return list
}

// caption says what the main view shows, in as many words as fit.
func (a *App) caption() string {
	posed := ""
	if st := a.posed; st != nil {
		if st.FL != st.FR || st.RL != st.RR {
			posed += ", one side down"
		}
		if st.Steer != 0 {
			posed += ", wheels steered"
		}
	}
	return a.captionOf(a.viewCaptions(), posed+a.movedCaption())
}

// viewCaptions are the captions of the view, the fullest first.
func (a *App) viewCaptions() []string {
	switch a.view {
	case fitment.SideView:
		return []string{"Side, from the left", "Side"}
	case fitment.FrontView:
		return []string{"Front, looking rearward", "From the front", "Front"}
	case fitment.PlanView:
		return []string{"Plan, from above, front at the left", "Plan, front at the left", "Plan"}
	}
	const way = ", looking forward"
	switch mm := a.station; {
	case a.measured(mm) == "0":
		return []string{"Section at the front axle" + way, "Section at the front axle", "At the front axle"}
	case mm < 0:
		s := "Section at " + a.length(-mm) + " ahead"
		return []string{s + " of front axle" + way, s + " of front axle", s, a.length(-mm) + " ahead"}
	default:
		s := "Section at " + a.length(mm)
		return []string{s + " behind front axle" + way, s + " behind front axle", s, "At " + a.length(mm)}
	}
}

// readout is where the dragged part stands along the two axes it moves in, as
// the tape would measure it.
func (a *App) readout() string {
	p, err := a.part(a.hand.part)
	if err != nil {
		return ""
	}
	labels := positionLabels(p.Carrier)
	words := make([]string, 0, 2)
	for _, axis := range axes(a.view) {
		label, mm := labels[axis][0], p.AtMM[axis]
		if mm < 0 {
			label, mm = opposite(label), -mm
		}
		words = append(words, label+" "+a.measured(mm))
	}
	text := words[0] + ", " + lower(words[1])
	if room := a.roomWords(); room != "" {
		text += ": " + room
	}
	return text
}

// opposite is a position's label on its negative side.
func opposite(label string) string {
	for _, w := range [3][2]string{{"Right", "Left"}, {"Above", "Below"}, {"Behind", "Ahead of"}} {
		if rest, ok := strings.CutPrefix(label, w[0]); ok {
			return w[1] + rest
		}
	}
	return "Station −"
}

// looks is what the drawing needs to know of each part. With coloured, a part
// that falls short here is drawn in its colour. A long part, a rail or a body,
// is touched at one place only, and to colour all of it would say nothing: in
// the section it is coloured near that place, in the other views the mark
// alone says where.
func (a *App) looks(coloured bool) []draw.PartLook {
	list := make([]draw.PartLook, len(a.doc.Parts))
	for i := range a.doc.Parts {
		p := &a.doc.Parts[i]
		list[i] = draw.PartLook{Name: p.Name, Wheel: hasTrait(scene.TraitsOf(p), scene.TyreTrait), Picked: a.isPicked(p.ID)}
	}
	if !coloured {
		return list
	}
	if i := a.partIndex(a.roomOf(a.finding)); i >= 0 {
		list[i].Room = true
	}
	var long []bool // only asked where it matters: it takes the side view
	if a.view != fitment.SectionView {
		long = a.longParts()
	}
	for _, r := range a.readings() {
		if a.view == fitment.SectionView && math.Abs(a.ahead(&r)) > figuresWithin {
			continue
		}
		for _, id := range [2]string{r.A, r.B} {
			i := a.partIndex(id)
			if i >= 0 && list[i].Status != fitment.Contact && !(a.view != fitment.SectionView && long[i]) {
				list[i].Status = r.Status
			}
		}
	}
	return list
}

// roomOf is the part whose service room a finding is about; empty for none.
func (a *App) roomOf(key string) string {
	if a.checked == nil || key == "" {
		return ""
	}
	fs := a.checked.Check().Findings
	for i := range fs {
		if fs[i].Key() == key {
			return fs[i].Service
		}
	}
	return ""
}

// longMM is from where on a part is long: see [App.looks].
const longMM = 2000

// longParts says by part index which parts are long.
func (a *App) longParts() []bool {
	a.sideOuts()
	e := &a.cache.side
	if e.long == nil {
		e.long = make([]bool, len(a.doc.Parts))
		for _, o := range e.outs {
			if x, ok := view.ExtentOf(o.Seen); ok {
				e.long[o.Part] = x.Hi[0]-x.Lo[0] > longMM
			}
		}
	}
	return e.long
}

// ahead is how far before the section plane a reading's place lies, mm.
func (a *App) ahead(r *fitment.Reading) float64 {
	return a.station - (r.PointsMM[0][0]+r.PointsMM[1][0])/2
}

// Millimetres from the section plane within which a mark stands with its
// figures, and within which it is shown at all.
const (
	figuresWithin = 250.0
	marksWithin   = 700.0
	marksBehind   = 40.0 // on the viewer's side: what the plane has just missed
)

// marks are the places in the main view where something touches or is too
// close at this height. In a section, what lies behind the viewer or far ahead
// is left out; the strip below shows all.
func (a *App) marks() []draw.Mark {
	var list []draw.Mark
	for _, r := range a.readings() {
		m := draw.Mark{Key: r.Key, Status: r.Status, Selected: r.Key == a.finding,
			P: view.Drop(a.view, r.PointsMM[0]), Q: view.Drop(a.view, r.PointsMM[1])}
		away := 0.0
		if a.view == fitment.SectionView {
			away = a.ahead(&r)
		}
		if (away < -marksBehind || away > marksWithin) && !m.Selected {
			continue
		}
		if away < figuresWithin || m.Selected {
			m.Text = a.measured(r.GapMM) + ", needs " + a.measured(r.NeedMM)
			if r.Service != "" {
				m.Text = a.measured(-r.GapMM) + " into its room"
			}
		}
		list = addMark(list, m)
	}
	return a.betweenMark(a.limitMarks(a.hangingMarks(list)))
}

// addMark puts a selected mark first, so that its figures find the best place.
func addMark(list []draw.Mark, m draw.Mark) []draw.Mark {
	if m.Selected {
		return append([]draw.Mark{m}, list...)
	}
	return append(list, m)
}

// hangingMarks adds the lowest points of what hangs below the rim line here:
// in a section those close to the plane, elsewhere the selected one only, for
// at a low height there are many and the rim line shows them all.
func (a *App) hangingMarks(list []draw.Mark) []draw.Mark {
	if a.checked == nil || a.checked != a.model {
		return list
	}
	keys := map[string]string{}
	for _, h := range hangings(a.checked.Check()) {
		keys[h.Part] = h.key()
	}
	c := &a.here().lowest
	for _, b := range c.Below {
		p := view.Drop(a.view, b.PointMM)
		m := draw.Mark{Key: keys[b.Part], Status: fitment.Tight, P: p, Q: p,
			Selected: a.finding != "" && keys[b.Part] == a.finding,
			Text:     a.measured(c.RimLineMM-b.GroundMM) + " below the rim line"}
		if b.GroundMM <= 0 {
			m.Status, m.Text = fitment.Contact, "on the ground"
		}
		near := a.view == fitment.SectionView && math.Abs(a.station-b.PointMM[0]) < figuresWithin
		if m.Selected || near && m.Key != "" {
			list = addMark(list, m)
		}
	}
	return list
}

// lowest is the ground clearance to dimension: in the section, of what the
// plane cuts; in the side view, of the whole vehicle.
func (a *App) lowest(s *draw.Sheet) *draw.Drop {
	if a.view == fitment.PlanView {
		return nil
	}
	if a.view == fitment.SideView || a.view == fitment.FrontView {
		c := a.model.Clearance(a.state())
		if c.Part == "" {
			return nil
		}
		return &draw.Drop{From: view.Drop(a.view, c.PointMM), Text: a.measured(c.GroundMM) + " " + a.plain(c.Part)}
	}
	n, c := a.model.GroundPlane(a.state())
	best, from, part := math.Inf(1), fitment.Pt{}, -1
	for i := range s.Outs {
		o := &s.Outs[i]
		if s.Parts[o.Part].Wheel || a.doc.Parts[o.Part].Carrier == scene.Ground {
			continue
		}
		for _, piece := range o.Cut {
			for _, p := range piece {
				if h := n[0]*a.station + n[1]*p[0] + n[2]*p[1] + c; h < best {
					best, from, part = h, p, o.Part
				}
			}
		}
	}
	if math.IsInf(best, 1) {
		return nil
	}
	d := &draw.Drop{From: from, Text: a.measured(best) + " " + fitment.PlainName(a.doc.Parts[part].Name)}
	if all := a.model.Clearance(a.state()); all.Part != "" && all.Part != a.doc.Parts[part].ID && all.GroundMM < best-0.05 {
		d.More = "lowest of all " + a.measured(all.GroundMM) + ": " + a.plain(all.Part)
	}
	return d
}

// staffSheet is the height staff as it stands.
func (a *App) staffSheet() *draw.StaffSheet {
	t := &a.travel
	s := &draw.StaffSheet{
		Staff: a.staff(), Units: a.doc.Show, Apart: a.apart, Measure: a.measure, Format: a.level,
		At: t.Coord(a.front, a.rear),
	}
	if a.apart {
		s.At, s.Front = a.rear, a.front
	}
	s.Text, s.TextF = a.level(s.At), a.level(a.front)
	for _, h := range a.doc.Heights {
		mm := t.Coord(h.FrontMM, h.RearMM)
		s.Named = append(s.Named, draw.Rung{MM: mm, Number: a.level(mm), Words: []string{lower(h.Name), lastWord(h.Name)}, First: true})
	}
	s.Rungs = a.rungs()
	return s
}

// stripSheet is the side strip as it stands.
func (a *App) stripSheet() *draw.StripSheet {
	s := &draw.StripSheet{
		Rect: a.lay.Strip, Proj: a.stripProjection(), Ground: a.strip.Matrix(a.lay.Strip),
		Outs: a.sideOuts(), Borders: &a.cache.borders, Layers: a.layers(), Parts: a.looks(false), Selected: -1, Station: a.station,
		Text: a.length(math.Round(a.station*10) / 10), Measure: a.measure, Letters: a.letters,
	}
	if a.selected != "" {
		s.Selected = a.partIndex(a.selected)
	}
	for _, r := range a.readings() {
		s.Marks = append(s.Marks, draw.Mark{Key: r.Key, Status: r.Status,
			P: view.Drop(fitment.SideView, r.PointsMM[0]), Q: view.Drop(fitment.SideView, r.PointsMM[1])})
	}
	return s
}
