package draw

import (
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// The datum stands where body Z is 0, which the ground's equation puts at its
// own height over the ground, in the section and in the side view, named once
// where no other text stands; the plan looks down on it.
func TestFrameDatumIsDrawnAndNamed(t *testing.T) {
	const high = 180.0 // mm from the ground up to the datum
	for _, v := range []fitment.View{fitment.SectionView, fitment.SideView, fitment.PlanView} {
		s := section(-1)
		s.View = v
		cam := view.Camera{Centre: mgl64.Vec2{0, 200}, PxPerMM: 1}
		s.Proj = view.Project(v, s.Station, scene.Vec{0, 0, 1}, high, cam, s.Rect)
		ops := compose(s)
		line := last(ops, func(o *Op) bool {
			return o.Kind == LineOp && len(o.Dash) == 4 && o.Paint.Tone == Soft && o.Pts[0][1] == s.level(high) && o.Pts[1][1] == s.level(high)
		})
		name := last(ops, func(o *Op) bool { return o.Kind == TextOp && o.Text == DatumText })
		if v == fitment.PlanView {
			require.Negative(t, name)
			continue
		}
		require.GreaterOrEqual(t, line, 0)
		require.Equal(t, Fine, ops[line].Width)
		require.Positive(t, ops[line].Paint.Fade)
		require.GreaterOrEqual(t, name, 0)
		box := textBox(&ops[name])
		for i := range ops {
			if i != name && ops[i].Kind == TextOp {
				other := textBox(&ops[i])
				require.False(t, box.Overlaps(other), "on %q", ops[i].Text)
			}
		}
	}
}

func textBox(o *Op) view.Rect {
	w := RoughWidth(o.Text, o.Size, o.Bold)
	return view.Rect{X: o.Pts[0][0], Y: o.Pts[0][1] - o.Size, W: w, H: o.Size}
}
