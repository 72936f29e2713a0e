package view

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"scrubline/scene"
)

// From behind, right is right and up is up; from the front, right is at the
// left; from the left side, the rear is at the right; from above with the front
// up, right is right (ISO 4130's axes, looked at along each).
func TestTurnedDirections(t *testing.T) {
	r := Rect{0, 0, 200, 200}
	for _, c := range []struct {
		name       string
		yaw, pitch float64
		p          scene.Vec
		x, y       float64
	}{
		{"from behind, right", 0, 0, scene.Vec{0, 10, 0}, 110, 100},
		{"from behind, up", 0, 0, scene.Vec{0, 0, 10}, 100, 90},
		{"from the front, right", math.Pi, 0, scene.Vec{0, 10, 0}, 90, 100},
		{"from the left, rear", -math.Pi / 2, 0, scene.Vec{10, 0, 0}, 110, 100},
		{"from the right, rear", math.Pi / 2, 0, scene.Vec{10, 0, 0}, 90, 100},
		{"from above, right", 0, math.Pi / 2, scene.Vec{0, 10, 0}, 110, 100},
		{"from above, front", 0, math.Pi / 2, scene.Vec{-10, 0, 0}, 100, 90},
		{"from below, front", 0, -math.Pi / 2, scene.Vec{-10, 0, 0}, 100, 110},
	} {
		s, _ := (&Turn{Yaw: c.yaw, Pitch: c.pitch, PxPerMM: 1}).Screen(r, c.p)
		assert.InDelta(t, c.x, s[0], 1e-9, c.name)
		assert.InDelta(t, c.y, s[1], 1e-9, c.name)
	}
}

// However it is turned, the three rows are square to each other and of unit
// length (an orthogonal matrix of determinant 1), and zooming about a point
// leaves it where it is.
func TestTurningKeepsLengths(t *testing.T) {
	r := Rect{10, 20, 600, 400}
	rapid.Check(t, func(t *rapid.T) {
		u := Turn{PxPerMM: 0.2}
		for range 5 {
			u = u.By(mgl64.Vec2{rapid.Float64Range(-500, 500).Draw(t, "dx"), rapid.Float64Range(-500, 500).Draw(t, "dy")})
		}
		m := u.Rows()
		if d := m.Mul3(m.Transpose()).Sub(mgl64.Ident3()); d.Mul3(d.Transpose()).Trace() > 1e-20 || math.Abs(m.Det()-1) > 1e-9 {
			t.Fatalf("not a rotation: %v", m)
		}
		p := scene.Vec{1000, -300, 200}
		s, _ := u.Screen(r, p)
		v := u.ZoomAbout(r, s, rapid.Float64Range(0.5, 2).Draw(t, "factor"))
		if q, _ := v.Screen(r, p); q.Sub(s).Len() > 1e-6 {
			t.Fatalf("it went from %v to %v", s, q)
		}
		w := u.Fit(r, scene.Vec{-800, -900, -200}, scene.Vec{4000, 900, 1800}, 20)
		for _, q := range []scene.Vec{{-800, -900, -200}, {4000, 900, 1800}, {4000, -900, 1800}} {
			if s, _ := w.Screen(r, q); !r.Inset(19).Contains(s) {
				t.Fatalf("%v is at %v", q, s)
			}
		}
	})
}
