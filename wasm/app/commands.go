package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// Send does one command of the page: JSON in, JSON out.
func (a *App) Send(text string) string {
	var c Command
	r := Reply{}
	if err := json.Unmarshal([]byte(text), &c); err != nil {
		r.Error = "The page sent a command that cannot be read: " + err.Error()
	} else {
		r = a.do(c)
	}
	out, err := json.Marshal(r)
	if err != nil {
		return "{}" // plain strings always marshal
	}
	return string(out)
}

// do does one command. An error leaves everything as it was.
func (a *App) do(c Command) Reply {
	var r Reply
	do := commands[c.Do]
	if do == nil {
		r.Error = fmt.Sprintf("There is no command %q.", c.Do)
		return r
	}
	if a.hand.mode != idle && c.Do != "save" && c.Do != "steps" {
		// A finger is down on the canvas: what it began is not what is meant.
		a.rollBack()
		a.hand.mode = spent
	}
	if err := do(a, &c, &r); err != nil {
		r.Error = sentence(err.Error())
		if at := new(entryError); errors.As(err, &at) {
			r.Field = at.field
		}
		return r
	}
	a.touch()
	return r
}

// sentence makes an error text a sentence for people.
func sentence(s string) string {
	s = upper(strings.TrimSpace(s))
	if s != "" && !strings.HasSuffix(s, ".") {
		s += "."
	}
	return s
}

// commands by their names in the protocol. It is filled in init because the
// commands themselves reach back to it.
var commands map[string]func(*App, *Command, *Reply) error

func init() {
	commands = map[string]func(*App, *Command, *Reply) error{
		"open": (*App).open, "starter": (*App).starter, "save": (*App).saveCommand, "steps": (*App).stepsCommand,
		"undo": (*App).undo, "redo": (*App).redo,
		"place": (*App).place, "select": (*App).selectCommand, "edit": (*App).edit, "row": (*App).row,
		"delete": (*App).remove, "duplicate": (*App).duplicate, "mirror": (*App).mirror,
		"join": (*App).join, "finding": (*App).findingCommand, "near": (*App).near, "back": (*App).back,
		"room": (*App).roomCommand,
		"mend": (*App).mendCommand, "mend_take": (*App).takeMend, "mend_show": (*App).ghostCommand,
		"ladder": (*App).ladderCommand, "rung": (*App).rungCommand, "suppose": (*App).suppose,
		"view": (*App).viewCommand, "fit": (*App).fit, "station": (*App).stationCommand,
		"needs": (*App).needsCommand, "height_add": (*App).heightAdd, "height_drop": (*App).heightDrop,
		"height": (*App).heightCommand, "named": (*App).named, "apart": (*App).apartCommand,
		"move": (*App).moveCommand, "rest": (*App).rest, "let_move": (*App).letMove, "stop_move": (*App).stopMove,
		"pick": (*App).pickCommand, "align": (*App).align, "space": (*App).space, "turn": (*App).turn, "nudge": (*App).nudge,
		"group": (*App).group, "ungroup": (*App).ungroup, "lock": (*App).lock, "alone": (*App).aloneCommand, "follow": (*App).follow,
		"photo_take": (*App).photoTake, "photo_try": (*App).photoTry, "photo_put": (*App).photoPut, "photo_get": (*App).photoGet, "photo_set": (*App).photoSet,
		"photo_remove": (*App).photoRemove, "photo_show": (*App).photoShow, "photo_hold": (*App).photoHold,
		"tape": (*App).tapeCommand, "tape_next": (*App).tapeNext, "tape_datum": (*App).tapeDatum, "tape_name": (*App).renameTape,
		"tape_delete": (*App).deleteTape, "tape_show": (*App).showTape, "check": (*App).checkCommand,
		"show": (*App).showCommand, "look_from": (*App).lookCommand,
		"units": (*App).units, "theme": (*App).theme, "letters": (*App).lettersCommand, "form": (*App).formCommand,
		"variant": (*App).variantCommand, "variant_new": (*App).variantNew, "variant_set": (*App).variantSet,
		"variant_drop": (*App).variantDrop, "variant_take": (*App).variantTake, "compare": (*App).compareCommand,
		"shelf": (*App).shelfCommand, "shelf_add": (*App).shelfAdd, "shelf_place": (*App).shelfPlace,
		"shelf_keep": (*App).shelfKeep, "shelf_drop": (*App).shelfDrop,
		"begin": (*App).beginCommand, "measured": (*App).measuredCommand, "unmeasured": (*App).toUnmeasured,
	}
}

func (a *App) open(c *Command, r *Reply) error {
	doc, err := scene.Decode([]byte(c.Text))
	if err != nil {
		if c.Name != "" {
			return fmt.Errorf("cannot open %s: %w", c.Name, err)
		}
		return err
	}
	if doc.Name == "" {
		doc.Name = strings.TrimSuffix(c.Name, ".json")
	}
	r.Name = doc.Name
	return a.replace(doc, c.Steps, !c.On)
}

// starter keeps the unit the user reads.
func (a *App) starter(*Command, *Reply) error {
	doc := scene.Unanswered()
	doc.Show = a.doc.Show
	return a.replace(doc, "", true)
}

// replace puts another document on the sheet, with the steps that were kept of
// it, and has it kept where the page has it not.
func (a *App) replace(doc *scene.Document, steps string, keep bool) error {
	if err := a.begin(doc); err != nil {
		return err
	}
	a.takeSteps(steps)
	a.wait = 2
	if keep {
		a.save()
	}
	return nil
}

func (a *App) saveCommand(_ *Command, r *Reply) error {
	r.Text = string(scene.Encode(a.shownIn(a.hist.Doc(), a.doc.Show)))
	r.Name = fileName(a.doc.Name)
	return nil
}

// fileName is a name every file system takes.
func fileName(name string) string {
	s := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		case r >= 'A' && r <= 'Z':
			return r + 'a' - 'A'
		case r == ' ', r == '-', r == '_':
			return '-'
		}
		return -1
	}, name)
	s = strings.Trim(s, "-")
	if s == "" {
		s = "vehicle"
	}
	return s + ".json"
}

func (a *App) undo(*Command, *Reply) error {
	return a.travelBack(a.hist.Undo, "undone: ", a.hist.UndoLabel())
}

func (a *App) redo(*Command, *Reply) error {
	return a.travelBack(a.hist.Redo, "done again: ", a.hist.RedoLabel())
}

// travelBack shows what the history gives and keeps it.
func (a *App) travelBack(step func() (*scene.Document, bool), word, label string) error {
	doc, ok := step()
	if !ok {
		return nil
	}
	if err := a.show(a.shownIn(doc, a.doc.Show)); err != nil {
		return err
	}
	a.arr.question = nil
	a.live = upper(word + label)
	if label == beginLabel {
		clear(a.fitted[:]) // it is another vehicle
	}
	a.fitStrip()
	a.save()
	return nil
}

// part is the document's part of an id.
func (a *App) part(id string) (*scene.Part, error) {
	if i := a.partIndex(id); i >= 0 {
		return &a.doc.Parts[i], nil
	}
	return nil, fmt.Errorf("there is no part %q any more", id)
}

// place puts a new part into the middle of the view: there in the two axes the
// view shows, and in the third at the station or at the middle of the vehicle.
func (a *App) place(c *Command, _ *Reply) error {
	k := scene.KindNamed(c.Kind)
	if k == nil {
		return fmt.Errorf("there is no kind of part %q", c.Kind)
	}
	doc, label, err := scene.AddPart(a.doc, c.Kind, a.placeAt(k))
	if err != nil {
		return err
	}
	doc, said := a.fittedPart(doc)
	if err := a.commit(doc, label); err != nil {
		return err
	}
	id := doc.Parts[len(doc.Parts)-1].ID
	a.selectPart(id)
	a.finding = ""
	a.reveal(id)
	if said != "" {
		a.say(said)
	}
	return nil
}

// placeAt is where a new part goes, from its carrier's origin. What cannot
// ride on the body belongs to its axle or wheel: it goes to the origin there.
func (a *App) placeAt(k *scene.Kind) scene.Vec {
	rides := false
	for _, on := range k.Carriers {
		rides = rides || on == scene.Body
	}
	if !rides {
		return scene.Vec{}
	}
	at := scene.Vec{a.station, 0, 0}
	proj := a.projection()
	mid := proj.World(a.lay.Main.Middle())
	first, second := view.Axes(a.view)
	grid := view.Grid(a.doc.Show, 0)
	at[first], at[second] = mid[0], mid[1]
	origin := a.model.CarrierOrigin(k.Carriers[0])
	for i := range at {
		at[i] = math.Round(view.Round(at[i]-origin[i], grid)*1000) / 1000
	}
	return at
}

func (a *App) selectCommand(c *Command, _ *Reply) error {
	a.focus = ""
	a.endPicking()
	if c.Part == "" {
		a.finding = ""
		a.selectPart("")
		return nil
	}
	if _, err := a.part(c.Part); err != nil {
		return err
	}
	a.selectPart(c.Part)
	a.reveal(c.Part)
	return nil
}

// reveal takes the section to a part that it does not show, and the view to a
// part that is off the sheet.
func (a *App) reveal(id string) {
	i := a.partIndex(id)
	for _, o := range a.sideOuts() {
		e, ok := view.ExtentOf(o.Seen)
		if o.Part != i || !ok || a.view != fitment.SectionView {
			continue
		}
		if a.station < e.Lo[0] || a.station > e.Hi[0] {
			a.setStation((e.Lo[0] + e.Hi[0]) / 2)
		}
	}
	proj := a.projection()
	for _, o := range a.outs() {
		if o.Part != i {
			continue
		}
		if e, ok := view.ExtentOf(o.Cut, o.Seen); ok {
			mid := fitment.Pt{(e.Lo[0] + e.Hi[0]) / 2, (e.Lo[1] + e.Hi[1]) / 2}
			if !a.lay.Main.Inset(20).Contains(proj.Screen(mid)) {
				a.centreOn(mid)
			}
		}
	}
}

func (a *App) edit(c *Command, _ *Reply) error {
	if c.Target == "scene" && c.Field == "show" {
		return a.units(&Command{Text: c.Text}, nil)
	}
	if c.Target == heightsForm {
		c.Target = "scene"
	}
	set := scene.SetField
	if strings.HasPrefix(c.Target, needForm) {
		set = func(_ *scene.Document, target, field, text string) (*scene.Document, string, error) {
			return a.setPairNeed(target, field, text)
		}
	}
	if kinds, ok := strings.CutPrefix(c.Target, kindsTarget); ok {
		set = func(_ *scene.Document, _, field, text string) (*scene.Document, string, error) {
			return a.setKindNeed(kinds, field, text)
		}
	}
	if m, ok := strings.CutPrefix(c.Field, movePrefix); ok {
		set = func(_ *scene.Document, target, _, text string) (*scene.Document, string, error) {
			return a.setMovement(target, m, text)
		}
	}
	if t, ok := strings.CutPrefix(c.Field, traitPrefix); ok {
		set = func(_ *scene.Document, target, _, text string) (*scene.Document, string, error) {
			return a.setTrait(target, scene.Trait(t), text)
		}
	}
	if id, ok := strings.CutPrefix(c.Target, groupPrefix); ok {
		set = func(_ *scene.Document, _, field, text string) (*scene.Document, string, error) {
			return a.setGroup(id, field, text)
		}
	}
	if m, ok := strings.CutPrefix(c.Field, measuredPrefix); ok {
		set = func(_ *scene.Document, target, _, text string) (*scene.Document, string, error) {
			return a.setMeasured(target, m, text)
		}
	}
	if end, ok := barsEnd(c.Target, c.Field); ok {
		set = func(*scene.Document, string, string, string) (*scene.Document, string, error) {
			return a.setBars(end, c.Text == "true")
		}
	}
	doc, label, err := set(a.doc, c.Target, c.Field, c.Text)
	if err == nil {
		doc, label, err = a.withMates(c.Target, doc, label)
	}
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}

func (a *App) row(c *Command, _ *Reply) error {
	change := scene.RemoveRow
	if c.Add {
		change = scene.AddRow
	}
	doc, label, err := change(a.doc, c.Target, c.Field, c.Row)
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}

func (a *App) remove(c *Command, _ *Reply) error {
	if c.Part == "" && a.arr.picking {
		return a.removePicked()
	}
	if _, err := a.part(c.Part); err != nil {
		return err
	}
	doc, label, err := scene.RemovePart(a.doc, c.Part)
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}

func (a *App) duplicate(c *Command, _ *Reply) error {
	if c.Part == "" && a.arr.picking {
		return a.copyPicked(scene.DuplicateParts)
	}
	return a.copyPart(scene.DuplicatePart, c.Part)
}

func (a *App) mirror(c *Command, _ *Reply) error {
	if c.Part == "" && a.arr.picking {
		return a.copyPicked(scene.MirrorParts)
	}
	return a.copyPart(scene.MirrorPart, c.Part)
}

// copyPart adds a part made from another and selects it.
func (a *App) copyPart(make func(*scene.Document, string) (*scene.Document, string, error), id string) error {
	if _, err := a.part(id); err != nil {
		return err
	}
	doc, label, err := make(a.doc, id)
	if err != nil {
		return err
	}
	added := newest(a.doc, doc)
	if err := a.commit(doc, label); err != nil {
		return err
	}
	if added != "" {
		a.selectPart(added)
	}
	return nil
}

// newest is the id of the part that now has and old has not.
func newest(old, now *scene.Document) string {
	had := map[string]bool{}
	for i := range old.Parts {
		had[old.Parts[i].ID] = true
	}
	for i := range now.Parts {
		if !had[now.Parts[i].ID] {
			return now.Parts[i].ID
		}
	}
	return ""
}

func (a *App) join(c *Command, _ *Reply) error {
	doc, label, err := scene.SetJoined(a.doc, c.A, c.B, c.On, c.Text)
	if err != nil {
		return err
	}
	a.finding = ""
	if err := a.commit(doc, label); err != nil {
		return err
	}
	if !c.On {
		a.say(a.pairName(c.A, c.B) + " are checked against each other again.")
	}
	return nil
}
