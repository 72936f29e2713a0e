package app

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// placed is the part that stands last.
func placed(a *App) *scene.Part { return &a.doc.Parts[len(a.doc.Parts)-1] }

// A new spring or shock stands upright on the nearest axle, within its lengths,
// joined to that axle, in one step.
func TestSpringsAndShocksStandOnTheNearestAxle(t *testing.T) {
	for _, station := range []float64{-300, 400, 1400, 1500, 2600, 3300} {
		for _, kind := range []string{"air_spring", "shock"} {
			a, page := yard(t)
			before, joined := len(a.doc.Parts), len(a.doc.Joined)
			send(t, a, Command{Do: "station", MM: station})
			send(t, a, Command{Do: "place", Kind: kind})
			frame(a)
			p := placed(a)
			on, id := scene.FrontAxle, "front-axle"
			if station > a.doc.Vehicle.WheelbaseMM/2 {
				on, id = scene.RearAxle, "rear-axle"
			}
			require.Equal(t, string(on), p.Size.Text("lower_on"))
			foot := a.model.CarrierOrigin(on)
			for i, f := range [3]string{"lower_x_mm", "lower_y_mm", "lower_z_mm"} {
				foot[i] += p.Size.Num(f)
			}
			require.InDelta(t, p.AtMM[0], foot[0], 0.001, "under its top")
			require.InDelta(t, p.AtMM[1], foot[1], 0.001, "under its top")
			if hi := p.Size.Num("longest_mm"); hi > 0 {
				require.GreaterOrEqual(t, p.AtMM[2]-foot[2], p.Size.Num("shortest_mm"))
				require.LessOrEqual(t, p.AtMM[2]-foot[2], hi)
			}
			require.Len(t, a.doc.Joined, joined+1)
			require.Equal(t, scene.Joined{A: p.ID, B: id, Why: "mounted on it"}, a.doc.Joined[joined])
			said := false
			for _, text := range page.panels {
				said = said || containsAll(text, "mounted on it", `"message":"`+p.Name)
			}
			require.True(t, said, "it says so")
			send(t, a, Command{Do: "undo"})
			require.Len(t, a.doc.Parts, before)
			require.Len(t, a.doc.Joined, joined, "one step")
		}
	}
}

// A new exhaust starts behind the gearbox, or at the flag, and never leaves the
// vehicle at the rear.
func TestExhaustStaysInTheVehicle(t *testing.T) {
	for _, station := range []float64{0, 1500, 2600, 3600, 3700} {
		a, _ := yard(t)
		send(t, a, Command{Do: "station", MM: station})
		end := a.rearEnd()
		send(t, a, Command{Do: "place", Kind: "exhaust_run"})
		p := placed(a)
		rows := p.Size.Rows("vertices")
		require.InDelta(t, station, p.AtMM[0], 5)
		require.Greater(t, rows[len(rows)-1][0], 0.0, "rearward")
		require.LessOrEqual(t, p.AtMM[0]+rows[len(rows)-1][0], math.Max(end, p.AtMM[0]+shortestRun)+1)
	}
	a, _ := yard(t)
	send(t, a, Command{Do: "station", MM: 100})
	send(t, a, Command{Do: "place", Kind: "gearbox"})
	box := *placed(a)
	send(t, a, Command{Do: "place", Kind: "exhaust_run"})
	tail := box.AtMM[0] + box.Size.Num("bell_length_mm") + box.Size.Num("case_length_mm") + box.Size.Num("tail_length_mm")
	require.Greater(t, placed(a).AtMM[0], tail)
	require.Less(t, placed(a).AtMM[0], tail+200)
}

// On the vehicle everyone begins with, a new spring is put beside the rail, not
// into it.
func TestANewSpringIsPutWhereItTouchesNothing(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "station", MM: 2950})
	send(t, a, Command{Do: "place", Kind: "air_spring"})
	for _, r := range a.model.Nearest(placed(a).ID, a.state(), 3) {
		require.Positive(t, r.GapMM, "%s and %s", r.A, r.B)
	}
}
