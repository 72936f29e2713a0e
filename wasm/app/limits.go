package app

import (
	"math"
	"strconv"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// limitKey names a limit that is passed.
func limitKey(l *fitment.Limit) string { return "limit|" + l.Part + "|" + string(l.Kind) }

// limitStatus is how a limit is marked: what is pushed together past its
// shortest has run metal on metal.
func limitStatus(k fitment.LimitKind) fitment.Status {
	if k == fitment.TooShort {
		return fitment.Contact
	}
	return fitment.Tight
}

// limitItem is a spring, shock or shaft that is taken past what it can do.
func (a *App) limitItem(w *fitment.Words, l *fitment.Limit) FindingItem {
	it := FindingItem{Key: limitKey(l), Mark: "tight", Sure: true, Selected: limitKey(l) == a.finding,
		Title: w.LimitTitle(l), Figures: minus(w.LimitFigures(l)), Where: a.where(l.Short, "past it"), Unmeasured: upper(a.restsOn(true, l.Part))}
	if limitStatus(l.Kind) == fitment.Contact {
		it.Mark = "touch"
	}
	for _, r := range a.reaches() {
		for i := range r.Past {
			if limitKey(&r.Past[i]) == it.Key {
				it.Here = "here: " + a.limitHere(&r.Past[i])
			}
		}
	}
	return it
}

// reaches is how the springs, shocks and shafts stand in the state shown.
func (a *App) reaches() []fitment.Reach {
	if c := &a.reached; c.model != a.model || c.st != a.state() {
		*c = reachCache{a.model, a.state(), a.model.Reaches(a.state())}
	}
	return a.reached.list
}

// reachCache keeps the reaches of one state.
type reachCache struct {
	model *fitment.Model
	st    fitment.State
	list  []fitment.Reach
}

// limitHere says what a limited part measures and what it may: "54, at least 70".
func (a *App) limitHere(l *fitment.Limit) string {
	switch l.Kind {
	case fitment.TooShort:
		return a.measured(l.Value) + ", at least " + a.measured(l.Limit)
	case fitment.TooLong:
		return a.measured(l.Value) + ", at most " + a.measured(l.Limit)
	}
	end := "front joint "
	if l.Kind == fitment.RearJoint {
		end = "rear joint "
	}
	return end + degrees(l.Value) + ", at most " + degrees(l.Limit)
}

// degrees is an angle to a tenth of a degree.
func degrees(v float64) string { return plainNumber(math.Round(v*10)/10) + "°" }

// limitMarks adds what is past its limit at this height, dimensioned on the
// part: in a section what lies close to the plane, and always the selected one.
func (a *App) limitMarks(list []draw.Mark) []draw.Mark {
	for _, r := range a.reaches() {
		for i := range r.Past {
			l := &r.Past[i]
			m := draw.Mark{Key: limitKey(l), Status: limitStatus(l.Kind), Selected: limitKey(l) == a.finding,
				P: view.Drop(a.view, r.EndsMM[0]), Q: view.Drop(a.view, r.EndsMM[1]), Text: a.limitHere(l)}
			m.Dimension = l.Kind == fitment.TooShort || l.Kind == fitment.TooLong
			if !m.Dimension { // a joint is marked at the joint
				end := r.EndsMM[0]
				if l.Kind == fitment.RearJoint {
					end = r.EndsMM[1]
				}
				m.P = view.Drop(a.view, end)
				m.Q = m.P
			}
			if m.Selected || a.view != fitment.SectionView || a.nearPlane(&r) {
				list = addMark(list, m)
			}
		}
	}
	return list
}

// nearPlane says whether a spring, shock or shaft comes close to the section.
func (a *App) nearPlane(r *fitment.Reach) bool {
	lo, hi := math.Min(r.EndsMM[0][0], r.EndsMM[1][0]), math.Max(r.EndsMM[0][0], r.EndsMM[1][0])
	return a.station > lo-marksBehind && a.station < hi+figuresWithin
}

// reachFields are the lines of a form that say how a spring, shock or shaft
// stands at the height shown.
func (a *App) reachFields(p *scene.Part) []FormField {
	var out []FormField
	for _, r := range a.reaches() {
		if r.Part != p.ID {
			continue
		}
		text := a.measured(r.LengthMM) + " " + unit(a.doc.Show)
		switch lo, hi := r.ShortestMM, r.LongestMM; {
		case lo > 0 && hi > 0:
			text += ", may be " + a.measured(lo) + " to " + a.measured(hi)
		case lo > 0:
			text += ", at least " + a.measured(lo)
		case hi > 0:
			text += ", at most " + a.measured(hi)
		}
		out = append(out, FormField{Field: "reach", Type: "shown", Label: "Length at this height", Value: text,
			Help: "Between its two mounts or joints, " + lower(a.heightWords()) + "."})
		if r.MostDeg > 0 {
			out = append(out, FormField{Field: "joints", Type: "shown", Label: "Joint angles at this height",
				Value: "front " + degrees(r.JointDeg[0]) + ", rear " + degrees(r.JointDeg[1]) + ", may bend " + degrees(r.MostDeg),
				Help:  "Between the shaft and what each joint is bolted to."})
		}
	}
	return out
}

// headline counts what falls short, and says of what a limit is.
func (a *App) headline(r *fitment.Report) string {
	s := r.Summary
	n := s.Limits
	s.Limits = 0
	if n == 0 {
		return fitment.Headline(&s)
	}
	limit := strconv.Itoa(n) + " " + limitsOf(a, r)
	if s.Contact+s.Tight+s.RimLine+s.Undecided+s.Locked == 0 {
		return limit
	}
	return fitment.Headline(&s) + ", " + limit
}

// limitsOf says what is past its limits: "springs past their limits".
func limitsOf(a *App, r *fitment.Report) string {
	word := ""
	for i := range r.Limits {
		b := a.brief(r.Limits[i].Part)
		if word != "" && word != b {
			word = "springs, shocks or shafts"
			break
		}
		word = b
	}
	if len(r.Limits) == 1 {
		return word + " past its limit"
	}
	if word[len(word)-1] != 's' {
		word += "s"
	}
	return word + " past their limits"
}
