package fitment

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/scene"
)

// hang puts an end of a document on the template of a kind.
func hang(doc *scene.Document, end, kind string) {
	e := &doc.Vehicle.Front
	if end == "rear" {
		e = &doc.Vehicle.Rear
	}
	e.Independent = scene.SuspensionKindNamed(kind).Alone
	e.Suspension = scene.SuspensionTemplate(kind, &doc.Vehicle, end)
}

// Every template holds its end at both ends of the new vehicle and of the test
// bench, over their travel and with roll, does not lock, and gives little in
// its bushings.
func TestTemplatesWork(t *testing.T) {
	for _, k := range scene.SuspensionKinds() {
		for _, end := range []string{"front", "rear"} {
			for _, doc := range []*scene.Document{bench(), scene.New()} {
				doc.Vehicle.Front.CrossMM, doc.Vehicle.Rear.CrossMM = 60, 60
				doc.Vehicle.Front.SteerDeg = 35
				hang(doc, end, k.Name)
				m := compile(t, doc)
				for _, r := range m.Suspension() {
					if r.End != end {
						require.Equal(t, scene.Guide, r.Kind)
						continue
					}
					require.Equal(t, k.Name, r.Kind)
					require.Equal(t, k.Name == scene.LeafSprings, r.Approximate)
					require.Nil(t, r.LockedLowMM)
					require.Nil(t, r.LockedHighMM)
					require.Less(t, r.BindMM, 2.0, "%s %s", end, k.Name)
					if r.BindMM < noteworthyBindMM {
						require.Empty(t, r.Why, "%s %s", end, k.Name)
					}
				}
			}
		}
	}
}

// The tie rods of the templates lie so that a wheel steers itself by less than
// a quarter of a degree over the travel.
func TestTemplatesHardlySteerThemselves(t *testing.T) {
	for _, kind := range []string{scene.DoubleWishbone, scene.Strut} {
		doc := scene.New()
		hang(doc, "front", kind)
		m := compile(t, doc)
		for h := -90.0; h <= 70; h += 10 {
			p := m.ch.Pose(motion.WheelFL, StateAt(h, 0).motion())
			axis := p.R.AxisY()
			require.Less(t, math.Abs(math.Atan2(axis.X, axis.Y)), rad(0.25), "%s at %v", kind, h)
		}
	}
}

// Bars keep their length in every state, but for what the bushings give; the
// ends on the body stay, but for the rack's; and both ends are where the
// document says at ride.
func TestBarsKeepTheirLengths(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(scene.SuspensionKinds()[1:]).Draw(t, "kind")
		end := rapid.SampledFrom([]string{"front", "rear"}).Draw(t, "end")
		doc := bench()
		doc.Vehicle.Front.SteerDeg = 30
		doc.Vehicle.Front.CrossMM, doc.Vehicle.Rear.CrossMM = 50, 50
		hang(doc, end, kind.Name)
		m, err := Compile(doc)
		require.NoError(t, err)
		bind := 0.0
		for _, r := range m.Suspension() {
			bind = max(bind, r.BindMM)
		}
		ride, st := m.Bars(State{}), sampledState(m, rapid.IntRange(0, 5000).Draw(t, "state"))
		for i, l := range m.Bars(st) {
			require.Equal(t, end, l.End)
			require.Equal(t, ride[i].Name, l.Name)
			was, is := vec(ride[i].From).Dist(vec(ride[i].To)), vec(l.From).Dist(vec(l.To))
			if kind.Name == scene.Strut && strings.HasPrefix(l.Name, "Strut") {
				continue // it slides
			}
			require.InDelta(t, was, is, bind+0.01, l.Name)
			switch {
			case strings.HasPrefix(l.Name, "Tie rod"):
				require.InDelta(t, 0, math.Abs(l.From[0]-ride[i].From[0])+math.Abs(l.From[2]-ride[i].From[2]), near)
			case strings.HasPrefix(l.Name, "Watt's link, crank"):
			default:
				require.Equal(t, ride[i].From, l.From)
			}
		}
		e := doc.Vehicle.Front
		if end == "rear" {
			e = doc.Vehicle.Rear
		}
		for i, b := range e.Suspension.Bars {
			if kind.Name == scene.Strut {
				i = (i + len(e.Suspension.Bars) - 1) % len(e.Suspension.Bars) // the strut comes last
			}
			l := ride[i]
			require.Equal(t, b.Name, l.Name)
			if kind.Name != scene.LeafSprings {
				require.InDelta(t, 0, vec(b.BodyMM).Dist(vec(l.From)), 1e-6)
			}
		}
	})
}

// A leaf's seat runs on the circle of a bar of three quarters of the fixed
// half's length (from memory), and stays level: closed form of the circle.
func TestLeafSeatOnItsCircle(t *testing.T) {
	doc := bench()
	hang(doc, "rear", scene.LeafSprings)
	for i := range doc.Vehicle.Rear.Suspension.Bars {
		b := &doc.Vehicle.Rear.Suspension.Bars[i]
		b.BodyMM[2] = b.CarriedMM[2] // wheel centres lie at the frame datum: level at ride
		b.BodyMM[0] = 3000 - 800
	}
	m := compile(t, doc)
	for h := -120.0; h <= 60; h += 20 {
		p := m.ch.Pose(motion.RearAxle, StateAt(0, h).motion())
		require.InDelta(t, math.Sqrt(600*600-h*h)-600, p.P.X, near)
		require.InDelta(t, 1, p.R.X.X, 1e-9)
		require.InDelta(t, 0, p.P.Y, 1e-9)
	}
}

// A suspension that leaves something loose is told by its end, in one line.
func TestLooseSuspensionIsNamed(t *testing.T) {
	doc := bench()
	hang(doc, "rear", scene.TriangulatedFourLink)
	for i := range doc.Vehicle.Rear.Suspension.Bars {
		b := &doc.Vehicle.Rear.Suspension.Bars[i]
		b.CarriedMM[1] = b.BodyMM[1]
	}
	require.NoError(t, doc.Validate())
	_, err := Compile(doc)
	require.EqualError(t, err, "rear suspension: nothing holds the axle against moving sideways")
}

// An upper arm of 70 comes in line with the knuckle within the travel; that is
// said, and what is checked stays short of it.
func TestTravelEndsWhereTheSuspensionLocks(t *testing.T) {
	doc := bench(block("tail", scene.RearAxle, scene.Vec{0, 0, 300}, 50, 50, 50))
	hang(doc, "rear", scene.DoubleWishbone)
	doc.Parts[0].Carrier = scene.WheelRL
	s := doc.Vehicle.Rear.Suspension
	for i := 0; i < 2; i++ {
		s.Bars[i].BodyMM = scene.Vec{s.Bars[i].BodyMM[0], -750 + 110 + 70, s.Bars[i].BodyMM[2]}
	}
	m := compile(t, doc)
	r := m.Suspension()[1]
	require.True(t, r.LockedHighMM != nil || r.LockedLowMM != nil, "%+v", r)
	require.Contains(t, r.Why, "it locks")
	require.Contains(t, r.Why, "it is checked from")
	_, _, lo, hi := m.Travel()
	require.Equal(t, [2]float64{r.LowMM, r.HighMM}, [2]float64{lo, hi})
	require.True(t, lo > -120 || hi < 60)
	m.Check()
	if r.LockedLowMM != nil { // beyond the lock the wheel stays where it locked
		a, b := m.WheelCentre(scene.WheelRL, StateAt(0, *r.LockedLowMM)), m.WheelCentre(scene.WheelRL, StateAt(0, *r.LockedLowMM-30))
		require.InDelta(t, 0, vec(a).Dist(vec(b)), 0.01)
	}
}

// The running gear is solved once for a vehicle: an edit of a part keeps it,
// and so does a vehicle that reads the same.
func TestSuspensionIsSolvedOnce(t *testing.T) {
	doc := bench(block("a", scene.Body, scene.Vec{}, 100, 100, 100))
	hang(doc, "rear", scene.FourLinkPanhard)
	m := compile(t, doc)
	next, err := scene.Decode(scene.Encode(doc))
	require.NoError(t, err)
	next.Parts[0].AtMM[0] = 50
	n, err := m.With(next)
	require.NoError(t, err)
	require.Same(t, m.ch, n.ch)
	other, _, err := scene.SetField(next, "vehicle", "rear/suspension/bars/0/body_mm/2", "-65 mm")
	require.NoError(t, err)
	o, err := n.With(other)
	require.NoError(t, err)
	require.NotSame(t, n.ch, o.ch)
}

// carriedPoint is a point of a carrier in a state of the box.
func carriedPoint(m *Model, on motion.Carrier, p *whole, v geom.Vec) geom.Vec {
	pose := m.ch.Pose(on, m.box.state(p).motion())
	return pose.Apply(v)
}

// What a mobility promises holds: by small steps in each parameter, at random
// states away from its corners, no point within reach moves faster along any
// axis, nor bends more.
func TestMobilityHolds(t *testing.T) {
	const d = 2e-3
	tight := 0.0
	rapid.Check(t, func(t *rapid.T) {
		doc := bench()
		doc.Vehicle.Front.SteerDeg = 30
		doc.Vehicle.Front.CrossMM = float64(rapid.IntRange(0, 1).Draw(t, "front cross") * 60)
		doc.Vehicle.Rear.CrossMM = float64(rapid.IntRange(0, 1).Draw(t, "rear cross") * 60)
		for _, end := range []string{"front", "rear"} {
			hang(doc, end, rapid.SampledFrom(scene.SuspensionKinds()).Draw(t, end).Name)
		}
		m, err := Compile(doc)
		require.NoError(t, err)
		on := motion.Carrier(rapid.IntRange(int(motion.FrontAxle), int(motion.Ground)).Draw(t, "carrier"))
		c := rapid.Float64Range(-500, 500)
		v := m.ch.Origin(on).Add(geom.V(c.Draw(t, "x"), c.Draw(t, "y"), c.Draw(t, "z")))
		reach := func(p geom.Vec) geom.Vec { return away(v, p) }
		mob := m.carried(on, reach)
		if on == motion.Ground {
			m.grounded(&mob, v.Len())
		}
		p := sampledParams(m, rapid.IntRange(0, 9999).Draw(t, "state"))
		for i := 0; i < paramCount; i++ {
			if m.box.half(i) == 0 || atCorner(m, &p, i, 2*d) {
				continue
			}
			a, b := p, p
			a[i], b[i] = p[i]-d, p[i]+d
			pa, pm, pb := carriedPoint(m, on, &a, v), carriedPoint(m, on, &p, v), carriedPoint(m, on, &b, v)
			rate := pb.Sub(pa).Scale(1 / (2 * d))
			bend := pa.Add(pb).AddScaled(pm, -2).Len() / (d * d)
			most := mob.by[i].Add(geom.V(mob.any[i], mob.any[i], mob.any[i]))
			require.LessOrEqual(t, math.Abs(rate.X), most.X+1e-6, "parameter %d of carrier %d: %v, %v", i, on, rate, mob.by[i])
			require.LessOrEqual(t, math.Abs(rate.Y), most.Y+1e-6, "parameter %d of carrier %d: %v, %v", i, on, rate, mob.by[i])
			require.LessOrEqual(t, math.Abs(rate.Z), most.Z+1e-6, "parameter %d of carrier %d: %v, %v", i, on, rate, mob.by[i])
			require.LessOrEqual(t, rate.Len(), mob.rate(i)+1e-6)
			require.LessOrEqual(t, bend, mob.curve[i]+2e-6, "parameter %d of carrier %d", i, on)
			if mob.uses[i] = mob.rate(i) > 0; mob.uses[i] {
				tight = max(tight, rate.Len()/mob.rate(i))
			}
		}
	})
	require.Greater(t, tight, 0.8)
}

// sampledParams is sampledState as parameters.
func sampledParams(m *Model, k int) (p whole) {
	for i, a := range [paramCount]float64{0.8566748838545029, 0.733891856627126, 0.6287067210378087, 0.5385972572236101, 0.4614018} {
		_, f := math.Modf(float64(k)*a + 0.5)
		p[i] = m.box.lo[i] + f*(m.box.hi[i]-m.box.lo[i])
	}
	return p
}

// atCorner: a step there would go over the end of the range, or over a corner
// of the motion.
func atCorner(m *Model, p *whole, i int, d float64) bool {
	for _, at := range append(m.box.corners(i), m.box.lo[i], m.box.hi[i]) {
		if math.Abs(p[i]-at) < d {
			return true
		}
	}
	return false
}

// Whatever bars a file has, there is an error in one line that names the end,
// or poses that are rigid and finite in every state, with the corners at their
// heights.
func TestAnyBars(t *testing.T) {
	held, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		doc := bench()
		doc.Vehicle.Front.SteerDeg = 45
		doc.Vehicle.Front.CrossMM, doc.Vehicle.Rear.CrossMM = 200, 200
		end := rapid.SampledFrom([]string{"front", "rear"}).Draw(t, "end")
		hang(doc, end, rapid.SampledFrom(scene.SuspensionKinds()[1:]).Draw(t, "kind").Name)
		e := doc.Vehicle.Front
		if end == "rear" {
			e = doc.Vehicle.Rear
		}
		wild := rapid.SampledFrom([]float64{30, 150, 700}).Draw(t, "wild")
		jig := rapid.Float64Range(-wild, wild)
		for i := range e.Suspension.Bars {
			for k := 0; k < 3; k++ {
				e.Suspension.Bars[i].BodyMM[k] += jig.Draw(t, "body")
				e.Suspension.Bars[i].CarriedMM[k] += jig.Draw(t, "carried")
			}
		}
		if doc.Validate() != nil {
			return
		}
		all++
		m, err := Compile(doc)
		if err != nil {
			require.True(t, strings.HasPrefix(err.Error(), end+" suspension: ") && !strings.Contains(err.Error(), "\n"), "%v", err)
			return
		}
		held++
		m.Suspension()
		st := sampledState(m, rapid.IntRange(0, 9999).Draw(t, "state"))
		for on, h := range map[motion.Carrier]float64{motion.WheelFL: st.FL, motion.WheelFR: st.FR, motion.WheelRL: st.RL, motion.WheelRR: st.RR} {
			p := m.ch.Pose(on, st.motion())
			require.InDelta(t, m.ch.Origin(on).Z-h, p.Apply(m.ch.Origin(on)).Z, 0.01)
			require.InDelta(t, 1, p.R.AxisX().Cross(p.R.AxisY()).Dot(p.R.AxisZ()), 1e-9)
		}
		for _, l := range m.Bars(st) {
			require.True(t, vec(l.From).Finite() && vec(l.To).Finite())
		}
		n, c := m.GroundPlane(StateAt(-500, 500)) // far outside
		require.True(t, vec(n).Finite() && !math.IsNaN(c))
	})
	require.Greater(t, held*10, all*3)
}

// A spring whose foot stands on a wheel that steers swings with it: no state of
// the travel brings it nearer to a post than its bound, on a guide or a linkage.
func TestSpringOnASteeredWheel(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		offset := rapid.Float64Range(-120, 120)
		spring := part("spring", "air_spring", scene.Body, scene.Vec{offset.Draw(t, "x") / 4, -640, 260}, nil)
		for name, v := range map[string]float64{"lower_x_mm": offset.Draw(t, "lx"), "lower_y_mm": 110, "lower_z_mm": 40} {
			spring.Size[name] = scene.Value{Num: v}
		}
		spring.Size["lower_on"] = scene.Value{Text: "wheel_fl"}
		doc := bench(spring, block("post", scene.Body, scene.Vec{rapid.Float64Range(100, 260).Draw(t, "post"), -640 + offset.Draw(t, "py"), 150}, 60, 60, 200))
		doc.Vehicle.Front.SteerDeg = 30
		hang(doc, "front", rapid.SampledFrom(scene.SuspensionKinds()).Draw(t, "kind").Name)
		m, err := Compile(doc)
		require.NoError(t, err)
		r := m.Check()
		require.Zero(t, r.Summary.Undecided)
		for k := 0; k < 100; k++ {
			g, err := m.GapBetween("spring", "post", sampledState(m, k))
			require.NoError(t, err)
			if len(r.Findings) > 0 {
				require.GreaterOrEqual(t, g.GapMM, r.Findings[0].BoundMM-near)
			} else {
				require.GreaterOrEqual(t, g.GapMM, g.NeedMM-2*near)
			}
		}
	})
}

// BenchmarkCompileSuspensions: a vehicle with both ends on linkages, every grid
// solved anew.
func BenchmarkCompileSuspensions(b *testing.B) {
	doc := bench()
	doc.Vehicle.Front.SteerDeg, doc.Vehicle.Rear.CrossMM = 35, 80
	hang(doc, "front", scene.DoubleWishbone)
	hang(doc, "rear", scene.FourLinkWatts)
	for b.Loop() {
		if _, err := Compile(doc); err != nil {
			b.Fatal(err)
		}
	}
}
