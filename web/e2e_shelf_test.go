//go:build e2e

package web_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// The shelf under a finger, on three screens: a standard battery is put there,
// priced, placed with one tap, deleted back; the money stands against the
// budget in words, and what is to be ordered is listed.
func TestE2EShelf(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
		t.Run(fmt.Sprintf("%dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.startAnew()
			x.eventually("the canvas has its size", x.canvasFits)
			x.shelvesABattery()
			x.readsTheMoney()
			x.placesAndReturnsIt()
		})
	}
}

func (x *tab) openShelf() {
	x.t.Helper()
	x.fileMenu("Shelf")
	x.wait(shown(".shelf-card .total"))
}

// picks chooses in a list of the device, which is beyond a test's finger.
func (x *tab) picks(selector, label string) {
	x.t.Helper()
	require.True(x.t, eval[bool](x, `(() => {
	  const s = document.querySelector(`+quote(selector)+`);
	  const o = [...(s?.options ?? [])].find((o) => o.textContent === `+quote(label)+`);
	  if (!o || !s.checkVisibility()) return false;
	  s.value = o.value;
	  s.dispatchEvent(new Event("change", { bubbles: true }));
	  return true;
	})()`), "%s offers no %s", selector, label)
}

func (x *tab) shelvesABattery() {
	x.openShelf()
	x.whole("the shelf, empty", ".shelf-card")
	x.enter("Currency", "EUR") // the van has its own
	x.enter("Currency", "USD")
	x.enter("Budget", "8000")
	x.eventually("the file has the money", func() bool { d := x.document(); return d.Currency == "USD" && d.Budget != nil && *d.Budget == 8000 })
	x.picks(".shelf-add select", "Battery, group 27")
	x.tap(".shelf-add .primary")
	x.wait(shown(".side-form"))
	x.eventually("its form is open", func() bool { return x.text(".side-form .form-title") == "Battery, group 27" })
	x.raise()
	x.whole("the form of a part on the shelf", "#app")
	x.enter("Price", "240")
	x.enter("Mass", "21 kg")
	x.eventually("the file has its price and mass", func() bool {
		d := x.document()
		return len(d.Shelf) == 1 && d.Shelf[0].Price != nil && *d.Shelf[0].Price == 240 && d.Shelf[0].MassKG != nil && *d.Shelf[0].MassKG == 21
	})
	x.leaveForm()
}

func (x *tab) readsTheMoney() {
	x.openShelf()
	x.picks(`.shelf-item select`, "To order")
	x.wait(shown(".order"))
	x.tap(".order summary")
	x.wait(shown(".order-list li"))
	// To be ordered in the van: 420 + 92 + 64 + 210 + 175 = 961.
	lines := eval[[]string](x, `[...document.querySelectorAll(".order-list li")].map((e) => e.textContent)`)
	assert.Contains(x.t, lines, "Battery, group 27 (battery): 240 USD")
	assert.Equal(x.t, "Together: 1201 USD", lines[len(lines)-1])
	assert.Len(x.t, lines, 5+2)
	x.picks(`.shelf-item select`, "Ordered") // 8087 + 240
	x.wait(`[...document.querySelectorAll(".total dd")].some((e) => e.textContent.includes("327 USD over the budget of 8000 USD"))`)
	x.tap(".placed-parts summary")
	x.wait(shown(".placed-parts .shelf-item"))
	x.whole("the shelf with all it lists", ".shelf-card")
	x.closeCard()
}

func (x *tab) placesAndReturnsIt() {
	id := x.document().Shelf[0].ID
	x.openShelf()
	x.tap(".shelf-place")
	x.eventually("it is placed and picked up", func() bool { return x.look().Selected == id })
	assert.Equal(x.t, 240.0, *x.seen(id).Price)
	x.raise()
	x.wait(shown(".side-form"))
	x.tap(".actions .warn")
	x.eventually("it is gone", func() bool { return x.look().Selected == "" })
	x.openShelf()
	x.wait(shown(".shelf-place"))
	assert.Contains(x.t, x.text(".shelf-item .list-about"), "240 USD")
	x.closeCard()
}
