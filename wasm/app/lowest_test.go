package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// The ground clearance names its part; in a section that cuts something higher,
// it also says what hangs lowest of all at this height.
func TestGroundClearanceNamesItsPart(t *testing.T) {
	a, _ := yard(t)
	for _, h := range []string{scene.AiredOut, scene.Ride, scene.AiredUp} {
		send(t, a, Command{Do: "named", Key: h})
		all := a.model.Clearance(a.state())
		name := a.plain(all.Part)
		for _, station := range []float64{0, 1500, 2950} {
			send(t, a, Command{Do: "station", MM: station})
			frame(a)
			d := a.lowest(a.mainSheet())
			require.NotNil(t, d)
			if d.Text == a.measured(all.GroundMM)+" "+name {
				require.Empty(t, d.More)
				continue
			}
			require.Regexp(t, `^[\d.]+ [a-z]`, d.Text)
			require.Equal(t, "lowest of all "+a.measured(all.GroundMM)+": "+name, d.More)
		}
		send(t, a, Command{Do: "view", View: viewNames[fitment.SideView]})
		require.Equal(t, a.measured(all.GroundMM)+" "+name, a.lowest(a.mainSheet()).Text)
		send(t, a, Command{Do: "view", View: viewNames[fitment.SectionView]})
	}
}

// A caption fits its sheet on every size, posed or not.
func TestCaptionsFit(t *testing.T) {
	a, _ := yard(t)
	for _, u := range []string{"mm", "in"} {
		send(t, a, Command{Do: "units", Text: u})
		for _, size := range [][2]float64{{1180, 760}, {820, 680}, {374, 620}} {
			a.Resize(size[0], size[1])
			for _, v := range viewNames {
				send(t, a, Command{Do: "view", View: v})
				for _, mm := range []float64{-400, 0, 2945.3} {
					send(t, a, Command{Do: "station", MM: mm})
					require.LessOrEqual(t, a.measure(a.caption(), 15, false), a.lay.Main.W-16, a.caption())
				}
			}
		}
	}
}
