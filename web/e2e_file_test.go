//go:build e2e

package web_test

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// Opening, keeping and going back, in one browser: each step begins with what
// the one before left open, as it does in a shop.
func TestE2EFilesAndWhatIsKept(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, step := range []struct {
		name string
		run  func(*tab)
	}{
		{"a file is opened", opensAFile},
		{"a broken file loses nothing", refusesABrokenFile},
		{"a reload brings the work back", survivesAReload},
		{"a new vehicle keeps the one before", keepsTheOneBefore},
		{"edits are undone and made again", undoesSeveralEdits},
	} {
		require.True(t, t.Run(step.name, func(t *testing.T) { step.run(x.in(t)) }))
	}
}

func opensAFile(x *tab) {
	x.openFile("../testdata/scenes/two-boxes-touching.json")
	x.wait(`document.querySelector(".findings").children.length === 1`)
	x.checked()
	got := x.rows()["a|b|"]
	assert.Equal(x.t, "touch", got.Mark)
	want, err := os.ReadFile("../testdata/scenes/two-boxes-touching.json")
	require.NoError(x.t, err)
	assert.JSONEq(x.t, string(want), x.file())
	x.wait(`document.getElementById("toast").textContent === "Opened two-boxes-touching.json"`)
}

func refusesABrokenFile(x *tab) {
	x.placePart("air_tank")
	file, title, rows := x.file(), x.text(".bar-title"), x.rows()
	undo := x.text(".step-undo")
	for name, place := range map[string]string{
		"negative-size.json": "/parts/0/size/diameter_mm", "cut-off.json": "/joined/0", "wrong-format.json": "/format"} {
		x.openFile(filepath.Join("..", "testdata", "broken", name))
		x.eventually("the message names the file", func() bool {
			said := eval[string](x, `document.querySelector("#toast.is-error.is-shown")?.textContent ?? ""`)
			return strings.HasPrefix(said, "Cannot open "+name+": "+place+": ")
		})
		assert.NotContains(x.t, x.text("#toast"), "\n")
	}
	assert.Equal(x.t, file, x.file())
	assert.Equal(x.t, title, x.text(".bar-title"))
	assert.Equal(x.t, rows, x.rows())
	assert.Equal(x.t, undo, x.text(".step-undo"), "what can be undone is still there")
}

func survivesAReload(x *tab) {
	file := x.file()
	x.eventually("the work is kept", func() bool { return x.kept("current") == file })
	x.must(x.Reload())
	x.checked()
	assert.Equal(x.t, file, x.file())
	assert.Contains(x.t, x.file(), "air_tank")

	// The change of the last moment before the page goes is kept too.
	x.tapPart("a")
	x.tap(".actions button", "Delete")
	x.eventually("the part is gone", func() bool { return x.file() != file })
	file = x.file()
	x.must(x.Reload())
	x.checked()
	assert.Equal(x.t, file, x.file())
}

func keepsTheOneBefore(x *tab) {
	mine, title := x.file(), x.text(".bar-title")
	for _, other := range []string{"New vehicle", "Demo: bakery van"} {
		if other == "New vehicle" {
			x.newVehicle()
		} else {
			x.fileMenu(other)
		}
		x.wait(`document.querySelector(".bar-title").textContent !== "…" && document.querySelector(".bar-title").textContent !== ` + quote(title))
		x.checked()
		assert.NotEqual(x.t, mine, x.file())
		x.eventually("the one before is kept", func() bool { return x.kept("before") == mine })
		x.fileMenu("Back to two-boxes-touching, as it was at ") // by its file
		x.wait(`document.querySelector(".bar-title").textContent === ` + quote(title))
		x.checked()
		assert.Equal(x.t, mine, x.file())
	}
}

func undoesSeveralEdits(x *tab) {
	states := []string{x.file()}
	edited := func(what string) {
		last := states[len(states)-1]
		x.eventually(what, func() bool { return x.file() != last })
		states = append(states, x.file())
	}
	x.placePart("box")
	edited("a box is placed")
	l := x.look()
	x.drag(l.Parts[l.Selected], 60, 0)
	edited("it is moved")
	x.tap(".actions button", "Duplicate")
	edited("it is doubled")
	x.tap(".actions button", "Delete")
	edited("the double is deleted")
	for i := len(states) - 2; i >= 0; i-- {
		x.tap(".step-undo")
		x.eventually(fmt.Sprintf("undone to edit %d", i), func() bool { return x.file() == states[i] })
	}
	for i := 1; i < len(states); i++ {
		x.tap(".step-redo")
		x.eventually(fmt.Sprintf("made again to edit %d", i), func() bool { return x.file() == states[i] })
	}
}

// openFile opens a file by the File menu.
func (x *tab) openFile(name string) {
	x.t.Helper()
	x.must(x.Choose(name, func() error {
		x.fileMenu("Open …")
		return nil
	}))
}

// kept is the document the page keeps under a key in the browser's store.
func (x *tab) kept(key string) string {
	x.t.Helper()
	text, err := browser.Await[string](x.Page, `new Promise((done, failed) => {
	  const opening = indexedDB.open("scrubline");
	  opening.onerror = () => failed(opening.error);
	  opening.onsuccess = () => {
	    const get = opening.result.transaction("documents").objectStore("documents").get(`+quote(key)+`);
	    get.onsuccess = () => { opening.result.close(); done(get.result?.text ?? ""); };
	  };
	})`)
	x.must(err)
	return text
}

// placePart places a kind of part from the list and waits for its form.
func (x *tab) placePart(kind string) {
	x.t.Helper()
	if !eval[bool](x, shown(".place-button, .grip-place")) {
		x.tap(".side-form .back")
		x.wait(shown(".place-button, .grip-place"))
	}
	was := x.look().Selected
	x.tap(".place-button, .grip-place")
	x.wait(shown(".side-place"))
	x.tap(`.list-row[data-kind="` + kind + `"]`)
	x.eventually("a "+kind+" is placed", func() bool { s := x.look().Selected; return s != "" && s != was })
	x.wait(shown(".side-form"))
	x.checked()
}

// tapPart picks a part up from the list of parts.
func (x *tab) tapPart(id string) {
	x.t.Helper()
	x.tap(".tab", "Parts")
	x.wait(shown("#tab-parts"))
	x.tap(`#tab-parts li[data-key="` + id + `"] .list-row`)
	x.eventually(id+" is selected", func() bool { return x.look().Selected == id })
	x.wait(shown(".side-form"))
}
