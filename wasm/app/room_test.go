package app

import (
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// mapped lets frames pass until the room is complete.
func mapped(t testing.TB, a *App) {
	t.Helper()
	for range 20000 {
		frame(a)
		if a.rooms.done {
			frame(a)
			return
		}
	}
	t.Fatal("the room is never complete")
}

// The selected part's room is shown when asked for, is the engine's own, and is
// shown no longer.
func TestTheSelectedPartsRoom(t *testing.T) {
	a, page := yard(t)
	require.NotEmpty(t, try(t, a, Command{Do: "room", On: true}).Error, "nothing is selected")
	send(t, a, Command{Do: "select", Part: tank})
	require.Nil(t, a.roomHere())
	send(t, a, Command{Do: "room", On: true})
	mapped(t, a)
	require.True(t, page.last(t).Form.Arrange.Room)
	r, err := a.model.RoomWithin(tank, fitment.SectionView, fitment.RoomReachMM, a.roomCell())
	require.NoError(t, err)
	require.Equal(t, r.FreeShare(), a.rooms.room.FreeShare())
	m := a.roomHere()
	require.NotNil(t, m)
	require.NotEmpty(t, m.Free)
	require.Equal(t, r.StandsFree(), m.Fits)
	require.NotEmpty(t, m.Hatch)
	for _, line := range m.Hatch { // each piece lies in free cells from end to end
		for _, f := range []float64{0.001, 0.25, 0.5, 0.75, 0.999} {
			by, ok := r.At(line[0][0]+f*(line[1][0]-line[0][0]), line[0][1]+f*(line[1][1]-line[0][1]))
			require.True(t, ok)
			require.Empty(t, by)
		}
	}
	require.InDelta(t, r.AtMM[0], m.At[0], 1e-9)
	require.Contains(t, page.last(t).Form.Arrange.Sits, "anywhere in the hatched field")
	send(t, a, Command{Do: "view", View: "front"})
	frame(a)
	require.Contains(t, page.last(t).Form.Arrange.Sits, "the section, the side view and the plan")
	send(t, a, Command{Do: "view", View: "section"})
	send(t, a, Command{Do: "room"})
	frame(a)
	require.Nil(t, a.roomHere())
}

// Moved in the plane a part keeps its room; moved across it, or with another part
// edited, it gets a new one.
func TestTheRoomOfAMovedPart(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "select", Part: tank})
	send(t, a, Command{Do: "room", On: true})
	mapped(t, a)
	first := a.rooms.room
	frame(a)
	require.Same(t, first, a.rooms.room)
	doc, _, err := scene.AddPart(a.doc, "box", scene.Vec{2100, 300, 40})
	require.NoError(t, err)
	require.NoError(t, a.commit(doc, "placed a box"))
	frame(a)
	require.NotSame(t, first, a.rooms.room)
}

// Where a part has no room in a view, that is said, and what is in the way.
func TestAPartWithoutRoomIsToldSo(t *testing.T) {
	a, page := yard(t)
	doc, _, err := scene.AddPart(a.doc, "box", scene.Vec{2100, 0, 0})
	require.NoError(t, err)
	p := &doc.Parts[len(doc.Parts)-1]
	for _, k := range []string{"length_mm", "width_mm", "height_mm"} {
		p.Size[k] = scene.Value{Num: 6000}
	}
	require.NoError(t, a.commit(doc, "placed a box"))
	settled(t, a)
	send(t, a, Command{Do: "select", Part: tank})
	send(t, a, Command{Do: "room", On: true})
	mapped(t, a)
	require.Contains(t, page.last(t).Form.Arrange.Sits, "No place within reach in this view: too close to box")
}

// While a part is dragged its room stands still and says whether it fits; what is
// dropped outside is said.
func TestTheRoomWhileDragging(t *testing.T) {
	a, page := yard(t)
	doc, _, err := scene.AddPart(a.doc, "box", scene.Vec{2100, 300, 40})
	require.NoError(t, err)
	require.NoError(t, a.commit(doc, "placed a box"))
	settled(t, a)
	send(t, a, Command{Do: "select", Part: tank})
	frame(a)
	p := grip(t, a, tank)
	press(a, "touch", p, mgl64.Vec2{30, 0})
	require.Equal(t, dragPart, a.hand.mode)
	mapped(t, a)
	room := a.rooms.room
	require.NotNil(t, a.roomHere())
	k := a.camera().PxPerMM
	to := p.Add(mgl64.Vec2{300 * k, 0})
	a.Pointer("pointermove", "touch", 1, to[0], to[1], 0.5)
	frame(a)
	require.Same(t, room, a.rooms.room)
	require.Contains(t, []string{"too close to box", "below the rim line"}, a.roomWords())
	require.False(t, a.roomHere().Fits)
	fell := a.roomWords()
	a.Pointer("pointerup", "touch", 1, to[0], to[1], 0)
	frame(a)
	said := false
	for _, text := range page.panels {
		said = said || strings.Contains(text, "Dropped "+fell)
	}
	require.True(t, said)
	require.Same(t, room, a.rooms.room, "it is still that of the part")
}
