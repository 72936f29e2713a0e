package app

import (
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// blocks is the starter vehicle in millimetres with two sharp blocks of 100 in
// the section at 2000: their middles 400 apart across and 300 apart in height.
func blocks(t testing.TB) (*App, *fakePage) {
	t.Helper()
	a, page := yard(t)
	doc := scene.New()
	doc.Show = scene.Millimetres
	for i, at := range []scene.Vec{{2000, -300, 600}, {2000, 100, 900}} {
		next, _, err := scene.AddPart(doc, "box", at)
		require.NoError(t, err)
		id := "part:" + next.Parts[len(next.Parts)-1].ID
		for _, f := range [][2]string{{"length_mm", "100"}, {"width_mm", "100"}, {"height_mm", "100"}, {"name", []string{"Low block", "High block"}[i]}} {
			next, _, err = scene.SetField(next, id, f[0], f[1])
			require.NoError(t, err)
		}
		doc = next
	}
	send(t, a, Command{Do: "open", Text: string(scene.Encode(doc)), Name: "blocks.json"})
	send(t, a, Command{Do: "station", MM: 2000})
	send(t, a, Command{Do: "fit"})
	frame(a)
	return a, page
}

// tapBody taps where a point of the body stands in the drawing.
func tapBody(a *App, p scene.Vec) {
	at, _ := a.spots()(p)
	tapAt(a, at)
}

// blockIDs are the ids of the two blocks.
func blockIDs(a *App) (low, high string) {
	n := len(a.doc.Parts)
	return a.doc.Parts[n-2].ID, a.doc.Parts[n-1].ID
}

func TestTwoTapsLayATape(t *testing.T) {
	a, page := blocks(t)
	low, high := blockIDs(a)
	send(t, a, Command{Do: "tape", On: true})
	frame(a)
	assert.True(t, page.last(t).See.Taping.On)
	tapBody(a, scene.Vec{2000, -300, 600})
	frame(a)
	assert.True(t, page.last(t).See.Taping.First)
	assert.Contains(t, page.last(t).See.Taping.Words, "Low block, centre")
	require.Empty(t, a.doc.Tapes, "one end is no tape")
	tapBody(a, scene.Vec{2000, 100, 900})
	frame(a)
	require.Len(t, a.doc.Tapes, 1)
	assert.Equal(t, scene.TapeEnd{Part: low, Feature: "1/centre"}, a.doc.Tapes[0].From)
	assert.Equal(t, scene.TapeEnd{Part: high, Feature: "1/centre"}, a.doc.Tapes[0].To)
	it := page.last(t).See.Tapes[0]
	assert.Equal(t, "500 mm", it.Length, "3-4-5")
	assert.Equal(t, "400 right, 300 up", it.Along)
	assert.Equal(t, "Low block to high block", it.Name)
	assert.Empty(t, a.selected, "no part was picked up")

	send(t, a, Command{Do: "undo"})
	assert.Empty(t, a.doc.Tapes)
	send(t, a, Command{Do: "redo"})
	require.Len(t, a.doc.Tapes, 1)

	send(t, a, Command{Do: "tape_name", Key: a.doc.Tapes[0].ID, Text: "Across"})
	send(t, a, Command{Do: "units", Text: "in"})
	frame(a)
	it = page.last(t).See.Tapes[0]
	assert.Equal(t, "Across", it.Name)
	assert.Equal(t, "19 11/16 in", it.Length, "500 / 25.4 = 19.685")
	send(t, a, Command{Do: "tape_delete", Key: a.doc.Tapes[0].ID})
	assert.Empty(t, a.doc.Tapes)
}

// A face seen on its edge is taken beside its corners; the tape then goes square
// to it. The other candidates follow one after the other.
func TestTapsOnFacesAndWhatElseIsThere(t *testing.T) {
	a, page := blocks(t)
	low, high := blockIDs(a)
	send(t, a, Command{Do: "tape", On: true})
	tapBody(a, scene.Vec{2000, -250, 620}) // on the low block's right face
	require.NotNil(t, a.tape.from)
	assert.Equal(t, scene.TapeEnd{Part: low, Feature: "1/face/+y"}, *a.tape.from)
	tapBody(a, scene.Vec{2000, 50, 880}) // on the high block's left face
	frame(a)
	require.Len(t, a.doc.Tapes, 1)
	assert.Equal(t, high, a.doc.Tapes[0].To.Part)
	assert.Equal(t, "1/face/-y", a.doc.Tapes[0].To.Feature)
	assert.Equal(t, "300 mm", page.last(t).See.Tapes[0].Length)

	// The second end is another one near by, in place of the first choice.
	tapBody(a, scene.Vec{2000, -300, 600})
	tapBody(a, scene.Vec{2000, 50, 850}) // near a corner, two faces and an edge
	frame(a)
	require.Len(t, a.doc.Tapes, 2)
	first := a.doc.Tapes[1].To
	require.True(t, page.last(t).See.Taping.More)
	seen := map[scene.TapeEnd]bool{first: true}
	for range 3 {
		send(t, a, Command{Do: "tape_next"})
		require.Len(t, a.doc.Tapes, 2, "in its place")
		seen[a.doc.Tapes[1].To] = true
	}
	assert.GreaterOrEqual(t, len(seen), 3)
	send(t, a, Command{Do: "undo"})
	assert.Len(t, a.doc.Tapes, 1, "one step back takes it away, whatever was tried")
}

func TestATapOnNothingSaysSo(t *testing.T) {
	a, page := blocks(t)
	send(t, a, Command{Do: "tape", On: true})
	m := a.lay.Main
	tapAt(a, mgl64.Vec2{m.X + m.W - 12, m.Y + 60})
	frame(a)
	said := false
	for _, p := range page.panels {
		said = said || strings.Contains(p, "Nothing to hold the tape to here")
	}
	assert.True(t, said)
	assert.Nil(t, a.tape.from)
	send(t, a, Command{Do: "tape_datum", Key: "ground"})
	r := try(t, a, Command{Do: "tape_datum", Key: "centre"})
	assert.Contains(t, r.Error, "cross")
	send(t, a, Command{Do: "tape", On: false})
	assert.Nil(t, a.tape.from)
	a.Key("Escape", false, false)
}

// The tape follows the parts and the height, and a finger that lays tapes moves
// no metal.
func TestTapesFollowPartsAndHeight(t *testing.T) {
	a, page := blocks(t)
	low, _ := blockIDs(a)
	send(t, a, Command{Do: "tape", On: true})
	tapBody(a, scene.Vec{2000, -300, 550}) // the low block's underside
	send(t, a, Command{Do: "tape_datum", Key: "ground"})
	frame(a)
	require.Len(t, a.doc.Tapes, 1)
	length := func() float64 {
		r, err := a.model.Tape(a.doc.Tapes[0].From, a.doc.Tapes[0].To, a.state())
		require.NoError(t, err)
		return r.LengthMM
	}
	was := length()
	send(t, a, Command{Do: "edit", Target: "part:" + low, Field: "at_z", Text: "640"})
	assert.InDelta(t, was+40, length(), 0.2)
	send(t, a, Command{Do: "height", Front: -50, Rear: -50})
	assert.InDelta(t, was-10, length(), 0.2)
	frame(a)
	assert.Equal(t, a.measured(length())+" mm", page.last(t).See.Tapes[0].Length)
	station := a.station
	send(t, a, Command{Do: "station", MM: 500})
	assert.Len(t, a.tapeLines(), 1, "it is in hand")
	send(t, a, Command{Do: "tape"})
	assert.Empty(t, a.tapeLines(), "put away, it is not drawn across what stands elsewhere")
	send(t, a, Command{Do: "tape", On: true})
	send(t, a, Command{Do: "station", MM: station})
	before := atMM(t, a, low)
	at, _ := a.spots()(scene.Vec{2000, -300, 640})
	drag(a, "touch", at, mgl64.Vec2{90, 0})
	assert.Equal(t, before, atMM(t, a, low))
	assert.Len(t, a.doc.Tapes, 1)
}

func TestTickingOffAndGoingStale(t *testing.T) {
	a, page := blocks(t)
	low, high := blockIDs(a)
	send(t, a, Command{Do: "tape", On: true})
	tapBody(a, scene.Vec{2000, -300, 600})
	tapBody(a, scene.Vec{2000, 100, 900})
	id := a.doc.Tapes[0].ID
	bad := try(t, a, Command{Do: "check", Key: id, On: true, Name: "2026-11-25", Text: "far"})
	assert.NotEmpty(t, bad.Error)
	assert.Empty(t, a.doc.Checked)
	send(t, a, Command{Do: "check", Key: id, On: true, Name: "2026-11-25", Text: "498"})
	send(t, a, Command{Do: "check", Part: high, On: true, Name: "2026-11-24"})
	frame(a)
	see := page.last(t).See
	assert.Equal(t, "Checked with the tape on 2026-11-25: read 498, 2 less than drawn", see.Tapes[0].Check)
	assert.Empty(t, see.Tapes[0].Stale)
	assert.Contains(t, see.Checked.Words, "1 of 1 measure")
	assert.False(t, see.Checked.Stale)
	item := func(id string) PartItem {
		for _, p := range page.last(t).Parts {
			if p.ID == id {
				return p
			}
		}
		t.Fatalf("no part %s", id)
		return PartItem{}
	}
	assert.Equal(t, "Checked with the tape on 2026-11-24", item(high).Checked)
	assert.Empty(t, item(low).Checked)

	// The height alone makes nothing stale; a part that moves does.
	send(t, a, Command{Do: "height", Front: -50, Rear: -50})
	frame(a)
	assert.False(t, page.last(t).See.Checked.Stale)
	send(t, a, Command{Do: "edit", Target: "part:" + high, Field: "at_z", Text: "920"})
	frame(a)
	see = page.last(t).See
	assert.Contains(t, see.Tapes[0].Stale, "Drawing changed since: 512.2 now") // √(400² + 320²) = 512.25
	assert.True(t, item(high).Stale)
	assert.Contains(t, item(high).Checked, "Drawing changed since")
	assert.Contains(t, see.Checked.Words, "Drawing changed since: 2")
	assert.True(t, see.Checked.Stale)
	send(t, a, Command{Do: "undo"})
	frame(a)
	assert.False(t, page.last(t).See.Checked.Stale, "as it was checked")
	send(t, a, Command{Do: "check", Key: id})
	send(t, a, Command{Do: "check", Part: high})
	assert.Empty(t, a.doc.Checked)
}

// A tape whose part changes into another shape says that it lost its place, and
// takes it up again when the shape comes back.
func TestATapeThatLostItsPlaceSaysSo(t *testing.T) {
	a, page := blocks(t)
	low, _ := blockIDs(a)
	send(t, a, Command{Do: "tape", On: true})
	tapBody(a, scene.Vec{2000, -350, 650}) // a corner, or a face there
	send(t, a, Command{Do: "tape_next"})
	send(t, a, Command{Do: "tape_datum", Key: "frame"})
	require.Len(t, a.doc.Tapes, 1)
	send(t, a, Command{Do: "edit", Target: "part:" + low, Field: "round_mm", Text: "50"}) // a ball now
	frame(a)
	it := page.last(t).See.Tapes[0]
	assert.NotEmpty(t, it.Lost)
	assert.Empty(t, it.Length)
	assert.Empty(t, a.tapeLines())
	send(t, a, Command{Do: "undo"})
	frame(a)
	assert.Empty(t, page.last(t).See.Tapes[0].Lost)
}

// In every drawing of the demo a tap within 22 pixels of a feature that stands
// alone takes it, and one farther off does not.
func TestTapsSnapWithinAFingersReach(t *testing.T) {
	a := van(t)
	a.Resize(828, 746)
	for _, v := range []string{"section", "side", "plan", "front", "turn"} {
		send(t, a, Command{Do: "view", View: v})
		send(t, a, Command{Do: "tape", On: true})
		frame(a)
		spot := a.spots()
		at, _ := spot(a.model.WheelCentre(scene.WheelRL, a.state()))
		took := func(d float64) bool {
			for _, k := range a.picksAt(at.Add(mgl64.Vec2{d, 0})) {
				if k.end.Datum == string(scene.WheelRL) {
					return true
				}
			}
			return false
		}
		if v == "section" {
			send(t, a, Command{Do: "station", MM: a.doc.Vehicle.WheelbaseMM + 300})
			spot = a.spots()
			at, _ = spot(a.model.WheelCentre(scene.WheelRL, a.state()))
		}
		assert.True(t, took(2), v)
		assert.False(t, took(reachPx+1), v)
		require.NotEmpty(t, a.holds(), v)
	}
	assert.Equal(t, fitment.FrontView, a.view)
}
