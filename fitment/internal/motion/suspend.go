package motion

import (
	"errors"
	"fmt"
	"math"

	"scrubline/fitment/internal/geom"
)

// Travel is the range an end moves in.
type Travel struct {
	Low, High float64 // heights over ride, mm; 0 is among them
	Cross     float64 // largest difference of the two corners, mm (axle)
	Steer     float64 // largest steer each way, radians (wheels by themselves)
}

// Limits says how far a linkage lets its end go.
type Limits struct {
	Low, High float64 // heights over ride that can be had at every cross height and steer
	Cross     float64 // of the range asked for, what can be had at ride (mm)
	Steer     float64 // the same of the steer (radians)
	// LockLow and LockHigh are where the linkage locks, level and straight
	// ahead; meant only when LockedLow, LockedHigh.
	LockLow, LockHigh     float64
	LockedLow, LockedHigh bool
	Bind                  float64 // the most a bushing gives along its bar in the range, mm
	Spare                 bool    // more bars than freedoms
}

// Room kept before a lock: there a linkage moves many times as fast as the
// height, and nothing is built to run into it.
const (
	lockRoomMM  = 5.0
	lockRoomRad = math.Pi / 180
)

// hung is an end on its linkage, with its motion solved.
type hung struct {
	s      *system // of the axle, or the left wheel
	tie    *system // with the rack sought; nil without a tie rod
	grid   *grid
	nodes  []state // as the grid's
	cols   []state // by the grid's second parameter, at ride height; of tie when there is one
	limits Limits
}

// Suspend hangs an end on a linkage, over the travel it is to have. The travel
// may come out shorter: see [Chassis.Limits]. An error says what the linkage
// leaves loose.
//
// The steer of a state is that of the wheel at ride height: it sets the rack,
// each wheel's to its own, and the wheel's height then turns it by what the
// tie rod makes it (bump steer). Without a tie rod, and on an axle, steer is a
// plain turn about the wheel's upright axis.
func (c *Chassis) Suspend(end Which, l *Linkage, t Travel) error {
	e, axle, wheel := &c.Front, FrontAxle, WheelFL
	if end == RearEnd {
		e, axle, wheel = &c.Rear, RearAxle, WheelRL
	}
	u := &hung{}
	if e.Independent {
		u.s = newSystem(c.Origin(wheel), false, e.Track, l)
		if l.Tie >= 0 && end == FrontEnd {
			u.tie = u.s.sought()
		}
	} else {
		u.s = newSystem(c.Origin(axle), true, e.Track, l)
	}
	if u.s.m > maxEquations-1 || u.s.n > maxUnknowns {
		return errors.New("it has more bars than a suspension has")
	}
	if err := u.s.loose(); err != nil {
		return err
	}
	if u.tie != nil {
		if err := u.tie.loose(); err != nil {
			return err
		}
	}
	if err := u.build(t); err != nil {
		return err
	}
	c.hung[end] = u
	return nil
}

// Limits says how far an end can go; ok is false for a plain guide, which goes
// everywhere.
func (c *Chassis) Limits(end Which) (l Limits, ok bool) {
	if c.hung[end] == nil {
		return Limits{}, false
	}
	return c.hung[end].limits, true
}

// Bounds are those of a carrier that hangs on a linkage: the axle, or a wheel
// that moves by itself. ok is false for every other carrier. second says which
// parameter comes second: the cross height, or the steer.
func (c *Chassis) Bounds(on Carrier) (b Bounds, ok bool) {
	u := c.hung[endOf(on)]
	if u == nil || on == Body || on == Ground || u.s.axle != (on == FrontAxle || on == RearAxle) {
		return Bounds{}, false
	}
	return u.grid.bounds, true
}

// ByTie says that an end's wheels are steered by tie rods.
func (c *Chassis) ByTie(end Which) bool { return c.hung[end] != nil && c.hung[end].steered() }

func (u *hung) steered() bool { return u.tie != nil }

// build finds the limits and solves the nodes.
func (u *hung) build(t Travel) error {
	lim := &u.limits
	lim.Spare = u.s.spare()
	second, room := u.second(t)
	second = u.widest(second, room)
	lim.Low, lim.LockLow, lim.LockedLow = u.reach(t.Low, second)
	lim.High, lim.LockHigh, lim.LockedHigh = u.reach(t.High, second)
	if lim.LockedLow && -lim.LockLow < lockRoomMM || lim.LockedHigh && lim.LockHigh < lockRoomMM {
		return fmt.Errorf("it locks within %g mm of ride height", lockRoomMM)
	}
	fine := [2]float64{1, 1}
	for range 40 {
		if bad := u.solve(second, fine); bad != 0 { // a row that cannot be had within
			u.shorten(bad)
			continue
		}
		off := u.off()
		if off[0].by <= offMM && off[1].by <= offMM {
			u.settle(t, second)
			return nil
		}
		if !finer(&fine, &off) {
			second = u.narrow(&off, second)
		}
	}
	return errors.New("its bars cannot be followed through the travel")
}

// settle notes what is left of the second parameter's range.
func (u *hung) settle(t Travel, second float64) {
	lim := &u.limits
	if lim.Cross, lim.Steer = t.Cross, t.Steer; u.s.axle {
		lim.Cross = second
	} else if u.steered() {
		lim.Steer = second
	}
}

// shorten ends the travel short of a height.
func (u *hung) shorten(bad float64) {
	if bad < 0 {
		u.limits.Low = math.Min(0, bad+lockRoomMM)
	} else {
		u.limits.High = math.Max(0, bad-lockRoomMM)
	}
}

// finer halves the steps of each axis along which the grid is too far off;
// false when they are the finest already.
func finer(fine *[2]float64, off *[2]farOff) (again bool) {
	for k := range fine {
		if off[k].by > offMM && fine[k] < finest {
			fine[k] *= 2
			again = true
		}
	}
	return again
}

// narrow gives up the part of the range where the finest grid is too far off:
// the linkage is about to lock there.
func (u *hung) narrow(off *[2]farOff, second float64) float64 {
	worst := off[0]
	if off[1].by > offMM {
		worst = off[1]
	}
	if worst.y != 0 {
		return second * 0.9
	}
	u.shorten(worst.x)
	return second
}

// second is the range of the second parameter.
func (u *hung) second(t Travel) (far, room float64) {
	switch {
	case u.s.axle:
		return t.Cross, lockRoomMM
	case u.steered():
		return t.Steer, lockRoomRad
	}
	return 0, 0
}

// column is the state at ride height of a second parameter, from that of
// another one.
func (u *hung) column(from state, y float64) (at state, locked bool) {
	switch {
	case u.s.axle:
		return u.s.lock(from, drive{cross: y})
	case u.steered():
		return u.tie.lock(from, drive{steer: y})
	}
	return from, false
}

// reached is the second parameter of a column.
func (u *hung) reached(col *state) float64 { return col.d.cross + col.d.steer }

// free is a column as a state of the system whose rack is set.
func (u *hung) free(col state) state {
	if u.steered() {
		return state{drive{rack: col.u[5]}, cut(col.u, 5), col.worst}
	}
	return col
}

func cut(u vector, n int) (v vector) {
	copy(v[:n], u[:n])
	return v
}

// widest is as much of the second parameter's range as can be had at ride on
// both sides.
func (u *hung) widest(far, room float64) float64 {
	for _, side := range [2]float64{1, -1} {
		at, locked := u.column(state{}, side*far)
		got := math.Abs(u.reached(&at))
		if u.steered() {
			over := u.turnsBack(side, got)
			got, locked = over, locked || over < got
		}
		if locked {
			far = math.Min(far, math.Max(0, got-room))
		}
	}
	return far
}

// turnsBack is the steer at which the rack has gone as far as it can, the tie
// rod and its arm in one line; most when it never does. Beyond it the same rack
// would hold the wheel two ways.
func (u *hung) turnsBack(side, most float64) float64 {
	n := math.Ceil(most / turnStep)
	from, first := state{}, 0.0
	for i := 1.0; i <= n; i++ {
		at, _ := u.column(from, side*most*i/n)
		by := at.u[5] - from.u[5]
		if i == 1 {
			first = by
		} else if by*first <= 0 {
			return most * (i - 1) / n
		}
		from = at
	}
	return most
}

// turnStep (radians) is how finely the end of the steering is sought.
const turnStep = math.Pi / 360

// reach goes up or down to a height: how far it can be had at the middle and
// both ends of the second parameter's range, and where it locks in the middle.
func (u *hung) reach(height, second float64) (usable, lock float64, locked bool) {
	usable = height
	for k, y := range [3]float64{0, second, -second} {
		col, _ := u.column(state{}, y)
		start := u.free(col)
		to := start.d
		to.h = height
		at, stopped := u.s.lock(start, to)
		if !stopped {
			continue
		}
		if k == 0 {
			lock, locked = at.d.h, true
		}
		short := math.Max(0, math.Abs(at.d.h)-lockRoomMM)
		if short < math.Abs(usable) {
			usable = math.Copysign(short, height)
		}
	}
	return usable, lock, locked
}

// pose is where the carrier stands; beyond the grid it is solved, as far as
// the linkage goes.
func (u *hung) pose(x, y float64, other bool) geom.Pose {
	if u.grid.inside(x, y) {
		n := u.grid.at(x, y, poseComps)
		return n.pose(u.side(other), other)
	}
	n := u.beyond(x, y)
	return n.pose(u.side(other), other)
}

// side is the carrier's origin, on the other side of the vehicle if so asked.
func (u *hung) side(other bool) geom.Vec {
	o := u.s.origin
	if other {
		o.Y = -o.Y
	}
	return o
}

// wheelPose is the pose of one of the two wheels that move by themselves.
func (u *hung) wheelPose(left bool, l, r, steer float64) geom.Pose {
	if left {
		return u.pose(l, steer, false)
	}
	return u.pose(r, -steer, true)
}
