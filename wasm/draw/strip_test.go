package draw

import (
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// The strip's caption stands beside the vehicle and the flag, or not at all.
func TestStripCaptionKeepsOffTheVehicle(t *testing.T) {
	for _, wide := range []float64{900, 600, 420, 374, 300} {
		for _, station := range []float64{-500, 0, 1500, 4000} {
			r := view.Rect{W: wide, H: 120}
			cam := view.Fit(r, mgl64.Vec2{-700, 0}, mgl64.Vec2{4200, 1900}, 7)
			s := &StripSheet{Rect: r, Proj: view.Project(fitment.SideView, 0, scene.Vec{0, 0, 1}, 0, cam, r), Ground: cam.Matrix(r),
				Outs:  []fitment.Outline{{Seen: [][]fitment.Pt{rect(-700, 4200, 0, 1900)}}},
				Parts: []PartLook{{}}, Selected: -1, Station: station, Measure: RoughWidth}
			l := &List{}
			s.Compose(l)
			car, ok := (&Sheet{Proj: s.Proj}).box(s.Outs[0].Seen)
			require.True(t, ok)
			found := false
			for i := range l.Ops {
				if o := &l.Ops[i]; o.Kind == TextOp && o.Paint.Tone == Soft {
					found = true
					require.False(t, textBox(o).Overlaps(car), "%q at width %v", o.Text, wide)
					require.False(t, textBox(o).Overlaps(s.Flag()), "%q at width %v", o.Text, wide)
				}
			}
			require.True(t, found || wide < 500, "there is room for it at width %v", wide)
		}
	}
}
