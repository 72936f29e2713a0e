package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// A height is named where the body stands, typed otherwise, gone to and removed
// again; the standing ones cannot be removed.
func TestHeightsAreNamed(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "height", Front: -20, Rear: -30})
	front, rear := a.front, a.rear
	send(t, a, Command{Do: "form", Text: "heights"})
	add := fieldNamed(t, a.theForm(), "add")
	require.Contains(t, add.Help, a.heightWords())
	send(t, a, *add.Action)
	require.Equal(t, "added Height 4", a.hist.UndoLabel())
	require.Equal(t, scene.Height{ID: "height-4", Name: "Height 4", FrontMM: round3(front), RearMM: round3(rear)}, a.doc.Heights[3])
	require.Equal(t, "height/height-4/name", a.theForm().Focus, "its name is typed next")
	frame(a)
	require.True(t, page.last(t).Heights[3].Active)

	send(t, a, Command{Do: "edit", Target: "heights", Field: "height/height-4/name", Text: "Loading"})
	require.Equal(t, "renamed the height Height 4", a.hist.UndoLabel())
	send(t, a, Command{Do: "edit", Target: "heights", Field: "height/height-4/front", Text: "-2 1/2 in"})
	require.Equal(t, "changed Loading", a.hist.UndoLabel())
	require.Equal(t, "−63.5", fieldNamed(t, a.theForm(), "height/height-4/front").Value)
	require.Contains(t, fieldNamed(t, a.theForm(), "height/height-4/front").Measured, "yes")
	require.Contains(t, try(t, a, Command{Do: "edit", Target: "heights", Field: "height/aired_up/rear", Text: "-5"}).Error, "Rear must be from 0")
	require.Contains(t, try(t, a, Command{Do: "edit", Target: "heights", Field: "height/height-4/name", Text: " "}).Error, "needs a name")
	send(t, a, Command{Do: "named", Key: "height-4"})
	require.InDelta(t, -63.5, a.front, 1e-9)

	require.Equal(t, "+70", fieldNamed(t, a.theForm(), "height/aired_up/rear").Value)
	require.Empty(t, a.theForm().Warn)
	send(t, a, Command{Do: "edit", Target: "heights", Field: "height/height-4/rear", Text: "-300"})
	require.Contains(t, a.theForm().Warn, "Loading lies beyond")
	settled(t, a)
	_, _, low, _ := a.model.Travel()
	require.Equal(t, -300.0, low, "and is checked")

	for _, x := range a.theForm().Fields {
		if x.Field == "height/"+scene.Ride+"/remove" || x.Field == "height/"+scene.AiredOut+"/remove" || x.Field == "height/"+scene.Ride+"/front" {
			t.Errorf("%s is offered", x.Field)
		}
	}
	require.Contains(t, try(t, a, Command{Do: "height_drop", Key: scene.Ride}).Error, "stays")
	send(t, a, *fieldNamed(t, a.theForm(), "height/height-4/remove").Action)
	require.Len(t, a.doc.Heights, 3)
	require.Equal(t, "removed the height Loading", a.hist.UndoLabel())
	send(t, a, Command{Do: "undo"})
	require.Len(t, a.doc.Heights, 4)
	send(t, a, Command{Do: "form"})
	send(t, a, Command{Do: "form", Text: "heights"})
	require.Empty(t, a.theForm().Focus, "opened again, it is read from its top")
}

// A variant has heights and needs of its own; the scene as drawn keeps its.
func TestAVariantsHeightsAndNeeds(t *testing.T) {
	a, _ := shown(t, "exhaust-shield.json")
	send(t, a, Command{Do: "variant_new", Text: "Other"})
	send(t, a, Command{Do: "form", Text: "heights"})
	require.Contains(t, a.theForm().Sub, "In the variant “Other”.")
	send(t, a, Command{Do: "height_add"})
	send(t, a, Command{Do: "edit", Target: "kinds:exhaust|frame", Field: "need", Text: "40"})
	send(t, a, Command{Do: "variant"})
	require.Len(t, a.doc.Heights, 3)
	kinds := scene.Need{Traits: [2]scene.Trait{scene.Exhaust, scene.Frame}}
	require.Nil(t, a.doc.NeedFor(kinds))
	send(t, a, Command{Do: "variant", Key: "other"})
	require.Len(t, a.doc.Heights, 4)
	require.Equal(t, 40.0, a.doc.NeedFor(kinds).NeedMM)
}
