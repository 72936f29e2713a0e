//go:build e2e

package web_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
	"scrubline/web/browser"
)

// worker is someone with a tablet whose taps and keys are counted.
type worker struct {
	*tab
	taps, keys int
}

func (w *worker) touch(selector string, words ...string) {
	w.t.Helper()
	w.taps++
	w.tap(selector, words...)
}

// types types into the question of that name in the place of what is there.
func (w *worker) types(ask, text string) {
	w.t.Helper()
	in := `.start-question[data-key="` + ask + `"] input`
	if !eval[bool](w.tab, `document.activeElement === document.querySelector(`+quote(in)+`)`) {
		w.touch(in)
		w.wait(`document.activeElement === document.querySelector(` + quote(in) + `)`)
	}
	eval[string](w.tab, `document.activeElement.select(), ""`)
	w.keys += len([]rune(text))
	w.must(w.Type(text))
}

// takes takes an answer of a list: a tap that opens it, a tap on the answer.
func (w *worker) takes(ask, value string) {
	w.t.Helper()
	w.taps += 2
	spot := `document.querySelector('.start-question[data-key="` + ask + `"] select')`
	eval[string](w.tab, `((s) => { s.focus(); s.value = `+quote(value)+`; s.dispatchEvent(new Event("change", { bubbles: true })); return s.value; })(`+spot+`)`)
	w.wait(spot + `.value === ` + quote(value))
}

// step waits for a step of the questions and looks at all of it.
func (w *worker) step(title string) {
	w.t.Helper()
	w.wait(`document.querySelector(".start-title").textContent === ` + quote(title))
	w.whole(title, "dialog.start")
}

// drawn is the figure on the dimension of a question.
func (w *worker) drawn(ask, figure string) {
	w.t.Helper()
	w.wait(`document.querySelector('.start .dim.is-on[data-ask="` + ask + `"] text')?.textContent === ` + quote(figure))
}

// From nothing through the questions to the underside of a vehicle, by finger
// and keypad, on a tablet both ways round and on a phone.
func TestE2EFromTheQuestionsToTheUnderside(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
		t.Run(fmt.Sprintf("%dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.startAnew()
			x.eventually("the canvas has its size", x.canvasFits)
			demo := x.file()
			w := &worker{tab: x}
			w.answers()
			w.underside()
			t.Logf("%dx%d: %d taps and %d keys from the first tap to the underside", size.W, size.H, w.taps, w.keys)
			w.measuresOneMore()
			x.tap(".step-undo")
			x.tap(".step-undo")
			x.wait(`document.querySelector(".bar-title").textContent === "Bakery van"`)
			x.checked()
			assert.Equal(t, demo, x.file(), "what was open before is not lost")
		})
	}
}

// answers goes through the questions, wrong turns included.
func (w *worker) answers() {
	w.taps += 2
	w.fileMenu("New vehicle")
	w.wait(`document.querySelector("dialog.start").open`)
	w.step("Wheelbase")
	assert.Contains(w.t, w.text(".start-note"), "default, not measured")
	w.types(scene.AskWheelbase, "118 1/2 in")
	w.drawn(scene.AskWheelbase, "3009.9") // 118.5 · 25.4
	w.whole("typed", "dialog.start")
	w.types(scene.AskWheelbase, "118 1/2 in\r")

	w.step("Tyres")
	w.types(scene.AskFrontTyre, "235/75R15")
	w.touch(".start-question button", "Another size")
	w.wait(shown(`.start-question[data-key="rear_tyre"] input`))
	w.types(scene.AskRearTyre, "743")
	w.drawn(scene.AskRearTyre, "Ø 743")
	w.whole("both tyres", "dialog.start")
	w.types(scene.AskRearTyre, "743\r")

	w.step("Frame height at ride")
	w.types(scene.AskFrontFrame, "220 x\r")
	w.wait(shown(".start .field-error"))
	assert.Equal(w.t, 1.0, eval[float64](w.tab, `[...document.querySelectorAll(".start .field-error")].filter((e) => e.checkVisibility()).length`))
	assert.Contains(w.t, w.text(`.start-question[data-key="front_frame"] .field-error`), "Type a length such as")
	w.step("Frame height at ride")
	w.types(scene.AskFrontFrame, "220\r")
	w.types(scene.AskRearFrame, "9 1/8 in\r")

	w.step("Frame rails")
	w.types(scene.AskRailOver, "864\r")
	w.types(scene.AskRailDepth, "127\r")

	w.step("Front axle")
	w.touch(".start-question button", "Beam axle")
	w.takes(scene.AskFrontHold, scene.LeafSprings)
	w.whole("leaf springs", "dialog.start")
	w.touch(".start-back")
	w.step("Frame rails")
	assert.Equal(w.t, "864", eval[string](w.tab, `document.querySelector('.start-question[data-key="rail_over"] input').value`), "going back keeps what was typed")
	w.touch(".start-next")
	w.step("Front axle")
	assert.Equal(w.t, scene.LeafSprings, eval[string](w.tab, `document.querySelector(".start select").value`))
	w.touch(".start-next")

	w.step("Rear axle")
	w.touch(".start-question button", "Independent")
	w.takes(scene.AskRearHold, scene.DoubleWishbone)
	w.whole("wishbones", "dialog.start")
	w.touch(".start-question button", "Live axle")
	w.takes(scene.AskRearHold, scene.FourLinkPanhard)
	w.touch(".start-next")

	w.step("How far down and up")
	w.types(scene.AskFrontDown, "100\r")
	w.types(scene.AskRearDown, "120\r")
	w.types(scene.AskFrontUp, "60")
	w.drawn(scene.AskFrontUp, "+60")
	w.whole("the last step", "dialog.start")
	w.touch(".start-next")
	w.wait(`!document.querySelector("dialog.start").open`)
}

// underside expects the vehicle that was answered, seen from above with
// everything in it, and the rest listed as not measured.
func (w *worker) underside() {
	w.wait(`document.querySelector(".bar-title").textContent === "New vehicle"`)
	w.checked()
	w.eventually("the plan shows all of it", func() bool {
		l := w.look()
		return l.View == "plan" && has(l.Parts, "left-frame-rail", "right-frame-rail", "front-axle", "rear-axle", "driveshaft", "front-left-wheel", "rear-right-wheel")
	})
	doc := w.document()
	v := &doc.Vehicle
	assert.InDelta(w.t, 118.5*25.4, v.WheelbaseMM, 1e-6)
	assert.Equal(w.t, "235/75R15", v.Front.Tyre.Code)
	assert.Equal(w.t, 743.0, v.Rear.Tyre.DiameterMM)
	assert.Equal(w.t, [2]string{scene.LeafSprings, scene.FourLinkPanhard}, [2]string{v.Front.Suspension.Kind, v.Rear.Suspension.Kind})
	assert.Equal(w.t, scene.Height{ID: scene.AiredOut, Name: "Aired out", FrontMM: -100, RearMM: -120}, doc.Heights[0])
	list := strings.Join(doc.Unmeasured, " ")
	for key, listed := range map[string]bool{"vehicle/wheelbase_mm": false, "height:aired_out/rear_mm": false, "height:aired_up/rear_mm": true,
		"vehicle/front/tyre ": false, "vehicle/rear/tyre/width_mm": true, "vehicle/rear/suspension/bars": true, "part:left-frame-rail/size/depth_mm": false} {
		assert.Equal(w.t, listed, strings.Contains(list+" ", key), key)
	}
	w.whole("the new vehicle", "#app")
}

// measuresOneMore goes from the count over the list to a field, and types.
func (w *worker) measuresOneMore() {
	n := len(w.document().NotMeasured())
	w.raise()
	require.Equal(w.t, fmt.Sprint(n, " not measured"), w.text(".unmeasured-count"))
	w.tap(".unmeasured-count")
	w.wait(shown(".side-form"))
	w.raise()
	w.whole("the list", "#app")
	w.tap(".field-action button", "Front track")
	field := `document.querySelector('[data-key="front_track:number"]')`
	w.wait(field + `?.contains(document.activeElement) && document.activeElement.matches("input")`)
	w.whole("the vehicle's form", "#app")
	assert.True(w.t, eval[bool](w.tab, field+`.querySelector(".field-mark").checkVisibility()`))
	eval[string](w.tab, `document.activeElement.select(), ""`)
	w.must(w.Type("1502\r"))
	w.eventually("the track is measured", func() bool { return len(w.document().NotMeasured()) == n-1 })
	w.wait(`!` + field + `.querySelector(".field-mark").checkVisibility()`)
	w.leaveForm()
}

func has(parts map[string][2]float64, ids ...string) bool {
	for _, id := range ids {
		if _, ok := parts[id]; !ok {
			return false
		}
	}
	return true
}

// A value is marked at its field, the finding says so, and all of a part is
// measured again with one tap.
func TestE2EMarksAtTheFieldAndInTheFinding(t *testing.T) {
	x := open(t, browser.Landscape)
	assert.False(t, eval[bool](x, shown(".unmeasured-count")), "the demo vehicle is measured")
	x.tapPart("air_tank")
	field := `document.querySelector('[data-key="diameter_mm:number"]')`
	ask := func() {
		eval[string](x, field+`.scrollIntoView({ block: "center" }), ""`)
		x.tap(`[data-key="diameter_mm:number"] .ask`)
	}
	ask()
	x.wait(field + `.querySelector(".field-measured").checkVisibility()`)
	x.whole("the help of a field", "#app")
	x.tap(`[data-key="diameter_mm:number"] .field-measured`, "Mark as not measured")
	x.wait(field + `.querySelector(".field-mark").checkVisibility()`)
	x.wait(shown(".form-open"))
	x.whole("a field that is not measured", "#app")
	x.leaveForm()
	x.tap(".tab", "Findings")
	x.checked()
	const open = `.finding[data-key="driveshaft|air_tank|"] .finding-open`
	x.wait(shown(open))
	assert.Equal(t, "Not measured: Air tank: diameter", x.text(open))
	x.whole("a finding with what is not measured", "#app")
	assert.Equal(t, "1 not measured", x.text(".unmeasured-count"))
	x.tapPart("air_tank")
	x.tap(".form-open button", "All measured")
	x.wait(`!` + shown(".form-open"))
	x.leaveForm()
	x.tap(".tab", "Findings")
	x.wait(`!` + shown(open))
	assert.False(t, eval[bool](x, shown(".unmeasured-count")))
}

// newVehicle takes the starter by skipping the questions.
func (x *tab) newVehicle() {
	x.t.Helper()
	x.fileMenu("New vehicle")
	x.wait(`document.querySelector("dialog.start").open`)
	x.tap(".start-skip")
	x.wait(`!document.querySelector("dialog.start").open`)
}
