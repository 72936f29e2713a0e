package app

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment"
	"scrubline/scene"
)

func TestTapSelectsThenDragMoves(t *testing.T) {
	a, page := yard(t)
	p := grip(t, a, tank)
	tapAt(a, p)
	require.Equal(t, tank, a.selected)
	before := atMM(t, a, tank)
	saves := len(page.saved)
	k := a.camera().PxPerMM
	drag(a, "touch", p, mgl64.Vec2{-61 * k, -32 * k}) // 61 to the left, 32 up
	at := atMM(t, a, tank)
	require.InDelta(t, before[0], at[0], 1e-9, "the section moves nothing along the vehicle")
	require.InDelta(t, before[1]-60, at[1], 1e-6, "settled on 5 mm")
	require.InDelta(t, before[2]+30, at[2], 1e-6, "settled on 5 mm")
	require.Len(t, page.saved, saves+1, "kept once, at the end")
	require.Equal(t, "moved Air tank", a.hist.UndoLabel())

	send(t, a, Command{Do: "undo"})
	require.Equal(t, before, atMM(t, a, tank), "one step back is the whole drag")
	send(t, a, Command{Do: "redo"})
	require.Equal(t, at, atMM(t, a, tank))
}

func TestStrayFingerMovesTheSheetNotMetal(t *testing.T) {
	a, page := yard(t)
	p := grip(t, a, tank)
	before, saves := atMM(t, a, tank), len(page.saved)
	proj := a.projection()
	world := proj.World(p)
	drag(a, "touch", p, mgl64.Vec2{80, 30})
	require.Equal(t, before, atMM(t, a, tank))
	require.Len(t, page.saved, saves)
	proj = a.projection()
	require.InDelta(t, 0, proj.Screen(world).Sub(p.Add(mgl64.Vec2{80, 30})).Len(), 1e-6, "the sheet went with the finger")
}

func TestDragSettlesOnARailAndTheCentre(t *testing.T) {
	a, _ := yard(t)
	p := grip(t, a, tank)
	tapAt(a, p)
	k := a.camera().PxPerMM
	// The rails stand at ±400, 60 wide: inner faces at ±370. The tank is 200 wide.
	drag(a, "touch", p, mgl64.Vec2{(-270 + 4 + 150) * k, 0})
	require.InDelta(t, -270, atMM(t, a, tank)[1], 0.01, "its left side lies on the rail's inner face")
	p = grip(t, a, tank)
	press(a, "touch", p, mgl64.Vec2{(270 + 3) * k, 0})
	require.NotEmpty(t, a.hand.on, "the guide shows while the finger is down")
	a.Pointer("pointerup", "touch", 1, p[0]+273*k, p[1], 0)
	require.InDelta(t, 0, atMM(t, a, tank)[1], 0.01, "its middle lies on the centre of the vehicle")
	require.Empty(t, a.hand.on)
}

func TestSidewaysDragKeepsTheHeight(t *testing.T) {
	a, _ := yard(t)
	tapAt(a, grip(t, a, tank))
	a.Key("ArrowUp", true, false) // off the grid, and near the rails' faces
	a.Key("ArrowUp", true, false)
	before := atMM(t, a, tank)
	drag(a, "touch", grip(t, a, tank), mgl64.Vec2{60, 3})
	at := atMM(t, a, tank)
	require.NotEqual(t, before[1], at[1])
	require.Equal(t, before[2], at[2])
}

func TestCancelRollsBack(t *testing.T) {
	a, page := yard(t)
	p := grip(t, a, tank)
	tapAt(a, p)
	before, saves := a.doc, len(page.saved)
	press(a, "touch", p, mgl64.Vec2{60, 0})
	require.NotEqual(t, before.Parts, a.doc.Parts)
	a.Pointer("pointercancel", "touch", 1, 0, 0, 0)
	require.Equal(t, before, a.doc)
	require.Len(t, page.saved, saves)
	require.Empty(t, a.hist.UndoLabel())

	front, rear := a.front, a.rear
	s := mgl64.Vec2(a.Look().Saddle)
	press(a, "touch", s, mgl64.Vec2{0, 60})
	require.NotEqual(t, rear, a.rear)
	a.Pointer("pointercancel", "touch", 1, 0, 0, 0)
	require.Equal(t, [2]float64{front, rear}, [2]float64{a.front, a.rear})
}

func TestSecondFingerTakesTheDragBack(t *testing.T) {
	a, _ := yard(t)
	p := grip(t, a, tank)
	tapAt(a, p)
	before := atMM(t, a, tank)
	press(a, "touch", p, mgl64.Vec2{60, 0})
	a.Pointer("pointerdown", "touch", 2, 100, 100, 0.5)
	require.Equal(t, before, atMM(t, a, tank))
	require.Equal(t, pinching, a.hand.mode)
	a.Pointer("pointerup", "touch", 2, 100, 100, 0)
	a.Pointer("pointermove", "touch", 1, 300, 300, 0.5)
	require.Equal(t, before, atMM(t, a, tank), "the finger that is left does nothing")
	a.Pointer("pointerup", "touch", 1, 300, 300, 0)
	require.Equal(t, idle, a.hand.mode)
}

// Two fingers keep hold of the two points of the sheet they came down on, as
// long as they neither turn nor leave the limits of the zoom.
func TestPinchKeepsTheSheetUnderTheFingers(t *testing.T) {
	a, _ := yard(t)
	home := *a.camera()
	rapid.Check(t, func(t *rapid.T) {
		*a.camera() = home
		m := a.lay.Main
		x := func(n string) float64 { return rapid.Float64Range(m.X+20, m.X+m.W-20).Draw(t, n) }
		y := func(n string) float64 { return rapid.Float64Range(m.Y+20, m.Y+m.H-20).Draw(t, n) }
		p, q := mgl64.Vec2{x("px"), y("py")}, mgl64.Vec2{x("qx"), y("qy")}
		if q.Sub(p).Len() < 60 { // two fingers come down no closer
			in := mgl64.Vec2{m.X + m.W/2, m.Y + m.H/2}.Sub(p)
			if in.Len() < 1 {
				in = mgl64.Vec2{1, 0}
			}
			q = p.Add(in.Normalize().Mul(67))
		}
		proj := a.projection()
		wp, wq := proj.World(p), proj.World(q)
		f := rapid.Float64Range(0.4, 2.5).Draw(t, "factor")
		shift := mgl64.Vec2{rapid.Float64Range(-50, 50).Draw(t, "sx"), rapid.Float64Range(-50, 50).Draw(t, "sy")}
		p2 := p.Add(shift)
		q2 := p2.Add(q.Sub(p).Mul(f))
		a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
		a.Pointer("pointerdown", "touch", 2, q[0], q[1], 0.5)
		a.Pointer("pointermove", "touch", 1, p2[0], p2[1], 0.5)
		a.Pointer("pointermove", "touch", 2, q2[0], q2[1], 0.5)
		proj = a.projection()
		a.Pointer("pointerup", "touch", 1, p2[0], p2[1], 0)
		a.Pointer("pointerup", "touch", 2, q2[0], q2[1], 0)
		mid, want := proj.Screen(wp).Add(proj.Screen(wq)).Mul(0.5), p2.Add(q2).Mul(0.5)
		if mid.Sub(want).Len() > 1e-6 {
			t.Fatalf("the middle is at %v, the fingers' middle at %v", mid, want)
		}
		if got := proj.Screen(wq).Sub(proj.Screen(wp)).Len(); math.Abs(got-q2.Sub(p2).Len()) > 1e-6 {
			t.Fatalf("the points stand %v apart, the fingers %v", got, q2.Sub(p2).Len())
		}
	})
}

func TestWheelZoomsAboutThePointer(t *testing.T) {
	a, _ := yard(t)
	p := mgl64.Vec2{200, 300}
	proj := a.projection()
	w, k := proj.World(p), a.camera().PxPerMM
	a.Wheel(0, -200, p[0], p[1], false)
	proj = a.projection()
	require.Greater(t, a.camera().PxPerMM, k)
	require.InDelta(t, 0, proj.Screen(w).Sub(p).Len(), 1e-6)
	a.Wheel(0, math.NaN(), p[0], p[1], false)
	require.False(t, math.IsNaN(a.camera().PxPerMM))
}

func TestSaddleMovesBothEndsInProportion(t *testing.T) {
	a, _ := yard(t)
	st := a.staff()
	s := mgl64.Vec2(a.Look().Saddle)
	drag(a, "touch", s, mgl64.Vec2{0, 65 * st.PxPerMM()})
	require.InDelta(t, -65, a.rear, 0.51, "whole millimetres")
	require.InDelta(t, a.rear*110/130, a.front, 1e-9, "in the proportion of the named heights")

	s = mgl64.Vec2(a.Look().Saddle)
	drag(a, "touch", s, mgl64.Vec2{0, st.Y(-127) - s[1]})
	require.Equal(t, [2]float64{-110, -130}, [2]float64{a.front, a.rear}, "a named height attracts it")
	frame(a)
	require.True(t, a.panels().Heights[0].Active)
}

func TestSaddlesApart(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "apart", On: true})
	l := a.Look()
	st := a.staff()
	drag(a, "touch", mgl64.Vec2(l.SaddleF), mgl64.Vec2{0, 50 * st.PxPerMM()})
	require.InDelta(t, -50, a.front, 0.51)
	require.Zero(t, a.rear)
	drag(a, "touch", mgl64.Vec2(a.Look().Saddle), mgl64.Vec2{0, -30 * st.PxPerMM()})
	require.InDelta(t, 30, a.rear, 0.51)
	require.InDelta(t, -50, a.front, 0.51)
	send(t, a, Command{Do: "apart"})
	f, r := a.travel.Pair(a.travel.Coord(a.front, a.rear))
	require.Equal(t, [2]float64{f, r}, [2]float64{a.front, a.rear}, "together again")
}

func TestLoweringMovesThePartsDownOnTheScreen(t *testing.T) {
	a, _ := yard(t)
	proj := a.projection()
	p := fitment.Pt{-150, 40}
	ride := proj.Screen(p)
	ground := a.camera().Matrix(a.lay.Main).Mul3x1(mgl64.Vec3{0, 0, 1})
	send(t, a, Command{Do: "named", Key: scene.AiredOut})
	proj = a.projection()
	require.Greater(t, proj.Screen(p)[1], ride[1]+20)
	require.Equal(t, ground, a.camera().Matrix(a.lay.Main).Mul3x1(mgl64.Vec3{0, 0, 1}), "the ground stays")
}

func TestFlagMovesTheSection(t *testing.T) {
	a, _ := yard(t)
	f := mgl64.Vec2(a.Look().Flag)
	k := a.strip.PxPerMM
	drag(a, "touch", f, mgl64.Vec2{-400 * k, 0})
	require.InDelta(t, 1700, a.station, 5)
	f = mgl64.Vec2(a.Look().Flag)
	drag(a, "touch", f, mgl64.Vec2{(2950-a.station)*k + 1, 0})
	require.Equal(t, 2950.0, a.station, "the rear axle's centreline attracts it")
	a.Key("ArrowLeft", false, false)
	require.Equal(t, 2945.0, a.station)
	a.Key("ArrowLeft", true, false)
	require.Equal(t, 2944.0, a.station)
}

func TestPenTurnsBareFingersIntoPalms(t *testing.T) {
	a, page := yard(t)
	p := grip(t, a, tank)
	tapAt(a, p)
	before := atMM(t, a, tank)
	a.Pointer("pointerdown", "pen", 9, 40, 60, 0.5)
	a.Pointer("pointerdown", "touch", 3, 300, 300, 0.5)
	require.Len(t, a.hand.fingers, 1, "a palm beside the pen is nothing")
	a.Pointer("pointerup", "pen", 9, 40, 60, 0)
	send(t, a, Command{Do: "select", Part: tank})
	p = grip(t, a, tank)
	drag(a, "touch", p, mgl64.Vec2{60, 0})
	require.Equal(t, before, atMM(t, a, tank))
	p = grip(t, a, tank)
	drag(a, "pen", p, mgl64.Vec2{-60, 0})
	moved := atMM(t, a, tank)
	require.NotEqual(t, before, moved)
	page.now += 2 * palmMS
	send(t, a, Command{Do: "fit"})
	drag(a, "touch", grip(t, a, tank), mgl64.Vec2{60, 0})
	require.NotEqual(t, moved, atMM(t, a, tank), "the pen was put away long ago")
}

func TestDoubleTapOnEmptyPaperShowsAll(t *testing.T) {
	a, page := yard(t)
	frame(a)
	send(t, a, Command{Do: "fit"})
	home := *a.camera()
	*a.camera() = home.PanBy(mgl64.Vec2{90, 40})
	empty := mgl64.Vec2{a.lay.Main.X + 30, a.lay.Main.Y + 60}
	require.Equal(t, -1, a.partAt(empty))
	tapAt(a, empty)
	page.now += 200
	tapAt(a, empty)
	require.InDelta(t, 0, a.camera().Centre.Sub(home.Centre).Len(), 1e-6)
	*a.camera() = home.PanBy(mgl64.Vec2{90, 40})
	tapAt(a, empty)
	page.now += 2000
	tapAt(a, empty)
	require.NotEqual(t, home, *a.camera(), "two slow taps are two taps")
}

func TestTapAgainGoesDeeper(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "view", View: "side"})
	proj := a.projection()
	p := proj.Screen(fitment.Pt{2100, 60}) // the tank, between the two rails
	hits := a.partsAt(fitment.Pt{2100, 60})
	require.Equal(t, a.partIndex(tank), hits[0], "the rail before it is long, and comes after what it hides")
	require.GreaterOrEqual(t, len(hits), 3)
	for range 2 {
		for _, i := range hits {
			tapAt(a, p)
			require.Equal(t, a.doc.Parts[i].ID, a.selected)
		}
	}
}

func TestTapOnTheStaff(t *testing.T) {
	a, _ := yard(t)
	st := a.staff()
	tapAt(a, mgl64.Vec2{st.LineX + 40, st.Y(-130)})
	require.Equal(t, -130.0, a.rear, "a named height")
	rungs := a.rungs()
	require.NotEmpty(t, rungs)
	for _, r := range rungs {
		send(t, a, Command{Do: "height"})
		tapAt(a, mgl64.Vec2{st.LineX - 18, st.Y(r.MM)})
		require.Equal(t, r.Key, a.finding, "a finding at its mark")
		require.InDelta(t, r.MM, a.travel.Coord(a.front, a.rear), 0.1)
	}
}

func TestArrowKeysNudgeWhatIsSelected(t *testing.T) {
	a, _ := yard(t)
	tapAt(a, grip(t, a, tank))
	before := atMM(t, a, tank)
	require.True(t, a.Key("ArrowUp", false, false))
	require.True(t, a.Key("ArrowRight", true, false))
	require.Equal(t, scene.Vec{before[0], before[1] + 5, before[2] + 1}, atMM(t, a, tank), "by a millimetre, with shift by five")
	require.True(t, a.Key("z", false, true))
	require.True(t, a.Key("z", false, true))
	require.Equal(t, before, atMM(t, a, tank))
	require.False(t, a.Key("q", false, false), "other keys are the browser's")
	require.True(t, a.Key("Escape", false, false))
	require.Empty(t, a.selected)
}

// A finger whose end was lost comes down again while another rests on the
// staff: what it had begun is over, and nothing moves.
func TestADragWhoseEndWasLostIsOver(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "select", Part: tank})
	was := atMM(t, a, tank)
	p, s := grip(t, a, tank), a.lay.Staff.Middle()
	press(a, "touch", p, mgl64.Vec2{40, 0})
	require.Equal(t, dragPart, a.hand.mode)
	a.Pointer("pointerdown", "touch", 2, s[0], s[1], 0.5)
	a.Pointer("pointerdown", "touch", 1, s[0], s[1], 0.5)
	a.Pointer("pointermove", "touch", 1, p[0], p[1], 0.5)
	require.Equal(t, was, atMM(t, a, tank))
	a.Pointer("pointerup", "touch", 1, p[0], p[1], 0)
	a.Pointer("pointerup", "touch", 2, s[0], s[1], 0)
	require.Equal(t, idle, a.hand.mode)
	require.Equal(t, was, atMM(t, a, tank))
}
