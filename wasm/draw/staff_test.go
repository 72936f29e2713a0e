package draw

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// Words are dropped before a number is cut, on every width of the staff and in
// both units.
func TestARungKeepsItsNumber(t *testing.T) {
	for _, number := range []string{"−57.2", "−2 15/16", "+70"} {
		for _, wide := range []float64{160, 116} {
			tr := view.TravelOf([]scene.Height{{ID: scene.AiredOut, FrontMM: -130, RearMM: -130}, {ID: scene.Ride}, {ID: scene.AiredUp, FrontMM: 70, RearMM: 70}})
			s := &StaffSheet{Staff: view.NewStaff(view.Rect{W: wide, H: 600}, &tr), Units: scene.Millimetres, Measure: RoughWidth,
				Format: func(float64) string { return "" },
				Named:  []Rung{{MM: -130, Number: number, Words: []string{"aired out", "out"}, First: true}},
				Rungs:  []Rung{{MM: -57, Number: number, Words: []string{"spring/exhaust", "spring"}, Status: fitment.Contact}}}
			l := &List{}
			s.Compose(l)
			numbers, words := 0, 0
			for _, o := range l.Ops {
				if o.Kind != TextOp {
					continue
				}
				require.NotContains(t, o.Text, "…")
				require.LessOrEqual(t, o.Pts[0][0]+RoughWidth(o.Text, o.Size, o.Bold), wide, "%q runs out of the staff", o.Text)
				if strings.Contains(o.Text, number) {
					numbers++
				}
				if strings.Contains(o.Text, "spring") || strings.Contains(o.Text, "out") {
					words++
				}
			}
			require.Equal(t, 2, numbers)
			require.Equal(t, 2, words)
		}
	}
}
