package app

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// sliding is the yard with an air tank that slides to the right, toward the
// driveshaft; its movement's id.
func sliding(t testing.TB) (*App, *fakePage, string) {
	t.Helper()
	a, page := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-300"})
	send(t, a, Command{Do: "let_move", Part: tank, Kind: "slide"})
	id := a.doc.Movements[0].ID
	send(t, a, Command{Do: "select", Part: tank})
	for _, f := range [][2]string{{"name", "Tank slides out"}, {"axis/1", "1"}, {"axis/0", "0"}, {"to", "200"}} {
		send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: movePrefix + id + "/" + f[0], Text: f[1]})
	}
	frame(a)
	return a, page, id
}

// fieldOf is a field of the form shown.
func fieldOf(t testing.TB, f *Form, name string) *FormField {
	t.Helper()
	for i := range f.Fields {
		if f.Fields[i].Field == name {
			return &f.Fields[i]
		}
	}
	t.Fatalf("no field %s", name)
	return nil
}

func TestAMovementCarriesPartsReadingsAndHere(t *testing.T) {
	a, page, id := sliding(t)
	require.Equal(t, []MovementItem{{ID: id, Name: "Tank slides out", To: 200, Unit: "mm", Words: "at rest"}}, page.last(t).Movements)
	gap := func() float64 {
		g, err := a.model.GapBetween("driveshaft", tank, a.state())
		require.NoError(t, err)
		return g.GapMM
	}
	edge := func() float64 {
		for _, o := range a.outs() {
			if a.doc.Parts[o.Part].ID == tank {
				return o.Cut[0][0][0]
			}
		}
		return math.NaN()
	}
	wasGap, wasEdge := gap(), edge()
	require.Positive(t, wasGap)
	send(t, a, Command{Do: "move", Key: id, MM: 150})
	frame(a)
	require.Equal(t, 150.0, page.last(t).Movements[0].At)
	require.Equal(t, "150 mm", page.last(t).Movements[0].Words)
	require.InDelta(t, 150, edge()-wasEdge, 1e-9, "the outline follows")
	require.Less(t, gap(), wasGap)
	require.Contains(t, a.caption(), ", moved")
	var touched bool
	for _, r := range a.readings() {
		touched = touched || r.A == "driveshaft" && r.B == tank
	}
	require.True(t, touched, "what falls short here is read there")
	for _, f := range page.last(t).Findings {
		if f.Key == "driveshaft|"+tank+"|" {
			require.Contains(t, f.Title, "touch")
		}
	}
	send(t, a, Command{Do: "move", Key: id, MM: 900})
	require.Equal(t, 200.0, a.moves[0], "no farther than it goes")
	require.NotEmpty(t, try(t, a, Command{Do: "move", Key: "nothing", MM: 3}).Error)
	require.Equal(t, 200.0, a.moves[0])
	send(t, a, Command{Do: "rest"})
	require.Equal(t, moves{}, a.moves)
	require.InDelta(t, wasGap, gap(), 1e-12)
}

// Going to a finding puts the movements where it is worst; the chip takes them
// back with the body.
func TestAFindingSetsTheMovementsOfItsWorstState(t *testing.T) {
	a, page, id := sliding(t)
	send(t, a, Command{Do: "move", Key: id, MM: 10})
	frame(a)
	key := "driveshaft|" + tank + "|"
	var found *fitment.Finding
	for i := range a.checked.Check().Findings {
		if f := &a.checked.Check().Findings[i]; f.Key() == key {
			found = f
		}
	}
	require.NotNil(t, found)
	require.Greater(t, found.At.Moves[0], 100.0, "it touches far out only")
	send(t, a, Command{Do: "finding", Key: key})
	frame(a)
	require.Equal(t, moves(found.At.Moves), a.moves)
	for _, f := range page.last(t).Findings {
		if f.Key == key {
			require.NotEmpty(t, f.Here)
		}
	}
	require.NotEmpty(t, page.last(t).Back)
	send(t, a, Command{Do: "back"})
	require.Equal(t, 10.0, a.moves[0])
}

func TestMovementsOfAFormAreAddedChangedRemovedAndUndone(t *testing.T) {
	a, page := yard(t)
	require.Empty(t, page.last(t).Movements)
	send(t, a, Command{Do: "select", Part: tank})
	before := scene.Encode(a.doc)
	add := fieldOf(t, a.theForm(), movePrefix+"add/hinge")
	require.Equal(t, "Let it hinge", add.Label)
	text, err := json.Marshal(add.Action) // what the page sends
	require.NoError(t, err)
	require.NotContains(t, a.Send(string(text)), "error")
	require.Len(t, a.doc.Movements, 1)
	require.Equal(t, scene.Hinge, a.doc.Movements[0].Kind)
	id := a.doc.Movements[0].ID
	edit := func(field, text string) {
		send(t, a, Command{Do: "edit", Target: a.theForm().Target, Field: fieldOf(t, a.theForm(), movePrefix+id+"/"+field).Field, Text: text})
	}
	edit("name", "Tank swings")
	edit("at_mm/2", "25")
	edit("axis/0", "1")
	edit("axis/1", "0")
	edit("from", "-20")
	edit("to", "45")
	m := a.doc.Movements[0]
	require.Equal(t, scene.Movement{ID: id, Name: "Tank swings", Kind: scene.Hinge, Carrier: scene.Body,
		AtMM: scene.Vec{2100, -150, 25}, Axis: scene.Vec{1, 0, 0}, From: -20, To: 45}, m)
	require.NotEmpty(t, try(t, a, Command{Do: "edit", Target: "part:" + tank, Field: movePrefix + id + "/axis/0", Text: "0"}).Error, "no axis at all")

	send(t, a, Command{Do: "move", Key: id, MM: 40})
	edit("to", "30")
	require.Equal(t, 30.0, a.moves[0], "held to its new range")
	edit("goes", "false")
	require.Empty(t, a.doc.Parts[a.partIndex(tank)].Moves)
	edit("goes", "true")
	require.Equal(t, []string{id}, a.doc.Parts[a.partIndex(tank)].Moves)

	send(t, a, *fieldOf(t, a.theForm(), movePrefix+id+"/remove").Action)
	require.Empty(t, a.doc.Movements)
	require.Equal(t, moves{}, a.moves)
	require.Equal(t, "removed the movement Tank swings", a.hist.UndoLabel())
	for a.hist.UndoLabel() != "" && len(scene.Encode(a.doc)) != len(before) {
		send(t, a, Command{Do: "undo"})
	}
	require.Equal(t, string(before), string(scene.Encode(a.doc)))
	require.NotEmpty(t, try(t, a, Command{Do: "let_move", Part: tank, Kind: "fly"}).Error)
	require.NotEmpty(t, try(t, a, Command{Do: "stop_move", Key: id}).Error)
}

// Removing one movement leaves the others where they stand.
func TestMovementsKeepTheirPlaceByTheirIDs(t *testing.T) {
	a, _, first := sliding(t)
	send(t, a, Command{Do: "let_move", Part: tank, Kind: "hinge"})
	second := a.doc.Movements[1].ID
	send(t, a, Command{Do: "move", Key: first, MM: 50})
	send(t, a, Command{Do: "move", Key: second, MM: 7})
	send(t, a, Command{Do: "stop_move", Key: first})
	require.Equal(t, moves{7}, a.moves)
	send(t, a, Command{Do: "undo"})
	require.Equal(t, moves{0, 7}, a.moves)
}

// A part that is swung away is not placed by hand: it would not go where the
// finger goes.
func TestAPartAwayFromRestIsNotDragged(t *testing.T) {
	a, page, id := sliding(t)
	send(t, a, Command{Do: "move", Key: id, MM: 30})
	send(t, a, Command{Do: "select", Part: tank})
	frame(a)
	was := atMM(t, a, tank)
	drag(a, "touch", grip(t, a, tank), mgl64.Vec2{60, 0})
	frame(a)
	require.Equal(t, was, atMM(t, a, tank))
	said := false
	for _, p := range page.panels {
		said = said || strings.Contains(p, "does not stand at rest")
	}
	require.True(t, said)
	a.Key("ArrowLeft", false, false)
	require.Equal(t, was, atMM(t, a, tank))
	send(t, a, Command{Do: "rest"})
	a.Key("ArrowLeft", false, false)
	require.NotEqual(t, was, atMM(t, a, tank))
}

// A copy of a wheel rides on another wheel, where its movement is not.
func TestACopyOnAnotherCarrierLeavesItsMovement(t *testing.T) {
	for _, do := range []string{"duplicate", "mirror"} {
		a, _ := yard(t)
		send(t, a, Command{Do: "let_move", Part: "rear-left-wheel", Kind: "hinge"})
		send(t, a, Command{Do: do, Part: "rear-left-wheel"})
		require.NoError(t, a.doc.Validate())
		added := a.doc.Parts[a.partIndex(a.selected)]
		require.NotEqual(t, scene.WheelRL, added.Carrier)
		require.Empty(t, added.Moves)
		send(t, a, Command{Do: "let_move", Part: tank, Kind: "slide"})
		send(t, a, Command{Do: do, Part: tank})
		require.NoError(t, a.doc.Validate())
		goes := a.doc.Parts[a.partIndex(a.selected)].Moves
		require.Equal(t, do == "duplicate", len(goes) == 1, "a copy beside it goes along, its mirror image does not: the movement is not mirrored")
	}
}
