package fitment

import (
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/scene"
)

// A housing that keeps 140 + move to the floor: it needs 25, so that it falls
// short from full drop, −120, up to −115; with 110 it also touches up to −110.
// Front and rear go down together: at a rear of −115 the front stands at
// −100·115/120.
func TestSpans(t *testing.T) {
	at := func(room float64) (*Model, Spans) {
		m := compile(t, bench(
			traits(block("floor", scene.Body, scene.Vec{3000, 0, room + 50}, 400, 400, 50), scene.Floor),
			traits(block("housing", scene.RearAxle, scene.Vec{0, 0, 0}, 100, 100, 50), scene.Moving)))
		return m, m.Spans(&m.Check().Findings[0])
	}
	_, s := at(140)
	require.Empty(t, s.Touch)
	require.Len(t, s.Short, 1)
	require.Equal(t, Level{-100, -120}, s.Short[0].From)
	require.InDelta(t, -115, s.Short[0].To.RearMM, spanStep+near)
	require.InDelta(t, s.Short[0].To.RearMM*100/120, s.Short[0].To.FrontMM, near)
	_, s = at(110)
	require.InDelta(t, -110, s.Touch[0].To.RearMM, spanStep+near)
	require.InDelta(t, -85, s.Short[0].To.RearMM, spanStep+near)
}

// Parts that do not move against each other fall short at every height.
func TestSpansOfStillParts(t *testing.T) {
	m := compile(t, bench(block("a", scene.Body, scene.Vec{0, 0, 0}, 10, 10, 10), block("b", scene.Body, scene.Vec{12, 0, 0}, 10, 10, 10)))
	s := m.Spans(&m.Check().Findings[0])
	require.Equal(t, []Span{{Level{-100, -120}, Level{50, 60}}}, s.Short)
}

// A part that passes another on its way: short in the middle of the travel,
// clear at both ends. The axle's block is 20 high and 10 beside a rail lip of
// 20: they are abreast while the lip's and the block's middles are closer than
// 20 + the height at which 10 sideways and the rest upwards make 25 (√(25²−10²)).
func TestSpanInTheMiddle(t *testing.T) {
	m := compile(t, bench(
		traits(block("lip", scene.Body, scene.Vec{3000, 0, 40}, 100, 100, 20), scene.Frame),
		traits(block("block", scene.RearAxle, scene.Vec{0, 110, 0}, 100, 100, 20), scene.Moving)))
	s := m.Spans(&m.Check().Findings[0])
	require.Len(t, s.Short, 1)
	half := 20 + 22.9128784748 // √525
	require.InDelta(t, -40-half, s.Short[0].From.RearMM, 2*spanStep)
	require.InDelta(t, -40+half, s.Short[0].To.RearMM, 2*spanStep)
}

// Against sampling: every height at which some state falls short lies in a
// span, and just outside a span none does.
func TestSpansAgainstSampling(t *testing.T) {
	inside, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		doc := randomScene(t)
		m, err := Compile(doc)
		require.NoError(t, err)
		path := m.heightPath()
		for i := range m.Check().Findings {
			f := &m.Check().Findings[i]
			spans := m.Spans(f)
			for k := 0; k < 20; k++ {
				seg := segment{from: path[k%2], to: path[k%2+1]}
				p := seg.at(float64(k) / 19)
				st := roll(m, p, k)
				g, err := m.GapBetween(f.A, f.B, st)
				require.NoError(t, err)
				all++
				if g.GapMM < f.NeedMM-2*near {
					inside++
					require.True(t, within(spans.Short, p), "%v at %v", spans.Short, p)
				}
				level, err := m.GapBetween(f.A, f.B, StateAt(p[frontHeave], p[rearHeave]))
				require.NoError(t, err)
				if level.GapMM < f.NeedMM-2*near {
					require.True(t, within(spans.LevelShort, p), "%v at %v", spans.LevelShort, p)
				}
				if g.GapMM < -near {
					require.True(t, within(spans.Touch, p), "%v at %v", spans.Touch, p)
				}
			}
		}
	})
	require.Greater(t, inside*10, all*3)
	require.Less(t, inside*10, all*9)
}

// roll adds a sampled roll and steer to a level height.
func roll(m *Model, p whole, k int) State {
	f := float64(k%5)/2 - 1
	p[rearCross], p[steer] = f*m.box.hi[rearCross], f*m.box.hi[steer]
	return m.box.state(&p)
}

func within(spans []Span, p whole) bool {
	for _, s := range spans {
		if s.From.RearMM-near <= p[rearHeave] && p[rearHeave] <= s.To.RearMM+near {
			return true
		}
	}
	return false
}
