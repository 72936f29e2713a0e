package fitment

import (
	"math"
	"sort"
)

// Ends says which ends of the vehicle move on a way through its heights.
type Ends string

const (
	BothEnds  Ends = "both"  // front and rear together along the document's heights
	FrontOnly Ends = "front" // the front alone, the rear at ride
	RearOnly  Ends = "rear"  // the rear alone, the front at ride
)

// endsCount and index: answers are kept for each of the three ways.
const endsCount = 3

func (e Ends) index() int {
	switch e {
	case FrontOnly:
		return 1
	case RearOnly:
		return 2
	}
	return 0
}

// moves says whether an end of the box moves on the way.
func (e Ends) moves(heave int) bool {
	return e != RearOnly && heave == frontHeave || e != FrontOnly && heave == rearHeave
}

// way is a path of the body through its heights, lowest first, within the
// travel that is checked. A place on it is a number: 2.5 is half way from its
// third point to its fourth.
type way struct {
	points []whole
	ride   float64
}

// heightPath is the way the body goes when front and rear move together.
func (m *Model) heightPath() []whole { return m.way(BothEnds).points }

// way is the document's heights in order, front and rear together or one end
// alone. Where a suspension locks, its end stays and the other goes on.
func (m *Model) way(ends Ends) *way {
	w := &way{}
	heights := m.wholeHeights(ends)
	for i, p := range heights {
		if i > 0 {
			for _, u := range m.lockedBetween(heights[i-1], p) {
				seg := segment{from: heights[i-1], to: p}
				w.add(m.held(seg.at(u)))
			}
		}
		w.add(m.held(p))
	}
	if len(w.points) == 1 { // no travel: a way of no length
		w.points = append(w.points, w.points[0])
	}
	for i, p := range w.points {
		if p[frontHeave] == 0 && p[rearHeave] == 0 {
			w.ride = float64(i)
			break
		}
	}
	return w
}

// wholeHeights are the document's heights, lowest first, as if no suspension
// locked.
func (m *Model) wholeHeights(ends Ends) []whole {
	at := []whole{{}} // ride
	for _, h := range m.Doc.Heights {
		if ends == BothEnds && (h.FrontMM != 0 || h.RearMM != 0) {
			at = append(at, whole{frontHeave: h.FrontMM, rearHeave: h.RearMM})
		}
	}
	if ends != BothEnds {
		n := &bothEnds[ends.index()-1]
		lo, hi := m.wholeTravel(n)
		var low, high whole
		low[n.heave], high[n.heave] = lo, hi
		at = append(at, low, high)
	}
	sort.SliceStable(at, func(i, j int) bool {
		return at[i][frontHeave]+at[i][rearHeave] < at[j][frontHeave]+at[j][rearHeave]
	})
	return at
}

// held keeps a point within the travel that is checked.
func (m *Model) held(p whole) whole {
	for i := frontHeave; i <= rearHeave; i++ {
		p[i] = max(m.box.lo[i], min(m.box.hi[i], p[i]))
	}
	return p
}

// lockedBetween are the places between two heights at which an end comes to
// the border of the travel that is checked, in order.
func (m *Model) lockedBetween(a, b whole) []float64 {
	var out []float64
	for i := frontHeave; i <= rearHeave; i++ {
		for _, edge := range [2]float64{m.box.lo[i], m.box.hi[i]} {
			if u := (edge - a[i]) / (b[i] - a[i]); u > 0 && u < 1 {
				out = append(out, u)
			}
		}
	}
	sort.Float64s(out)
	return out
}

// add appends a point unless the way stands there already.
func (w *way) add(p whole) {
	if n := len(w.points); n == 0 || w.points[n-1] != p {
		w.points = append(w.points, p)
	}
}

func (w *way) top() float64 { return float64(len(w.points) - 1) }

func (w *way) at(t float64) whole {
	i := math.Floor(t)
	if i == t {
		return w.points[int(i)]
	}
	seg := segment{from: w.points[int(i)], to: w.points[int(i)+1]}
	return seg.at(t - i)
}

func (w *way) level(t float64) Level {
	p := w.at(t)
	return Level{FrontMM: p[frontHeave], RearMM: p[rearHeave]}
}

// spans are stretches of the way as body heights.
func (w *way) spans(in []stretch) []Span {
	var out []Span
	for _, s := range in {
		out = append(out, Span{w.level(s.lo), w.level(s.hi)})
	}
	return out
}

// whole is all of the way.
func (w *way) whole() stretch { return stretch{0, w.top()} }

// sampled finds the stretches in which a condition holds that is known state by
// state: in steps of limitStep, its borders found by halving.
func (w *way) sampled(over func(p *whole) bool) []stretch {
	var out []stretch
	for i := 0; i+1 < len(w.points); i++ {
		seg := segment{from: w.points[i], to: w.points[i+1]}
		at := func(u float64) bool {
			p := seg.at(u)
			return over(&p)
		}
		n := math.Max(1, math.Ceil(seg.length()/limitStep))
		for k := 0.0; k < n; k++ {
			if s, ok := crossing(at, k/n, (k+1)/n); ok {
				out = append(out, stretch{float64(i) + s.lo, float64(i) + s.hi})
			}
		}
	}
	return merged(out)
}
