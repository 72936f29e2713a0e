package fitment

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// Boxes [0,1]³ and [2,3]×[3,4]×[½,1], in units of 100 mm: √5 apart (closed
// form: the corner differences are 1, 2 and 0). A trait need of 300 makes the
// pair a finding.
func TestTwoBoxes(t *testing.T) {
	doc := bench(
		block("a", scene.Body, scene.Vec{50, 50, 50}, 100, 100, 100),
		block("b", scene.Body, scene.Vec{250, 350, 75}, 100, 100, 50))
	doc.Needs = []scene.Need{{Parts: [2]string{"a", "b"}, NeedMM: 300, Why: "test"}}
	f := only(t, doc)
	require.InDelta(t, 100*math.Sqrt(5), f.GapMM, near)
	require.Equal(t, Tight, f.Status)
	require.Equal(t, StateAt(0, 0), f.At, "parts that do not move against each other are reported at ride")
	require.True(t, f.Sure)
	require.InDelta(t, f.GapMM, dist(f.PointsMM), near)
}

func dist(p [2]scene.Vec) float64 {
	return math.Sqrt(math.Pow(p[0][0]-p[1][0], 2) + math.Pow(p[0][1]-p[1][1], 2) + math.Pow(p[0][2]-p[1][2], 2))
}

// A block on the rear axle whose top lies 150 below a floor block at ride is
// 150 − 120 = 30 below it aired out: it needs 25 and is clear; with 140 there
// are 20 left.
func TestAxleComesUp(t *testing.T) {
	at := func(room float64) *scene.Document {
		return bench(
			traits(block("floor", scene.Body, scene.Vec{3000, 0, room + 50}, 400, 400, 50), scene.Floor),
			traits(block("housing", scene.RearAxle, scene.Vec{0, 0, 0}, 100, 100, 50), scene.Moving))
	}
	// floor underside: room+25; housing top: 25 → room apart at ride
	require.Empty(t, compile(t, at(150)).Check().Findings)
	f := only(t, at(140))
	require.InDelta(t, 20, f.GapMM, near)
	require.Equal(t, StateAt(-100, -120), f.At)
	require.InDeltaSlice(t, []float64{20, 140, 200}, f.AtHeights, near)
	require.Equal(t, 25.0, f.NeedMM)
}

// Overlap at full drop: 110 of room and 120 of drop is 10 deep.
func TestContactDepth(t *testing.T) {
	f := only(t, bench(
		traits(block("floor", scene.Body, scene.Vec{3000, 0, 160}, 400, 400, 50), scene.Floor),
		traits(block("housing", scene.RearAxle, scene.Vec{0, 0, 0}, 100, 100, 50), scene.Moving)))
	require.Equal(t, Contact, f.Status)
	require.InDelta(t, -10, f.GapMM, near)
}

// The front tyre against a rail, wheels turned: in plan the tyre is a
// rectangle with rounded corners turned by the steer about its own centre.
// Its corner nearest to the centreline is (R−r)·sin δ + (w/2−r)·cos δ + r
// inboard of the wheel centre (derived; R free radius, w width, r shoulder).
func TestFullLock(t *testing.T) {
	const R, w, lock = 300, 200, 30
	r := float64(w) / 10
	reach := (R-r)*math.Sin(rad(lock)) + (w/2-r)*math.Cos(rad(lock)) + r
	doc := bench(
		part("tyre", "wheel", scene.WheelFL, scene.Vec{}, nil),
		traits(block("rail", scene.Body, scene.Vec{0, -480, 0}, 2000, 60, 400), scene.Frame))
	doc.Vehicle.Front.SteerDeg = lock
	f := only(t, doc)
	require.InDelta(t, 750-reach-510, f.GapMM, near)
	require.InDelta(t, lock, math.Abs(f.At.Steer), near)
	doc.Vehicle.Front.SteerDeg = 0
	require.Empty(t, compile(t, doc).Check().Findings, "straight ahead there are 140 mm")
}

// An axle that rolls: a cross of 60 on a track of 1500 turns it by asin 0.04,
// so that a bar 400 above its middle swings 400·0.04 = 16 sideways: of 20 to a
// plate beside it 4 are left (closed form).
func TestRollSwings(t *testing.T) {
	doc := bench(
		traits(block("plate", scene.Body, scene.Vec{3000, 10 + 20 + 5, 400}, 400, 10, 900), scene.Floor),
		traits(part("bar", "cylinder", scene.RearAxle, scene.Vec{0, 0, 400},
			map[string]float64{"diameter_mm": 20, "length_mm": 100}), scene.Moving))
	level := only(t, doc)
	require.InDelta(t, 20, level.GapMM, near)
	doc.Vehicle.Rear.CrossMM = 60
	rolled := only(t, doc)
	require.InDelta(t, 4, rolled.GapMM, 0.1)
	require.GreaterOrEqual(t, rolled.GapMM, 4-near)
	require.InDelta(t, 20-400*(rolled.At.RR-rolled.At.RL)/1500, rolled.GapMM, near, "the gap follows from the reported state")
	require.InDeltaSlice(t, []float64{20, 20, 20}, rolled.AtHeights, near)
}

// No corner leaves the travel: at full drop both corners of an axle are down,
// and rolling lifts nothing between the wheels any further.
func TestRollStaysInTravel(t *testing.T) {
	doc := bench(
		traits(block("floor", scene.Body, scene.Vec{3000, 600, 160}, 400, 400, 20), scene.Floor),
		traits(part("bar", "cylinder", scene.RearAxle, scene.Vec{0, 600, 0},
			map[string]float64{"diameter_mm": 20, "length_mm": 100}), scene.Moving))
	doc.Vehicle.Rear.CrossMM = 60
	f := only(t, doc)
	require.InDelta(t, 150-10-120, f.GapMM, near)
	require.Equal(t, StateAt(-100, -120), f.At)
}

// An air spring grows as it gets shorter: from 260 long and 150 across at ride
// to 140 long at full drop, where its table says 174 across. A plate 85 from
// its axis is 10 away at ride and 2 inside aired out.
func TestSpringGrows(t *testing.T) {
	spring := part("spring", "air_spring", scene.Body, scene.Vec{3000, 400, 260},
		map[string]float64{"lower_x_mm": 0, "lower_y_mm": 400, "lower_z_mm": 0})
	spring.Size["profile"] = scene.Value{Rows: []scene.Row{{140, 174}, {260, 150}}}
	doc := bench(spring, traits(block("plate", scene.Body, scene.Vec{3000, 400 + 85 + 10, 200}, 300, 20, 400), scene.Frame))
	f := only(t, doc)
	require.Equal(t, Contact, f.Status)
	require.InDelta(t, -2, f.GapMM, near)
	require.Equal(t, -120.0, f.At.RL)
	require.InDelta(t, 10, f.AtHeights[1], near)
}

// A finding holds for sure when the shortfall is larger than both tolerances.
func TestSure(t *testing.T) {
	doc := bench(block("a", scene.Body, scene.Vec{0, 0, 0}, 10, 10, 10), block("b", scene.Body, scene.Vec{12, 0, 0}, 10, 10, 10))
	require.False(t, only(t, doc).Sure, "1 short, 3 + 3 of tolerance")
	exact := 0.4
	doc.Parts[0].ToleranceMM, doc.Parts[1].ToleranceMM = &exact, &exact
	require.True(t, only(t, doc).Sure, "1 short, 0.4 + 0.4 of tolerance")
}

// A joined pair is never a finding.
func TestJoined(t *testing.T) {
	doc := bench(block("a", scene.Body, scene.Vec{0, 0, 0}, 10, 10, 10), block("b", scene.Body, scene.Vec{5, 0, 0}, 10, 10, 10))
	require.Len(t, compile(t, doc).Check().Findings, 1)
	doc.Joined = []scene.Joined{{A: "b", B: "a", Why: "welded"}}
	r := compile(t, doc).Check()
	require.Empty(t, r.Findings)
	require.Zero(t, r.Summary.Pairs)
}

// A part in a service room is a finding of its own; a part that only touches
// the room's border is not.
func TestServiceRoom(t *testing.T) {
	battery := part("battery", "battery", scene.Body, scene.Vec{}, nil)
	m := compile(t, bench(battery))
	room := m.parts[0].items[len(m.parts[0].items)-1]
	require.NotEmpty(t, room.room)
	_, hi := room.solids[0].Bounds()
	_, boxHi := m.parts[0].items[0].solids[0].Bounds()
	above := func(gap float64) *scene.Document {
		return bench(battery, block("shelf", scene.Body, scene.Vec{0, 0, boxHi.Z + gap + 5}, 50, 50, 10))
	}
	f := only(t, above(hi.Z-boxHi.Z-1))
	require.Equal(t, "battery", f.Service)
	require.Equal(t, Tight, f.Status)
	require.InDelta(t, -1, f.GapMM, near)
	require.Empty(t, compile(t, above(hi.Z-boxHi.Z)).Check().Findings)
}

// Readings in a state are the findings that fall short there.
func TestReadings(t *testing.T) {
	m := compile(t, bench(
		traits(block("floor", scene.Body, scene.Vec{3000, 0, 190}, 400, 400, 50), scene.Floor),
		traits(block("housing", scene.RearAxle, scene.Vec{0, 0, 0}, 100, 100, 50), scene.Moving)))
	require.Empty(t, m.Readings(StateAt(0, 0)))
	rd := m.Readings(StateAt(0, -120))
	require.Len(t, rd, 1)
	require.InDelta(t, 20, rd[0].GapMM, near)
	require.Equal(t, m.Check().Findings[0].Key(), rd[0].Key)
}

// GapBetween errs in one sentence.
func TestGapBetweenErrors(t *testing.T) {
	m := compile(t, bench(block("a", scene.Body, scene.Vec{}, 10, 10, 10)))
	_, err := m.GapBetween("a", "nobody", State{})
	require.EqualError(t, err, `there is no part with the id "nobody"`)
	_, err = m.GapBetween("a", "a", State{})
	require.ErrorContains(t, err, "two different parts")
}

// The nearest parts, nearest first, joined ones left out: 10, 30 and 50 away.
func TestNearest(t *testing.T) {
	doc := bench(block("a", scene.Body, scene.Vec{}, 20, 20, 20))
	for i, away := range []float64{50, 10, 30, 5} {
		at := scene.Vec{}
		at[i%3] = away + 20
		doc.Parts = append(doc.Parts, block([]string{"far", "near", "middle", "welded"}[i], scene.Body, at, 20, 20, 20))
	}
	doc.Joined = []scene.Joined{{A: "a", B: "welded"}}
	got := compile(t, doc).Nearest("a", State{}, 2)
	require.Len(t, got, 2)
	require.Equal(t, "near", got[0].B)
	require.InDelta(t, 10, got[0].GapMM, near)
	require.InDelta(t, 30, got[1].GapMM, near)
	require.Empty(t, got[0].Status)
	require.Empty(t, compile(t, doc).Nearest("nobody", State{}, 2))
}

// A check done in parts gives the same bytes as one done at once, counts its
// progress, and can be left off.
func TestAdvance(t *testing.T) {
	whole := open(t, "bakery-van.json")
	parts := open(t, "bakery-van.json")
	last := 0
	for steps := 0; ; steps++ {
		done, of := parts.Advance(7)
		if done == of {
			require.Greater(t, steps, 10)
			break
		}
		require.Greater(t, done, last)
		last = done
	}
	require.Equal(t, string(whole.ReportJSON()), string(parts.ReportJSON()))
	left := open(t, "bakery-van.json")
	left.Advance(5)
	again, err := left.With(left.Doc)
	require.NoError(t, err)
	require.Equal(t, string(whole.ReportJSON()), string(again.ReportJSON()))
}

// A mitred corner (no bend) reaches out to its tip: a tube of radius 30 that
// turns by 90° at (300, 0) has its outer corner at (330, −30). A rod of radius 5
// upright at (360, −60) is √2·30 from it, less its radius.
func TestMitreReachesItsTip(t *testing.T) {
	run := part("pipe", "exhaust_run", scene.Body, scene.Vec{}, map[string]float64{"tube_mm": 60})
	run.Size["vertices"] = scene.Value{Rows: []scene.Row{{0, 0, 0, 0}, {300, 0, 0, 0}, {300, 300, 0, 0}}}
	run.Size["mufflers"] = scene.Value{}
	rod := part("line", "cylinder", scene.Body, scene.Vec{360, -60, 0}, map[string]float64{"diameter_mm": 10, "length_mm": 200})
	rod.Size["lies"] = scene.Value{Text: "upright"}
	m := compile(t, bench(run, rod))
	g, err := m.GapBetween("pipe", "line", State{})
	require.NoError(t, err)
	require.InDelta(t, 30*math.Sqrt2-5, g.GapMM, near)
}
