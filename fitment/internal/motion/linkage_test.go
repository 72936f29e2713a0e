package motion

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
)

// level is an invented level vehicle: wheel centres 40 over the frame datum,
// 3000 mm wheelbase, 1500 mm tracks.
func level(independent bool) *Chassis {
	e := End{Track: 1500, Loaded: 320, FrameHeight: 280, Independent: independent}
	return NewChassis(3000, e, e)
}

var wide = Travel{Low: -120, High: 80, Cross: 80, Steer: 30 * degree}

const degree = math.Pi / 180

func bar(name string, fx, fy, fz, tx, ty, tz float64) Bar {
	return Bar{Name: name, From: geom.V(fx, fy, fz), To: geom.V(tx, ty, tz)}
}

// parallel is four equal, level, parallel links 600 long and a Panhard bar, on
// the rear axle, whose middle stands at (3000, 0, 40).
func parallel() *Linkage {
	return &Linkage{Tie: -1, Bars: []Bar{
		bar("lower left", 2400, -450, -60, 0, -450, -100),
		bar("lower right", 2400, 450, -60, 0, 450, -100),
		bar("upper left", 2400, -350, 140, 0, -350, 100),
		bar("upper right", 2400, 350, 140, 0, 350, 100),
		bar("Panhard bar", 3100, 480, 60, 100, -420, 20),
	}}
}

// triangulated is a four-link whose upper bars spread toward the body.
func triangulated() *Linkage {
	return &Linkage{Tie: -1, Bars: []Bar{
		bar("lower left", 2420, -450, -60, 0, -500, -90),
		bar("lower right", 2420, 450, -60, 0, 500, -90),
		bar("upper left", 2560, -420, 150, -20, -120, 130),
		bar("upper right", 2560, 420, 150, -20, 120, 130),
	}}
}

// watts is parallel with a Watt's link in the Panhard bar's place: crank ends
// 100 over and under the axle's middle, bars 500 long and level.
func watts(onBody bool) *Linkage {
	l := parallel()
	l.Bars = append(l.Bars[:4], bar("Watt left", 3100, -500, 140, 100, 0, 100), bar("Watt right", 3100, 500, -60, 100, 0, -100))
	l.Crank = &Crank{First: 4}
	if onBody {
		l.Bars[4] = bar("Watt left", 3100, 0, 140, 100, -500, 100)
		l.Bars[5] = bar("Watt right", 3100, 0, -60, 100, 500, -100)
		l.Crank.OnBody = true
	}
	return l
}

// wishbones is a front wheel (left; centre at (0, −750, 40)) on two wishbones
// with a tie rod.
func wishbones() *Linkage {
	return &Linkage{Tie: 4, Bars: []Bar{
		bar("upper front", -130, -430, 180, 10, 120, 150),
		bar("upper rear", 150, -430, 170, 10, 120, 150),
		bar("lower front", -160, -350, -40, -10, 80, -110),
		bar("lower rear", 180, -350, -50, -10, 80, -110),
		bar("tie rod", 140, -360, -10, 130, 100, -70),
	}}
}

// strut is a front wheel on a strut.
func strut() *Linkage {
	return &Linkage{Tie: 2, Slide: &Slide{Name: "strut", Top: geom.V(20, -560, 560), Low: geom.V(0, 110, 60)}, Bars: []Bar{
		bar("lower front", -160, -350, -40, -10, 80, -110),
		bar("lower rear", 180, -350, -50, -10, 80, -110),
		bar("tie rod", 140, -360, -10, 130, 100, -70),
	}}
}

// trailing is a left rear wheel on an arm that turns about the line through
// (2500, y, 40): two points of it, held by five bars.
func trailing() *Linkage {
	return &Linkage{Tie: -1, Bars: []Bar{
		bar("a", 2500, -650, 40, 0, 50, 80), bar("b", 2500, -650, 40, 0, 50, -80), bar("c", 2500, -650, 40, 0, 200, 0),
		bar("d", 2500, -350, 40, 0, 50, 80), bar("e", 2500, -350, 40, 0, 200, 0),
	}}
}

// every is each linkage with whether its wheels move by themselves, by name.
type example struct {
	name  string
	end   Which
	alone bool
	l     func() *Linkage
}

var examples = []example{
	{"parallel", RearEnd, false, parallel},
	{"triangulated", RearEnd, false, triangulated},
	{"watts on the axle", RearEnd, false, func() *Linkage { return watts(false) }},
	{"watts on the body", RearEnd, false, func() *Linkage { return watts(true) }},
	{"wishbones", FrontEnd, true, wishbones},
	{"strut", FrontEnd, true, strut},
	{"trailing", RearEnd, true, trailing},
}

func (e *example) hang(t require.TestingT, tr Travel) (*Chassis, *hung) {
	c := level(e.alone)
	require.NoError(t, c.Suspend(e.end, e.l(), tr), e.name)
	return c, c.hung[e.end]
}

// Between nodes the interpolated motion is within a hundredth of a millimetre
// of the solved one at every point a metre from the carrier's origin, and
// corner heights are as exact.
func TestInterpolation(t *testing.T) {
	for i := range examples {
		e := &examples[i]
		t.Run(e.name, func(t *testing.T) {
			_, u := e.hang(t, wide)
			most, heights := 0.0, 0.0
			rapid.Check(t, func(t *rapid.T) {
				g := u.grid
				x := rapid.Float64Range(g.xs[0], g.xs[len(g.xs)-1]).Draw(t, "height")
				y := rapid.Float64Range(g.ys[0], g.ys[len(g.ys)-1]).Draw(t, "second")
				n := u.beyond(x, y)
				want, got := n.pose(u.s.origin, false), u.pose(x, y, false)
				v := geom.V(rapid.Float64Range(-1, 1).Draw(t, "px"), rapid.Float64Range(-1, 1).Draw(t, "py"), rapid.Float64Range(-1, 1).Draw(t, "pz"))
				p := u.s.origin.Add(v.Unit().Scale(1000))
				d := want.Apply(p).Dist(got.Apply(p))
				require.Less(t, d, 0.01)
				most = max(most, d)
				if u.s.axle {
					for _, side := range [2]float64{-1, 1} {
						w := u.s.origin.Add(geom.V(0, side*750, 0))
						heights = max(heights, math.Abs(got.Apply(w).Z-(40-x+side*y/2)))
					}
				} else {
					heights = max(heights, math.Abs(got.Apply(u.s.origin).Z-(40-x)))
				}
				require.Less(t, heights, 0.01)
			})
			t.Logf("largest error %.5f mm at 1 m, corner heights %.6f mm, bind %.3f, nodes %dx%d, limits %+v", most, heights, u.limits.Bind, len(u.grid.xs), len(u.grid.ys), u.limits)
		})
	}
}

// The same of linkages no one would choose: every bar's ends moved about by up
// to 60 mm, over a long travel, up to where they lock.
func TestInterpolationOfOddLinkages(t *testing.T) {
	held, all, locked := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		e := &examples[rapid.IntRange(0, len(examples)-1).Draw(t, "linkage")]
		l := e.l()
		jig := rapid.Float64Range(-60, 60)
		for i := range l.Bars {
			b := &l.Bars[i]
			if l.Crank == nil || i < l.Crank.First {
				b.From = b.From.Add(geom.V(jig.Draw(t, "x"), jig.Draw(t, "y"), jig.Draw(t, "z")))
				b.To = b.To.Add(geom.V(jig.Draw(t, "x"), jig.Draw(t, "y"), jig.Draw(t, "z")))
			}
		}
		all++
		c := level(e.alone)
		if c.Suspend(e.end, l, Travel{Low: -180, High: 130, Cross: 120, Steer: 35 * degree}) != nil {
			return
		}
		held++
		u := c.hung[e.end]
		if u.limits.LockedLow || u.limits.LockedHigh {
			locked++
		}
		g := u.grid
		for k := 0; k < 10; k++ {
			x := rapid.Float64Range(g.xs[0], g.xs[len(g.xs)-1]).Draw(t, "height")
			y := rapid.Float64Range(g.ys[0], g.ys[len(g.ys)-1]).Draw(t, "second")
			n := u.beyond(x, y)
			want, got := n.pose(u.s.origin, false), u.pose(x, y, false)
			v := geom.V(rapid.Float64Range(-1, 1).Draw(t, "px"), rapid.Float64Range(-1, 1).Draw(t, "py"), rapid.Float64Range(-1, 1).Draw(t, "pz"))
			p := u.s.origin.Add(v.Unit().Scale(1000))
			require.Less(t, want.Apply(p).Dist(got.Apply(p)), 0.01, "%s at %v, %v of %+v", e.name, x, y, u.limits)
		}
	})
	require.Greater(t, held*10, all*7)
	t.Logf("%d of %d held, %d locked", held, all, locked)
}
