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
	page.now += panelsEveryMS
	press(a, "touch", p, [2]float64{40, 0})
	a.Tick()
	require.Equal(t, dragPart, a.hand.mode)
	sent, at := len(page.panels), page.last(t).Form
	a.Pointer("pointermove", "touch", 1, p[0]+120, p[1], 0.5)
	for range 5 {
		page.now += panelsEveryMS / 10
		a.Tick()
	}
	require.Len(t, page.panels, sent, "not yet")
	page.now += panelsEveryMS
	a.Tick()
	require.Len(t, page.panels, sent+1)
	require.NotEqual(t, at, page.last(t).Form)
	a.Pointer("pointermove", "touch", 1, p[0]+160, p[1], 0.5)
	a.Pointer("pointerup", "touch", 1, p[0]+160, p[1], 0)
	sent = len(page.panels)
	a.Tick()
	require.Greater(t, len(page.panels), sent, "a lifted finger waits for nothing")
}
