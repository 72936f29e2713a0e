package app

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/wasm/draw"
)

func TestEveryKindOfPartBelongsToASort(t *testing.T) {
	a := van(t)
	seen := map[string]int{}
	for i := range a.doc.Parts {
		id := classOf(&a.doc.Parts[i])
		require.GreaterOrEqual(t, classIndex(id), 0, id)
		seen[id]++
	}
	for _, id := range []string{"frame", "body", "suspension", "wheels", "drive", "exhaust", "fuel", "electric", "air"} {
		assert.NotZero(t, seen[id], id)
	}
	total := 0
	for _, it := range a.showItems(nil) {
		total += it.Parts
	}
	assert.Equal(t, len(a.doc.Parts), total)
	require.LessOrEqual(t, len(classes), len(hides{}))
}

// What is hidden is not drawn and cannot be picked up, and yet it is checked:
// the findings stay the same.
func TestHiddenPartsStillCount(t *testing.T) {
	a := van(t)
	page := a.host.(*fakePage)
	before := page.last(t)
	drawn := func(id string) bool {
		for _, o := range a.sideOuts() {
			if a.doc.Parts[o.Part].ID == id {
				return true
			}
		}
		return false
	}
	require.True(t, drawn("exhaust"))
	send(t, a, Command{Do: "select", Part: "exhaust"})
	send(t, a, Command{Do: "show", Key: "exhaust", On: false})
	frame(a)
	assert.False(t, drawn("exhaust"))
	assert.Empty(t, a.selected, "what is not seen is not held")
	assert.NotContains(t, a.Look().Parts, "exhaust")
	for v := fitment.SectionView; v <= fitment.FrontView; v++ {
		a.view = v
		for _, o := range a.outs() {
			require.NotEqual(t, "exhaust", a.doc.Parts[o.Part].ID)
		}
	}
	a.view = fitment.SectionView
	frame(a)
	now := page.last(t)
	assert.Equal(t, len(before.Findings), len(now.Findings))
	assert.Equal(t, before.Headline, now.Headline)
	assert.Contains(t, now.See.Hidden, "still checked")
	assert.Contains(t, now.See.Hidden, "exhaust")
	assert.Contains(t, a.caption(), "exhaust hidden")
	send(t, a, Command{Do: "view", View: "turn"})
	for _, w := range a.turnWires() {
		require.NotEqual(t, "exhaust", a.doc.Parts[w.Part].ID)
	}
	send(t, a, Command{Do: "show"})
	frame(a)
	assert.Empty(t, page.last(t).See.Hidden)
	assert.True(t, drawn("exhaust"))
	assert.NotEmpty(t, try(t, a, Command{Do: "show", Key: "nonsense"}).Error)
}

// From the front, the vehicle's right is at the left of the drawing, and a part
// that is drawn to the left on the screen goes to its right.
func TestTheFrontIsSeenFromTheFront(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "view", View: "front"})
	proj := a.projection()
	right, left := proj.Screen(fitment.Pt{500, 0}), proj.Screen(fitment.Pt{-500, 0})
	assert.Less(t, right[0], left[0])
	assert.Less(t, proj.Screen(fitment.Pt{0, 300})[1], right[1], "up is up")
	back := proj.World(right)
	assert.InDelta(t, 500, back[0], 1e-6)
	tapAt(a, grip(t, a, tank))
	require.Equal(t, tank, a.selected)
	before := atMM(t, a, tank)
	drag(a, "touch", grip(t, a, tank), mgl64.Vec2{-60 * a.camera().PxPerMM, 0})
	after := atMM(t, a, tank)
	assert.InDelta(t, before[1]+60, after[1], 5.1)
	assert.Equal(t, before[0], after[0])
	assert.Equal(t, before[2], after[2])
}

// Four drawings stand beside each other, none on another, each with its view;
// a finger works in the one it comes down on; where there is no room there is
// one.
func TestFourDrawingsAtOnce(t *testing.T) {
	a := van(t)
	a.Resize(828, 746)
	send(t, a, Command{Do: "view", View: "four"})
	frame(a)
	list, ok := a.panes()
	require.True(t, ok)
	for i := range list {
		assert.True(t, list[i].Inside(a.lay.Canvas))
		for k := range i {
			assert.False(t, list[i].Overlaps(list[k]))
		}
		assert.False(t, list[i].Overlaps(a.lay.Staff))
		assert.False(t, list[i].Overlaps(a.lay.Strip))
	}
	// The same stations stand below each other, the same heights beside each
	// other, as far as each drawing's own scale lets them.
	side, plan := list[fitment.SideView], list[fitment.PlanView]
	assert.Equal(t, side.X, plan.X)
	assert.Equal(t, side.W, plan.W)
	for v := fitment.SectionView; v <= fitment.FrontView; v++ {
		m := list[v].Middle()
		tapAt(a, m)
		assert.Equal(t, v, a.view)
		assert.Equal(t, list[v], a.lay.Main)
		l := a.Frame()
		require.NotNil(t, l)
	}
	was := a.cams[views+int(fitment.FrontView)]
	drag(a, "touch", mgl64.Vec2{plan.X + 8, plan.Y + plan.H - 8}, mgl64.Vec2{40, -20})
	assert.Equal(t, fitment.PlanView, a.view)
	assert.Equal(t, was, a.cams[views+int(fitment.FrontView)], "the others stay")
	a.Resize(360, 500)
	frame(a)
	assert.Equal(t, oneLarge, a.showing, "no room for four")
	assert.NotEmpty(t, try(t, a, Command{Do: "view", View: "four"}).Error)
}

// The small drawing shows what the large one does not, and a tap changes them
// over.
func TestTheSmallDrawingChangesOver(t *testing.T) {
	a := van(t)
	a.Resize(828, 746)
	require.NotZero(t, a.lay.Small.W)
	assert.False(t, a.lay.Small.Overlaps(a.lay.Strip))
	require.Equal(t, fitment.FrontView, a.smallView())
	tapAt(a, a.lay.Small.Middle())
	assert.Equal(t, fitment.FrontView, a.view)
	assert.Equal(t, fitment.SectionView, a.smallView())
	tapAt(a, a.lay.Small.Middle())
	assert.Equal(t, fitment.SectionView, a.view)
	assert.Empty(t, a.selected)
}

// The outline turns with the finger, moves no metal, and comes back to named
// directions.
func TestTheOutlineTurns(t *testing.T) {
	a := van(t)
	a.Resize(828, 746)
	doc := a.doc
	send(t, a, Command{Do: "view", View: "turn"})
	frame(a)
	was := *a.turnCam()
	m := a.lay.Main.Middle()
	drag(a, "touch", m, mgl64.Vec2{100, 30})
	now := *a.turnCam()
	assert.InDelta(t, 0, math.Remainder(was.Yaw-0.9-now.Yaw, 2*math.Pi), 0.07, "100 pixels at 0.009 rad, less the wander of a press")
	assert.Greater(t, now.Pitch, was.Pitch)
	assert.Same(t, doc, a.doc)
	a.Pointer("pointerdown", "touch", 1, m[0]-50, m[1], 0.5)
	a.Pointer("pointerdown", "touch", 2, m[0]+50, m[1], 0.5)
	a.Pointer("pointermove", "touch", 2, m[0]+150, m[1], 0.5)
	a.Pointer("pointerup", "touch", 2, m[0]+150, m[1], 0)
	a.Pointer("pointerup", "touch", 1, m[0]-50, m[1], 0)
	assert.InDelta(t, 2*now.PxPerMM, a.turnCam().PxPerMM, 1e-9)
	send(t, a, Command{Do: "look_from", Text: "above"})
	assert.InDelta(t, math.Pi/2, a.turnCam().Pitch, 0.03)
	assert.NotEmpty(t, try(t, a, Command{Do: "look_from", Text: "inside"}).Error)

	// A tap on a line picks its part up.
	s := a.turnSheet()
	hit := 0
	for _, w := range s.Wires {
		for _, e := range w.Edges {
			at, _ := a.spots()(e[0])
			if i := s.PartAt(at, reachPx); i >= 0 && hit == 0 && a.lay.Main.Inset(50).Contains(at) {
				tapAt(a, at)
				assert.Equal(t, a.doc.Parts[i].ID, a.selected)
				hit++
			}
		}
	}
	assert.NotZero(t, hit)
	// A finding is looked at in a drawing, not in the outline.
	key := a.findingItems()[0].Key
	send(t, a, Command{Do: "finding", Key: key})
	assert.Equal(t, oneLarge, a.showing)
}

func TestThemes(t *testing.T) {
	a, _ := yard(t)
	for word, pal := range map[string]*draw.Palette{"light": &draw.Light, "dark": &draw.Dark, "sun": &draw.Sun} {
		send(t, a, Command{Do: "theme", Text: word})
		assert.Same(t, pal, a.Palette())
	}
	assert.NotEmpty(t, try(t, a, Command{Do: "theme", Text: "sepia"}).Error)
}
