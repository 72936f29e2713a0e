package web

import (
	"bytes"
	"compress/gzip"
	"context"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"sort"
	"strings"

	"scrubline/testdata"
)

// asset is one file as it is sent.
type asset struct {
	kind   string // MIME type
	tag    string // ETag
	plain  []byte
	packed map[string][]byte // by the name of the encoding
	err    error             // why there is nothing to send
}

// kinds gives each suffix that is served its MIME type. A browser refuses to
// compile WebAssembly or to run a module of another type.
var kinds = map[string]string{
	".html":        "text/html; charset=utf-8",
	".css":         "text/css; charset=utf-8",
	".js":          "text/javascript; charset=utf-8",
	".json":        "application/json; charset=utf-8",
	".webmanifest": "application/manifest+json; charset=utf-8",
	".png":         "image/png",
	".otf":         "font/otf",
	".txt":         "text/plain; charset=utf-8",
	".wasm":        "application/wasm",
}

// worker is the service worker; its two marks are filled in when it is served.
const (
	worker    = "sw.js"
	buildMark = `const BUILD = 'unbuilt';`
	filesMark = `const FILES = [];`
)

// reachFile tells the page how other devices reach it: by nothing that a plain
// host would know; `scrubline serve` puts its own in place of it.
const reachFile = "reach.json"

// collect gathers every file that can be asked for, by its path without the
// leading slash. What is not in the map does not exist.
func collect(builtDir string) map[string]*asset {
	all := map[string]*asset{}
	addTree(all, page, ".", "")
	addTree(all, testdata.Scenes, "scenes", "scenes/")
	for _, name := range []string{wasmFile, execFile} {
		all[name] = builtAsset(builtDir, name)
	}
	bundlePage(all)
	stampWorker(all)
	// Not kept for use without a network: it tells of the server that is there.
	all[reachFile] = &asset{kind: kinds[".json"], plain: []byte(`{"addresses":[],"listen":""}`)}
	for _, a := range all {
		a.seal()
	}
	all[""] = all["index.html"]
	return all
}

// addTree adds the files of tree under root whose kind is known.
func addTree(all map[string]*asset, tree fs.FS, root, prefix string) {
	err := fs.WalkDir(tree, root, func(name string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || kinds[path.Ext(name)] == "" {
			return err
		}
		data, err := fs.ReadFile(tree, name)
		rel := strings.TrimPrefix(strings.TrimPrefix(name, root), "/")
		if root == "." {
			rel = name
		}
		all[prefix+rel] = &asset{kind: kinds[path.Ext(name)], plain: data, err: err}
		return nil
	})
	if err != nil {
		all[prefix] = &asset{kind: kinds[".txt"], err: err}
	}
}

// builtAsset reads a file that Build made, with its packed copies.
func builtAsset(dir, name string) *asset {
	a := &asset{kind: kinds[path.Ext(name)], packed: map[string][]byte{}}
	a.plain, a.err = os.ReadFile(filepath.Join(dir, name))
	if a.err != nil {
		a.err = errors.New("the sketcher is not built: no " + name)
		return a
	}
	for _, enc := range encodings {
		if data, err := os.ReadFile(filepath.Join(dir, name+enc.suffix)); err == nil {
			a.packed[enc.name] = data
		}
	}
	return a
}

// stampWorker writes into the service worker what it keeps for use without a
// network and under which build, a hash over all of it: any changed byte makes
// a new service worker, and loader and sketcher are always of one build.
func stampWorker(all map[string]*asset) {
	var names []string
	for name, a := range all {
		if name != worker && a.err == nil {
			names = append(names, name)
		}
	}
	sort.Strings(names)
	sum := sha256.New()
	for _, name := range names {
		fmt.Fprintln(sum, name, len(all[name].plain))
		sum.Write(all[name].plain)
	}
	w := all[worker]
	if w == nil || w.err != nil {
		return
	}
	sum.Write(w.plain)
	// The page itself is kept under the address people open, and not once more
	// under its file's name: hosts answer that one by sending on to the other.
	names = slices.DeleteFunc(names, func(name string) bool { return name == "index.html" })
	list, err := json.Marshal(append([]string{"./"}, names...))
	if err != nil {
		w.err = err
		return
	}
	stamp := fmt.Sprintf("const BUILD = '%x';", sum.Sum(nil)[:8])
	w.plain = bytes.Replace(w.plain, []byte(buildMark), []byte(stamp), 1)
	w.plain = bytes.Replace(w.plain, []byte(filesMark), []byte("const FILES = "+string(list)+";"), 1)
}

// seal computes the tag, and packs text that no packed copy came with.
func (a *asset) seal() {
	if a.err != nil {
		return
	}
	sum := sha256.Sum256(a.plain)
	a.tag = fmt.Sprintf(`"%x"`, sum[:12])
	text := strings.HasPrefix(a.kind, "text/") || strings.Contains(a.kind, "json")
	if a.packed[encodings[1].name] != nil || !text || len(a.plain) < 512 {
		return
	}
	var small bytes.Buffer
	w, err := gzip.NewWriterLevel(&small, gzip.BestCompression)
	if err == nil {
		err = packInto(context.Background(), w, a.plain)
	}
	if err == nil {
		a.packed = map[string][]byte{encodings[1].name: small.Bytes()}
	}
}
