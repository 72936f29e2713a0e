package app

import (
	"strings"

	"scrubline/scene"
)

// heightsForm is the form of the named heights. Its fields are the scene's:
// height/ID/front.
const heightsForm = "heights"

// namedHeights is the form in which heights are named, moved, added and removed.
func (a *App) namedHeights() *Form {
	f := &Form{Target: heightsForm, Title: "Heights", Sub: "How far the body has risen over each axle from ride; lower is negative. " +
		"The findings hold for all of the travel, from the lowest height to the highest.", Warn: a.beyondWords()}
	f.Fields = append(f.Fields, FormField{Field: "add", Label: "Add: as it stands now", Type: "action",
		Help:   a.heightWords() + ". Move the body first, by the staff beside the drawing or below the findings.",
		Action: &Command{Do: "height_add"}})
	for i := range a.doc.Heights {
		f.Fields = append(f.Fields, a.heightFields(&a.doc.Heights[i])...)
		if a.heightAdded == a.doc.Heights[i].ID {
			f.Focus = "height/" + a.heightAdded + "/name"
		}
	}
	return f
}

// heightFields are one named height. Ride is where the others are measured from.
func (a *App) heightFields(h *scene.Height) []FormField {
	field := func(s string) string { return "height/" + h.ID + "/" + s }
	list := []FormField{textField(field("name"), h.Name, "Called", "What this height is called on the buttons and the staff.", h.Name)}
	if h.ID != scene.Ride {
		list = append(list,
			a.moveField(field("front"), h.Name, "Front", "How far the body has risen over the front axle from ride; lower is negative.", h.FrontMM),
			a.moveField(field("rear"), h.Name, "Rear", "How far the body has risen over the rear axle from ride; lower is negative.", h.RearMM))
	}
	if h.Stands() {
		return list
	}
	return append(list, FormField{Field: field("remove"), Group: h.Name, Label: "Remove " + h.Name, Type: "action",
		Action: &Command{Do: "height_drop", Key: h.ID}})
}

// moveField is a length with its sign: "+60".
func (a *App) moveField(field, group, label, help string, mm float64) FormField {
	f := a.lengthField(field, group, label, help, mm)
	if mm > 0 {
		f.Value = "+" + f.Value
	}
	return f
}

// beyondWords says that a height of the user's own lies beyond the ends of the
// travel: it is checked, but the staff does not go there.
func (a *App) beyondWords() string {
	var names []string
	t := &a.travel
	for i := range a.doc.Heights {
		h := &a.doc.Heights[i]
		if h.FrontMM < t.Front[0] || h.FrontMM > t.Front[2] || h.RearMM < t.Rear[0] || h.RearMM > t.Rear[2] {
			names = append(names, h.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	says := " lies"
	if len(names) > 1 {
		says = " lie"
	}
	return strings.Join(names, ", ") + says + " beyond aired out or aired up: the travel that is checked reaches there, the staff does not."
}

// heightAdd names the height at which the body stands.
func (a *App) heightAdd(*Command, *Reply) error {
	doc, label, err := scene.AddHeight(a.doc, round3(a.front), round3(a.rear))
	if err != nil {
		return err
	}
	id := doc.Heights[len(doc.Heights)-1].ID
	if err := a.commit(doc, label); err != nil {
		return err
	}
	a.heightAdded = id
	return nil
}

func (a *App) heightDrop(c *Command, _ *Reply) error {
	doc, label, err := scene.RemoveHeight(a.doc, c.Key)
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}
