package motion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/geom"
)

// What a linkage leaves loose is named.
func TestLooseLinkages(t *testing.T) {
	without := func(l *Linkage, i int) *Linkage {
		l.Bars = append(append([]Bar(nil), l.Bars[:i]...), l.Bars[i+1:]...)
		return l
	}
	flat := triangulated() // upper bars that run straight ahead hold nothing sideways
	for i := range flat.Bars {
		flat.Bars[i].From.Y = flat.Bars[i].To.Y
	}
	pinned := parallel() // every link at the height of the axle's middle
	for i := 0; i < 4; i++ {
		pinned.Bars[i].From.Z, pinned.Bars[i].To.Z = 40, 0
	}
	pinned.Bars[4].From.Z, pinned.Bars[4].To.Z = 40, 0
	together := parallel() // all links in one upright plane
	for i := range together.Bars[:4] {
		together.Bars[i].From.Y, together.Bars[i].To.Y = 0, 0
	}
	arms := wishbones() // an arm that is one bar
	arms.Bars[1] = arms.Bars[0]
	rod := wishbones() // a tie rod through the line the wheel is steered about
	rod.Bars[4].To = geom.V(0, 100, 20)
	cases := []struct {
		end   Which
		alone bool
		l     *Linkage
		says  string
	}{
		{RearEnd, false, flat, "nothing holds the axle against moving sideways"},
		{RearEnd, false, pinned, "nothing holds the axle against winding up about its own axis"},
		{RearEnd, false, together, "nothing holds the axle against turning askew in plan"},
		{RearEnd, false, without(triangulated(), 3), "3 bars cannot hold what has 4 ways to move"},
		{FrontEnd, true, rod, "nothing holds the wheel against steering itself"},
		{FrontEnd, true, arms, "nothing holds the wheel against"},
	}
	for _, c := range cases {
		ch := level(c.alone)
		err := ch.Suspend(c.end, c.l, wide)
		require.ErrorContains(t, err, c.says)
		_, ok := ch.Limits(c.end)
		require.False(t, ok)
	}
}

// The knuckle hangs with its lower joint at the wheel's centre, so that the
// height is that joint's alone. It locks where the upper arm (length a) and the
// knuckle (length k) come into one line: the lower joint then lies a + k from
// the upper pivot, on the circle of the lower arm (closed form: the two
// circles' intersection).
func TestLockWhereLinksComeStraight(t *testing.T) {
	centre := flat{-750, 40}
	up, uj, lp := flat{-500, 190}, flat{60, 130}, flat{-350, 20}
	l := planar([2]float64{up.y, up.z}, [2]float64{uj.y, uj.z}, [2]float64{lp.y, lp.z}, [2]float64{0, 0})
	u0 := centre.add(uj)
	reach := u0.sub(up).len() + uj.len()
	straight := circles(lp, centre.sub(lp).len(), up, reach)
	if straight.z > centre.z {
		straight = circles(up, reach, lp, centre.sub(lp).len())
	}
	// Wheel centre down is body up: the height is how far it has gone down.
	want := centre.z - straight.z
	require.Greater(t, want, 10.0)
	c := level(true)
	require.NoError(t, c.Suspend(FrontEnd, l, Travel{Low: -30, High: want + 80}))
	lim, ok := c.Limits(FrontEnd)
	require.True(t, ok)
	require.True(t, lim.LockedHigh)
	require.False(t, lim.LockedLow)
	require.InDelta(t, want, lim.LockHigh, 1e-5)
	require.InDelta(t, want-lockRoomMM, lim.High, 1e-5)
	require.Equal(t, -30.0, lim.Low)
	u := c.hung[FrontEnd]
	for h := -30.0; h < lim.High; h += 0.7 { // and up to the cut the grid is as good as anywhere
		n := u.beyond(h, 0)
		samePose(t, n.pose(u.s.origin, false), u.pose(h, 0, false), 0.01)
	}
	held := c.Pose(WheelFL, at(want+50)) // beyond the lock it stays there
	require.InDelta(t, centre.z-want, held.Apply(geom.V(0, centre.y, centre.z)).Z, 1e-4)
}

// With an upright line between the ball joints the wheel is steered in plan:
// the arm's end runs round a circle of radius r, the rod of length l reaches
// from it to the line x = 80 that the rack moves along. The rack is at the end
// of what it can do where its place √(l² − (x−80)²) beside the arm's end is
// furthest out; found here by going round in small steps.
func TestSteeringLock(t *testing.T) {
	l := &Linkage{Tie: 4, Bars: []Bar{
		bar("", -130, -430, 180, 0, 100, 150), bar("", 150, -430, 180, 0, 100, 150),
		bar("", -160, -350, -70, 0, 100, -110), bar("", 180, -350, -70, 0, 100, -110),
		bar("tie rod", 80, -360, 0, 120, 180, -40),
	}}
	lock := func(sign float64) float64 {
		r, start := math.Hypot(120, 80), math.Atan2(80, 120)
		rod := math.Hypot(120-80, -750+180+360)
		rack := func(s float64) float64 { // positive steer turns the arm's end to the left
			x, y := r*math.Cos(start-s), -650+r*math.Sin(start-s)
			return y + math.Sqrt(rod*rod-(x-80)*(x-80))
		}
		for s := 0.0; s < 1.5; s += 1e-4 {
			if rack(sign*(s+1e-4)) > rack(sign*s) != (rack(sign*1e-4) > rack(0)) {
				return s
			}
		}
		return 1.5
	}
	want := math.Min(lock(1), lock(-1))
	require.Less(t, want, 60*degree)
	c := level(true)
	require.NoError(t, c.Suspend(FrontEnd, l, Travel{Low: -10, High: 10, Steer: 60 * degree}))
	lim, _ := c.Limits(FrontEnd)
	require.Less(t, lim.Steer, want)
	require.Greater(t, lim.Steer, want-6*degree) // what is left out: there a millimetre of height steers by degrees
}

// A parallel four-link whose upper links are much shorter than the lower ones
// must bind when one wheel rises alone; what the bushings give is reported, and
// grows with the difference.
func TestBindIsReported(t *testing.T) {
	l := parallel()
	for i := 2; i < 4; i++ {
		l.Bars[i].From.X = 2750
	}
	bind := func(cross float64) float64 {
		c := level(false)
		require.NoError(t, c.Suspend(RearEnd, l, Travel{Low: -100, High: 60, Cross: cross}))
		lim, _ := c.Limits(RearEnd)
		require.True(t, lim.Spare)
		return lim.Bind
	}
	level, some, more := bind(0), bind(40), bind(80)
	require.Less(t, level, 0.01)
	require.Greater(t, some, 10*level)
	require.Greater(t, more, 1.5*some)
	c := NewChassis(3000, c4(), c4())
	require.NoError(t, c.Suspend(RearEnd, l, Travel{Low: -100, High: 60, Cross: 590}))
	lim, _ := c.Limits(RearEnd)
	require.LessOrEqual(t, lim.Bind, BindLimitMM)
	require.True(t, lim.Cross < 590 || lim.Low > -100 || lim.High < 60, "%+v", lim)
}

func c4() End { return End{Track: 1500, Loaded: 320, FrameHeight: 280} }

// Every pose on a linkage is rigid, and at ride it is exactly that of ride.
func TestLinkagePosesAreRigid(t *testing.T) {
	for i := range examples {
		e := &examples[i]
		c, _ := e.hang(t, wide)
		for _, on := range []Carrier{FrontAxle, RearAxle, WheelFL, WheelFR, WheelRL, WheelRR} {
			require.Equal(t, geom.Still, c.Pose(on, State{}), e.name)
			p := c.Pose(on, State{FL: -60, FR: -30, RL: 20, RR: 50, Steer: 0.3})
			x, y, z := p.R.AxisX(), p.R.AxisY(), p.R.AxisZ()
			require.InDelta(t, 1, x.Cross(y).Dot(z), exact)
			require.InDelta(t, 3, x.Len()+y.Len()+z.Len(), exact)
			require.InDelta(t, 0, math.Abs(x.Dot(y))+math.Abs(y.Dot(z))+math.Abs(z.Dot(x)), exact)
		}
	}
}

// Tyres stand on the ground wherever both corners of each end stand level,
// though the wheels move along and across now.
func TestTyresOnLinkagesStayOnTheGround(t *testing.T) {
	c := level(false)
	require.NoError(t, c.Suspend(RearEnd, parallel(), wide))
	require.NoError(t, c.Suspend(FrontEnd, &Linkage{Tie: -1, Straight: true, Bars: forward(parallel().Bars[:4])}, wide))
	for h := -110.0; h <= 70; h += 30 {
		for k := -110.0; k <= 70; k += 30 {
			st := State{FL: h, FR: h, RL: k, RR: k}
			for _, on := range []Carrier{WheelFL, WheelFR, WheelRL, WheelRR} {
				p := c.Pose(on, st)
				require.InDelta(t, 320, height(c, st, p.Apply(c.Origin(on))), exact)
			}
		}
	}
}

func forward(bars []Bar) []Bar {
	out := append([]Bar(nil), bars...)
	for i := range out {
		out[i].From.X -= 3000
	}
	return out
}

// What lies between the nodes never moves faster, nor bends more, than the
// bounds say: the origin's shift, and a rotation about any axis.
func TestGridBounds(t *testing.T) {
	const d = 1e-3
	for i := range examples {
		e := &examples[i]
		_, u := e.hang(t, wide)
		g, b := u.grid, &u.grid.bounds
		at := func(x, y float64) (geom.Vec, geom.Vec) {
			n := g.at(x, y, poseComps)
			return geom.V(n[0], n[1], n[2]), geom.V(n[3], n[4], n[5])
		}
		tight := 0.0
		for k := 0; k < 400; k++ {
			_, fx := math.Modf(float64(k) * 0.7548776662)
			_, fy := math.Modf(float64(k) * 0.5698402910)
			x := g.xs[0] + 2*d + fx*(g.xs[len(g.xs)-1]-g.xs[0]-4*d)
			y := 0.0
			if len(g.ys) > 1 {
				y = g.ys[0] + 2*d + fy*(g.ys[len(g.ys)-1]-g.ys[0]-4*d)
			}
			t0, r0 := at(x, y)
			t1, r1 := at(x+d, y)
			t2, r2 := at(x-d, y)
			rate := t1.Sub(t2).Scale(1 / (2 * d))
			require.LessOrEqual(t, math.Abs(rate.X), b.Shift[0].X+1e-7)
			require.LessOrEqual(t, math.Abs(rate.Y), b.Shift[0].Y+1e-7)
			require.LessOrEqual(t, r1.Sub(r2).Len()/(2*d), b.Swing[0]+1e-9)
			require.LessOrEqual(t, t1.Add(t2).AddScaled(t0, -2).Len()/(d*d), b.ShiftBend[0]+1e-5)
			require.LessOrEqual(t, r1.Add(r2).AddScaled(r0, -2).Len()/(d*d), b.TurnBend[0]+1e-7)
			require.LessOrEqual(t, r0.Len(), b.Angle)
			tight = math.Max(tight, math.Abs(rate.X)/b.Shift[0].X)
		}
		require.Greater(t, tight, 0.7, "%s: the bounds are far from what happens", e.name)
	}
}

func BenchmarkSuspend(b *testing.B) {
	for i := range examples {
		e := &examples[i]
		b.Run(e.name, func(b *testing.B) {
			for b.Loop() {
				e.hang(b, Travel{Low: -150, High: 100, Cross: 100, Steer: 35 * degree})
			}
		})
	}
}

func BenchmarkPose(b *testing.B) {
	for i := range examples {
		e := &examples[i]
		c, _ := e.hang(b, wide)
		on := WheelRL
		if e.end == FrontEnd {
			on = WheelFL
		}
		st := State{FL: -33, FR: -12, RL: -33, RR: -12, Steer: 0.21}
		b.Run(e.name, func(b *testing.B) {
			for b.Loop() {
				c.Pose(on, st)
			}
		})
	}
	c := level(false)
	b.Run("guide", func(b *testing.B) {
		for b.Loop() {
			c.Pose(RearAxle, State{RL: -33, RR: -12})
		}
	})
}
