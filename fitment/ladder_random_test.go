package fitment

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/scene"
)

// Against bisection on dense sampling. Level: the first height down from ride,
// of 400 and then halved, at which the tape measures less than the level; a
// rung's level height lies within 0.1 mm of it, give or take the tolerance of a
// gap. Rolled and steered, where a sample is never the worst: no sample above a
// rung falls short, and just below it the worst that a search of samples finds
// does.
func TestLadderAgainstBisection(t *testing.T) {
	level, any := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		doc := randomScene(t)
		even := rand.New(rand.NewPCG(rapid.Uint64().Draw(t, "seed"), 1)) // rapid's own numbers favour the ends
		for n := range 4 {
			spread(doc, even)
			m, err := Compile(doc)
			require.NoError(t, err)
			ask := LadderAsk{Ends: []Ends{BothEnds, FrontOnly, RearOnly}[n%3], Up: even.Float64() < 0.2}
			l, a := againstBisection(t, m, ask)
			level, any = level+l, any+a
		}
	})
	require.Greater(t, level, 100, "too few level rungs for the test to mean anything")
	require.Greater(t, any, 60, "too few rungs below ride for the test to mean anything")
}

func againstBisection(t *rapid.T, m *Model, ask LadderAsk) (level, any int) {
	l := m.Ladder(ask)
	undecided := map[string]bool{}
	for _, u := range m.Check().Undecided {
		undecided[PairCause(u.A, u.B)] = true
	}
	s := sampler{m: m, way: m.way(ask.Ends), up: ask.Up}
	for i := range m.Check().Findings {
		f := &m.Check().Findings[i]
		first := firstRung(l, RungTight, PairCause(f.A, f.B))
		if undecided[PairCause(f.A, f.B)] {
			continue
		}
		at, found := s.bisect(f)
		if found {
			level++
			require.NotNil(t, first, "%s falls short at %v", f.Key(), at)
			require.NotNil(t, first.LevelAt)
			require.True(t, s.agrees(f, *first.LevelAt, at), "%s: rung %v, sampled %v", f.Key(), *first.LevelAt, at)
		}
		if first != nil && !first.AtRide {
			any++
			s.worstAround(t, f, first)
		}
	}
	return level, any
}

// spread raises the parts on the body, so that most pairs fall short somewhere
// on the way and not at ride.
func spread(doc *scene.Document, even *rand.Rand) {
	for i := range doc.Parts {
		if p := &doc.Parts[i]; p.Carrier == scene.Body && p.Kind != "air_spring" {
			p.AtMM[2] = 80 + 300*even.Float64()
		}
	}
}

func firstRung(l *Ladder, k RungKind, cause string) *Rung {
	for i := range l.Rungs {
		if r := &l.Rungs[i]; r.Kind == k && r.Cause == cause {
			return r
		}
	}
	return nil
}

// sampler measures pairs along a way.
type sampler struct {
	m   *Model
	way *way
	up  bool
}

// place is a share of the way from ride to its end.
func (s *sampler) place(u float64) float64 {
	if s.up {
		return s.way.ride + u*(s.way.top()-s.way.ride)
	}
	return s.way.ride * (1 - u)
}

func (s *sampler) gap(f *Finding, p whole) float64 {
	g, _ := s.m.gapIn(s.m.parts[s.m.index[f.A]], s.m.parts[s.m.index[f.B]], false, s.m.box.state(&p))
	return g.Gap
}

// bisect is the first height at which the pair falls short with the wheels
// level.
func (s *sampler) bisect(f *Finding) (Level, bool) {
	short := func(u float64) bool { return s.gap(f, s.way.at(s.place(u))) < f.NeedMM-geomTol }
	const n = 400
	for k := 0.0; k <= n; k++ {
		if !short(k / n) {
			continue
		}
		lo, hi := max(0, k-1)/n, k/n
		for i := 0; i < 30 && k > 0; i++ {
			if mid := (lo + hi) / 2; short(mid) {
				hi = mid
			} else {
				lo = mid
			}
		}
		return s.way.level(s.place(hi)), true
	}
	return Level{}, false
}

const geomTol = near

// agrees: within a tenth, or so flat a course that the gap is within tolerance
// of the need all the way between the two.
func (s *sampler) agrees(f *Finding, a, b Level) bool {
	if math.Abs(a.FrontMM-b.FrontMM) <= spanStep+near && math.Abs(a.RearMM-b.RearMM) <= spanStep+near {
		return true
	}
	for u := 0.0; u <= 1; u += 0.1 {
		p := whole{frontHeave: a.FrontMM + u*(b.FrontMM-a.FrontMM), rearHeave: a.RearMM + u*(b.RearMM-a.RearMM)}
		if math.Abs(s.gap(f, p)-f.NeedMM) > 3*near {
			return false
		}
	}
	return true
}

// worstAround holds a rung against samples of everything else.
func (s *sampler) worstAround(t require.TestingT, f *Finding, r *Rung) {
	sign := -1.0 // down: what lies beyond the rung is lower
	if s.up {
		sign = 1
	}
	off := func(mm float64) whole {
		p := whole{frontHeave: r.At.FrontMM, rearHeave: r.At.RearMM}
		span := max(math.Abs(s.way.points[0][frontHeave]-s.way.points[len(s.way.points)-1][frontHeave]), math.Abs(s.way.points[0][rearHeave]-s.way.points[len(s.way.points)-1][rearHeave]))
		for i := frontHeave; i <= rearHeave; i++ {
			p[i] += sign * mm * math.Abs(s.way.points[0][i]-s.way.points[len(s.way.points)-1][i]) / span
		}
		return s.m.held(p)
	}
	require.GreaterOrEqual(t, s.worst(f, off(-0.01)), f.NeedMM-3*near, "%s already short before %v", f.Key(), r.At)
	require.Less(t, s.worst(f, off(spanStep+0.01)), f.NeedMM+3*near, "%s not short beyond %v", f.Key(), r.At)
}

// worst is the least gap found at a height by walking from the best of a grid
// of rolls and steers.
func (s *sampler) worst(f *Finding, p whole) float64 {
	best, at := math.Inf(1), p
	var grid func(param int, q whole)
	grid = func(param int, q whole) {
		if param > steer {
			if g := s.gap(f, q); g < best {
				best, at = g, q
			}
			return
		}
		for k := -1.0; k <= 1; k += 0.5 {
			q[param] = k * s.m.box.hi[param]
			if grid(param+1, q); s.m.box.hi[param] == 0 {
				return
			}
		}
	}
	grid(frontCross, p)
	for step := 0.25; step > 1e-4; step /= 2 {
		for again := true; again; {
			again = false
			for param := frontCross; param <= steer; param++ {
				for _, d := range [2]float64{-step, step} {
					q := at
					q[param] = max(s.m.box.lo[param], min(s.m.box.hi[param], q[param]+d*s.m.box.hi[param]))
					if g := s.gap(f, q); g < best-1e-9 {
						best, at, again = g, q, true
					}
				}
			}
		}
	}
	return best
}

// Striking out a pair is the ladder of the scene in which it is declared
// joined, to the byte; also on one's way up and of one end.
func TestLadderStrikingOutIsJoining(t *testing.T) {
	struck := 0
	rapid.Check(t, func(t *rapid.T) {
		doc := randomScene(t)
		m, err := Compile(doc)
		require.NoError(t, err)
		ask := LadderAsk{Ends: rapid.SampledFrom([]Ends{BothEnds, RearOnly}).Draw(t, "ends"), Up: rapid.Bool().Draw(t, "up"), Without: map[string]bool{}}
		joined := *doc
		for i := range m.Check().Findings {
			f := &m.Check().Findings[i]
			if rapid.Bool().Draw(t, "strike") {
				struck++
				ask.Without[PairCause(f.A, f.B)] = true
				joined.Joined = append(joined.Joined, scene.Joined{A: f.A, B: f.B})
			}
		}
		other, err := Compile(&joined)
		require.NoError(t, err)
		got, want := m.Ladder(ask), other.Ladder(LadderAsk{Ends: ask.Ends, Up: ask.Up})
		got.Ask.Without, got.Struck = nil, nil
		require.Equal(t, string(other.LadderJSON(want)), string(m.LadderJSON(got)))
	})
	require.Greater(t, struck, 100)
}

// On the van: each cause struck out in turn, and everything.
func TestLadderOfTheVanWithout(t *testing.T) {
	m := open(t, "bakery-van.json")
	all := map[string]bool{}
	plain := m.Ladder(LadderAsk{})
	for i := range plain.Rungs {
		r := &plain.Rungs[i]
		if r.Finding == nil || r.Finding.Service != "" {
			all[r.Cause] = true
			continue
		}
		doc := *m.Doc
		doc.Joined = append(append([]scene.Joined(nil), doc.Joined...), scene.Joined{A: r.Parts[0], B: r.Parts[1]})
		other, err := m.With(&doc)
		require.NoError(t, err)
		got := m.Ladder(LadderAsk{Without: map[string]bool{r.Cause: true}})
		require.NotEmpty(t, got.Struck)
		want := other.Ladder(LadderAsk{})
		got.Ask.Without, got.Struck = nil, nil
		require.Equal(t, string(other.LadderJSON(want)), string(m.LadderJSON(got)), r.Cause)
		all[r.Cause] = true
	}
	all["room:booster+floor"] = true
	require.Len(t, m.Ladder(LadderAsk{Without: all}).Rungs, 1)
}

// The van's own rungs: pairs by searching samples about them, what hangs low by
// bisection on its clearance.
func TestLadderOfTheVanAgainstSampling(t *testing.T) {
	m := open(t, "bakery-van.json")
	l := m.Ladder(LadderAsk{})
	s := sampler{m: m, way: m.way(BothEnds)}
	pairs, low := 0, 0
	for i := range l.Rungs {
		r := &l.Rungs[i]
		switch {
		case r.Kind == RungTight && r.Finding.Service == "" && !r.AtRide:
			pairs++
			s.worstAround(t, r.Finding, r)
		case r.Kind == RungRimLine && !r.AtRide:
			low++
			below := func(u float64) bool {
				at := s.way.level(s.place(u))
				for _, b := range m.Clearance(StateAt(at.FrontMM, at.RearMM)).Below {
					if b.Part == r.Parts[0] {
						return true
					}
				}
				return false
			}
			above, under := 0.0, 1.0
			for range 40 {
				if mid := (above + under) / 2; below(mid) {
					under = mid
				} else {
					above = mid
				}
			}
			require.InDelta(t, s.way.level(s.place(under)).RearMM, r.At.RearMM, 0.01)
		}
	}
	require.NotZero(t, pairs)
	require.NotZero(t, low)
}

// A limit struck out is the shock of which that length was never measured.
func TestLadderStrikingOutALimit(t *testing.T) {
	shock := func(longest float64) *Model {
		p := part("shock", "shock", scene.Body, scene.Vec{2900, -400, 400}, map[string]float64{"shortest_mm": 0, "longest_mm": longest})
		return compile(t, bench(p))
	}
	m, free := shock(1), shock(0)
	l := m.Ladder(LadderAsk{})
	require.Equal(t, "limit:shock:too_long", l.Rungs[0].Cause)
	got, want := m.Ladder(LadderAsk{Without: map[string]bool{"limit:shock:too_long": true}}), free.Ladder(LadderAsk{})
	require.Equal(t, want.Rungs, got.Rungs)
}

// An upper arm of 70 locks within the travel. The rear stays there while the
// front goes on; supposed mended, the ladder is that of a plain guide, and how
// much further it then goes is what the lock says.
func TestLadderLock(t *testing.T) {
	doc := bench(block("tail", scene.WheelRL, scene.Vec{0, 0, 300}, 50, 50, 50), block("box", scene.Body, scene.Vec{200, 0, -160}, 100, 100, 20))
	hang(doc, "rear", scene.DoubleWishbone)
	s := doc.Vehicle.Rear.Suspension
	for i := 0; i < 2; i++ {
		s.Bars[i].BodyMM = scene.Vec{s.Bars[i].BodyMM[0], -750 + 110 + 70, s.Bars[i].BodyMM[2]}
	}
	m := compile(t, doc)
	_, _, lo, hi := m.Travel()
	up := hi < 60
	require.True(t, up || lo > -120)
	l := m.Ladder(LadderAsk{Up: up, Ends: RearOnly})
	n := len(l.Rungs)
	require.Equal(t, RungEnd, l.Rungs[n-1].Kind)
	require.Equal(t, []string{"rear"}, l.Rungs[n-1].Locked)
	r := firstRung(l, RungLock, "suspension:rear")
	require.NotNil(t, r)
	edge := map[bool]float64{true: hi, false: lo}[up]
	require.InDelta(t, edge, r.At.RearMM, near)

	guided := *doc
	guided.Vehicle.Rear.Suspension = &scene.Suspension{Kind: scene.Guide}
	free := compile(t, &guided).Ladder(LadderAsk{Up: up, Ends: RearOnly})
	got := m.Ladder(LadderAsk{Up: up, Ends: RearOnly, Without: map[string]bool{"suspension:rear": true}})
	require.Equal(t, free.Rungs, got.Rungs)
	require.Len(t, got.Struck, 1)

	both := m.Ladder(LadderAsk{Up: up})
	r = firstRung(both, RungLock, "suspension:rear")
	require.InDelta(t, edge, r.At.RearMM, near)
	end := both.Rungs[len(both.Rungs)-1]
	require.InDelta(t, map[bool]float64{true: 50, false: -100}[up], end.At.FrontMM, near, "the front goes on")
	require.InDelta(t, edge, end.At.RearMM, near)
	require.Greater(t, r.Further.RearMM, 0.0)

	// After an edit it is the same whether worked out anew or from before.
	moved := *doc
	moved.Parts = append([]scene.Part(nil), doc.Parts...)
	moved.Parts[1].AtMM[2] = -150
	next, err := m.With(&moved)
	require.NoError(t, err)
	require.Equal(t, string(compile(t, &moved).LadderJSON(compile(t, &moved).Ladder(LadderAsk{Up: up}))), string(next.LadderJSON(next.Ladder(LadderAsk{Up: up}))))
}
