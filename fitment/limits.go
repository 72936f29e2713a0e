package fitment

import (
	"fmt"
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
)

// LimitKind is which limit of a part between two carriers is passed.
type LimitKind string

const (
	TooShort   LimitKind = "too_short"   // pushed together beyond its shortest length
	TooLong    LimitKind = "too_long"    // pulled out beyond its longest length
	FrontJoint LimitKind = "front_joint" // the front joint bends too far
	RearJoint  LimitKind = "rear_joint"  // the rear joint bends too far
)

// Limit is an air spring, shock or driveshaft that the travel takes past what
// it can do.
type Limit struct {
	Part  string
	Kind  LimitKind
	Value float64 // the worst length (mm) or joint angle (degrees)
	Limit float64 // what it may be
	At    State   // the worst state
	// Short has the body heights at which the limit is passed, the wheels level.
	Short []Span
}

// limitStep (mm) is how finely the travel is walked. Between two steps a length
// departs from a straight line by at most step²/(8·length): 0.01 mm on a spring
// of 100 mm.
const limitStep = 2.0

// limits walks every link with limits through its travel.
func (m *Model) limits() []Limit {
	var out []Limit
	for _, p := range m.parts {
		if !p.limited {
			p.limited = true
			for i := range p.items {
				if p.items[i].link != nil {
					p.limits = append(p.limits, m.linkLimits(p.part.ID, &p.items[i])...)
				}
			}
		}
		out = append(out, p.limits...)
	}
	return out
}

// linkMeasure is one quantity of a link with its limit; excess is positive when it
// is passed.
type linkMeasure struct {
	kind   LimitKind
	limit  float64
	value  func(*motion.State) float64
	excess func(v float64) float64
}

func (m *Model) linkMeasures(k *link) []linkMeasure {
	var out []linkMeasure
	length := func(st *motion.State) float64 { return m.endsOf(k, st).length() }
	if l := k.limits.ShortestMM; l > 0 {
		out = append(out, linkMeasure{TooShort, l, length, func(v float64) float64 { return l - v }})
	}
	if l := k.limits.LongestMM; l > 0 {
		out = append(out, linkMeasure{TooLong, l, length, func(v float64) float64 { return v - l }})
	}
	if l := k.maxAngleDeg; l > 0 {
		over := func(v float64) float64 { return v - l }
		out = append(out,
			linkMeasure{FrontJoint, l, func(st *motion.State) float64 { f, _ := m.jointAngles(k, st); return f }, over},
			linkMeasure{RearJoint, l, func(st *motion.State) float64 { _, r := m.jointAngles(k, st); return r }, over})
	}
	return out
}

// ends are a link's anchors in a state.
type ends struct{ a, b geom.Vec }

func (e ends) length() float64 { return e.a.Dist(e.b) }

func (m *Model) endsOf(k *link, st *motion.State) ends {
	a, b := m.linkEnds(k, st)
	return ends{a, b}
}

// jointAngles are the angles (degrees) between the shaft and what each of its
// joints is bolted to.
func (m *Model) jointAngles(k *link, st *motion.State) (front, rear float64) {
	p := m.carrier(k.onA, st)
	a, axisA := p.Apply(k.a), p.R.Apply(k.axisA)
	p = m.carrier(k.onB, st)
	along := p.Apply(k.b).Sub(a)
	return angleDeg(along, axisA), angleDeg(along, p.R.Apply(k.axisB))
}

// angleDeg is the angle between two directions; atan2 keeps small angles exact.
func angleDeg(a, b geom.Vec) float64 {
	return math.Atan2(a.Cross(b).Len(), a.Dot(b)) / degree
}

// linkLimits walks the box of states: every step of the heaves that move the
// link, level and rolled each way as far as it goes.
func (m *Model) linkLimits(id string, it *placedItem) []Limit {
	qs := m.linkMeasures(it.link)
	if len(qs) == 0 {
		return nil
	}
	worst, most := make([]Limit, len(qs)), make([]float64, len(qs))
	var st State
	var ms motion.State
	m.walk(&it.move.uses, func(p *whole) {
		m.box.put(p, &st)
		ms = st.corners()
		for i := range qs {
			v := qs[i].value(&ms)
			if e := qs[i].excess(v); e > most[i]+geom.GapTol {
				most[i], worst[i].Value, worst[i].At = e, v, st
			}
		}
	})
	var out []Limit
	for i := range qs {
		if most[i] > 0 {
			w := &worst[i]
			w.Part, w.Kind, w.Limit, w.Short = id, qs[i].kind, qs[i].limit, m.levelSpans(qs[i])
			out = append(out, *w)
		}
	}
	return out
}

// walk visits the states that matter to a link that these parameters move.
func (m *Model) walk(uses *[paramCount]bool, visit func(*whole)) {
	var p whole
	for i := range m.box.seeds {
		p = m.box.seeds[i]
		visit(&p)
	}
	var along func(param int)
	along = func(param int) {
		if param > rearCross {
			visit(&p)
			return
		}
		if !uses[param] {
			along(param + 1)
			return
		}
		lo, hi := m.box.lo[param], m.box.hi[param]
		n := math.Ceil((hi - lo) / limitStep)
		if param >= frontCross {
			n = 2
		}
		for i := 0.0; i <= n; i++ {
			p[param] = lo + (hi-lo)*i/n
			along(param + 1)
		}
		p[param] = 0
	}
	p = whole{}
	along(frontHeave)
}

// levelSpans are the body heights, front and rear together and level, at which
// a limit is passed.
func (m *Model) levelSpans(q linkMeasure) []Span {
	w := m.way(BothEnds)
	return w.spans(w.sampled(func(p *whole) bool { return m.passes(&q, p) }))
}

// passes says whether a limit is passed in a state.
func (m *Model) passes(q *linkMeasure, p *whole) bool {
	st := m.box.state(p)
	ms := st.corners()
	return q.excess(q.value(&ms)) > geom.GapTol
}

// limitOn is where on a way a limit is passed: rolled each way as far as it
// goes, and level.
func (m *Model) limitOn(w *way, it *placedItem, q linkMeasure) *holds {
	over := func(p *whole) bool { return m.passes(&q, p) }
	uses, move := &it.move.uses, false
	h := &holds{level: w.sampled(over), any: w.sampled(func(p *whole) bool { return m.rolled(uses, *p, over) })}
	h.anyAtRide, h.levelAtRide = m.rolled(uses, whole{}, over), over(&whole{})
	for i := 0; i+1 < len(w.points); i++ {
		for param := frontHeave; param <= rearHeave; param++ {
			move = move || uses[param] && w.points[i][param] != w.points[i+1][param]
		}
	}
	h.still = !move
	return h
}

// rolled says whether something holds at a height in any of the rolls that the
// limits of a link with these parameters are looked at in.
func (m *Model) rolled(uses *[paramCount]bool, p whole, over func(*whole) bool) bool {
	for f := -1.0; f <= 1; f++ {
		for r := -1.0; r <= 1; r++ {
			if f != 0 && !uses[frontCross] || r != 0 && !uses[rearCross] {
				continue
			}
			p[frontCross], p[rearCross] = f*m.box.hi[frontCross], r*m.box.hi[rearCross]
			if over(&p) {
				return true
			}
		}
	}
	return false
}

// crossing is the part of a step in which a condition holds, its border found
// by halving.
func crossing(over func(float64) bool, lo, hi float64) (stretch, bool) {
	a, b := over(lo), over(hi)
	if a == b {
		return stretch{lo, hi}, a
	}
	in, out := lo, hi
	if b {
		in, out = hi, lo
	}
	for i := 0; i < 12; i++ {
		mid := (in + out) / 2
		if over(mid) {
			in = mid
		} else {
			out = mid
		}
	}
	if b {
		return stretch{out, hi}, true
	}
	return stretch{lo, out}, true
}

// LimitTitle says which limit is passed.
func (w *Words) LimitTitle(l *Limit) string {
	name := w.Begin(l.Part)
	switch l.Kind {
	case TooShort:
		return name + " is pushed past its shortest"
	case TooLong:
		return name + " is pulled past its longest"
	case FrontJoint:
		return name + ": front joint bends too far"
	}
	return name + ": rear joint bends too far"
}

// LimitFigures says by how much and where.
func (w *Words) LimitFigures(l *Limit) string {
	if l.Kind == FrontJoint || l.Kind == RearJoint {
		return fmt.Sprintf("%.1f° %s, may bend %g°", l.Value, w.State(l.At), l.Limit)
	}
	return fmt.Sprintf("%s long %s, may be %s", w.Length(l.Value), w.State(l.At), w.Length(l.Limit))
}

// LimitSpans says over which body heights.
func (w *Words) LimitSpans(l *Limit) string {
	if len(l.Short) == 0 {
		return "only when rolled"
	}
	return w.heights(l.Short)
}
