//go:build e2e

package web_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/web/browser"
)

// mendRow is one way of the open finding as it is read.
type mendRow struct{ Text, Keeps string }

func (x *tab) mendRows() []mendRow {
	x.t.Helper()
	return eval[[]mendRow](x, `[...document.querySelectorAll(".finding.is-selected .mend .mend-way")].map((li) => ({
	  Text: li.querySelector(".mend-text").textContent, Keeps: li.querySelector(".mend-take .mend-keeps").textContent }))`)
}

const mendReady = `[...document.querySelectorAll(".finding.is-selected .mend")].some((m) => !m.hidden && m.getAttribute("aria-busy") === "false")`

// openFinding opens a finding of the list and waits until its moves are found.
func (x *tab) openFinding(key string) {
	x.t.Helper()
	x.raise()
	top := `.finding[data-key=` + quote(key) + `] .finding-top`
	was := browser.Point{}
	x.eventually("the list lies still", func() bool {
		time.Sleep(300 * time.Millisecond) // a hint may still come and push it down
		at := x.middleOf(top)
		still := at == was
		was = at
		return still
	})
	x.must(x.Tap(was))
	x.wait(`document.querySelector(".finding.is-selected")?.dataset.key === ` + quote(key))
	x.wait(mendReady)
}

// middleOf scrolls an element into view and gives its middle.
func (x *tab) middleOf(selector string) browser.Point {
	x.t.Helper()
	at := eval[[]float64](x, `(() => {
	  const e = document.querySelector(`+quote(selector)+`);
	  if (!e) return [];
	  e.scrollIntoView({ block: "center" });
	  const r = e.getBoundingClientRect();
	  return [r.left + r.width / 2, r.top + r.height / 2];
	})()`)
	require.Len(x.t, at, 2, selector)
	return browser.Point{X: at[0], Y: at[1]}
}

// keys are the findings in the list's order.
func (x *tab) keys() []string {
	x.t.Helper()
	return eval[[]string](x, `[...document.querySelectorAll(".finding")].map((li) => li.dataset.key)`)
}

// takeWay takes the first way of the open finding, looks that it is one step, and
// waits for the answer to what is then on the sheet.
func (x *tab) takeWay() {
	x.t.Helper()
	before := x.file()
	x.tap(".finding.is-selected .mend-take")
	x.eventually("the part is moved", func() bool { return x.file() != before })
	x.eventually("it is offered to be taken back", func() bool {
		return eval[bool](x, `[...document.querySelectorAll("#notices button")].some((b) => b.textContent === "Good")`)
	})
	x.tap("#notices button", "Good")
	x.checked()
}

// From the demo's conflicts to none: the air tank is dropped in its room by
// finger, everything else takes the first way it is offered. The way down is read
// before and after, and the command line finds nothing in the saved file.
func TestE2EFromConflictsToNone(t *testing.T) {
	x := open(t, browser.Landscape)
	program := filepath.Join(t.TempDir(), "scrubline")
	out, err := exec.Command("go", "build", "-o", program, "scrubline/cmd/scrubline").CombinedOutput()
	require.NoError(t, err, string(out))
	x.toTheWay()
	first := x.goes()
	x.tap(`[aria-controls="tab-findings"]`)

	x.dropsTheTankInItsRoom()
	taken := 0
	for range 12 {
		keys := x.keys()
		if len(keys) == 0 {
			break
		}
		x.openFinding(keys[0])
		ways := x.mendRows()
		require.NotEmpty(t, ways, "%s has no way to be mended", keys[0])
		x.takeWay()
		x.eventually(keys[0]+" is gone", func() bool { return !slices.Contains(x.keys(), keys[0]) })
		taken++
	}
	require.Empty(t, x.keys())
	require.GreaterOrEqual(t, taken, 5)
	x.toTheWay()
	last := x.goes()
	t.Logf("before: %s after %d mends: %s", first, taken, last)
	assert.NotEqual(t, first, last)
	assert.Contains(t, strings.ToLower(last), "130", "it goes down to the end of its travel")

	name := filepath.Join(t.TempDir(), "mended.json")
	require.NoError(t, os.WriteFile(name, []byte(x.file()), 0o644))
	out, err = exec.Command(program, "check", "-json", name).CombinedOutput()
	require.NoError(t, err, string(out))
	var r struct{ Findings []any }
	require.NoError(t, json.Unmarshal(out, &r))
	require.Empty(t, r.Findings)
	for _, args := range [][]string{{"ladder", name}, {"mend", name, "air_tank"}, {"room", "-view", "section", name, "air_tank"}} {
		out, err := exec.Command(program, args...).CombinedOutput()
		require.NoError(t, err, "%v: %s", args, out)
	}
}

// dropsTheTankInItsRoom shows the air tank's room in the section through it,
// first drops it where it does not fit and takes that back, then drops it into
// the free area.
func (x *tab) dropsTheTankInItsRoom() {
	x.t.Helper()
	doc := x.document()
	m, err := fitment.Compile(doc)
	x.must(err)
	tank := scene.Vec{}
	for _, p := range doc.Parts {
		if p.ID == "air_tank" {
			tank = p.AtMM
		}
	}
	r, err := m.RoomWithin("air_tank", fitment.SectionView, fitment.RoomReachMM, fitment.RoomCellMM)
	x.must(err)
	by, _ := r.At(tank[1], tank[2])
	require.Equal(x.t, "driveshaft", by)
	// The nearest free place to the left on the tank's own height.
	to := tank[1]
	for ; by != ""; to -= 1 {
		by, _ = r.At(to, tank[2])
		require.Greater(x.t, to, tank[1]-200)
	}
	to -= 12 // clear of the border

	x.sectionTo(tank[0] + 200)
	at := x.pickUp("air_tank")
	x.wait(shown(".arrange-room"))
	x.tap(".arrange-room")
	x.wait(`document.querySelector(".arrange-room").getAttribute("aria-pressed") === "true"`)
	c := x.onCanvas(at)
	aside := func(d float64) browser.Point { return browser.Point{X: c.X + d, Y: c.Y} }
	was := x.look().PxPerMM
	x.must(x.Pinch(aside(-40), aside(40), aside(-150), aside(150), 10)) // a finger's breadth is too much of it otherwise
	x.eventually("it is larger", func() bool { return x.look().PxPerMM > 3*was })
	k := x.look().PxPerMM
	at = x.look().Parts["air_tank"]
	before := x.file()
	x.drag(at, 60*k, 0)
	x.eventually("it was dropped", func() bool { return x.file() != before })
	x.eventually("it is said that it does not fit", func() bool {
		return strings.Contains(strings.ToLower(x.text("#toast")), "dropped")
	})
	x.tap(".step-undo")
	x.eventually("it is taken back", func() bool { return x.file() == before })
	at = x.look().Parts["air_tank"]
	x.drag(at, (to-tank[1])*k, 0)
	x.eventually("it was dropped", func() bool { return x.file() != before })
	assert.NotContains(x.t, strings.ToLower(x.text("#toast")), "dropped", "what was said of the last drop makes way for the next")
	x.tap(".arrange-room")
	x.leaveForm()
	x.checked()
	x.eventually("driveshaft and tank are no finding", func() bool {
		return !slices.ContainsFunc(x.keys(), func(k string) bool { return strings.Contains(k, "air_tank") })
	})
}

// The moves of an open finding on the three screens: nothing cut off, fingers
// wide enough, and the ghost shown and taken away.
func TestE2EMendsOnThreeScreens(t *testing.T) {
	for name, size := range map[string]browser.Size{"landscape": browser.Landscape, "portrait": browser.Portrait, "phone": browser.Phone} {
		t.Run(name, func(t *testing.T) {
			x := open(t, size)
			key := ""
			for _, k := range x.keys() {
				if strings.Contains(k, "battery") {
					key = k
				}
			}
			require.NotEmpty(t, key)
			x.openFinding(key)
			require.NotEmpty(t, x.mendRows())
			x.whole("the moves of a finding", "#app")
			assert.True(t, eval[bool](x, `[...document.querySelectorAll(".mend button")].every((b) => !b.checkVisibility() || b.getBoundingClientRect().height >= 44)`))
			x.tap(".mend-show")
			x.wait(`document.querySelector(".mend-show").getAttribute("aria-pressed") === "true"`)
			x.tap(".mend-show")
			x.wait(`document.querySelector(".mend-show").getAttribute("aria-pressed") === "false"`)
			// What says that a move is done, and takes it back, stands there no
			// longer than that is so.
			file := x.file()
			for _, back := range []string{`#notices [data-key="mend"] button`, ".step-undo"} {
				x.wait(mendReady)
				x.tap(".mend-take")
				x.notice(": done.")
				require.NotEqual(t, file, x.file())
				x.tap(back)
				x.noNotice("mend")
				x.eventually("it is taken back", func() bool { return x.file() == file })
			}
		})
	}
}
