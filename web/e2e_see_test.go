//go:build e2e

package web_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// Every drawing, all four at once where the screen has room, the outline that a
// finger turns, and what is shown, on a tablet both ways round and on a phone.
func TestE2ESeeingItFromEverySide(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
		t.Run(fmt.Sprintf("%dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.startAnew()
			x.eventually("the canvas has its size", x.canvasFits)
			x.whole("the bar", "#bar")
			x.everyView(size != browser.Phone)
			x.turnsTheOutline()
			x.hidesTheExhaust()
		})
	}
}

func (x *tab) toView(label, word string) {
	x.t.Helper()
	x.tap(".bar-view button", label)
	x.eventually(word+" is shown", func() bool { return x.look().Showing == word })
	x.wait(`document.querySelector('.bar-view [data-value="` + word + `"]').getAttribute("aria-pressed") === "true"`)
}

func (x *tab) everyView(roomy bool) {
	file := x.file()
	for label, word := range map[string]string{"Side": "side", "Plan": "plan", "Front": "front", "Section": "section"} {
		x.toView(label, word)
		assert.NotEmpty(x.t, x.look().Parts, word)
	}
	four := eval[bool](x, `document.querySelector('.bar-view [data-value="four"]').checkVisibility()`)
	require.Equal(x.t, roomy, four, "four drawings where there is room")
	if !four {
		return
	}
	x.toView("Four", "four")
	l := x.look()
	require.Len(x.t, l.Panes, 4)
	for name, r := range l.Panes {
		assert.True(x.t, r[2] > 150 && r[3] > 150, "%s is %v", name, r)
		for other, q := range l.Panes {
			apart := r[0]+r[2] <= q[0] || q[0]+q[2] <= r[0] || r[1]+r[3] <= q[1] || q[1]+q[3] <= r[1]
			assert.True(x.t, name == other || apart, "%s lies on %s", name, other)
		}
	}
	// A finger works in the one it comes down on.
	for _, name := range []string{"side", "plan", "front", "section"} {
		r := l.Panes[name]
		x.must(x.Tap(x.onCanvas([2]float64{r[0] + r[2] - 12, r[1] + r[3] - 8})))
		x.eventually("the finger works in "+name, func() bool { return x.look().View == name })
	}
	// A part picked up in one is selected in all, and its form opens.
	x.pickUp("axle_rear")
	x.wait(shown(".side-form"))
	assert.Equal(x.t, file, x.file(), "looking changes nothing")
	x.leaveForm()
	x.toView("Section", "section")
}

func (x *tab) turnsTheOutline() {
	file := x.file()
	x.toView("Turn", "turn")
	before := x.turn()
	m := x.look().Main
	x.drag([2]float64{m[0] + m[2]/2, m[1] + m[3]/2}, 70, -30)
	x.eventually("it has turned", func() bool { return x.turn() != before })
	assert.Equal(x.t, file, x.file(), "a finger that turns moves no metal")
	assert.Empty(x.t, x.look().Selected)
	x.tap(".tool-show")
	x.wait(shown("#show"))
	x.whole("what is shown", "#show")
	was := x.turn()
	x.tap("#show button", "Above")
	x.eventually("it is seen from above", func() bool { return x.turn() != was })
}

// turn is how the outline is turned, degrees.
func (x *tab) turn() [2]float64 { return x.look().TurnDeg }

func (x *tab) hidesTheExhaust() {
	require.True(x.t, eval[bool](x, shown("#show")))
	findings := x.look().Findings
	x.toView("Side", "side")
	x.tap("#show label", "Exhaust")
	x.wait(`document.querySelector(".hidden-note").textContent.includes("still checked")`)
	assert.Equal(x.t, findings, x.look().Findings, "what is hidden still counts")
	x.eventually("it is not to be touched", func() bool { _, ok := x.look().Parts["exhaust"]; return !ok })
	// It is still hidden when the page comes back, and said.
	x.must(x.Reload())
	x.checked()
	x.wait(`document.querySelector(".hidden-note").textContent.includes("exhaust")`)
	x.toView("Side", "side")
	x.eventually("it is not drawn", func() bool { l := x.look(); _, ok := l.Parts["exhaust"]; return len(l.Parts) > 0 && !ok })
	x.tap(".tool-show")
	x.wait(shown("#show"))
	x.tap("#show button", "Show everything")
	x.wait(`document.querySelector(".hidden-note").hidden`)
	// In the sun.
	x.tap("#show button", "Sunlight")
	x.wait(`document.documentElement.dataset.theme === "sun"`)
	x.whole("in the sun", "#show")
	x.readableTexts(7)
	x.tap("#show button", "As the device")
	x.wait(`document.documentElement.dataset.theme !== "sun"`)
	x.tap("#show .aside-head button")
	x.wait(`!` + shown("#show"))
}

// readableTexts expects every text on the page to stand out from what is behind
// it by a contrast ratio (WCAG 2.2). A switched-off button is exempt there.
func (x *tab) readableTexts(least float64) {
	x.t.Helper()
	faults := eval[[]string](x, `(() => {
	  const parse = (s) => { const m = s.match(/[\d.]+/g).map(Number); return [m[0], m[1], m[2], m[3] ?? 1]; };
	  const lum = (c) => { const f = c.slice(0, 3).map((v) => { v /= 255; return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4; }); return 0.2126 * f[0] + 0.7152 * f[1] + 0.0722 * f[2]; };
	  const behind = (e) => { for (let p = e; p; p = p.parentElement) { const c = parse(getComputedStyle(p).backgroundColor); if (c[3] > 0.99) return c; } return [255, 255, 255, 1]; };
	  const out = [];
	  let seen = 0;
	  for (const e of document.querySelectorAll("#app *")) {
	    if (!e.checkVisibility({ visibilityProperty: true }) || e.closest('[aria-disabled="true"], [inert], .unseen, option')) continue;
	    if (![...e.childNodes].some((n) => n.nodeType === Node.TEXT_NODE && n.textContent.trim())) continue;
	    seen += 1;
	    const a = lum(parse(getComputedStyle(e).color)), b = lum(behind(e));
	    const r = (Math.max(a, b) + 0.05) / (Math.min(a, b) + 0.05);
	    if (r < `+fmt.Sprint(least)+`) out.push(r.toFixed(2) + " " + e.className + " " + e.textContent.slice(0, 40));
	  }
	  return seen > 15 ? out : ["hardly any text was looked at"];
	})()`)
	assert.Empty(x.t, faults)
}
