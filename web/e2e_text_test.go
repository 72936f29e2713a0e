//go:build e2e

package web_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/web/browser"
)

// Text of twice the usual size, as a reader sets it in the browser (WCAG 2.2,
// 1.4.4), and a browser zoom of twice: nothing is cut off or lies on other
// things, and everything is still large enough for a finger.
func TestE2ETextOfTwiceTheSize(t *testing.T) {
	x := open(t, browser.Landscape)
	x.press("Got it")
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
		t.Run(fmt.Sprintf("text %dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.eventually("the canvas has the new size", x.canvasFits)
			usual := x.look().Staff[2]
			x.must(x.TextSize(32))
			x.mainSheets()
			assert.Greater(t, x.look().Staff[2], usual*1.2, "the drawing's letters have grown, and the staff with them")
			x.must(x.TextSize(16))
			x.eventually("they are as before", func() bool { return x.look().Staff[2] == usual })
		})
	}
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait} {
		t.Run(fmt.Sprintf("zoom %dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Zoom(size))
			x.mainSheets()
		})
	}
}

// mainSheets goes through the sheets and looks at each, without axe: it finds
// the same at every size.
func (x *tab) mainSheets() {
	x.t.Helper()
	x.must(x.Reload())
	x.checked()
	x.eventually("the canvas has its size", x.canvasFits)
	x.whole("at first", "#app")
	x.raise()
	x.whole("findings, raised", "#app")
	x.toTheWay()
	x.whole("the way down", "#app")
	x.raise()
	x.tap(".tab", "Parts")
	x.wait(shown("#tab-parts"))
	x.whole("the list of parts", "#app")
	for _, entry := range x.menuSheets() {
		x.openSheet(entry)
		x.whole(entry, x.within())
		x.leaveSheet()
	}
	x.fileMenu("New vehicle")
	x.wait(`document.querySelector("dialog.start").open`)
	x.whole("the first question", "dialog.start")
	x.must(x.Type("\x1b"))
	x.wait(`!document.querySelector("dialog.start").open`)
	x.tap(".menu-top")
	x.wait(shown("#menu-list"))
	x.whole("the menu", "#menu-list")
	x.tap(".menu-top")
	x.raise()
	x.tapPart("exhaust")
	x.raise()
	x.whole("a part's form", "#app")
}
