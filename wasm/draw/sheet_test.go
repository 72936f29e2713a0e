package draw

import (
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// section is a sheet of two cut blocks that overlap and a seen one behind.
func section(selected int) *Sheet {
	r := view.Rect{X: 0, Y: 0, W: 600, H: 500}
	cam := view.Camera{Centre: mgl64.Vec2{0, 200}, PxPerMM: 1}
	return &Sheet{
		Rect: r, Proj: view.Project(fitment.SectionView, 1000, scene.Vec{0, 0, 1}, 0, cam, r),
		Ground: cam.Matrix(r), Station: 1000, Selected: selected, Measure: RoughWidth, Caption: "Section",
		RimLine: 60, RimText: "rim line",
		Parts: []PartLook{{Name: "Block"}, {Name: "Tank", Status: fitment.Contact}, {Name: "Panel"}},
		Outs: []fitment.Outline{
			{Part: 2, Seen: [][]fitment.Pt{rect(-200, 50, 200, 300)}, Near: 500, Far: 0},
			{Part: 0, Cut: [][]fitment.Pt{rect(-100, 100, 0, 200)}, Near: 1500, Far: 500},
			{Part: 1, Cut: [][]fitment.Pt{rect(-50, 100, 100, 200)}, Near: 1500, Far: 500},
		},
		Marks: []Mark{{Key: "a|b|", Status: fitment.Contact, P: fitment.Pt{-25, 150}, Q: fitment.Pt{-20, 150}, Text: "−50, needs 3"}},
	}
}

func compose(s *Sheet) []Op {
	l := &List{}
	s.Compose(l)
	return l.Ops
}

// last is the index of the last operation that f accepts, −1 for none.
func last(ops []Op, f func(*Op) bool) int {
	for i := len(ops) - 1; i >= 0; i-- {
		if f(&ops[i]) {
			return i
		}
	}
	return -1
}

func wide(tone Tone) func(*Op) bool {
	return func(o *Op) bool { return o.Kind == LineOp && o.Width == Wide && o.Paint.Tone == tone && o.Closed }
}

func TestCutIsHeavyAndWhatLiesBehindIsThin(t *testing.T) {
	ops := compose(section(-1))
	require.GreaterOrEqual(t, last(ops, wide(Ink)), 0, "the clear block")
	require.GreaterOrEqual(t, last(ops, wide(Touch)), 0, "the tank that touches")
	thin := last(ops, func(o *Op) bool { return o.Kind == LineOp && o.Paint.Tone == Line && o.Closed })
	require.GreaterOrEqual(t, thin, 0)
	require.Equal(t, Narrow, ops[thin].Width)
	require.Positive(t, ops[thin].Paint.Fade, "fainter with depth")
	require.Less(t, thin, last(ops, wide(Ink)), "and painted first")
}

func TestSelectedPartIsNotHidden(t *testing.T) {
	ops := compose(section(0))
	require.Greater(t, last(ops, wide(Hand)), last(ops, wide(Touch)), "the selected block is painted after the tank over it")
	ops = compose(section(1))
	require.Greater(t, last(ops, wide(Touch)), last(ops, wide(Ink)))
}

// The mark of a touch is a filled diamond, of a tight place an open triangle:
// the shapes differ, not only the colours.
func TestMarksDifferInShape(t *testing.T) {
	corners := func(st fitment.Status) (n int, filled bool) {
		l := &List{}
		Sign(l, st, mgl64.Vec2{50, 50}, 9)
		for _, o := range l.Ops {
			n = len(o.Pts)
			filled = filled || o.Kind == FillOp && o.Paint.Tone != Paper
		}
		return n, filled
	}
	n, filled := corners(fitment.Contact)
	require.Equal(t, 4, n)
	require.True(t, filled)
	n, filled = corners(fitment.Tight)
	require.Equal(t, 3, n)
	require.False(t, filled)
}

func TestMarkStatesItsGapWithALeader(t *testing.T) {
	s := section(-1)
	ops := compose(s)
	i := last(ops, func(o *Op) bool { return o.Kind == TextOp && o.Text == "−50, needs 3" })
	require.GreaterOrEqual(t, i, 0)
	require.Equal(t, Touch, ops[i].Paint.Tone)
	at := s.Marks[0].At(&s.Proj)
	leader := last(ops, func(o *Op) bool {
		return o.Kind == LineOp && len(o.Pts) == 2 && !o.Closed && o.Paint.Tone == Touch && o.Pts[0].Sub(at).Len() < 2*markSize
	})
	require.GreaterOrEqual(t, leader, 0)
}

func TestCentrelineGroundAndRimLine(t *testing.T) {
	s := section(-1)
	ops := compose(s)
	centre := last(ops, func(o *Op) bool {
		return o.Kind == LineOp && o.Dash != nil && o.Pts[0][0] == o.Pts[1][0] && o.Pts[0][0] == s.Proj.Screen(fitment.Pt{})[0]
	})
	require.GreaterOrEqual(t, centre, 0)
	rim := last(ops, func(o *Op) bool {
		return o.Kind == LineOp && o.Dash != nil && o.Pts[0][1] == o.Pts[1][1] && o.Pts[0][1] == s.level(60)
	})
	require.GreaterOrEqual(t, rim, 0)
	require.Equal(t, DashDot, ops[rim].Dash)
	ground := last(ops, func(o *Op) bool {
		return o.Kind == LineOp && o.Width == Wide && o.Pts[0][1] == s.level(0) && o.Pts[1][1] == s.level(0)
	})
	require.GreaterOrEqual(t, ground, 0)
	require.GreaterOrEqual(t, last(ops, func(o *Op) bool { return o.Text == "rim line" }), 0)
}
