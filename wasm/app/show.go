package app

import (
	"errors"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// views is how many directions of looking the engine has outlines for.
const views = 4

// showing is what stands in the main drawing's place.
type showing int

const (
	oneLarge showing = iota // one drawing
	four                    // four of them, one of which the fingers work in
	turning                 // the outline of everything, turned by a finger
)

// A canvas that leaves the main drawing less than leastTall pixels is covered,
// by the sheet of a phone: it is laid out as with coveredTall, so that what is
// done meanwhile happens in a drawing one could see.
const leastTall, coveredTall = 24.0, 240.0

// arrange lays the drawings out for a canvas. Four that no longer fit give way
// to one.
func (a *App) arrange(w, h float64) {
	a.lay = view.Arrange(w, h, a.letters)
	if a.lay.Main.H < leastTall {
		a.lay = view.Arrange(w, a.lay.Strip.H+coveredTall, a.letters)
		a.lay.Canvas.H = h
	}
	if a.showing != four {
		return
	}
	if _, ok := a.panes(); !ok {
		a.showing = oneLarge
		return
	}
	a.lay.Main = a.paneOf(a.view)
	a.lay.Strip.W, a.lay.Small = w, view.Rect{} // all that it could show is there already
}

// panes are the places of four drawings, by view; false when they do not fit.
func (a *App) panes() (list [views]view.Rect, ok bool) {
	whole := view.Arrange(a.lay.Canvas.W, a.lay.Canvas.H, a.letters)
	list[fitment.SideView], list[fitment.FrontView], list[fitment.PlanView], list[fitment.SectionView], ok = whole.Four()
	return list, ok
}

func (a *App) paneOf(v fitment.View) view.Rect {
	list, _ := a.panes()
	return list[v]
}

// setShowing changes what stands in the main drawing's place.
func (a *App) setShowing(s showing) {
	if a.showing == s {
		return
	}
	a.showing = s
	a.arrange(a.lay.Canvas.W, a.lay.Canvas.H)
	a.touch()
}

var errSmall = errors.New("this screen is too small for four drawings")

// fourAtOnce shows all four drawings, when the screen has room for them.
func (a *App) fourAtOnce() error {
	if _, ok := a.panes(); !ok {
		return errSmall
	}
	a.setShowing(four)
	return nil
}

// camAt is which camera looks at a view: of four drawings at once each has one
// of its own.
func (a *App) camAt(v fitment.View) int {
	if a.showing == four {
		return views + int(v)
	}
	return int(v)
}

// takeUp makes the one of four drawings that a finger comes down on the one it
// works in.
func (a *App) takeUp(p [2]float64) {
	if a.showing != four {
		return
	}
	list, _ := a.panes()
	for v, r := range list {
		if r.Contains(p) && fitment.View(v) != a.view {
			a.view = fitment.View(v)
			a.lay.Main = r
			a.touch()
		}
	}
}

// smallView is what the second small drawing shows: the section, or from the
// front what the section shows large.
func (a *App) smallView() fitment.View {
	if a.view == fitment.SectionView && a.showing == oneLarge {
		return fitment.FrontView
	}
	return fitment.SectionView
}

// swapSmall makes the small drawing the large one.
func (a *App) swapSmall() {
	v := a.smallView()
	a.setShowing(oneLarge)
	a.view = v
	a.live = a.caption()
	a.touch()
}

// in does something with another view for the one the fingers work in.
func (a *App) in(v fitment.View, r view.Rect, do func()) {
	was, main := a.view, a.lay.Main
	a.view, a.lay.Main = v, r
	do()
	a.view, a.lay.Main = was, main
}

// hurried says that a finger moves something while four drawings follow: the
// dashed lines of what is hidden wait until it rests.
func (a *App) hurried() bool {
	return a.showing == four && (a.hand.mode == dragPart || a.hand.mode == dragStaff || a.hand.mode == dragFlag)
}

// composeMain draws what stands in the main drawing's place, and the second
// small drawing.
func (a *App) composeMain(l *draw.List) {
	switch a.showing {
	case turning:
		a.turnSheet().Compose(l)
	case four:
		list, _ := a.panes()
		active := a.view
		for v := fitment.SectionView; v <= fitment.FrontView; v++ {
			a.in(v, list[v], func() {
				a.mainSheet().Compose(l)
				l.Clip(a.lay.Canvas)
				if v == active {
					draw.Frame(l, list[v])
				}
			})
		}
	default:
		a.mainSheet().Compose(l)
	}
}

// smallFit keeps how the small drawing was fitted: what it shows whole changes
// with the model and the station, but not under the finger.
type smallFit struct {
	model   *fitment.Model
	view    fitment.View
	station float64
	rect    view.Rect
	cam     view.Camera
}

func (a *App) smallCamera(v fitment.View, r view.Rect) view.Camera {
	c := &a.small
	same := c.view == v && c.rect == r
	if same && (a.hand.mode == dragPart || a.hand.mode == dragFlag || c.model == a.model && c.station == a.station) {
		return c.cam
	}
	lo, hi := a.bounds(v)
	*c = smallFit{a.model, v, a.station, r, view.Fit(r, lo, hi, 7)}
	return c.cam
}

// smallSheet is the second small drawing as it stands.
func (a *App) smallSheet() *draw.SmallSheet {
	v, r := a.smallView(), a.lay.Small
	head := draw.SmallHead * a.letters
	below := view.Rect{X: r.X, Y: r.Y + head, W: r.W, H: r.H - head}
	cam := a.smallCamera(v, below)
	s := &draw.SmallSheet{Rect: r, View: v, Proj: a.project(v, cam, below), Ground: cam.Matrix(below), Station: a.station,
		Borders: &a.cache.borders, Layers: a.layers(), Parts: a.looks(false), Selected: -1, Measure: a.measure, Caption: "Front"}
	if v == fitment.SectionView {
		s.Caption = "Section"
	}
	a.in(v, r, func() { s.Outs = a.outs() })
	if a.selected != "" {
		s.Selected = a.partIndex(a.selected)
	}
	for _, m := range a.readings() {
		away := a.station - (m.PointsMM[0][0]+m.PointsMM[1][0])/2
		if v == fitment.SectionView && (away < -marksBehind || away > marksWithin) {
			continue
		}
		s.Marks = append(s.Marks, draw.Mark{Key: m.Key, Status: m.Status, P: view.Drop(v, m.PointsMM[0]), Q: view.Drop(v, m.PointsMM[1])})
	}
	return s
}

// class is a sort of parts that can be left out of the drawing.
type class struct{ id, label string }

// classes in the order they are listed.
var classes = []class{
	{"frame", "Frame"}, {"body", "Body and floors"}, {"suspension", "Suspension and axles"}, {"wheels", "Wheels and tyres"},
	{"drive", "Engine and drive"}, {"exhaust", "Exhaust"}, {"fuel", "Fuel"}, {"electric", "Electrics"},
	{"air", "Air"}, {"brakes", "Brakes"}, {"other", "Everything else"},
}

// classOf is what a part counts as. What it is to the needs decides; a plain
// shape that is nothing in particular is everything else.
func classOf(p *scene.Part) string {
	is := scene.TraitsOf(p)
	for _, by := range [...]struct {
		t  scene.Trait
		id string
	}{
		{scene.Exhaust, "exhaust"}, {scene.Fuel, "fuel"}, {scene.Brake, "brakes"}, {scene.Battery, "electric"}, {scene.Electric, "electric"},
		{scene.Spring, "air"}, {scene.Air, "air"}, {scene.TyreTrait, "wheels"}, {scene.Engine, "drive"}, {scene.Driveshaft, "drive"},
		{scene.Moving, "suspension"}, {scene.Frame, "frame"}, {scene.Floor, "body"},
	} {
		if hasTrait(is, by.t) {
			return by.id
		}
	}
	if k := scene.KindNamed(p.Kind); k != nil && k.Group == "Body" {
		return "body"
	}
	return "other"
}

// hides is what is left out of the drawing, by the index of its class. It is
// how one looks, not what is there: nothing of it goes into the document.
type hides [16]bool

func classIndex(id string) int {
	for i := range classes {
		if classes[i].id == id {
			return i
		}
	}
	return -1
}

// part says whether a part is left out.
func (h *hides) part(p *scene.Part) bool { return *h != hides{} && h[classIndex(classOf(p))] }

// kept are the outlines of what is not left out.
func (h *hides) kept(doc *scene.Document, outs []fitment.Outline) []fitment.Outline {
	if *h == (hides{}) {
		return outs
	}
	var list []fitment.Outline
	for i := range outs {
		if !h.part(&doc.Parts[outs[i].Part]) {
			list = append(list, outs[i])
		}
	}
	return list
}

// key tells one choice from another.
func (h *hides) key() string { return strings.Join(h.names(), ",") }

// names are the classes left out, for people.
func (h *hides) names() []string {
	var out []string
	for i := range classes {
		if h[i] {
			out = append(out, lower(classes[i].label))
		}
	}
	return out
}

// captions say in the drawing that something is left out, the fullest first.
func (h *hides) captions() []string {
	switch n := h.names(); len(n) {
	case 0:
		return []string{""}
	case 1:
		return []string{", " + n[0] + " hidden", ", some hidden"}
	}
	return []string{", some hidden"}
}

// captionOf is the first of heads, the fullest first, that fits over the drawing
// with what else is to be said; that something is hidden is said before all.
func (a *App) captionOf(heads []string, rest string) string {
	hidden := a.hides.captions()
	for _, h := range hidden {
		for _, s := range heads {
			if s += rest + h; a.measure(s, 15, false) <= a.lay.Main.W-28 {
				return s
			}
		}
	}
	if hidden[0] != "" {
		heads, rest = []string{"Some hidden", "Hidden"}, ""
		if a.measure(heads[0], 15, false) <= a.lay.Main.W-28 {
			return heads[0]
		}
	}
	last := heads[len(heads)-1]
	if a.measure(last+rest, 15, false) > a.lay.Main.W-28 {
		return last // cut off, the rest would say nothing
	}
	return last + rest
}

// words say what hiding means, empty when nothing is hidden.
func (h *hides) words() string {
	n := h.names()
	if len(n) == 0 {
		return ""
	}
	return "Hidden in the drawing, still checked: " + strings.Join(n, ", ") + "."
}

// showCommand shows or hides a class, or with no class shows all.
func (a *App) showCommand(c *Command, _ *Reply) error {
	if c.Key == "" {
		a.hides = hides{}
		return nil
	}
	i := classIndex(c.Key)
	if i < 0 {
		return errors.New("there is nothing of that sort to show")
	}
	a.hides[i] = !c.On
	if p := a.partIndex(a.selected); p >= 0 && a.hides.part(&a.doc.Parts[p]) {
		a.selectPart("")
	}
	return nil
}

// ShowItem is one class of parts in the list of what is shown.
type ShowItem struct {
	ID    string `json:"id"`
	Label string `json:"label"`
	Parts int    `json:"parts"` // how many there are
	Short int    `json:"short"` // of these, how many fall short somewhere
	Shown bool   `json:"shown"`
}

// showItems lists the classes that the document has parts of.
func (a *App) showItems(parts []PartItem) []ShowItem {
	list := make([]ShowItem, len(classes))
	for i, c := range classes {
		list[i] = ShowItem{ID: c.id, Label: c.label, Shown: !a.hides[i]}
	}
	for i := range a.doc.Parts {
		it := &list[classIndex(classOf(&a.doc.Parts[i]))]
		it.Parts++
		if i < len(parts) && parts[i].Mark != "" {
			it.Short++
		}
	}
	out := []ShowItem{}
	for _, it := range list {
		if it.Parts > 0 || !it.Shown {
			out = append(out, it)
		}
	}
	return out
}

// showingWord is what stands in the main drawing's place, by the protocol's
// name.
func (a *App) showingWord() string {
	switch a.showing {
	case four:
		return "four"
	case turning:
		return "turn"
	}
	return viewNames[a.view]
}

// seePanels puts in what the page shows of tapes and of what is drawn.
func (a *App) seePanels(p *Panels) {
	s := &p.See
	s.Tapes, s.Taping = a.tapeItems(), a.tapingItem()
	s.Checked = a.checkedItem(s.Tapes)
	s.Show, s.Hidden = a.showItems(p.Parts), a.hides.words()
	_, s.Four = a.panes()
}

// contacts are the pairs of parts that touch at this height, by part index.
func (a *App) contacts() [][2]int {
	var list [][2]int
	for _, r := range a.readings() {
		if i, k := a.partIndex(r.A), a.partIndex(r.B); r.Status == fitment.Contact && r.Service == "" && i >= 0 && k >= 0 {
			list = append(list, [2]int{i, k})
		}
	}
	return list
}

// SeeItems is what the page shows of tapes and of what is drawn.
type SeeItems struct {
	Tapes   []TapeItem  `json:"tapes"`
	Taping  TapingItem  `json:"taping"`
	Checked CheckedItem `json:"checked"`
	Show    []ShowItem  `json:"show"`
	Hidden  string      `json:"hidden"` // what is left out of the drawing, and that it is still checked; empty: nothing
	Four    bool        `json:"four"`   // there is room for four drawings
}
