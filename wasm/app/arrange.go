package app

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"scrubline/scene"
)

// arranging is what is picked to be arranged together, and how.
type arranging struct {
	picking bool     // a tap picks instead of selecting
	picked  []string // part ids, in the order they were picked
	alone   bool     // the selected part moves without its group

	question *question
	asked    int // questions so far: each has a word of its own in the history
	models   modelCache
}

// picked keeps only parts that are there.
func (a *App) stillPicked() []string {
	kept := a.arr.picked[:0:0]
	for _, id := range a.arr.picked {
		if a.partIndex(id) >= 0 {
			kept = append(kept, id)
		}
	}
	return kept
}

// chosen are the parts a command is meant for: what is picked, else the one
// that is selected.
func (a *App) chosen() []string {
	if a.arr.picking {
		return a.stillPicked()
	}
	if a.selected != "" {
		return []string{a.selected}
	}
	return nil
}

// movers are the parts that move when one takes hold of the chosen ones.
func (a *App) movers() []string {
	list := a.chosen()
	if a.arr.alone && !a.arr.picking {
		return list
	}
	return a.doc.Together(list)
}

// staysPut says why the movers cannot be moved now; nil when they can.
func (a *App) staysPut() error {
	for _, id := range a.movers() {
		p, err := a.part(id)
		if err != nil {
			return err
		}
		if err := p.Held(); err != nil {
			return err
		}
	}
	return nil
}

// anyAway is a mover that does not stand at rest, or nil.
func (a *App) anyAway() *scene.Part {
	for _, id := range a.movers() {
		if i := a.partIndex(id); i >= 0 && a.away(&a.doc.Parts[i]) {
			return &a.doc.Parts[i]
		}
	}
	return nil
}

// pickCommand begins to pick several, adds or takes one away, or ends it.
func (a *App) pickCommand(c *Command, _ *Reply) error {
	switch {
	case c.Part == "" && c.On:
		a.beginPicking(a.selected)
	case c.Part == "":
		a.endPicking()
	default:
		if _, err := a.part(c.Part); err != nil {
			return err
		}
		if !a.arr.picking {
			a.beginPicking("")
		}
		a.pick(c.Part, c.On)
	}
	return nil
}

// beginPicking starts with a part picked, or with none.
func (a *App) beginPicking(first string) {
	a.selectPart("")
	a.finding, a.form = "", ""
	a.arr.picking, a.arr.picked = true, nil
	a.live = "Pick parts"
	if first != "" {
		a.pick(first, true)
	}
	a.touch()
}

// endPicking goes back to one part at a time.
func (a *App) endPicking() {
	a.arr.picking, a.arr.picked = false, nil
	a.touch()
}

// pick adds a part to what is picked, or takes it away.
func (a *App) pick(id string, on bool) {
	var list []string
	for _, other := range a.stillPicked() {
		if other != id {
			list = append(list, other)
		}
	}
	if on {
		list = append(list, id)
	}
	a.arr.picked = list
	a.live = a.name(id) + " picked"
	if !on {
		a.live = a.name(id) + " no longer picked"
	}
	a.touch()
}

// isPicked says whether a part is among the picked ones.
func (a *App) isPicked(id string) bool {
	for _, other := range a.arr.picked {
		if other == id {
			return a.arr.picking
		}
	}
	return false
}

// longPressMS is how long a finger rests on a part to pick it with others.
const longPressMS = 550.0

// longPress begins picking with the part under a finger that rests; what was
// selected before is picked first.
func (a *App) longPress() {
	h := &a.hand
	i := a.partAt(h.fingers[0].start)
	if i < 0 || a.showing == turning || a.tape.on {
		return
	}
	was, selected, form, finding := a.arr, a.selected, a.form, a.finding
	h.mode = picked
	h.unpick = func() { // the finger rested and then moved: it is a drag
		a.arr.picking, a.arr.picked = was.picking, was.picked
		a.selected, a.form, a.finding = selected, form, finding
		a.live = ""
		a.touch()
	}
	id := a.doc.Parts[i].ID
	if !a.arr.picking {
		first := a.selected
		a.beginPicking(first)
		if first == id {
			return
		}
	}
	a.pick(id, !a.isPicked(id))
}

// axisOf reads the key of a command: x, y or z.
func axisOf(key string) (int, error) {
	if i := strings.Index("xyz", key); len(key) == 1 && i >= 0 {
		return i, nil
	}
	return 0, fmt.Errorf("an axis is x, y or z, not %q", key)
}

// arranged commits an edit of the chosen parts.
func (a *App) arranged(doc *scene.Document, label string, err error) error {
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}

// ready says why the chosen parts cannot be moved now; nil when they can.
func (a *App) ready() error {
	if len(a.chosen()) == 0 {
		return errors.New("pick a part first")
	}
	if err := a.staysPut(); err != nil {
		return err
	}
	if p := a.anyAway(); p != nil {
		return errors.New(restWords(p))
	}
	return nil
}

func (a *App) align(c *Command, _ *Reply) error {
	axis, err := axisOf(c.Key)
	if err != nil {
		return err
	}
	return a.arranged(scene.AlignParts(a.doc, a.chosen(), axis, scene.Line(c.Text), a.boxes))
}

func (a *App) space(c *Command, _ *Reply) error {
	axis, err := axisOf(c.Key)
	if err != nil {
		return err
	}
	return a.arranged(scene.SpaceParts(a.doc, a.chosen(), axis, a.boxes))
}

func (a *App) turn(c *Command, _ *Reply) error {
	axis, err := axisOf(c.Key)
	if err == nil {
		err = a.ready()
	}
	if err != nil {
		return err
	}
	deg, err := scene.ParseAngle(c.Text)
	if err != nil {
		return err
	}
	return a.arranged(scene.TurnParts(a.doc, a.movers(), axis, deg))
}

// nudge moves the chosen parts by a number of the finest steps.
func (a *App) nudge(c *Command, _ *Reply) error {
	axis, err := axisOf(c.Key)
	if err != nil {
		return err
	}
	if math.IsNaN(c.MM) || math.Abs(c.MM) > 1000 {
		return errors.New("that is too far to nudge")
	}
	var by scene.Vec
	by[axis] = c.MM * a.step()
	return a.moveBy(by)
}

// moveBy moves the chosen parts and what goes with them.
func (a *App) moveBy(by scene.Vec) error {
	if err := a.ready(); err != nil {
		return err
	}
	return a.arranged(scene.MoveParts(a.doc, a.movers(), by))
}

func (a *App) group(c *Command, _ *Reply) error {
	return a.arranged(scene.MakeGroup(a.doc, a.chosen(), c.Text))
}

func (a *App) ungroup(c *Command, _ *Reply) error {
	return a.arranged(scene.Ungroup(a.doc, c.Key))
}

func (a *App) lock(c *Command, _ *Reply) error {
	if _, err := a.part(c.Part); err != nil {
		return err
	}
	return a.arranged(scene.SetLocked(a.doc, c.Part, c.On))
}

func (a *App) aloneCommand(c *Command, _ *Reply) error {
	a.arr.alone = c.On
	return nil
}

// removePicked deletes all that is picked.
func (a *App) removePicked() error {
	list := a.stillPicked()
	if len(list) == 0 {
		return errors.New("pick a part first")
	}
	doc := a.doc
	label := "removed " + fmt.Sprint(len(list)) + " parts"
	for _, id := range list {
		next, one, err := scene.RemovePart(doc, id)
		if err != nil {
			return err
		}
		if doc = next; len(list) == 1 {
			label = one
		}
	}
	a.arr.picked = nil
	return a.commit(doc, label)
}

// copyPicked copies all that is picked; the copies are picked then.
func (a *App) copyPicked(make func(*scene.Document, []string) (*scene.Document, string, error)) error {
	doc, label, err := make(a.doc, a.stillPicked())
	if err != nil {
		return err
	}
	n := len(a.stillPicked())
	if err := a.commit(doc, label); err != nil {
		return err
	}
	a.arr.picked = nil
	for _, p := range a.doc.Parts[len(a.doc.Parts)-n:] {
		a.arr.picked = append(a.arr.picked, p.ID)
	}
	return nil
}

// withMates lets a part's group go along when a typed position moved the part.
func (a *App) withMates(target string, doc *scene.Document, label string) (*scene.Document, string, error) {
	id, ok := strings.CutPrefix(target, "part:")
	i := a.partIndex(id)
	mates := a.doc.Together([]string{id})
	if !ok || i < 0 || len(mates) < 2 || a.arr.alone || len(doc.Parts) != len(a.doc.Parts) {
		return doc, label, nil
	}
	was, is := &a.doc.Parts[i], &doc.Parts[i]
	by := scene.Vec{is.AtMM[0] - was.AtMM[0], is.AtMM[1] - was.AtMM[1], is.AtMM[2] - was.AtMM[2]}
	if was.Carrier != is.Carrier || by == (scene.Vec{}) {
		return doc, label, nil
	}
	return scene.MoveParts(a.doc, mates, by)
}

// setGroup changes a field of a group.
func (a *App) setGroup(id, field, text string) (*scene.Document, string, error) {
	if field != "name" {
		return nil, "", fmt.Errorf("a group has no field %q", field)
	}
	return scene.RenameGroup(a.doc, id, text)
}
