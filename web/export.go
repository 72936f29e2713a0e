package web

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"sort"
	"strings"
)

// ErrNotEmpty says that a folder to export into holds something that no export
// put there.
var ErrNotEmpty = errors.New("holds files that are not from an earlier export; name a new or an empty folder")

// exportMark is the file that makes a folder an export: it lists what the
// export wrote, so that the next one removes what is no longer part of it.
const exportMark = "scrubline-export.json"

// exported is what stands in the mark.
type exported struct {
	About string   `json:"about"`
	Files []string `json:"files"` // with slashes, sorted
}

// Export writes the page with the sketcher that [Build] left in builtDir into
// a folder, for any host of plain files: every address in it is relative, so
// that it may lie at any path, and the packed copies of the large file lie
// beside it (.br, .gz) for hosts that send such. It makes the folder when
// there is none, replaces an earlier export, leaves other files beside one
// alone, and returns the number of files and their bytes.
//
// It fails with [ErrNotEmpty] when the folder holds files but no export, and
// with the system's error when something cannot be written.
func Export(builtDir, dir string) (files int, size int64, err error) {
	all, err := exportFiles(builtDir)
	if err != nil {
		return 0, 0, err
	}
	old, err := earlierExport(dir)
	if err != nil {
		return 0, 0, err
	}
	names := sortedNames(all)
	// The mark comes first and names the old files too: an export that is cut
	// short is still known as one.
	if err := writeMark(dir, append(slices.Clone(names), old...)); err != nil {
		return 0, 0, err
	}
	for _, name := range names {
		if err := writeUnder(dir, name, all[name]); err != nil {
			return 0, 0, err
		}
		size += int64(len(all[name]))
	}
	for _, name := range old {
		if _, still := all[name]; !still {
			// A name that was removed by hand meanwhile is no matter.
			if err := os.Remove(filepath.Join(dir, filepath.FromSlash(name))); err != nil && !errors.Is(err, fs.ErrNotExist) {
				return 0, 0, fmt.Errorf("an old file of the export cannot be removed: %w", err)
			}
		}
	}
	return len(names), size, writeMark(dir, names)
}

// exportFiles are the files of an export by name.
func exportFiles(builtDir string) (map[string][]byte, error) {
	out := map[string][]byte{
		// Some hosts run what they are given through a page generator, unless told not to.
		".nojekyll": {},
	}
	for name, a := range collect(builtDir) {
		if a.err != nil {
			return nil, fmt.Errorf("the page is not whole: %w", a.err)
		}
		if name == "" {
			continue // the page under its other name
		}
		out[name] = a.plain
		if name == "index.html" {
			out[name] = withPolicy(a.plain)
		}
		if name != wasmFile {
			continue // small files are packed by the host or not at all
		}
		for _, enc := range encodings {
			if packed := a.packed[enc.name]; packed != nil {
				out[name+enc.suffix] = packed
			}
		}
	}
	return out, nil
}

// withPolicy writes the page's policy into its head: a host of plain files
// sends no headers of ours. What only a header may say is left out (CSP Level
// 3, 3.3: frame-ancestors is ignored in a meta element).
func withPolicy(html []byte) []byte {
	inPage, _, _ := strings.Cut(policy, "; frame-ancestors")
	const first = "<meta charset=\"utf-8\">\n"
	meta := first + `<meta http-equiv="Content-Security-Policy" content="` + inPage + `">` + "\n"
	return bytes.Replace(html, []byte(first), []byte(meta), 1)
}

// earlierExport lists the files of the export that dir holds: none for a
// folder that is empty or not there.
func earlierExport(dir string) ([]string, error) {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("the folder %s cannot be read: %w", dir, err)
	}
	if len(entries) == 0 {
		return nil, nil
	}
	text, err := os.ReadFile(filepath.Join(dir, exportMark))
	var mark exported
	if err != nil || json.Unmarshal(text, &mark) != nil {
		return nil, fmt.Errorf("the folder %s %w", dir, ErrNotEmpty)
	}
	for _, name := range mark.Files {
		if !filepath.IsLocal(filepath.FromSlash(name)) {
			return nil, fmt.Errorf("the folder %s %w", dir, ErrNotEmpty)
		}
	}
	return mark.Files, nil
}

func writeMark(dir string, names []string) error {
	sort.Strings(names)
	text, err := json.MarshalIndent(exported{
		About: "Written by scrubline export, which removes the files listed here when it writes anew.",
		Files: slices.Compact(names),
	}, "", "  ")
	if err != nil {
		return err
	}
	return writeUnder(dir, exportMark, append(text, '\n'))
}

func writeUnder(dir, name string, data []byte) error {
	path := filepath.Join(dir, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		return fmt.Errorf("the export cannot be written: %w", err)
	}
	if err := writeFile(path, data); err != nil {
		return fmt.Errorf("the export cannot be written: %w", err)
	}
	return nil
}

func sortedNames(all map[string][]byte) []string {
	names := make([]string, 0, len(all))
	for name := range all {
		names = append(names, name)
	}
	sort.Strings(names)
	return names
}
