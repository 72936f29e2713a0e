package motion

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// Which is an end of the vehicle.
type Which uint8

const (
	FrontEnd Which = iota
	RearEnd
)

// Bar has a fixed length and a ball joint at each end. From is a point of the
// body in body axes, To a point of what it carries, measured from the carrier's
// origin at ride.
type Bar struct {
	Name     string
	From, To geom.Vec
}

// Crank is the turning piece of a Watt's link: its two ends take the place of
// one end of the bars First and First+1. It turns about the point midway
// between the two, about an axis square to itself and as near to X as can be.
type Crank struct {
	Name   string
	First  int
	OnBody bool // the ends named From are the crank's; else those named To
}

// Slide keeps the body's point Top on a line of what it carries: the axis of a
// strut, which runs through Top and Low at ride.
type Slide struct {
	Name string
	Top  geom.Vec // body axes
	Low  geom.Vec // from the carrier's origin
}

// Linkage is what holds an axle, or the left wheel of an end whose wheels move
// by themselves; the right wheel's is its mirror image.
type Linkage struct {
	Bars  []Bar
	Crank *Crank
	Slide *Slide
	// Straight keeps the middle of the axle from moving sideways: what leaf
	// springs do by themselves.
	Straight bool
	// Tie is the bar whose From moves sideways with the steering; −1 for none.
	Tie int
}

// Bounds of the small equation systems.
const (
	maxUnknowns  = 6
	maxEquations = 9
)

// angleArm (mm) turns angles into lengths, so that all unknowns of a system are
// of one size: about the size of a hub or an axle bracket.
const angleArm = 300.0

type vector [maxUnknowns]float64

// drive is what is prescribed.
type drive struct {
	h     float64 // how far the body has risen over the carrier's origin, mm
	cross float64 // left less right corner height, mm (axle)
	rack  float64 // how far the tie rod's inner end has moved to the right, mm
	steer float64 // only while the rack is sought, radians
}

// toward is the drive a part t of the way to another.
func (d drive) toward(e drive, t float64) drive {
	mix := func(a, b float64) float64 { return a + float64(t*(b-a)) }
	return drive{mix(d.h, e.h), mix(d.cross, e.cross), mix(d.rack, e.rack), mix(d.steer, e.steer)}
}

// system is the equations of one carried body. The unknowns are
//
//	axle   x, y of its middle; pitch, yaw; the crank's turn
//	wheel  x, y of its centre; roll, pitch, yaw; the rack, while it is sought
//
// with R = yaw·pitch·roll about fixed axes ([geom.Turn]) and angles times
// angleArm. Heights are exact by construction: the origin's z is that of ride
// less h, and an axle's roll φ follows from the difference c of its corner
// heights, track·sin φ·cos(pitch) = c.
//
// The equations are: each bar as long as at ride; the body's point of a slide
// on its axis; and, while the rack is sought, the wheel's axis at the steer's
// angle in plan.
type system struct {
	origin   geom.Vec
	axle     bool
	track    float64
	l        *Linkage
	length   []float64
	steering bool
	n, m     int

	turnAxis, arm geom.Vec    // of the crank: its axis, and from its pivot to its first end
	pivot         geom.Vec    // of the crank: body axes or from the carrier's origin
	across        [2]geom.Vec // of the slide: two directions square to its axis
}

func newSystem(origin geom.Vec, axle bool, track float64, l *Linkage) *system {
	s := &system{origin: origin, axle: axle, track: track, l: l, n: 5, m: len(l.Bars)}
	if axle {
		s.n = 4
	}
	for _, b := range l.Bars {
		s.length = append(s.length, b.From.Dist(origin.Add(b.To)))
	}
	if c := l.Crank; c != nil {
		s.n++
		a, b := l.Bars[c.First].To, l.Bars[c.First+1].To
		if c.OnBody {
			a, b = l.Bars[c.First].From, l.Bars[c.First+1].From
		}
		s.pivot = a.Lerp(b, 0.5)
		s.arm = a.Sub(s.pivot)
		along := s.arm.Unit()
		x := geom.V(1, 0, 0)
		s.turnAxis = x.AddScaled(along, -x.Dot(along)).Unit()
		if s.turnAxis == (geom.Vec{}) {
			s.turnAxis = along.Perp()
		}
	}
	if l.Slide != nil {
		s.m += 2
		axis := l.Slide.Top.Sub(origin.Add(l.Slide.Low)).Unit()
		s.across[0] = axis.Perp()
		s.across[1] = axis.Cross(s.across[0])
	}
	if l.Straight {
		s.m++
	}
	return s
}

// sought is the same system with the rack unknown and the steer prescribed.
func (s *system) sought() *system {
	c := *s
	c.steering = true
	c.n++
	c.m++
	return &c
}

// spare says that there are more bars than freedoms: lengths can only be kept
// as nearly as may be, and the bushings give the rest.
func (s *system) spare() bool { return s.m > s.n }

// place is where the carried body stands, and about which axes its unknown
// angles turn it.
type place struct {
	o       geom.Vec // the origin
	r       geom.Mat
	axes    [3]geom.Vec
	crank   float64
	rack    float64
	swing   [2]geom.Vec // crank ends from its pivot, in its own axes
	swingBy geom.Vec    // derivative of the first by the crank's angle
}

func (s *system) place(u *vector, d *drive) (p place) {
	p.o = s.origin.Add(geom.V(u[0], u[1], -d.h))
	p.rack = d.rack
	if s.axle {
		pitch, yaw := u[2]/angleArm, u[3]/angleArm
		sin, cos := geom.Sincos(pitch)
		k := d.cross / s.track
		roll := math.Asin(max(-1, min(1, k/cos)))
		p.r = geom.Turn(roll, pitch, yaw)
		_, cr := geom.Sincos(roll)
		sy, cy := geom.Sincos(yaw)
		p.axes[0] = geom.V(-sy, cy, 0).AddScaled(p.r.AxisX(), k*sin/(cos*cos*max(cr, 0.05)))
		p.axes[1] = geom.V(0, 0, 1)
	} else {
		roll, pitch, yaw := u[2]/angleArm, u[3]/angleArm, u[4]/angleArm
		p.r = geom.Turn(roll, pitch, yaw)
		sy, cy := geom.Sincos(yaw)
		p.axes = [3]geom.Vec{p.r.AxisX(), geom.V(-sy, cy, 0), geom.V(0, 0, 1)}
	}
	if s.steering {
		p.rack = u[5]
	}
	if s.l.Crank != nil {
		p.turnCrank(s, u[4]/angleArm)
	}
	return p
}

func (p *place) turnCrank(s *system, angle float64) {
	p.crank = angle
	sin, cos := geom.Sincos(angle)
	side := s.turnAxis.Cross(s.arm)
	p.swing[0] = s.arm.Scale(cos).AddScaled(side, sin)
	p.swing[1] = p.swing[0].Neg()
	p.swingBy = side.Scale(cos).AddScaled(s.arm, -sin)
}

// ends are where a bar's two ends stand, in body axes.
func (s *system) ends(p *place, i int) (from, to geom.Vec) {
	b := &s.l.Bars[i]
	from, to = b.From, b.To
	if i == s.l.Tie {
		from.Y += p.rack
	}
	if c := s.l.Crank; c != nil && (i == c.First || i == c.First+1) {
		end := s.pivot.Add(p.swing[i-c.First])
		if c.OnBody {
			from = end
		} else {
			to = end
		}
	}
	return from, p.o.Add(p.r.Apply(to))
}
