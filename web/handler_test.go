package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"io"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/andybalholm/brotli"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// wasmBytes stands for the sketcher: the empty module (WebAssembly Core 1.0,
// 5.5.16: magic and version), long enough to be worth packing.
var wasmBytes = append([]byte("\x00asm\x01\x00\x00\x00"), bytes.Repeat([]byte{0, 4, 3, 'p', 'a', 'd'}, 300)...)

// builtFolder is a folder as Build leaves it.
func builtFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, wasmFile), wasmBytes, 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, execFile), []byte("class Go {}\n"), 0o644))
	require.NoError(t, compress(context.Background(), dir))
	return dir
}

func get(h http.Handler, path string, headers ...string) *http.Response {
	r := httptest.NewRequest(http.MethodGet, path, nil)
	for i := 0; i+1 < len(headers); i += 2 {
		r.Header.Set(headers[i], headers[i+1])
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, r)
	return w.Result()
}

func body(t *testing.T, r *http.Response) []byte {
	t.Helper()
	data, err := io.ReadAll(r.Body)
	require.NoError(t, err)
	return data
}

func TestEveryFileComesWithItsType(t *testing.T) {
	h := Handler(builtFolder(t))
	for path, kind := range map[string]string{
		"/":                           "text/html; charset=utf-8",
		"/index.html":                 "text/html; charset=utf-8",
		"/page.css":                   "text/css; charset=utf-8",
		"/main.js":                    "text/javascript; charset=utf-8",
		"/early.js":                   "text/javascript; charset=utf-8",
		"/sw.js":                      "text/javascript; charset=utf-8",
		"/wasm_exec.js":               "text/javascript; charset=utf-8",
		"/app.wasm":                   "application/wasm",
		"/app.webmanifest":            "application/manifest+json; charset=utf-8",
		"/icons/icon-512.png":         "image/png",
		"/fonts/B612-Regular.otf":     "font/otf",
		"/fonts/OFL.txt":              "text/plain; charset=utf-8",
		"/scenes/" + firstScene(t, h): "application/json; charset=utf-8",
	} {
		r := get(h, path)
		assert.Equal(t, http.StatusOK, r.StatusCode, path)
		assert.Equal(t, kind, r.Header.Get("Content-Type"), path)
		assert.NotEmpty(t, body(t, r), path)
	}
}

// firstScene is the name of some scene the handler has.
func firstScene(t *testing.T, h http.Handler) string {
	t.Helper()
	for name := range h.(*server).files {
		if rest, ok := strings.CutPrefix(name, "scenes/"); ok {
			return rest
		}
	}
	t.Fatal("no scene is served")
	return ""
}

func TestEncodingIsNegotiated(t *testing.T) {
	h := Handler(builtFolder(t))
	// RFC 9110, 12.5.3.
	for _, c := range []struct{ accept, want string }{
		{"", ""},
		{"identity", ""},
		{"gzip", "gzip"},
		{"gzip, deflate, br", "br"},
		{"br;q=0, gzip", "gzip"},
		{"br; q=0.000, gzip;q=0", ""},
		{"*", "br"},
		{"*;q=0", ""},
		{"gzip;q=0.5, *;q=0", "gzip"},
		{"BR", "br"},
		{"br;q=x", ""},
	} {
		r := get(h, "/app.wasm", "Accept-Encoding", c.accept)
		assert.Equal(t, c.want, r.Header.Get("Content-Encoding"), c.accept)
		assert.Equal(t, "Accept-Encoding", r.Header.Get("Vary"), c.accept)
		assert.Equal(t, wasmBytes, unpack(t, c.want, body(t, r)), c.accept)
	}
}

func unpack(t *testing.T, encoding string, data []byte) []byte {
	t.Helper()
	var from io.Reader = bytes.NewReader(data)
	switch encoding {
	case "br":
		from = brotli.NewReader(from)
	case "gzip":
		z, err := gzip.NewReader(from)
		require.NoError(t, err)
		from = z
	}
	plain, err := io.ReadAll(from)
	require.NoError(t, err)
	return plain
}

func TestNothingRunsThatThePageDidNotBring(t *testing.T) {
	h := Handler(builtFolder(t))
	for _, path := range []string{"/", "/app.wasm", "/nothing-here"} {
		r := get(h, path)
		csp := r.Header.Get("Content-Security-Policy")
		// WebAssembly is blocked without its word (CSP Level 3, 'wasm-unsafe-eval').
		assert.Contains(t, csp, "script-src 'self' 'wasm-unsafe-eval';", path)
		assert.Contains(t, csp, "default-src 'self';", path)
		assert.Contains(t, csp, "frame-ancestors 'none'", path)
		assert.NotContains(t, csp, "unsafe-inline", path)
		assert.NotContains(t, csp, "'unsafe-eval'", path)
		assert.Equal(t, "nosniff", r.Header.Get("X-Content-Type-Options"), path)
	}
}

// inline finds what the policy would block: scripts and styles within HTML.
var inline = regexp.MustCompile(`(?i)<style|\sstyle=|\son[a-z]+=|="javascript:|<script>|<script [^>]*>[^<]`)

func TestThePageHasNoInlineScriptOrStyle(t *testing.T) {
	html := string(body(t, get(Handler(builtFolder(t)), "/")))
	assert.Empty(t, inline.FindAllString(html, -1))
	assert.NotEmpty(t, inline.FindString(`<p onclick="x()">`), "the pattern finds what it looks for")
	assert.NotRegexp(t, `(src|href)="(https?:)?//`, html, "nothing comes from elsewhere")
}

// foreign finds addresses of other machines in what is sent.
var foreign = regexp.MustCompile(`https?://[^\s"'` + "`" + `)]+`)

func TestScriptsAndStylesFetchNothingFromElsewhere(t *testing.T) {
	h := Handler(builtFolder(t))
	looked := 0
	for name, a := range h.(*server).files {
		if name == execFile || !strings.HasSuffix(name, ".js") && !strings.HasSuffix(name, ".css") {
			continue
		}
		looked++
		for _, found := range foreign.FindAllString(string(a.plain), -1) {
			// The name of the SVG language is no address that is fetched.
			assert.Equal(t, "http://www.w3.org/2000/svg", found, name)
		}
		assert.NotContains(t, string(a.plain), "innerHTML", name)
	}
	assert.Equal(t, 4, looked, "what is asked for first, the page's script, the worker, the style sheet")
}

func TestOnlyWhatIsListedCanBeReached(t *testing.T) {
	dir := builtFolder(t)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "secret.txt"), []byte("x"), 0o644))
	h := Handler(dir)
	for _, path := range []string{
		"/secret.txt", "/../secret.txt", "/..%2fsecret.txt", "/%2e%2e/go.mod", "//etc/passwd", "/panels/../../go.mod",
		"/embed.go", "/icons/draw.go", "/built/app.wasm", "/app.wasm.br", "/panels", "/panels/", "/scenes/", "/scenes/../embed.go", "/fonts/",
		"/sources.sha256",
	} {
		assert.Equal(t, http.StatusNotFound, get(h, path).StatusCode, path)
	}
}

func TestOnlyReadingIsPossible(t *testing.T) {
	h := Handler(builtFolder(t))
	for _, method := range []string{http.MethodPost, http.MethodPut, http.MethodDelete, http.MethodOptions} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(method, "/", nil))
		assert.Equal(t, http.StatusMethodNotAllowed, w.Code, method)
		assert.Equal(t, "GET, HEAD", w.Header().Get("Allow"), method)
	}
	w := httptest.NewRecorder()
	h.ServeHTTP(w, httptest.NewRequest(http.MethodHead, "/", nil))
	assert.Equal(t, http.StatusOK, w.Code)
	assert.Empty(t, w.Body.Bytes())
	assert.NotEmpty(t, w.Header().Get("Content-Length"))
}

func TestAnUnchangedFileIsNotSentAgain(t *testing.T) {
	h := Handler(builtFolder(t))
	first := get(h, "/app.wasm", "Accept-Encoding", "br")
	tag := first.Header.Get("ETag")
	require.NotEmpty(t, tag)
	assert.Equal(t, "no-cache", first.Header.Get("Cache-Control"))
	for _, have := range []string{tag, "W/" + tag, `"old", ` + tag, "*"} {
		again := get(h, "/app.wasm", "Accept-Encoding", "br", "If-None-Match", have)
		assert.Equal(t, http.StatusNotModified, again.StatusCode, have)
		assert.Empty(t, body(t, again), have)
	}
	assert.Equal(t, http.StatusOK, get(h, "/app.wasm", "Accept-Encoding", "br", "If-None-Match", `"old"`).StatusCode)
	// Another encoding is another representation (RFC 9110, 8.8.3.3).
	assert.NotEqual(t, tag, get(h, "/app.wasm").Header.Get("ETag"))
}

func TestTheServiceWorkerKnowsEveryFileAndItsBuild(t *testing.T) {
	dir := builtFolder(t)
	first := string(body(t, get(Handler(dir), "/sw.js")))
	assert.NotContains(t, first, buildMark)
	for _, name := range []string{`"./"`, `"app.wasm"`, `"wasm_exec.js"`, `"main.js"`, `"early.js"`, `"page.css"`, `"fonts/B612-Bold.otf"`} {
		assert.Contains(t, first, name)
	}
	assert.NotContains(t, first, `"index.html"`, "it is kept as ./")
	assert.NotContains(t, first, `"sw.js"`, "a worker that keeps itself is never replaced")
	assert.Equal(t, first, string(body(t, get(Handler(dir), "/sw.js"))), "same files, same worker")
	require.NoError(t, os.WriteFile(filepath.Join(dir, wasmFile), append(wasmBytes, 0, 1, 0), 0o644))
	assert.NotEqual(t, first, string(body(t, get(Handler(dir), "/sw.js"))), "another sketcher, another worker")
}

func TestWithoutASketcherThePageSaysSo(t *testing.T) {
	h := Handler(t.TempDir())
	assert.Equal(t, http.StatusOK, get(h, "/").StatusCode)
	r := get(h, "/app.wasm")
	assert.Equal(t, http.StatusServiceUnavailable, r.StatusCode)
	assert.Contains(t, string(body(t, r)), "not built")
	assert.NotContains(t, string(body(t, get(h, "/sw.js"))), `"app.wasm"`, "half a page is not kept as a whole one")
}
