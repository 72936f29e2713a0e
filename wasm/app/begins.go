package app

import (
	"math"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
)

// spans are the body heights at which a finding holds, once they are worked
// out; see [App.ladderSlice]. While a part is dragged they are left out: the
// least gap is enough to steer a finger by.
func (a *App) spans(f *fitment.Finding) (fitment.Spans, bool) {
	if f.Still || a.checked == nil || a.hand.mode == dragPart || !a.checked.SpansKnown(f) {
		return fitment.Spans{}, false
	}
	return a.checked.Spans(f), true
}

// lowHigh are the staff figures of the lowest and the highest height.
func (a *App) lowHigh() (low, high float64) {
	t := &a.travel
	return t.Coord(t.Front[0], t.Rear[0]), t.Coord(t.Front[2], t.Rear[2])
}

// rungs are what begins on the way down and on the way up, at the height where
// it begins: where a pair starts to touch, or to be closer than it needs, where
// a limit is passed, a suspension locks, a part comes below the rim line or to
// the ground. Those at one height share a rung. What holds at every height would
// say nothing on a staff.
func (a *App) rungs() []draw.Rung {
	if !a.laddersKnown() {
		return nil
	}
	st := a.staff()
	list := rungList{room: 16 / st.PxPerMM()}
	for way, l := range a.ladders.staff {
		rungs, struck := l.All()
		for i, r := range rungs {
			at := r.At
			if r.AtRide && r.Began != nil {
				at = *r.Began
			}
			if r.Kind == fitment.RungEnd || r.Still || r.AtRide && (r.Began == nil || way == 1) {
				continue
			}
			mm := a.travel.Coord(at.FrontMM, at.RearMM)
			list.add(draw.Rung{MM: mm, Status: rungStatus(r), Number: a.level(mm), Words: a.rungBrief(r), Key: a.findingOf(r), Struck: struck[i]})
		}
	}
	return list.done()
}

// rungBrief is what a rung is, in as many words as fit.
func (a *App) rungBrief(r *fitment.Rung) []string {
	switch {
	case r.Finding != nil:
		return []string{a.pairBrief(r.Finding.A, r.Finding.B), a.brief(r.Finding.A)}
	case r.Limit != nil:
		return []string{a.brief(r.Limit.Part) + " limit", a.brief(r.Limit.Part)}
	case r.Kind == fitment.RungLock:
		return []string{r.End + " locks"}
	case r.Kind == fitment.RungGround:
		return []string{a.brief(r.Parts[0]) + " on ground", a.brief(r.Parts[0])}
	}
	return []string{a.brief(r.Parts[0]) + " at rim line", a.brief(r.Parts[0])}
}

// rungList gathers rungs, those closer than room (mm) into one.
type rungList struct {
	rungs []draw.Rung
	more  []int
	room  float64
}

// add puts a rung in. One that shares its place with others is drawn struck
// through only when all of them are.
func (l *rungList) add(r draw.Rung) {
	for k := range l.rungs {
		if math.Abs(l.rungs[k].MM-r.MM) < l.room {
			if l.rungs[k].Struck && !r.Struck {
				r.MM, l.rungs[k] = l.rungs[k].MM, r
			}
			l.more[k]++
			return
		}
	}
	l.rungs, l.more = append(l.rungs, r), append(l.more, 0)
}

func (l *rungList) done() []draw.Rung {
	for i, n := range l.more {
		if n > 0 {
			l.rungs[i].Words = rungCounts(n + 1)
		}
	}
	return l.rungs
}

// where puts the heights of a finding into words: "touching from −57 down".
func (a *App) where(spans []fitment.Span, verb string) string {
	t := &a.travel
	low, high := a.lowHigh()
	var parts []string
	for _, s := range spans {
		from, to := t.Coord(s.From.FrontMM, s.From.RearMM), t.Coord(s.To.FrontMM, s.To.RearMM)
		atLow, atHigh := near(from, low), near(to, high)
		switch {
		case atLow && atHigh:
			parts = append(parts, "at every height")
		case atLow:
			parts = append(parts, "from "+a.levelWords(s.To)+" down")
		case atHigh:
			parts = append(parts, "from "+a.levelWords(s.From)+" up")
		default:
			parts = append(parts, "from "+a.levelWords(s.To)+" to "+a.levelWords(s.From))
		}
	}
	return strings.TrimSpace(verb + " " + strings.Join(parts, " and "))
}

// levelWords is a body height for people, the end the staff counts along
// first: "−57", or "rear −57 (front −48)" where the two differ.
func (a *App) levelWords(l fitment.Level) string {
	f, r := a.level(l.FrontMM), a.level(l.RearMM)
	switch {
	case f == r:
		return r
	case near(a.travel.Coord(l.FrontMM, l.RearMM), l.FrontMM):
		return "front " + f + " (rear " + r + ")"
	}
	return "rear " + r + " (front " + f + ")"
}

// both says over which heights a finding holds with the wheels level and
// straight, and what roll, steer or a movement adds.
func (a *App) both(f *fitment.Finding, level, any []fitment.Span, verb string) string {
	all := a.where(any, verb)
	switch {
	case len(any) == 0:
		return ""
	case len(level) == 0:
		return all + ", only when " + a.unlevel(f)
	}
	if at := a.where(level, verb); at != all {
		return at + ", " + a.briefly(any) + " when " + a.unlevel(f)
	}
	return all
}

// briefly is where spans lie in the staff's figures alone, said after they
// were said in full for other spans.
func (a *App) briefly(spans []fitment.Span) string {
	low, high := a.lowHigh()
	var parts []string
	for _, s := range spans {
		from, to := a.travel.Coord(s.From.FrontMM, s.From.RearMM), a.travel.Coord(s.To.FrontMM, s.To.RearMM)
		switch atLow, atHigh := near(from, low), near(to, high); {
		case atLow && atHigh:
			parts = append(parts, "at every height")
		case atLow:
			parts = append(parts, "from "+a.level(to))
		case atHigh:
			parts = append(parts, "from "+a.level(from)+" up")
		default:
			parts = append(parts, "from "+a.level(to)+" to "+a.level(from))
		}
	}
	return strings.Join(parts, " and ")
}

// unlevel is what may move besides the height, for a finding: "leaning by 30".
func (a *App) unlevel(f *fitment.Finding) string {
	v := &a.doc.Vehicle
	var words []string
	if mm := math.Max(v.Front.CrossMM, v.Rear.CrossMM); mm > 0 {
		words = append(words, "leaning by "+a.measured(mm))
	}
	for _, id := range [2]string{f.A, f.B} {
		i := a.partIndex(id)
		if i < 0 {
			continue
		}
		p := &a.doc.Parts[i]
		if v.Front.SteerDeg > 0 && (p.Carrier == scene.WheelFL || p.Carrier == scene.WheelFR) || v.Rear.SteerDeg > 0 && (p.Carrier == scene.WheelRL || p.Carrier == scene.WheelRR) {
			words = append(words, "steered")
			break
		}
	}
	for _, id := range [2]string{f.A, f.B} {
		if i := a.partIndex(id); i >= 0 && len(a.doc.Parts[i].Moves) > 0 {
			words = append(words, "moved")
			break
		}
	}
	if len(words) == 0 {
		return "leaning or steered"
	}
	return strings.Join(words, " or ")
}

// spanWords says over which heights a finding holds.
func (a *App) spanWords(f *fitment.Finding) string {
	s, ok := a.spans(f)
	if !ok {
		return ""
	}
	text := a.both(f, s.LevelShort, s.Short, "too close")
	if touch := a.both(f, s.LevelTouch, s.Touch, "touching"); touch != "" {
		return touch + "; " + text
	}
	return text
}

// middleOf is a part's reference point in body axes at ride.
func (a *App) middleOf(id string) (p scene.Vec) {
	if i := a.partIndex(id); i >= 0 {
		part := &a.doc.Parts[i]
		p = a.model.CarrierOrigin(part.Carrier)
		for k := range p {
			p[k] += part.AtMM[k]
		}
	}
	return p
}
