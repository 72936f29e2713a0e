//go:build e2e

package web_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/web/browser"
)

// Named heights under a finger, on three screens: one is named where the body
// stands, typed otherwise, gone to and removed.
func TestE2EHeights(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
		t.Run(fmt.Sprintf("%dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.startAnew()
			x.eventually("the canvas has its size", x.canvasFits)
			x.raise()
			x.tap(".change-heights")
			x.wait(shown(".side-form"))
			x.raise()
			x.whole("the heights", "#app")
			x.namesAHeight()
			x.goesToItAndRemovesIt()
		})
	}
}

func (x *tab) namesAHeight() {
	x.tap(".field-action button", "Add: as it stands now")
	x.wait(`document.activeElement?.value === "Height 4"`)
	x.must(x.Type("Loading\r"))
	x.eventually("it is named", func() bool { h := x.document().Heights; return len(h) == 4 && h[3].Name == "Loading" })
	x.wait(`[...document.querySelectorAll(".group-name")].some((e) => e.textContent === "Loading")`)
	assert.Equal(x.t, "Loading", eval[string](x, `document.activeElement.value`), "the heading changed under the field, the focus stayed")
	x.whole("a height of one's own", "#app")
	id := eval[string](x, `[...document.querySelectorAll(".side-form .form-group")].find((g) => g.querySelector(".group-name").textContent === "Loading").querySelector(".field-number input").id`)
	x.types("#"+id, "-50\r")
	x.eventually("its front is typed", func() bool { return x.document().Heights[3].FrontMM == -50 })
}

func (x *tab) goesToItAndRemovesIt() {
	x.leaveForm()
	x.raise()
	x.checked() // till then the lines above the buttons come and go
	x.tap(".height-row .choice button", "Loading")
	x.eventually("the body stands there", func() bool { return x.look().FrontMM == -50 })
	x.whole("four heights", "#app")
	x.fileMenu("Heights")
	x.wait(shown(".side-form"))
	x.raise()
	x.tap(".field-action button", "Remove Loading")
	x.eventually("it is gone", func() bool { return len(x.document().Heights) == 3 })
	x.wait(`![...document.querySelectorAll(".side-form .group-name")].some((e) => e.textContent === "Loading")`)
	x.leaveForm()
}
