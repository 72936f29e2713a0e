package app

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

// moves is where each of the document's movements stands, in its order:
// degrees or millimetres, 0 at rest.
type moves [scene.MaxMovements]float64

// movementItems are the document's movements and where they stand.
func (a *App) movementItems() []MovementItem {
	list := []MovementItem{}
	for i := range a.doc.Movements {
		m := &a.doc.Movements[i]
		it := MovementItem{ID: m.ID, Name: m.Name, From: m.From, To: m.To, At: a.moves[i], Unit: "°", Words: a.movedWords(m, a.moves[i])}
		if m.Kind == scene.Slide {
			it.Unit = "mm"
		}
		list = append(list, it)
	}
	return list
}

// movedWords is how far a movement has gone, for people.
func (a *App) movedWords(m *scene.Movement, at float64) string {
	switch {
	case at == 0:
		return "at rest"
	case m.Kind == scene.Slide:
		return a.measured(at) + " " + unit(a.doc.Show)
	}
	return strings.Replace(plainNumber(math.Round(at*10)/10), "-", "−", 1) + "°"
}

// moveCommand puts one movement where the page says, within its range.
func (a *App) moveCommand(c *Command, _ *Reply) error {
	if math.IsNaN(c.MM) || math.IsInf(c.MM, 0) {
		return errors.New("a movement stands at a number")
	}
	for i := range a.doc.Movements {
		if m := &a.doc.Movements[i]; m.ID == c.Key {
			a.moves[i] = math.Max(m.From, math.Min(m.To, c.MM))
			a.left = nil // the user went on from here
			return nil
		}
	}
	return fmt.Errorf("there is no movement %q any more", c.Key)
}

// rest puts every movement back to where it is drawn.
func (a *App) rest(*Command, *Reply) error {
	a.moves, a.left = moves{}, nil
	return nil
}

// letMove gives a part a movement of its own.
func (a *App) letMove(c *Command, _ *Reply) error {
	if _, err := a.part(c.Part); err != nil {
		return err
	}
	kind := scene.MovementKind(c.Kind)
	if kind != scene.Hinge && kind != scene.Slide {
		return fmt.Errorf("a part can hinge or slide, not %q", c.Kind)
	}
	doc, label, err := scene.AddMovement(a.doc, c.Part, kind)
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}

// stopMove takes a movement away from the document.
func (a *App) stopMove(c *Command, _ *Reply) error {
	doc, label, err := scene.RemoveMovement(a.doc, c.Key)
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}

// carryMoves keeps movements where they stand when a document takes the place
// of another, by their ids and within their new ranges.
func (a *App) carryMoves(old, now *scene.Document) {
	var next moves
	for i := range now.Movements {
		m := &now.Movements[i]
		for k := range old.Movements {
			if old.Movements[k].ID == m.ID && old.Movements[k].Kind == m.Kind {
				next[i] = math.Max(m.From, math.Min(m.To, a.moves[k]))
			}
		}
	}
	a.moves = next
}

// setMoves puts the movements where a state has them, within their ranges: a
// finding may be of the document before.
func (a *App) setMoves(at moves) {
	a.moves = moves{}
	for i := range a.doc.Movements {
		m := &a.doc.Movements[i]
		a.moves[i] = math.Max(m.From, math.Min(m.To, at[i]))
	}
}

// away says whether one of a part's movements does not stand at rest.
func (a *App) away(p *scene.Part) bool {
	for i := range a.doc.Movements {
		for _, id := range p.Moves {
			if a.doc.Movements[i].ID == id && a.moves[i] != 0 {
				return true
			}
		}
	}
	return false
}

// restWords say that a part must stand at rest before it is placed elsewhere:
// turned by a hinge, it would not go where the finger goes.
func restWords(p *scene.Part) string {
	return p.Name + " does not stand at rest. Put the movements back to rest before you place it elsewhere."
}

// Movements stand in a part's form under these.
const (
	movesGroup = "Moves by itself"
	movePrefix = "movement/" // begins the field of a movement: movement/ID/at_mm/0
	goesField  = "goes"      // movement/ID/goes: whether it carries the part
)

// movementFields are the fields of a part's movements, and the buttons that add
// one.
func (a *App) movementFields(p *scene.Part) []FormField {
	var list []FormField
	for _, id := range p.Moves {
		if m := a.doc.MovementNamed(id); m != nil {
			list = append(list, a.oneMovement(m)...)
		}
	}
	for i := range a.doc.Movements {
		if m := &a.doc.Movements[i]; m.Carrier == p.Carrier {
			list = append(list, flagField(movePrefix+m.ID+"/"+goesField, movesGroup, "Goes along: "+m.Name,
				"Parts of one movement go together.", goesWith(p, m.ID)))
		}
	}
	let := func(kind scene.MovementKind, label, help string) FormField {
		return FormField{Field: movePrefix + "add/" + string(kind), Group: movesGroup, Label: label, Help: help, Type: "action",
			Action: &Command{Do: "let_move", Part: p.ID, Kind: string(kind)}}
	}
	return append(list,
		let(scene.Hinge, "Let it hinge", "It turns about an axis, as a door or a backrest does. What it sweeps is checked at every height."),
		let(scene.Slide, "Let it slide", "It goes along a line, as a seat on its track does. What it sweeps is checked at every height."))
}

// oneMovement is a movement as fields to type into, under its own name.
func (a *App) oneMovement(m *scene.Movement) []FormField {
	field := func(s string) string { return movePrefix + m.ID + "/" + s }
	list := []FormField{textField(field("name"), m.Name, "Called", "As it stands beside its slider.", m.Name)}
	if m.Kind == scene.Hinge {
		labels := positionLabels(m.Carrier)
		for k, at := range [3]string{"at_mm/0", "at_mm/1", "at_mm/2"} {
			list = append(list, a.lengthField(field(at), m.Name, labels[k][0], "A point on the hinge's axis. "+labels[k][1], m.AtMM[k]))
		}
	}
	way := "The way it goes, as three parts of a direction: 1, 0, 0 is straight back."
	if m.Kind == scene.Hinge {
		way = "The axis it turns about, as three parts of a direction: 0, 1, 0 lies across the vehicle. Seen along it, positive turns clockwise."
	}
	for k, axis := range [3][2]string{{"axis/0", "Axis, rearward"}, {"axis/1", "Axis, to the right"}, {"axis/2", "Axis, up"}} {
		list = append(list, FormField{Field: field(axis[0]), Group: m.Name, Label: axis[1], Help: way, Type: "number", Value: plainNumber(m.Axis[k])})
	}
	const from, to = "The far end one way: 0 or negative. As drawn it stands at 0.", "The far end the other way: 0 or positive."
	if m.Kind == scene.Hinge {
		list = append(list, angleField(field("from"), m.Name, "From", from, m.From), angleField(field("to"), m.Name, "To", to, m.To))
	} else {
		list = append(list, a.lengthField(field("from"), m.Name, "From", from, m.From), a.lengthField(field("to"), m.Name, "To", to, m.To))
	}
	return append(list, FormField{Field: field("remove"), Group: m.Name, Label: "Remove this movement", Type: "action",
		Help: "The parts it carries stay where they are drawn.", Action: &Command{Do: "stop_move", Key: m.ID}})
}

func goesWith(p *scene.Part, id string) bool {
	for _, m := range p.Moves {
		if m == id {
			return true
		}
	}
	return false
}

// setMovement changes a field of a movement from a part's form.
func (a *App) setMovement(target, field, text string) (*scene.Document, string, error) {
	id, step, _ := strings.Cut(field, "/")
	if step != goesField {
		return scene.SetField(a.doc, "movement:"+id, step, text)
	}
	p, err := a.part(strings.TrimPrefix(target, "part:"))
	if err != nil {
		return nil, "", err
	}
	kept := []string{}
	for _, m := range p.Moves {
		if m != id {
			kept = append(kept, m)
		}
	}
	if text == "true" {
		kept = append(kept, id)
	}
	return scene.SetField(a.doc, target, "moves", strings.Join(kept, ", "))
}

// movedCaption says in the caption that something does not stand at rest.
func (a *App) movedCaption() string {
	for i := range a.doc.Movements {
		if a.moves[i] != 0 {
			return ", moved"
		}
	}
	return ""
}

// asMoved is a state with the movements where they stand.
func (a *App) asMoved(st fitment.State) fitment.State {
	st.Moves = a.moves
	return st
}
