//go:build e2e

package web_test

import (
	"bytes"
	"compress/gzip"
	"crypto/sha256"
	_ "embed"
	"fmt"
	"io"
	"os"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

//go:embed testdata/axe/axe.min.js.gz
var axePacked []byte

// axeSource is the axe-core library, checked against the sum beside it.
var axeSource = sync.OnceValues(func() (string, error) {
	z, err := gzip.NewReader(bytes.NewReader(axePacked))
	if err != nil {
		return "", err
	}
	text, err := io.ReadAll(z)
	if err != nil {
		return "", err
	}
	about, err := os.ReadFile("testdata/axe/README.md")
	if err == nil && !strings.Contains(string(about), fmt.Sprintf("%x", sha256.Sum256(text))) {
		err = fmt.Errorf("testdata/axe is not the library its README.md names")
	}
	return string(text), err
})

// axe runs the rules of WCAG 2.2 A and AA and the library's best practices over
// what is shown now, and lists what is wrong.
func (x *tab) axe() []string {
	x.t.Helper()
	source, err := axeSource()
	require.NoError(x.t, err)
	if !eval[bool](x, `!!window.axe`) {
		// The page shadows document.body by the canvas's cell; the library wants the real one.
		eval[bool](x, strings.ReplaceAll(source, "document.body", `document.querySelector("body")`)+"\n;true")
	}
	wrong, err := browser.Await[[]string](x.Page, `axe.run(document.documentElement, {
	  resultTypes: ["violations"],
	  runOnly: { type: "tag", values: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"] },
	}).then((r) => r.incomplete.filter((v) => v.error).map((v) => v.id + ": the rule breaks: " + v.error.message).concat(r.violations.flatMap((v) => v.nodes.map((n) => v.id + ": " + n.html.slice(0, 160) + " | " + (n.any[0] ?? n.all[0] ?? n.none[0] ?? {}).message))))`)
	x.must(err)
	return wrong
}

// sound expects neither the library nor our own audit to find anything.
func (x *tab) sound(what, within string) {
	x.t.Helper()
	assert.Empty(x.t, x.axe(), "axe: "+what)
	x.whole(what, within)
}

// The library has to see a fault when there is one.
func TestE2EAxeSeesFaults(t *testing.T) {
	x := open(t, browser.Landscape)
	require.Empty(t, x.axe())
	for _, fault := range []struct{ name, spoil, rule string }{
		{"pale", `document.querySelector(".tab").style.color = "#bbb"`, "color-contrast"},
		{"nameless", `document.querySelector(".bar-fit").replaceChildren(), document.querySelector(".bar-fit").removeAttribute("aria-label"), document.querySelector(".bar-fit").removeAttribute("title")`, "button-name"},
		{"lying", `document.querySelector(".tab").setAttribute("role", "tablet")`, "aria-roles"},
	} {
		eval[string](x, `void (`+fault.spoil+`), ""`)
		found := strings.Join(x.axe(), "\n")
		assert.Contains(t, found, fault.rule+":", fault.name)
	}
}

// leaving are the entries of the menu that open no sheet: they ask for a file,
// write one, or put another vehicle onto the sheet.
const leaving = `/^(Open|Save|Share|New vehicle|Demo|Back to)/`

// menuSheets lists the entries of the File menu that show something.
func (x *tab) menuSheets() []string {
	x.t.Helper()
	x.tap(".menu-top")
	x.wait(shown("#menu-list"))
	list := eval[[]string](x, `[...document.querySelectorAll("#menu-list button.menu-item")].filter((e) => e.checkVisibility())
	  .map((e) => e.textContent).filter((s) => !`+leaving+`.test(s))`)
	x.tap(".menu-top")
	return list
}

// state is what is shown, roughly: it changes when a sheet comes up.
const state = `[document.querySelectorAll("dialog[open]").length, document.getElementById("panel").dataset.mode, ` +
	`document.querySelector("#app").className, document.activeElement?.className, document.querySelector(".form-title")?.textContent, ` +
	`[...document.querySelectorAll("#app > *")].filter((e) => e.checkVisibility()).length].join("|")`

// openSheet takes an entry of the menu and waits until something came up.
func (x *tab) openSheet(entry string) {
	x.t.Helper()
	before := eval[string](x, state)
	x.fileMenu(entry)
	x.wait(`(` + state + `) !== ` + quote(before))
	x.wait(`!` + shown("#menu-list"))
	if x.within() == "#app" {
		x.raise()
	}
	x.settled()
}

// leaveSheet closes what an entry of the menu has opened.
func (x *tab) leaveSheet() {
	x.t.Helper()
	switch {
	case x.within() != "#app":
		x.must(x.Type("\x1b"))
		x.wait(`!document.querySelector("dialog[open]")`)
	case eval[bool](x, shown(".side-form .back")):
		x.leaveForm()
	default:
		x.must(x.Reload())
		x.checked()
	}
}

// settled waits until nothing has been added or taken away for a moment.
func (x *tab) settled() {
	x.t.Helper()
	_, err := browser.Await[bool](x.Page, `new Promise((done) => {
	  let last = performance.now();
	  const watch = new MutationObserver(() => { last = performance.now(); });
	  watch.observe(document.documentElement, { subtree: true, childList: true });
	  const look = () => (performance.now() - last > 150 ? (watch.disconnect(), done(true)) : setTimeout(look, 30));
	  look();
	})`)
	x.must(err)
}

// unfold opens everything that is folded and every "?" that is to be seen.
func (x *tab) unfold() {
	x.t.Helper()
	eval[bool](x, `([...document.querySelectorAll("details:not([open])")].filter((e) => e.checkVisibility()).forEach((e) => { e.open = true; }), true)`)
	eval[bool](x, `([...document.querySelectorAll('.ask[aria-expanded="false"]')].filter((e) => e.checkVisibility()).forEach((e) => e.click()), true)`)
}

// within is what lies on top: an open sheet, or the whole page.
func (x *tab) within() string {
	x.t.Helper()
	if eval[bool](x, `!!document.querySelector("dialog[open]")`) {
		return "dialog[open]"
	}
	return "#app"
}

// Everything the page can show, whatever the menu and the tabs offer, light on a
// tablet and dark on a phone, and the main screen in the other ways too: nothing
// for axe-core to find, nothing cut off, nothing too small for a finger.
func TestE2EEverySheetIsAccessible(t *testing.T) {
	x := open(t, browser.Landscape)
	x.press("Got it")
	for _, c := range []struct {
		theme string
		size  browser.Size
		all   bool // the sheets of the menu as well
	}{
		{"light", browser.Landscape, true}, {"dark", browser.Landscape, false}, {"light", browser.Portrait, false},
		{"light", browser.Phone, false}, {"dark", browser.Phone, true},
	} {
		t.Run(fmt.Sprintf("%s %dx%d", c.theme, c.size.W, c.size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Prefers(c.theme))
			x.must(x.Resize(c.size))
			x.must(x.Reload())
			x.checked()
			require.Equal(t, c.theme, eval[string](x, `document.documentElement.dataset.theme`))
			x.eventually("the canvas has its size", x.canvasFits)
			x.mainScreen()
			if c.all {
				x.eachSheet()
			}
		})
	}
}

// mainScreen goes through what the panel, the menu and a part's form show.
func (x *tab) mainScreen() {
	x.t.Helper()
	x.sound("at first", "#app")
	x.raise()
	tabs := eval[[]string](x, `[...document.querySelectorAll('#panel [role="tab"]')].filter((e) => e.checkVisibility()).map((e) => e.textContent)`)
	for _, name := range tabs {
		x.raise()
		x.tap(`#panel [role="tab"]`, name)
		x.settled()
		x.unfold()
		x.sound("the tab "+name, "#app")
	}
	x.tap(".menu-top")
	x.wait(shown("#menu-list"))
	x.sound("the menu", "#menu-list")
	x.tap(".menu-top")
	x.tap(".place-button, .grip-place")
	x.wait(shown(".side-place"))
	x.sound("the placing list", "#app")
	x.must(x.Reload())
	x.checked()
	x.raise()
	x.tapPart("exhaust")
	x.raise()
	x.unfold()
	x.sound("a part's form, unfolded", "#app")
	x.must(x.Reload())
	x.checked()
}

// eachSheet goes through the sheets as the menu lists them.
func (x *tab) eachSheet() {
	x.t.Helper()
	for _, entry := range x.menuSheets() {
		x.openSheet(entry)
		x.sound(entry, x.within())
		x.unfold()
		x.sound(entry+", unfolded", x.within())
		x.leaveSheet()
	}
}
