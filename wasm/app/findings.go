package app

import (
	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// Keys of ground findings begin with these.
const (
	rimKey    = "rim|"
	groundKey = "ground|"
)

// hanging is a part that reaches below the rim line or the ground, at the
// named height where it does worst.
type hanging struct {
	fitment.Hanging
	at *fitment.Clearance
}

func (h *hanging) touches() bool { return h.GroundMM <= 0 }

// below is how far it hangs below the rim line.
func (h *hanging) below() float64 { return h.at.RimLineMM - h.GroundMM }

func (h *hanging) key() string {
	if h.touches() {
		return groundKey + h.Part
	}
	return rimKey + h.Part
}

// hangings lists the parts below the rim line over all named heights, each
// once, in the order they are first met.
func hangings(r *fitment.Report) []hanging {
	var list []hanging
	for i := range r.Ground {
		c := &r.Ground[i]
		for _, b := range c.Below {
			h := hanging{b, c}
			known := false
			for k := range list {
				if list[k].Part != b.Part {
					continue
				}
				known = true
				if h.below() > list[k].below() {
					list[k] = h
				}
			}
			if !known {
				list = append(list, h)
			}
		}
	}
	return list
}

// findingItems are all findings as they are read, worst first: what is not
// checked because a suspension locks, what touches, then what is on the ground, what nothing is
// certain about, what is too close, and what hangs below
// the rim line.
func (a *App) findingItems() []FindingItem {
	items := []FindingItem{}
	if a.checked == nil {
		return items
	}
	r := a.checked.Check()
	here := map[string]*fitment.Reading{}
	for _, rd := range a.readings() {
		here[rd.Key] = &rd
	}
	now := a.here().lowest
	ground, w := hangings(r), fitment.NewWords(a.checked.Doc)
	pairs := func(s fitment.Status) {
		items = append(items, a.gathered(w, s, here)...)
	}
	hung := func(touch bool) {
		for i := range ground {
			if ground[i].touches() == touch {
				items = append(items, a.groundItem(w, &ground[i], &now))
			}
		}
	}
	items = append(items, a.suspensionItems(r)...)
	pairs(fitment.Contact)
	hung(true)
	limits := func(s fitment.Status) {
		for i := range r.Limits {
			if l := &r.Limits[i]; limitStatus(l.Kind) == s {
				items = append(items, a.limitItem(w, l))
			}
		}
	}
	limits(fitment.Contact)
	for i := range r.Undecided {
		items = append(items, a.undecidedItem(&r.Undecided[i]))
	}
	limits(fitment.Tight)
	pairs(fitment.Tight)
	hung(false)
	return items
}

func (a *App) pairItem(w *fitment.Words, f *fitment.Finding, here *fitment.Reading) FindingItem {
	what, figures := a.sentence(w, f)
	it := FindingItem{Key: f.Key(), Mark: "tight", Title: what, Figures: figures,
		Why: a.whyNeeded(w, f), Caution: f.Caution, Sure: f.Sure, Selected: f.Key() == a.finding, A: f.A, B: f.B}
	if f.Status == fitment.Contact {
		it.Mark = "touch"
	}
	it.Where, it.JoinWarning = a.spanWords(f), a.joinWarning(f)
	it.Unmeasured = upper(a.restsOn(!f.Still, f.A, f.B))
	if f.Service != "" {
		it.A, it.B = "", "" // joining two parts does not give up a service room
	}
	if here != nil && varies(f.AtHeights) {
		it.Here = "here: " + a.gapWords(here.GapMM)
	}
	return it
}

func (a *App) groundItem(w *fitment.Words, h *hanging, now *fitment.Clearance) FindingItem {
	it := FindingItem{Key: h.key(), Mark: "tight", Sure: true, Selected: h.key() == a.finding,
		Title: w.BelowTitle(&h.Hanging), Figures: minus(w.BelowFigures(h.at, &h.Hanging)), Why: upper(fitment.RimLineSource)}
	it.Unmeasured = upper(a.restsOn(true, h.Part))
	if h.touches() {
		it.Mark = "touch"
	}
	if i := a.partIndex(h.Part); i >= 0 {
		if k := scene.KindNamed(a.doc.Parts[i].Kind); k != nil {
			it.Caution = k.Caution
		}
	}
	for _, b := range now.Below {
		if b.Part == h.Part {
			it.Here = "here: " + a.measured(b.GroundMM) + " over the ground"
		}
	}
	return it
}

// subline says what the headline rests on.
func subline(r *fitment.Report) string {
	s := "Every two parts looked at over the whole travel: " + count(r.Summary.Pairs, "pair", "pairs")
	if n := r.Summary.Undecided; n > 0 {
		s += "; " + count(n, "pair is", "pairs are") + " undecided and may be too close"
	}
	return s
}

// toFinding takes the view to a finding: to its worst height and to the place
// where the two parts meet.
func (a *App) toFinding(key string) bool {
	if a.checked == nil {
		return false
	}
	r := a.checked.Check()
	if a.openSuspension(key, r) || a.toUndecided(key, r) {
		return true
	}
	for i := range r.Findings {
		f := &r.Findings[i]
		if f.Key() == key {
			mid := scene.Vec{}
			for k := range mid {
				mid[k] = (f.PointsMM[0][k] + f.PointsMM[1][k]) / 2
			}
			a.goTo(key, f.At, mid)
			what, figures := a.sentence(fitment.NewWords(a.checked.Doc), f)
			a.live = what + ": " + figures
			return true
		}
	}
	for i := range r.Limits {
		if l := &r.Limits[i]; limitKey(l) == key {
			a.goTo(key, l.At, a.middleOf(l.Part))
			w := fitment.NewWords(a.checked.Doc)
			a.live = w.LimitTitle(l) + ", " + w.LimitFigures(l)
			return true
		}
	}
	for _, h := range hangings(r) {
		if h.key() == key {
			a.goTo(key, h.at.At, h.PointMM)
			w := fitment.NewWords(a.checked.Doc)
			a.live = w.BelowTitle(&h.Hanging) + ", " + w.BelowFigures(h.at, &h.Hanging)
			return true
		}
	}
	return false
}

// goTo shows a point of the body in the section through it, in a state.
func (a *App) goTo(key string, st fitment.State, p scene.Vec) {
	a.finding, a.form, a.selected = key, "", ""
	was, noted := a.stand(), a.left
	front, rear := ends(st)
	if mm, ok := a.onStaff(st); ok {
		front, rear = a.travel.Pair(mm)
	} else {
		a.apart = true
	}
	a.setHeight(front, rear)
	if st.Steer != 0 || st.FL != st.FR || st.RL != st.RR {
		f, r := ends(st) // an end that does not matter stands as the staff has it
		st.FL, st.FR, st.RL, st.RR = st.FL+a.front-f, st.FR+a.front-f, st.RL+a.rear-r, st.RR+a.rear-r
		a.posed = &st
	}
	a.setMoves(st.Moves)
	a.left = noted
	a.leave(was)
	if a.view == fitment.SectionView {
		a.setStation(p[0])
	}
	a.lookAt(view.Drop(a.view, p))
	a.touch()
}

// ends are the middles of a state's two ends.
func ends(st fitment.State) (front, rear float64) { return (st.FL + st.FR) / 2, (st.RL + st.RR) / 2 }

// onStaff is the figure of the staff, both ends together, that shows a worst
// state. The engine leaves an end at ride when it does not matter there, so an
// end at ride fits any figure; otherwise both must be met.
func (a *App) onStaff(st fitment.State) (mm float64, ok bool) {
	t := &a.travel
	front, rear := ends(st)
	for _, s := range [2]float64{t.AtRear(rear), t.AtFront(front)} {
		f, r := t.Pair(s)
		if (near(f, front) || near(front, 0)) && (near(r, rear) || near(rear, 0)) {
			if near(front, 0) && near(rear, 0) {
				return t.Coord(0, 0), true
			}
			return s, true
		}
	}
	return 0, false
}
