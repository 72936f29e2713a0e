package draw

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
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

// The axis cross gives way to the arrow of the vehicle's front.
func TestTheAxisCrossKeepsOffTheFrontArrow(t *testing.T) {
	moved := 0
	for yaw := -180.0; yaw < 180; yaw += 5 {
		for pitch := -90.0; pitch <= 90; pitch += 10 {
			s := &TurnSheet{Rect: view.Rect{W: 400, H: 500}, Turn: view.Turn{Yaw: yaw * math.Pi / 180, Pitch: pitch * math.Pi / 180, PxPerMM: 0.1},
				Front: [2]scene.Vec{{-1400, 0, 0}, {-1900, 0, 0}}}
			l, labels := &List{Letters: 1}, &Placer{}
			s.cross(l, labels)
			require.False(t, s.atFront(labels.taken[0]), "at %g, %g", yaw, pitch)
			if labels.taken[0].X > 200 {
				moved++
			}
		}
	}
	require.NotZero(t, moved)
}

// Wherever the arrow of the vehicle's front points, its word is whole on the
// sheet and leaves the point of the arrow free; on a sheet too small for it the
// axis cross is left out.
func TestTheFrontIsNamedWhole(t *testing.T) {
	for _, letters := range []float64{1, 1.75} {
		measure := func(text string, size float64, bold bool) float64 { return RoughWidth(text, letters*size, bold) }
		said := 0
		for x := 0.0; x <= 240; x += 5 {
			for y := 0.0; y <= 300; y += 20 {
				for _, tip := range []mgl64.Vec2{{-12, 0}, {12, 0}, {0, 12}, {0, -12}, {8, 8}} {
					s := &TurnSheet{Rect: view.Rect{X: 0, Y: 0, W: 240, H: 300}, Measure: measure}
					l, at := &List{Letters: letters}, mgl64.Vec2{x, y}
					s.frontName(l, at, at.Add(tip.Mul(l.em(1.6))))
					for _, op := range l.Ops {
						if op.Kind != TextOp {
							continue
						}
						said++
						half := measure(op.Text, op.Size/letters, op.Bold) / 2
						require.GreaterOrEqual(t, op.Pts[0][0]-half, 0.0)
						require.LessOrEqual(t, op.Pts[0][0]+half, 240.0)
						require.GreaterOrEqual(t, op.Pts[0][1]-0.74*op.Size, 0.0)
						require.LessOrEqual(t, op.Pts[0][1]+0.2*op.Size, 300.0)
					}
				}
			}
		}
		require.Greater(t, said, 1000)
		for high, want := range map[float64]bool{420: true, 90: false} {
			l := &List{Letters: letters}
			s := &TurnSheet{Rect: view.Rect{W: 500, H: high}}
			s.cross(l, &Placer{})
			require.Equal(t, want, len(l.Ops) > 0, "%g tall, letters of %g", high, letters)
		}
	}
}
