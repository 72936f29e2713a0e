package draw

import (
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// A section shows of a bar what lies ahead of its plane. The cut by hand: half
// way along, at Y 150 and Z 25.
func TestALinkIsCutWhereTheSectionLooksPast(t *testing.T) {
	from, to := scene.Vec{2000, 100, 0}, scene.Vec{3000, 200, 50}
	k, ok := NewLink(fitment.SectionView, 2500, from, to)
	require.True(t, ok)
	require.Equal(t, Link{P: fitment.Pt{100, 0}, Q: fitment.Pt{150, 25}, Ends: [2]bool{true, false}, Depth: 2250}, k)
	k, ok = NewLink(fitment.SectionView, 2500, to, from)
	require.True(t, ok)
	require.Equal(t, Link{P: fitment.Pt{150, 25}, Q: fitment.Pt{100, 0}, Ends: [2]bool{false, true}, Depth: 2250}, k)
	k, ok = NewLink(fitment.SectionView, 3000, from, to)
	require.True(t, ok)
	require.Equal(t, [2]bool{true, true}, k.Ends, "all of it ahead")
	_, ok = NewLink(fitment.SectionView, 1999, from, to)
	require.False(t, ok, "all of it behind the eye")
	k, ok = NewLink(fitment.SideView, 0, from, to)
	require.True(t, ok)
	require.Equal(t, Link{P: fitment.Pt{2000, 0}, Q: fitment.Pt{3000, 50}, Ends: [2]bool{true, true}, Depth: -150}, k)
	k, _ = NewLink(fitment.PlanView, 0, from, to)
	require.Equal(t, Link{P: fitment.Pt{2000, 100}, Q: fitment.Pt{3000, 200}, Ends: [2]bool{true, true}, Depth: 25}, k)
}

func TestALinkIsACentrelineWithRoundEnds(t *testing.T) {
	s := section(-1)
	near, _ := NewLink(s.View, s.Station, scene.Vec{990, 0, 120}, scene.Vec{1000, 150, 130})
	far, _ := NewLink(s.View, s.Station, scene.Vec{100, 0, 120}, scene.Vec{2000, 150, 130})
	count := func() (lines []Op, rings int) {
		at := map[float64]bool{}
		for _, o := range compose(s) {
			if o.Kind == LineOp && o.Paint.Tone == Ink && o.Width == Fine && len(o.Dash) > 0 {
				lines = append(lines, o)
				at[o.Paint.Fade] = true
			}
			if o.Kind == LineOp && o.Closed && o.Width == Narrow && o.Paint.Tone == Ink && len(o.Pts) == 32 {
				rings++
			}
		}
		return lines, rings
	}
	lines, rings := count()
	require.Empty(t, lines)
	require.Zero(t, rings)
	s.Links = []Link{near, far}
	lines, rings = count()
	require.Len(t, lines, 2)
	require.Equal(t, 3, rings, "the far one ends at the plane without a joint")
	require.Equal(t, s.Proj.Screen(near.P), lines[0].Pts[0])
	require.Greater(t, lines[1].Paint.Fade, lines[0].Paint.Fade, "farther is fainter")
}
