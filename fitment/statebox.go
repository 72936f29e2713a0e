package fitment

import (
	"scrubline/fitment/internal/motion"
	"scrubline/scene"
)

// The parameters of the state box. Heave is the body's rise over an end (mm).
// Cross is the left–right difference (mm) at the middle of the heave's range;
// towards the ends of the range it shrinks, so that no corner leaves the range.
// Steer is in degrees. The document's movements follow, in its order: degrees
// of a hinge, millimetres of a slide.
const (
	frontHeave = iota
	rearHeave
	frontCross
	rearCross
	steer
	firstMove
	paramCount = firstMove + scene.MaxMovements
)

// whole is a point of the state box: a value for every parameter there is. A
// pair's search runs over a travel.Point of the few it sees.
type whole [paramCount]float64

// stateBox is the travel of the whole vehicle.
type stateBox struct {
	lo, hi whole
	seeds  []whole // the document's heights, ride first
}

func newStateBox(doc *scene.Document) *stateBox {
	b := &stateBox{}
	for _, h := range doc.Heights {
		p := whole{frontHeave: h.FrontMM, rearHeave: h.RearMM}
		for i := frontHeave; i <= rearHeave; i++ {
			b.lo[i], b.hi[i] = min(b.lo[i], p[i]), max(b.hi[i], p[i])
		}
		if h.ID == scene.Ride {
			b.seeds = append([]whole{p}, b.seeds...)
		} else {
			b.seeds = append(b.seeds, p)
		}
	}
	b.lo[frontCross], b.hi[frontCross] = -doc.Vehicle.Front.CrossMM, doc.Vehicle.Front.CrossMM
	b.lo[rearCross], b.hi[rearCross] = -doc.Vehicle.Rear.CrossMM, doc.Vehicle.Rear.CrossMM
	b.lo[steer], b.hi[steer] = -doc.Vehicle.Front.SteerDeg, doc.Vehicle.Front.SteerDeg
	for i, m := range doc.Movements {
		b.lo[firstMove+i], b.hi[firstMove+i] = m.From, m.To
	}
	return b
}

// cut shortens the travel of an end to what its linkage lets it have; the named
// heights beyond are taken at the end of it.
func (b *stateBox) cut(end motion.Which, l *motion.Limits) {
	heave, cross := frontHeave, frontCross
	if end == motion.RearEnd {
		heave, cross = rearHeave, rearCross
	}
	b.lo[heave], b.hi[heave] = max(b.lo[heave], l.Low), min(b.hi[heave], l.High)
	for i := range b.seeds {
		b.seeds[i][heave] = max(b.lo[heave], min(b.hi[heave], b.seeds[i][heave]))
	}
	b.hi[cross] = min(b.hi[cross], l.Cross)
	b.lo[cross] = -b.hi[cross]
	if end == motion.FrontEnd && l.Steer < b.hi[steer]*degree {
		b.hi[steer] = l.Steer / degree
		b.lo[steer] = -b.hi[steer]
	}
}

func (b *stateBox) middle() (p whole) {
	for i := range p {
		p[i] = (b.lo[i] + b.hi[i]) / 2
	}
	return p
}

func (b *stateBox) half(i int) float64 { return (b.hi[i] - b.lo[i]) / 2 }

// state is a point of the box as corner heights, steer and movements.
func (b *stateBox) state(p *whole) (st State) {
	b.put(p, &st)
	return st
}

// put is state, written into st.
func (b *stateBox) put(p *whole, st *State) {
	f, r := b.cross(p, frontHeave, frontCross)/2, b.cross(p, rearHeave, rearCross)/2
	st.FL, st.FR = p[frontHeave]+f, p[frontHeave]-f
	st.RL, st.RR = p[rearHeave]+r, p[rearHeave]-r
	st.Steer = p[steer]
	for i := range st.Moves {
		st.Moves[i] = p[firstMove+i]
	}
}

// cross shrinks the cross height where a corner would leave the heave's range:
// by the factor min(1, 2·room/limit), whose slope over the heave is at most
// 2/limit. So the cross height changes by at most 2 mm per mm of heave.
func (b *stateBox) cross(p *whole, heave, cross int) float64 {
	limit := b.hi[cross]
	if limit <= 0 {
		return 0
	}
	room, above := p[heave]-b.lo[heave], b.hi[heave]-p[heave]
	if above < room { // min would be a call in WebAssembly
		room = above
	}
	part := 2 * room / limit
	if part > 1 {
		part = 1
	}
	return p[cross] * part
}

// corners lists where a parameter's motion has a corner: the heaves at which the
// cross begins and ends to follow the heave.
func (b *stateBox) corners(param int) []float64 {
	if param != frontHeave && param != rearHeave {
		return nil
	}
	limit := b.hi[param-frontHeave+frontCross]
	if limit <= 0 {
		return nil
	}
	lo, hi := b.lo[param], b.hi[param]
	return []float64{min(lo+limit/2, (lo+hi)/2), max(hi-limit/2, (lo+hi)/2)}
}

func (s State) motion() motion.State { return s.corners() }

// corners is motion without a copy of the whole.
func (s *State) corners() motion.State {
	return motion.State{FL: s.FL, FR: s.FR, RL: s.RL, RR: s.RR, Steer: s.Steer * degree}
}
