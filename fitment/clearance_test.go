package fitment

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// Rim bottom over the ground of a 295/25R22 without deflection is its section
// height: 295·0.25 = 73.75 mm (computed from the tyre size code, ISO 4000-1
// form: width × aspect ratio).
func TestRimLineFromTyreCode(t *testing.T) {
	doc := bench()
	doc.Vehicle.Front.Tyre = scene.Tyre{Code: "295/25R22"}
	doc.Vehicle.Rear.Tyre = scene.Tyre{Code: "295/25R22"}
	require.InDelta(t, 73.75, compile(t, doc).RimLine(StateAt(0, 0)), near)
	require.InDelta(t, 73.75, compile(t, doc).RimLine(StateAt(-80, -80)), near, "wheels stay on the ground")
	doc.Vehicle.Front.Tyre.DeflectionMM = 10
	require.InDelta(t, 63.75, compile(t, doc).RimLine(StateAt(0, 0)), near, "the lower of the two ends")
}

// A muffler of the test bench whose underside is 120 below the frame stands
// 300 − 120 = 180 over the ground at ride and 80 lower than that at a level
// drop of 80. The rim's lowest point is 300 − 200 = 100 over the ground.
func TestClearance(t *testing.T) {
	m := compile(t, bench(block("muffler", scene.Body, scene.Vec{1500, 300, -70}, 500, 200, 100)))
	at := m.Clearance(StateAt(0, 0))
	require.InDelta(t, 180, at.GroundMM, near)
	require.Equal(t, "muffler", at.Part)
	require.Empty(t, at.Below)
	down := m.Clearance(StateAt(-90, -90))
	require.InDelta(t, 90, down.GroundMM, near)
	require.InDelta(t, 100, down.RimLineMM, near)
	require.Len(t, down.Below, 1)
	require.Equal(t, 1, m.Check().Summary.RimLine)
	require.True(t, m.Check().Short())
}

// With the rear let down alone the body tilts about the front wheels' line:
// a point at station x sinks by drop·x/wheelbase, to first order; the exact
// height is that of the plane through the wheel centres (derived: the ground
// is parallel to it at the wheel radius, both radii being one).
func TestClearanceTilted(t *testing.T) {
	m := compile(t, bench(block("step", scene.Body, scene.Vec{1500, 0, -50}, 1, 10, 100)))
	drop := 120.0
	c := m.Clearance(StateAt(0, -drop))
	tilt := math.Atan2(drop, 3000)
	// the line through the wheel centres in body axes: z = drop·x/3000
	want := 300 + math.Cos(tilt)*(-100-drop*1500.5/3000)
	require.InDelta(t, want, c.GroundMM, near)
}

// Wheels do not count as hanging low, and neither does what stands on the
// ground.
func TestWheelsDoNotHang(t *testing.T) {
	m := compile(t, bench(
		part("wheel", "wheel", scene.WheelFL, scene.Vec{}, nil),
		block("jack", scene.Ground, scene.Vec{500, 0, 50}, 100, 100, 100)))
	require.Empty(t, m.Clearance(StateAt(0, 0)).Part)
}

// The ground carrier: a block standing on the ground keeps standing on it.
func TestGroundCarrier(t *testing.T) {
	m := compile(t, bench(
		block("stand", scene.Ground, scene.Vec{1500, 0, 50}, 100, 100, 100),
		block("sill", scene.Body, scene.Vec{1500, 0, 20}, 400, 100, 40)))
	for _, row := range []struct{ move, gap float64 }{{0, 200}, {-100, 100}, {50, 250}} {
		g, err := m.GapBetween("stand", "sill", StateAt(row.move, row.move))
		require.NoError(t, err)
		require.InDelta(t, row.gap, g.GapMM, near)
	}
}
