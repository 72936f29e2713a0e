package motion

import "math"

// The longest single step of a linkage from one state to the next: short enough
// that the solver never jumps to another way of putting the bars together.
const (
	stepMM  = 5.0
	stepRad = 0.04
)

// state is a solved state of a linkage.
type state struct {
	d     drive
	u     vector
	worst float64 // largest residual, mm
}

// follow goes from one state to another in short steps. When it cannot get
// there, it returns the last state reached and the first that was not.
func (s *system) follow(from state, to drive) (at state, bad drive, ok bool) {
	a := from.d
	far := max(math.Abs(to.h-a.h), math.Abs(to.cross-a.cross), math.Abs(to.rack-a.rack)) / stepMM
	n := int(math.Ceil(max(far, math.Abs(to.steer-a.steer)/stepRad)))
	at = from
	for i := 1; i <= n; i++ {
		d := a.toward(to, float64(i)/float64(n))
		if i == n {
			d = to
		}
		u, worst, ok := s.solve(at.u, &d)
		if !ok {
			return at, d, false
		}
		at = state{d, u, worst}
	}
	return at, to, true
}

// lock goes as far toward a state as the linkage lets it: the step that fails
// is halved until nothing is left of it.
func (s *system) lock(from state, to drive) (at state, locked bool) {
	at, bad, ok := s.follow(from, to)
	if ok {
		return at, false
	}
	for range 45 {
		d := at.d.toward(bad, 0.5)
		if u, worst, ok := s.solve(at.u, &d); ok {
			at = state{d, u, worst}
		} else {
			bad = d
		}
	}
	return at, true
}
