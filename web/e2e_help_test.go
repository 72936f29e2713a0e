//go:build e2e

package web_test

import (
	"bytes"
	"context"
	"image"
	"image/png"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/wasm/app"
	"scrubline/web"
	"scrubline/web/browser"
)

// built compiles the sketcher once for all tests.
var built = sync.OnceValues(func() (string, error) { return web.Build(context.Background(), os.Stderr) })

func handler(t *testing.T) http.Handler {
	t.Helper()
	dir, err := built()
	require.NoError(t, err)
	return web.Handler(dir)
}

// tab is the page in a browser of its own, as one test or subtest uses it. An
// error of the browser ends the test.
type tab struct {
	*browser.Page
	t   *testing.T
	url string
}

// open serves the page at an address of its own and opens it with the demo
// vehicle, in a tab of the browser that the tests share. When the test ends, the
// console must have no errors and no other origin must have been asked for
// anything.
func open(t *testing.T, size browser.Size) *tab {
	t.Helper()
	server := httptest.NewServer(handler(t))
	t.Cleanup(server.Close)
	return openAt(t, size, server.URL+"/")
}

// openAt is open for an address that is served already.
func openAt(t *testing.T, size browser.Size, url string) *tab {
	t.Helper()
	p, err := shared.another(t, size)
	require.NoError(t, err)
	return watched(t, p, url)
}

// openAlone is open in a browser of its own: for a test with several tabs, which
// one process would make wait for each other, or one that kills them, which would
// take the process with it.
func openAlone(t *testing.T, size browser.Size) *tab {
	t.Helper()
	server := httptest.NewServer(handler(t))
	t.Cleanup(server.Close)
	return openAtAlone(t, size, server.URL+"/")
}

// openAtAlone is openAlone for an address that is served already.
func openAtAlone(t *testing.T, size browser.Size, url string) *tab {
	t.Helper()
	p, err := browser.Open(context.Background(), size)
	require.NoError(t, err)
	return watched(t, p, url)
}

func watched(t *testing.T, p *browser.Page, url string) *tab {
	t.Helper()
	t.Cleanup(p.Close)
	watch, err := p.Watch()
	require.NoError(t, err)
	t.Cleanup(func() {
		assert.Empty(t, watch.Complaints(), "errors on the console")
		asked := watch.Requests()
		assert.NotEmpty(t, asked)
		for _, r := range asked {
			own := strings.HasPrefix(r, url) || strings.HasPrefix(r, "blob:"+url) || strings.HasPrefix(r, "data:")
			assert.True(t, own, "the page asked another origin for %s", r)
		}
	})
	x := &tab{p, t, url}
	x.must(p.Goto(url))
	x.checked()
	return x
}

// in is the tab for a subtest.
func (x *tab) in(t *testing.T) *tab { return &tab{x.Page, t, x.url} }

func (x *tab) must(err error) {
	x.t.Helper()
	require.NoError(x.t, err)
}

// eventually polls until ok answers true, for at most a minute.
func (x *tab) eventually(what string, ok func() bool) {
	x.t.Helper()
	for late := time.Now().Add(time.Minute); !ok(); time.Sleep(30 * time.Millisecond) {
		if time.Now().After(late) {
			require.FailNow(x.t, "after a minute still not: "+what)
		}
	}
}

func (x *tab) wait(expr string) {
	x.t.Helper()
	x.must(x.Wait(expr))
}

// checked waits until the panel shows the answer for what is on the sheet.
func (x *tab) checked() {
	x.t.Helper()
	x.wait(`document.querySelector(".count-line").textContent.includes("looked at")`)
}

func eval[T any](x *tab, expr string) T {
	x.t.Helper()
	v, err := browser.Eval[T](x.Page, expr)
	require.NoError(x.t, err, expr)
	return v
}

// look is where things are on the canvas.
func (x *tab) look() app.Look {
	x.t.Helper()
	l, err := x.Look()
	x.must(err)
	return l
}

// file is the document as it would be saved. Only for reading: what changes
// the document goes through the screen.
func (x *tab) file() string {
	x.t.Helper()
	r, err := x.Send(app.Command{Do: "save"})
	x.must(err)
	require.Empty(x.t, r.Error)
	return r.Text
}

// text is the text of the first element that matches.
func (x *tab) text(selector string) string {
	x.t.Helper()
	return eval[string](x, `document.querySelector(`+quote(selector)+`).textContent`)
}

// shown says whether an element that matches is to be seen.
func shown(selector string) string {
	return `[...document.querySelectorAll(` + quote(selector) + `)].some((e) => e.checkVisibility())`
}

// tap taps the first visible element that matches and, when words are given,
// has them in its text.
func (x *tab) tap(selector string, words ...string) {
	x.t.Helper()
	at := eval[[]float64](x, `(() => {
	  const e = [...document.querySelectorAll(`+quote(selector)+`)].find((e) => e.checkVisibility() && e.textContent.includes(`+quote(strings.Join(words, ""))+`));
	  if (!e) return [];
	  e.scrollIntoView({ block: "center" });
	  const r = e.getBoundingClientRect();
	  return [r.left + r.width / 2, r.top + r.height / 2];
	})()`)
	require.Len(x.t, at, 2, "nothing to tap: %s %s", selector, words)
	x.must(x.Tap(browser.Point{X: at[0], Y: at[1]}))
}

// onCanvas is a place of the canvas on the screen.
func (x *tab) onCanvas(at [2]float64) browser.Point {
	x.t.Helper()
	p, err := x.OnCanvas(at)
	x.must(err)
	return p
}

// drag moves a finger over the canvas by (dx, dy) pixels.
func (x *tab) drag(from [2]float64, dx, dy float64) {
	x.t.Helper()
	p := x.onCanvas(from)
	x.must(x.Drag(p, browser.Point{X: p.X + dx, Y: p.Y + dy}, 12))
}

// pickUp taps a part on the canvas and waits until it is selected.
func (x *tab) pickUp(id string) [2]float64 {
	x.t.Helper()
	at, ok := x.look().Parts[id]
	require.True(x.t, ok, "%s is not to be picked up in this view", id)
	x.must(x.Tap(x.onCanvas(at)))
	x.eventually(id+" is selected", func() bool { return x.look().Selected == id })
	return at
}

// sectionTo drags the station flag to a station, within the 100 mm that a
// finger manages: a first step shows the strip's scale, a second goes there.
func (x *tab) sectionTo(mm float64) {
	x.t.Helper()
	l := x.look()
	step := -60.0
	x.drag(l.Flag, step, 0)
	x.eventually("the flag has moved", func() bool { return x.look().StationMM != l.StationMM })
	k := x.look()
	scale := (k.Flag[0] - l.Flag[0]) / (k.StationMM - l.StationMM)
	x.drag(k.Flag, (mm-k.StationMM)*scale, 0)
	x.eventually("the section stands there", func() bool { return math.Abs(x.look().StationMM-mm) < 100 })
}

// row is one finding of the list as it is read on the screen.
type row struct{ Key, Mark, Title, Figures, Here string }

func (x *tab) rows() map[string]row {
	x.t.Helper()
	list := eval[[]row](x, `[...document.querySelectorAll(".finding")].map((li) => {
	  const text = (s) => { const e = li.querySelector(s); return e.hidden ? "" : e.textContent; };
	  return { Key: li.dataset.key, Mark: li.querySelector(".finding-top svg").dataset.name, Title: text(".finding-title"),
	    Figures: text(".finding-figures"), Here: text(".finding-here") };
	})`)
	byKey := map[string]row{}
	for _, r := range list {
		byKey[r.Key] = r
	}
	require.Len(x.t, byKey, len(list), "a finding stands in the list twice")
	return byKey
}

// fileMenu takes an entry of the File menu.
func (x *tab) fileMenu(words string) {
	x.t.Helper()
	x.tap(".menu-top")
	x.wait(shown("#menu-list"))
	x.eventually("the menu offers "+words, func() bool {
		return eval[bool](x, `[...document.querySelectorAll("#menu-list button")].some((e) => e.checkVisibility() && e.textContent.includes(`+quote(words)+`))`)
	})
	x.tap("#menu-list button", words)
}

// quote makes a Go string a JavaScript one.
func quote(s string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`).Replace(s) + `"`
}

// picture is what the screen shows.
func (x *tab) picture() image.Image {
	x.t.Helper()
	data, err := x.Shot()
	x.must(err)
	img, err := png.Decode(bytes.NewReader(data))
	x.must(err)
	return img
}
