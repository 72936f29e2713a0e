//go:build e2e

package web_test

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// stepSizes are a tablet either way up, and a phone.
var stepSizes = map[string]browser.Size{"landscape": browser.Landscape, "portrait": browser.Portrait, "phone": browser.Phone}

// Three edits with a finger, one of them a deletion, outlive the tab: undo goes
// back to where it began by their names, and redo to where it ended.
func TestE2EUndoGoesOnAfterAReload(t *testing.T) {
	for name, size := range stepSizes {
		t.Run(name, func(t *testing.T) {
			x := open(t, size)
			states, names := x.threeEdits()
			x.must(x.Reload())
			x.checked()
			assert.Equal(t, states[3], x.file())
			for i := 3; i > 0; i-- {
				x.eventually("undo names "+names[i], func() bool { return x.stepName("undo") == "Undo: "+names[i] })
				x.tap(".step-undo")
				x.eventually("it is taken back", func() bool { return x.file() == states[i-1] })
				if i == 2 { // in the middle, what can be done again is kept as well
					x.eventually("this is kept", func() bool { return x.kept("current") == states[i-1] })
					x.must(x.Reload())
					x.checked()
				}
			}
			x.eventually("there is nothing more to undo", func() bool { return x.stepName("undo") == "Undo" })
			for i := 1; i <= 3; i++ {
				x.eventually("redo names "+names[i], func() bool { return x.stepName("redo") == "Redo: "+names[i] })
				x.tap(".step-redo")
				x.eventually("it is done again", func() bool { return x.file() == states[i] })
			}
		})
	}
}

// threeEdits places a box, doubles it and deletes the double, with fingers. It
// returns the file at the start and after each, and what each is called.
func (x *tab) threeEdits() (states, names []string) {
	x.t.Helper()
	states, names = []string{x.file()}, []string{""}
	edited := func(what string) {
		x.t.Helper()
		x.eventually(what, func() bool { return x.file() != states[len(states)-1] })
		now := x.file()
		states = append(states, now)
		x.eventually("it has a name", func() bool { return x.stepName("undo") != "Undo" && x.stepName("undo") != "Undo: "+names[len(names)-1] })
		names = append(names, x.stepName("undo")[len("Undo: "):])
		x.eventually("it is kept", func() bool { return x.kept("current") == now })
	}
	x.tap(".place-button, .grip-place")
	x.wait(shown(".side-place"))
	x.tap(`.list-row[data-kind="box"]`)
	edited("a box is placed")
	x.raise()
	x.wait(shown(".side-form .actions"))
	x.tap(".actions button", "Duplicate")
	edited("it is doubled")
	x.tap(".actions button", "Delete")
	edited("the double is deleted")
	return states, names
}

// stepName is what the undo or the redo button says it does.
func (x *tab) stepName(which string) string {
	x.t.Helper()
	return eval[string](x, `document.querySelector(".step-`+which+`").getAttribute("aria-label")`)
}

// A killed tab says no goodbye: its steps are there all the same. Another
// vehicle opened over them has none, and bringing the first one back brings
// its steps back; a saved file holds none.
func TestE2EEachVehicleKeepsItsOwnSteps(t *testing.T) {
	x := openAlone(t, browser.Landscape)
	y := x.another() // keeps the browser open
	y.press("Work in this tab")
	x.notice("goes on in another tab")
	states, names := y.threeEdits()
	y.must(y.Kill())

	z := x.another()
	assert.Equal(t, states[3], z.file())
	z.eventually("undo has its name", func() bool { return z.stepName("undo") == "Undo: "+names[3] })
	folder := t.TempDir()
	z.must(z.Downloads(folder))
	z.fileMenu("Save a file")
	assert.NotContains(t, string(z.download(folder)), names[3])

	z.openFile("../testdata/scenes/two-boxes-touching.json")
	z.wait(`document.querySelector(".findings").children.length === 1`)
	z.checked()
	z.eventually("a file begins new steps", func() bool { return z.stepName("undo") == "Undo" })
	z.fileMenu("Back to ")
	z.eventually("the first one is back", func() bool { return z.file() == states[3] })
	z.checked()
	for i := 2; i >= 0; i-- {
		z.tap(".step-undo")
		z.eventually("it is taken back", func() bool { return z.file() == states[i] })
	}

	// A file that is opened again is a file: it begins new steps too.
	name := filepath.Join(t.TempDir(), "again.json")
	require.NoError(t, os.WriteFile(name, []byte(states[3]), 0o644))
	z.openFile(name)
	z.eventually("it is open", func() bool { return z.file() == states[3] })
	z.checked()
	assert.Equal(t, "Undo", z.stepName("undo"))
}

// Damaged steps in the store are left out without a word; the work opens.
func TestE2EDamagedStepsDoNotKeepTheWorkFromOpening(t *testing.T) {
	x := open(t, browser.Landscape)
	states, _ := x.threeEdits()
	_, err := browser.Await[bool](x.Page, `new Promise((done, failed) => {
	  const opening = indexedDB.open("scrubline");
	  opening.onerror = () => failed(opening.error);
	  opening.onsuccess = () => {
	    const deal = opening.result.transaction("documents", "readwrite"), shelf = deal.objectStore("documents");
	    const get = shelf.get("current");
	    get.onsuccess = () => shelf.put({ ...get.result, steps: get.result.steps.replace("change", "chance") }, "current");
	    deal.oncomplete = () => { opening.result.close(); done(true); };
	  };
	})`)
	x.must(err)
	x.must(x.Reload())
	x.checked()
	assert.Equal(t, states[3], x.file())
	assert.Equal(t, "Undo", x.stepName("undo"))
	assert.False(t, eval[bool](x, `document.querySelector("#notices [data-key=unread], #toast.is-error.is-shown") !== null`), "nothing is said about it")
}
