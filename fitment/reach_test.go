package fitment

import (
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// An upright spring 260 long at ride is as much longer or shorter as the rear
// has risen or dropped, and past its shortest of 150 from a drop of 110 on.
func TestReachesStandWhereTheBodyPutsThem(t *testing.T) {
	spring := part("spring", "air_spring", scene.Body, scene.Vec{3000, 400, 260}, map[string]float64{
		"lower_x_mm": 0, "lower_y_mm": 400, "lower_z_mm": 0, "shortest_mm": 150, "longest_mm": 400})
	m := compile(t, bench(spring))
	for _, rear := range []float64{-119, -111, -109, 0, 60} {
		links := m.Reaches(StateAt(0, rear))
		require.Len(t, links, 1)
		l := links[0]
		require.InDelta(t, 260+rear, l.LengthMM, near)
		require.InDelta(t, 260+rear, l.EndsMM[0][2]-l.EndsMM[1][2], near)
		require.Equal(t, [2]float64{150, 400}, [2]float64{l.ShortestMM, l.LongestMM})
		if rear > -110 {
			require.Empty(t, l.Past)
			continue
		}
		require.Len(t, l.Past, 1)
		require.Equal(t, TooShort, l.Past[0].Kind)
		require.InDelta(t, 260+rear, l.Past[0].Value, near)
	}
}
