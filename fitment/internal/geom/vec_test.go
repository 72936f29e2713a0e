package geom_test

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
)

func random(m *rand.Rand) geom.Vec {
	return geom.V(2*m.Float64()-1, 2*m.Float64()-1, 2*m.Float64()-1)
}

// rounding is what a few operations on numbers near 1 may lose.
const rounding = 1e-14

func same(t *testing.T, want, have geom.Vec) {
	t.Helper()
	assert.InDelta(t, 0, want.Dist(have), rounding, "want %v, have %v", want, have)
}

// Lagrange's identity, |a×b|² + (a·b)² = |a|²|b|², and a×b square to both.
func TestProducts(t *testing.T) {
	m := rand.New(rand.NewSource(1))
	for range 1000 {
		a, b := random(m), random(m)
		c := a.Cross(b)
		assert.InDelta(t, a.LenSq()*b.LenSq(), c.LenSq()+a.Dot(b)*a.Dot(b), rounding)
		assert.InDelta(t, 0, c.Dot(a), rounding)
		assert.InDelta(t, 0, c.Dot(b), rounding)
	}
	assert.Equal(t, geom.V(0, 0, 1), geom.V(1, 0, 0).Cross(geom.V(0, 1, 0)), "right-handed")
}

// A turn is roll about X, then pitch about Y, then yaw about Z, right-handed
// about fixed axes. Derived: one quarter turn of each.
func TestTurn(t *testing.T) {
	q := math.Pi / 2
	for _, c := range []struct {
		turn     geom.Mat
		from, to geom.Vec
	}{
		{geom.Turn(q, 0, 0), geom.V(0, 1, 0), geom.V(0, 0, 1)},
		{geom.Turn(0, q, 0), geom.V(0, 0, 1), geom.V(1, 0, 0)},
		{geom.Turn(0, 0, q), geom.V(1, 0, 0), geom.V(0, 1, 0)},
		{geom.Turn(q, q, 0), geom.V(0, 1, 0), geom.V(1, 0, 0)},
		{geom.Turn(0, q, q), geom.V(0, 0, 1), geom.V(0, 1, 0)},
		{geom.Turn(q, q, q), geom.V(0, 0, 1), geom.V(1, 0, 0)},
	} {
		same(t, c.to, c.turn.Apply(c.from))
		same(t, c.from, c.turn.ApplyT(c.to))
	}
}

// Poses follow one another as their points do, and undo themselves.
func TestPoses(t *testing.T) {
	m := rand.New(rand.NewSource(2))
	for range 500 {
		r, s := random(m), random(m)
		p := geom.Pose{R: geom.Turn(r.X, r.Y, r.Z), P: random(m)}
		q := geom.Pose{R: geom.Turn(s.X, s.Y, s.Z), P: random(m)}
		v := random(m)
		both := p.Then(&q)
		same(t, q.Apply(p.Apply(v)), both.Apply(v))
		same(t, v, p.Inverse(p.Apply(v)))
		back := p.R.TMul(&q.R)
		same(t, p.R.ApplyT(q.R.Apply(v)), back.Apply(v))
	}
}

// The frames carry their axis to the direction asked for, and are rotations:
// they keep lengths and are right-handed.
func TestFrames(t *testing.T) {
	m := rand.New(rand.NewSource(3))
	axes := []geom.Vec{{X: 1}, {Y: 1}, {Z: 1}, {X: -1}, {Y: -1}, {Z: -1}}
	for range 500 {
		axes = append(axes, random(m).Unit())
	}
	for _, u := range axes {
		x, z := geom.AlongX(u), geom.AlongZ(u)
		same(t, u, x.AxisX())
		same(t, u, z.AxisZ())
		for _, r := range []geom.Mat{x, z} {
			same(t, r.AxisX(), r.AxisY().Cross(r.AxisZ()))
			assert.InDelta(t, 1, r.AxisX().Len(), rounding)
			assert.InDelta(t, 1, r.AxisY().Len(), rounding)
		}
		assert.InDelta(t, 0, u.Dot(u.Perp()), rounding)
		assert.InDelta(t, 1, u.Perp().Len(), rounding)
	}
	assert.Equal(t, geom.V(1, 0, 0), geom.Vec{}.Perp())
}

func TestFinite(t *testing.T) {
	assert.True(t, geom.V(1, -2, 3).Finite())
	assert.False(t, geom.V(1, math.NaN(), 3).Finite())
	assert.False(t, geom.V(1, 2, math.Inf(-1)).Finite())
}
