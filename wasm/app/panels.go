package app

import (
	"encoding/json"
	"math"
	"reflect"

	"scrubline/fitment"
	"scrubline/scene"
)

// views by the protocol's names.
var viewNames = map[fitment.View]string{fitment.SectionView: "section", fitment.SideView: "side", fitment.PlanView: "plan", fitment.FrontView: "front"}

// sendPanels gives the page what stands beside the canvas, when it changed.
func (a *App) sendPanels() {
	p := a.panels()
	text, err := json.Marshal(p)
	if err != nil || string(text) == a.lastPanels {
		return // plain strings and finite numbers always marshal
	}
	a.lastPanels = string(text)
	if !a.kindsSent {
		p.Kinds, p.Ready = kindItems(), readyItems()
		if text, err = json.Marshal(p); err != nil {
			return
		}
		a.kindsSent = true
	}
	a.host.Panels(string(text))
	if a.message != "" {
		a.message, a.panelsDue = "", true // shown once; said again it must show again
	}
}

// panels builds what stands beside the canvas.
func (a *App) panels() *Panels {
	items := a.findingItems()
	p := &Panels{
		Title: a.doc.Name, Note: a.doc.Note, Units: unit(a.doc.Show),
		Undo: a.hist.UndoLabel(), Redo: a.hist.RedoLabel(),
		View: a.showingWord(), StationMM: a.station,
		Heights: a.heightItems(), Height: a.heightWords(), Apart: a.apart, Movements: a.movementItems(),
		Findings: items, Ladder: a.ladderItem(), Mend: a.mendPanel(), Gap: a.gapDrawing(), Form: a.theForm(),
		Picking: a.arr.picking, Picked: a.stillPicked(), Ask: a.ask(),
		Kinds: []KindItem{}, Parts: a.partItems(items), Live: a.live, Message: a.message,
		Lowest: []string{}, Joined: a.joinedItems(""), Lowered: a.loweredItems(), Back: a.backWords(), Assumed: a.assumed(), Unmeasured: len(a.notMeasured()),
	}
	p.Photos, p.Opened, p.OnRung = a.photoItems(), a.opened, a.onRung
	p.Shown, p.Variants, p.Compare = a.doc.Shown, a.variantItems(), a.comparePanel()
	p.Shelf, p.Ready, p.Needs = a.shelfPanel(), []ReadyItem{}, a.needsPanel()
	a.seePanels(p)
	switch {
	case a.checked == nil:
		p.Headline, p.Subline = "Checking every pair over the whole travel", a.progressWords()
	case a.checked != a.model:
		r := a.checked.Check()
		p.Headline, p.Subline = a.headline(r), "As it was before this change. "+a.progressWords()
	default:
		r := a.checked.Check()
		p.Headline, p.Subline = a.headline(r), subline(r)
		p.Lowest = a.lowestLines(r)
	}
	return p
}

// assumed says that the vehicle still has the numbers a new one comes with.
func (a *App) assumed() bool {
	return reflect.DeepEqual(a.doc.Vehicle, scene.New().Vehicle)
}

// lowestLines are the ground clearance here and at each named height.
func (a *App) lowestLines(r *fitment.Report) []string {
	w := fitment.NewWords(a.checked.Doc)
	c := a.here().lowest
	lines := []string{"Here: " + minus(w.Lowest(&c))}
	for i := range r.Ground {
		lines = append(lines, upper(minus(w.Lowest(&r.Ground[i]))))
	}
	return lines
}

func (a *App) heightItems() []HeightItem {
	list := make([]HeightItem, len(a.doc.Heights))
	for i, h := range a.doc.Heights {
		list[i] = HeightItem{h.ID, h.Name, h.FrontMM, h.RearMM,
			math.Abs(h.FrontMM-a.front) < 0.05 && math.Abs(h.RearMM-a.rear) < 0.05}
	}
	return list
}

func (a *App) partItems(items []FindingItem) []PartItem {
	list := make([]PartItem, len(a.doc.Parts))
	for i := range a.doc.Parts {
		p := &a.doc.Parts[i]
		list[i] = PartItem{ID: p.ID, Name: p.Name, Kind: p.Kind, Locked: p.Locked}
		if g := a.doc.GroupOf(p.ID); g != nil {
			list[i].Group = g.Name
		}
		if k := scene.KindNamed(p.Kind); k != nil {
			list[i].Kind = k.Label
		}
		list[i].Checked, list[i].Stale = a.partCheck(p)
	}
	mark := func(id, m string) {
		if i := a.partIndex(id); i >= 0 && list[i].Mark != "touch" {
			list[i].Mark = m
		}
	}
	for i := range items {
		mark(items[i].A, items[i].Mark)
		mark(items[i].B, items[i].Mark)
	}
	if a.checked != nil {
		for _, l := range a.checked.Check().Limits {
			if limitStatus(l.Kind) == fitment.Contact {
				mark(l.Part, "touch")
			} else {
				mark(l.Part, "tight")
			}
		}
	}
	if a.checked != nil {
		for _, h := range hangings(a.checked.Check()) {
			if h.touches() {
				mark(h.Part, "touch")
			} else {
				mark(h.Part, "tight")
			}
		}
	}
	return list
}

// kindGroups is the order of the headings of the placing list; what is not
// named here follows.
var kindGroups = []string{"Chassis", "Running gear", "Exhaust", "Air", "Fuel", "Electric", "Brakes", "Body", "Plain shapes"}

func kindItems() []KindItem {
	list := []KindItem{}
	add := func(want func(group string) bool) {
		for _, k := range scene.Kinds() {
			if want(k.Group) && !k.Derived {
				list = append(list, KindItem{k.Name, k.Label, k.About, k.Group})
			}
		}
	}
	known := map[string]bool{}
	for _, g := range kindGroups {
		known[g] = true
		add(func(group string) bool { return group == g })
	}
	add(func(group string) bool { return !known[group] })
	return list
}
