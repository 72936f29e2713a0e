package app

import (
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// yardOf is the yard with two boxes more, a and b, a little behind the tank
// and apart from it. It gives their ids.
func yardOf(t testing.TB) (a *App, page *fakePage, first, second string) {
	t.Helper()
	a, page = yard(t)
	doc := a.doc
	for _, at := range []scene.Vec{{2150, 180, 60}, {2600, 300, 400}} {
		next, _, err := scene.AddPart(doc, "box", at)
		require.NoError(t, err)
		doc = next
	}
	require.NoError(t, a.commit(doc, "placed boxes"))
	send(t, a, Command{Do: "select"})
	frame(a)
	return a, page, "box", "box-2"
}

// restOn holds a finger on a point until it counts as a long press, and lifts
// it.
func restOn(a *App, page *fakePage, p mgl64.Vec2) {
	a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
	for range 3 { // a single late frame would be a stalled page, not a resting finger
		page.now += longPressMS/3 + 1
		a.Tick()
	}
	a.Pointer("pointerup", "touch", 1, p[0], p[1], 0.5)
}

func TestALongPressPicksSeveral(t *testing.T) {
	a, page, box, _ := yardOf(t)
	restOn(a, page, grip(t, a, tank))
	require.True(t, a.arr.picking)
	require.Equal(t, []string{tank}, a.arr.picked)
	tapAt(a, grip(t, a, box))
	require.Equal(t, []string{tank, box}, a.arr.picked, "a tap picks another")
	require.Empty(t, a.selected)
	f := a.theForm()
	assert.Equal(t, "2 parts picked", f.Title)
	assert.Equal(t, []string{"Air tank", "Box"}, f.Arrange.Names)
	tapAt(a, grip(t, a, box))
	require.Equal(t, []string{tank}, a.arr.picked, "and the same tap takes it away")
	a.Key("Escape", false, false)
	require.False(t, a.arr.picking)

	// What was selected before is picked first.
	tapAt(a, grip(t, a, box))
	page.now += 2000
	restOn(a, page, grip(t, a, tank))
	require.Equal(t, []string{box, tank}, a.arr.picked)
	send(t, a, Command{Do: "select", Part: tank})
	require.False(t, a.arr.picking)
}

func TestAFingerThatMovesIsNoLongPress(t *testing.T) {
	a, page, _, _ := yardOf(t)
	p := grip(t, a, tank)
	press(a, "touch", p, mgl64.Vec2{40, 0})
	page.now += 2 * longPressMS
	a.Tick()
	require.False(t, a.arr.picking)
	a.Pointer("pointerup", "touch", 1, p[0], p[1], 0.5)
}

// Who rests before dragging drags all the same: the pick is taken back.
func TestAFingerThatRestsAndThenMovesDrags(t *testing.T) {
	a, page, _, _ := yardOf(t)
	p := grip(t, a, tank)
	tapAt(a, p)
	page.now += 2000
	p = grip(t, a, tank)
	at := atMM(t, a, tank)
	a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
	for range 3 {
		page.now += longPressMS/3 + 1
		a.Tick()
	}
	require.True(t, a.arr.picking)
	for k := 1.0; k <= 8; k++ {
		a.Pointer("pointermove", "touch", 1, p[0]+8*k, p[1], 0.5)
	}
	require.False(t, a.arr.picking, "it was the beginning of a drag")
	require.Equal(t, tank, a.selected)
	a.Pointer("pointerup", "touch", 1, p[0]+64, p[1], 0.5)
	require.NotEqual(t, at, atMM(t, a, tank), "the part went along")

	// On a part that is not selected the drawing moves, and nothing else.
	send(t, a, Command{Do: "select"})
	p = grip(t, a, tank)
	at = atMM(t, a, tank)
	a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
	for range 3 {
		page.now += longPressMS/3 + 1
		a.Tick()
	}
	a.Pointer("pointermove", "touch", 1, p[0]+40, p[1], 0.5)
	a.Pointer("pointerup", "touch", 1, p[0]+40, p[1], 0.5)
	require.False(t, a.arr.picking)
	require.Empty(t, a.selected)
	require.Equal(t, at, atMM(t, a, tank))
}

func TestWhatIsPickedMovesTogether(t *testing.T) {
	a, _, box, other := yardOf(t)
	send(t, a, Command{Do: "pick", Part: tank, On: true})
	send(t, a, Command{Do: "pick", Part: box, On: true})
	was := [3]scene.Vec{atMM(t, a, tank), atMM(t, a, box), atMM(t, a, other)}
	k := a.camera().PxPerMM
	drag(a, "touch", grip(t, a, box), mgl64.Vec2{0, -100 * k})
	up := atMM(t, a, box)[2] - was[1][2]
	require.Greater(t, up, 50.0)
	require.InDelta(t, up, atMM(t, a, tank)[2]-was[0][2], 1e-6)
	require.Equal(t, was[2], atMM(t, a, other))
	require.Equal(t, "moved 2 parts", a.hist.UndoLabel())
	send(t, a, Command{Do: "undo"})
	require.Equal(t, was[:2], []scene.Vec{atMM(t, a, tank), atMM(t, a, box)}, "one step back")
	require.Equal(t, []string{tank, box}, a.arr.picked)

	send(t, a, Command{Do: "nudge", Key: "x", MM: -1})
	require.Equal(t, was[0][0]-1, atMM(t, a, tank)[0])
	require.Equal(t, was[1][0]-1, atMM(t, a, box)[0])
	send(t, a, Command{Do: "mirror"})
	require.Equal(t, "mirrored 2 parts", a.hist.UndoLabel())
	require.Len(t, a.arr.picked, 2)
	require.NotContains(t, a.arr.picked, tank, "the copies are picked")
	n := len(a.doc.Parts)
	send(t, a, Command{Do: "delete"})
	require.Len(t, a.doc.Parts, n-2)
	require.Equal(t, "removed 2 parts", a.hist.UndoLabel())
}

func TestAGroupMovesAsOne(t *testing.T) {
	a, _, box, _ := yardOf(t)
	require.NotEmpty(t, try(t, a, Command{Do: "group"}).Error)
	send(t, a, Command{Do: "pick", Part: tank, On: true})
	send(t, a, Command{Do: "pick", Part: box, On: true})
	send(t, a, Command{Do: "group", Text: "Rear air set"})
	f := a.theForm()
	require.Equal(t, "group:rear-air-set", f.Target)
	send(t, a, Command{Do: "edit", Target: f.Target, Field: "name", Text: "Air set"})
	send(t, a, Command{Do: "select", Part: tank})
	require.Equal(t, "Air set", a.theForm().Arrange.Group)
	was, is := atMM(t, a, box), atMM(t, a, tank)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_z", Text: "55"})
	require.Equal(t, was[2]+55-is[2], atMM(t, a, box)[2], "a typed position takes the group along")
	require.Equal(t, "moved Air set", a.hist.UndoLabel())
	a.Key("ArrowRight", false, false)
	require.Equal(t, was[1]+1, atMM(t, a, box)[1])
	send(t, a, Command{Do: "turn", Key: "z", Text: "90"})
	require.Equal(t, scene.Vec{0, 0, 90}, a.doc.Parts[a.partIndex(box)].TurnDeg)
	send(t, a, Command{Do: "undo"})

	send(t, a, Command{Do: "alone", On: true})
	stays := atMM(t, a, box)
	a.Key("ArrowRight", false, false)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_z", Text: "60"})
	require.Equal(t, stays, atMM(t, a, box), "alone, it moves without its group")
	send(t, a, Command{Do: "select", Part: box})
	require.False(t, a.arr.alone, "the next part takes its group along again")
	send(t, a, Command{Do: "ungroup", Key: "rear-air-set"})
	require.Empty(t, a.doc.Groups)
}

func TestALockedPartIsNotDragged(t *testing.T) {
	a, page, box, _ := yardOf(t)
	send(t, a, Command{Do: "lock", Part: tank, On: true})
	send(t, a, Command{Do: "select", Part: tank})
	require.Contains(t, a.theForm().Arrange.Stays, "locked")
	was := atMM(t, a, tank)
	drag(a, "touch", grip(t, a, tank), mgl64.Vec2{60, 0})
	require.Equal(t, was, atMM(t, a, tank))
	a.Tick()
	require.Contains(t, page.last(t).Message, "Air tank is locked")
	send(t, a, Command{Do: "fit"})
	a.Key("ArrowUp", false, false)
	for _, c := range []Command{
		{Do: "nudge", Key: "y", MM: 1}, {Do: "turn", Key: "z", Text: "90"}, {Do: "delete", Part: tank},
		{Do: "edit", Target: "part:" + tank, Field: "at_x", Text: "1"},
	} {
		require.Contains(t, try(t, a, c).Error, "Air tank is locked", "%+v", c)
	}
	require.Equal(t, was, atMM(t, a, tank))
	require.Equal(t, "locked Air tank", a.hist.UndoLabel())

	// A group with a locked part stays as a whole.
	send(t, a, Command{Do: "pick", Part: tank, On: true})
	send(t, a, Command{Do: "pick", Part: box, On: true})
	send(t, a, Command{Do: "group"})
	send(t, a, Command{Do: "select", Part: box})
	require.Contains(t, try(t, a, Command{Do: "nudge", Key: "y", MM: 1}).Error, "Air tank is locked")
	send(t, a, Command{Do: "lock", Part: tank})
	send(t, a, Command{Do: "nudge", Key: "y", MM: 1})
	require.Equal(t, was[1]+1, atMM(t, a, tank)[1])
}

func TestNudgesAreOfTheFinestUnit(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "select", Part: tank})
	send(t, a, Command{Do: "units", Text: "in"})
	require.Equal(t, "1/16 in", a.theForm().Arrange.Step)
	was := atMM(t, a, tank)
	for range 16 {
		send(t, a, Command{Do: "nudge", Key: "y", MM: 1})
	}
	require.InDelta(t, was[1]+25.4, atMM(t, a, tank)[1], 1e-9, "sixteen sixteenths are an inch")
	a.Key("ArrowUp", false, false)
	require.InDelta(t, was[2]+25.4/16, atMM(t, a, tank)[2], 1e-9)
	require.NotEmpty(t, try(t, a, Command{Do: "nudge", Key: "w", MM: 1}).Error)
}

func TestLiningUpAndSpacingOnTheSheet(t *testing.T) {
	a, _, box, other := yardOf(t)
	for _, id := range []string{tank, box, other} {
		send(t, a, Command{Do: "pick", Part: id, On: true})
	}
	first := atMM(t, a, tank)
	send(t, a, Command{Do: "align", Key: "z", Text: "middle"})
	require.Equal(t, "lined up 3 parts", a.hist.UndoLabel())
	require.Equal(t, first, atMM(t, a, tank))
	require.InDelta(t, first[2], atMM(t, a, box)[2], 1e-6, "both are placed by their middles")
	require.InDelta(t, first[2], atMM(t, a, other)[2], 1e-6)
	send(t, a, Command{Do: "space", Key: "y"})
	lo, hi, _ := a.model.Extent(tank)
	lo2, hi2, _ := a.model.Extent(box)
	lo3, _, _ := a.model.Extent(other)
	require.InDelta(t, lo2[1]-hi[1], lo3[1]-hi2[1], 1e-5)
	require.Greater(t, lo3[0], lo[0])
}

// Lines to settle on: another part's edge and middle, and an axle's
// centreline, as well as the frame's faces and the vehicle's centre.
func TestDragSettlesOnOtherPartsAndAxles(t *testing.T) {
	a, _, box, _ := yardOf(t)
	// The box is 150 tall and stands with its middle at 60; the tank, 200 across, at 40.
	send(t, a, Command{Do: "select", Part: tank})
	k := a.camera().PxPerMM
	drag(a, "touch", grip(t, a, tank), mgl64.Vec2{0, -(60 - 40 + 2) * k})
	require.InDelta(t, 60, atMM(t, a, tank)[2], 0.01, "middle to middle")
	p := grip(t, a, tank)
	press(a, "touch", p, mgl64.Vec2{0, 24 * k})
	require.NotEmpty(t, a.Look().Guides)
	a.Pointer("pointercancel", "touch", 1, p[0], p[1], 0)
	_ = box
	send(t, a, Command{Do: "view", View: "side"})
	send(t, a, Command{Do: "fit"})
	k = a.camera().PxPerMM
	drag(a, "touch", grip(t, a, tank), mgl64.Vec2{(a.doc.Vehicle.WheelbaseMM - 2100 + 2) * k, 0})
	lo, hi, _ := a.model.Extent(tank)
	require.InDelta(t, a.doc.Vehicle.WheelbaseMM, (lo[0]+hi[0])/2, 0.01, "on the rear axle's centreline")
}

// A drag that begins slowly, on a page that draws few frames, is a drag: a finger
// that moves does not rest.
func TestASlowDragIsNoLongPress(t *testing.T) {
	a, page := yard(t)
	p := grip(t, a, tank)
	tapAt(a, p)
	before := atMM(t, a, tank)
	a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
	for i := 1.0; i <= 12; i++ {
		page.now += 200
		a.Pointer("pointermove", "touch", 1, p[0]-3.2*i, p[1], 0.5)
		frame(a)
	}
	a.Pointer("pointerup", "touch", 1, p[0]-3.2*12, p[1], 0)
	require.False(t, a.arr.picking)
	require.NotEqual(t, before, atMM(t, a, tank))
}
