package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// A bar's end on the body keeps its place in body axes and its other end
// follows the axle, in every view.
func TestLinksMoveAsTheBodyMoves(t *testing.T) {
	a, _ := yard(t)
	require.Empty(t, a.mainSheet().Links, "a plain guide has no bars")
	send(t, a, Command{Do: "edit", Target: "vehicle", Field: "rear/suspension/kind", Text: scene.FourLinkPanhard})
	frame(a)
	for _, v := range []string{"side", "plan", "section"} {
		send(t, a, Command{Do: "view", View: v})
		send(t, a, Command{Do: "station", MM: 1e6}) // behind everything: a section sees all
		send(t, a, Command{Do: "named", Key: scene.Ride})
		ride := a.mainSheet().Links
		require.Len(t, ride, 5, v)
		send(t, a, Command{Do: "named", Key: scene.AiredOut})
		low := a.mainSheet().Links
		require.Len(t, low, 5, v)
		for i := range ride {
			require.InDelta(t, ride[i].P[0], low[i].P[0], 1e-9, v)
			require.InDelta(t, ride[i].P[1], low[i].P[1], 1e-9, v)
			require.NotEqual(t, ride[i].Q, low[i].Q, v)
		}
		if a.view != fitment.PlanView { // 130 lower over the rear axle: its middle stands that much higher in the body
			require.InDelta(t, 130, (low[0].Q[1]+low[1].Q[1]-ride[0].Q[1]-ride[1].Q[1])/2, 2, v)
		}
	}
}
