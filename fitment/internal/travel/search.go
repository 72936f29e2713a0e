// Package travel finds the least gap of a moving pair over its whole travel,
// with a proof.
//
// A pair sees a few parameters (the heave and the cross height of an end, the
// steer, the place along an arc), each over a range. Branch and bound over the
// box of states does the rest.
//
// # The bound
//
// Two planes square to a direction n, each touching one of the pair, leave a
// slab between them. Its width is never more than the gap of two convex solids,
// apart or overlapping, and is the gap itself when n is the gap's own
// direction. Each point of a moving solid runs along n as a smooth function of
// the parameters, so over a cell of states it stays below the multilinear
// interpolation of its values in the cell's corners plus
//
//	Σ Curve·w²/8 + Σ Kink·w/4 + Σ Slopes·w/4
//
// w being the cell's width, Curve a bound of the second derivative, Kink of the
// range of slopes that small corners everywhere add, and Slopes that of corners
// in known bands, which count in the cells that reach into one. What holds for every point
// holds for the furthest one; so the slab's width over the whole cell is at
// least its least width in the cell's corners less that sum, with Curve, Kink
// and Slopes those of both solids together.
package travel

import (
	"math"
	"sync"

	"scrubline/fitment/internal/geom"
)

// MaxParams is the most parameters a pair can see: five of the vehicle, two
// movements of each part, and the place along each of two arcs.
const MaxParams = 11

// Point is a state as the pair's parameters.
type Point [MaxParams]float64

// Problem is what to search.
type Problem struct {
	N      int // parameters in use
	Lo, Hi Point
	// Measure is the gap in one state and its unit direction, from the first
	// solid to the second.
	Measure func(x *Point) (gap float64, n geom.Vec)
	// Slab is the width in one state of the slab square to n.
	Slab func(x *Point, n geom.Vec) float64
	// Curve and Kink bound how the slab departs from its interpolation; see the
	// package's doc.
	Curve, Kink Point
	// Bands are where the motion has corners, in the cells that reach into one.
	Bands []Band
	// Rate is about how far a unit of each parameter moves the pair; it only
	// decides which way a cell is cut.
	Rate Point
	// Guesses are unit directions in which the pair may well be apart: a slab
	// square to one may prove enough before any gap is measured.
	Guesses [3]geom.Vec
	// Seeds are states measured early, so that of states that tie a familiar
	// one is reported; asked for only when needed.
	Seeds func() []Point
	// Enough: once the gap is proven to be at least this everywhere, the
	// search stops; the answer's Bound is then at least Enough.
	Enough float64
	// Refute: stop at the first gap below Enough, undecided about how much
	// below the least one is.
	Refute bool
	// Tol is how far the bound may lie below the least gap found when the search
	// stops; 0 is geom.BoundTol.
	Tol float64
	// Floor is a gap that the pair cannot go below in any state.
	Floor float64
	// Limit is the most gaps measured before the answer is undecided.
	Limit int
}

// Band is a range of one parameter within which the motion has corners; Slopes
// are the ranges of slopes they add along each parameter.
type Band struct {
	Param  int
	Lo, Hi float64
	Slopes Point
}

// loss is what a band takes off a cell's bound.
func (b *Band) loss(c *cell) float64 {
	if c.mid[b.Param]-c.half[b.Param] >= b.Hi || c.mid[b.Param]+c.half[b.Param] <= b.Lo {
		if b.Lo < b.Hi || c.mid[b.Param] != b.Lo {
			return 0
		}
	}
	sum := 0.0
	for i := range b.Slopes {
		sum += float64(b.Slopes[i]*2*c.half[i]) / 4
	}
	return sum
}

// Answer is the result of a search. When Decided, either Bound ≥ Enough, or
// Gap − Bound ≤ Tol. Without Samples no gap was measured: the pair was
// proven apart by a guess, and Gap is the bound.
type Answer struct {
	Gap     float64  // least gap measured
	At      Point    // where
	Bound   float64  // no state has a smaller gap
	Samples int      // gaps measured
	Normal  geom.Vec // direction of the least gap measured
	Decided bool
}

// cell is a box of states not yet ruled out.
type cell struct {
	mid, half Point
	bound     float64 // no state of the cell has a smaller gap
	loss      float64 // what the motion's bends take off its bound
}

// same (mm): a state replaces the worst one only when it is worse by more than
// rounding, so that of states that tie the earliest stays.
const same = geom.GapTol / 2

// Search finds the least gap over the box. The cell with the worst bound is
// taken first.
func Search(p *Problem) Answer {
	s := searchers.Get().(*searcher)
	ans := s.search(p)
	s.p = nil
	searchers.Put(s)
	return ans
}

// searchers are kept for the room they have.
var searchers = sync.Pool{New: func() any { return new(searcher) }}

func (s *searcher) search(p *Problem) Answer {
	*s = searcher{p: p, tol: p.Tol, heap: s.heap[:0], cells: s.cells[:0]}
	if s.tol == 0 {
		s.tol = geom.BoundTol
	}
	at := s.cell()
	root := &s.cells[at]
	*root = cell{bound: p.Floor}
	for i := 0; i < p.N; i++ {
		root.mid[i] = (p.Lo[i] + p.Hi[i]) / 2
		root.half[i] = (p.Hi[i] - p.Lo[i]) / 2
	}
	s.bend(root)
	for i := range p.Guesses {
		if n := p.Guesses[i]; n != (geom.Vec{}) {
			s.raise(root, n)
		}
	}
	if root.bound >= p.Enough {
		return Answer{Gap: root.bound, Bound: root.bound, Decided: true}
	}
	s.push(at)
	if p.Refute && p.Tol > 0 { // the worst of a small box is in a corner, which cells come to late
		s.probe()
	}
	for !s.done() && s.ans.Samples < p.Limit {
		if s.ans.Gap < p.Enough {
			if p.Refute {
				break
			}
			s.familiarise()
		}
		s.split(s.pop())
	}
	if s.ans.Gap < p.Enough && !p.Refute {
		s.familiarise()
	}
	s.ans.Decided = s.done()
	if s.ans.Bound = s.heap[0].bound; s.ans.Bound < p.Enough && !p.Refute {
		s.probe()
	}
	s.ans.Bound = min(s.ans.Gap, s.ans.Bound)
	s.ans.Normal = s.normal
	return s.ans
}

type searcher struct {
	p      *Problem
	tol    float64
	ans    Answer
	normal geom.Vec // direction of the least gap so far
	heap   []entry  // least bound first
	cells  []cell   // of the heap
	x      Point    // the corner that is looked at

	familiar bool // the seeds have been measured
}

// done: the worst cell left is proven wide enough, or no further below what
// was measured than the tolerance of a bound.
func (s *searcher) done() bool {
	b := s.heap[0].bound
	return b >= s.p.Enough || b >= s.ans.Gap-s.tol
}

// familiarise measures the familiar states, once it is known that the pair falls
// short. One of them that ties with the worst state so far is reported in its
// place.
func (s *searcher) familiarise() {
	if s.familiar {
		return
	}
	s.familiar = true
	worst, at, normal := s.ans.Gap, s.ans.At, s.normal
	n := s.ans.Samples
	s.ans.Samples = 0
	if s.p.Seeds != nil {
		for _, x := range s.p.Seeds() {
			s.measure(&x)
		}
	}
	if s.ans.Samples == 0 || worst < s.ans.Gap-same {
		s.ans.Gap, s.ans.At, s.normal = worst, at, normal
	}
	s.ans.Samples += n
	s.probe()
	worst0 := &s.heap[0]
	c := &s.cells[worst0.at]
	s.raise(c, s.normal)
	worst0.bound = c.bound
}

// probe tries the ends of each parameter's range from the worst state so far:
// full drop and full lock are where most pairs are worst, and cells only ever
// measure their middles.
func (s *searcher) probe() {
	for i := 0; i < s.p.N; i++ {
		for _, end := range [2]float64{s.p.Lo[i], s.p.Hi[i]} {
			if s.ans.At[i] != end {
				s.x = s.ans.At
				s.x[i] = end
				s.measure(&s.x)
			}
		}
	}
}

func (s *searcher) measure(x *Point) geom.Vec {
	gap, n := s.p.Measure(x)
	if s.ans.Samples == 0 || gap < s.ans.Gap-same {
		s.ans.Gap, s.ans.At, s.normal = gap, *x, n
	}
	s.ans.Samples++
	return n
}

// cell is a place for one more cell. What is known of others stays where it is
// until the next is asked for.
func (s *searcher) cell() (at int) {
	if at = len(s.cells); at < cap(s.cells) {
		s.cells = s.cells[:at+1]
	} else {
		s.cells = append(s.cells, cell{})
	}
	return at
}

// push bounds a cell and keeps it. The direction of the worst gap so far may
// rule it out without measuring anything; else the one in its middle is asked.
func (s *searcher) push(at int) {
	c := &s.cells[at]
	if s.ans.Samples > 0 {
		s.raise(c, s.normal)
	}
	if s.ans.Samples == 0 || c.bound < min(s.p.Enough, s.ans.Gap-s.tol) {
		s.raise(c, s.measure(&c.mid))
	}
	s.heap = append(s.heap, entry{c.bound, at})
	s.up(len(s.heap) - 1)
}

// bend works out a cell's loss.
func (s *searcher) bend(c *cell) {
	c.loss = 0
	for i := 0; i < s.p.N; i++ {
		w := 2 * c.half[i]
		c.loss += float64(s.p.Curve[i]*w*w)/8 + float64(s.p.Kink[i]*w)/4
	}
	for i := range s.p.Bands {
		c.loss += s.p.Bands[i].loss(c)
	}
}

// raise lifts a cell's bound to what the slab square to n proves.
func (s *searcher) raise(c *cell, n geom.Vec) {
	if s.p.N == 0 {
		c.bound = max(c.bound, s.p.Slab(&c.mid, n))
		return
	}
	least := math.Inf(1)
	for corner := 0; corner < 1<<s.p.N; corner++ {
		for i := 0; i < s.p.N; i++ {
			if corner>>i&1 == 0 {
				s.x[i] = c.mid[i] - c.half[i]
			} else {
				s.x[i] = c.mid[i] + c.half[i]
			}
		}
		w := s.p.Slab(&s.x, n) - c.loss
		if !(w > c.bound) {
			return
		}
		if w < least { // min would be a call in WebAssembly
			least = w
		}
	}
	c.bound = least
}

// split cuts a cell in two across the parameter that moves the pair most. The
// second half takes the cell's place.
func (s *searcher) split(at int) {
	first := s.cell()
	c, k := &s.cells[at], &s.cells[first]
	axis := 0
	for i := 1; i < s.p.N; i++ {
		if s.p.Rate[i]*c.half[i] > s.p.Rate[axis]*c.half[axis] {
			axis = i
		}
	}
	half := c.half[axis] / 2
	for i := range k.mid {
		k.mid[i], k.half[i] = c.mid[i], c.half[i]
	}
	k.bound = c.bound
	k.mid[axis], k.half[axis] = c.mid[axis]-half, half
	c.mid[axis], c.half[axis] = c.mid[axis]+half, half
	for _, i := range [2]int{first, at} {
		s.bend(&s.cells[i])
		s.push(i)
	}
}
