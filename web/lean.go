package web

import (
	"context"
	"encoding/json"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// The one file of the graphics library that the sketcher is built without, and
// what is compiled instead; package builtinshader says why.
const (
	leanModule = "github.com/hajimehoshi/ebiten/v2"
	leanFile   = "internal/builtinshader/shader.go"
	leanSource = "web/internal/builtinshader/shader.go"
)

// leanFlags are the build's flags that put leanSource in the place of the
// library's own file; none where the tree's sketcher does without the library.
//
// The go command lets nobody replace a file among the modules it keeps. So the
// module is said to lie in a folder of dir (-modfile), and its files to be
// those that are kept, all but one (-overlay). The folder itself is never
// made. Its place in the tree is relative, so that the bytes built are the
// same everywhere.
func leanFlags(ctx context.Context, root, dir string) ([]string, error) {
	const kept = `{{with .Module}}{{if eq .Path "` + leanModule + `"}}{{.Dir}}{{"\n"}}{{end}}{{end}}`
	out, err := goTool(ctx, root, "list", "-deps", "-f", kept, sketcher)
	if err != nil {
		return nil, fmt.Errorf("the sketcher's modules cannot be listed: %w", err)
	}
	from, _, found := strings.Cut(string(out), "\n")
	if !found {
		return nil, nil
	}
	to := filepath.Join(dir, "lean")
	overlay, err := leanOverlay(root, from, to)
	if err != nil {
		return nil, fmt.Errorf("the graphics library's files cannot be listed: %w", err)
	}
	mod, err := leanMod(root, to)
	if err != nil {
		return nil, err
	}
	sum, err := os.ReadFile(filepath.Join(root, "go.sum"))
	if err != nil {
		return nil, err
	}
	for suffix, data := range map[string][]byte{".json": overlay, ".mod": mod, ".sum": sum} {
		if err := writeFile(to+suffix, data); err != nil {
			return nil, err
		}
	}
	return []string{"-modfile=" + to + ".mod", "-overlay=" + to + ".json"}, nil
}

// leanOverlay says that the files of the module kept in folder from lie in
// folder to, and leanSource among them.
func leanOverlay(root, from, to string) ([]byte, error) {
	files := map[string]string{}
	err := filepath.WalkDir(from, func(name string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() {
			return err
		}
		rel, err := filepath.Rel(from, name)
		files[filepath.Join(to, rel)] = name
		return err
	})
	if err != nil {
		return nil, err
	}
	replaced := filepath.Join(to, filepath.FromSlash(leanFile))
	if files[replaced] == "" {
		return nil, fmt.Errorf("%s has no %s any more", from, leanFile)
	}
	files[replaced] = filepath.Join(root, filepath.FromSlash(leanSource))
	return json.Marshal(map[string]any{"Replace": files})
}

// leanMod is the tree's go.mod with the module in folder to.
func leanMod(root, to string) ([]byte, error) {
	mod, err := os.ReadFile(filepath.Join(root, "go.mod"))
	if err != nil {
		return nil, err
	}
	rel, err := filepath.Rel(root, to)
	if err != nil {
		return nil, err
	}
	return fmt.Appendf(mod, "\nreplace %s => ./%s\n", leanModule, filepath.ToSlash(rel)), nil
}
