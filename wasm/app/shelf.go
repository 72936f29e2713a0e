package app

import (
	"errors"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

// shelfForm begins the name of the form of a part on the shelf.
const shelfForm = "shelf:"

// stockGroup is the heading of what the shelf asks of every part.
const stockGroup = "Mass, price, state"

// shelfCommand opens or closes the list of parts with their mass and price.
func (a *App) shelfCommand(c *Command, _ *Reply) error {
	a.shelfOpen = c.On
	return nil
}

// shelfAdd puts a part of a kind on the shelf, Text a battery's standard case,
// and opens its form.
func (a *App) shelfAdd(c *Command, _ *Reply) error {
	doc, label, err := scene.AddToShelf(a.doc, c.Kind)
	if err != nil {
		return err
	}
	p := doc.Shelf[len(doc.Shelf)-1]
	if c.Text != "" {
		f := caseField(c.Kind)
		if f == nil {
			return errNoCase
		}
		if doc, _, err = scene.SetField(doc, shelfForm+p.ID, f.Name, c.Text); err != nil {
			return err
		}
		if doc, _, err = scene.SetField(doc, shelfForm+p.ID, "name", p.Name+", "+choiceLabel(f, c.Text)); err != nil {
			return err
		}
	}
	if err := a.commit(doc, label); err != nil {
		return err
	}
	a.selectPart("")
	a.form = shelfForm + p.ID
	return nil
}

// shelfPlace places a part of the shelf in the middle of the view.
func (a *App) shelfPlace(c *Command, _ *Reply) error {
	p := a.doc.ShelfNamed(c.Key)
	if p == nil {
		return errNotOnShelf
	}
	doc, label, err := scene.PlaceFromShelf(a.doc, c.Key, a.placeAt(scene.KindNamed(p.Kind)))
	if err != nil {
		return err
	}
	doc, said := a.fittedPart(doc)
	if err := a.commit(doc, label); err != nil {
		return err
	}
	a.form, a.finding = "", ""
	a.selectPart(c.Key)
	a.reveal(c.Key)
	if said != "" {
		a.say(said)
	}
	return nil
}

// shelfKeep puts a copy of a placed part on the shelf.
func (a *App) shelfKeep(c *Command, _ *Reply) error {
	if _, err := a.part(c.Part); err != nil {
		return err
	}
	doc, label, err := scene.KeepOnShelf(a.doc, c.Part)
	if err != nil {
		return err
	}
	if err := a.commit(doc, label); err != nil {
		return err
	}
	a.say(doc.Shelf[len(doc.Shelf)-1].Name + " is on the shelf.")
	return nil
}

// shelfDrop takes a part off the shelf for good.
func (a *App) shelfDrop(c *Command, _ *Reply) error {
	doc, label, err := scene.RemoveFromShelf(a.doc, c.Key)
	if err != nil {
		return err
	}
	if a.form == shelfForm+c.Key {
		a.form = ""
	}
	return a.commit(doc, label)
}

// stockFields are what the shelf asks of a part.
func (a *App) stockFields(p *scene.Part) []FormField {
	mass, price := "", ""
	if p.MassKG != nil {
		mass = scene.FormatMass(*p.MassKG, a.doc.Show)
	}
	if p.Price != nil {
		price = scene.FormatMoney(*p.Price)
	}
	help := "What one costs. The currency is set on the shelf."
	if a.doc.Currency != "" {
		help = "What one costs, in " + a.doc.Currency + "."
	}
	return []FormField{
		{Field: "mass_kg", Group: stockGroup, Label: "Mass", Type: "number", Value: mass, Unit: scene.MassUnit(a.doc.Show),
			Help: "What it weighs; empty when you do not know. 12.5 kg or 27 lb may be typed."},
		{Field: "price", Group: stockGroup, Label: "Price", Type: "number", Value: price, Help: help},
		a.stateField(p, stockGroup),
	}
}

// stateField says how far a part has come.
func (a *App) stateField(p *scene.Part, group string) FormField {
	f := FormField{Field: "state", Group: group, Label: "State", Type: "choice", Value: string(p.State),
		Help: "How far it has come. What is to be ordered is listed on the shelf.", Choices: []FormChoice{{"", "not said"}}}
	for _, s := range scene.PartStates {
		f.Choices = append(f.Choices, FormChoice{string(s), s.Label()})
	}
	return f
}

// keepField is the button that puts a copy of a part on the shelf.
func (a *App) keepField(p *scene.Part) FormField {
	return FormField{Field: "keep", Group: stockGroup, Label: "Keep a copy on the shelf", Type: "action",
		Help: "The same part with its size, without a place, for later or for another variant.", Action: &Command{Do: "shelf_keep", Part: p.ID}}
}

// shelfPartForm is the form of a part on the shelf, nil when it is not there.
func (a *App) shelfPartForm(id string) *Form {
	p := a.doc.ShelfNamed(id)
	if p == nil {
		return nil
	}
	k := scene.KindNamed(p.Kind)
	f := &Form{Target: shelfForm + p.ID, Title: p.Name, Sub: k.Label + ", on the shelf: not placed yet. " + k.About, Caution: k.Caution}
	if a.partIndex(p.ID) >= 0 {
		f.Sub = k.Label + ", placed. Its own form says what it is now."
	} else {
		f.Fields = append(f.Fields, FormField{Field: "place", Label: "Place it", Type: "action",
			Help: "Puts it into the middle of the view. Deleted there, it is back on the shelf.", Action: &Command{Do: "shelf_place", Key: p.ID}})
	}
	f.Fields = append(f.Fields, textField("name", "", "Name", "As it stands in the lists and on the drawing.", p.Name))
	f.Fields = append(f.Fields, a.stockFields(p)...)
	for i := range k.Fields {
		if w := k.Fields[i].When; w == nil || w(p.Size) {
			f.Fields = append(f.Fields, a.sizeField(&k.Fields[i], p.Size))
		}
	}
	f.Fields = append(f.Fields, textField("note", "Notes", "Note", "For you; nothing is computed from it.", p.Note),
		FormField{Field: "drop", Group: "Notes", Label: "Take it off the shelf", Type: "action",
			Help: "For good; Undo brings it back.", Action: &Command{Do: "shelf_drop", Key: p.ID}})
	return f
}

// shelfPanel is the open list, nil when it is closed.
func (a *App) shelfPanel() *ShelfPanel {
	if !a.shelfOpen {
		return nil
	}
	t := a.doc.Totals()
	s := &ShelfPanel{Own: []ShelfItem{}, Placed: []ShelfItem{}, Order: []string{}, OrderText: a.doc.OrderText()}
	over := ""
	if a.doc.Budget != nil && t.Cost > *a.doc.Budget {
		over = "tight"
	}
	s.Totals = []ShelfTotal{
		{"Mass", fitment.MassWords(a.doc, &t), ""},
		{"Cost", fitment.CostWords(a.doc, &t), over},
		{"Still to order", fitment.OrderWords(a.doc, &t), ""},
	}
	s.Fields = a.moneyFields()
	for _, p := range a.doc.OnShelf() {
		s.Own = append(s.Own, a.shelfItem(shelfForm, p))
	}
	for i := range a.doc.Parts {
		s.Placed = append(s.Placed, a.shelfItem("part:", &a.doc.Parts[i]))
	}
	lines := strings.Split(strings.TrimSpace(s.OrderText), "\n")
	for _, line := range lines[1:] {
		s.Order = append(s.Order, strings.TrimPrefix(line, "- "))
	}
	if len(t.Order) == 0 {
		s.Order, s.OrderText = []string{}, ""
	}
	return s
}

// moneyFields are the fields of the whole scene that the shelf needs.
func (a *App) moneyFields() []FormField {
	budget := ""
	if a.doc.Budget != nil {
		budget = scene.FormatMoney(*a.doc.Budget)
	}
	return []FormField{
		{Field: "currency", Label: "Currency", Type: "text", Value: a.doc.Currency, Help: "Of every price, such as USD."},
		{Field: "budget", Label: "Budget", Type: "text", Value: budget, Help: "What all parts may cost together; empty for none."},
	}
}

func (a *App) shelfItem(target string, p *scene.Part) ShelfItem {
	it := ShelfItem{ID: p.ID, Target: target + p.ID, Name: p.Name, State: a.stateField(p, "")}
	k := scene.KindNamed(p.Kind)
	if it.Name == "" {
		it.Name = p.ID
	}
	words := []string{}
	if p.Name != k.Label {
		words = append(words, k.Label)
	}
	if p.MassKG != nil {
		words = append(words, scene.FormatMass(*p.MassKG, a.doc.Show)+" "+scene.MassUnit(a.doc.Show))
	}
	if p.Price != nil {
		words = append(words, a.doc.Money(*p.Price))
	}
	it.About = strings.Join(words, ", ")
	return it
}

// caseField is the field of a kind that holds a standard case, or nil.
func caseField(kind string) *scene.Field {
	k := scene.KindNamed(kind)
	for i := range k.Fields {
		if k.Fields[i].Name == "case" && k.Fields[i].Type == scene.Choice {
			return &k.Fields[i]
		}
	}
	return nil
}

func choiceLabel(f *scene.Field, word string) string {
	for i, c := range f.Choices {
		if c == word && i < len(f.ChoiceLabels) {
			return f.ChoiceLabels[i]
		}
	}
	return word
}

// readyItems are standard cases that can be put on the shelf at once.
func readyItems() []ReadyItem {
	list := []ReadyItem{}
	for _, k := range scene.Kinds() {
		f := caseField(k.Name)
		if f == nil {
			continue
		}
		for i, c := range f.Choices {
			if c != "free" {
				list = append(list, ReadyItem{Kind: k.Name, Text: c, Label: k.Label + ", " + f.ChoiceLabels[i]})
			}
		}
	}
	return list
}

var (
	errNotOnShelf = errors.New("this part is no longer on the shelf")
	errNoCase     = errors.New("only a battery has standard cases")
)
