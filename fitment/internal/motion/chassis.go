// Package motion poses what rides on the vehicle: axles, wheels and the ground
// in body axes, for a state of the four corners and the steer.
//
// The body is the frame of reference. A corner height is how far the body has
// risen over that wheel along body Z, so a wheel's height in the body depends
// on its own corner alone and the ground follows from the wheels.
package motion

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// Carrier is what a solid rides on.
type Carrier uint8

const (
	Body Carrier = iota
	FrontAxle
	RearAxle
	WheelFL
	WheelFR
	WheelRL
	WheelRR
	Ground
)

// End is one end of the vehicle, in millimetres.
type End struct {
	Track       float64 // between tyre centre planes
	Loaded      float64 // height of the wheel centre over the ground
	FrameHeight float64 // frame datum over the ground at this axle at ride
	Independent bool
}

// State is the four corner heights (mm over ride) and the steer (radians,
// positive to the right).
type State struct{ FL, FR, RL, RR, Steer float64 }

// Chassis is a vehicle's running gear: on plain vertical guides, but for the
// ends that hang on a linkage ([Chassis.Suspend]).
type Chassis struct {
	Wheelbase   float64
	Front, Rear End
	frontZ      float64 // wheel centres at ride, body axes
	rearZ       float64
	rideN       geom.Vec // ground normal at ride
	hung        [2]*hung // by end; nil: a guide
}

// NewChassis works out where the wheels stand at ride: the ground lies
// FrameHeight below the frame datum at each axle, measured square to the
// ground, and each wheel centre lies Loaded above the ground.
func NewChassis(wheelbase float64, front, rear End) *Chassis {
	c := &Chassis{Wheelbase: wheelbase, Front: front, Rear: rear}
	nx := (rear.FrameHeight - front.FrameHeight) / wheelbase
	nx = math.Max(-0.99, math.Min(0.99, nx))
	nz := math.Sqrt(1 - float64(nx*nx))
	c.frontZ = (front.Loaded - front.FrameHeight) / nz
	c.rearZ = (rear.Loaded - rear.FrameHeight) / nz
	c.rideN = geom.V(nx, 0, nz)
	return c
}

// Origin is a carrier's origin in body axes at ride.
func (c *Chassis) Origin(on Carrier) geom.Vec {
	f, r := c.Front.Track/2, c.Rear.Track/2
	switch on {
	case FrontAxle:
		return geom.V(0, 0, c.frontZ)
	case RearAxle:
		return geom.V(c.Wheelbase, 0, c.rearZ)
	case WheelFL:
		return geom.V(0, -f, c.frontZ)
	case WheelFR:
		return geom.V(0, f, c.frontZ)
	case WheelRL:
		return geom.V(c.Wheelbase, -r, c.rearZ)
	case WheelRR:
		return geom.V(c.Wheelbase, r, c.rearZ)
	case Ground:
		return geom.V(0, 0, -c.Front.FrameHeight/c.rideN.Z)
	}
	return geom.Vec{}
}

// Pose carries what stands at ride in body axes to where it stands in st.
func (c *Chassis) Pose(on Carrier, st State) geom.Pose {
	switch on {
	case FrontAxle:
		return c.axlePose(FrontAxle, &c.Front, st.FL, st.FR)
	case RearAxle:
		return c.axlePose(RearAxle, &c.Rear, st.RL, st.RR)
	case WheelFL, WheelFR:
		if u := c.hung[FrontEnd]; u != nil && u.steered() {
			return u.wheelPose(on == WheelFL, st.FL, st.FR, st.Steer)
		}
		turn := about(c.Origin(on), geom.Turn(0, 0, -st.Steer))
		rest := c.wheelPose(&c.Front, on == WheelFL, FrontAxle, st.FL, st.FR)
		return turn.Then(&rest)
	case WheelRL, WheelRR:
		return c.wheelPose(&c.Rear, on == WheelRL, RearAxle, st.RL, st.RR)
	case Ground:
		return c.groundPose(st)
	}
	return geom.Still
}

// axlePose is where an axle stands: its middle, half way between its corners'
// heights, and each wheel centre exactly at its own corner's height. On guides
// it rolls about its middle: half the track times the sine of the roll.
//
// The axle carrier of an end whose wheels move by themselves follows the mean
// of the two, whatever they hang on.
func (c *Chassis) axlePose(on Carrier, e *End, left, right float64) geom.Pose {
	if u := c.hung[endOf(on)]; u != nil && u.s.axle {
		return u.pose((left+right)/2, left-right, false)
	}
	mid := c.Origin(on)
	p := about(mid, geom.Turn(Roll(e.Track, left-right), 0, 0))
	p.P = p.P.Add(geom.V(0, 0, -(left+right)/2))
	return p
}

func (c *Chassis) wheelPose(e *End, left bool, axle Carrier, l, r float64) geom.Pose {
	if !e.Independent {
		return c.axlePose(axle, e, l, r)
	}
	if u := c.hung[endOf(axle)]; u != nil {
		return u.wheelPose(left, l, r, 0)
	}
	h := r
	if left {
		h = l
	}
	return geom.Pose{R: geom.Identity, P: geom.V(0, 0, -h)}
}

// endOf is the end a carrier belongs to; the front for those that belong to
// none.
func endOf(on Carrier) Which {
	switch on {
	case RearAxle, WheelRL, WheelRR:
		return RearEnd
	}
	return FrontEnd
}

// Roll is the roll angle (radians about X) of an axle whose body has risen
// cross millimetres more over the left wheel than over the right.
func Roll(track, cross float64) float64 {
	return math.Asin(math.Max(-1, math.Min(1, cross/track)))
}

// about is the pose that turns by m about the point p.
func about(p geom.Vec, m geom.Mat) geom.Pose {
	return geom.Pose{R: m, P: p.Sub(m.Apply(p))}
}
