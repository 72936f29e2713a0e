package fitment

import (
	"scrubline/fitment/internal/geom"
)

// sampleLimit is the most states one pair of solids is measured in before the
// answer is "undecided". A pair in three parameters that keeps a constant gap
// below its need takes the most; everything on the demo stays far below.
const sampleLimit = 20000

// placedItem is an item with its mobility on one vehicle.
type placedItem struct {
	*item
	move  mobility
	swept box     // every place any of its solids reaches
	each  []box   // the same, solid by solid
	still []box   // each solid at ride
	part  *placed // whose it is
	looks [viewCount]seenAt
}

// placed is a compiled part on a vehicle with its travel.
type placed struct {
	*compiled
	items []placedItem
	swept box // of the part itself and its rooms
	// What was worked out about the part alone, once asked for.
	limits  []Limit
	limited bool // limits are known
	lows    [lowsKept]lowAt
	nextLow int
}

// pairAnswer is the least gap of two parts (or of a room and a part) over the
// whole travel.
type pairAnswer struct {
	gap, bound float64
	at         State
	points     [2]geom.Vec
	samples    int
	decided    bool
	spans      *Spans // once asked for
	// short and touch are where on each of the ways it falls short or touches,
	// once asked for
	short, touch [endsCount]*holds
	near         bool // some pair of solids came close enough to be measured
	met          int  // pairs of solids whose swept boxes come close enough to be searched
}

// box is an axis-aligned box in body axes.
type box struct{ lo, hi geom.Vec }

func (b box) union(c box) box {
	return box{
		geom.V(min(b.lo.X, c.lo.X), min(b.lo.Y, c.lo.Y), min(b.lo.Z, c.lo.Z)),
		geom.V(max(b.hi.X, c.hi.X), max(b.hi.Y, c.hi.Y), max(b.hi.Z, c.hi.Z)),
	}
}

// closer says whether two boxes may be closer than d.
func (b *box) closer(c *box, d float64) bool {
	x := beyond(b.lo.X-c.hi.X, c.lo.X-b.hi.X)
	y := beyond(b.lo.Y-c.hi.Y, c.lo.Y-b.hi.Y)
	z := beyond(b.lo.Z-c.hi.Z, c.lo.Z-b.hi.Z)
	return float64(x*x)+float64(y*y)+float64(z*z) < d*d
}

// beyond is the largest of two numbers and nought; max would be a call in
// WebAssembly.
func beyond(a, b float64) float64 {
	if b > a {
		a = b
	}
	if a > 0 {
		return a
	}
	return 0
}

// place works out where a part's items reach.
func (v *mover) place(c *compiled) *placed {
	p := &placed{compiled: c, items: make([]placedItem, len(c.items))}
	middle := v.box.middle()
	st := v.box.state(&middle)
	for i := range c.items {
		it := &p.items[i]
		it.item, it.part = &c.items[i], p
		if it.link != nil {
			if it.link.bar {
				it.link.point = v.ch.PointOf(it.link.onB, it.link.b)
			}
			v.settle(it.link)
			it.move = v.hung(it.link)
		} else {
			it.move = v.rigid(it.on, it.solids, it.moves)
		}
		v.sweep(it, st)
		if i == 0 {
			p.swept = it.swept
		}
		p.swept = p.swept.union(it.swept)
	}
	return p
}

// sweep bounds every solid of an item: its box in the middle of the travel,
// grown by all that the parameters can move it.
func (v *mover) sweep(it *placedItem, st State) {
	var grow geom.Vec
	for i := 0; i < paramCount; i++ {
		every := it.move.any[i]
		grow = grow.AddScaled(it.move.by[i].Add(geom.V(every, every, every)), v.box.half(i))
	}
	for i := range it.solids {
		s := v.solidAt(it, i, st)
		lo, hi := s.Bounds()
		b := box{lo.Sub(grow), hi.Add(grow)}
		it.each = append(it.each, b)
		lo, hi = it.solids[i].Bounds()
		it.still = append(it.still, box{lo, hi})
		if i == 0 {
			it.swept = b
		}
		it.swept = it.swept.union(b)
	}
}

// relative lists the parameters that move two items against each other, and
// the bounds to use. Items of one rigid group only see their own steer and the
// movements they do not share.
func (v *mover) relative(x, y *placedItem) (params []int, a, b *mobility) {
	a, b = &x.move, &y.move
	if a.group >= 0 && a.group == b.group {
		mx, my := apart(x.moves, y.moves)
		steers := x.on != y.on
		if !steers && len(mx) == 0 && len(my) == 0 {
			return nil, a, b
		}
		a, b = a.between(v.box, steers, mx), b.between(v.box, steers, my)
	}
	for i := 0; i < paramCount; i++ {
		if a.uses[i] || b.uses[i] {
			if params == nil {
				params = make([]int, 0, paramCount)
			}
			params = append(params, i)
		}
	}
	return params, a, b
}

// least searches the whole travel for the least gap of two items, as far as it
// matters for a need. sofar is the answer of the part pair's other items.
func (v *mover) least(x, y *placedItem, need float64, ans *pairAnswer) {
	params, a, b := v.relative(x, y)
	var hint geom.Vec
	for i := range x.solids {
		for j := range y.solids {
			bx, by := &x.each[i], &y.each[j]
			if len(params) == 0 {
				bx, by = &x.still[i], &y.still[j]
			}
			enough := need
			if ans.near {
				enough = min(need, ans.gap)
			}
			if !bx.closer(by, max(enough, boxSlack)) {
				continue
			}
			ans.met++
			p := v.newSolidPair(x, y, i, j, params, a, b)
			p.hint = hint
			got := p.search(enough)
			p.take(&got, ans)
			if got.Samples > 0 {
				hint = got.Normal
			}
		}
	}
}

// boxSlack (mm) keeps touching boxes in the search when the need is nought:
// boxes farther apart than this hold solids that do not overlap.
const boxSlack = 1.0
