package app

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// While a finger drags, what stands beside the canvas follows at its pace, the
// last of it included; the drawing follows at once.
func TestThePanelFollowsADragAtItsPace(t *testing.T) {
	a, page := shown(t, "bakery-van.json")
	send(t, a, Command{Do: "select", Part: "air_tank"})
	p := grip(t, a, "air_tank")
	page.now += panelsWithinMS
	press(a, "touch", p, [2]float64{40, 0})
	a.Tick()
	require.Equal(t, dragPart, a.hand.mode)
	sent, at := len(page.panels), page.last(t).Form
	a.Pointer("pointermove", "touch", 1, p[0]+120, p[1], 0.5)
	for range 5 {
		page.now += panelsEveryMS / 10
		a.Tick()
	}
	require.Equal(t, sent, len(page.panels), "not yet")
	page.now += panelsEveryMS
	a.Tick()
	require.Equal(t, sent+1, len(page.panels), "in a frame that has nothing else to do")
	require.NotEqual(t, at, page.last(t).Form)
	from := page.now
	sent = len(page.panels)
	for i := 0.0; len(page.panels) == sent; i++ {
		require.LessOrEqual(t, page.now, from+panelsWithinMS+20, "a finger that never rests does not hold it up")
		a.Pointer("pointermove", "touch", 1, p[0]+120+i, p[1], 0.5)
		page.now += 16
		a.Tick()
	}
	a.Pointer("pointermove", "touch", 1, p[0]+160, p[1], 0.5)
	a.Pointer("pointerup", "touch", 1, p[0]+160, p[1], 0)
	sent = len(page.panels)
	a.Tick()
	require.Greater(t, len(page.panels), sent, "a lifted finger waits for nothing")
}
