//go:build e2e

package web_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/app"
	"scrubline/web/browser"
)

// Two taps lay a tape, on a tablet both ways round and on a phone: it reads what
// the engine says of the saved file, follows the height, is renamed, ticked off,
// goes stale with the part, and is deleted.
func TestE2EATapeFromTwoTapsToTheTick(t *testing.T) {
	x := open(t, browser.Landscape)
	for _, size := range []browser.Size{browser.Landscape, browser.Portrait, browser.Phone} {
		t.Run(fmt.Sprintf("%dx%d", size.W, size.H), func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.startAnew()
			x.eventually("the canvas has its size", x.canvasFits)
			x.laysATape()
			x.ticksItOff()
			x.deletesIt()
		})
	}
}

// put sends a command for what is not under test.
func (x *tab) put(c app.Command) {
	x.t.Helper()
	r, err := x.Send(c)
	x.must(err)
	require.Empty(x.t, r.Error)
}

// holdOf is where a finger holds the tape to a part.
func (x *tab) holdOf(part string) [2]float64 {
	x.t.Helper()
	var at [2]float64
	x.eventually("the tape can be held to "+part, func() bool {
		for key, p := range x.look().Holds {
			if strings.HasPrefix(key, part+"|") {
				at = p
				return true
			}
		}
		return false
	})
	return at
}

func (x *tab) saved() *scene.Document {
	x.t.Helper()
	doc, err := scene.Decode([]byte(x.file()))
	x.must(err)
	return doc
}

// reads is what the tape of the list reads, and what the engine says of the
// saved file at the height shown.
func (x *tab) reads() (shown, engine float64) {
	x.t.Helper()
	text := x.text(".tape .tape-length")
	m := regexp.MustCompile(`^([\d.]+) mm`).FindStringSubmatch(text)
	require.NotNil(x.t, m, text)
	shown, err := strconv.ParseFloat(m[1], 64)
	x.must(err)
	doc := x.saved()
	require.Len(x.t, doc.Tapes, 1)
	model, err := fitment.Compile(doc)
	x.must(err)
	l := x.look()
	r, err := model.Tape(doc.Tapes[0].From, doc.Tapes[0].To, fitment.StateAt(l.FrontMM, l.RearMM))
	x.must(err)
	return shown, r.LengthMM
}

func (x *tab) laysATape() {
	x.put(app.Command{Do: "station", MM: 2300})
	x.tap(".tool-tape")
	x.wait(shown("#tape-bar"))
	x.whole("laying a tape", "#tape-bar")
	x.must(x.Tap(x.onCanvas(x.holdOf("air_tank"))))
	x.wait(`document.querySelector(".tape-words").textContent.startsWith("From Air tank")`)
	x.whole("with one end", "#tape-bar")
	assert.Empty(x.t, x.saved().Tapes)
	x.tap("#tape-bar button", "Ground")
	x.wait(`document.querySelector(".tape-list").textContent === "Tapes (1)"`)
	assert.Empty(x.t, x.look().Selected, "no part was picked up")
	x.tap(".tape-list")
	x.wait(shown("#tapes"))
	x.whole("the list of tapes", "#tapes")
	shownMM, engine := x.reads()
	assert.InDelta(x.t, engine, shownMM, 0.0501)

	// The body comes down: the tank nears the ground, and the tape says so.
	x.put(app.Command{Do: "named", Key: "aired_out"})
	x.eventually("the tape reads less", func() bool { now, _ := x.reads(); return now < shownMM-50 })
	shownMM, engine = x.reads()
	assert.InDelta(x.t, engine, shownMM, 0.0501)
	x.put(app.Command{Do: "named", Key: "ride"})

	// Another name.
	x.tap(".tape input")
	x.wait(`document.activeElement.matches(".tape input")`)
	eval[string](x, `document.activeElement.select(), ""`)
	x.must(x.Type("Tank height\r"))
	x.eventually("it has the name", func() bool { return x.saved().Tapes[0].Name == "Tank height" })
}

func (x *tab) ticksItOff() {
	_, engine := x.reads()
	x.tap(".tape button", "Tick off")
	x.wait(shown(".tick-form"))
	x.whole("the question what it reads", "#tapes")
	x.wait(`document.activeElement.matches(".tick-form input")`)
	x.must(x.Type(fmt.Sprintf("%.1f mm\r", engine+4)))
	x.wait(`document.querySelector(".tape-check")?.checkVisibility()`)
	day := time.Now().Format(time.DateOnly)
	said := x.text(".tape-check")
	assert.Contains(x.t, said, "Checked with the tape on")
	assert.Contains(x.t, said, "more than drawn")
	k := x.saved().CheckOfTape(x.saved().Tapes[0].ID)
	require.NotNil(x.t, k)
	assert.InDelta(x.t, 4, k.OffMM, 0.06)
	on, err := time.Parse(time.DateOnly, k.On)
	x.must(err)
	today, err := time.Parse(time.DateOnly, day)
	x.must(err)
	assert.LessOrEqual(x.t, today.Sub(on).Abs(), 24*time.Hour, "the page's day, wherever it is")
	x.whole("a checked tape", "#tapes")
	assert.Contains(x.t, x.text("#tapes .subline"), "1 of 1 measure")

	// The part moves up: what was checked is no longer what is drawn.
	x.put(app.Command{Do: "edit", Target: "part:air_tank", Field: "at_z", Text: "130 mm"})
	x.wait(`[...document.querySelectorAll(".tape-stale")].some((e) => e.checkVisibility() && e.textContent.includes("Drawing changed since"))`)
	x.whole("a stale tape", "#tapes")
	x.put(app.Command{Do: "undo"})
	x.wait(`![...document.querySelectorAll(".tape-stale")].some((e) => e.checkVisibility())`)
}

func (x *tab) deletesIt() {
	x.tap(".tape button", "Delete")
	x.eventually("it is gone", func() bool { return len(x.saved().Tapes) == 0 })
	x.tap("#tapes .aside-head button")
	x.wait(`!` + shown("#tapes"))
	x.tap("#tape-bar button", "Done")
	x.wait(`!` + shown("#tape-bar"))
}

// A part is ticked off in its form, and the list of parts shows it.
func TestE2EAPartIsTickedOff(t *testing.T) {
	x := open(t, browser.Landscape)
	x.put(app.Command{Do: "select", Part: "air_tank"})
	x.wait(shown(".side-form"))
	x.tap(".field-action button", "Tick off")
	x.eventually("it is noted", func() bool { return x.saved().CheckOfPart("air_tank") != nil })
	x.wait(`[...document.querySelectorAll(".shown-value")].some((e) => e.textContent.startsWith("Checked with the tape on 20"))`)
	x.whole("the form of a checked part", "#panel")
	x.leaveForm()
	x.tap(".tab", "Parts")
	row := `document.querySelector('#tab-parts li[data-key="air_tank"] .list-check')`
	x.wait(row + `?.checkVisibility() && ` + row + `.textContent.startsWith("Checked with the tape on")`)
	x.wait(`document.querySelector(".checked-count").textContent.startsWith("Checked with the tape: 1 of ")`)
	x.put(app.Command{Do: "edit", Target: "part:air_tank", Field: "at_z", Text: "130 mm"})
	x.wait(row + `.textContent.endsWith("Drawing changed since")`)
	x.whole("the list of parts", "#panel")
}
