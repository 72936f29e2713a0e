package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
)

// mobility bounds how the points of an item move with each parameter.
type mobility struct {
	by    [paramCount]geom.Vec // how far along X, Y, Z per unit
	any   whole                // how far in any direction per unit, on top
	curve whole                // second derivative, per unit²
	kink  whole                // range of slopes that small corners everywhere add
	// corner is the range of slopes where the cross begins and ends to follow
	// the heave; see stateBox.corners.
	corner whole
	// stop is where a link's motion has a corner of its own, of its end's heave
	stop  *float64
	group int // items of one group are rigid to each other but for steer and movements; -1 for links
	uses  [paramCount]bool
}

// rate is the bound in any direction.
func (m *mobility) rate(i int) float64 { return m.by[i].Len() + m.any[i] }

// mover works out mobilities for one vehicle, its travel and its movements.
type mover struct {
	ch    *motion.Chassis
	box   *stateBox
	moves []move
	poses *poseCache
}

// rigid is the mobility of solids that ride on a carrier, carried further by
// movements, innermost first.
func (v *mover) rigid(on motion.Carrier, solids []solid.Solid, moves []int) mobility {
	var m mobility
	roams := v.roam(&m, solids, moves)
	reach := func(p geom.Vec) (far geom.Vec) {
		for i := range solids {
			lo, hi := solids[i].Bounds()
			lo, hi = lo.Sub(p), hi.Sub(p)
			far.X = max(far.X, -lo.X, hi.X)
			far.Y = max(far.Y, -lo.Y, hi.Y)
			far.Z = max(far.Z, -lo.Z, hi.Z)
		}
		return far.Add(geom.V(roams, roams, roams))
	}
	c := v.carried(on, reach)
	if on == motion.Ground {
		v.grounded(&c, reach(geom.Vec{}).Len())
	}
	for i := firstMove; i < paramCount; i++ {
		c.by[i], c.any[i], c.curve[i] = m.by[i], m.any[i], m.curve[i]
	}
	c.finish(v.box)
	return c
}

// steered bounds the motion per degree of steer of a point within far of the
// wheel's centre: it moves across by its distance along and the other way
// round, and up and down by the roll that the axle may have.
func (v *mover) steered(far geom.Vec) geom.Vec {
	flat := geom.V(far.X, far.Y, 0).Len() * degree
	if b, ok := v.ch.Bounds(motion.FrontAxle); ok {
		return geom.V(flat, flat, flat*min(1, b.Angle))
	}
	sin := math.Sin(motion.Roll(v.ch.Front.Track, v.box.hi[frontCross]))
	turned := math.Sin(v.box.hi[steer] * degree)
	return geom.V(min(flat, (far.Y+far.X*turned)*degree), min(flat, (far.X+far.Y*turned)*degree), flat*sin)
}

// grounded bounds the motion of what stands on the ground within far of the
// body origin. A unit of heave tilts the plane by about 1/wheelbase and lifts
// it by about 1; a unit of cross tilts it by half of 1/track. The factors cover
// the sines of the tilts and the cross that follows the heave.
func (v *mover) grounded(m *mobility, far float64) {
	if v.linkedGround(m, far) {
		return
	}
	track := min(v.ch.Front.Track, v.ch.Rear.Track)
	for i := frontHeave; i <= rearCross; i++ {
		tilt := 2/v.ch.Wheelbase + 2/track
		m.any[i] = 2
		if i >= frontCross {
			tilt, m.any[i] = 1/track, 0
		}
		m.any[i] += 2 * far * tilt
		m.curve[i] = 8 * far * tilt * tilt
		if v.box.hi[frontCross]+v.box.hi[rearCross] > 0 {
			m.corner[i] = 2 * m.any[i]
		}
	}
}

// carried is the mobility a carrier lends to points; reach gives how far they
// lie from a point, along each axis.
func (v *mover) carried(on motion.Carrier, reach func(p geom.Vec) geom.Vec) mobility {
	m := mobility{group: int(on)}
	var heave, cross int
	var axle motion.Carrier
	var end motion.End
	switch on {
	case motion.FrontAxle, motion.WheelFL, motion.WheelFR:
		heave, cross, axle, end = frontHeave, frontCross, motion.FrontAxle, v.ch.Front
	case motion.RearAxle, motion.WheelRL, motion.WheelRR:
		heave, cross, axle, end = rearHeave, rearCross, motion.RearAxle, v.ch.Rear
	default:
		return m
	}
	steers := (on == motion.WheelFL || on == motion.WheelFR) && v.box.hi[steer] > 0
	if steers && !v.ch.ByTie(motion.FrontEnd) {
		far := reach(v.ch.Origin(on))
		m.by[steer] = v.steered(far)
		m.curve[steer] = geom.V(far.X, far.Y, 0).Len() * degree * degree
	}
	limit := v.box.hi[cross]
	m.by[heave].Z = 1
	if end.Independent && on != axle {
		if b, ok := v.ch.Bounds(on); ok {
			far := reach(v.ch.Origin(on))
			if steers && !v.ch.ByTie(motion.FrontEnd) {
				far = turned(far)
			}
			linkedWheel(&m, &b, heave, cross, limit, steers && v.ch.ByTie(motion.FrontEnd), far)
			return m
		}
		if limit > 0 { // half the cross, which follows the heave by up to 2 either way
			m.by[heave].Z, m.by[cross].Z, m.corner[heave] = 2, 0.5, 2
		}
		return m
	}
	m.group = int(axle)
	far := reach(v.ch.Origin(axle))
	if steers { // what the steer has turned reaches further across
		own := turned(reach(v.ch.Origin(on)))
		far = geom.V(own.X, own.Y+end.Track/2, far.Z)
	}
	if b, ok := v.ch.Bounds(axle); ok {
		linkedAxle(&m, &b, heave, cross, limit, far)
	} else if limit > 0 {
		rolled(&m, heave, cross, end.Track, limit, far)
	}
	return m
}

// turned is how far points reach once they are turned about an upright axis.
func turned(far geom.Vec) geom.Vec {
	flat := geom.V(far.X, far.Y, 0).Len()
	return geom.V(flat, flat, far.Z)
}

// rolled adds the roll of an axle to the mobility of a point within far of its
// middle. With sin φ = c/t the point moves by its height times cos φ·dφ
// sideways and by its distance sideways times dφ up, dφ = dc/(t·cos φ), each as
// the roll has left them; sin φ is straight in c, cos φ bends by at most
// 1/(t²·cos³ φ). The cross follows the heave by up to 2 either way.
func rolled(m *mobility, heave, cross int, track, limit float64, far geom.Vec) {
	sin, cos := math.Sincos(motion.Roll(track, limit))
	cos = max(cos, 0.1)
	per := 1 / (track * cos)
	swing := geom.V(0, (far.Z+far.Y*sin)*per, (far.Y+far.Z*sin)*per)
	bend := geom.V(0, far.Y, far.Z).Len() / (track * track * cos * cos * cos)
	m.by[cross], m.curve[cross] = swing, bend
	m.by[heave] = m.by[heave].AddScaled(swing, 2)
	m.curve[heave], m.corner[heave] = 4*bend, 4*swing.Len()
}

// hung is the mobility of a link, a round solid of radius R and length L
// between two anchors. When the anchors move by v against each other, of which
// u is square to the axis a, the axis turns by u/L per unit, and its second
// derivative along a straight line is at most (2·v·u + u²)/L²; a rim point
// carried along with it adds at most u²/L² to that. The radius follows the
// length by its slope, and the length bends by u²/L; where the table has corners,
// slopes differ by their range.
func (v *mover) hung(k *link) mobility {
	at := func(on motion.Carrier, p geom.Vec) mobility {
		return v.carried(on, func(q geom.Vec) geom.Vec {
			d := p.Sub(q)
			return geom.V(math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z))
		})
	}
	a, b := at(k.onA, k.a), at(k.onB, k.b)
	if k.point != nil {
		b = v.followed(k)
	}
	m := mobility{group: -1}
	length, lean := v.shortest(k, &a, &b)
	r := k.most()
	slope, slopes := k.slopes()
	for i := 0; i < paramCount; i++ {
		p, q := a.by[i], b.by[i]
		both := p.Add(q)
		speed := both.Len()
		square := min(speed, geom.V(both.X, both.Y, 0).Len()+both.Z*lean)
		turn := square / length
		m.by[i] = geom.V(max(p.X, q.X), max(p.Y, q.Y), max(p.Z, q.Z))
		m.any[i] = r*turn + slope*speed
		m.curve[i] = (a.curve[i]+b.curve[i])*(1+r/length+slope) +
			2*r*turn*(speed/length+turn) + slope*(square*turn+2*speed*turn)
		m.kink[i] = (a.kink[i]+b.kink[i])*(1+r/length+slope) + slopes*speed
		m.corner[i] = (a.corner[i] + b.corner[i]) * (1 + r/length + slope)
	}
	m.finish(v.box)
	return m
}

// settle finds the height at which a link with a shortest length is pushed
// solid: its end level, going down from the top of the travel. What is shorter
// yet is not a spring any more; the limit that is passed is a finding.
func (v *mover) settle(k *link) {
	k.stop, k.stopAt = math.Inf(-1), rearHeave
	least := max(k.limits.ShortestMM, shortestLink)
	for _, on := range [2]motion.Carrier{k.onA, k.onB} {
		if on == motion.FrontAxle || on == motion.WheelFL || on == motion.WheelFR {
			k.stopAt = frontHeave
		}
	}
	var p whole
	var st State
	short := func(h float64) bool {
		p[k.stopAt] = h
		v.box.put(&p, &st)
		ms := st.corners()
		a := v.carrier(k.onA, &ms).Apply(k.a)
		return a.Dist(v.carrier(k.onB, &ms).Apply(k.b)) < least
	}
	lo, hi := v.box.lo[k.stopAt], v.box.hi[k.stopAt]
	if short(hi) {
		k.stop = hi
		return
	}
	for h := hi; h > lo; {
		next := max(lo, h-limitStep)
		if short(next) {
			k.stop = h // within a step of the stop itself
			return
		}
		h = next
	}
}

// shortest bounds a link's length from below over the box, above its stop, and
// the sine of its angle to the vertical from above. It measures the link on a
// grid and allows for how far its anchors move between two nodes.
func (v *mover) shortest(k *link, a, b *mobility) (length, lean float64) {
	lo, hi := v.box.lo, v.box.hi
	lo[k.stopAt] = max(lo[k.stopAt], k.stop)
	var steps [paramCount]float64
	slack, side := 0.0, 0.0
	for i := frontHeave; i <= steer; i++ {
		both := a.by[i].Add(b.by[i])
		if hi[i] <= lo[i] || both.Len() == 0 {
			continue
		}
		fine := 4 * limitStep
		if i > rearHeave {
			fine = (hi[i] - lo[i]) / 2
		}
		steps[i] = math.Ceil((hi[i] - lo[i]) / fine)
		half := (hi[i] - lo[i]) / steps[i] / 2
		slack += both.Len() * half
		side += geom.V(both.X, both.Y, 0).Len() * half
	}
	length = math.Inf(1)
	var p whole
	var st State
	var nodes func(i int)
	nodes = func(i int) {
		if i > steer {
			v.box.put(&p, &st)
			ms := st.corners()
			p, q := v.linkEnds(k, &ms)
			d := q.Sub(p)
			length = min(length, d.Len())
			lean = max(lean, geom.V(d.X, d.Y, 0).Len())
			return
		}
		for n := 0.0; n <= steps[i]; n++ {
			if p[i] = 0; steps[i] > 0 {
				p[i] = lo[i] + (hi[i]-lo[i])*n/steps[i]
			}
			nodes(i + 1)
		}
		p[i] = 0
	}
	nodes(frontHeave)
	length = max(shortestLink, length-slack)
	return length, min(1, (lean+side)/length)
}

// most is the link's largest radius.
func (k *link) most() float64 {
	r := k.radius
	for _, p := range k.profile {
		r = max(r, p.DiameterMM/2)
	}
	return r
}

// slopes are the steepest change of the radius per millimetre of length, and
// the range of all its slopes. The table is level beyond its ends.
func (k *link) slopes() (steepest, spread float64) {
	least, most := 0.0, 0.0
	for i := 1; i < len(k.profile); i++ {
		p, q := k.profile[i-1], k.profile[i]
		if d := q.LengthMM - p.LengthMM; d > 0 {
			s := (q.DiameterMM - p.DiameterMM) / 2 / d
			least, most = min(least, s), max(most, s)
		}
	}
	return max(-least, most), most - least
}

// finish notes which parameters move the item at all.
func (m *mobility) finish(b *stateBox) {
	for i := 0; i < paramCount; i++ {
		m.uses[i] = m.rate(i) > 0 && b.half(i) > 0
	}
}
