// Package travel finds the least gap of a moving pair over its whole travel,
// with a proof.
//
// A pair sees a few parameters (the heave and the cross height of an end, the
// steer), each over a range. A gap measured in one state rules out a whole
// neighbourhood, because the motion between two states moves no point further
// than a known bound. Branch and bound over the box of states does the rest.
package travel

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// MaxParams is the most parameters a pair can see: five of the vehicle, and
// the place along each of two arcs.
const MaxParams = 7

// Point is a state as the pair's parameters.
type Point [MaxParams]float64

// Sample is one measurement of a pair.
type Sample struct {
	Gap float64
	// Rate bounds the change of the gap per unit of each parameter, anywhere
	// in the box: gap(y) ≥ Gap − Σ Rate·|y−x|.
	Rate Point
	// Slab is a lower bound of the gap here whose change within the cell is
	// bounded by SlabRate. It is the gap along one fixed direction, which most
	// motion leaves alone: gap(y) ≥ Slab − Σ SlabRate·|y−x|.
	Slab     float64
	SlabRate Point
}

// Problem is what to search.
type Problem struct {
	N      int // parameters in use
	Lo, Hi Point
	// Measure samples the pair in one state; half is the half width of the cell
	// around it in which SlabRate has to hold.
	Measure func(x, half *Point) Sample
	// Seeds are states measured early, so that of states that tie a familiar
	// one is reported.
	Seeds []Point
	// Enough: once the gap is proven to be at least this everywhere, the
	// search stops; the answer's Bound is then at least Enough.
	Enough float64
	// Limit is the most samples taken before the answer is undecided.
	Limit int
}

// Answer is the result of a search. When Decided, either Bound ≥ Enough, or
// Gap − Bound ≤ geom.BoundTol.
type Answer struct {
	Gap     float64 // least gap measured
	At      Point   // where
	Bound   float64 // no state has a smaller gap
	Samples int
	Decided bool
}

// cell is a box of states not yet ruled out.
type cell struct {
	mid, half Point
	bound     float64 // no state of the cell has a smaller gap
	cost      Point   // what each parameter's half width takes off the bound
}

// same (mm): a state replaces the worst one only when it is worse by more than
// rounding, so that of states that tie the earliest stays.
const same = geom.GapTol / 2

// Search finds the least gap over the box. The cell with the worst bound is
// taken first and split across the parameter that costs it most.
func Search(p *Problem) Answer {
	s := searcher{p: p}
	root := cell{bound: math.Inf(-1)}
	for i := 0; i < p.N; i++ {
		root.mid[i] = (p.Lo[i] + p.Hi[i]) / 2
		root.half[i] = (p.Hi[i] - p.Lo[i]) / 2
	}
	s.push(root)
	if s.heap[0].bound < p.Enough {
		s.seed()
		s.probe()
	}
	for !s.done() && s.ans.Samples < p.Limit {
		s.split(s.pop())
	}
	s.ans.Decided = s.done()
	if s.ans.Bound = s.heap[0].bound; s.ans.Bound < p.Enough {
		s.probe()
	}
	s.ans.Bound = min(s.ans.Gap, s.ans.Bound)
	return s.ans
}

type searcher struct {
	p    *Problem
	ans  Answer
	heap []cell // least bound first
}

// done: the worst cell left is proven wide enough, or no further below what
// was measured than the tolerance of a bound.
func (s *searcher) done() bool {
	b := s.heap[0].bound
	return b >= s.p.Enough || b >= s.ans.Gap-geom.BoundTol
}

// seed measures the familiar states. One of them that ties with the middle of
// the box, the only state measured so far, is reported in its place.
func (s *searcher) seed() {
	middle, at := s.ans.Gap, s.ans.At
	n := s.ans.Samples
	s.ans.Samples = 0
	for i := range s.p.Seeds {
		s.measure(&s.p.Seeds[i], &Point{})
	}
	if s.ans.Samples == 0 || middle < s.ans.Gap-same {
		s.ans.Gap, s.ans.At = middle, at
	}
	s.ans.Samples += n
}

// probe tries the ends of each parameter's range from the worst state so far:
// full drop and full lock are where most pairs are worst, and cells only ever
// measure their middles.
func (s *searcher) probe() {
	for i := 0; i < s.p.N; i++ {
		for _, end := range [2]float64{s.p.Lo[i], s.p.Hi[i]} {
			if x := s.ans.At; x[i] != end {
				x[i] = end
				s.measure(&x, &Point{})
			}
		}
	}
}

func (s *searcher) measure(x, half *Point) Sample {
	m := s.p.Measure(x, half)
	if s.ans.Samples == 0 || m.Gap < s.ans.Gap-same {
		s.ans.Gap, s.ans.At = m.Gap, *x
	}
	s.ans.Samples++
	return m
}

// push bounds a cell by the sample in its middle and keeps it. What bounds the
// cell it was cut from bounds it too.
func (s *searcher) push(c cell) {
	m := s.measure(&c.mid, &c.half)
	byGap, bySlab := m.Gap, m.Slab
	for i := 0; i < s.p.N; i++ {
		byGap -= float64(m.Rate[i] * c.half[i])
		bySlab -= float64(m.SlabRate[i] * c.half[i])
	}
	c.bound = max(c.bound, byGap, bySlab)
	c.cost = Point{}
	for i := 0; i < s.p.N; i++ {
		rate := m.Rate[i]
		if bySlab > byGap {
			rate = m.SlabRate[i]
		}
		c.cost[i] = rate * c.half[i]
	}
	s.heap = append(s.heap, c)
	s.up(len(s.heap) - 1)
}

// split cuts a cell in two across its costliest parameter.
func (s *searcher) split(c cell) {
	axis := 0
	for i := 1; i < s.p.N; i++ {
		if c.cost[i] > c.cost[axis] {
			axis = i
		}
	}
	half := c.half[axis] / 2
	for _, side := range [2]float64{-half, half} {
		k := c
		k.half[axis] = half
		k.mid[axis] = c.mid[axis] + side
		s.push(k)
	}
}
