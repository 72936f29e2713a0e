package app

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// taping is the laying of a tape with two taps.
type taping struct {
	on    bool
	from  *scene.TapeEnd // the first end; nil: not held to anything yet
	laid  string         // the tape laid last, whose second end can still be another one near by
	picks []scene.TapeEnd
	pick  int    // of picks, the one that was taken
	shown string // the tape that is looked at
	known featureCache
}

// tapeCommand begins or ends laying tapes.
func (a *App) tapeCommand(c *Command, _ *Reply) error {
	a.tape = taping{on: c.On, shown: a.tape.shown}
	if c.On {
		a.arr.picking, a.arr.picked = false, nil
		a.selectPart("")
		a.finding = ""
	}
	return nil
}

// tapTape holds the tape to what is nearest to the finger: first one end, then
// the other.
func (a *App) tapTape(p mgl64.Vec2) {
	t := &a.tape
	var picks []scene.TapeEnd
	for _, k := range a.picksAt(p) {
		if t.from == nil || k.end != *t.from {
			picks = append(picks, k.end)
		}
	}
	if len(picks) == 0 {
		a.say("Nothing to hold the tape to here. Tap a corner, an edge, an end or a centre.")
		return
	}
	t.picks, t.pick = picks, 0
	a.holdTape(picks[0])
}

// holdTape takes an end: the first one, or the second, which lays the tape.
func (a *App) holdTape(e scene.TapeEnd) {
	t := &a.tape
	defer a.touch()
	if t.from == nil {
		t.from, t.laid = &e, ""
		a.live = "First end: " + a.model.EndWords(e)
		return
	}
	if err := a.layTape(*t.from, e); err != nil {
		a.say(sentence(err.Error()))
		return
	}
	t.from = nil
}

// layTape puts the tape into the document. One that is laid again, with its
// second end somewhere else near by, takes the place of the last.
func (a *App) layTape(from, to scene.TapeEnd) error {
	if _, err := a.model.Tape(from, to, a.state()); err != nil {
		return err
	}
	doc := a.doc
	if a.tape.laid != "" {
		next, _, err := scene.RemoveTape(doc, a.tape.laid)
		if err != nil {
			return err
		}
		doc = next
	}
	doc, label, err := scene.AddTape(doc, a.tapeName(from, to), from, to)
	if err != nil {
		return err
	}
	if err := doc.VariantsHold(); err != nil {
		return err
	}
	if err := a.show(doc); err != nil {
		return err
	}
	id := doc.Tapes[len(doc.Tapes)-1].ID
	a.hist.DoWithin("tape "+id, doc, label)
	a.save()
	a.tape.laid, a.tape.shown = id, id
	it := a.tapeItem(doc.TapeNamed(id))
	a.live = it.Ends + ": " + it.Length
	return nil
}

// tapeName is what a new tape is called: what it goes between, in few words.
func (a *App) tapeName(from, to scene.TapeEnd) string {
	one := func(e scene.TapeEnd) string {
		if e.Datum != "" {
			return a.model.EndWords(e)
		}
		return a.name(e.Part)
	}
	if from.Part != "" && from.Part == to.Part {
		return a.name(from.Part) + ", end to end"
	}
	return upper(one(from)) + " to " + lower(one(to))
}

// tapeNext takes the next of what lies under the finger in place of what was
// taken.
func (a *App) tapeNext(*Command, *Reply) error {
	t := &a.tape
	if len(t.picks) < 2 {
		return errors.New("there is nothing else here")
	}
	t.pick = (t.pick + 1) % len(t.picks)
	e := t.picks[t.pick]
	if t.from != nil {
		t.from = &e
		a.live = "First end: " + a.model.EndWords(e)
		return nil
	}
	old := a.doc.TapeNamed(t.laid)
	if old == nil {
		return errors.New("the tape is gone")
	}
	return a.layTape(old.From, e)
}

// tapeDatum holds the tape to a datum that is no place to tap in this view.
func (a *App) tapeDatum(c *Command, _ *Reply) error {
	e := scene.TapeEnd{Datum: c.Key}
	if _, ok := a.model.TapeEnd(e, a.state()); !ok {
		return fmt.Errorf("there is no datum %q", c.Key)
	}
	if a.tape.from != nil && *a.tape.from == e {
		return errors.New("the other end must be another place")
	}
	a.tape.on, a.tape.picks = true, nil
	if a.tape.from != nil {
		if err := a.layTape(*a.tape.from, e); err != nil {
			return err
		}
		a.tape.from = nil
		return nil
	}
	a.holdTape(e)
	return nil
}

func (a *App) renameTape(c *Command, _ *Reply) error {
	return a.committed(scene.RenameTape(a.doc, c.Key, c.Text))
}

func (a *App) deleteTape(c *Command, _ *Reply) error {
	if a.tape.laid == c.Key {
		a.tape.laid, a.tape.picks = "", nil
	}
	return a.committed(scene.RemoveTape(a.doc, c.Key))
}

// committed makes the outcome of an edit the current document.
func (a *App) committed(doc *scene.Document, label string, err error) error {
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}

// showTape takes the view to a tape.
func (a *App) showTape(c *Command, _ *Reply) error {
	t := a.doc.TapeNamed(c.Key)
	if t == nil {
		return errors.New("the tape is gone")
	}
	if a.tape.shown == c.Key {
		a.tape.shown = ""
		return nil
	}
	a.tape.shown = c.Key
	r, err := a.model.Tape(t.From, t.To, a.state())
	if err != nil {
		return err
	}
	var mid scene.Vec
	for k := range mid {
		mid[k] = (r.PointsMM[0][k] + r.PointsMM[1][k]) / 2
	}
	if a.showing == turning {
		return nil
	}
	if a.view == fitment.SectionView {
		a.setStation(math.Max(r.PointsMM[0][0], r.PointsMM[1][0]))
	}
	proj := a.projection()
	for _, p := range r.PointsMM {
		if !a.lay.Main.Inset(30).Contains(proj.Screen(view.Drop(a.view, p))) {
			a.centreOn(view.Drop(a.view, mid))
			break
		}
	}
	return nil
}

// alongWords are the lengths along the vehicle's axes: "300 back, 86 up".
func (a *App) alongWords(d scene.Vec) string {
	var words []string
	for k, w := range [3][2]string{{"forward", "back"}, {"left", "right"}, {"down", "up"}} {
		side := w[1]
		if d[k] < 0 {
			side = w[0]
		}
		if s := a.measured(math.Abs(d[k])); s != "0" {
			words = append(words, s+" "+side)
		}
	}
	return strings.Join(words, ", ")
}

// straight says whether a tape lies along one axis, so that its length is all
// there is to say.
func straight(d scene.Vec, length float64) bool {
	for k := range d {
		if length-math.Abs(d[k]) < 0.05 {
			return true
		}
	}
	return false
}

// tapeLines are the tapes in the drawing. Those that a section has both ends
// behind the viewer's back are left out, and those of hidden parts.
func (a *App) tapeLines() []draw.TapeLine {
	var list []draw.TapeLine
	spot := a.spots()
	for i := range a.doc.Tapes {
		t := &a.doc.Tapes[i]
		r, err := a.model.Tape(t.From, t.To, a.state())
		if err != nil || t.ID != a.tape.shown && (a.hiddenEnd(t.From) || a.hiddenEnd(t.To)) {
			continue
		}
		// In a section that it does not lie in it would measure something else.
		if a.showing != turning && a.view == fitment.SectionView && (t.ID != a.tape.shown || !a.tape.on) &&
			math.Min(r.PointsMM[0][0], r.PointsMM[1][0]) > a.station+marksBehind {
			continue
		}
		k := draw.TapeLine{Text: a.measured(r.LengthMM), Selected: t.ID == a.tape.shown}
		k.P, _ = spot(r.PointsMM[0])
		k.Q, _ = spot(r.PointsMM[1])
		if !straight(r.AlongMM, r.LengthMM) {
			k.More = a.alongWords(r.AlongMM)
		}
		list = append(list, k)
	}
	return list
}

func (a *App) hiddenEnd(e scene.TapeEnd) bool {
	i := a.partIndex(e.Part)
	return e.Part != "" && i >= 0 && a.hides.part(&a.doc.Parts[i])
}

// tapeHeld is the first end of the tape that is being laid, nil for none.
func (a *App) tapeHeld() *draw.TapePoint {
	if a.tape.from == nil {
		return nil
	}
	f, ok := a.model.TapeEnd(*a.tape.from, a.state())
	if !ok || a.tape.from.Datum != "" && f.Normal != (scene.Vec{}) {
		return nil // a plane is everywhere
	}
	p := &draw.TapePoint{Words: a.model.EndWords(*a.tape.from)}
	p.At, _ = a.spots()(f.At)
	return p
}

// spots tells where a point of the body stands on the screen in the drawing that
// the fingers work in, and how near it is to the eye (mm, larger is nearer).
func (a *App) spots() func(p scene.Vec) (mgl64.Vec2, float64) {
	if a.showing == turning {
		cam, r := *a.turnCam(), a.lay.Main
		return func(p scene.Vec) (mgl64.Vec2, float64) { return cam.Screen(r, p) }
	}
	proj, v := a.projection(), a.view
	return func(p scene.Vec) (mgl64.Vec2, float64) {
		depth := p[0]
		switch v {
		case fitment.FrontView:
			depth = -p[0]
		case fitment.SideView:
			depth = -p[1]
		case fitment.PlanView:
			depth = p[2]
		}
		return proj.Screen(view.Drop(v, p)), depth
	}
}
