package app

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
	"scrubline/wasm/draw"
)

// reloaded is the sketcher after its page was loaded again with what was kept.
func reloaded(t testing.TB, page *fakePage) (*App, *fakePage) {
	t.Helper()
	require.NotEmpty(t, page.saved)
	again := &fakePage{}
	a, err := New(again, draw.RoughWidth)
	require.NoError(t, err)
	a.Resize(1000, 800)
	send(t, a, Command{Do: "open", Text: page.saved[len(page.saved)-1], Steps: page.steps})
	frame(a)
	return a, again
}

// What a start brings back lies in the page's store already: writing it all down
// again would only hold up the first picture. The next edit is kept as ever.
func TestWhatThePageHasIsNotGivenToItAgain(t *testing.T) {
	_, page := full(t)
	text, steps := lastSaved(page), page.steps
	again := &fakePage{}
	a, err := New(again, draw.RoughWidth)
	require.NoError(t, err)
	send(t, a, Command{Do: "open", Text: text, Steps: steps, On: true})
	assert.Empty(t, again.saved)
	send(t, a, Command{Do: "place", Kind: "box"})
	require.Len(t, again.saved, 1)
	assert.NotEqual(t, text, lastSaved(again))
	send(t, a, Command{Do: "open", Text: text, Steps: steps})
	assert.Len(t, again.saved, 2, "a file that is opened is kept")
}

func lastSaved(page *fakePage) string { return page.saved[len(page.saved)-1] }

// full is a sheet with one of everything that can be taken away.
func full(t testing.TB) (*App, *fakePage) {
	t.Helper()
	a, page := photographed(t)
	doc := a.hist.Doc()
	edit := func(d *scene.Document, _ string, err error) {
		t.Helper()
		require.NoError(t, err)
		doc = d
	}
	edit(scene.AddPart(doc, "box", scene.Vec{1200, 0, 400}))
	edit(scene.MakeGroup(doc, []string{tank, "box"}, "Air set"))
	edit(scene.AddTape(doc, "Across", scene.TapeEnd{Part: "box", Feature: "1/corner/1"}, scene.TapeEnd{Part: tank, Feature: "1/axis"}))
	edit(scene.TickPart(doc, "box", "2026-11-25"))
	edit(scene.AddMovement(doc, "box", scene.Slide))
	edit(scene.SetJoined(doc, tank, "driveshaft", true, "bracket"))
	edit(scene.KeepOnShelf(doc, "box"))
	edit(scene.AddVariant(doc, "Other"))
	send(t, a, Command{Do: "open", Text: string(scene.Encode(doc)), Name: "full.json"})
	frame(a)
	return a, page
}

// TestEveryDestructiveActIsTakenBack does each, loads the page again, and takes
// it back: the document is the same bytes as before; done again, as after.
func TestEveryDestructiveActIsTakenBack(t *testing.T) {
	for name, acts := range map[string][]Command{
		"a part":              {{Do: "delete", Part: "driveshaft"}},
		"a part with all":     {{Do: "delete", Part: "box"}},
		"picked parts":        {{Do: "pick", On: true}, {Do: "pick", Part: "driveshaft", On: true}, {Do: "pick", Part: tank, On: true}, {Do: "delete"}},
		"a group":             {{Do: "ungroup", Key: "air-set"}},
		"a tape":              {{Do: "tape_delete", Key: "tape-1"}},
		"a check":             {{Do: "check", Part: "box"}},
		"a movement":          {{Do: "stop_move", Key: "box-slides"}},
		"a joint":             {{Do: "join", A: tank, B: "driveshaft"}},
		"a photo":             {{Do: "photo_remove", Key: "photo-1"}},
		"a variant":           {{Do: "variant_drop", Key: "other"}},
		"what is drawn":       {{Do: "variant_take", Key: "other"}},
		"a part on the shelf": {{Do: "shelf_drop", Key: "box-2"}},
		"a new vehicle over":  {{Do: "begin", Row: len(startSteps) - 1, On: true}},
	} {
		t.Run(name, func(t *testing.T) {
			a, page := full(t)
			before := lastSaved(page)
			for _, c := range acts {
				send(t, a, c)
			}
			frame(a)
			after := lastSaved(page)
			require.NotEqual(t, before, after)
			label := a.hist.UndoLabel()
			require.NotEmpty(t, label)

			a, page = reloaded(t, page)
			assert.Equal(t, label, page.last(t).Undo)
			require.Equal(t, after, lastSaved(page))
			for range 2 {
				send(t, a, Command{Do: "undo"})
				frame(a)
				require.Equal(t, before, lastSaved(page))
				assert.Equal(t, label, page.last(t).Redo)
				a, page = reloaded(t, page)
				send(t, a, Command{Do: "redo"})
				frame(a)
				require.Equal(t, after, lastSaved(page))
			}
		})
	}
}

// A file opened over the work begins new steps; what the page kept of the work
// is brought back with its own.
func TestOpeningAFileBeginsNewSteps(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "delete", Part: tank})
	work, steps := lastSaved(page), send(t, a, Command{Do: "steps"}).Text
	assert.Equal(t, page.steps, steps, "what is handed out is what is kept")

	send(t, a, Command{Do: "starter"})
	frame(a)
	assert.Empty(t, page.last(t).Undo)
	send(t, a, Command{Do: "open", Text: work, Steps: page.steps})
	frame(a)
	assert.Empty(t, page.last(t).Undo, "steps of another vehicle are left out")
	assert.Equal(t, work, lastSaved(page))
	send(t, a, Command{Do: "open", Text: work, Steps: "nonsense"})
	assert.Equal(t, work, lastSaved(page), "damaged steps are no reason not to open")

	send(t, a, Command{Do: "open", Text: work, Steps: steps})
	frame(a)
	assert.Equal(t, "removed Air tank", page.last(t).Undo)
	assert.NotContains(t, send(t, a, Command{Do: "save"}).Text, "removed Air tank", "a file has no steps")
}

// Changing the unit or looking at a variant is no step, and leaves the steps
// fitting the document.
func TestLookingDoesNotLoseTheSteps(t *testing.T) {
	a, page := full(t)
	send(t, a, Command{Do: "delete", Part: "driveshaft"})
	for _, c := range []Command{{Do: "units", Text: "in"}, {Do: "variant"}, {Do: "variant", Key: "other"}, {Do: "units", Text: "mm"}} {
		send(t, a, c)
		a, page = reloaded(t, page)
		assert.NotEmpty(t, page.last(t).Undo, "%+v", c)
	}
	send(t, a, Command{Do: "undo"})
	assert.Contains(t, lastSaved(page), `"driveshaft"`)
}
