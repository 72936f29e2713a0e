package draw

import (
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/wasm/view"
)

// Whatever is asked, labels overlap neither each other nor a subject, stay in
// the frame, and no leader runs through a label.
func TestLabelsNeverOverlap(t *testing.T) {
	placed, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		frame := view.Rect{X: 0, Y: 0, W: 500, H: 400}
		p := &Placer{Frame: frame}
		var subjects []view.Rect
		for range rapid.IntRange(1, 25).Draw(t, "n") {
			s := view.Rect{X: rapid.Float64Range(0, 480).Draw(t, "x"), Y: rapid.Float64Range(0, 380).Draw(t, "y"), W: 18, H: 18}
			subjects = append(subjects, s)
			p.Reserve(s)
		}
		var labels []view.Rect
		var leaders []Leader
		for _, s := range subjects {
			leader := func(r view.Rect) Leader { return Leader{s.Middle(), mgl64.Vec2{r.X, r.Y + r.H}} }
			r, ok := p.Beside(s, rapid.Float64Range(30, 140).Draw(t, "w"), 24, leader)
			if !ok {
				refused++
				continue
			}
			placed++
			labels, leaders = append(labels, r), append(leaders, leader(r))
		}
		for i, r := range labels {
			if !r.Inside(frame) {
				t.Fatalf("%v leaves the frame", r)
			}
			for _, s := range subjects {
				if r.Overlaps(s) {
					t.Fatalf("label %v covers the subject %v", r, s)
				}
			}
			for j := range labels {
				if j != i && (r.Overlaps(labels[j]) || leaders[j].crosses(r)) {
					t.Fatalf("label %v meets label %v or its leader %v", r, labels[j], leaders[j])
				}
			}
		}
	})
	require.NotZero(t, placed, "nothing was ever placed")
	require.NotZero(t, refused, "there was always room: the test is too easy")
}

func TestLabelTakesTheFirstFreePlace(t *testing.T) {
	p := &Placer{Frame: view.Rect{X: 0, Y: 0, W: 400, H: 400}}
	s := view.Rect{X: 190, Y: 190, W: 20, H: 20}
	p.Reserve(s)
	r, ok := p.Beside(s, 80, 20, func(r view.Rect) Leader { return Leader{s.Middle(), r.Middle()} })
	require.True(t, ok)
	require.Greater(t, r.X, 200.0, "to the right")
	require.Less(t, r.Y, 190.0, "and above")
}

func TestLeaderCrosses(t *testing.T) {
	r := view.Rect{X: 10, Y: 10, W: 20, H: 10}
	require.True(t, Leader{mgl64.Vec2{0, 0}, mgl64.Vec2{40, 30}}.crosses(r))
	require.True(t, Leader{mgl64.Vec2{0, 15}, mgl64.Vec2{15, 15}}.crosses(r), "ends inside")
	require.False(t, Leader{mgl64.Vec2{0, 0}, mgl64.Vec2{40, 5}}.crosses(r))
}

// A label stands where it lies well, however far that is, where it costs least
// when there is no such place, and nowhere when that is too much.
func TestLabelStandsWhereItCostsLeast(t *testing.T) {
	p := &Placer{Frame: view.Rect{X: 0, Y: 0, W: 400, H: 400}}
	s := view.Rect{X: 190, Y: 190, W: 20, H: 20}
	leader := func(r view.Rect) Leader { return Leader{s.Middle(), r.Middle()} }
	p.Cost = func(r view.Rect, l Leader) float64 {
		require.Equal(t, leader(r), l)
		return max(0, 250-r.Y)
	}
	r, ok := p.Beside(s, 60, 20, leader)
	require.True(t, ok)
	require.Greater(t, r.Y, 250.0)
	p.Cost = func(r view.Rect, _ Leader) float64 { return 1 + r.X/100 }
	r, ok = p.Beside(s, 60, 20, leader)
	require.True(t, ok)
	require.Less(t, r.X, 30.0, "as far to the left as it may")
	p.Cost = func(view.Rect, Leader) float64 { return mostCost }
	_, ok = p.Beside(s, 60, 20, leader)
	require.False(t, ok)
}

// A leader keeps off every label, also one that stands at its own subject.
func TestNoLeaderRunsThroughALabelAtItsSubject(t *testing.T) {
	p := &Placer{Frame: view.Rect{X: 0, Y: 0, W: 400, H: 400}}
	s := view.Rect{X: 100, Y: 100, W: 200, H: 200}
	var labels []view.Rect
	for _, at := range []view.Rect{{X: 120, Y: 285, W: 160, H: 20}, {X: 120, Y: 95, W: 160, H: 20}} {
		require.True(t, p.Take(at))
		labels = append(labels, at)
	}
	leader := func(r view.Rect) Leader { return Leader{s.Middle(), r.Middle()} }
	for range 6 {
		r, ok := p.Beside(s, 60, 20, leader)
		if !ok {
			break
		}
		for _, k := range labels {
			require.False(t, leader(r).crosses(k), "%v through %v", leader(r), k)
		}
		labels = append(labels, r)
	}
	require.Greater(t, len(labels), 3)
}
