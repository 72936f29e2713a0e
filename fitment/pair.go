package fitment

import (
	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
	"scrubline/fitment/internal/travel"
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
}

// placed is a compiled part on a vehicle with its travel.
type placed struct {
	*compiled
	items []placedItem
	swept box // of the part itself and its rooms
}

// pairAnswer is the least gap of two parts (or of a room and a part) over the
// whole travel.
type pairAnswer struct {
	gap, bound float64
	at         State
	points     [2]geom.Vec
	samples    int
	decided    bool
	near       bool // some pair of solids came close enough to be measured
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
	x := max(b.lo.X-c.hi.X, c.lo.X-b.hi.X, 0)
	y := max(b.lo.Y-c.hi.Y, c.lo.Y-b.hi.Y, 0)
	z := max(b.lo.Z-c.hi.Z, c.lo.Z-b.hi.Z, 0)
	return float64(x*x)+float64(y*y)+float64(z*z) < d*d
}

// place works out where a part's items reach.
func (v *mover) place(c *compiled) *placed {
	p := &placed{compiled: c, items: make([]placedItem, len(c.items))}
	var middle travel.Point
	for i := range middle {
		middle[i] = (v.box.lo[i] + v.box.hi[i]) / 2
	}
	st := v.box.state(&middle).motion()
	for i := range c.items {
		it := &p.items[i]
		it.item, it.part = &c.items[i], p
		if it.link != nil {
			it.move = v.hung(it.link)
		} else {
			it.move = v.rigid(it.on, it.solids)
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
func (v *mover) sweep(it *placedItem, st motion.State) {
	var up, yz, any float64
	for i := 0; i < paramCount; i++ {
		h := v.box.half(i)
		up += it.move.lift[i] * h
		yz += it.move.swing[i] * h
		any += it.move.other[i] * h
	}
	grow := geom.V(any, any+yz, any+yz+up)
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

// solidAt is one solid of an item in a state.
func (v *mover) solidAt(it *placedItem, i int, st motion.State) solid.Solid {
	if it.link != nil {
		return it.link.at(v.ch, st)
	}
	if it.on == motion.Body {
		return it.solids[i]
	}
	pose := v.ch.Pose(it.on, st)
	return it.solids[i].Moved(&pose)
}

// relative lists the parameters that move two items against each other, and
// the bounds to use. Items of one rigid group only see their own steer.
func (v *mover) relative(x, y *placedItem) (params []int, a, b mobility) {
	a, b = x.move, y.move
	if a.group >= 0 && a.group == b.group {
		if x.on == y.on {
			return nil, a, b
		}
		var sa, sb mobility
		sa.other[steer], sb.other[steer] = a.other[steer], b.other[steer]
		sa.finish(v.box)
		sb.finish(v.box)
		a, b = sa, sb
	}
	for i := 0; i < paramCount; i++ {
		if a.uses[i] || b.uses[i] {
			params = append(params, i)
		}
	}
	return params, a, b
}

// least searches the whole travel for the least gap of two items, as far as it
// matters for a need. sofar is the answer of the part pair's other items.
func (v *mover) least(x, y *placedItem, need float64, ans *pairAnswer) {
	params, a, b := v.relative(x, y)
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
			v.search(x, y, i, j, params, &a, &b, enough, ans)
		}
	}
}

// boxSlack (mm) keeps touching boxes in the search when the need is nought:
// boxes farther apart than this hold solids that do not overlap.
const boxSlack = 1.0

// search looks through one pair of solids. The slab of a sample is what two
// planes square to N, each touching one solid, leave between them: a bound of
// the gap that only motion along N changes. For convex solids it is the gap
// itself, apart or overlapping; for an arc it is that of its hull.
func (v *mover) search(x, y *placedItem, i, j int, params []int, a, b *mobility, enough float64, ans *pairAnswer) {
	p := travel.Problem{N: len(params), Enough: enough, Limit: sampleLimit}
	for k, param := range params {
		p.Lo[k], p.Hi[k] = v.box.lo[param], v.box.hi[param]
	}
	for _, s := range v.box.seeds {
		var q travel.Point
		for k, param := range params {
			q[k] = s[param]
		}
		p.Seeds = append(p.Seeds, q)
	}
	measure := func(q *travel.Point) (r gap.Result, slab float64) {
		st := v.box.state(expand(q, params)).motion()
		sx, sy := v.solidAt(x, i, st), v.solidAt(y, j, st)
		r = gap.Between(&sx, &sy)
		return r, r.N.Dot(sy.Support(r.N.Neg()).Sub(sx.Support(r.N)))
	}
	p.Measure = func(q *travel.Point) travel.Sample {
		r, slab := measure(q)
		m := travel.Sample{Gap: r.Gap, Slab: slab}
		for k, param := range params {
			m.Rate[k] = a.rate(param) + b.rate(param)
			m.SlabRate[k] = a.along(param, r.N) + b.along(param, r.N)
		}
		return m
	}
	got := travel.Search(&p)
	ans.samples += got.Samples
	ans.decided = ans.decided && got.Decided
	if !ans.near || got.Bound < ans.bound {
		ans.bound = got.Bound
	}
	if !ans.near || got.Gap < ans.gap {
		r, _ := measure(&got.At)
		ans.gap, ans.points = r.Gap, [2]geom.Vec{r.A, r.B}
		ans.at = v.box.state(expand(&got.At, params))
	}
	ans.near = true
	ans.bound = min(ans.bound, ans.gap)
}

// expand puts a pair's parameters into a whole state; the others stay at ride.
func expand(q *travel.Point, params []int) *travel.Point {
	var full travel.Point
	for k, param := range params {
		full[param] = q[k]
	}
	return &full
}
