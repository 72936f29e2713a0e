//go:build e2e

package fitment

import (
	"math/rand"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// The size of the comparison with dense sampling.
const (
	sampledPairs  = 10000
	sampledStates = 2000
)

// pairMaker makes random moving pairs on one vehicle whose rear axle heaves and
// rolls and whose front wheels steer.
type pairMaker struct {
	*rand.Rand
	doc *scene.Document
}

func (r *pairMaker) in(lo, hi float64) float64 { return lo + r.Float64()*(hi-lo) }

// part is a random part near the middle of an axle.
func (r *pairMaker) part(id string, on scene.Carrier, x float64) scene.Part {
	at := scene.Vec{x + r.in(-120, 120), r.in(-200, 200), r.in(-60, 160)}
	if on != scene.Body {
		at = scene.Vec{r.in(-120, 120), r.in(-200, 200), r.in(-60, 160)}
	}
	var p scene.Part
	switch r.Intn(4) {
	case 0:
		p = block(id, on, at, r.in(20, 250), r.in(20, 250), r.in(20, 120))
	case 1:
		p = part(id, "cylinder", on, at, map[string]float64{"diameter_mm": r.in(20, 160), "length_mm": r.in(20, 300)})
	case 2:
		p = part(id, "exhaust_run", on, at, map[string]float64{"tube_mm": r.in(30, 80)})
		p.Size["vertices"] = scene.Value{Rows: []scene.Row{{0, 0, 0, 0}, {200, 0, 0, 90}, {200, r.in(150, 250), r.in(0, 80), 0}}}
		p.Size["mufflers"] = scene.Value{}
	default:
		p = block(id, on, at, r.in(60, 200), r.in(60, 200), r.in(40, 120))
		p.Size["round_mm"] = scene.Value{Num: r.in(5, 19)}
	}
	p.TurnDeg = scene.Vec{r.in(-90, 90), r.in(-90, 90), r.in(-90, 90)}
	return p
}

// next is a document of two parts, one on the body, one on what moves.
func (r *pairMaker) next() *scene.Document {
	d := *r.doc
	on, x := scene.RearAxle, 3000.0
	if r.Intn(3) == 0 {
		on, x = scene.WheelFL, 0
	}
	a, b := r.part("a", scene.Body, x), r.part("b", on, x)
	if on == scene.WheelFL {
		a.AtMM[1] -= 750
	}
	b.AtMM[2] -= r.in(0, 150)
	d.Parts = []scene.Part{a, b}
	return &d
}

// Random moving pairs against 2,000 sampled states each: the certified bound is
// never above a sampled gap, the least gap found lies at most 0.1 above the
// bound, what has no finding never falls short, and every sampled contact lies
// within a span of contact. Between 30 and 70 in a hundred pairs touch, so that
// the comparison means something.
func TestE2ETravelAgainstSampling(t *testing.T) {
	t.Parallel()
	r := &pairMaker{rand.New(rand.NewSource(7)), bench()}
	r.doc.Vehicle.Rear.CrossMM, r.doc.Vehicle.Front.SteerDeg = 40, 25
	var m *Model
	touching, undecided := 0, 0
	for n := 0; n < sampledPairs; n++ {
		doc := r.next()
		var err error
		if m == nil {
			m, err = Compile(doc)
		} else {
			m, err = m.With(doc)
		}
		require.NoError(t, err)
		rep := m.Check()
		undecided += len(rep.Undecided)
		var f *Finding
		if len(rep.Findings) > 0 {
			f = &rep.Findings[0]
			if f.Status == Contact {
				touching++
			}
			if len(rep.Undecided) == 0 {
				require.LessOrEqual(t, f.GapMM-f.BoundMM, 0.1+near, "pair %d", n)
			}
		}
		sampleOnePair(t, m, f, n)
	}
	t.Logf("%d pairs, %d touch, %d undecided", sampledPairs, touching, undecided)
	require.Less(t, touching*10, sampledPairs*7)
	require.Greater(t, touching*10, sampledPairs*3)
	require.LessOrEqual(t, undecided*200, sampledPairs, "at most one in two hundred given up")
}

func sampleOnePair(t *testing.T, m *Model, f *Finding, n int) {
	x, y := m.parts[0], m.parts[1]
	need := m.needs.between(x.compiled, y.compiled, m.moveApart(x, y)).mm
	for k := 0; k < sampledStates; k++ {
		g, _ := m.gapIn(x, y, false, sampledState(m, k))
		if f != nil && g.Gap < f.BoundMM-near || f == nil && g.Gap < need-2*near {
			t.Fatalf("pair %d: %.4f in state %+v, finding %+v\n%s", n, g.Gap, sampledState(m, k), f, scene.Encode(m.Doc))
		}
	}
	if f == nil || f.Status != Contact {
		return
	}
	spans, path := m.Spans(f), m.heightPath()
	for k := 0; k < 40; k++ {
		seg := segment{from: path[k%2], to: path[k%2+1]}
		p := seg.at(float64(k) / 39)
		if g, _ := m.gapIn(x, y, false, roll(m, p, k)); g.Gap < -near {
			require.True(t, within(spans.Touch, p), "pair %d: touching at %v, spans %v", n, p, spans.Touch)
		}
	}
}
