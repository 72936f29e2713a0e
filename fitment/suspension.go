package fitment

import (
	"fmt"
	"strings"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/scene"
)

// newMover solves a vehicle's running gear over the document's travel. An error
// names the end and what its suspension leaves loose.
func newMover(doc *scene.Document) (mover, error) {
	v := mover{ch: newChassis(&doc.Vehicle), box: newStateBox(doc), poses: &poseCache{}}
	for _, end := range bothEnds {
		e := end.of(&doc.Vehicle)
		l := linkage(e, v.ch.Origin(end.axle))
		if l == nil {
			continue
		}
		t := motion.Travel{Low: v.box.lo[end.heave], High: v.box.hi[end.heave], Cross: e.CrossMM, Steer: e.SteerDeg * degree}
		if err := v.ch.Suspend(end.which, l, t); err != nil {
			return mover{}, fmt.Errorf("%s suspension: %w", end.name, err)
		}
		lim, _ := v.ch.Limits(end.which)
		v.box.cut(end.which, &lim)
	}
	v.moves = newMoves(doc, v.ch)
	return v, nil
}

// endNames is one end of a vehicle, in the words of both packages.
type endNames struct {
	name  string
	which motion.Which
	axle  motion.Carrier
	heave int
	cross int
}

var bothEnds = [2]endNames{
	{"front", motion.FrontEnd, motion.FrontAxle, frontHeave, frontCross},
	{"rear", motion.RearEnd, motion.RearAxle, rearHeave, rearCross},
}

func (n *endNames) of(v *scene.Vehicle) *scene.End {
	if n.which == motion.RearEnd {
		return &v.Rear
	}
	return &v.Front
}

// sameVehicle compares suspensions by what they say, not by where they are kept.
func sameVehicle(a, b *scene.Vehicle) bool {
	if !a.Front.Suspension.Equal(b.Front.Suspension) || !a.Rear.Suspension.Equal(b.Rear.Suspension) {
		return false
	}
	x, y := *a, *b
	x.Front.Suspension, x.Rear.Suspension = nil, nil
	y.Front.Suspension, y.Rear.Suspension = nil, nil
	return x == y
}

const (
	// leafShare is the length of the bar that moves an axle seat as a leaf does,
	// as a part of the leaf's fixed half (spring makers' rule, from memory).
	leafShare = 0.75
	// leafPairMM is how far over that bar its like lies, which keeps the seat
	// from turning; any height gives the same motion while both wheels rise
	// alike.
	leafPairMM = 100
)

// linkage is an end's suspension as the solver takes it; nil for a plain guide.
// axle is the middle of the axle at ride.
func linkage(e *scene.End, axle geom.Vec) *motion.Linkage {
	s := e.Suspension
	if s == nil || s.Kind == scene.Guide {
		return nil
	}
	l := &motion.Linkage{Tie: -1}
	for _, b := range s.Bars {
		name := b.Name
		if name == "" {
			name = "Bar"
		}
		l.Bars = append(l.Bars, motion.Bar{Name: name, From: vec(b.BodyMM), To: vec(b.CarriedMM)})
	}
	switch s.Kind {
	case scene.FourLinkWatts:
		l.Crank = &motion.Crank{Name: "Watt's link, crank", First: len(l.Bars) - 2, OnBody: s.Crank == scene.CrankOnBody}
	case scene.LeafSprings:
		leaves(l, axle)
	case scene.DoubleWishbone:
		l.Tie = len(l.Bars) - 1
	case scene.Strut:
		l.Slide = &motion.Slide{Name: l.Bars[0].Name, Top: l.Bars[0].From, Low: l.Bars[0].To}
		l.Bars = l.Bars[1:]
		l.Tie = len(l.Bars) - 1
	}
	return l
}

// leaves puts bars in the place of leaf springs: one of leafShare of the fixed
// half's length that ends at the seat, and its like above it. Sideways the
// leaves themselves hold the axle.
func leaves(l *motion.Linkage, axle geom.Vec) {
	l.Straight = true
	for i := range l.Bars {
		b := &l.Bars[i]
		b.From = axle.Add(b.To).Lerp(b.From, leafShare)
		up := geom.V(0, 0, leafPairMM)
		l.Bars = append(l.Bars, motion.Bar{From: b.From.Add(up), To: b.To.Add(up)})
	}
}

// Bar is a bar of a suspension in one state, in body axes: from the body to
// what it carries. Side is left or right where each wheel has its own. A leaf
// spring's is the bar that stands for it; a crank's goes from end to end.
type Bar struct {
	Name     string
	End      string // front or rear
	Side     string
	From, To scene.Vec
}

// Bars are where the bars of both ends' suspensions stand in one state.
func (m *Model) Bars(st State) []Bar {
	var out []Bar
	for i := range bothEnds {
		n := &bothEnds[i]
		alone := n.of(&m.Doc.Vehicle).Independent
		for _, l := range m.ch.Links(n.which, st.motion()) {
			k := Bar{Name: l.Name, End: n.name, From: unvec(l.From), To: unvec(l.To)}
			if alone {
				k.Side = "left"
				if l.Right {
					k.Side = "right"
				}
			}
			out = append(out, k)
		}
	}
	return out
}

// SuspensionReport is what is to be known of an end's suspension.
type SuspensionReport struct {
	End         string // front or rear
	Kind        string
	Approximate bool // its bars stand for something else
	// LockedLowMM and LockedHighMM are the heights over ride at which it locks,
	// level and straight ahead, where that is within the travel; else nil.
	LockedLowMM, LockedHighMM *float64
	// LowMM to HighMM is the travel that is checked: the document's, cut short
	// of where the suspension locks.
	LowMM, HighMM float64
	// Cut says that the suspension does not reach one of the document's heights.
	Cut bool
	// BindMM is the most a bushing has to give along its bar within the travel,
	// where there are more bars than the axle has ways to move.
	BindMM float64
	Why    string // in words, when the travel is cut or the bushings give much; else empty
	// Unchecked are its bars that do not stand among the parts, by name: nothing
	// is checked against them. Stray are the parts that stand for a bar of this
	// end that the vehicle has not, or whose ends move by themselves.
	Unchecked, Stray []string
}

// noteworthyBindMM: what every bushing gives without a word.
const noteworthyBindMM = 1.0

// Suspension reports on both ends, front first.
func (m *Model) Suspension() []SuspensionReport {
	out := make([]SuspensionReport, len(bothEnds))
	for i := range bothEnds {
		n, r := &bothEnds[i], &out[i]
		e := n.of(&m.Doc.Vehicle)
		k := e.Form()
		*r = SuspensionReport{End: n.name, Kind: k.Name, Approximate: k.Approximate, LowMM: m.box.lo[n.heave], HighMM: m.box.hi[n.heave]}
		r.Unchecked, r.Stray = m.unchecked(n)
		l, ok := m.ch.Limits(n.which)
		if !ok {
			continue
		}
		if l.LockedLow {
			r.LockedLowMM = &l.LockLow
		}
		if l.LockedHigh {
			r.LockedHighMM = &l.LockHigh
		}
		if l.Spare {
			r.BindMM = l.Bind
		}
		r.Why = m.suspensionWords(n, e, &l)
		lo, hi := m.wholeTravel(n)
		r.Cut = l.Low > lo || l.High < hi
	}
	return out
}

// suspensionWords says what cuts the travel short, and what the bushings give.
func (m *Model) suspensionWords(n *endNames, e *scene.End, l *motion.Limits) string {
	var say []string
	how := "its bars come into one line"
	if l.Spare {
		how = fmt.Sprintf("its bushings would have to give more than %g mm", motion.BindLimitMM)
	}
	if l.LockedLow {
		say = append(say, fmt.Sprintf("it locks with the body %.1f mm below ride: %s", -l.LockLow, how))
	}
	if l.LockedHigh {
		say = append(say, fmt.Sprintf("it locks with the body %.1f mm above ride: %s", l.LockHigh, how))
	}
	lo, hi := m.wholeTravel(n)
	if l.Low > lo && !l.LockedLow || l.High < hi && !l.LockedHigh {
		where := "with left and right apart"
		if e.Independent {
			where = "with the wheels steered"
		}
		say = append(say, "it locks sooner "+where)
	}
	if l.Low > lo || l.High < hi {
		say = append(say, fmt.Sprintf("it is checked from %.1f to %.1f mm over ride", l.Low, l.High))
	}
	if l.Cross < e.CrossMM {
		say = append(say, fmt.Sprintf("left and right can only be %.1f mm apart", l.Cross))
	}
	if l.Steer < e.SteerDeg*degree {
		say = append(say, fmt.Sprintf("the wheels can only be steered by %.1f°", l.Steer/degree))
	}
	if l.Spare && l.Bind > noteworthyBindMM {
		say = append(say, fmt.Sprintf("its bushings give up to %.1f mm", l.Bind))
	}
	return strings.Join(say, "; ")
}

// wholeTravel is the document's own travel of an end.
func (m *Model) wholeTravel(n *endNames) (lo, hi float64) {
	b := newStateBox(m.Doc)
	return b.lo[n.heave], b.hi[n.heave]
}
