package app

import (
	"strconv"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// variants is what is known of the scene's alternatives beside the one that is
// shown.
type variants struct {
	known map[string]*fitment.Model // the last complete answers of each, by id

	comparing bool // the comparison is open
	of        *scene.Document
	table     *fitment.Comparison
	done      bool
}

// remember keeps the answers of what is shown for when it is shown again.
func (a *App) remember() {
	if a.checked == nil || a.checked != a.model {
		return
	}
	if a.variants.known == nil {
		a.variants.known = map[string]*fitment.Model{}
	}
	a.variants.known[a.doc.Shown] = a.checked
}

// put puts another view on the sheet, with the answers that are known of it.
func (a *App) put(doc *scene.Document) error {
	a.remember()
	m := a.variants.known[doc.Shown]
	if !scene.SameDrawn(a.model.Doc, doc) || a.checked != a.model {
		if m == nil || !scene.SameDrawn(m.Doc, doc) {
			from := a.model
			if m != nil {
				from = m
			}
			var err error
			if m, err = from.With(doc); err != nil {
				return err
			}
			a.checked = nil
		} else {
			a.checked = m
		}
	} else {
		m = a.model
	}
	a.carryMoves(a.doc, doc)
	a.doc, a.model = doc, m
	a.travel = view.TravelOf(doc.Heights)
	a.holdHeight()
	if a.selected != "" && a.partIndex(a.selected) < 0 {
		a.selected = ""
	}
	a.finding, a.between = "", [2]string{}
	a.touch()
	return nil
}

// variantCommand shows a variant, or for the empty key the scene as drawn. It
// is no edit: there is nothing to undo about it.
func (a *App) variantCommand(c *Command, _ *Reply) error {
	doc, err := scene.View(a.doc, c.Key)
	if err != nil {
		return err
	}
	if err := a.put(doc); err != nil {
		return err
	}
	a.arr.question = nil
	a.hist.Replace(doc)
	a.fitStrip()
	a.save()
	a.live = a.shownName() + " is shown"
	return nil
}

// shownName is what the shown variant is called.
func (a *App) shownName() string {
	for _, v := range a.doc.Alternatives() {
		if v.ID == a.doc.Shown {
			return v.Name
		}
	}
	return fitment.Drawn
}

// variantEdit makes an edit of the variants themselves a step.
func (a *App) variantEdit(whole *scene.Document, label string, err error) error {
	if err != nil {
		return err
	}
	doc, err := scene.View(whole, whole.Shown)
	if err != nil {
		return err
	}
	if err := a.put(doc); err != nil {
		return err
	}
	a.arr.question = nil
	a.hist.Do(doc, label)
	a.fitStrip()
	a.save()
	return nil
}

func (a *App) variantNew(c *Command, _ *Reply) error {
	doc, label, err := scene.AddVariant(a.doc.Whole(), c.Text)
	if err := a.variantEdit(doc, label, err); err != nil {
		return err
	}
	a.say("What you change now is changed in “" + a.shownName() + "” alone.")
	return nil
}

func (a *App) variantSet(c *Command, _ *Reply) error {
	doc, label, err := scene.SetVariant(a.doc.Whole(), c.Key, c.Field, c.Text)
	return a.variantEdit(doc, label, err)
}

func (a *App) variantDrop(c *Command, _ *Reply) error {
	name := ""
	for _, v := range a.doc.Alternatives() {
		if v.ID == c.Key {
			name = v.Name
		}
	}
	doc, label, err := scene.DropVariant(a.doc.Whole(), c.Key)
	if err := a.variantEdit(doc, label, err); err != nil {
		return err
	}
	a.say("“" + name + "” is deleted. Undo brings it back.")
	return nil
}

func (a *App) variantTake(c *Command, _ *Reply) error {
	doc, label, err := scene.TakeVariant(a.doc.Whole(), c.Key)
	if err := a.variantEdit(doc, label, err); err != nil {
		return err
	}
	a.say("It is the one drawn now. What was drawn before is kept as “As drawn before”.")
	return nil
}

// sayVariant says in a form that what is changed there is changed in the shown
// variant alone.
func (a *App) sayVariant(f *Form) {
	if strings.HasPrefix(f.Target, "part:") || strings.HasPrefix(f.Target, needForm) || f.Target == "vehicle" || f.Target == heightsForm {
		f.Sub = a.inVariant() + f.Sub
	}
}

// inVariant says that what is read and changed is a variant's; empty for the
// scene as drawn.
func (a *App) inVariant() string {
	if a.doc.Shown == "" {
		return ""
	}
	return "In the variant “" + a.shownName() + "”. "
}

// variantItems lists the scene as drawn and its variants; nothing where there
// are none.
func (a *App) variantItems() []VariantItem {
	all := a.doc.Alternatives()
	list := []VariantItem{}
	if len(all) == 0 {
		return list
	}
	list = append(list, VariantItem{Name: fitment.Drawn, Shown: a.doc.Shown == ""})
	for i := range all {
		v := &all[i]
		list = append(list, VariantItem{ID: v.ID, Name: v.Name, Note: v.Note, Shown: a.doc.Shown == v.ID})
	}
	return list
}

// compareCommand opens or closes the comparison.
func (a *App) compareCommand(c *Command, _ *Reply) error {
	a.variants.comparing = c.On
	if !c.On {
		a.variants.table, a.variants.of, a.variants.done = nil, nil, false
	}
	return nil
}

// compareSlice does a slice of the comparison that is open. It waits for the
// check of what is shown.
func (a *App) compareSlice() {
	v := &a.variants
	if !v.comparing || a.checked != a.model || v.of == a.doc && v.done {
		return
	}
	if v.of != a.doc {
		a.remember()
		table, err := fitment.Compare(a.doc.Whole(), v.known)
		if err != nil {
			v.comparing = false
			a.say(sentence(err.Error()))
			return
		}
		v.of, v.table, v.done = a.doc, table, false
	}
	was := a.compareProgress()
	for from := a.host.NowMS(); !v.done; {
		if v.done = v.table.Step(); a.host.NowMS()-from >= sliceMS {
			break
		}
	}
	if v.done {
		for i := range v.table.Columns {
			if col := &v.table.Columns[i]; col.ID != a.doc.Shown {
				v.known[col.ID] = col.Model
			}
		}
	}
	if v.done || a.compareProgress() != was {
		a.panelsDue = true
	}
	a.host.Wake(100)
}

// compareProgress says how far the comparison is.
func (a *App) compareProgress() string {
	if a.variants.table == nil {
		return "Checking"
	}
	done, of := a.variants.table.Done()
	return "Checking " + strconv.Itoa(min(done+1, of)) + " of " + strconv.Itoa(of)
}

// comparePanel is the open comparison, nil when it is closed.
func (a *App) comparePanel() *ComparePanel {
	v := &a.variants
	if !v.comparing {
		return nil
	}
	p := &ComparePanel{Heads: []string{}, Rows: []CompareRow{}, Differs: []CompareDiffers{}}
	if v.of != a.doc || !v.done {
		p.Progress = a.compareProgress()
		return p
	}
	t := v.table.Table()
	p.Heads = t.Heads
	for i := range t.Rows {
		r := &t.Rows[i]
		row := CompareRow{Group: r.Group, Label: r.Label, Marks: r.Marks, Differs: r.Differs}
		for _, cell := range r.Cells {
			row.Cells = append(row.Cells, minus(cell))
		}
		p.Rows = append(p.Rows, row)
	}
	for i := range v.table.Columns[1:] {
		col := &v.table.Columns[i+1]
		d := CompareDiffers{ID: col.ID, Name: col.Name, Lines: []string{}}
		for _, line := range col.Differs {
			d.Lines = append(d.Lines, line.Name+": "+minus(line.Text))
		}
		p.Differs = append(p.Differs, d)
	}
	return p
}
