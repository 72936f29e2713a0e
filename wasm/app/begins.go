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
			list.add(draw.Rung{MM: mm, Status: f.Status, Text: a.level(mm) + " " + lower(a.name(f.A)), Key: f.Key()})
		}
	}
	for i := range r.Limits {
		l := &r.Limits[i]
		if mm, ok := a.beginsAt(l.Short); ok {
			list.add(draw.Rung{MM: mm, Status: fitment.Tight, Text: a.level(mm) + " " + lower(a.name(l.Part)), Key: limitKey(l)})
		}
	}
	for i, n := range list.more {
		if n > 0 {
			at := a.level(list.rungs[i].MM) + ": " + strconv.Itoa(n+1)
			list.rungs[i].Text, list.rungs[i].Short = at+" things", at
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

// where puts the heights of a finding into words, in the staff's figures:
// "touch from −57 down".
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
			parts = append(parts, "from "+a.level(to)+" down")
		case atHigh:
			parts = append(parts, "from "+a.level(from)+" up")
		default:
			parts = append(parts, "from "+a.level(to)+" to "+a.level(from))
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return verb + " " + strings.Join(parts, " and ")
}

// spanWords says over which heights a finding holds.
func (a *App) spanWords(f *fitment.Finding) string {
	s, ok := a.spans(f)
	if !ok {
		return ""
	}
	text := a.where(s.Short, "too close")
	if len(s.Touch) > 0 {
		return a.where(s.Touch, "touching") + "; " + text
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

// limitKey names a limit that is passed.
func limitKey(l *fitment.Limit) string { return "limit|" + l.Part + "|" + string(l.Kind) }

// limitItem is a spring, shock or shaft that is taken past what it can do.
func (a *App) limitItem(w *fitment.Words, l *fitment.Limit) FindingItem {
	return FindingItem{Key: limitKey(l), Mark: "tight", Sure: true, Selected: limitKey(l) == a.finding,
		Title: w.LimitTitle(l), Figures: minus(w.LimitFigures(l)), Where: a.where(l.Short, "past it")}
}
