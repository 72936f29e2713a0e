package motion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
)

// kept (mm) is what is promised of bar lengths at nodes.
const kept = geom.Tiny

var heave = Travel{Low: -120, High: 80}

// at is a state with both corners of both ends at one height.
func at(h float64) State { return State{FL: h, FR: h, RL: h, RR: h} }

func solved(t require.TestingT, u *hung, x, y float64) geom.Pose {
	n := u.beyond(x, y)
	return n.pose(u.s.origin, false)
}

func samePose(t require.TestingT, want, got geom.Pose, within float64) {
	for _, p := range []geom.Vec{{}, {X: 1000}, {Y: 1000}, {Z: 1000}, {X: 3000, Y: -500, Z: 300}} {
		require.InDelta(t, 0, want.Apply(p).Dist(got.Apply(p)), within, "at %v: want %v, got %v", p, want.Apply(p), got.Apply(p))
	}
}

// Four equal parallel links carry the axle round a circle without turning it:
// at a height h the axle stands L − √(L² − h²) nearer the body's ends (the
// parallelogram of plane geometry).
func TestParallelLinksOnTheirCircle(t *testing.T) {
	l := parallel()
	l.Bars, l.Straight = l.Bars[:4], true
	c := level(false)
	require.NoError(t, c.Suspend(RearEnd, l, heave))
	for h := -120.0; h <= 80; h += 10 {
		want := geom.Pose{R: geom.Identity, P: geom.V(math.Sqrt(600*600-h*h)-600, 0, -h)}
		samePose(t, want, solved(t, c.hung[RearEnd], h, 0), kept)
		samePose(t, want, c.Pose(RearAxle, at(h)), 1e-4)
	}
}

// A level Panhard bar of length B pulls the axle sideways by B − √(B² − h²)
// (Pythagoras), a little more as the links also swing fore and aft: with e and
// s the shifts along and across, e = L − √(L² − h² − s²) and
// s = B − √(B² − h² − e²), which repeated substitution solves.
func TestPanhardBarSideways(t *testing.T) {
	c := level(false)
	require.NoError(t, c.Suspend(RearEnd, parallel(), heave))
	for h := -120.0; h <= 80; h += 10 {
		e, s := 0.0, 0.0
		for range 50 {
			e = 600 - math.Sqrt(600*600-h*h-s*s)
			s = 900 - math.Sqrt(900*900-h*h-e*e)
		}
		samePose(t, geom.Pose{R: geom.Identity, P: geom.V(-e, s, -h)}, solved(t, c.hung[RearEnd], h, 0), 1e-7)
		require.InDelta(t, 900-math.Sqrt(900*900-h*h), s, 0.1)
	}
}

// The middle of a Watt's crank runs along Watt's curve. In polar coordinates
// about the middle of the two fixed ends, with a half their distance, b the
// bars' length and c half the crank's,
// r² = b² − (a·sin θ ± √(c² − a²·cos² θ))²
// (Lockwood, A Book of Curves, 1961, and every encyclopaedia). The links' swing
// fore and aft by e shortens both bars in the plane of the curve to √(b² − e²).
// Near the middle the curve is straight to the third order: at twice the height
// it has strayed eight times as far at least.
func TestWattsCurve(t *testing.T) {
	for _, onBody := range []bool{false, true} {
		c := level(false)
		require.NoError(t, c.Suspend(RearEnd, watts(onBody), heave))
		u := c.hung[RearEnd]
		for h := -120.0; h <= 80; h += 10 {
			p := solved(t, u, h, 0).P
			if h == 0 {
				require.Equal(t, geom.Vec{}, p)
				continue
			}
			y, z := p.Y, p.Z
			if onBody { // seen from the axle, the pivot moves the other way
				y, z = -y, -z
			}
			tilt := math.Atan2(-100, 500) // of the line through the fixed ends
			a, b2, cc := math.Hypot(500, 100), 500*500-p.X*p.X, 100.0
			th := math.Atan2(z, y) - tilt
			root := math.Sqrt(cc*cc - a*a*math.Cos(th)*math.Cos(th))
			least := math.Inf(1)
			for _, sign := range []float64{1, -1} {
				d := a*math.Sin(th) + sign*root
				least = math.Min(least, math.Abs(y*y+z*z-(b2-d*d)))
				d = -a*math.Sin(th) + sign*root
				least = math.Min(least, math.Abs(y*y+z*z-(b2-d*d)))
			}
			require.InDelta(t, 0, least, 1e-3, "h %v", h) // mm²: a millionth of a millimetre at 1000 mm
			require.Less(t, math.Abs(p.Y), 0.5)
		}
		s20, s40 := solved(t, u, 20, 0).P.Y, solved(t, u, 40, 0).P.Y
		require.Less(t, math.Abs(s20), 1e-3)
		require.Greater(t, s40/s20, 8*0.99)
	}
}

// Bars that are the mirror image of each other hold the axle in the middle
// while both corners rise alike.
func TestTriangulatedLinksStayInTheMiddle(t *testing.T) {
	c := level(false)
	require.NoError(t, c.Suspend(RearEnd, triangulated(), heave))
	for h := -120.0; h <= 80; h += 10 {
		p := solved(t, c.hung[RearEnd], h, 0)
		mid := p.Apply(geom.V(3000, 0, 40))
		require.InDelta(t, 0, mid.Y, kept)
		require.InDelta(t, 1, p.R.Y.Y, kept)
	}
}

// An arm that turns about a line across the vehicle carries the wheel round a
// circle about that line: sin of its turn = height / radius.
func TestTrailingArmTurnsAboutItsPivot(t *testing.T) {
	c := level(true)
	require.NoError(t, c.Suspend(RearEnd, trailing(), heave))
	for h := -120.0; h <= 80; h += 10 {
		want := about(geom.V(2500, 0, 40), geom.Turn(0, math.Asin(h/500), 0))
		samePose(t, want, solved(t, c.hung[RearEnd], h, 0), 1e-7)
		samePose(t, want, c.Pose(WheelRR, at(h)), 1e-3)
	}
}

// planar is a wheel whose arms turn about lines along X, so that it moves in
// its plane across the vehicle: the tie rod is a copy of the lower arm. Points
// are (y, z): pivots in body axes, ball joints from the wheel's centre.
func planar(upperPivot, upperJoint, lowerPivot, lowerJoint [2]float64) *Linkage {
	arm := func(x float64, p, j [2]float64) Bar { return bar("", x, p[0], p[1], 0, j[0], j[1]) }
	return &Linkage{Tie: 4, Bars: []Bar{
		arm(-120, upperPivot, upperJoint), arm(120, upperPivot, upperJoint),
		arm(-150, lowerPivot, lowerJoint), arm(150, lowerPivot, lowerJoint),
		bar("tie rod", 130, lowerPivot[0], lowerPivot[1], 130, lowerJoint[0], lowerJoint[1]),
	}}
}

type flat struct{ y, z float64 }

func (a flat) add(b flat) flat      { return flat{a.y + b.y, a.z + b.z} }
func (a flat) sub(b flat) flat      { return flat{a.y - b.y, a.z - b.z} }
func (a flat) len() float64         { return math.Hypot(a.y, a.z) }
func (a flat) angle() float64       { return math.Atan2(a.z, a.y) }
func polar(r, angle float64) flat   { return flat{r * math.Cos(angle), r * math.Sin(angle)} }
func (a flat) turn(by float64) flat { return polar(a.len(), a.angle()+by) }

// circles is the intersection of two circles that lies to the left of the way
// from the first centre to the second (law of cosines).
func circles(c flat, r float64, d flat, s float64) flat {
	w := d.sub(c)
	return c.add(polar(r, w.angle()+math.Acos((r*r+w.len()*w.len()-s*s)/(2*r*w.len()))))
}

// Two wishbones in one plane are a four-bar linkage: turning the lower arm, the
// upper ball joint lies where the circle of the upper arm meets that of the
// knuckle. The lean of the knuckle is the camber.
func TestWishbonesAreAFourBar(t *testing.T) {
	centre := flat{-750, 40}
	up, uj, lp, lj := flat{-430, 190}, flat{120, 150}, flat{-350, -45}, flat{90, -110}
	c := level(true)
	require.NoError(t, c.Suspend(FrontEnd, planar([2]float64{up.y, up.z}, [2]float64{uj.y, uj.z}, [2]float64{lp.y, lp.z}, [2]float64{lj.y, lj.z}), heave))
	b0, u0 := centre.add(lj), centre.add(uj)
	for turn := -0.20; turn <= 0.25; turn += 0.05 {
		b := lp.add(b0.sub(lp).turn(turn))
		u := circles(b, u0.sub(b0).len(), up, u0.sub(up).len())
		if turn == 0 {
			require.InDelta(t, 0, u.sub(u0).len(), 1e-9, "the branch is the right one")
		}
		camber := u.sub(b).angle() - u0.sub(b0).angle()
		now := b.sub(lj.turn(camber))
		h := centre.z - now.z
		if h < heave.Low || h > heave.High {
			continue
		}
		want := geom.Pose{R: geom.Turn(camber, 0, 0)}
		want.P = geom.V(0, now.y, now.z).Sub(want.R.Apply(geom.V(0, centre.y, centre.z)))
		samePose(t, want, solved(t, c.hung[FrontEnd], h, 0), 1e-7)
		samePose(t, want, c.Pose(WheelFL, at(h)), 0.01)
	}
}

// A strut in one plane: with the ball joint B on the lower arm's circle, the
// strut's axis goes through the top mount T at a constant distance d from B, so
// that it makes the angle asin(d/|TB|) with TB.
func TestStrutTouchesItsCircle(t *testing.T) {
	centre, top := flat{-750, 40}, flat{-560, 560}
	low, lp, lj := flat{110, 60}, flat{-350, -45}, flat{90, -110}
	l := &Linkage{Tie: 2, Slide: &Slide{Top: geom.V(0, top.y, top.z), Low: geom.V(0, low.y, low.z)}, Bars: []Bar{
		bar("", -150, lp.y, lp.z, 0, lj.y, lj.z), bar("", 150, lp.y, lp.z, 0, lj.y, lj.z),
		bar("tie rod", 130, lp.y, lp.z, 130, lj.y, lj.z),
	}}
	c := level(true)
	require.NoError(t, c.Suspend(FrontEnd, l, heave))
	b0 := centre.add(lj)
	axis0 := centre.add(low).sub(top)
	side := axis0.y*(b0.z-top.z) - axis0.z*(b0.y-top.y) // twice the triangle: its sign says on which side B lies
	d := side / axis0.len()
	lean := func(b flat) float64 { w := b.sub(top); return w.angle() - math.Asin(d/w.len()) }
	require.InDelta(t, axis0.angle(), lean(b0), 1e-12)
	checked := 0
	for turn := -0.30; turn <= 0.30; turn += 0.05 {
		b := lp.add(b0.sub(lp).turn(turn))
		camber := lean(b) - lean(b0)
		now := b.sub(lj.turn(camber))
		h := centre.z - now.z
		if h < heave.Low || h > heave.High {
			continue
		}
		checked++
		want := geom.Pose{R: geom.Turn(camber, 0, 0)}
		want.P = geom.V(0, now.y, now.z).Sub(want.R.Apply(geom.V(0, centre.y, centre.z)))
		samePose(t, want, solved(t, c.hung[FrontEnd], h, 0), 1e-7)
	}
	require.Greater(t, checked, 5)
}

// At the nodes of linkages with as many bars as freedoms every bar is as long
// as at ride, to a millionth of a thousandth; and every bar's ends stand where
// the pose says.
func TestBarsKeepTheirLengths(t *testing.T) {
	for i := range examples {
		e := &examples[i]
		_, u := e.hang(t, wide)
		for k := range u.nodes {
			st := &u.nodes[k]
			if u.s.spare() {
				require.Less(t, st.worst, 0.01, e.name)
				continue
			}
			p := u.s.place(&st.u, &st.d)
			for b := range u.s.l.Bars {
				from, to := u.s.ends(&p, b)
				require.InDelta(t, u.s.length[b], from.Dist(to), kept, "%s bar %d", e.name, b)
			}
			if sl := u.s.l.Slide; sl != nil {
				w := p.r.ApplyT(sl.Top.Sub(p.o)).Sub(sl.Low)
				axis := sl.Top.Sub(u.s.origin.Add(sl.Low)).Unit()
				require.InDelta(t, 0, w.Cross(axis).Len(), kept, e.name)
			}
		}
	}
}

// A linkage and its mirror image move as mirror images; so do the two wheels
// of an end.
func TestMirrorImages(t *testing.T) {
	flip := func(v geom.Vec) geom.Vec { return geom.V(v.X, -v.Y, v.Z) }
	rapid.Check(t, func(t *rapid.T) {
		e := &examples[rapid.IntRange(0, len(examples)-1).Draw(t, "linkage")]
		jig := rapid.Float64Range(-15, 15)
		l := e.l()
		for i := range l.Bars {
			if l.Crank == nil || i < l.Crank.First {
				l.Bars[i].To = l.Bars[i].To.Add(geom.V(jig.Draw(t, "x"), jig.Draw(t, "y"), jig.Draw(t, "z")))
			}
		}
		h, k := rapid.Float64Range(-100, 70).Draw(t, "left"), rapid.Float64Range(-10, 10).Draw(t, "more")
		steer := rapid.Float64Range(-0.4, 0.4).Draw(t, "steer")
		c := level(e.alone)
		require.NoError(t, c.Suspend(e.end, l, wide))
		p := geom.V(rapid.Float64Range(-1000, 4000).Draw(t, "px"), rapid.Float64Range(-1000, 1000).Draw(t, "py"), 200)
		a, b := State{FL: h, FR: h + k, RL: h, RR: h + k, Steer: steer}, State{FL: h + k, FR: h, RL: h + k, RR: h, Steer: -steer}
		left, right, d := WheelFL, WheelFR, c
		if e.end == RearEnd {
			left, right = WheelRL, WheelRR
		}
		if !e.alone {
			m := e.l()
			for i := range m.Bars {
				m.Bars[i] = Bar{From: flip(l.Bars[i].From), To: flip(l.Bars[i].To)}
			}
			d = level(false)
			require.NoError(t, d.Suspend(e.end, m, wide))
		}
		one, other := c.Pose(left, a), d.Pose(right, b)
		require.InDelta(t, 0, flip(one.Apply(p)).Dist(other.Apply(flip(p))), 1e-3)
	})
}

// Straight ahead and at ride height, a wheel is steered by what the state
// says; at other heights the tie rod turns it, unless it swings about the same
// line as the arms.
func TestSteerIsThatAtRide(t *testing.T) {
	plan := func(p geom.Pose) float64 { a := p.R.AxisY(); return math.Atan2(a.X, a.Y) }
	for _, l := range []*Linkage{wishbones(), strut()} {
		c := level(true)
		require.NoError(t, c.Suspend(FrontEnd, l, wide))
		for s := -30.0; s <= 30; s += 5 {
			for _, on := range []Carrier{WheelFL, WheelFR} {
				require.InDelta(t, s*degree, plan(c.Pose(on, State{Steer: s * degree})), 1e-6)
			}
		}
		bump := plan(c.Pose(WheelFL, at(-80)))
		require.Greater(t, math.Abs(bump), 0.05*degree)
		require.InDelta(t, -bump, plan(c.Pose(WheelFR, at(-80))), 1e-9)
	}
}
