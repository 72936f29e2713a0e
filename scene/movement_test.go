package scene

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// withSeat is a document with a seat that reclines and slides.
func withSeat(t *testing.T) (*Document, string) {
	doc := add(t, New(), "seat", Vec{1200, -350, 200})
	id := newest(doc).ID
	doc, label, err := AddMovement(doc, id, Hinge)
	require.NoError(t, err)
	require.Equal(t, "let Seat move", label)
	doc, _, err = AddMovement(doc, id, Slide)
	require.NoError(t, err)
	return doc, id
}

func TestMovementsComeBackFromAFile(t *testing.T) {
	doc, id := withSeat(t)
	require.Equal(t, []string{"seat-swings", "seat-slides"}, newest(doc).Moves)
	data := Encode(doc)
	again, err := Decode(data)
	require.NoError(t, err)
	require.Equal(t, string(data), string(Encode(again)))
	require.Equal(t, doc.Movements, again.Movements)
	require.Equal(t, newest(doc).Moves, newest(again).Moves)
	require.Contains(t, string(data), `"from_deg": 0, "to_deg": 30`)
	require.Contains(t, string(data), `"from_mm": 0, "to_mm": 150`)
	require.NotContains(t, string(Encode(New())), "movements", "a document without any says nothing of them")
	_, _, err = AddMovement(doc, id, Slide)
	require.ErrorContains(t, err, "2 movements already")
}

func TestMovementFields(t *testing.T) {
	doc, _ := withSeat(t)
	doc = set(t, doc, "movement:seat-swings", "to", "35")
	doc = set(t, doc, "movement:seat-swings", "axis/0", "0.5")
	doc = set(t, doc, "movement:seat-slides", "from", "-6 in")
	require.Equal(t, 35.0, doc.Movements[0].To)
	require.Equal(t, Vec{0.5, 1, 0}, doc.Movements[0].Axis)
	require.InDelta(t, -152.4, doc.Movements[1].From, 1e-9)
	_, _, err := SetField(doc, "movement:seat-swings", "to", "-5")
	require.Error(t, err, "as drawn it stands at 0, which lies in its range")
	_, _, err = SetField(doc, "movement:nobody", "to", "5")
	require.EqualError(t, err, `there is no movement called "nobody"`)
}

// A movement that goes leaves its parts where they are; a part that changes its
// carrier or its side leaves its movements.
func TestMovementsFollowTheirParts(t *testing.T) {
	doc, id := withSeat(t)
	gone, _, err := RemoveMovement(doc, "seat-swings")
	require.NoError(t, err)
	require.Equal(t, []string{"seat-slides"}, newest(gone).Moves)
	require.NoError(t, gone.Validate())
	require.Len(t, doc.Movements, 2, "the document before is untouched")
	other, _, err := MirrorPart(doc, id)
	require.NoError(t, err)
	require.Empty(t, newest(other).Moves)
	twin, _, err := DuplicatePart(doc, id)
	require.NoError(t, err)
	require.Equal(t, newest(doc).Moves, newest(twin).Moves)
}

func TestBrokenMovements(t *testing.T) {
	doc, _ := withSeat(t)
	good := string(Encode(doc))
	for _, row := range []struct{ old, new, place, expected string }{
		{`"kind": "hinge"`, `"kind": "twist"`, "/movements/0/kind", "hinge or slide"},
		{`"to_deg": 30`, `"to_mm": 30`, "/movements/0/to_mm", "a known field"},
		{`"to_deg": 30`, `"to_deg": -1`, "/movements/0/to_deg", "from 0 to 180"},
		{`"axis": [0, 1, 0]`, `"axis": [0, 0, 0]`, "/movements/0/axis", "a direction"},
		{`"id": "seat-slides"`, `"id": "seat-swings"`, "/movements/1/id", "an id of its own"},
		{`"moves": ["seat-swings", "seat-slides"]`, `"moves": ["seat-falls"]`, "/parts/9/moves/0", "the id of a movement"},
	} {
		require.Contains(t, good, row.old)
		_, err := Decode([]byte(strings.Replace(good, row.old, row.new, 1)))
		require.ErrorContains(t, err, row.place)
		require.ErrorContains(t, err, row.expected)
	}
}
