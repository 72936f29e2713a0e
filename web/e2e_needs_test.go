//go:build e2e

package web_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/scene"
	"scrubline/web/browser"
)

// Needs under a finger, on three screens: a finding's is lowered and taken back
// with its caution beside it, and the sheet of all kinds is read and changed.
func TestE2ENeeds(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
		t.Run(fmt.Sprintf("%dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.startAnew()
			x.eventually("the canvas has its size", x.canvasFits)
			x.lowersAFindingsNeed()
			x.readsTheNeeds()
			x.changesAKindsNeed()
		})
	}
}

var shaftAndTank = scene.Need{Parts: [2]string{"driveshaft", "air_tank"}}

// need is the document's own figure for a pair, −1 for none.
func (x *tab) need(of scene.Need) float64 {
	if n := x.document().NeedFor(of); n != nil {
		return n.NeedMM
	}
	return -1
}

func (x *tab) lowersAFindingsNeed() {
	const key = "driveshaft|air_tank|"
	x.raise()
	x.tap(".finding-top", "air tank")
	x.wait(shown(".finding-need"))
	x.tap(".finding-need")
	x.wait(shown(".side-form"))
	x.raise()
	x.whole("a pair's need", "#app")
	x.enter("Needs", "5")
	x.wait(shown(".form-warn"))
	assert.Contains(x.t, x.text(".form-warn"), "Less than the 25 of the table.")
	x.sound("a lowered need", "#app")
	assert.Equal(x.t, 5.0, x.need(shaftAndTank))
	x.enter("Why", "tried")
	x.leaveForm()
	x.raise()
	x.eventually("it no longer falls short", func() bool { _, there := x.rows()[key]; return !there })
}

// readsTheNeeds opens the sheet: the pair that was changed stands in it, and is
// taken back there.
func (x *tab) readsTheNeeds() {
	x.fileMenu("Needs")
	x.wait(shown(".need-rows .need-row"))
	x.whole("the needs", ".needs-card")
	x.tap(".needs-card .fold summary")
	x.wait(shown(".need-pair"))
	x.whole("the needs, with the pairs", ".needs-card")
	pair := `.need-pair[data-key="need:driveshaft|air_tank"]`
	assert.Contains(x.t, x.text(pair), "Your figure: 5; the table asks 25")
	assert.Contains(x.t, x.text(pair), "Why: tried")
	x.tap(pair + " .warn")
	x.wait(`!document.querySelector(` + quote(pair) + `)`)
	assert.Equal(x.t, -1.0, x.need(shaftAndTank))
}

func (x *tab) changesAKindsNeed() {
	kinds := scene.Need{Traits: [2]scene.Trait{scene.Exhaust, scene.Fuel}}
	x.types(`.need-rows .need-row[data-key="kinds:exhaust|fuel"] .input`, "20\r")
	x.wait(shown(".needs-card .caution-text"))
	assert.Equal(x.t, 20.0, x.need(kinds))
	assert.Contains(x.t, x.text(".need-row.is-set .caution-text"), "a regulation’s (Quebec C-24.2 r.32 s.92)")
	x.picks(".need-kind select", "Fuel")
	x.wait(`!document.querySelector('.need-rows [data-key="kinds:exhaust|frame"]')`)
	x.sound("a changed need", ".needs-card")
	x.tap(".need-own button", "Back to 50")
	x.wait(`!document.querySelector(".need-row.is-set")`)
	assert.Equal(x.t, -1.0, x.need(kinds))
	x.picks(".need-kind select", "Exhaust")
	x.closeCard()
}
