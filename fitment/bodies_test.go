package fitment

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// The bodies of a scene are its solids where they stand: one on the body stays,
// one on an axle comes up by as much as the body goes down. Derived: State.
func TestBodies(t *testing.T) {
	m := compile(t, bench(
		block("fixed", scene.Body, scene.Vec{100, 0, 50}, 40, 20, 10),
		block("moves", scene.RearAxle, scene.Vec{0, 200, 0}, 30, 30, 30)))
	at := m.Bodies(StateAt(0, -100))
	require.Len(t, at, 2)
	assert.Equal(t, Body{Part: 0, Kind: "box", Size: [3]float64{20, 10, 5},
		Turn: [9]float64{1, 0, 0, 0, 1, 0, 0, 0, 1}, At: [3]float64{100, 0, 50}}, at[0])
	assert.Equal(t, 1, at[1].Part)
	assert.InDeltaSlice(t, []float64{3000, 200, 100}, at[1].At[:], near)
}

// Two blocks on the body 10 apart need one search, and those of a third far away
// none.
func TestEffort(t *testing.T) {
	m := compile(t, bench(
		block("a", scene.Body, scene.Vec{0, 0, 0}, 40, 40, 40),
		block("b", scene.Body, scene.Vec{42, 0, 0}, 40, 40, 40),
		block("far", scene.Body, scene.Vec{2000, 0, 0}, 40, 40, 40)))
	e := m.Effort()
	assert.Equal(t, 3, e.Pairs)
	assert.Equal(t, 1, e.Solids)
	assert.Positive(t, e.Gaps)
	assert.Equal(t, 75.0, e.MostNeedMM)
}
