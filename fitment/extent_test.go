package fitment

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// Where things begin and end: a block by its half sizes, one that is turned by
// a quarter by its sides changed over, a tank's round side by its radius, one
// on the axle from the axle's origin.
func TestExtents(t *testing.T) {
	turned := block("turned", scene.Body, scene.Vec{500, 0, 0}, 100, 60, 40)
	turned.TurnDeg = scene.Vec{0, 0, 90}
	m := compile(t, bench(
		block("plain", scene.Body, scene.Vec{100, 200, 300}, 100, 60, 40), turned,
		part("tank", "air_tank", scene.Body, scene.Vec{1000, 0, 0}, map[string]float64{"diameter_mm": 200, "length_mm": 600}),
		block("axle", scene.RearAxle, scene.Vec{0, 0, 10}, 20, 20, 20)))
	on := m.CarrierOrigin(scene.RearAxle)
	for id, want := range map[string][2]scene.Vec{
		"plain":  {{50, 170, 280}, {150, 230, 320}},
		"turned": {{470, -50, -20}, {530, 50, 20}},
		"axle":   {{on[0] - 10, -10, on[2]}, {on[0] + 10, 10, on[2] + 20}},
	} {
		lo, hi, ok := m.Extent(id)
		require.True(t, ok)
		for k := range lo {
			assert.InDelta(t, want[0][k], lo[k], near, "%s %d", id, k)
			assert.InDelta(t, want[1][k], hi[k], near, "%s %d", id, k)
		}
	}
	lo, hi, _ := m.Extent("tank")
	assert.InDelta(t, 200, hi[2]-lo[2], near)
	_, _, ok := m.Extent("nobody")
	assert.False(t, ok)
}

// A hinge that went elsewhere changes what it carries and nothing else: the
// other answers are kept, and all are those of a model built anew.
func TestAMovedHingeKeepsTheOtherAnswers(t *testing.T) {
	doc := bench(
		block("door", scene.Body, scene.Vec{0, 0, 500}, 400, 20, 400),
		block("post", scene.Body, scene.Vec{260, 0, 500}, 60, 60, 400),
		block("a", scene.Body, scene.Vec{2000, 0, 0}, 40, 40, 40), block("b", scene.Body, scene.Vec{2042, 0, 0}, 40, 40, 40))
	doc.Movements = []scene.Movement{{ID: "swing", Name: "Swing", Kind: scene.Hinge, Carrier: scene.Body, AtMM: scene.Vec{200, 0, 0}, Axis: scene.Vec{0, 0, 1}, To: 60}}
	doc.Parts[0].Moves = []string{"swing"}
	m := compile(t, doc)
	m.Check()
	next, _, err := scene.MovePart(doc, "door", scene.Vec{-30, 0, 500})
	require.NoError(t, err)
	require.Equal(t, 170.0, next.Movements[0].AtMM[0], "the hinge goes along")
	moved, err := m.With(next)
	require.NoError(t, err)
	assert.Same(t, m.parts[2], moved.parts[2])
	assert.NotSame(t, m.parts[0], moved.parts[0])
	fresh := compile(t, next)
	assert.Equal(t, fresh.Check(), moved.Check())

	// The hinge alone.
	only := *doc
	only.Movements = []scene.Movement{doc.Movements[0]}
	only.Movements[0].AtMM[0] = 190
	moved, err = m.With(&only)
	require.NoError(t, err)
	assert.NotSame(t, m.parts[0], moved.parts[0])
	assert.Equal(t, compile(t, &only).Check(), moved.Check())
}

// How far a part reaches is what its outlines say along the direction of looking,
// at every named height of the demo.
func TestExtentsAreThoseOfOutlines(t *testing.T) {
	m := open(t, "bakery-van.json")
	for _, h := range m.Doc.Heights {
		at := StateAt(h.FrontMM, h.RearMM)
		for axis, v := range [3]View{SectionView, SideView, PlanView} {
			for _, o := range m.Outlines(v, 0, at) {
				lo, hi, ok := m.ExtentIn(m.Doc.Parts[o.Part].ID, at)
				require.True(t, ok)
				require.Equal(t, [2]float64{o.Near, o.Far}, [2]float64{lo[axis], hi[axis]}, m.Doc.Parts[o.Part].ID)
			}
		}
	}
}
