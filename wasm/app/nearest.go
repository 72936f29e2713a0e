package app

import (
	"fmt"

	"scrubline/fitment"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// nearestShown is how many neighbours a part's form lists.
const nearestShown = 5

// nearItems are the parts nearest to one at the height shown. While a finger
// moves something they are left out.
func (a *App) nearItems(id string) []NearItem {
	list := []NearItem{}
	if a.hand.mode == dragPart || a.hand.mode == dragStaff {
		return list
	}
	if c := &a.nearest; c.model != a.model || c.st != a.state() || c.of != id {
		*c = nearCache{a.model, a.state(), id, a.model.Nearest(id, a.state(), nearestShown)}
	}
	for _, r := range a.nearest.list {
		it := NearItem{A: r.A, B: r.B, Name: a.name(r.B), Gap: a.gapWords(r.GapMM)}
		if r.B == id {
			it.Name = a.name(r.A)
		}
		switch r.Status {
		case fitment.Contact:
			it.Mark = "touch"
		case fitment.Tight:
			it.Mark = "tight"
		}
		it.Need = "needs " + a.measured(r.NeedMM)
		list = append(list, it)
	}
	return list
}

// nearCache keeps the neighbours of one part in one state.
type nearCache struct {
	model *fitment.Model
	st    fitment.State
	of    string
	list  []fitment.Reading
}

// near takes the view to where two parts come closest at this height; the
// height stays.
func (a *App) near(c *Command, _ *Reply) error {
	g, err := a.model.GapBetween(c.A, c.B, a.state())
	if err != nil {
		return fmt.Errorf("these two cannot be measured: %w", err)
	}
	a.between = [2]string{c.A, c.B}
	a.finding = ""
	p := g.PointsMM[0]
	for k := range p {
		p[k] = (p[k] + g.PointsMM[1][k]) / 2
	}
	if a.view == fitment.SectionView {
		a.setStation(p[0])
	}
	a.lookAt(view.Drop(a.view, p))
	a.live = a.pairName(c.A, c.B) + " " + a.gapWords(g.GapMM)
	return nil
}

// betweenMark is the place of [App.shownPair]; one that falls short has a mark
// already, which is ringed.
func (a *App) betweenMark(list []draw.Mark) []draw.Mark {
	x, y, ok := a.shownPair()
	if !ok {
		return list
	}
	g, err := a.model.GapBetween(x, y, a.state())
	if err != nil {
		return list
	}
	for i := range list {
		if list[i].Key == x+"|"+y+"|" {
			list[i].Selected = true
			return list
		}
	}
	return addMark(list, draw.Mark{Selected: true, Text: a.gapWords(g.GapMM),
		P: view.Drop(a.view, g.PointsMM[0]), Q: view.Drop(a.view, g.PointsMM[1])})
}
