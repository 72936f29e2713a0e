package motion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
)

// exact (mm): pose arithmetic on a vehicle of a few metres keeps far more
// digits than this.
const exact = geom.GapTol * 1e-3

// plain is an invented vehicle: 2900 mm wheelbase, a 40 mm rake at ride and
// taller tyres behind.
func plain() *Chassis {
	return NewChassis(2900,
		End{Track: 1480, Loaded: 320, FrameHeight: 300},
		End{Track: 1500, Loaded: 340, FrameHeight: 340})
}

func height(c *Chassis, st State, p geom.Vec) float64 {
	n, off := c.GroundPlane(st)
	return n.Dot(p) + off
}

// At ride the frame datum stands as high over the ground as the tape said, and
// each wheel centre its loaded radius: the definition of the inputs.
func TestRideIsAsMeasured(t *testing.T) {
	c := plain()
	require.InDelta(t, 300, height(c, State{}, geom.V(0, 0, 0)), exact)
	require.InDelta(t, 340, height(c, State{}, geom.V(2900, 0, 0)), exact)
	for _, w := range []Carrier{WheelFL, WheelFR} {
		require.InDelta(t, 320, height(c, State{}, c.Origin(w)), exact)
	}
	for _, w := range []Carrier{WheelRL, WheelRR} {
		require.InDelta(t, 340, height(c, State{}, c.Origin(w)), exact)
	}
	require.InDelta(t, 0, height(c, State{}, c.Origin(Ground)), exact)
}

// A level vehicle that goes down 100 stands 100 lower everywhere: closed form.
func TestLevelDrop(t *testing.T) {
	c := NewChassis(3000, End{Track: 1500, Loaded: 310, FrameHeight: 310}, End{Track: 1500, Loaded: 310, FrameHeight: 310})
	st := State{FL: -100, FR: -100, RL: -100, RR: -100}
	for _, x := range []float64{-800, 0, 1500, 3000, 3900} {
		require.InDelta(t, 210, height(c, st, geom.V(x, 200, 0)), exact)
	}
}

// Letting the rear of a level 3000 mm vehicle down by 150 tilts the ground by
// atan(150/3000): both tyre circles have one radius, so the line under them is
// parallel to the line through their centres.
func TestRearDropTilts(t *testing.T) {
	c := NewChassis(3000, End{Track: 1500, Loaded: 310, FrameHeight: 310}, End{Track: 1500, Loaded: 310, FrameHeight: 310})
	n, _ := c.GroundPlane(State{RL: -150, RR: -150})
	require.InDelta(t, math.Atan2(150, 3000), math.Atan2(-n.X, n.Z), geom.Tiny)
}

// Wherever the corners stand level, every tyre stands on the ground.
func TestTyresStayOnTheGround(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := plain()
		f := rapid.Float64Range(-200, 120).Draw(t, "front")
		r := rapid.Float64Range(-200, 120).Draw(t, "rear")
		st := State{FL: f, FR: f, RL: r, RR: r}
		for on, loaded := range map[Carrier]float64{WheelFL: 320, WheelFR: 320, WheelRL: 340, WheelRR: 340} {
			pose := c.Pose(on, st)
			require.InDelta(t, loaded, height(c, st, pose.Apply(c.Origin(on))), exact)
		}
	})
}

// A corner height is exactly how far the body has risen over that wheel, for
// an axle and for independent wheels.
func TestCornerHeights(t *testing.T) {
	for _, independent := range []bool{false, true} {
		c := NewChassis(2900, End{Track: 1480, Loaded: 320, FrameHeight: 300, Independent: independent},
			End{Track: 1500, Loaded: 340, FrameHeight: 340, Independent: independent})
		st := State{FL: -80, FR: -40, RL: 10, RR: -60}
		for on, h := range map[Carrier]float64{WheelFL: -80, WheelFR: -40, WheelRL: 10, WheelRR: -60} {
			pose := c.Pose(on, st)
			require.InDelta(t, c.Origin(on).Z-h, pose.Apply(c.Origin(on)).Z, exact, "carrier %d independent %v", on, independent)
		}
	}
}

// Steering to the right carries the front of both front tyres to the right
// (+Y) and leaves the rear ones: the sign the document promises.
func TestSteerRight(t *testing.T) {
	c := plain()
	for _, on := range []Carrier{WheelFL, WheelFR} {
		pose := c.Pose(on, State{Steer: 30 * math.Pi / 180})
		front := pose.Apply(c.Origin(on).Add(geom.V(-320, 0, 0)))
		require.InDelta(t, c.Origin(on).Y+160, front.Y, exact) // 320·sin 30°
	}
	rear := c.Pose(WheelRL, State{Steer: 0.5})
	require.Equal(t, geom.Still, rear)
}

// Every pose is rigid: lengths and the handedness of axes stay.
func TestPosesAreRigid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := plain()
		g := rapid.Float64Range(-150, 150)
		st := State{g.Draw(t, "fl"), g.Draw(t, "fr"), g.Draw(t, "rl"), g.Draw(t, "rr"), rapid.Float64Range(-0.6, 0.6).Draw(t, "steer")}
		pose := c.Pose(Carrier(rapid.IntRange(0, int(Ground)).Draw(t, "carrier")), st)
		x, y, z := pose.R.Apply(geom.V(1, 0, 0)), pose.R.Apply(geom.V(0, 1, 0)), pose.R.Apply(geom.V(0, 0, 1))
		require.InDelta(t, 1, x.Cross(y).Dot(z), exact)
		require.InDelta(t, 0, x.Dot(y)+y.Dot(z)+z.Dot(x), exact)
		require.InDelta(t, 3, x.Len()+y.Len()+z.Len(), exact)
	})
}

// The ground carries what stands on it: a point of the ground at ride is a
// point of the ground in every state.
func TestGroundBorne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := plain()
		g := rapid.Float64Range(-150, 150)
		st := State{FL: g.Draw(t, "fl"), FR: g.Draw(t, "fr"), RL: g.Draw(t, "rl"), RR: g.Draw(t, "rr")}
		n, off := c.GroundPlane(State{})
		p := geom.V(rapid.Float64Range(-500, 3500).Draw(t, "x"), rapid.Float64Range(-900, 900).Draw(t, "y"), 0)
		p.Z = -(off + n.Dot(p)) / n.Z
		pose := c.Pose(Ground, st)
		require.InDelta(t, 0, height(c, st, pose.Apply(p)), exact)
	})
}
