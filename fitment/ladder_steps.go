package fitment

import (
	"math"

	"scrubline/scene"
)

// LadderStep does a part of the work that ladders of a way rest on, small
// enough to fit between two frames; true when none is left. A ladder asked for
// then is only put together.
func (m *Model) LadderStep(ask LadderAsk) (done bool) {
	if m.report == nil {
		m.Advance(1)
		return false
	}
	if ask.Ends == "" {
		ask.Ends = BothEnds
	}
	if m.book(ask.Ends).next() {
		return false
	}
	struck := m.locksStruck(ask)
	for _, loose := range append([]int{struck}, m.locksToLoosen(ask, struck)...) {
		free := m.loose(loose)
		if free == m {
			continue
		}
		if free.report == nil {
			free.Advance(1)
			return false
		}
		if free.book(ask.Ends).next() {
			return false
		}
	}
	return true
}

// A suspension that locks is supposed mended by one that guides its end
// straight up and down as far as the document's heights go: what other bars
// would do nobody knows yet. So the ladder without the lock is that of the
// document with a plain guide there.

// loosened is the model to climb when suspensions that lock are struck out.
func (m *Model) loosened(ask LadderAsk) *Model { return m.loose(m.locksStruck(ask)) }

// locksStruck are the struck suspensions, a bit for each end.
func (m *Model) locksStruck(ask LadderAsk) (bits int) {
	for i := range bothEnds {
		if ask.Without[SuspensionCause(bothEnds[i].name)] {
			bits |= 1 << i
		}
	}
	return bits
}

// locksToLoosen are the choices of ends that are to be guided to see how much
// further the body goes without each lock.
func (m *Model) locksToLoosen(ask LadderAsk, struck int) (out []int) {
	for i := range bothEnds {
		n := &bothEnds[i]
		lo, hi := m.wholeTravel(n)
		if ask.Ends.moves(n.heave) && struck&(1<<i) == 0 && (m.box.lo[n.heave] > lo || m.box.hi[n.heave] < hi) {
			out = append(out, struck|1<<i)
		}
	}
	return out
}

// loose is the model in which the ends of bits are plainly guided; the model
// itself for none, or where nothing locks there.
func (m *Model) loose(bits int) *Model {
	doc := *m.Doc
	for i := range bothEnds {
		n := &bothEnds[i]
		if lo, hi := m.wholeTravel(n); bits&(1<<i) != 0 && (m.box.lo[n.heave] > lo || m.box.hi[n.heave] < hi) {
			n.of(&doc.Vehicle).Suspension = &scene.Suspension{Kind: scene.Guide}
		} else {
			bits &^= 1 << i
		}
	}
	if bits == 0 {
		return m
	}
	if m.freed[bits] == nil {
		free, err := build(&doc, m.free[bits])
		if err != nil { // a guide can be built where bars could
			free = m
		}
		m.freed[bits], m.free[bits] = free, nil
	}
	return m.freed[bits]
}

// takeFreed lets a model begin with what an earlier one has worked out for
// suspensions that are guided.
func (m *Model) takeFreed(old *Model) {
	if old == nil {
		return
	}
	for i := range old.freed {
		m.free[i] = old.freed[i]
		if m.free[i] == nil || m.free[i] == old {
			m.free[i] = old.free[i]
		}
	}
}

// pastLock works out how much further the body goes when a lock is mended.
func (m *Model) pastLock(ask LadderAsk, r *Rung) {
	more := ask
	more.Without = map[string]bool{r.Cause: true}
	for cause, struck := range ask.Without {
		more.Without[cause] = struck
	}
	l := m.loosened(more).climb(more)
	sum := func(at Level) float64 { return math.Abs(at.FrontMM + at.RearMM) }
	for i := range l.Rungs {
		if next := &l.Rungs[i]; !next.Still && sum(next.At) >= sum(r.At) {
			r.Further = apartOn(ask, r.At, next.At)
			return
		}
	}
}
