package fitment

import (
	"math"
	"slices"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
	"scrubline/scene"
)

// move is one of the document's movements on a vehicle: a hinge or a slide, in
// body axes at ride.
type move struct {
	slide bool
	at    geom.Vec // a point on the hinge's axis
	axis  geom.Vec // unit
}

func newMoves(doc *scene.Document, ch *motion.Chassis) []move {
	var out []move
	for i := range doc.Movements {
		m := &doc.Movements[i]
		out = append(out, move{slide: m.Kind == scene.Slide,
			at: ch.Origin(carrierOf[m.Carrier]).Add(vec(m.AtMM)), axis: vec(m.Axis).Unit()})
	}
	return out
}

// pose is where a movement puts what it carries.
func (k *move) pose(by float64) geom.Pose {
	if k.slide {
		return geom.Pose{R: geom.Identity, P: k.axis.Scale(by)}
	}
	sin, cos := geom.Sincos(by * degree)
	col := func(e geom.Vec) geom.Vec { // Rodrigues
		return e.Scale(cos).Add(k.axis.Cross(e).Scale(sin)).AddScaled(k.axis, k.axis.Dot(e)*(1-cos))
	}
	x, y, z := col(geom.V(1, 0, 0)), col(geom.V(0, 1, 0)), col(geom.V(0, 0, 1))
	r := geom.Mat{X: geom.V(x.X, y.X, z.X), Y: geom.V(x.Y, y.Y, z.Y), Z: geom.V(x.Z, y.Z, z.Z)}
	return geom.Pose{R: r, P: k.at.Sub(r.Apply(k.at))}
}

// pose is where an item stands in a state: its movements, innermost first, then
// its carrier.
func (v *mover) pose(it *item, st State) geom.Pose {
	ms := st.corners()
	return *v.carry(it, &st, &ms)
}

// carry is pose, until the next question.
func (v *mover) carry(it *item, st *State, ms *motion.State) *geom.Pose {
	if len(it.moves) == 0 {
		if it.on == motion.Body {
			return &geom.Still
		}
		return &v.standing(it.on, ms).rider
	}
	p, q := &v.poses.work[0], &v.poses.work[1]
	p.Set(&geom.Still)
	for _, k := range it.moves {
		by := v.moves[k].pose(st.Moves[k])
		p.ThenInto(&by, q)
		p, q = q, p
	}
	if it.on != motion.Body {
		p.ThenInto(v.carrier(it.on, ms), q)
		return q
	}
	return p
}

// fixed says that an item never moves in the body.
func (it *item) fixed() bool { return it.link == nil && it.on == motion.Body && len(it.moves) == 0 }

// roam adds movements to the mobility of solids and returns how far any of
// their points gets from where it is drawn. A point at the distance d from a
// hinge moves by d per radian, and its second derivative is d; d grows by what
// the movements further in have moved the point. A slide is straight, but turns
// with a hinge further out.
func (v *mover) roam(m *mobility, solids []solid.Solid, moves []int) (far float64) {
	for n, k := range moves {
		mv, i := &v.moves[k], firstMove+k
		most := max(-v.box.lo[i], v.box.hi[i])
		if mv.slide {
			m.any[i] = 1
			if n+1 == len(moves) { // nothing turns it but the carrier
				m.by[i] = geom.V(math.Abs(mv.axis.X), math.Abs(mv.axis.Y), math.Abs(mv.axis.Z))
				m.any[i] = 0
			}
			far += most
			continue
		}
		d := far
		for s := range solids {
			d = max(d, solids[s].MaxDistToAxis(mv.at, mv.axis)+far)
		}
		m.any[i] = d * degree
		m.curve[i] = d * degree * degree
		far += d * min(2, most*degree) // a chord is at most two radii
	}
	return far
}

// apart are the movements that move two items of one rigid group against each
// other: those that both share outermost move them together.
func apart(a, b []int) (own, other []int) {
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return a, b
}

// between keeps the part of a mobility that matters to items of one rigid
// group: the steer, where they differ in it, and their own movements.
func (m *mobility) between(box *stateBox, steers bool, moves []int) *mobility {
	out := &mobility{group: m.group}
	keep := func(i int) {
		out.by[i], out.any[i], out.curve[i], out.kink[i], out.corner[i] = m.by[i], m.any[i], m.curve[i], m.kink[i], m.corner[i]
	}
	if steers {
		keep(steer)
	}
	for _, k := range moves {
		keep(firstMove + k)
	}
	out.finish(box)
	return out
}

// movesOf are a part's movements as indices into the document's.
func movesOf(doc *scene.Document, p *scene.Part) []int {
	var out []int
	for _, id := range p.Moves {
		k := slices.IndexFunc(doc.Movements, func(m scene.Movement) bool { return m.ID == id })
		if k >= 0 {
			out = append(out, k)
		}
	}
	return out
}
