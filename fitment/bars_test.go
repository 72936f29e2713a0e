package fitment

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/scene"
)

// everyState draws states of a model's travel, its ends among them.
func everyState(m *Model, n int) []State {
	r := rand.New(rand.NewPCG(7, uint64(n)))
	out := make([]State, n)
	for i := range out {
		p := whole{}
		for k := frontHeave; k <= steer; k++ {
			u := r.Float64()
			if r.IntN(4) == 0 {
				u = float64(r.IntN(2))
			}
			p[k] = m.box.lo[k] + u*(m.box.hi[k]-m.box.lo[k])
		}
		out[i] = m.box.state(&p)
	}
	return out
}

// withBars is the test bench with one end on a kind's template, rolled and
// steered, and that end's bars among its parts.
func withBars(t *testing.T, end, kind string) (*scene.Document, []string) {
	t.Helper()
	doc := bench()
	doc.Vehicle.Front.CrossMM, doc.Vehicle.Rear.CrossMM, doc.Vehicle.Front.SteerDeg = 40, 40, 25
	hang(doc, end, kind)
	doc, ids, _, err := scene.AddBars(doc, end)
	require.NoError(t, err)
	return doc, ids
}

// A bar among the parts stands in every state where the solver has the bar:
// the ends that the carriers give are those of the linkage itself, and its length
// is that at ride.
func TestABarStandsWhereTheSuspensionHasIt(t *testing.T) {
	for _, k := range scene.SuspensionKinds() {
		if k.Name == scene.Guide {
			continue
		}
		for _, end := range []string{"front", "rear"} {
			doc, ids := withBars(t, end, k.Name)
			m := compile(t, doc)
			for _, st := range everyState(m, 50) {
				bars := m.Bars(st)
				for _, id := range ids {
					ms := st.motion()
					e := m.endsOf(m.parts[m.index[id]].items[0].link, &ms)
					if k.Name == scene.LeafSprings { // a leaf goes to its eye, the bar for it only three quarters of the way
						for i := range bars {
							bars[i].From = unvec(e.a)
						}
					}
					require.Less(t, nearestBar(bars, e), 0.02, "%s %s: %s at %+v", end, k.Name, id, st)
				}
			}
		}
	}
}

// nearestBar is how far the ends are from those of the bar that fits best.
func nearestBar(bars []Bar, e ends) float64 {
	best := math.Inf(1)
	for i := range bars {
		best = min(best, max(e.a.Dist(vec(bars[i].From)), e.b.Dist(vec(bars[i].To))))
	}
	return best
}

// Which bars can stand among the parts: all that go from the body to what it
// carries. A tie rod begins on the rack and a Watt's bars end on the crank.
func TestWhichBarsCanStandAmongTheParts(t *testing.T) {
	want := map[string]int{scene.FourLinkPanhard: 5, scene.FourLinkWatts: 4, scene.TriangulatedFourLink: 4,
		scene.TrailingArms: 5, scene.LeafSprings: 2, scene.BeamAxle: 5, scene.DoubleWishbone: 8, scene.Strut: 6}
	for kind, n := range want {
		doc, ids := withBars(t, "rear", kind)
		require.Len(t, ids, n, kind)
		r := compile(t, doc).Suspension()[1]
		named := len(scene.SuspensionKindNamed(kind).Bars)
		if scene.SuspensionKindNamed(kind).Alone {
			named *= 2
			require.Len(t, r.Unchecked, (named-n)/2, kind)
		} else {
			require.Len(t, r.Unchecked, named-n, kind)
		}
		_, _, _, err := scene.AddBars(doc, "rear")
		require.Error(t, err, "all are there")
		bare, _, err := scene.RemoveBars(doc, "rear")
		require.NoError(t, err)
		require.Len(t, bare.Parts, len(doc.Parts)-n)
	}
}

// Four level links of 600 under a box: with the axle 100 up, the middle of a
// link is 50 up, and the axle 600 − √(600² − 100²) = 8.39 farther forward. The
// link's radius is 20; the box's underside is 90 above the links at ride. So
// 90 − 20 = 70 at ride; risen, the link's axis passes under the box's rear lower
// edge, 320 behind its front joint, at 320·100/591.61 = 54.09: the distance
// square to it is (90 − 54.09)·591.61/600 = 35.41, less 20 is 15.41. Sideways
// the Panhard bar, 1000 long and level, takes the axle
// 1000 − √(1000² − 100² − 8.39²) = 5.05, which the box's width covers.
func TestWhatALinkComesNearIsFound(t *testing.T) {
	doc := bench()
	doc.Heights = []scene.Height{{ID: scene.AiredOut, Name: "Aired out", RearMM: -100}, {ID: scene.Ride, Name: "Ride"}, {ID: scene.AiredUp, Name: "Aired up"}}
	axle := doc.Vehicle.WheelbaseMM
	up := compile(t, doc).ch.Origin(carrierOf[scene.RearAxle]).Z
	s := &scene.Suspension{Kind: scene.FourLinkPanhard}
	for _, b := range []struct{ y, z float64 }{{-400, -50}, {400, -50}, {-300, 80}, {300, 80}} {
		s.Bars = append(s.Bars, scene.SuspensionBar{BodyMM: scene.Vec{axle - 600, b.y, up + b.z}, CarriedMM: scene.Vec{0, b.y, b.z}})
	}
	s.Bars = append(s.Bars, scene.SuspensionBar{BodyMM: scene.Vec{axle + 150, -500, up}, CarriedMM: scene.Vec{150, 500, 0}})
	doc.Vehicle.Rear.Suspension = s
	doc.Parts = append(doc.Parts, block("box", scene.Body, scene.Vec{axle - 440, 300, up + 80 + 90 + 50}, 320, 100, 100))
	require.Empty(t, compile(t, doc).Check().Findings)

	doc, ids, _, err := scene.AddBars(doc, "rear")
	require.NoError(t, err)
	for i := range doc.Parts {
		if doc.Parts[i].Kind == barKind {
			doc.Parts[i].Size["diameter_mm"] = scene.Value{Num: 40}
		}
	}
	f := only(t, doc)
	require.Equal(t, [2]string{"box", ids[3]}, [2]string{f.A, f.B})
	require.Equal(t, 25.0, f.NeedMM)
	require.InDelta(t, 15.41, f.GapMM, 0.01)
	require.Equal(t, -100.0, f.At.RL)

	// Another bar in the list of the kind, or another end: nothing stands there,
	// and the report says so.
	doc.Vehicle.Rear.Suspension = nil
	m := compile(t, doc)
	require.Empty(t, m.Check().Findings)
	require.ElementsMatch(t, ids, m.Suspension()[1].Stray)
}

// The proven bound holds in every sampled state, for every kind of bar against a
// box beside it.
func TestBarsKeepTheirBounds(t *testing.T) {
	near := 0
	for _, k := range scene.SuspensionKinds() {
		if k.Name == scene.Guide {
			continue
		}
		doc, ids := withBars(t, "front", k.Name)
		m := compile(t, doc)
		for n, id := range ids {
			e := m.endsOf(m.parts[m.index[id]].items[0].link, &motion.State{})
			at := e.a.Lerp(e.b, 0.6).Add(geom.V(0, 10, 100+float64(7*n)))
			d := *doc
			d.Parts = append(append([]scene.Part(nil), doc.Parts...), block("box", scene.Body, unvec(at), 60, 40, 30))
			mm := compile(t, &d)
			x, y := mm.parts[mm.index["box"]], mm.parts[mm.index[id]]
			ans := mm.answer(pairKey{a: x, b: y, need: 25})
			require.True(t, ans.decided, "%s %s", k.Name, id)
			if !ans.near {
				continue
			}
			near++
			for _, st := range everyState(mm, 300) {
				g, _ := mm.gapIn(x, y, false, st)
				require.GreaterOrEqual(t, g.Gap, min(ans.bound, 25)-1e-9, "%s %s at %+v", k.Name, id, st)
			}
		}
	}
	require.Greater(t, near, 20)
}

// What a bar is bolted to is what it touches at its two ends, not on the way.
func TestTouchedAtEnds(t *testing.T) {
	doc, ids := withBars(t, "rear", scene.FourLinkPanhard)
	m := compile(t, doc)
	e := m.endsOf(m.parts[m.index[ids[0]]].items[0].link, &motion.State{})
	add := func(id string, at geom.Vec) {
		doc.Parts = append(doc.Parts, block(id, scene.Body, unvec(at), 60, 60, 60))
	}
	add("bracket", e.a)
	add("halfway", e.a.Lerp(e.b, 0.5))
	add("away", e.a.Add(geom.V(0, 0, 400)))
	require.Equal(t, []string{"bracket"}, without2(compile(t, doc).TouchedAtEnds(ids[0]), ids))
}

// without2 leaves out the other bars.
func without2(list, drop []string) (kept []string) {
	for _, id := range list {
		found := false
		for _, d := range drop {
			found = found || d == id
		}
		if !found {
			kept = append(kept, id)
		}
	}
	return kept
}
