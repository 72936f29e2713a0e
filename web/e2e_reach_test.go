//go:build e2e

package web_test

import (
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
	"scrubline/web"
	"scrubline/web/browser"
)

// An exported folder on a plain host, at a path of its own and with a
// neighbour at another: it runs, goes on without the network, and keeps apart
// what it stores for that.
func TestE2EAnExportedFolderWorksOnAnyHost(t *testing.T) {
	dir, err := built()
	require.NoError(t, err)
	folder := t.TempDir()
	_, _, err = web.Export(dir, folder)
	require.NoError(t, err)
	for name, host := range map[string]func(http.Handler) http.Handler{
		"a host that knows the types": func(h http.Handler) http.Handler { return h },
		"a host that does not": func(h http.Handler) http.Handler {
			return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
				if strings.HasSuffix(r.URL.Path, ".wasm") {
					w.Header().Set("Content-Type", "application/octet-stream")
				}
				h.ServeHTTP(w, r)
			})
		},
	} {
		t.Run(name, func(t *testing.T) {
			files := host(http.FileServer(http.Dir(folder)))
			mux := http.NewServeMux()
			mux.Handle("/sub/path/", http.StripPrefix("/sub/path", files))
			mux.Handle("/other/", http.StripPrefix("/other", files))
			server := httptest.NewServer(mux)
			t.Cleanup(server.Close)

			y := openAtAlone(t, browser.Landscape, server.URL+"/other/")
			y.wait(`!!navigator.serviceWorker.controller`)
			require.NoError(t, y.Goto(server.URL+"/other/"))
			p, err := y.Another(browser.Landscape)
			require.NoError(t, err)
			t.Cleanup(p.Close)
			x := &tab{p, t, server.URL + "/sub/path/"}
			x.must(x.Goto(x.url))
			x.checked()
			x.wait(`!!navigator.serviceWorker.controller`)
			assert.Equal(t, x.url, eval[string](x, `navigator.serviceWorker.controller.scriptURL.replace(/[^/]*$/, "")`))
			stored, err := browser.Await[[]string](x.Page, `caches.keys()`)
			require.NoError(t, err)
			assert.Len(t, stored, 2, "each copy has its own: %v", stored)

			x.press("Work in this tab")
			x.placePart("box")
			placed := x.file()
			x.eventually("the work is kept", func() bool { return x.kept("current") == placed })
			server.CloseClientConnections()
			server.Close()
			x.must(x.Reload())
			x.checked()
			assert.Equal(t, placed, x.file())
			// Under the file's own name too, which hosts send on to the folder.
			x.must(x.Goto(x.url + "index.html"))
			x.checked()
			assert.Equal(t, placed, x.file())
		})
	}
}

// What Chromium asks of a page that goes onto the home screen (Web App
// Manifest: name, start, display, icons of 192 and 512 pixels, one maskable).
func TestE2EThePageCanBeInstalled(t *testing.T) {
	x := open(t, browser.Landscape)
	x.wait(`!!navigator.serviceWorker.controller`)
	m, err := chromedp.Call(x.Context(), page.GetAppManifest, page.GetAppManifestParams{})
	require.NoError(t, err)
	assert.Empty(t, m.Errors)
	assert.True(t, strings.HasSuffix(m.URL, "/app.webmanifest"), m.URL)
	asked, err := chromedp.Call(x.Context(), page.GetInstallabilityErrors, cdp.Empty{})
	require.NoError(t, err)
	for _, e := range asked.InstallabilityErrors {
		// The test's browser keeps no profile, which Chromium takes for a private window.
		assert.Equal(t, "in-incognito", e.ErrorID)
	}
	icons, err := browser.Await[[]map[string]any](x.Page, `fetch("app.webmanifest").then((r) => r.json()).then((m) => Promise.all(m.icons.map(async (i) => {
	  const b = await createImageBitmap(await (await fetch(i.src)).blob());
	  return { is: b.width + "x" + b.height, says: i.sizes, purpose: i.purpose };
	})))`)
	require.NoError(t, err)
	have := map[string]bool{}
	for _, i := range icons {
		assert.Equal(t, i["says"], i["is"])
		have[i["purpose"].(string)+" "+i["is"].(string)] = true
	}
	assert.Equal(t, map[string]bool{"any 192x192": true, "any 512x512": true, "maskable 192x192": true, "maskable 512x512": true}, have)
}

// The first pointer stands there once and never again after it was put away.
func TestE2ETheFirstPointerComesOnce(t *testing.T) {
	x := open(t, browser.Landscape)
	x.notice("Touch a part and drag it.")
	x.placePart("box") // it is in nobody's way
	x.must(x.Reload())
	x.notice("Touch a part and drag it.")
	x.tap(`#notices [data-key="hint"] button`, "Got it")
	x.noNotice("hint")
	x.must(x.Reload())
	x.checked()
	x.noNotice("hint")
}

// The sheet "On a tablet" shows what the server says of itself.
func TestE2ETheSheetShowsHowATabletGetsThere(t *testing.T) {
	dir, err := built()
	require.NoError(t, err)
	// RFC 5737: an address for examples.
	server := httptest.NewServer(web.Handler(dir,
		web.File{Name: "reach.json", Kind: "application/json", Data: []byte(`{"addresses":[{"url":"http://192.0.2.7:8765/","code":"reach-1.svg"}],"listen":"scrubline serve -listen :8765"}`)},
		web.File{Name: "reach-1.svg", Kind: "image/svg+xml", Data: []byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 29 29"><path d="M4 4h7v7H4z"/></svg>`)}))
	t.Cleanup(server.Close)
	x := openAt(t, browser.Landscape, server.URL+"/")
	x.fileMenu("On a tablet")
	x.wait(`document.querySelector("dialog[open] .address")?.textContent === "http://192.0.2.7:8765/"`)
	x.wait(`(() => { const i = document.querySelector("dialog[open] img"); return i.complete && i.naturalWidth > 0; })()`)
	assert.Contains(t, x.text("dialog[open]"), "Does not work there: using it without the network")
	x.must(x.Type("\x1b"))
	x.wait(`!document.querySelector("dialog[open]")`)
	x.wait(`document.activeElement === document.querySelector(".menu-top")`)

	y := open(t, browser.Landscape)
	y.fileMenu("On a tablet")
	y.wait(`document.querySelector("dialog[open] .address")?.textContent === "scrubline serve -listen :8765"`)
}

// In a shop's network without a certificate the page says what it lacks, and
// all else works, the two tabs' agreement too.
func TestE2EWithoutACertificate(t *testing.T) {
	server := httptest.NewServer(handler(t))
	t.Cleanup(server.Close)
	_, port, _ := strings.Cut(strings.TrimPrefix(server.URL, "http://"), ":")
	p, err := browser.OpenAs(t.Context(), browser.Landscape, "lan.test") // RFC 6761: .test is nobody's
	require.NoError(t, err)
	t.Cleanup(p.Close)
	x := &tab{p, t, "http://lan.test:" + port + "/"}
	x.must(x.Goto(x.url))
	x.checked()
	require.False(t, eval[bool](x, `isSecureContext`))
	x.placePart("box")
	placed := x.file()
	x.eventually("the work is kept", func() bool { return x.kept("current") == placed })
	x.tap(".menu-top")
	x.wait(`[...document.querySelectorAll(".menu-status")].some((e) => e.textContent.startsWith("Needs the network: at a plain http address"))`)
	x.tap(".menu-top")
	y := x.another()
	y.notice("open in another tab too")
	assert.Equal(t, placed, y.file())
	x.must(x.Reload())
	x.checked()
	assert.Equal(t, placed, x.file())
}

// A file as large as a scene may be is not refused for its size, and one byte
// more is, in words.
func TestE2EThePageTakesWhatASceneMayHold(t *testing.T) {
	x := open(t, browser.Landscape)
	data, err := os.ReadFile("../testdata/scenes/two-boxes-touching.json")
	require.NoError(t, err)
	folder := t.TempDir()
	whole := folder + "/whole.json"
	data = append(data, strings.Repeat(" ", scene.MaxFileBytes-len(data))...)
	require.NoError(t, os.WriteFile(whole, data, 0o644))
	x.openFile(whole)
	x.wait(`document.getElementById("toast").textContent === "Opened whole.json"`)
	more := folder + "/more.json"
	require.NoError(t, os.WriteFile(more, append(data, ' '), 0o644))
	x.openFile(more)
	x.wait(`document.getElementById("toast").textContent === "more.json is larger than a scene file can be (16 MB)."`)
}
