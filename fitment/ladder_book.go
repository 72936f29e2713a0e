package fitment

// event is something that holds over stretches of a way, and what would have to
// be mended so that it does not.
type event struct {
	rung Rung // all but its heights
	*holds
}

// ladderBook is what the ladders of one way rest on, worked out piece by piece.
type ladderBook struct {
	way    *way
	steps  []func() (done bool) // each is called until it is done
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
		key, ans := m.answerOf(f)
		if ans == nil {
			continue
		}
		if f.Status == Contact {
			b.pair(pairRung(f, RungContact), &ans.touch[ends.index()], m.searchTouch(b.way, key, ans))
		}
		b.pair(pairRung(f, RungTight), &ans.short[ends.index()], m.searchShort(b.way, key))
	}
	for i := range m.report.Limits {
		l := &m.report.Limits[i]
		b.once(func() []event { return m.limitEvents(b.way, l) })
	}
	b.low(m.searchLow(b.way))
	b.once(func() []event { return m.lockEvents(b.way, ends) })
	*at = b
	return b
}

// pair adds the event of a pair, whose answer is kept at a place of its own.
func (b *ladderBook) pair(r Rung, at **holds, s *holdsSearch) {
	b.steps = append(b.steps, func() bool {
		if *at == nil {
			if !s.step() {
				return false
			}
			*at = &s.found
		}
		b.events = append(b.events, event{r, *at})
		return true
	})
}

// low adds the events of what hangs low.
func (b *ladderBook) low(s *lowSearch) {
	b.steps = append(b.steps, func() bool {
		if !s.step() {
			return false
		}
		b.events = append(b.events, s.events()...)
		return true
	})
}

func (b *ladderBook) once(find func() []event) {
	b.steps = append(b.steps, func() bool {
		b.events = append(b.events, find()...)
		return true
	})
}

// next does one piece; false when there was none left.
func (b *ladderBook) next() bool {
	if len(b.steps) == 0 {
		return false
	}
	if b.steps[0]() {
		b.steps = b.steps[1:]
	}
	return true
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
