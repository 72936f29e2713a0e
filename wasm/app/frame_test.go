package app

import (
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// While a part is dragged each picture brings the drawing under the finger and
// one of those beside it; all are there soon after the finger rests, and at once
// when it is lifted.
func TestDrawingsBesideADragComeByTurns(t *testing.T) {
	a, _ := shown(t, "bakery-van.json")
	a.Resize(828, 746)
	send(t, a, Command{Do: "select", Part: "air_tank"})
	frame(a)
	drawn := func(l *draw.List) []string { return shownBy(a, l) }
	all := []string{"main", "small", "staff", "strip"}
	p := grip(t, a, "air_tank")
	press(a, "touch", p, [2]float64{40, 0})
	require.Equal(t, dragPart, a.hand.mode)
	seen := map[string]bool{}
	for i := range 16 {
		a.Pointer("pointermove", "touch", 1, p[0]+60+float64(i), p[1], 0.5)
		a.Tick()
		l := a.Frame()
		require.True(t, l.Over)
		now := drawn(l)
		require.Contains(t, now, "main")
		require.LessOrEqual(t, len(now), 2)
		for _, name := range now {
			seen[name] = true
		}
	}
	require.Len(t, seen, 4, "none waits for ever")

	a.Pointer("pointermove", "touch", 1, p[0]+90, p[1], 0.5)
	after := map[string]bool{}
	for n := 0; ; n++ {
		a.Tick()
		l := a.Frame()
		if l == nil {
			break
		}
		require.Less(t, n, 8, "it comes to rest")
		for _, name := range drawn(l) {
			after[name] = true
		}
	}
	require.Len(t, after, 4, "all show where the part is now")

	a.Pointer("pointerup", "touch", 1, p[0]+90, p[1], 0)
	a.Tick()
	l := a.Frame()
	require.False(t, l.Over)
	require.Equal(t, all, drawn(l))
}

// While the body is let down by its saddle, or the section moved by its flag, each
// picture brings the large drawing, what the finger is on, and one of the others.
func TestDrawingsBesideASaddleAndAFlagComeByTurns(t *testing.T) {
	for _, c := range []struct {
		held  string
		begin func(a *App) [2]float64
		mode  mode
	}{
		{"staff", func(a *App) [2]float64 { return a.Look().Saddle }, dragStaff},
		{"strip", func(a *App) [2]float64 { return a.Look().Flag }, dragFlag},
	} {
		t.Run(c.held, func(t *testing.T) {
			a, _ := shown(t, "bakery-van.json")
			a.Resize(828, 746)
			frame(a)
			p := c.begin(a)
			a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
			seen, pictures := map[string]int{}, 0
			for i := range 12 {
				a.Pointer("pointermove", "touch", 1, p[0]+float64(10+4*i), p[1]+float64(10+4*i), 0.5)
				a.Tick()
				l := a.Frame()
				if l == nil || !l.Over {
					continue
				}
				require.Equal(t, c.mode, a.hand.mode)
				pictures++
				require.LessOrEqual(t, len(shownBy(a, l)), 3)
				for _, name := range shownBy(a, l) {
					seen[name]++
				}
			}
			require.Greater(t, pictures, 6)
			require.Equal(t, pictures, seen["main"])
			require.Equal(t, pictures, seen[c.held])
			require.Len(t, seen, 4, "none waits for ever")
		})
	}
}

// shownBy names the drawings that a picture brings.
func shownBy(a *App, l *draw.List) (names []string) {
	for name, r := range map[string]view.Rect{"main": a.lay.Main, "staff": a.lay.Staff, "strip": a.lay.Strip, "small": a.lay.Small} {
		if slices.ContainsFunc(l.Ops, func(op draw.Op) bool { return op.Kind == draw.ClipOp && op.Clip == r.Inset(1) }) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	return names
}
