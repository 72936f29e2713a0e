package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// event is something that holds over stretches of a way, and what would have to
// be mended so that it does not.
type event struct {
	rung Rung // all but its heights
	*holds
}

// ladderBook is what the ladders of one way rest on, worked out piece by piece.
type ladderBook struct {
	way    *way
	steps  []func() []event
	events []event
}

// book begins the book of a way; the check is finished.
func (m *Model) book(ends Ends) *ladderBook {
	at := &m.books[ends.index()]
	if *at != nil {
		return *at
	}
	b := &ladderBook{way: m.way(ends)}
	for i := range m.report.Findings {
		f := &m.report.Findings[i]
		b.steps = append(b.steps, func() []event { return m.touchEvents(b.way, ends, f) },
			func() []event { return m.shortEvents(b.way, ends, f) })
	}
	for i := range m.report.Limits {
		l := &m.report.Limits[i]
		b.steps = append(b.steps, func() []event { return m.limitEvents(b.way, l) })
	}
	b.steps = append(b.steps, func() []event { return m.lowEvents(b.way) }, func() []event { return m.lockEvents(b.way, ends) })
	*at = b
	return b
}

// next does one piece; false when there was none left.
func (b *ladderBook) next() bool {
	if len(b.steps) == 0 {
		return false
	}
	b.events = append(b.events, b.steps[0]()...)
	b.steps = b.steps[1:]
	return true
}

func (m *Model) touchEvents(w *way, ends Ends, f *Finding) []event {
	key, ans := m.answerOf(f)
	if ans == nil || f.Status != Contact {
		return nil
	}
	return []event{{pairRung(f, RungContact), m.touchOn(w, ends, key, ans)}}
}

func (m *Model) shortEvents(w *way, ends Ends, f *Finding) []event {
	key, ans := m.answerOf(f)
	if ans == nil {
		return nil
	}
	return []event{{pairRung(f, RungTight), m.shortOn(w, ends, key, ans)}}
}

func pairRung(f *Finding, k RungKind) Rung {
	r := Rung{Kind: k, Cause: PairCause(f.A, f.B), Parts: []string{f.A, f.B}, Finding: f}
	if f.Service != "" {
		r.Cause = RoomCause(f.A, f.B)
	}
	return r
}

func (m *Model) limitEvents(w *way, l *Limit) (out []event) {
	p := m.parts[m.index[l.Part]]
	for i := range p.items {
		k := p.items[i].link
		if k == nil {
			continue
		}
		for _, q := range m.linkMeasures(k) {
			if q.kind == l.Kind && q.limit == l.Limit {
				r := Rung{Kind: RungLimit, Cause: LimitCause(l.Part, l.Kind), Parts: []string{l.Part}, Limit: l}
				out = append(out, event{r, m.limitOn(w, &p.items[i], q)})
			}
		}
	}
	return out
}

// lockEvents are the places at which a suspension keeps an end from going where
// the document's heights go. One that does so only with left and right apart, or
// steered, does not hold level.
func (m *Model) lockEvents(w *way, ends Ends) (out []event) {
	for i := range bothEnds {
		n := &bothEnds[i]
		lim, ok := m.ch.Limits(n.which)
		if !ok || !ends.moves(n.heave) {
			continue
		}
		lo, hi := m.wholeTravel(n)
		h := &holds{}
		locks := func(s stretch, level bool) {
			if h.any = append(h.any, s); level {
				h.level = append(h.level, s)
			}
		}
		if edge := m.box.lo[n.heave]; edge > lo {
			locks(w.beyond(n.heave, edge, true), lim.LockedLow)
		}
		if edge := m.box.hi[n.heave]; edge < hi {
			locks(w.beyond(n.heave, edge, false), lim.LockedHigh)
		}
		if len(h.any) > 0 {
			out = append(out, event{Rung{Kind: RungLock, Cause: SuspensionCause(n.name), End: n.name}, h})
		}
	}
	return out
}

// beyond is the stretch of a way at its lower or upper end over which an end
// stands at the border of its travel.
func (w *way) beyond(heave int, edge float64, low bool) stretch {
	if low {
		i := 0
		for i+1 < len(w.points) && w.points[i+1][heave] <= edge {
			i++
		}
		return stretch{0, float64(i)}
	}
	i := len(w.points) - 1
	for i > 0 && w.points[i-1][heave] >= edge {
		i--
	}
	return stretch{float64(i), w.top()}
}

// lowEvents are the parts that pass below the rim line and that meet the
// ground, the wheels level and straight.
func (m *Model) lowEvents(w *way) (out []event) {
	for _, p := range m.parts {
		if m.standsOnGround(p) {
			continue
		}
		if low := m.lowOn(w, p, false); low != nil {
			r := Rung{Kind: RungRimLine, Cause: LowCause(p.part.ID), Parts: []string{p.part.ID}}
			out = append(out, event{r, low})
		}
		if low := m.lowOn(w, p, true); low != nil {
			r := Rung{Kind: RungGround, Cause: LowCause(p.part.ID), Parts: []string{p.part.ID}}
			out = append(out, event{r, low})
		}
	}
	return out
}

// lowOn is where on a way a part hangs below the rim line, or reaches the
// ground; nil for nowhere.
func (m *Model) lowOn(w *way, p *placed, ground bool) *holds {
	over := func(at *whole) bool {
		st := m.box.state(at)
		n, c := m.ch.GroundPlane(st.motion())
		limit := geom.GapTol
		if !ground {
			limit = m.rimLine(st.motion(), n, c) - geom.GapTol
		}
		if p.swept.above(n)+c >= limit {
			return false
		}
		h, _, ok := m.lowestOf(p, st, n, c)
		return ok && h < limit
	}
	found := w.sampled(over)
	if found == nil {
		return nil
	}
	ride := over(&whole{})
	return &holds{any: found, level: found, anyAtRide: ride, levelAtRide: ride, still: !m.sinks(w, p)}
}

// above is how far a box reaches down along a direction.
func (b *box) above(n geom.Vec) float64 {
	least := func(k, lo, hi float64) float64 { return math.Min(float64(k*lo), float64(k*hi)) }
	return least(n.X, b.lo.X, b.hi.X) + least(n.Y, b.lo.Y, b.hi.Y) + least(n.Z, b.lo.Z, b.hi.Z)
}

// sinks says whether a part's height over the ground changes along a way; what
// rides on a level axle's does not.
func (m *Model) sinks(w *way, p *placed) bool {
	lo, hi := math.Inf(1), math.Inf(-1)
	for t := 0.0; t <= w.top(); t += 0.5 {
		at := w.at(t)
		st := m.box.state(&at)
		n, c := m.ch.GroundPlane(st.motion())
		h, _, _ := m.lowestOf(p, st, n, c)
		lo, hi = min(lo, h), max(hi, h)
	}
	return hi-lo > geom.GapTol
}
