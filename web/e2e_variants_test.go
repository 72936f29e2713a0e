//go:build e2e

package web_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/web/browser"
)

// Variants under a finger, on a tablet both ways round and on a phone: made,
// changed, compared, shown, taken over, undone, and there again after a reload.
func TestE2EVariants(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
		t.Run(fmt.Sprintf("%dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.startAnew()
			x.eventually("the canvas has its size", x.canvasFits)
			drawn := x.at("battery")
			x.makesAVariant("Rear bay")
			x.movesTheBattery("2400")
			x.keepsTheDrawnOne(drawn)
			x.comparesThem()
			x.showsEither(drawn)
			x.takesOverAndBack(drawn)
			x.must(x.Reload())
			x.checked()
			x.wait(shown("#variant-chip"))
			assert.Equal(t, "Variant: Rear bay", x.text("#variant-chip"))
			assert.Equal(t, 2400.0, x.seen("battery").AtMM[0])
		})
	}
}

// whole is the document as it would be saved.
func (x *tab) document() *scene.Document {
	x.t.Helper()
	doc, err := scene.Decode([]byte(x.file()))
	require.NoError(x.t, err)
	return doc
}

// seen is a part as the variant that is shown has it.
func (x *tab) seen(id string) scene.Part {
	x.t.Helper()
	doc := x.document()
	now, err := scene.Resolve(doc, doc.Shown)
	require.NoError(x.t, err)
	for _, p := range now.Parts {
		if p.ID == id {
			return p
		}
	}
	require.Fail(x.t, "there is no part "+id)
	return scene.Part{}
}

func (x *tab) closeCard() {
	x.t.Helper()
	x.tap(".card-close")
	x.wait(`!document.querySelector("dialog.card")`)
}

// types puts text into a field that a finger has gone to.
func (x *tab) types(selector, text string) {
	x.t.Helper()
	x.tap(selector)
	x.wait(`document.activeElement === document.querySelector(` + quote(selector) + `)`)
	x.must(x.Type(text))
}

func (x *tab) makesAVariant(name string) {
	x.fileMenu("Variants")
	x.wait(shown(".variants-card .new-variant"))
	x.whole("no variants yet", ".variants-card")
	x.tap(".new-variant .primary")
	x.wait(shown(".card-say.is-error"))
	assert.Contains(x.t, x.text(".card-say"), "needs a name")
	x.types(".new-variant .input", name)
	x.tap(".new-variant .primary")
	x.wait(`document.querySelectorAll(".variant").length === 2`)
	assert.Contains(x.t, x.text(`.variant[data-key="rear-bay"] .variant-show`), "Shown")
	x.closeCard()
	x.wait(shown("#variant-chip"))
}

func (x *tab) movesTheBattery(mm string) {
	x.raise()
	x.tapPart("battery")
	x.enter("Station", mm)
	x.eventually("the battery stands there in the variant", func() bool { return x.seen("battery").AtMM[0] == 2400 })
	x.raise()
	x.leaveForm()
}

func (x *tab) keepsTheDrawnOne(drawn scene.Vec) {
	doc := x.document()
	require.Len(x.t, doc.Variants, 1)
	assert.Equal(x.t, "rear-bay", doc.Shown)
	together := doc.Together([]string{"battery"})
	for _, p := range doc.Variants[0].Parts {
		assert.Contains(x.t, together, p.ID, "nothing but the battery and what goes with it differs")
	}
	assert.NotEmpty(x.t, doc.Variants[0].Parts)
	for _, p := range doc.Parts {
		if p.ID == "battery" {
			assert.Equal(x.t, drawn, p.AtMM, "as drawn it stands where it stood")
		}
	}
}

// comparesThem expects the sheet to read what the same call of the engine
// answers here.
func (x *tab) comparesThem() {
	c, err := fitment.Compare(x.document(), nil)
	require.NoError(x.t, err)
	want := c.Finish().Table()
	x.fileMenu("Variants")
	x.wait(`!!document.querySelector(".compare") && document.querySelector(".compare-progress").hidden`)
	x.whole("compared", ".variants-card")
	rows := eval[[][]string](x, `[...document.querySelectorAll(".compare tbody tr")].map((r) => [r.querySelector("th").textContent, ...[...r.querySelectorAll("td .cell-text")].map((c) => c.textContent)])`)
	require.Len(x.t, rows, len(want.Rows))
	for i, r := range want.Rows {
		line := append([]string{r.Label}, r.Cells...)
		for k := range line {
			line[k] = strings.ReplaceAll(line[k], "-", "−")
			rows[i][k] = strings.ReplaceAll(rows[i][k], "-", "−")
		}
		assert.Equal(x.t, line, rows[i])
	}
	assert.Contains(x.t, x.text(".differs"), "Battery: ")
	// Every mark stands beside words or a figure, never for itself.
	assert.True(x.t, eval[bool](x, `[...document.querySelectorAll(".cell-text")].every((e) => e.textContent.trim())`))
}

func (x *tab) showsEither(drawn scene.Vec) {
	x.tap(`.variant[data-key="*"] .variant-show`)
	x.wait(`document.querySelector('.variant[data-key="*"] .variant-show').textContent === "Shown"`)
	x.closeCard()
	x.wait(`!` + shown("#variant-chip"))
	assert.Equal(x.t, drawn, x.seen("battery").AtMM)
	x.raise()
	x.choosesShown("rear-bay")
	x.wait(`document.querySelector(".count-line").textContent.includes("looked at")`)
	assert.Equal(x.t, 2400.0, x.seen("battery").AtMM[0])
	x.whole("a variant is shown", ".shown-variant")
}

// choosesShown picks in the choice above the findings; the list of the
// device itself is beyond a test's finger.
func (x *tab) choosesShown(id string) {
	x.t.Helper()
	require.True(x.t, eval[bool](x, shown(".shown-choice")))
	eval[string](x, `(() => { const s = document.querySelector(".shown-choice"); s.value = `+quote(id)+`; s.dispatchEvent(new Event("change", { bubbles: true })); return ""; })()`)
	x.eventually("it is shown", func() bool { return x.document().Shown == id })
}

func (x *tab) takesOverAndBack(drawn scene.Vec) {
	x.fileMenu("Variants")
	x.wait(shown(".variant-more"))
	x.tap(`.variant[data-key="rear-bay"] summary`)
	x.wait(shown(".variant-more .row button"))
	x.whole("a variant's own lines", ".variants-card")
	x.tap(`.variant[data-key="rear-bay"] button`, "Make this the one drawn")
	x.wait(`!!document.querySelector('.variant[data-key="as-drawn-before"]')`)
	x.closeCard()
	assert.Equal(x.t, 2400.0, x.at("battery")[0])
	x.tap(".step-undo")
	x.eventually("it is a variant again", func() bool { return x.document().Shown == "rear-bay" })
	assert.Equal(x.t, drawn, x.at("battery"))
	assert.Equal(x.t, 2400.0, x.seen("battery").AtMM[0])
}
