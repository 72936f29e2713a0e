//go:build e2e

package web_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// What the panel does for a finger, each from the demo vehicle as it comes.
func TestE2EThePanelUnderAFinger(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, thing := range []struct {
		name string
		does func(*tab)
	}{
		{"a form opens at its top", opensAtTheTop},
		{"a number is typed in the place of the old one", typesOverTheOld},
		{"the sign key lies on no label", turnsTheSign},
		{"a joined pair is separated", separatesAPair},
		{"a neighbour's place is shown at the same height", showsANeighbour},
		{"a movement goes by its slider and back to rest", slidesAndRests},
		{"a suspension's points stand in the vehicle's form", showsSuspensions},
		{"a chip leads back to where the body stood", goesBackByTheChip},
		{"a phone and back shows the section as before", turnsAndTurnsBack},
		{"a phone's list covers the drawing and leaves it as it was", placesUnderTheSheet},
	} {
		t.Run(thing.name, func(t *testing.T) {
			x := x.in(t)
			x.startAnew()
			thing.does(x)
		})
	}
}

const formScroll = `document.querySelector(".form .scroll")`

func opensAtTheTop(x *tab) {
	x.tapPart("air_tank")
	for _, id := range []string{"exhaust", "air_tank"} {
		eval[string](x, formScroll+`.scrollTop = 9999, ""`)
		require.Greater(x.t, eval[float64](x, formScroll+`.scrollTop`), 100.0)
		x.tap(".side-form .back")
		x.wait(`!` + shown(".side-form"))
		x.tapPart(id)
		assert.Zero(x.t, eval[float64](x, formScroll+`.scrollTop`))
	}
}

func typesOverTheOld(x *tab) {
	x.tapPart("air_tank")
	was := x.at("air_tank")
	x.tap(x.field("Station"))
	x.wait(`document.activeElement === document.querySelector(` + quote(x.field("Station")) + `)`)
	x.must(x.Type("2222\r"))
	x.eventually("the tank stands there", func() bool { return x.at("air_tank") != was })
	assert.InDelta(x.t, 2222, x.at("air_tank")[0], 1e-9)
}

// lies is a script that says which labels a visible sign key lies on.
const lies = `(() => {
  const r = [...document.querySelectorAll(".sign")].find((e) => e.checkVisibility())?.getBoundingClientRect();
  if (!r) return ["no sign key"];
  return [...document.querySelectorAll(".side-form label, .side-form .group-name, .side-form .row-number, .side-form .input")].filter((e) => {
    const q = e.getBoundingClientRect();
    return e.checkVisibility() && q.left < r.right - 1 && r.left < q.right - 1 && q.top < r.bottom - 1 && r.top < q.bottom - 1;
  }).map((e) => e.textContent || e.value);
})()`

func turnsTheSign(x *tab) {
	x.tapPart("exhaust")
	for _, field := range []string{x.field("Right of centre"), ".cell input"} {
		x.tap(field)
		x.wait(`document.activeElement === document.querySelector(` + quote(field) + `)`)
		assert.Empty(x.t, eval[[]string](x, lies), field)
	}
	x.tap(x.field("Right of centre"))
	was := x.at("exhaust")[1]
	require.NotZero(x.t, was)
	x.tap(".sign")
	x.must(x.Type("\r"))
	x.eventually("it is on the other side", func() bool { return x.at("exhaust")[1] == -was })
}

func separatesAPair(x *tab) {
	x.tap(".tab", "Findings")
	x.tap("#tab-findings .joined summary")
	x.wait(shown("#tab-findings .pair"))
	n := eval[int](x, `document.querySelectorAll("#tab-findings .pair").length`)
	x.tap("#tab-findings .separate")
	x.eventually("there is one less", func() bool {
		return eval[int](x, `document.querySelectorAll("#tab-findings .pair").length`) == n-1
	})
	x.tap(".step-undo")
	x.eventually("and it is back", func() bool {
		return eval[int](x, `document.querySelectorAll("#tab-findings .pair").length`) == n
	})
}

func showsANeighbour(x *tab) {
	x.tap(".heights button", "Aired up")
	x.eventually("the body is up", func() bool { return x.look().RearMM > 0 })
	x.tapPart("exhaust")
	before, file := x.look(), x.file()
	x.tap(".near-list li:last-child .list-row")
	x.eventually("the section is elsewhere", func() bool { return x.look().StationMM != before.StationMM })
	l := x.look()
	assert.Equal(x.t, [2]float64{before.FrontMM, before.RearMM}, [2]float64{l.FrontMM, l.RearMM})
	assert.Equal(x.t, "exhaust", l.Selected)
	assert.Equal(x.t, file, x.file())
}

func slidesAndRests(x *tab) {
	file := x.file()
	x.tap(".movements summary")
	x.wait(shown(".movement input"))
	assert.Equal(x.t, len(x.movements()), eval[int](x, `document.querySelectorAll(".movement input").length`))
	assert.GreaterOrEqual(x.t, eval[float64](x, `Math.min(...[...document.querySelectorAll(".movement input, .movements button")].map((e) => e.getBoundingClientRect().height))`), 44.0)
	x.whole("with the sliders", "#app")
	const last = ".movement:last-child input"
	eval[string](x, `document.querySelector(`+quote(last)+`).focus(), ""`)
	x.must(x.Type(kb.End))
	x.wait(`document.querySelector(".movement:last-child output").textContent !== "at rest"`)
	assert.Equal(x.t, eval[string](x, `document.querySelector(`+quote(last)+`).max`), eval[string](x, `document.querySelector(`+quote(last)+`).value`))
	assert.Contains(x.t, x.text(".movements summary"), "1 not at rest")
	x.tap(".movements button", "Back to rest")
	x.wait(`document.querySelector(".movement:last-child output").textContent === "at rest"`)
	assert.Equal(x.t, file, x.file(), "where a movement stands is no edit")
}

// movements are those of the document.
func (x *tab) movements() []any {
	var doc struct{ Movements []any }
	require.NoError(x.t, json.Unmarshal([]byte(x.file()), &doc))
	return doc.Movements
}

func showsSuspensions(x *tab) {
	x.tap(".tab", "Parts")
	x.tap(".own-rows .list-row", "Vehicle")
	x.wait(shown(".side-form"))
	x.tap(".form-group.fold summary", "Rear suspension: its points")
	x.wait(shown(".table-row"))
	assert.Equal(x.t, "Lower left link", x.text(".form-group.fold[open] .row-number"))
	assert.False(x.t, eval[bool](x, shown(".form-group.fold[open] .row-head .icon")), "its kind says how many there are")
	x.tap(".side-form .back")
	x.wait(`!` + shown(".side-form"))
	x.tap(".tab", "Findings")
}

func goesBackByTheChip(x *tab) {
	assert.False(x.t, eval[bool](x, shown("#back-chip")))
	x.tap(".heights button", "Aired up")
	x.eventually("the body is up", func() bool { return x.look().RearMM > 0 })
	up := x.look()
	x.tap(`.finding[data-key="driveshaft|air_tank|"] .finding-top`)
	x.eventually("the body is down", func() bool { return x.look().RearMM < 0 })
	x.wait(shown("#back-chip"))
	assert.Equal(x.t, "Back to aired up", x.text("#back-chip"))
	x.whole("with the chip", "#app")
	x.tap("#back-chip")
	x.eventually("it is up again", func() bool { l := x.look(); return l.RearMM == up.RearMM && l.FrontMM == up.FrontMM })
	x.wait(`!` + shown("#back-chip"))
}

func turnsAndTurnsBack(x *tab) {
	before := x.look()
	for _, size := range []browser.Size{browser.Phone, browser.Portrait, browser.Landscape} {
		x.must(x.Resize(size))
		x.eventually("the canvas has the new size", x.canvasFits)
	}
	x.eventually("it is as large as before", func() bool { return math.Abs(x.look().PxPerMM-before.PxPerMM) < 1e-6 })
}

// placesUnderTheSheet takes a part from the list, which on a phone leaves a rim of
// the drawing: the part stands in the drawing afterwards, at the same scale. The
// first hint makes room while the sheet is up.
func placesUnderTheSheet(x *tab) {
	x.must(x.Resize(browser.Phone))
	defer func() { x.must(x.Resize(browser.Landscape)) }()
	x.eventually("the canvas has the new size", x.canvasFits)
	require.True(x.t, eval[bool](x, shown(".notice.is-hint")))
	before, parts := x.look(), x.parts()
	x.tap(".grip-place")
	x.wait(shown(".side-place"))
	assert.False(x.t, eval[bool](x, shown(".notice.is-hint")), "it makes room for the sheet")
	x.tap(`.list-row[data-kind="battery"]`)
	x.eventually("a battery is placed", func() bool { return x.look().Selected != "" })
	x.lowered()
	x.eventually("the drawing has its room again", x.canvasFits)
	assert.True(x.t, eval[bool](x, shown(".notice.is-hint")))
	l := x.look()
	assert.InEpsilon(x.t, before.PxPerMM, l.PxPerMM, 0.01)
	require.NotContains(x.t, parts, l.Selected)
	spot, ok := l.Parts[l.Selected]
	require.True(x.t, ok, "it is to be seen")
	assert.True(x.t, spot[0] > l.Main[0] && spot[0] < l.Main[0]+l.Main[2] && spot[1] > l.Main[1] && spot[1] < l.Main[1]+l.Main[3], "at %v of %v", spot, l.Main)
	assert.Less(x.t, x.at(l.Selected)[2], 1200.0, "in the vehicle, not over its roof")
}

// With the two ends apart and the movements unfolded the panel of a tablet held
// across is at its fullest: the way to place a part is still whole.
func TestE2EPlaceAPartStaysInSight(t *testing.T) {
	x := open(t, browser.Landscape)
	x.tap(".apart")
	x.wait(`document.querySelector(".apart").getAttribute("aria-pressed") === "true"`)
	x.tap(".movements > summary")
	x.wait(shown(".movement-list"))
	below := `(() => {
		const panel = document.getElementById("panel").getBoundingClientRect();
		return document.querySelector(".place-button").getBoundingClientRect().bottom - panel.bottom;
	})()`
	assert.LessOrEqual(t, eval[float64](x, below), 0.0, "the button reaches below the panel")
	assert.Greater(t, eval[float64](x, `document.querySelector(".movement-list").clientHeight`), 80.0, "a movement can be seen and pulled")
}
