package fitment

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// What is kept of outlines between calls and between models never shows: after
// any edit, at any height and station, they are those of a model made anew.
func TestOutlinesKeptAreThoseMadeAnew(t *testing.T) {
	m := open(t, "bakery-van.json")
	states := []State{{}, {FL: -60, FR: -60, RL: -90, RR: -90}, {FL: -10, FR: 20, RL: 5, RR: -40, Steer: 0.2}}
	moved := []string{"air_tank", "exhaust", "fuel_cell", "spring_rl", "axle_rear"}
	differ := false
	for step := range 24 {
		doc := *m.Doc
		doc.Parts = append([]scene.Part(nil), doc.Parts...)
		k := m.index[moved[step%len(moved)]]
		doc.Parts[k].AtMM[step%3] += 25
		next, err := m.With(&doc)
		require.NoError(t, err)
		fresh, err := Compile(&doc)
		require.NoError(t, err)
		for v := SectionView; v <= FrontView; v++ {
			for _, station := range []float64{2600, doc.Parts[k].AtMM[0]} {
				st := states[(step/2+int(v))%len(states)]
				was := next.Outlines(v, station, st)
				require.Equal(t, fresh.Outlines(v, station, st), was, "step %d, view %d, station %g", step, v, station)
				differ = differ || fmt.Sprint(was) != fmt.Sprint(m.Outlines(v, station, st))
			}
		}
		m = next
	}
	require.True(t, differ, "something was seen to move")
}
