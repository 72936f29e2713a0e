package app

import (
	"math"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// undecidedKey names a pair nothing is certain about.
func undecidedKey(u *fitment.Undecided) string { return "undecided|" + u.A + "|" + u.B }

// undecidedItem is such a pair as it is read. It may be too close, so it is
// marked as what is.
func (a *App) undecidedItem(u *fitment.Undecided) FindingItem {
	proven := "nothing proven"
	if !math.IsInf(u.BoundMM, 0) {
		proven = "proven no less than " + a.measured(u.BoundMM)
	}
	it := FindingItem{Key: undecidedKey(u), Mark: "tight", Sure: true, A: u.A, B: u.B,
		Title:   a.pairName(u.A, u.B) + " are not decided",
		Figures: "not decided: least gap found " + a.measured(u.GapMM) + ", " + proven + ": look at it by hand",
		Why:     "The search was given up before it knew"}
	it.Selected = it.Key == a.finding
	it.JoinWarning = a.joinWarning(&fitment.Finding{A: u.A, B: u.B, GapMM: u.GapMM})
	if g, err := a.model.GapBetween(u.A, u.B, a.state()); err == nil && a.checked == a.model {
		it.Here = "here: " + a.gapWords(g.GapMM)
	}
	return it
}

// toUndecided shows where such a pair is closest at this height: its worst
// height is what is not known.
func (a *App) toUndecided(key string, r *fitment.Report) bool {
	for i := range r.Undecided {
		u := &r.Undecided[i]
		if undecidedKey(u) != key {
			continue
		}
		g, err := a.model.GapBetween(u.A, u.B, a.state())
		if err != nil {
			return false
		}
		a.finding, a.form, a.selected = key, "", ""
		var mid scene.Vec
		for k := range mid {
			mid[k] = (g.PointsMM[0][k] + g.PointsMM[1][k]) / 2
		}
		if a.view == fitment.SectionView {
			a.setStation(mid[0])
		}
		a.lookAt(view.Drop(a.view, mid))
		it := a.undecidedItem(u)
		a.live = it.Title + ", " + it.Figures
		return true
	}
	return false
}

// shownPair is the pair whose closest place is marked though it has no finding:
// an undecided one that is looked at, or the neighbour asked for last, for as
// long as one of the two is selected.
func (a *App) shownPair() (x, y string, ok bool) {
	if a.checked != nil && a.finding != "" {
		list := a.checked.Check().Undecided
		for i := range list {
			if undecidedKey(&list[i]) == a.finding {
				return list[i].A, list[i].B, true
			}
		}
	}
	b := a.between
	return b[0], b[1], b[0] != "" && (a.selected == b[0] || a.selected == b[1])
}

// loweredItems are the pairs that are looked at less strictly than the starting
// table would.
func (a *App) loweredItems() []LoweredItem {
	list := []LoweredItem{}
	if a.checked == nil {
		return list
	}
	w := fitment.NewWords(a.checked.Doc)
	lowered := a.checked.Check().Lowered
	for i := range lowered {
		l := &lowered[i]
		list = append(list, LoweredItem{A: l.A, B: l.B, Text: minus(w.Lowered(l)), Caution: l.Caution})
	}
	return list
}
