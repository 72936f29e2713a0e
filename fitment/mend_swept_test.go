package fitment

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// A slide is turned with the part that it carries: what stands where the part
// would then be slid to must be met, however far that is from where it slides
// now. Placed by hand so that turns of about 30° aim the slide at the block.
func TestTurnsAimSlidesAtNothing(t *testing.T) {
	turns := 0
	for _, far := range []scene.Vec{{-353.5, 421.3, 700}, {-421.3, 353.5, 700}, {-188.1, 516.8, 700}, {-460, 385, 700}} {
		p := block("p", scene.Body, scene.Vec{0, 0, 700}, 200, 40, 40)
		p.Moves = []string{"track"}
		doc := bench(p, block("w", scene.Body, scene.Vec{95, -30, 700}, 20, 100, 40), block("far", scene.Body, far, 100, 100, 100))
		doc.Movements = []scene.Movement{{ID: "track", Name: "Track", Kind: scene.Slide, Carrier: scene.Body, Axis: scene.Vec{0, 1, 0}, To: 600}}
		got, err := compile(t, doc).Mend("p", MendOptions{LimitMM: 600})
		require.NoError(t, err)
		require.False(t, got.Clear)
		for i := range got.Moves {
			mv := &got.Moves[i]
			if mv.TurnDeg != 0 {
				turns++
			}
			require.Empty(t, shortOf(compile(t, applied(t, doc, "p", mv)), "p"), fmt.Sprintf("block at %v: %+v", far, mv))
		}
	}
	require.Positive(t, turns)
}
