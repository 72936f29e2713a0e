package web

import (
	"fmt"
	"path"
	"strings"
	"sync"

	"github.com/evanw/esbuild/pkg/api"
)

// The page's first module and its first style sheet: served with all that they
// lead to in them, since sixty requests take a good part of a start. What is
// asked for before all of it, earlyFile, stays by itself.
const (
	entryScript = "main.js"
	entryStyle  = "page.css"
	earlyFile   = "early.js"
)

// bundlePage puts the page's modules into its first one and its style sheets into
// the first one, and takes the others away: nothing asks for them any more.
func bundlePage(all map[string]*asset) {
	var inside []string
	for _, first := range []string{entryScript, entryStyle} {
		files, err := bundle(all, first)
		if err != nil {
			all[first] = &asset{kind: kinds[path.Ext(first)], err: fmt.Errorf("the page's files do not go into one: %w", err)}
		}
		inside = append(inside, files...)
	}
	for _, name := range inside {
		delete(all, name)
	}
}

// bundle puts into one file all that it leads to, and names what went into it.
// The same files give the same bytes.
func bundle(all map[string]*asset, first string) (inside []string, err error) {
	var once sync.Mutex // files are asked for at the same time
	files := api.Plugin{Name: "page", Setup: func(b api.PluginBuild) {
		b.OnResolve(api.OnResolveOptions{Filter: ".*"}, func(args api.OnResolveArgs) (api.OnResolveResult, error) {
			name := path.Join(path.Dir(args.Importer), args.Path)
			if args.Kind == api.ResolveCSSURLToken || name == earlyFile {
				return api.OnResolveResult{Path: args.Path, External: true}, nil
			}
			return api.OnResolveResult{Path: name, Namespace: "page"}, nil
		})
		b.OnLoad(api.OnLoadOptions{Filter: ".*", Namespace: "page"}, func(args api.OnLoadArgs) (api.OnLoadResult, error) {
			a := all[args.Path]
			if a == nil || a.err != nil {
				return api.OnLoadResult{}, fmt.Errorf("there is no %s", args.Path)
			}
			if args.Path != first {
				once.Lock()
				inside = append(inside, args.Path)
				once.Unlock()
			}
			text, loader := string(a.plain), api.LoaderJS
			if path.Ext(args.Path) == ".css" {
				loader = api.LoaderCSS
			}
			return api.OnLoadResult{Contents: &text, Loader: loader}, nil
		})
	}}
	made := api.Build(api.BuildOptions{
		EntryPoints: []string{first},
		Bundle:      true, Format: api.FormatESModule, Charset: api.CharsetUTF8,
		MinifyWhitespace: true, MinifySyntax: true, MinifyIdentifiers: true,
		Plugins: []api.Plugin{files},
	})
	if len(made.Errors) > 0 {
		return nil, fmt.Errorf("%s", strings.Join(api.FormatMessages(made.Errors, api.FormatMessagesOptions{}), "\n"))
	}
	all[first] = &asset{kind: kinds[path.Ext(first)], plain: made.OutputFiles[0].Contents}
	return inside, nil
}
