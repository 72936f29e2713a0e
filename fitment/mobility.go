package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
	"scrubline/fitment/internal/travel"
	"scrubline/scene"
)

// The parameters of the state box. Heave is the body's rise over an end (mm).
// Cross is the left–right difference (mm) at the middle of the heave's range;
// towards the ends of the range it shrinks, so that no corner leaves the range.
// Steer is in degrees.
const (
	frontHeave = iota
	rearHeave
	frontCross
	rearCross
	steer
	paramCount
)

// stateBox is the travel of the whole vehicle.
type stateBox struct {
	lo, hi travel.Point
	seeds  []travel.Point // the document's heights, ride first
}

func newStateBox(doc *scene.Document) *stateBox {
	b := &stateBox{}
	for _, h := range doc.Heights {
		p := travel.Point{frontHeave: h.FrontMM, rearHeave: h.RearMM}
		for i := frontHeave; i <= rearHeave; i++ {
			b.lo[i], b.hi[i] = min(b.lo[i], p[i]), max(b.hi[i], p[i])
		}
		if h.ID == scene.Ride {
			b.seeds = append([]travel.Point{p}, b.seeds...)
		} else {
			b.seeds = append(b.seeds, p)
		}
	}
	b.lo[frontCross], b.hi[frontCross] = -doc.Vehicle.Front.CrossMM, doc.Vehicle.Front.CrossMM
	b.lo[rearCross], b.hi[rearCross] = -doc.Vehicle.Rear.CrossMM, doc.Vehicle.Rear.CrossMM
	b.lo[steer], b.hi[steer] = -doc.Vehicle.Front.SteerDeg, doc.Vehicle.Front.SteerDeg
	return b
}

func (b *stateBox) half(i int) float64 { return (b.hi[i] - b.lo[i]) / 2 }

// state is the corner heights and steer of a point of the box.
func (b *stateBox) state(p *travel.Point) State {
	f, r := b.cross(p, frontHeave, frontCross)/2, b.cross(p, rearHeave, rearCross)/2
	return State{FL: p[frontHeave] + f, FR: p[frontHeave] - f,
		RL: p[rearHeave] + r, RR: p[rearHeave] - r, Steer: p[steer]}
}

// cross shrinks the cross height where a corner would leave the heave's range:
// by the factor min(1, 2·room/limit), whose slope over the heave is at most
// 2/limit. So the cross height changes by at most 2 mm per mm of heave.
func (b *stateBox) cross(p *travel.Point, heave, cross int) float64 {
	limit := b.hi[cross]
	if limit <= 0 {
		return 0
	}
	room := 2 * min(p[heave]-b.lo[heave], b.hi[heave]-p[heave])
	return p[cross] * min(1, room/limit)
}

func (s State) motion() motion.State {
	return motion.State{FL: s.FL, FR: s.FR, RL: s.RL, RR: s.RR, Steer: s.Steer * degree}
}

// mobility bounds how far any point of an item moves per unit of each
// parameter, split by direction so that motion square to a gap costs nothing.
type mobility struct {
	lift  travel.Point // along Z
	swing travel.Point // about an axis along X: in the YZ plane
	other travel.Point // any direction
	group int          // items of one group are rigid to each other but for steer; -1 for links
	uses  [paramCount]bool
}

// rate is the bound in any direction.
func (m *mobility) rate(i int) float64 { return m.lift[i] + m.swing[i] + m.other[i] }

// along is the bound along the unit vector n.
func (m *mobility) along(i int, n geom.Vec) float64 {
	yz := math.Sqrt(float64(n.Y*n.Y) + float64(n.Z*n.Z))
	return float64(math.Abs(n.Z)*m.lift[i]) + float64(yz*m.swing[i]) + m.other[i]
}

// mover works out mobilities for one vehicle and its travel.
type mover struct {
	ch  *motion.Chassis
	box *stateBox
}

// rigid is the mobility of solids fixed to a carrier.
func (v *mover) rigid(on motion.Carrier, solids []solid.Solid) mobility {
	reach := func(p, dir geom.Vec) float64 {
		far := 0.0
		for i := range solids {
			far = max(far, solids[i].MaxDistToAxis(p, dir))
		}
		return far
	}
	m := v.carried(on, func(axle geom.Vec) float64 { return reach(axle, geom.V(1, 0, 0)) })
	if (on == motion.WheelFL || on == motion.WheelFR) && v.box.hi[steer] > 0 {
		m.other[steer] = reach(v.ch.Origin(on), geom.V(0, 0, 1)) * degree
	}
	if on == motion.Ground {
		far := reach(geom.Vec{}, geom.V(1, 0, 0)) + reach(geom.Vec{}, geom.V(0, 0, 1))
		for i := frontHeave; i <= rearCross; i++ {
			m.other[i] = v.groundRate(i, far)
		}
	}
	m.finish(v.box)
	return m
}

// groundRate bounds how far a point of the ground within far of the body
// origin moves. A unit of heave tilts the plane by at most 1/wheelbase about
// the other end and lifts it by at most 1; a unit of cross tilts it by at most
// half of 1/track. The factor 2 covers the sine of the tilt and the cross that
// follows the heave.
func (v *mover) groundRate(i int, far float64) float64 {
	track := min(v.ch.Front.Track, v.ch.Rear.Track)
	if i == frontHeave || i == rearHeave {
		return 2 * (1 + far/v.ch.Wheelbase + far/track)
	}
	return 2 * far / track
}

// carried is the mobility a carrier lends to a point; reach gives the point's
// greatest distance from the axle's roll axis.
func (v *mover) carried(on motion.Carrier, reach func(axle geom.Vec) float64) mobility {
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
	m.lift[heave] = 1
	limit := v.box.hi[cross]
	switch {
	case end.Independent && on != axle:
		if limit > 0 { // half the cross, which itself changes by up to 2 per mm of heave
			m.lift[heave], m.lift[cross] = 2, 0.5
		}
	default:
		m.group = int(axle)
		if limit > 0 {
			perMM := reach(v.ch.Origin(axle)) / (end.Track * math.Cos(motion.Roll(end.Track, limit)))
			m.swing[cross], m.swing[heave] = perMM, 2*perMM
		}
	}
	return m
}

// hung is the mobility of a link: what its anchors do, and what that does to
// the rim of a round solid between them. Turning by dθ moves a rim point by at
// most R·dθ, and dθ is at most the anchors' motion square to the axis over the
// length; the radius follows the length by its slope.
func (v *mover) hung(k *link) mobility {
	at := func(on motion.Carrier, p geom.Vec) mobility {
		return v.carried(on, func(axle geom.Vec) float64 {
			d := p.Sub(axle)
			return math.Sqrt(float64(d.Y*d.Y) + float64(d.Z*d.Z))
		})
	}
	a, b := at(k.onA, k.a), at(k.onB, k.b)
	m := mobility{group: -1}
	length, lean := v.shortest(k, &a, &b)
	r, slope := k.most(), k.radiusSlope()
	for i := 0; i < paramCount; i++ {
		m.lift[i] = max(a.lift[i], b.lift[i])
		m.swing[i] = max(a.swing[i], b.swing[i])
		m.other[i] = max(a.other[i], b.other[i])
		square := (a.lift[i]+b.lift[i])*lean + a.swing[i] + b.swing[i] + a.other[i] + b.other[i]
		m.other[i] += r*square/length + slope*(a.rate(i)+b.rate(i))
	}
	m.finish(v.box)
	return m
}

// shortest bounds a link's length from below over the box, and the sine of its
// angle to the vertical from above.
func (v *mover) shortest(k *link, a, b *mobility) (length, lean float64) {
	flat := func(d geom.Vec) float64 { return math.Sqrt(float64(d.X*d.X) + float64(d.Y*d.Y)) }
	middle := travel.Point{}
	for i := range middle {
		middle[i] = (v.box.lo[i] + v.box.hi[i]) / 2
	}
	st := v.box.state(&middle).motion()
	pa, pb := v.ch.Pose(k.onA, st), v.ch.Pose(k.onB, st)
	d := pb.Apply(k.b).Sub(pa.Apply(k.a))
	up, side := 0.0, 0.0
	for i := 0; i < paramCount; i++ {
		up += v.box.half(i) * (a.rate(i) + b.rate(i))
		side += v.box.half(i) * (a.swing[i] + b.swing[i] + a.other[i] + b.other[i])
	}
	h := max(0, math.Abs(d.Z)-up)
	w := max(0, flat(d)-side)
	length = max(shortestLink, math.Sqrt(float64(h*h)+float64(w*w)))
	return length, min(1, (flat(d)+side)/length)
}

// most is the link's largest radius.
func (k *link) most() float64 {
	r := k.radius
	for _, p := range k.profile {
		r = max(r, p.DiameterMM/2)
	}
	return r
}

// finish notes which parameters move the item at all.
func (m *mobility) finish(b *stateBox) {
	for i := 0; i < paramCount; i++ {
		m.uses[i] = m.rate(i) > 0 && b.half(i) > 0
	}
}
