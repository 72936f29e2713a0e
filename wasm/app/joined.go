package app

import (
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

// joinedItems are the pairs declared joined, in the document's order; of is a
// part's id, or empty for all.
func (a *App) joinedItems(of string) []JoinedItem {
	list := []JoinedItem{}
	for _, j := range a.doc.Joined {
		if of != "" && j.A != of && j.B != of {
			continue
		}
		list = append(list, JoinedItem{A: j.A, B: j.B, Names: a.pairName(j.A, j.B), Why: j.Why, Here: a.overlapWords(j.A, j.B)})
	}
	return list
}

// overlapWords says how two joined parts stand to each other at this height.
// While a finger moves something it says nothing: it would only flicker.
func (a *App) overlapWords(x, y string) string {
	if a.hand.mode == dragPart || a.hand.mode == dragStaff {
		return ""
	}
	key := [2]string{x, y}
	c := &a.overlaps
	if c.model != a.model || c.st != a.state() {
		*c = overlapCache{a.model, a.state(), map[[2]string]string{}}
	}
	if text, ok := c.words[key]; ok {
		return text
	}
	text := ""
	if g, err := a.model.GapBetween(x, y, a.state()); err == nil {
		text = "overlap by " + a.measured(-g.GapMM) + " at this height"
		switch {
		case g.GapMM >= 0.001:
			text = "are " + a.gapWords(g.GapMM) + " at this height"
		case a.measured(g.GapMM) == "0":
			text = "touch at this height"
		}
	}
	c.words[key] = text
	return text
}

// overlapCache keeps the overlaps of one state: a few hundred solids are
// measured for them.
type overlapCache struct {
	model *fitment.Model
	st    fitment.State
	words map[[2]string]string
}

// joinWarnings are what must not be joined away lightly.
var joinWarnings = []struct {
	trait scene.Trait
	text  string
}{
	{scene.Spring, "One of them is an air spring: it bursts where it rubs."},
	{scene.TyreTrait, "One of them is a tyre: it must run free at every height and lock."},
	{scene.Driveshaft, "One of them is a driveshaft: it turns, and must run free."},
	{scene.Exhaust, "One of them is exhaust: what touches it gets hot."},
	{scene.Fuel, "One of them carries fuel: what rubs or heats it can burn the vehicle."},
}

// joinWarning is what a person must know before a pair is joined; empty when
// there is nothing out of the common.
func (a *App) joinWarning(f *fitment.Finding) string {
	i, k := a.partIndex(f.A), a.partIndex(f.B)
	if i < 0 || k < 0 {
		return ""
	}
	var say []string
	if over := -f.GapMM; over > a.tolerance(i)+a.tolerance(k) {
		say = append(say, "They overlap by "+a.measured(over)+", more than the tape can be wrong.")
	}
	for _, w := range joinWarnings {
		if hasTrait(scene.TraitsOf(&a.doc.Parts[i]), w.trait) || hasTrait(scene.TraitsOf(&a.doc.Parts[k]), w.trait) {
			say = append(say, w.text)
		}
	}
	if len(say) == 0 {
		return ""
	}
	return strings.Join(append(say, "Joining hides that."), " ")
}

// tolerance is how far a part may really stand from where it is drawn, mm.
func (a *App) tolerance(part int) float64 {
	if t := a.doc.Parts[part].ToleranceMM; t != nil {
		return *t
	}
	return a.doc.ToleranceMM
}
