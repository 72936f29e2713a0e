package web

import (
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"sort"
	"strings"
)

// ErrNoSources says that the sketcher cannot be built because its sources are
// not around.
var ErrNoSources = errors.New("the sketcher is built from its sources, and they are not here: start it inside the Scrubline source folder (the one with go.mod)")

// sourceRoot finds the source tree that holds dir.
func sourceRoot(dir string) (string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	for {
		mod, err := os.ReadFile(filepath.Join(dir, "go.mod"))
		if err == nil && moduleName(mod) == "scrubline" {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", ErrNoSources
		}
		dir = up
	}
}

// moduleName reads the module line of a go.mod.
func moduleName(mod []byte) string {
	for _, line := range strings.Split(string(mod), "\n") {
		if name, ok := strings.CutPrefix(strings.TrimSpace(line), "module "); ok {
			return strings.TrimSpace(name)
		}
	}
	return ""
}

// sourceSum is a hash of all that decides what the sketcher's bytes are: the
// files of this module it is compiled from, the versions of the others, the
// compiler and its flags.
func sourceSum(ctx context.Context, root string) (string, error) {
	const each = `{{if .Module}}{{if .Module.Main}}{{$d := .Dir}}` +
		`{{range .GoFiles}}{{$d}}/{{.}}{{"\n"}}{{end}}` +
		`{{range .EmbedFiles}}{{$d}}/{{.}}{{"\n"}}{{end}}{{end}}{{end}}`
	list, err := goTool(ctx, root, "list", "-deps", "-f", each, sketcher)
	if err != nil {
		return "", fmt.Errorf("the sketcher's sources cannot be listed: %w", err)
	}
	version, err := goTool(ctx, root, "env", "GOVERSION")
	if err != nil {
		return "", err
	}
	files := strings.Split(strings.TrimSpace(string(list)), "\n")
	files = append(files, filepath.Join(root, "go.mod"), filepath.Join(root, "go.sum"))
	lean := filepath.Join(root, filepath.FromSlash(leanSource))
	if _, err := os.Stat(lean); err == nil {
		files = append(files, lean)
	}
	sum := sha256.New()
	fmt.Fprintln(sum, strings.TrimSpace(string(version)), goFlags, brotliWindow)
	if err := addFiles(sum, root, files); err != nil {
		return "", err
	}
	return fmt.Sprintf("%x", sum.Sum(nil)), nil
}

// addFiles feeds files to sum by their place in the tree, sorted.
func addFiles(sum io.Writer, root string, files []string) error {
	sort.Strings(files)
	for _, name := range files {
		if strings.TrimSpace(name) == "" {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			return fmt.Errorf("reading the sketcher's sources: %w", err)
		}
		rel, err := filepath.Rel(root, name)
		if err != nil {
			return err
		}
		fmt.Fprintln(sum, filepath.ToSlash(rel), len(data))
		sum.Write(data)
	}
	return nil
}
