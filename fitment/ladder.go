package fitment

import (
	"cmp"
	"slices"
	"sort"
)

// RungKind is what happens at a rung of a ladder.
type RungKind string

const (
	RungContact RungKind = "contact"  // two parts touch
	RungTight   RungKind = "tight"    // two parts, or a part and a service room, are closer than they may be
	RungLimit   RungKind = "limit"    // a spring, shock or driveshaft passes what it can do
	RungLock    RungKind = "lock"     // a suspension goes no further
	RungRimLine RungKind = "rim_line" // a part passes below the rim line
	RungGround  RungKind = "ground"   // a part meets the ground
	RungEnd     RungKind = "end"      // the end of the travel
)

// rungOrder is the order of rungs at one height: the worst first.
var rungOrder = map[RungKind]int{RungContact: 0, RungGround: 1, RungLock: 2, RungLimit: 3, RungTight: 4, RungRimLine: 5, RungEnd: 6}

// Rung is something that begins at a height as the body goes its way from ride.
type Rung struct {
	Kind RungKind
	// Cause names what would have to be mended; all rungs of one cause go
	// together. Empty for the end of the travel.
	Cause   string
	Parts   []string
	End     string   // front or rear, for a lock
	Finding *Finding // for a pair or a service room
	Limit   *Limit
	// At is the body height, the worst of everything else (roll, steer,
	// movements) taken.
	At Level
	// LevelAt is the height with the wheels level and straight and every movement
	// at rest; nil when it never holds so.
	LevelAt *Level
	// AtRide says that it holds at ride already, and Began where on the other
	// side of ride it began; nil: from that end of the travel on.
	AtRide bool
	Began  *Level
	// Still says that it is the same at every height of the way, so that going
	// along it changes nothing.
	Still bool
	// Further is how much further the body goes when this is mended: to the next
	// rung of another cause, or to the end of the travel.
	Further Level
	// Height is the named height at which the travel ends, and Locked the ends
	// whose suspension keeps them from it.
	Height string
	Locked []string

	place float64
}

// Ladder is what happens, in order, as the body goes from ride to the end of
// its travel. What ends and begins again has a rung for each time, unless it was
// gone for less than spanHole.
type Ladder struct {
	Ask   LadderAsk
	Rungs []Rung // the last is the end of the travel
	// Struck are the rungs of what was struck out, where they would be.
	Struck []Rung
	// Stop is the index of the first rung that going along the way brings about,
	// or that holds at ride and depends on the height: so far it goes.
	Stop int
	// Meets is the index of the first rung that going along the way brings about
	// and that stops the body itself: a contact, the ground, a limit, a lock or the
	// end of the travel. Room that is only short lets it go on.
	Meets     int
	Undecided []Undecided // pairs nothing is certain about; a rung may be missing
}

// All are the rungs with those of what was struck out among them, each where it
// is or would be, and beside it whether it is struck out.
func (l *Ladder) All() (rungs []*Rung, struck []bool) {
	sum := func(r *Rung) float64 { return r.At.FrontMM + r.At.RearMM }
	before := func(x, y *Rung) bool {
		if l.Ask.Up {
			x, y = y, x
		}
		return sum(x) > sum(y)
	}
	k := 0
	for i := range l.Rungs {
		r := &l.Rungs[i]
		for k < len(l.Struck) && (r.Kind == RungEnd || before(&l.Struck[k], r)) {
			rungs, struck = append(rungs, &l.Struck[k]), append(struck, true)
			k++
		}
		rungs, struck = append(rungs, r), append(struck, false)
	}
	return rungs, struck
}

// GoesTo is how far the body goes.
func (l *Ladder) GoesTo() Level { return l.Rungs[l.Stop].At }

// Cautions are what to know before mending any of it, each once.
func (l *Ladder) Cautions() (out []string) {
	rungs, _ := l.All()
	for _, r := range rungs {
		if r.Finding != nil && r.Finding.Caution != "" && !slices.Contains(out, r.Finding.Caution) {
			out = append(out, r.Finding.Caution)
		}
	}
	return out
}

// LadderAsk says which ladder is meant. The zero value is the way down, front
// and rear together, nothing struck out.
type LadderAsk struct {
	Up      bool
	Ends    Ends            // empty is both
	Without map[string]bool // causes that are supposed to be mended
}

// PairCause names a pair of parts as what is to be mended.
func PairCause(a, b string) string { return a + "+" + b }

// RoomCause names a service room of the first part that the second is in.
func RoomCause(owner, other string) string { return "room:" + owner + "+" + other }

// LimitCause names a limit of a spring, shock or driveshaft.
func LimitCause(part string, k LimitKind) string { return "limit:" + part + ":" + string(k) }

// SuspensionCause names the suspension of the front or the rear.
func SuspensionCause(end string) string { return "suspension:" + end }

// LowCause names a part that hangs low: below the rim line, on the ground.
func LowCause(part string) string { return "low:" + part }

// Ladder is the ladder asked for. What it rests on is kept, so that another
// with other causes struck out costs next to nothing.
func (m *Model) Ladder(ask LadderAsk) *Ladder {
	for !m.LadderStep(ask) {
	}
	if ask.Ends == "" {
		ask.Ends = BothEnds
	}
	l := m.loosened(ask).climb(ask)
	for i := range l.Rungs {
		if r := &l.Rungs[i]; r.Kind == RungLock {
			m.pastLock(ask, r)
		}
	}
	if len(ask.Without) > 0 {
		plain := m.climb(LadderAsk{Up: ask.Up, Ends: ask.Ends})
		l.Struck = slices.DeleteFunc(plain.Rungs, func(r Rung) bool { return !ask.Without[r.Cause] })
	}
	return l
}

// climb lists the rungs of a model whose book is complete.
func (m *Model) climb(ask LadderAsk) *Ladder {
	b := m.book(ask.Ends)
	l := &Ladder{Ask: ask}
	for i := range b.events {
		if e := &b.events[i]; !ask.Without[e.rung.Cause] {
			l.Rungs = append(l.Rungs, e.rungs(b.way, ask.Up)...)
		}
	}
	sort.SliceStable(l.Rungs, func(i, j int) bool {
		x, y := &l.Rungs[i], &l.Rungs[j]
		return cmp.Or(cmp.Compare(y.place, x.place), still(x)-still(y), cmp.Compare(rungOrder[x.Kind], rungOrder[y.Kind])) < 0
	})
	l.Rungs = append(l.Rungs, m.endRung(b.way, ask))
	for i := range l.Rungs {
		r := &l.Rungs[i]
		if l.Rungs[l.Stop].Still {
			l.Stop = i
		}
		if !r.Still && r.Kind != RungEnd {
			r.Further = apartOn(ask, r.At, l.after(i).At)
		}
	}
	l.Meets = slices.IndexFunc(l.Rungs, func(r Rung) bool { return !r.Still && !r.AtRide && r.Kind != RungTight && r.Kind != RungRimLine })
	for _, u := range m.report.Undecided {
		if !ask.Without[PairCause(u.A, u.B)] {
			l.Undecided = append(l.Undecided, u)
		}
	}
	return l
}

// still sorts what is the same at every height after what is not.
func still(r *Rung) int {
	if r.Still {
		return 1
	}
	return 0
}

// after is the next rung of another cause that the height has a say in.
func (l *Ladder) after(i int) *Rung {
	for j := i + 1; j < len(l.Rungs); j++ {
		if r := &l.Rungs[j]; r.Cause != l.Rungs[i].Cause && !r.Still {
			return r
		}
	}
	return &l.Rungs[len(l.Rungs)-1]
}

// apartOn is how far it is from one height to the next on the way.
func apartOn(ask LadderAsk, from, to Level) Level {
	if ask.Up {
		from, to = to, from
	}
	return Level{FrontMM: from.FrontMM - to.FrontMM, RearMM: from.RearMM - to.RearMM}
}

// rungs are where an event begins on the way, once for each stretch it holds
// over. On the way up places are counted downwards, so that both ways are one.
func (e *event) rungs(w *way, up bool) (out []Rung) {
	turn := func(in []stretch) []stretch {
		if !up {
			return in
		}
		turned := make([]stretch, len(in))
		for i, s := range in {
			turned[len(in)-1-i] = stretch{-s.hi, -s.lo}
		}
		return turned
	}
	sign, start, ride := 1.0, w.top(), w.ride
	if up {
		sign, start, ride = -1, 0, -w.ride
	}
	level := func(place float64) Level { return w.level(sign * place) }
	for _, s := range turn(e.any) {
		if s.lo > ride || s.lo == ride && !e.anyAtRide {
			continue
		}
		r := e.rung
		r.AtRide = s.hi > ride || s.hi == ride && e.anyAtRide
		r.place, r.Still = min(s.hi, ride), e.still
		r.At = level(r.place)
		if r.AtRide && s.hi < start {
			began := level(s.hi)
			r.Began = &began
		}
		for _, k := range turn(e.level) {
			if k.lo <= r.place && k.hi >= s.lo && (k.lo < ride || e.levelAtRide) {
				at := level(min(k.hi, r.place))
				r.LevelAt = &at
			}
		}
		out = append(out, r)
	}
	return out
}

// endRung is the end of the travel, with what ends it.
func (m *Model) endRung(w *way, ask LadderAsk) Rung {
	place := 0.0
	if ask.Up {
		place = w.top()
	}
	r := Rung{Kind: RungEnd, At: w.level(place)}
	r.LevelAt = &r.At
	asked := m.wholeHeights(ask.Ends)
	last := asked[0]
	if ask.Up {
		last = asked[len(asked)-1]
	}
	for i := range bothEnds {
		n := &bothEnds[i]
		if ask.Ends.moves(n.heave) && w.at(place)[n.heave] != last[n.heave] {
			r.Locked = append(r.Locked, n.name)
		}
	}
	for _, h := range m.Doc.Heights {
		front, rear := h.FrontMM == last[frontHeave] || !ask.Ends.moves(frontHeave), h.RearMM == last[rearHeave] || !ask.Ends.moves(rearHeave)
		if front && rear && r.Height == "" {
			r.Height = h.ID
		}
	}
	return r
}
