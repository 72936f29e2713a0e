//go:build e2e

package web_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/wasm/app"
	"scrubline/web"
	"scrubline/web/browser"
)

// another is a second tab of the same browser with the page in it.
func (x *tab) another() *tab {
	x.t.Helper()
	p, err := x.Another(browser.Landscape)
	x.must(err)
	x.t.Cleanup(p.Close)
	y := &tab{p, x.t, x.url}
	x.must(p.Goto(x.url))
	y.checked()
	return y
}

// notice waits until a notice with these words stands on the page.
func (x *tab) notice(words string) {
	x.t.Helper()
	x.wait(`[...document.querySelectorAll(".notice")].some((e) => e.textContent.includes(` + quote(words) + `))`)
}

func (x *tab) noNotice(key string) {
	x.t.Helper()
	x.wait(`!document.querySelector('#notices [data-key="` + key + `"]')`)
}

// addBox changes the document by a part, without the screen: which of two tabs
// is in front does not matter to it.
func (x *tab) addBox() string {
	x.t.Helper()
	r, err := x.Send(app.Command{Do: "place", Kind: "box"})
	x.must(err)
	require.Empty(x.t, r.Error)
	return x.file()
}

func (x *tab) keptIs(key, want string) {
	x.t.Helper()
	x.eventually("the work is kept as "+key, func() bool { return x.kept(key) == want })
}

// press clicks a notice's button.
func (x *tab) press(label string) {
	x.t.Helper()
	x.wait(`[...document.querySelectorAll(".notice button")].some((e) => e.textContent === ` + quote(label) + `)`)
	eval[bool](x, `([...document.querySelectorAll(".notice button")].find((e) => e.textContent === `+quote(label)+`).click(), true)`)
}

// Work done in two tabs of one vehicle is never overwritten unasked: the second
// tab is told, its changes lie aside, and the user says which to keep.
func TestE2ETwoTabsDoNotOverwriteEachOther(t *testing.T) {
	x := openAlone(t, browser.Landscape)
	first := x.addBox()
	x.keptIs("current", first)

	y := x.another()
	y.notice("open in another tab too")
	assert.Equal(t, first, y.file(), "the second tab shows what is kept")
	more := x.addBox()
	x.keptIs("current", more)

	theirs := y.addBox() // begun from the older state
	y.notice("changed in two tabs")
	assert.Equal(t, more, y.kept("current"), "the first tab's work stands")
	evenMore := x.addBox()
	x.keptIs("current", evenMore)

	y.press("Keep this one")
	y.keptIs("current", theirs)
	y.keptIs("before", evenMore)
	y.noNotice("tabs")
	x.notice("goes on in another tab")

	// The first tab goes on all the same, and now it is the one that is asked.
	last := x.addBox()
	x.notice("changed in two tabs")
	assert.Equal(t, theirs, x.kept("current"))
	x.press("Take the other one")
	x.eventually("the other tab's vehicle is shown", func() bool { return x.file() == theirs })
	x.keptIs("before", last)
	x.noNotice("tabs")
	y.notice("goes on in another tab")
	final := x.addBox()
	x.keptIs("current", final)

	// Taking over without changes shows the newest first.
	y.press("Work in this tab")
	y.eventually("the newest is shown", func() bool { return y.file() == final })
	y.keptIs("current", y.addBox())
}

// A tab that only looked on keeps its work as soon as the other one is closed,
// and what a tab had aside is there again after a reload.
func TestE2ETheTabThatIsLeftGoesOn(t *testing.T) {
	x := openAlone(t, browser.Landscape)
	x.keptIs("current", x.addBox())
	y := x.another()
	y.notice("open in another tab too")
	mine := y.addBox()
	y.notice("changed in two tabs")
	y.must(y.Reload())
	y.checked()
	assert.Equal(t, mine, y.file(), "what lay aside comes back with its tab")
	y.notice("changed in two tabs")
	y.press("Keep this one")
	y.keptIs("current", mine)

	z := x.another()
	z.notice("open in another tab too")
	y.must(y.Kill()) // says no goodbye
	theirs := z.addBox()
	z.keptIs("current", theirs)
	z.noNotice("tabs")
}

// What a closed tab had aside is offered; let go, it can still be opened.
func TestE2EWhatIsLetGoCanBeBroughtBack(t *testing.T) {
	x := openAlone(t, browser.Landscape)
	x.keptIs("current", x.addBox())
	y := x.another()
	y.notice("open in another tab too")
	left := y.addBox()
	y.notice("changed in two tabs")
	y.must(y.Kill())

	x.must(x.Reload())
	x.checked()
	mine := x.file()
	x.notice("were not kept with the rest")
	x.press("Let them go")
	x.noNotice("aside")
	x.wait(`document.getElementById("toast").textContent.includes("can be opened from the File menu")`)
	assert.Equal(t, mine, x.file())
	x.must(x.Reload())
	x.checked()
	x.fileMenu("Open what was let go")
	x.eventually("it is there again", func() bool { return x.file() == left })
	x.keptIs("before", mine)
	x.tap(".menu-top")
	x.wait(shown("#menu-list"))
	x.eventually("it is offered no more", func() bool { return !eval[bool](x, shown(".menu-item[data-gone]")) })
}

// A tab that is killed while a finger drags has kept all edits before the drag.
func TestE2EAKilledTabLosesNothing(t *testing.T) {
	x := openAlone(t, browser.Landscape)
	y := x.another() // keeps the browser open
	y.press("Work in this tab")
	x.notice("goes on in another tab")
	y.placePart("box")
	l := y.look()
	y.drag(l.Parts[l.Selected], 50, 0)
	moved := y.file()
	y.eventually("the move is kept", func() bool { return y.kept("current") == moved })

	k := y.look()
	from := y.onCanvas(k.Parts[k.Selected])
	y.must(y.Hold(from, browser.Point{X: from.X + 60, Y: from.Y}, 6))
	y.must(y.Kill())

	z := x.another()
	assert.Equal(t, moved, z.file())
	assert.Len(t, z.rows(), z.look().Findings)
}

// When the device is full that is said, the work goes into a file, and keeping
// goes on by itself once there is room.
func TestE2EAFullDeviceIsToldAndNothingIsLost(t *testing.T) {
	for name, full := range map[string]string{
		// Web IDL DOMException names; IndexedDB 3.0, 4.5 and 2.7.1: a full store may refuse the request or end the transaction.
		"the request is refused": `IDBObjectStore.prototype.put = function () { throw new DOMException("no room", "QuotaExceededError"); }`,
		"the transaction ends": `IDBObjectStore.prototype.put = function (...a) {
		   const r = window.realPut.apply(this, a), deal = this.transaction;
		   Object.defineProperty(deal, "error", { value: new DOMException("no room", "QuotaExceededError") });
		   deal.commit = () => {};
		   r.onsuccess = () => deal.abort();
		   return r; }`,
	} {
		t.Run(name, func(t *testing.T) {
			x := open(t, browser.Landscape)
			folder := t.TempDir()
			x.must(x.Downloads(folder))
			x.placePart("box")
			kept := x.file()
			x.eventually("the work is kept", func() bool { return x.kept("current") == kept })
			eval[bool](x, `(window.realPut = IDBObjectStore.prototype.put, `+full+`, true)`)

			x.tap(".actions button", "Duplicate")
			x.eventually("the part is doubled", func() bool { return x.file() != kept })
			x.notice("not kept on this device: there is no room left on this device")
			assert.Equal(t, kept, x.kept("current"), "what was kept before is whole")
			now := x.file()
			assert.True(t, eval[bool](x, `(() => { const e = new Event("beforeunload", { cancelable: true }); dispatchEvent(e); return e.defaultPrevented; })()`),
				"leaving is asked about first")
			x.press("Save a file")
			assert.Equal(t, now, string(x.download(folder)))

			eval[bool](x, `(IDBObjectStore.prototype.put = window.realPut, true)`)
			x.tap(".actions button", "Duplicate")
			x.eventually("the part is doubled again", func() bool { return x.file() != now })
			again := x.file()
			x.eventually("the work is kept again", func() bool { return x.kept("current") == again })
			x.noNotice("unkept")
			assert.False(t, eval[bool](x, `(() => { const e = new Event("beforeunload", { cancelable: true }); dispatchEvent(e); return e.defaultPrevented; })()`))
		})
	}
}

// A newer version is told when no finger is down, loads only in the tab that
// asks for it, and brings the work along.
func TestE2EANewerVersionIsToldAndWaits(t *testing.T) {
	dir, err := built()
	require.NoError(t, err)
	newer := t.TempDir()
	for _, name := range []string{"app.wasm", "app.wasm.br", "wasm_exec.js"} {
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		if strings.HasSuffix(name, ".js") {
			data = append(data, "\nwindow.newerVersion = true;\n"...)
		}
		require.NoError(t, os.WriteFile(filepath.Join(newer, name), data, 0o644))
	}
	var now atomic.Pointer[http.Handler]
	use := func(dir string) { h := web.Handler(dir); now.Store(&h) }
	use(dir)
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) { (*now.Load()).ServeHTTP(w, r) }))
	t.Cleanup(server.Close)
	x := openAtAlone(t, browser.Landscape, server.URL+"/")
	x.wait(`!!navigator.serviceWorker.controller`)
	y := x.another()

	use(newer)
	p := x.onCanvas([2]float64{200, 200})
	x.must(x.Hold(p, browser.Point{X: p.X + 20, Y: p.Y}, 3))
	_, err = browser.Await[bool](x.Page, `navigator.serviceWorker.ready.then((r) => r.update()).then(() => true)`)
	require.NoError(t, err)
	_, err = browser.Await[bool](x.Page, `new Promise((done) => navigator.serviceWorker.ready.then((r) => {
	  const look = () => (r.waiting ? done(true) : setTimeout(look, 50)); look(); }))`)
	require.NoError(t, err)
	assert.False(t, eval[bool](x, `[...document.querySelectorAll(".notice")].some((e) => e.textContent.includes("new version"))`), "not while a finger is down")
	x.must(x.Lift())
	x.notice("A new version is ready.")
	x.press("Later")
	x.noNotice("newer")
	assert.False(t, eval[bool](x, `!!window.newerVersion`))

	y.notice("A new version is ready.")
	x.addBox()
	work := x.file()
	x.keptIs("current", work)
	eval[bool](y, `(window.stays = true)`)
	y.press("Load it now")
	y.wait(`!!window.newerVersion && document.documentElement.dataset.ready === "1"`)
	y.checked()
	assert.Equal(t, work, y.file())
	assert.False(t, eval[bool](x, `!!window.newerVersion`), "the other tab is left alone")
	assert.Equal(t, work, x.file())
}
