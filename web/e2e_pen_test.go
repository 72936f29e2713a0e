//go:build e2e

package web_test

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// A pen and a mouse pick a part up and move it as a finger does, and each
// comes to the page as what it is.
func TestE2EPenAndMouseMoveAPart(t *testing.T) {
	for name, with := range map[string]browser.Pointer{"pen": browser.Pen, "mouse": browser.Mouse} {
		t.Run(name, func(t *testing.T) {
			x := open(t, browser.Landscape)
			eval[bool](x, `(window.came = new Set(), document.getElementById("pad").addEventListener("pointerdown", (e) => came.add(e.pointerType)), true)`)
			x.sectionTo(2000)
			at, ok := x.look().Parts["air_tank"]
			require.True(t, ok)
			p := x.onCanvas(at)
			x.must(x.Stroke(with, p, p, 0))
			x.eventually("the tank is picked up", func() bool { return x.look().Selected == "air_tank" })
			x.wait(shown(".side-form"))
			before := x.file()
			p = x.onCanvas(x.look().Parts["air_tank"])
			x.must(x.Stroke(with, p, browser.Point{X: p.X + 40, Y: p.Y}, 8))
			x.eventually("it is moved", func() bool { return x.file() != before })
			assert.True(t, eval[bool](x, `came.has(`+quote(name)+`)`))
			x.tap(".step-undo")
			x.eventually("and back", func() bool { return x.file() == before })
		})
	}
}

// focusSeen says what is wrong where the focus is: it can be seen, and is not
// hidden behind anything (WCAG 2.2, 2.4.7 and 2.4.11).
const focusSeen = `(() => {
  const e = document.activeElement;
  if (!e || e === document.documentElement || e.tagName === "BODY") return "";
  const r = e.getBoundingClientRect();
  const name = e.tagName + "." + e.className + " " + (e.getAttribute("aria-label") || e.textContent || "").trim().slice(0, 30);
  if (!e.checkVisibility({ visibilityProperty: true })) return "hidden: " + name;
  const x = Math.min(Math.max(r.left + r.width / 2, 0), innerWidth - 1), y = Math.min(Math.max(r.top + r.height / 2, 0), innerHeight - 1);
  if (r.bottom < 0 || r.top > innerHeight || r.right < 0 || r.left > innerWidth) return "off the screen: " + name;
  const top = document.elementFromPoint(x, y);
  if (top && !e.contains(top) && !top.contains(e)) return "covered: " + name;
  return "";
})()`

// tabTo presses Tab until what has the focus matches and has the words.
func (x *tab) tabTo(selector, words string) {
	x.t.Helper()
	for range 400 { // a list of every part of the vehicle may lie between
		x.must(x.Type("\t"))
		require.Empty(x.t, eval[string](x, focusSeen))
		if eval[bool](x, `document.activeElement?.matches(`+quote(selector)+`) && (document.activeElement.getAttribute("aria-label") || document.activeElement.textContent).includes(`+quote(words)+`)`) {
			return
		}
	}
	require.Fail(x.t, "Tab never comes to "+selector+" "+words)
}

// With the keyboard alone: an entry of the menu, the list of parts, a number in
// a form, undo; the focus is always seen and comes back from where it went.
func TestE2EWithTheKeyboardAlone(t *testing.T) {
	x := open(t, browser.Landscape)
	x.tabTo(".menu-top", "File")
	x.must(x.Type("\r"))
	x.wait(shown("#menu-list"))
	x.tabTo(".menu-item", "How it works")
	x.must(x.Type("\r"))
	x.wait(`!!document.querySelector("dialog[open]")`)
	for range 4 { // the sheet keeps the focus
		x.must(x.Type("\t"))
		assert.True(t, eval[bool](x, `document.activeElement.tagName === "BODY" || !!document.activeElement.closest("dialog")`))
	}
	x.must(x.Type("\x1b"))
	x.wait(`!document.querySelector("dialog[open]") && document.activeElement === document.querySelector(".menu-top")`)

	x.tabTo("#pad", "Drawing area") // and Tab leaves it again
	x.tabTo(`[role="tab"]`, "Findings")
	for range 5 { // the tabs between the two
		x.must(x.Type("\u0303")) // the arrow to the right, as the driver spells it
		if eval[bool](x, shown("#tab-parts")) {
			break
		}
	}
	x.wait(shown("#tab-parts"))
	first := eval[string](x, `document.querySelector("#tab-parts li .list-title").textContent`)
	x.tabTo("#tab-parts .list-row", first)
	x.oneStop()
	x.must(x.Type("\r"))
	x.wait(shown(".side-form"))
	before := x.file()
	x.tabTo(".side-form .field-number input", "")
	value := eval[string](x, `document.activeElement.value`)
	x.must(x.Type("77"))
	x.must(x.Type("\r"))
	x.eventually("the number is taken", func() bool { return x.file() != before })
	assert.NotEqual(t, value, eval[string](x, `document.activeElement.value`))
	x.must(x.Type("\x1b"))
	x.wait(`!` + shown(".side-form"))
	x.tabTo(".step-undo", "Undo")
	x.must(x.Type("\r"))
	x.eventually("and taken back", func() bool { return x.file() == before })
}

// oneStop goes through the list of parts from its first row: arrows, the ends,
// a letter; Tab leaves all of it and comes back to the row that was left.
func (x *tab) oneStop() {
	x.t.Helper()
	rows := eval[[]string](x, `[...document.querySelectorAll("#tab-parts li .list-title")].map((e) => e.textContent)`)
	require.Greater(x.t, len(rows), 12)
	at := func() string {
		return eval[string](x, `document.activeElement.closest("#tab-parts li")?.querySelector(".list-title").textContent ?? ""`)
	}
	for _, step := range []struct{ key, row string }{
		{kb.ArrowDown, rows[1]}, {kb.ArrowDown, rows[2]}, {kb.ArrowUp, rows[1]}, {kb.End, rows[len(rows)-1]},
		{kb.ArrowDown, rows[len(rows)-1]}, {kb.Home, rows[0]}, {kb.ArrowUp, rows[0]},
	} {
		x.must(x.Type(step.key))
		assert.Equal(x.t, step.row, at())
		assert.Empty(x.t, eval[string](x, focusSeen))
	}
	letter := strings.ToLower(rows[len(rows)-1][:1])
	x.must(x.Type(letter))
	found := at()
	assert.Equal(x.t, letter, strings.ToLower(found[:1]))
	x.must(x.Type("\t"))
	assert.Empty(x.t, at(), "one stop for all rows")
	assert.Equal(x.t, 1, eval[int](x, `document.querySelectorAll('#tab-parts li .list-row[tabindex="0"]').length`))
	assert.Equal(x.t, found, eval[string](x, `document.querySelector('#tab-parts li .list-row[tabindex="0"] .list-title').textContent`))
	assert.Equal(x.t, "ul", eval[string](x, `document.querySelector("#tab-parts li").parentElement.localName`))
	eval[bool](x, `(document.querySelector('#tab-parts li .list-row[tabindex="0"]').focus(), true)`)
	x.must(x.Type(kb.Home))
	assert.Equal(x.t, rows[0], at())
}
