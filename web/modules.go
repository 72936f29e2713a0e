package web

import (
	"bytes"
	"fmt"
	"path"
	"regexp"
	"slices"
)

// entry is the page's first module; its mark in the page is where the others are
// named.
const (
	entry       = "main.js"
	modulesMark = "<!-- the modules it is made of -->\n"
)

var imports = regexp.MustCompile(`from '(\.[^']+)'`)

// nameModules names in the page every module that its first one leads to, so that
// a browser asks for all of them at once: found one in the other, they would
// take as many turns as they are deep.
func nameModules(all map[string]*asset) {
	html := all["index.html"]
	if html == nil || html.err != nil {
		return
	}
	var links bytes.Buffer
	for _, name := range modulesFrom(all, entry) {
		fmt.Fprintf(&links, "<link rel=\"modulepreload\" href=\"%s\">\n", name)
	}
	html.plain = bytes.Replace(html.plain, []byte(modulesMark), links.Bytes(), 1)
}

// modulesFrom lists a module and all it leads to, those it names itself first.
func modulesFrom(all map[string]*asset, first string) []string {
	names := []string{first}
	for i := 0; i < len(names); i++ {
		a := all[names[i]]
		if a == nil {
			continue
		}
		for _, m := range imports.FindAllSubmatch(a.plain, -1) {
			if name := path.Join(path.Dir(names[i]), string(m[1])); !slices.Contains(names, name) {
				names = append(names, name)
			}
		}
	}
	return names
}
