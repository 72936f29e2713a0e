package app

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A phone's list of kinds covers the drawing but for a rim: the part that is
// taken from it goes where it would have gone, and the drawing is as large as
// before when it comes to light again.
func TestACoveredCanvasKeepsTheDrawing(t *testing.T) {
	for _, rim := range []float64{0, 6, 110} {
		a, _ := yard(t)
		send(t, a, Command{Do: "select"})
		send(t, a, Command{Do: "fit"})
		a.Resize(374, 620)
		scale := a.camera().PxPerMM
		lo, hi := a.bounds(a.view)
		a.Resize(374, rim)
		send(t, a, Command{Do: "place", Kind: "battery"})
		at := a.doc.Parts[a.partIndex(a.selected)].AtMM
		a.Resize(374, 620)
		require.InEpsilon(t, scale, a.camera().PxPerMM, 0.01, "covered but for %g", rim)
		_, c := a.model.GroundPlane(a.state())
		require.Greater(t, at[2], lo[1]-c, "covered but for %g", rim)
		require.Less(t, at[2], hi[1]-c, "covered but for %g", rim)
	}
}

// On a sheet that is taller than the whole vehicle the section stands in the
// middle, not at the lower edge with nothing over it.
func TestATallSheetHasTheSectionInItsMiddle(t *testing.T) {
	a := van(t)
	for _, size := range [][2]float64{{374, 620}, {374, 900}} {
		a.Resize(size[0], size[1])
		cam, r := a.homeCamera(a.view), a.lay.Main
		lo, hi := a.bounds(a.view)
		over, under := r.H/2-(hi[1]-cam.Centre[1])*cam.PxPerMM, r.H/2-(cam.Centre[1]-lo[1])*cam.PxPerMM
		require.InDelta(t, over, under, 30, "%v: the caption's line more above than below", size)
		require.Greater(t, under, 0.0)
	}
}
