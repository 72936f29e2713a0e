package web

import (
	"net/http"
	"strconv"
	"strings"
)

// policy lets the page run what it brings itself and nothing else: no foreign
// address, no inline script or style. Compiling WebAssembly needs its own
// permission (CSP Level 3, 'wasm-unsafe-eval').
const policy = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; " +
	"img-src 'self' data: blob:; connect-src 'self'; worker-src 'self'; object-src 'none'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// Handler serves the page with the sketcher that [Build] left in builtDir,
// and the demo scenes under /scenes/. Without a built sketcher the page still
// comes, and asking for the sketcher answers 503 with the reason.
//
// Everything is read once, here: a request only looks a name up, so nothing
// outside can be reached. What is true of this server only, as how others reach
// it, comes as more files, which no device keeps for use without a network.
func Handler(builtDir string, more ...File) http.Handler {
	files := collect(builtDir)
	for _, f := range more {
		a := &asset{kind: f.Kind, plain: f.Data}
		a.seal()
		files[f.Name] = a
	}
	return &server{files: files}
}

// File is one more file to serve.
type File struct {
	Name string // its address, without the leading slash
	Kind string // MIME type
	Data []byte
}

type server struct{ files map[string]*asset }

func (s *server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	head.Set("Content-Security-Policy", policy)
	head.Set("X-Content-Type-Options", "nosniff")
	head.Set("Referrer-Policy", "no-referrer")
	if r.Method != http.MethodGet && r.Method != http.MethodHead {
		head.Set("Allow", "GET, HEAD")
		http.Error(w, "only reading is possible here", http.StatusMethodNotAllowed)
		return
	}
	a := s.files[strings.TrimPrefix(r.URL.Path, "/")]
	switch {
	case a == nil:
		http.Error(w, "there is no such page", http.StatusNotFound)
	case a.err != nil:
		http.Error(w, a.err.Error(), http.StatusServiceUnavailable)
	default:
		a.send(w, r)
	}
}

// send answers with the smallest form the browser takes, or with nothing when
// it has this very version already.
func (a *asset) send(w http.ResponseWriter, r *http.Request) {
	head := w.Header()
	body, tag := a.plain, a.tag
	for _, enc := range encodings {
		if packed := a.packed[enc.name]; packed != nil && accepts(r.Header.Get("Accept-Encoding"), enc.name) {
			body = packed
			tag = strings.TrimSuffix(tag, `"`) + "-" + enc.name + `"`
			head.Set("Content-Encoding", enc.name)
			break
		}
	}
	if len(a.packed) > 0 {
		head.Set("Vary", "Accept-Encoding")
	}
	// Always asked again, seldom sent again: a new build is seen at once.
	head.Set("Cache-Control", "no-cache")
	head.Set("ETag", tag)
	head.Set("Content-Type", a.kind)
	if matches(r.Header.Get("If-None-Match"), tag) {
		head.Del("Content-Encoding")
		w.WriteHeader(http.StatusNotModified)
		return
	}
	head.Set("Content-Length", strconv.Itoa(len(body)))
	if r.Method == http.MethodGet {
		w.Write(body) // a reader that went away is nobody's error
	}
}

// matches compares as RFC 9110, 13.1.2 asks: weakly, against a list.
func matches(header, tag string) bool {
	for _, have := range strings.Split(header, ",") {
		have = strings.TrimPrefix(strings.TrimSpace(have), "W/")
		if have == tag || have == "*" {
			return true
		}
	}
	return false
}
