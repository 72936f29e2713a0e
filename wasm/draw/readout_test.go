package draw

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/wasm/view"
)

// Where a dragged part stands, and whether it fits there, is read whole on a
// phone's narrow drawing, and with large letters.
func TestTheReadoutIsWhole(t *testing.T) {
	const words = "Left of centre 462, above straight rail underside 180: too close to the left frame rail"
	for _, letters := range []float64{1, 1.75} {
		for _, w := range []float64{236, 390, 640} {
			s := Sheet{Rect: view.Rect{X: 8, Y: 100, W: w, H: 450}, Readout: words,
				Measure: func(t string, size float64, bold bool) float64 { return RoughWidth(t, size*letters, bold) }}
			lines := s.readoutLines(&List{Letters: letters}, view.Rect{X: 14, Y: 106, W: 60, H: 28 * letters})
			var said []string
			for i, line := range lines {
				said = append(said, line.text)
				require.LessOrEqual(t, line.box.X+line.box.W, s.Rect.X+w-6, line.text)
				if i > 0 {
					require.GreaterOrEqual(t, line.box.Y-lines[i-1].box.Y, 20*letters, "lines keep apart")
				}
			}
			require.Equal(t, words, strings.Join(said, " "))
		}
	}
	require.Empty(t, (&Sheet{Measure: RoughWidth}).readoutLines(&List{}, view.Rect{}))
}
