package fitment

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// An upright spring 260 long at ride is 140 long at a rear drop of 120 and 320
// at a rise of 60.
func TestSpringLimits(t *testing.T) {
	for _, row := range []struct {
		name            string
		shortest, long  float64
		kind            LimitKind
		value, from, to float64
	}{
		{"on its stop from −110 down", 150, 400, TooShort, 140, -120, -110},
		{"pulled out from +45 up", 100, 305, TooLong, 320, 45, 60},
	} {
		t.Run(row.name, func(t *testing.T) {
			spring := part("spring", "air_spring", scene.Body, scene.Vec{3000, 400, 260}, map[string]float64{
				"lower_x_mm": 0, "lower_y_mm": 400, "lower_z_mm": 0, "shortest_mm": row.shortest, "longest_mm": row.long})
			m := compile(t, bench(spring))
			r := m.Check()
			require.Len(t, r.Limits, 1)
			l := r.Limits[0]
			require.Equal(t, row.kind, l.Kind)
			require.InDelta(t, row.value, l.Value, near)
			require.Len(t, l.Short, 1)
			require.InDelta(t, row.from, l.Short[0].From.RearMM, 0.01)
			require.InDelta(t, row.to, l.Short[0].To.RearMM, 0.01)
			require.True(t, r.Short())
		})
	}
}

// A shock whose lengths are not measured has no limit.
func TestUnmeasuredIsNoLimit(t *testing.T) {
	require.Empty(t, compile(t, bench(part("shock", "shock", scene.Body, scene.Vec{2900, -400, 400}, nil))).Check().Limits)
}

// A level shaft 1000 long between level joints bends each joint by
// atan(lift/1000): 5° from a lift of 1000·tan 5° = 87.49 on, 6.84° at 120. At
// a drop its length is hypot(1000, 120).
func TestJointAngles(t *testing.T) {
	shaft := part("shaft", "driveshaft", scene.Body, scene.Vec{2000, 0, 0}, map[string]float64{
		"rear_x_mm": 0, "rear_y_mm": 0, "rear_z_mm": 0, "front_falls_deg": 0, "rear_falls_deg": 0, "joint_max_deg": 5,
		"longest_mm": 1005})
	r := compile(t, bench(shaft)).Check()
	require.Len(t, r.Limits, 3)
	require.Equal(t, TooLong, r.Limits[0].Kind)
	require.InDelta(t, math.Hypot(1000, 120), r.Limits[0].Value, near)
	for _, l := range r.Limits[1:] {
		require.InDelta(t, math.Atan2(120, 1000)/rad(1), l.Value, near)
		require.InDelta(t, -1000*math.Tan(rad(5)), l.Short[0].To.RearMM, 0.03)
	}
}

// Two joints that stand at equal angles on both sides even out; both bend by
// the same at every height when gearbox and pinion stay parallel (common
// practice for a two-joint shaft; here the geometry alone is tested).
func TestParallelJointsBendAlike(t *testing.T) {
	shaft := part("shaft", "driveshaft", scene.Body, scene.Vec{2000, 0, 60}, map[string]float64{
		"rear_x_mm": 0, "rear_y_mm": 0, "rear_z_mm": 0, "front_falls_deg": 3, "rear_falls_deg": 3})
	m := compile(t, bench(shaft))
	k := m.parts[0].items[0].link
	for _, move := range []float64{-120, -40, 0, 60} {
		st := StateAt(0, move).motion()
		front, rear := m.jointAngles(k, &st)
		require.InDelta(t, front, rear, near)
		require.InDelta(t, math.Abs(math.Atan2(60+move, 1000)/rad(1)-3), front, near)
	}
}
