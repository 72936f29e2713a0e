package app

import (
	"math"
	"strconv"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
)

// spans are the body heights at which a finding holds. While a part is dragged
// they are left out: the least gap is enough to steer a finger by.
func (a *App) spans(f *fitment.Finding) (fitment.Spans, bool) {
	if f.Still || a.checked == nil || a.hand.mode == dragPart {
		return fitment.Spans{}, false
	}
	return a.checked.Spans(f), true
}

// beginsAt is the staff figure at which a finding begins on the way down from
// the top, or on the way up from the bottom; false when it holds all the way.
func (a *App) beginsAt(spans []fitment.Span) (mm float64, ok bool) {
	if len(spans) == 0 {
		return 0, false
	}
	t := &a.travel
	low, high := a.lowHigh()
	from, to := t.Coord(spans[0].From.FrontMM, spans[0].From.RearMM), a.coordTo(spans)
	switch {
	case !near(to, high):
		return to, true
	case !near(from, low):
		return from, true
	}
	return 0, false
}

// lowHigh are the staff figures of the lowest and the highest height.
func (a *App) lowHigh() (low, high float64) {
	t := &a.travel
	return t.Coord(t.Front[0], t.Rear[0]), t.Coord(t.Front[2], t.Rear[2])
}

func (a *App) coordTo(spans []fitment.Span) float64 {
	last := spans[len(spans)-1].To
	return a.travel.Coord(last.FrontMM, last.RearMM)
}

// rungs are the findings that depend on the height, at the height where each
// begins: where a pair starts to touch, or to be closer than it needs, or where
// a limit is passed. Those at one height share a rung. What holds at every
// height would say nothing on a staff.
func (a *App) rungs() []draw.Rung {
	if a.checked == nil {
		return nil
	}
	st := a.staff()
	list := rungList{room: 16 / st.PxPerMM()}
	r := a.checked.Check()
	for i := range r.Findings {
		f := &r.Findings[i]
		s, _ := a.spans(f)
		begins := s.Short
		if f.Status == fitment.Contact {
			begins = s.Touch
		}
		if mm, ok := a.beginsAt(begins); ok {
			list.add(draw.Rung{MM: mm, Status: f.Status, Number: a.level(mm),
				Words: []string{a.pairBrief(f.A, f.B), a.brief(f.A)}, Key: f.Key()})
		}
	}
	for i := range r.Limits {
		l := &r.Limits[i]
		if mm, ok := a.beginsAt(l.Short); ok {
			list.add(draw.Rung{MM: mm, Status: limitStatus(l.Kind), Number: a.level(mm),
				Words: []string{a.brief(l.Part) + " limit", a.brief(l.Part)}, Key: limitKey(l)})
		}
	}
	for i, n := range list.more {
		if n > 0 {
			list.rungs[i].Words = []string{strconv.Itoa(n+1) + " things"}
		}
	}
	return list.rungs
}

// rungList gathers rungs, those closer than room (mm) into one.
type rungList struct {
	rungs []draw.Rung
	more  []int
	room  float64
}

func (l *rungList) add(r draw.Rung) {
	for k := range l.rungs {
		if math.Abs(l.rungs[k].MM-r.MM) < l.room {
			l.more[k]++
			return
		}
	}
	l.rungs, l.more = append(l.rungs, r), append(l.more, 0)
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

// unlevel is what may move besides the height, for a finding: "rolled 30".
func (a *App) unlevel(f *fitment.Finding) string {
	v := &a.doc.Vehicle
	var words []string
	if mm := math.Max(v.Front.CrossMM, v.Rear.CrossMM); mm > 0 {
		words = append(words, "rolled "+a.measured(mm))
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
		return "rolled or steered"
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
