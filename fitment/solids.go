package fitment

import (
	"math"

	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
	"scrubline/fitment/internal/travel"
)

// solidPair is one pair of solids in search of its least gap: the parameters
// that move the two against each other, and, for an arc, the place along it.
//
// An arc is the union of the balls along it, so its least gap over the travel
// is the least over the travel and the place. Ball and convex solid are both
// convex, and only for convex solids does a gap along one direction bound the
// gap in every state.
type solidPair struct {
	v      *mover
	x, y   *placedItem
	i, j   int
	params []int
	a, b   *mobility
	hint   geom.Vec // a direction in which solids next to these are apart
	along  [2]int   // which parameter is the place along x's and y's arc; -1 for none
	n      int

	now pairNow
}

// pairNow is a pair in the state looked at last. It is kept in one place and
// written number by number: WebAssembly calls out of its own code for every copy
// of a larger struct.
type pairNow struct {
	full  whole // of the pair's parameters; the others stay at ride
	st    State
	solid [2]solid.Solid // where one moves
	ball  [2]solid.Solid // of an arc
}

func (v *mover) newSolidPair(x, y *placedItem, i, j int, params []int, a, b *mobility) *solidPair {
	p := &solidPair{v: v, x: x, y: y, i: i, j: j, params: params, a: a, b: b, along: [2]int{-1, -1}, n: len(params)}
	for side := range p.along {
		if p.solid(side).Kind == solid.Arc {
			p.along[side] = p.n
			p.n++
		}
	}
	return p
}

// search looks through the travel, as far as it matters when "enough" is
// enough.
func (p *solidPair) search(enough float64) travel.Answer {
	pr := p.problem()
	pr.Enough, pr.Limit, pr.Floor = enough, sampleLimit, p.floor()
	pr.Measure, pr.Slab, pr.Seeds = p.measure, p.slab, p.seeds
	pr.Guesses = p.guesses()
	return travel.Search(&pr)
}

// guesses are the directions from one solid's middle to the other's, and the
// axis along which their boxes are furthest apart.
func (p *solidPair) guesses() (out [3]geom.Vec) {
	bx, by := &p.x.each[p.i], &p.y.each[p.j]
	out[0] = by.lo.Add(by.hi).Sub(bx.lo.Add(bx.hi)).Unit()
	apart := geom.V(max(bx.lo.X-by.hi.X, by.lo.X-bx.hi.X), max(bx.lo.Y-by.hi.Y, by.lo.Y-bx.hi.Y), max(bx.lo.Z-by.hi.Z, by.lo.Z-bx.hi.Z))
	switch {
	case apart.X >= apart.Y && apart.X >= apart.Z:
		out[1] = geom.V(math.Copysign(1, out[0].X), 0, 0)
	case apart.Y >= apart.Z:
		out[1] = geom.V(0, math.Copysign(1, out[0].Y), 0)
	default:
		out[1] = geom.V(0, 0, math.Copysign(1, out[0].Z))
	}
	out[2] = p.hint
	return out
}

// problem is the ranges and the motion's bounds of the pair's parameters.
func (p *solidPair) problem() travel.Problem {
	pr := travel.Problem{N: p.n}
	for k, param := range p.params {
		pr.Lo[k], pr.Hi[k] = p.v.box.lo[param], p.v.box.hi[param]
		pr.Rate[k] = p.a.rate(param) + p.b.rate(param)
		pr.Curve[k] = p.a.curve[param] + p.b.curve[param]
		pr.Kink[k] = p.a.kink[param] + p.b.kink[param]
		for _, at := range p.v.box.corners(param) {
			b := travel.Band{Param: k, Lo: at, Hi: at}
			b.Slopes[k] = p.a.corner[param] + p.b.corner[param]
			pr.Bands = append(pr.Bands, b)
		}
		for _, it := range [2]*placedItem{p.x, p.y} {
			if it.link != nil && it.link.stopAt == param && it.link.stop > p.v.box.lo[param] {
				pr.Bands = append(pr.Bands, p.stopBand(it, k))
			}
		}
	}
	for side, k := range p.along {
		if k >= 0 { // a point of a circle: the second derivative is its radius
			radius, half := p.solid(side).H.X, p.solid(side).H.Y
			pr.Lo[k], pr.Hi[k] = -half, half
			pr.Rate[k], pr.Curve[k] = radius, radius
		}
	}
	return pr
}

// stopBand is where a link comes onto its stop.
func (p *solidPair) stopBand(it *placedItem, heave int) travel.Band {
	b := travel.Band{Param: heave, Lo: it.link.stop, Hi: it.link.stop}
	b.Slopes[heave] = it.move.rate(it.link.stopAt)
	return b
}

// floor is the least gap two solids can have at all: points, lines and arcs
// have no depth to sink into, so that only the rounding radii can overlap.
func (p *solidPair) floor() float64 {
	sum := 0.0
	for side := range p.along {
		s := p.solid(side)
		switch s.Kind {
		case solid.Point, solid.Segment, solid.Arc:
			sum += s.Round
		default:
			return math.Inf(-1)
		}
	}
	return -sum
}

func (p *solidPair) solid(side int) *solid.Solid {
	if side == 0 {
		return &p.x.solids[p.i]
	}
	return &p.y.solids[p.j]
}

// seeds are the document's heights, each with the place along an arc that is
// nearest there.
func (p *solidPair) seeds() []travel.Point {
	var out []travel.Point
	for _, s := range p.v.box.seeds {
		var q travel.Point
		for k, param := range p.params {
			q[k] = s[param]
		}
		if p.along[0] >= 0 || p.along[1] >= 0 {
			sx, sy := p.at(&q)
			r := gap.Between(sx, sy)
			if k := p.along[0]; k >= 0 {
				q[k] = placeOn(sx, r.A)
			}
			if k := p.along[1]; k >= 0 {
				q[k] = placeOn(sy, r.B)
			}
		}
		out = append(out, q)
	}
	return out
}

// placeOn is the angle along an arc nearest to a point.
func placeOn(arc *solid.Solid, p geom.Vec) float64 {
	l := arc.Pose.Inverse(p)
	return max(-arc.H.Y, min(arc.H.Y, math.Atan2(l.Y, l.X)))
}

// at is the two whole solids in a state, until the next question.
func (p *solidPair) at(q *travel.Point) (x, y *solid.Solid) {
	st := p.state(q)
	return p.v.stand(p.x, p.i, st, &p.now.solid[0]), p.v.stand(p.y, p.j, st, &p.now.solid[1])
}

// state puts the pair's parameters into a whole state; the others stay at ride.
// It holds until the next question.
func (p *solidPair) state(q *travel.Point) *State {
	for k, param := range p.params {
		p.now.full[param] = q[k]
	}
	p.v.box.put(&p.now.full, &p.now.st)
	return &p.now.st
}

// familiar is a worst state for people: when the pair does not care about one
// end's heave, and the other end stands as in a named height, that height is
// meant.
func (p *solidPair) familiar(q *travel.Point) State {
	p.state(q)
	full := p.now.full
	uses := [2]bool{}
	for _, param := range p.params {
		if param <= rearHeave {
			uses[param] = true
		}
	}
	if uses[frontHeave] == uses[rearHeave] {
		return p.v.box.state(&full)
	}
	for i := range p.v.box.seeds {
		s := &p.v.box.seeds[i]
		if uses[frontHeave] && s[frontHeave] == full[frontHeave] || uses[rearHeave] && s[rearHeave] == full[rearHeave] {
			full[frontHeave], full[rearHeave] = s[frontHeave], s[rearHeave]
			break
		}
	}
	return p.v.box.state(&full)
}

// convex is the pair in a state, with the ball at its place for each arc.
func (p *solidPair) convex(q *travel.Point) (x, y *solid.Solid) {
	x, y = p.at(q)
	if k := p.along[0]; k >= 0 {
		x = ballOn(x, q[k], &p.now.ball[0])
	}
	if k := p.along[1]; k >= 0 {
		y = ballOn(y, q[k], &p.now.ball[1])
	}
	return x, y
}

func (p *solidPair) measure(q *travel.Point) (float64, geom.Vec) {
	x, y := p.convex(q)
	r := gap.Between(x, y)
	return r.Gap, r.N
}

// slab is what two planes square to n, each touching one solid, leave between
// them.
func (p *solidPair) slab(q *travel.Point, n geom.Vec) float64 {
	x, y := p.convex(q)
	return gap.Slab(x, y, n)
}

// ballOn makes ball that of an arc at an angle.
func ballOn(arc *solid.Solid, angle float64, ball *solid.Solid) *solid.Solid {
	sin, cos := geom.Sincos(angle)
	ball.Kind, ball.Round = solid.Point, arc.Round
	ball.Pose.Set(&geom.Still)
	ball.Pose.P = arc.Pose.Apply(geom.V(arc.H.X*cos, arc.H.X*sin, 0))
	return ball
}

// take puts a pair of solids' answer into that of its parts. The points are
// those of the whole solids in the worst state.
func (p *solidPair) take(got *travel.Answer, ans *pairAnswer) {
	if got.Samples == 0 {
		return // proven to keep what it needs
	}
	ans.samples += got.Samples
	ans.decided = ans.decided && got.Decided
	if !ans.near || got.Bound < ans.bound {
		ans.bound = got.Bound
	}
	if !ans.near || got.Gap < ans.gap {
		x, y := p.at(&got.At)
		r := gap.Between(x, y)
		ans.gap, ans.points, ans.at = r.Gap, [2]geom.Vec{r.A, r.B}, p.familiar(&got.At)
	}
	ans.near = true
	ans.bound = min(ans.bound, ans.gap)
}

// solidAt is one solid of an item in a state.
func (v *mover) solidAt(it *placedItem, i int, st State) (s solid.Solid) {
	if own := v.stand(it, i, &st, &s); own != &s {
		return *own
	}
	return s
}

// stand is solidAt: the item's own solid where it never moves, else room, which
// is written anew.
func (v *mover) stand(it *placedItem, i int, st *State, room *solid.Solid) *solid.Solid {
	own := &it.solids[i]
	switch {
	case it.link != nil:
		ms := st.corners()
		v.hungAt(it.link, &ms, room)
		return room
	case it.fixed():
		return own
	}
	ms := st.corners()
	room.Kind, room.Round, room.H, room.Points = own.Kind, own.Round, own.H, own.Points
	own.Pose.ThenInto(v.carry(it.item, st, &ms), &room.Pose)
	return room
}
