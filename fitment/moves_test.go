package fitment

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/scene"
)

func moving(p scene.Part, ids ...string) scene.Part {
	p.Moves = ids
	return p
}

// A backrest 600 high and thin, hinged at its foot across the vehicle, reclines
// 30° rearward: its top goes 600·sin 30° = 300 rearward. A bulkhead 350 behind
// it (face to face) is then 350 − 300 = 50 away at the top edge less the half
// thickness turned (derived: the rear face is 10·cos 30° behind the middle).
func TestRecline(t *testing.T) {
	doc := bench(
		moving(block("back", scene.Body, scene.Vec{1000, 0, 300}, 20, 400, 600), "recline"),
		block("bulkhead", scene.Body, scene.Vec{1365, 0, 300}, 10, 1000, 900))
	doc.Movements = []scene.Movement{{ID: "recline", Name: "Recline", Kind: scene.Hinge, Carrier: scene.Body,
		AtMM: scene.Vec{1000, 0, 0}, Axis: scene.Vec{0, 1, 0}, From: 0, To: 30}}
	doc.Needs = []scene.Need{{Parts: [2]string{"back", "bulkhead"}, NeedMM: 200, Why: "test"}}
	f := only(t, doc)
	require.InDelta(t, 360-(600*math.Sin(rad(30))+10*math.Cos(rad(30))), f.GapMM, near)
	require.InDelta(t, 30, f.At.Moves[0], near)
	require.False(t, f.Still)
	require.InDeltaSlice(t, []float64{350, 350, 350}, f.AtHeights, near)
	w := NewWords(doc)
	require.Contains(t, w.Figures(&f), "recline 30°")
}

// Parts of one movement go together: base and back of a seat share the track,
// so that only the recline moves them against each other.
func TestSharedMovement(t *testing.T) {
	doc := bench(
		moving(block("base", scene.Body, scene.Vec{1000, 0, 0}, 400, 400, 100), "track"),
		moving(block("back", scene.Body, scene.Vec{1203, 0, 300}, 4, 400, 600), "recline", "track"),
		block("wall", scene.Body, scene.Vec{1305, 0, 300}, 10, 400, 600))
	doc.Movements = []scene.Movement{
		{ID: "track", Name: "Track", Kind: scene.Slide, Carrier: scene.Body, Axis: scene.Vec{1, 0, 0}, From: -100, To: 60},
		{ID: "recline", Name: "Recline", Kind: scene.Hinge, Carrier: scene.Body, AtMM: scene.Vec{1203, 0, 0}, Axis: scene.Vec{0, 1, 0}, To: 5},
	}
	m := compile(t, doc)
	params, _, _ := m.relative(&m.parts[0].items[0], &m.parts[1].items[0])
	require.Equal(t, []int{firstMove + 1}, params)
	params, _, _ = m.relative(&m.parts[1].items[0], &m.parts[2].items[0])
	require.Equal(t, []int{firstMove, firstMove + 1}, params)
	g, err := m.GapBetween("base", "wall", State{})
	require.NoError(t, err)
	require.InDelta(t, 100, g.GapMM, near)
	slid := State{}
	slid.Moves[0] = 60
	g, err = m.GapBetween("base", "wall", slid)
	require.NoError(t, err)
	require.InDelta(t, 40, g.GapMM, near)
}

// A battery lifted 200 straight out meets a shelf 150 over it: it sweeps
// through, 50 deep at the end (an overlap of flat faces: the way out downwards).
func TestLiftedOut(t *testing.T) {
	doc := bench(
		moving(block("case", scene.Body, scene.Vec{500, 0, 100}, 200, 150, 200), "lift"),
		block("shelf", scene.Body, scene.Vec{500, 0, 400}, 800, 800, 100))
	doc.Movements = []scene.Movement{{ID: "lift", Name: "Lifted out", Kind: scene.Slide, Carrier: scene.Body, Axis: scene.Vec{0, 0, 1}, To: 200}}
	f := only(t, doc)
	require.Equal(t, Contact, f.Status)
	require.InDelta(t, -50, f.GapMM, near)
	require.Equal(t, 200.0, f.At.Moves[0])
}

// A tailgate on the axle's carrier hinges in the axle's own axes: turning a
// hinge on what moves is the same as turning it first and moving it then.
func TestHingeOnAnAxle(t *testing.T) {
	doc := bench(moving(block("flap", scene.RearAxle, scene.Vec{0, 0, 200}, 20, 100, 200), "flap"),
		block("probe", scene.Body, scene.Vec{3600, 0, 0}, 10, 10, 10))
	doc.Vehicle.Rear.CrossMM = 40
	doc.Movements = []scene.Movement{{ID: "flap", Name: "Flap", Kind: scene.Hinge, Carrier: scene.RearAxle,
		AtMM: scene.Vec{0, 0, 100}, Axis: scene.Vec{0, 1, 0}, From: -20, To: 40}}
	m := compile(t, doc)
	st := State{RL: -60, RR: -60}
	st.Moves[0] = 40
	pose := m.pose(m.parts[0].items[0].item, st)
	top := pose.Apply(m.ch.Origin(carrierOf[scene.RearAxle]).Add(vec(scene.Vec{0, 0, 300})))
	require.InDelta(t, 3000+200*math.Sin(rad(40)), top.X, near)
	require.InDelta(t, 60+100+200*math.Cos(rad(40)), top.Z, near)
}

// Random movements against sampling: no sampled gap below the bound.
func TestMovementsAgainstSampling(t *testing.T) {
	found := 0
	rapid.Check(t, func(t *rapid.T) {
		doc := randomScene(t)
		turn := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, name) }
		axis := func() scene.Vec {
			return rapid.SampledFrom([]scene.Vec{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {1, 1, 0}}).Draw(t, "axis")
		}
		on := doc.Parts[0].Carrier
		doc.Movements = []scene.Movement{
			{ID: "swing", Name: "Swing", Kind: scene.Hinge, Carrier: on, AtMM: doc.Parts[0].AtMM, Axis: axis(), From: -turn("from", 30), To: turn("to", 60)},
			{ID: "slide", Name: "Slide", Kind: scene.Slide, Carrier: on, Axis: axis(), To: turn("slide", 80)},
		}
		doc.Movements[0].AtMM[2] -= turn("arm", 100)
		for i := range doc.Parts {
			if doc.Parts[i].Carrier == on {
				doc.Parts[i].Moves = rapid.SampledFrom([][]string{{"swing"}, {"swing", "slide"}, {"slide", "swing"}, nil}).Draw(t, "moves")
			}
		}
		m, err := Compile(doc)
		require.NoError(t, err)
		r := m.Check()
		found += len(r.Findings)
		for k := 0; k < 30; k++ {
			st := sampledState(m, k)
			for i := range r.Findings {
				f := &r.Findings[i]
				g, err := m.GapBetween(f.A, f.B, st)
				require.NoError(t, err)
				require.GreaterOrEqual(t, g.GapMM, f.BoundMM-near, "%s %s at %+v", f.A, f.B, st)
			}
			for _, rd := range m.Nearest(doc.Parts[0].ID, st, 9) {
				if rd.Status != "" {
					require.NotNil(t, findingOf(r, rd.A, rd.B), "%s %s falls short at %+v", rd.A, rd.B, st)
				}
			}
		}
	})
	require.Greater(t, found, 30)
}
