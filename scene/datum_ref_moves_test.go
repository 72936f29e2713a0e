package scene

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// chain is a block b measured from a, and c from b, across, with what becomes of
// each: b's right side stands at −170, a's at −370, as [squareBoxes] has them.
func chain(t *testing.T, b, c Moves) *Document {
	t.Helper()
	doc := blocks(t, Vec{0, -400, 0}, Vec{0, -200, 0}, Vec{0, -100, 0}, Vec{500, 0, 0})
	doc = must(t)(MeasureFrom(doc, "b", Measured{Axis: 1, Part: "a", Face: High, To: Low, Moves: b}, squareBoxes))
	return must(t)(MeasureFrom(doc, "c", Measured{Axis: 1, Part: "b", Face: High, To: Low, Moves: c}, squareBoxes))
}

// The first block moves by −25. What always goes along has gone with the edit,
// what never does stays even after a yes, and only of the rest it is asked.
func TestWhatAlwaysOrNeverFollows(t *testing.T) {
	for _, row := range []struct {
		b, c     Moves
		edit     [2]float64 // where b and c stand across after the edit
		asked    []string
		yes      [2]float64 // and after a yes
		bMM, cMM float64    // what they read after the edit; 140 and 40 before
	}{
		{Asks, Asks, [2]float64{-200, -100}, []string{"b"}, [2]float64{-225, -125}, 165, 40},
		{Always, Asks, [2]float64{-225, -100}, []string{"c"}, [2]float64{-225, -125}, 140, 65},
		{Always, Always, [2]float64{-225, -125}, nil, [2]float64{-225, -125}, 140, 40},
		{Always, Never, [2]float64{-225, -100}, nil, [2]float64{-225, -100}, 140, 65},
		{Asks, Always, [2]float64{-200, -100}, []string{"b"}, [2]float64{-225, -125}, 165, 40},
		{Never, Always, [2]float64{-200, -100}, nil, [2]float64{-200, -100}, 165, 40},
		{Never, Never, [2]float64{-200, -100}, nil, [2]float64{-200, -100}, 165, 40},
	} {
		what := string("b " + row.b + ", c " + row.c)
		doc := chain(t, row.b, row.c)
		moved := must(t)(MovePart(doc, "a", Vec{0, -425, 0}))
		settled, err := Settle(doc, moved, squareBoxes, false)
		require.NoError(t, err)
		assert.Equal(t, row.edit, [2]float64{settled.Parts[1].AtMM[1], settled.Parts[2].AtMM[1]}, what)
		assert.Equal(t, row.bMM, settled.Parts[1].MeasuredFrom[0].MM, what)
		assert.InDelta(t, row.cMM, settled.Parts[2].MeasuredFrom[0].MM, 1e-9, what)
		assert.Equal(t, row.asked, Followers(doc, settled, squareBoxes).Parts, what)
		yes, err := Settle(doc, settled, squareBoxes, true)
		require.NoError(t, err)
		assert.Equal(t, row.yes, [2]float64{yes.Parts[1].AtMM[1], yes.Parts[2].AtMM[1]}, what)
	}
}

// What was placed by hand along one axis still follows along another, and a
// locked part stays whatever is said of it.
func TestFollowingByAxis(t *testing.T) {
	doc := chain(t, Always, Asks)
	doc = must(t)(MeasureFrom(doc, "b", Measured{Axis: 0, Part: "a", Face: Point, To: Point}, squareBoxes))
	moved := must(t)(MovePart(doc, "a", Vec{70, -425, 0}))
	settled, err := Settle(doc, moved, squareBoxes, false)
	require.NoError(t, err)
	assert.Equal(t, Vec{0, -225, 0}, settled.Parts[1].AtMM, "across it goes along, along the vehicle it is asked")
	assert.Equal(t, []string{"b", "c"}, Followers(doc, settled, squareBoxes).Parts)
	yes, err := Settle(doc, settled, squareBoxes, true)
	require.NoError(t, err)
	assert.Equal(t, Vec{70, -225, 0}, yes.Parts[1].AtMM)
	assert.Equal(t, []string{"b"}, Elsewhere(moved, settled))

	locked := must(t)(SetLocked(doc, "b", true))
	moved = must(t)(MovePart(locked, "a", Vec{0, -425, 0}))
	settled, err = Settle(locked, moved, squareBoxes, false)
	require.NoError(t, err)
	assert.Equal(t, ats(moved), ats(settled))
	assert.Equal(t, []string{"b"}, Followers(locked, settled, squareBoxes).Locked)
	never := must(t)(SetMoves(locked, "b", 1, Never))
	moved = must(t)(MovePart(never, "a", Vec{0, -425, 0}))
	assert.Empty(t, Followers(never, moved, squareBoxes).Locked, "it was to stay anyway")
}

func TestSettingWhatMoves(t *testing.T) {
	doc := chain(t, Asks, Asks)
	before := string(Encode(doc))
	require.NotContains(t, before, "moves")
	next, label, err := SetMoves(doc, "b", 1, Always)
	require.NoError(t, err)
	assert.Equal(t, "let Block B go along with Block A", label)
	text := string(Encode(next))
	assert.Contains(t, text, `"mm": 140, "moves": "always"}`)
	again, err := Decode([]byte(text))
	require.NoError(t, err)
	assert.Equal(t, next, again)
	assert.Equal(t, before, string(Encode(doc)), "the document before is left alone")
	back := must(t)(SetMoves(next, "b", 1, Asks))
	assert.Equal(t, before, string(Encode(back)))

	_, _, err = SetMoves(doc, "b", 0, Always)
	require.EqualError(t, err, "Block B is not measured from anything along this axis")
	_, _, err = SetMoves(doc, "b", 1, "sometimes")
	require.ErrorContains(t, err, "always or never")
	for _, bad := range []string{`"moves": "sometimes"`, `"moves": ""`, `"moves": 1`} {
		_, err = Decode([]byte(strings.Replace(text, `"moves": "always"`, bad, 1)))
		require.ErrorContains(t, err, "/parts/1/measured_from/0/moves", bad)
	}
}
