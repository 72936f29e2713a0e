package draw

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/wasm/view"
)

// However the outline is turned, and however large the letters, the words of its
// axis cross are whole, and none lies on another.
func TestTheAxisCrossIsNotCutOff(t *testing.T) {
	for _, letters := range []float64{1, 1.75} {
		for yaw := -180.0; yaw < 180; yaw += 7 {
			for pitch := -90.0; pitch <= 90; pitch += 15 {
				s := TurnSheet{Rect: view.Rect{X: 10, Y: 20, W: 400, H: 500}, Turn: view.Turn{Yaw: yaw * math.Pi / 180, Pitch: pitch * math.Pi / 180}}
				l := &List{Letters: letters}
				s.cross(l, &Placer{})
				var boxes []view.Rect
				for _, op := range l.Ops {
					if op.Kind != TextOp {
						continue
					}
					half := RoughWidth(op.Text, op.Size, op.Bold) / 2
					at := op.Pts[0]
					require.GreaterOrEqual(t, at[0]-half, s.Rect.X, "%s at %g, %g", op.Text, yaw, pitch)
					box := view.Rect{X: at[0] - half, Y: at[1] - 0.8*op.Size, W: 2 * half, H: op.Size}
					for _, other := range boxes {
						require.False(t, box.Overlaps(other), "%s on another at %g, %g", op.Text, yaw, pitch)
					}
					boxes = append(boxes, box)
					require.Less(t, at[1], s.Rect.Y+s.Rect.H, "%s at %g, %g", op.Text, yaw, pitch)
				}
			}
		}
	}
}
