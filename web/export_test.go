package web

import (
	"bytes"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tree lists the files under a folder with what is in them.
func tree(t *testing.T, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		data, err := os.ReadFile(path)
		name, _ := filepath.Rel(dir, path)
		found[filepath.ToSlash(name)] = string(data)
		return err
	}))
	return found
}

func TestAnExportHasAllThatTheServerServes(t *testing.T) {
	built, dir := builtFolder(t), filepath.Join(t.TempDir(), "new", "site")
	files, size, err := Export(built, dir)
	require.NoError(t, err)
	got := tree(t, dir)
	assert.Len(t, got, files+1, "the files and the mark")
	assert.Greater(t, size, int64(100_000))
	for name, a := range Handler(built).(*server).files {
		if name == "" || name == "index.html" {
			continue
		}
		assert.Equal(t, string(a.plain), got[name], name)
	}
	assert.Equal(t, string(wasmBytes), string(unpack(t, "br", []byte(got["app.wasm.br"]))))
	assert.Equal(t, string(wasmBytes), string(unpack(t, "gzip", []byte(got["app.wasm.gz"]))))
	assert.Contains(t, got, ".nojekyll")
	for name := range got {
		assert.NotContains(t, name, ".part", "nothing unfinished is left")
	}
}

// absolute finds addresses that work only at the root of a host, or elsewhere.
var absolute = regexp.MustCompile(`(?:src|href)="(?:/|https?:)|(?:import|from|fetch\(|register\(|url\()\s*['"]?(?:/[^/*]|https?:)`)

func TestAnExportHasOnlyRelativeAddresses(t *testing.T) {
	require.NotEmpty(t, absolute.FindString(`<script src="/main.js">`), "the pattern finds what it looks for")
	require.NotEmpty(t, absolute.FindString(`import { x } from '/dom.js'`))
	dir := filepath.Join(t.TempDir(), "site")
	_, _, err := Export(builtFolder(t), dir)
	require.NoError(t, err)
	looked := 0
	for name, text := range tree(t, dir) {
		switch filepath.Ext(name) {
		case ".html", ".js", ".css", ".webmanifest":
			looked++
			assert.Empty(t, absolute.FindAllString(text, -1), name)
		}
	}
	assert.Equal(t, 7, looked, "the page, its script, what is asked for first, Go's loader, the worker, the style sheet, the manifest")
}

func TestAnExportedPageBringsItsPolicy(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	_, _, err := Export(builtFolder(t), dir)
	require.NoError(t, err)
	html := tree(t, dir)["index.html"]
	assert.Contains(t, html, `<meta http-equiv="Content-Security-Policy" content="default-src 'self';`)
	assert.Contains(t, html, "'wasm-unsafe-eval'")
	assert.NotContains(t, html, "frame-ancestors", "a page cannot say that itself")
}

func TestExportingAgainReplacesAndLeavesOtherFilesAlone(t *testing.T) {
	built, dir := builtFolder(t), t.TempDir()
	_, _, err := Export(built, dir)
	require.NoError(t, err)
	first := tree(t, dir)
	// A host's own file stays; a file of an earlier version goes.
	require.NoError(t, os.WriteFile(filepath.Join(dir, "CNAME"), []byte("van.example\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "icons", "gone.png"), []byte("x"), 0o644))
	mark := bytes.Replace([]byte(first[exportMark]), []byte(`"icons/`), []byte("\"icons/gone.png\",\n    \"icons/"), 1)
	require.NoError(t, os.WriteFile(filepath.Join(dir, exportMark), mark, 0o644))
	_, _, err = Export(built, dir)
	require.NoError(t, err)
	second := tree(t, dir)
	assert.Equal(t, "van.example\n", second["CNAME"])
	delete(second, "CNAME")
	assert.Equal(t, first, second)
}

func TestExportRefusesAFolderOfOtherThings(t *testing.T) {
	for name, prepare := range map[string]func(dir string){
		"another file":     func(dir string) { os.WriteFile(filepath.Join(dir, "notes.txt"), []byte("mine"), 0o644) },
		"a hidden file":    func(dir string) { os.WriteFile(filepath.Join(dir, ".profile"), []byte("mine"), 0o644) },
		"a broken mark":    func(dir string) { os.WriteFile(filepath.Join(dir, exportMark), []byte("{"), 0o644) },
		"a mark to beside": func(dir string) { os.WriteFile(filepath.Join(dir, exportMark), []byte(`{"files":["../x"]}`), 0o644) },
	} {
		t.Run(name, func(t *testing.T) {
			dir := t.TempDir()
			prepare(dir)
			before := tree(t, dir)
			_, _, err := Export(builtFolder(t), dir)
			assert.ErrorIs(t, err, ErrNotEmpty)
			assert.ErrorContains(t, err, dir)
			assert.Equal(t, before, tree(t, dir), "nothing is touched")
		})
	}
	file := filepath.Join(t.TempDir(), "file")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	_, _, err := Export(builtFolder(t), file)
	assert.ErrorContains(t, err, file)
	_, _, err = Export(t.TempDir(), t.TempDir())
	assert.ErrorContains(t, err, "not built")
}
