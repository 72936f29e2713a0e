//go:build e2e

package web_test

import (
	"fmt"
	"os"
	"regexp"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
	"scrubline/web/browser"
)

// placing is one part of the run: where it comes from and what the tape read,
// in inches. A part of the other side has its place without typing.
type placing struct {
	name string
	from string     // a kind of the list, or "Duplicate" or "Other side" of the part before
	text [3]string  // behind the front axle, right of centre, above the rails' underside
	inch [3]float64 // the same, by hand
}

// twelve are invented readings of an invented van.
var twelve = []placing{
	{"left air spring", "air_spring", [3]string{"118 1/2", "-14 1/8", "12 1/4"}, [3]float64{118.5, -14.125, 12.25}},
	{"right air spring", "Other side", [3]string{}, [3]float64{118.5, 14.125, 12.25}},
	{"air tank", "air_tank", [3]string{"70 1/4", "-8 3/8", "2 1/2"}, [3]float64{70.25, -8.375, 2.5}},
	{"second air tank", "Duplicate", [3]string{"92 3/4", "-9 5/16", "2 1/2"}, [3]float64{92.75, -9.3125, 2.5}},
	{"compressor", "compressor", [3]string{"52", "-10 3/16", "3 1/8"}, [3]float64{52, -10.1875, 3.125}},
	{"battery", "battery", [3]string{"44 5/8", "22 1/2", "3/4"}, [3]float64{44.625, 22.5, 0.75}},
	{"fuel cell", "fuel_cell", [3]string{"142 1/4", "0", "1 1/2"}, [3]float64{142.25, 0, 1.5}},
	{"exhaust run", "exhaust_run", [3]string{"16 7/8", "7 15/16", "-1 1/2"}, [3]float64{16.875, 7.9375, -1.5}},
	{"muffler", "muffler", [3]string{"88", "9 7/16", "-3 1/4"}, [3]float64{88, 9.4375, -3.25}},
	{"seat", "seat", [3]string{"58 3/4", "-17 1/2", "16 1/8"}, [3]float64{58.75, -17.5, 16.125}},
	{"brake booster", "booster", [3]string{"14 3/8", "-15 3/4", "22 5/8"}, [3]float64{14.375, -15.75, 22.625}},
	{"bed floor", "bed_floor", [3]string{"84 1/2", "0", "15 5/16"}, [3]float64{84.5, 0, 15.3125}},
}

// From a vehicle that is not there to twelve parts at their exact places and
// every finding read, by finger and keypad, in inches, each tap and each key
// counted. The figures that DEVELOPERS.md gives are the most there may be.
func TestE2ETapsFromNothingToTwelvePartsAndTheirFindings(t *testing.T) {
	x := open(t, browser.Landscape)
	w := &worker{tab: x}
	w.answersInInches()
	questions := *w
	require.NotEmpty(t, x.parts())

	ids := map[string]placing{}
	for _, p := range twelve {
		ids[w.placesExactly(p)] = p
	}
	require.Len(t, ids, 12)
	places := *w

	w.touch(".side-form .back")
	w.wait(`!` + shown(".side-form"))
	w.checked()
	read := w.readsEachFinding()
	require.NotEmpty(t, read, "a vehicle this full has findings")

	parts := x.parts()
	for id, p := range ids {
		for axis, inch := range p.inch {
			// An inch is 25.4 mm (International yard and pound agreement of
			// 1959); a sixteenth of one, 1.5875 mm, is the tape's finest mark.
			assert.InDelta(t, inch*25.4, parts[id].AtMM[axis], 1e-6, "%s, axis %d", p.name, axis)
		}
	}
	t.Logf("questions: %d taps, %d keys", questions.taps, questions.keys)
	t.Logf("12 parts: %d taps, %d keys", places.taps-questions.taps, places.keys-questions.keys)
	t.Logf("%d findings: %d taps, %d keys", len(read), w.taps-places.taps, w.keys-places.keys)
	t.Logf("together: %d taps, %d keys", w.taps, w.keys)
	taps, keys := documentedCount(t)
	assert.LessOrEqual(t, w.taps, taps, "taps")
	assert.LessOrEqual(t, w.keys, keys, "keys")
}

// documentedCount are the taps and keys of the whole run in DEVELOPERS.md.
func documentedCount(t *testing.T) (taps, keys int) {
	t.Helper()
	text, err := os.ReadFile("../DEVELOPERS.md")
	require.NoError(t, err)
	found := regexp.MustCompile(`\*\*(\d+) taps and (\d+) keys\*\*`).FindSubmatch(text)
	require.NotNil(t, found, "DEVELOPERS.md gives no count of taps and keys")
	taps, err = strconv.Atoi(string(found[1]))
	require.NoError(t, err)
	keys, err = strconv.Atoi(string(found[2]))
	require.NoError(t, err)
	return taps, keys
}

// answersInInches takes inches, begins a new vehicle and answers what a tape
// tells; Enter goes from one answer to the next.
func (w *worker) answersInInches() {
	w.touch(".bar-view button", "in")
	w.wait(`document.querySelector(".bar-view [data-value=in]").getAttribute("aria-pressed") === "true"`)
	w.taps += 2
	w.fileMenu("New vehicle")
	w.wait(`document.querySelector("dialog.start").open`)
	title := func(words string) { w.wait(`document.querySelector(".start-title").textContent === ` + quote(words)) }
	title("Wheelbase")
	w.types(scene.AskWheelbase, "118 1/2\r")
	title("Tyres")
	w.types(scene.AskFrontTyre, "235/75R15\r")
	title("Frame height at ride")
	w.types(scene.AskFrontFrame, "8 5/8\r")
	w.types(scene.AskRearFrame, "9 1/8\r")
	title("Frame rails")
	w.types(scene.AskRailOver, "34\r")
	w.types(scene.AskRailDepth, "5\r")
	title("Front axle")
	w.takes(scene.AskFrontHold, scene.LeafSprings)
	w.touch(".start-next")
	title("Rear axle")
	w.takes(scene.AskRearHold, scene.FourLinkPanhard)
	w.touch(".start-next")
	title("How far down and up")
	for ask, text := range [...]string{"4", "4 3/4", "2 3/8", "2 3/4"} {
		w.types([...]string{scene.AskFrontDown, scene.AskRearDown, scene.AskFrontUp, scene.AskRearUp}[ask], text+"\r")
	}
	w.wait(`!document.querySelector("dialog.start").open`)
	w.wait(`document.querySelector(".bar-title").textContent === "New vehicle"`)
	w.checked()
	assert.InDelta(w.t, 118.5*25.4, w.document().Vehicle.WheelbaseMM, 1e-6)
}

// placesExactly places a part, types its three lengths one after the other and
// gives the id it has.
func (w *worker) placesExactly(p placing) string {
	w.t.Helper()
	was := w.look().Selected
	if p.from == "Duplicate" || p.from == "Other side" {
		w.touch(".actions button", p.from)
	} else {
		w.touch(".place-button, .place-another")
		w.wait(shown(".side-place"))
		w.touch(`.list-row[data-kind="` + p.from + `"]`)
	}
	id := ""
	w.eventually(p.name+" is placed", func() bool { id = w.look().Selected; return id != "" && id != was })
	w.wait(shown(".side-form") + ` && document.querySelector(".side-form .form-title").textContent === ` + quote(w.part(id).Name))
	if p.text == [3]string{} {
		return id
	}
	for axis, label := range [...]string{"Station", "Right of centre", "Above straight rail underside"} {
		field := w.field(label)
		has := `document.activeElement === document.querySelector(` + quote(field) + `)`
		if axis == 0 {
			w.touch(field)
			w.wait(has)
		}
		require.True(w.t, eval[bool](w.tab, has), "%s: Enter goes on to %s", p.name, label)
		w.keys += len([]rune(p.text[axis])) + 1
		w.must(w.Type(p.text[axis] + "\r"))
		w.eventually(fmt.Sprint(p.name, " stands at ", p.text[axis]), func() bool {
			return near(w.at(id)[axis], p.inch[axis]*25.4, 1e-6)
		})
	}
	return id
}

// readsEachFinding opens each finding of the list once, the lowest first, so
// that what is open shifts none of those to come.
func (w *worker) readsEachFinding() []string {
	w.t.Helper()
	keys := eval[[]string](w.tab, `[...document.querySelectorAll(".findings > .finding")].map((li) => li.dataset.key)`)
	slices.Reverse(keys)
	for _, key := range keys {
		row := findingRow(key)
		if !eval[bool](w.tab, shown(row)) {
			over := eval[string](w.tab, `document.querySelector(`+quote(row)+`).item.under`)
			w.touch(findingRow(over) + " .finding-fold")
			w.wait(shown(row))
		}
		w.touch(row + " .finding-top")
		w.wait(shown(row+" .finding-more") + " || " + shown(".side-form"))
		if eval[bool](w.tab, shown(".side-form")) {
			w.touch(".side-form .back")
			w.wait(`!` + shown(".side-form"))
			continue
		}
		assert.NotEmpty(w.t, w.text(row+" .finding-figures"), key)
	}
	return keys
}
