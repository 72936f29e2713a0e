package web

import (
	"errors"
	"io/fs"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sources are the page's own files of one suffix, by name.
func sources(t *testing.T, suffix string) map[string]string {
	t.Helper()
	found := map[string]string{}
	require.NoError(t, fs.WalkDir(page, ".", func(name string, e fs.DirEntry, err error) error {
		if err != nil || path.Ext(name) != suffix {
			return err
		}
		text, err := page.ReadFile(name)
		found[name] = string(text)
		return err
	}))
	return found
}

var (
	scripts = regexp.MustCompile(`<script[^>]* src="([^"]+)"`)
	styles  = regexp.MustCompile(`<link rel="stylesheet" href="([^"]+)"`)
	words   = regexp.MustCompile(`'([A-Z][a-z]+ [a-zA-Z ,]{8,})[.:]?'`)
	classes = regexp.MustCompile(`(?m)^\.([a-z][a-z-]+)`)
	imports = regexp.MustCompile(`(?:from|import)\s*["'](\.[^"']+)["']`)
)

func seconds(all [][]string) (out []string) {
	for _, m := range all {
		out = append(out, m[1])
	}
	return out
}

// Each request takes its share of a start, most of all where the service worker
// answers them.
func TestThePageAsksForOneScriptAndOneStyleSheet(t *testing.T) {
	h := Handler(builtFolder(t))
	html := string(body(t, get(h, "/")))
	assert.Equal(t, []string{earlyFile, execFile, entryScript}, seconds(scripts.FindAllStringSubmatch(html, -1)),
		"what is asked for first and Go's own loader come by themselves")
	assert.Equal(t, []string{entryStyle}, seconds(styles.FindAllStringSubmatch(html, -1)))
	assert.Equal(t, []string{"./" + earlyFile}, seconds(imports.FindAllStringSubmatch(string(body(t, get(h, "/"+entryScript))), -1)))
	assert.NotContains(t, string(body(t, get(h, "/"+entryStyle))), "@import")
	for name := range h.(*server).files {
		assert.NotContains(t, name, "panels/", "it is in the one script")
	}
}

func TestEveryModuleIsInTheOneScript(t *testing.T) {
	one := string(body(t, get(Handler(builtFolder(t)), "/"+entryScript)))
	files := sources(t, ".js")
	assert.Greater(t, len(files), 40)
	reached := []string{entryScript}
	for i := 0; i < len(reached); i++ {
		for _, to := range seconds(imports.FindAllStringSubmatch(files[reached[i]], -1)) {
			if name := path.Join(path.Dir(reached[i]), to); !slices.Contains(reached, name) {
				reached = append(reached, name)
			}
		}
	}
	said := 0
	for name, text := range files {
		if name == worker {
			continue
		}
		assert.Contains(t, reached, name, "nothing leads to it")
		if name == earlyFile {
			continue
		}
		for _, w := range seconds(words.FindAllStringSubmatch(text, -1)) {
			said++
			assert.Contains(t, one, w, name)
		}
	}
	assert.Greater(t, said, 100)
}

func TestEveryStyleSheetIsInTheOne(t *testing.T) {
	one := string(body(t, get(Handler(builtFolder(t)), "/"+entryStyle)))
	seen := 0
	for name, text := range sources(t, ".css") {
		for _, c := range seconds(classes.FindAllStringSubmatch(text, -1)) {
			seen++
			assert.Contains(t, one, "."+c, name)
		}
	}
	assert.Greater(t, seen, 100)
	assert.Contains(t, one, "url(fonts/B612-Regular.otf)", "addresses hold where the sheets lie")
}

func TestAModuleThatIsMissingIsTold(t *testing.T) {
	all := map[string]*asset{
		"main.js":  {plain: []byte("import { x } from './gone.js';\nx();\n")},
		"page.css": {plain: []byte("p { margin: 0 }\n")},
		"torn.js":  {err: errors.New("cannot be read")},
	}
	bundlePage(all)
	assert.ErrorContains(t, all["main.js"].err, "there is no gone.js")
	assert.NoError(t, all["page.css"].err)
	assert.Equal(t, "p{margin:0}", strings.TrimSpace(string(all["page.css"].plain)))
}
