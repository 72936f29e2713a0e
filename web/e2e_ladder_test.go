//go:build e2e

package web_test

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
	"scrubline/web/browser"
)

// rungRow is a rung of the list as it is read.
type rungRow struct {
	At, Title      string
	Struck, Tall   bool
	Mend           bool
	Cause, Further string
}

func (x *tab) wayRows() []rungRow {
	x.t.Helper()
	return eval[[]rungRow](x, `[...document.querySelectorAll(".way > .way-list .rung")].map((li) => ({
	  At: li.querySelector(".rung-at").textContent, Title: li.querySelector(".rung-title").textContent,
	  Struck: li.classList.contains("is-struck"), Mend: li.querySelector(".rung-mend").checkVisibility(),
	  Tall: [...li.querySelectorAll("button")].every((b) => !b.checkVisibility() || b.getBoundingClientRect().height >= 44),
	}))`)
}

func (x *tab) goes() string {
	x.t.Helper()
	return eval[string](x, `document.querySelector(".way-goes").textContent`)
}

// toTheWay opens the list; on a phone the sheet comes up first.
func (x *tab) toTheWay() {
	x.t.Helper()
	x.raise()
	x.tap(`[aria-controls="tab-ladder"]`)
	x.wait(shown("#tab-ladder"))
	x.wait(`document.querySelector(".way").ariaBusy === "false"`)
}

var rearFigure = regexp.MustCompile(`rear[ \x{a0}](−?[0-9.]+)`) // the page keeps the two on one line

// rear is the rear's height in a sentence, 0 for ride.
func rear(t *testing.T, text string) float64 {
	t.Helper()
	m := rearFigure.FindStringSubmatch(strings.ToLower(text))
	if m == nil {
		require.Contains(t, strings.ToLower(text), "ride")
		return 0
	}
	v, err := strconv.ParseFloat(strings.Replace(m[1], "−", "-", 1), 64)
	require.NoError(t, err)
	return v
}

// The way down with a finger: read it, strike what comes first, see that the
// body goes lower then, go to a rung, on the list and on the staff. The same
// rungs as the engine gives here.
func TestE2ETheWayDown(t *testing.T) {
	for name, size := range map[string]browser.Size{"a tablet": browser.Landscape, "upright": browser.Portrait, "a phone": browser.Phone} {
		t.Run(name, func(t *testing.T) {
			x := open(t, size)
			x.toTheWay()
			before := x.file()
			doc, err := scene.Decode([]byte(before))
			require.NoError(t, err)
			m, err := fitment.Compile(doc)
			require.NoError(t, err)
			l := m.Ladder(fitment.LadderAsk{})
			x.readsAs(l, fitment.NewWords(doc))
			x.whole("the way down", "#app")

			first := l.Rungs[l.Stop]
			x.tap(".way > .way-list .rung-mend")
			x.eventually("it says what comes then", func() bool { return strings.Contains(x.goes(), "with the struck ones mended") })
			now, then, _ := strings.Cut(x.goes(), ";")
			assert.Less(t, rear(t, then), rear(t, now), "it goes lower: %s", x.goes())
			assert.True(t, x.wayRows()[0].Struck)
			x.openFolds()
			x.whole("the way down with one struck out", "#app")
			mended := m.Ladder(fitment.LadderAsk{Without: map[string]bool{first.Cause: true}})
			assert.InDelta(t, mended.GoesTo().RearMM, rear(t, then), 0.06)

			x.goesToRungs(doc, l)
			assert.Equal(t, before, x.file(), "to suppose is no edit")
			x.tap(".way > .quiet")
			x.eventually("nothing is struck out", func() bool { return !strings.Contains(x.goes(), "mended") })
		})
	}
}

// readsAs expects the list to have a ladder's rungs that depend on the height.
func (x *tab) readsAs(l *fitment.Ladder, w *fitment.Words) {
	x.t.Helper()
	rows := x.wayRows()
	k := 0
	for i := range l.Rungs {
		r := &l.Rungs[i]
		if r.Still {
			continue
		}
		require.Less(x.t, k, len(rows))
		assert.Equal(x.t, strings.ReplaceAll(w.RungTitle(r), "-", "−"), strings.ReplaceAll(rows[k].Title, "-", "−"))
		assert.InDelta(x.t, r.At.RearMM, rear(x.t, rows[k].At), 0.06)
		assert.Equal(x.t, r.Kind != fitment.RungEnd, rows[k].Mend)
		assert.True(x.t, rows[k].Tall, "a finger finds every button of %q", rows[k].Title)
		k++
	}
	assert.Len(x.t, rows, k)
}

// goesToRungs taps a rung of the list, then the same one's mark on the staff.
func (x *tab) goesToRungs(doc *scene.Document, l *fitment.Ladder) {
	x.t.Helper()
	row, target := -1, (*fitment.Rung)(nil)
	for i := range l.Rungs {
		if r := &l.Rungs[i]; !r.Still && r.Finding != nil {
			row++
			if !r.AtRide {
				target = r
				break
			}
		}
	}
	require.NotNil(x.t, target, "the demo has something that begins below ride")
	eval[bool](x, `document.querySelectorAll(".way > .way-list .rung-go")[`+strconv.Itoa(row)+`].classList.add("wanted"), true`)
	x.tap(".rung-go.wanted")
	stands := func() bool {
		k := x.look()
		return abs(k.RearMM-target.At.RearMM) < 1e-6 && abs(k.FrontMM-target.At.FrontMM) < 1e-6
	}
	x.eventually("the body stands at the rung", stands)
	x.wait(`document.querySelector(".finding.is-selected")?.dataset.key === ` + quote(target.Finding.Key()))
	x.wait(`document.querySelector(".rung.is-here .rung-go.wanted") !== null`)
	if eval[bool](x, `document.getElementById("grip").checkVisibility()`) {
		return // under the sheet of a phone there is no staff to tap
	}
	x.tap("#back-chip")
	x.eventually("it is back at ride", func() bool { return x.look().RearMM == 0 })
	k := x.look()
	travel := view.TravelOf(doc.Heights)
	staff := view.NewStaff(view.Rect{X: k.Staff[0], Y: k.Staff[1], W: k.Staff[2], H: k.Staff[3]}, &travel)
	x.must(x.Tap(x.onCanvas([2]float64{staff.LineX - 12, staff.Y(target.At.RearMM)})))
	x.eventually("the staff leads there too", func() bool { return abs(x.look().RearMM-target.At.RearMM) < 1e-6 })
}

func abs(v float64) float64 { return max(v, -v) }

// openFolds opens what is folded on the list.
func (x *tab) openFolds() {
	x.t.Helper()
	eval[bool](x, `(document.querySelectorAll(".way details").forEach((e) => { e.open = true; }), true)`)
}
