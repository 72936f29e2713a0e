//go:build e2e

package web_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/web/browser"
)

// Everything the page can show, on a tablet both ways round and on a phone,
// light and dark: whole, apart, large enough for a finger.
func TestE2ENothingIsCutOffOrTooSmall(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, theme := range []string{"light", "dark"} {
		x.must(x.Prefers(theme))
		x.wait(`document.documentElement.dataset.theme === ` + quote(theme))
		for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
			t.Run(fmt.Sprintf("%s %dx%d", theme, size.W, size.H), func(t *testing.T) {
				x := x.in(t)
				x.must(x.Resize(size))
				x.eventually("the canvas has the new size", x.canvasFits)
				x.must(x.Reload()) // as one who holds it so from the start
				x.checked()
				x.eventually("the canvas has its size", x.canvasFits)
				x.everySide()
			})
		}
	}
}

// canvasFits says whether the drawings were laid out for the cell they are in.
func (x *tab) canvasFits() bool {
	x.t.Helper()
	host := eval[[]float64](x, `(() => { const r = document.getElementById("host").getBoundingClientRect(); return [r.width, r.height]; })()`)
	l := x.look()
	return near(max(l.Strip[0]+l.Strip[2], l.Small[0]+l.Small[2]), host[0], 1) && near(l.Strip[1]+l.Strip[3], host[1], 1)
}

func near(a, b, by float64) bool { return a-b <= by && b-a <= by }

// whole expects the audit to find nothing.
func (x *tab) whole(what, within string) {
	x.t.Helper()
	assert.Empty(x.t, eval[[]string](x, audit+`(`+quote(within)+`)`), what)
}

// everySide goes through what the page can show and looks at each.
func (x *tab) everySide() {
	x.canvasHasItsDrawings()
	x.whole("findings", "#app")
	x.raise()
	x.whole("findings, raised", "#app")
	x.tap(".finding-top")
	x.wait(shown(".finding-more"))
	x.raise()
	x.whole("an open finding", "#app")
	x.tap(".finding-top")
	x.tap(".apart")
	x.wait(`document.querySelector(".apart").getAttribute("aria-pressed") === "true"`)
	x.whole("front and rear apart", "#app")
	x.tap(".apart")
	x.tap(".tab", "Parts")
	x.wait(shown("#tab-parts"))
	x.whole("the list of parts", "#app")
	x.tap(`#tab-parts li[data-key="exhaust"] .list-row`)
	x.wait(shown(".side-form"))
	x.raise()
	x.whole("the form of a part with a table", "#app")
	x.leaveForm()
	x.raise()
	x.tap(".tab", "Findings")
	for _, form := range []string{"Vehicle:", "Scene:"} {
		x.fileMenu(form)
		x.wait(shown(".side-form"))
		x.raise()
		x.whole(form+" form", "#app")
		x.leaveForm()
	}
	x.tap(".menu-top")
	x.wait(shown("#menu-list"))
	x.whole("the menu", "#menu-list")
	x.tap(".menu-top")
	x.tap(".place-button, .grip-place")
	x.wait(shown(".side-place"))
	x.whole("the placing list", "#app")
	x.tap(".side-place .back")
	x.wait(`!` + shown(".side-place"))
	x.whole("after it", "#app")
}

func (x *tab) leaveForm() {
	x.t.Helper()
	x.tap(".side-form .back")
	x.wait(`!` + shown(".side-form"))
}

// raise brings a phone's sheet up where it is low.
func (x *tab) raise() {
	x.t.Helper()
	if eval[bool](x, `document.getElementById("panel").dataset.sheet === "low" && `+shown("#grip")) {
		x.tap("#grip")
		x.wait(`document.getElementById("panel").dataset.sheet !== "low"`)
	}
}

func (x *tab) canvasHasItsDrawings() {
	x.t.Helper()
	l := x.look()
	host := eval[[]float64](x, `(() => { const r = document.getElementById("host").getBoundingClientRect(); return [r.width, r.height]; })()`)
	for name, r := range map[string][4]float64{"main view": l.Main, "staff": l.Staff, "strip": l.Strip} {
		assert.GreaterOrEqual(x.t, r[0], 0.0, name)
		assert.GreaterOrEqual(x.t, r[1], 0.0, name)
		assert.LessOrEqual(x.t, r[0]+r[2], host[0]+0.5, name)
		assert.LessOrEqual(x.t, r[1]+r[3], host[1]+0.5, name)
		assert.Greater(x.t, r[2], 90.0, name)
		assert.Greater(x.t, r[3], 90.0, name)
	}
	assert.Greater(x.t, l.Main[2]*l.Main[3], 0.25*host[0]*host[1], "the main view is the main thing")
	for name, p := range map[string][2]float64{"saddle": l.Saddle, "flag": l.Flag} {
		assert.True(x.t, p[0] >= 0 && p[0] <= host[0] && p[1] >= 0 && p[1] <= host[1], "%s at %v", name, p)
	}
}

// The audit itself has to see a fault when there is one of each kind.
func TestE2ETheAuditSeesFaults(t *testing.T) {
	x := open(t, browser.Landscape)
	x.whole("nothing to begin with", "#app")
	for _, fault := range []struct{ name, spoil, says string }{
		{"small", `document.querySelector(".menu-top").style.cssText = "min-height: 0; height: 30px; padding: 0"`, "smaller than 44"},
		{"overlapping", `document.querySelector(".step-redo").style.marginLeft = "-40px"`, "on each other"},
		{"covered", `document.getElementById("toast").style.cssText = "visibility: visible; pointer-events: auto; position: fixed; top: 0; right: 0; width: 300px; height: 60px"`, "covered"},
		{"cut", `document.querySelector(".headline").style.cssText = "white-space: nowrap; overflow: hidden; width: 90px"`, "cut off at the side"},
		{"squeezed", `document.querySelector(".count").style.cssText = "height: 20px; overflow: hidden"`, "cut off above or below"},
		{"text on text", `document.querySelector(".finding-figures").style.marginTop = "-16px"`, "text on text"},
		{"broken", `document.querySelector(".tab").style.cssText = "width: 44px; overflow-wrap: anywhere"`, "broken in its middle"},
		{"sideways", `document.querySelector(".findings").style.width = "600px"`, "scrolls sideways"},
		{"beside", `document.querySelector(".headline").style.marginLeft = "400px"`, "beside the screen"},
	} {
		t.Run(fault.name, func(t *testing.T) {
			x := x.in(t)
			eval[string](x, `void (`+fault.spoil+`), ""`)
			said := eval[[]string](x, audit+`("#app")`)
			assert.Condition(t, func() bool {
				for _, s := range said {
					if strings.HasPrefix(s, fault.says) {
						return true
					}
				}
				return false
			}, "%s is not in %q", fault.says, said)
			eval[string](x, `[...document.querySelectorAll("#app [style]:not(#host, canvas)")].forEach((e) => e.removeAttribute("style")), ""`)
			x.whole("mended again", "#app")
		})
	}
}
