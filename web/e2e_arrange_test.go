//go:build e2e

package web_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
	"scrubline/web/browser"
)

// Placing and moving with fingers on the three sizes of screen.
func TestE2EPlacingAndMoving(t *testing.T) {
	for _, screen := range []struct {
		name string
		size browser.Size
	}{{"landscape", browser.Landscape}, {"portrait", browser.Portrait}, {"phone", browser.Phone}} {
		t.Run(screen.name, func(t *testing.T) {
			x := open(t, screen.size)
			for _, thing := range []struct {
				name string
				does func(*tab)
			}{
				{"nudges by the finest step", nudgesByAStep},
				{"is measured from a rail and follows it", followsTheRail},
				{"is locked, and stays", staysLocked},
				{"several are picked, lined up and grouped", picksSeveral},
				{"is turned by a quarter and by an angle", turnsAPart},
			} {
				t.Run(thing.name, func(t *testing.T) {
					x := x.in(t)
					x.startAnew()
					thing.does(x)
				})
			}
		})
	}
}

// pickIn picks a part up from the list of parts, on any screen.
func (x *tab) pickIn(id string) {
	x.t.Helper()
	x.raise()
	if eval[bool](x, shown(".side-form")) {
		x.leaveForm()
		x.raise()
	}
	x.tapPart(id)
	x.raise()
	x.wait(shown(".side-form .form-title"))
}

// choose takes a choice of the form's field of that name.
func (x *tab) choose(field, value string) {
	x.t.Helper()
	spot := `document.querySelector('[data-key="` + field + `:choice"] select')`
	x.wait(spot + ` !== null`)
	eval[string](x, `((s) => { s.closest("details").open = true; s.scrollIntoView({ block: "center" }); s.value = `+quote(value)+`; s.dispatchEvent(new Event("change", { bubbles: true })); return s.value; })(`+spot+`)`)
}

// spot is where a part on the body stands in the section, on the canvas. On a
// phone the mark of a finding may lie on it: a tap goes to that, a drag and a
// finger that rests do not.
func (x *tab) spot(id string) [2]float64 {
	x.t.Helper()
	at, p := x.at(id), x.look().Plane
	return [2]float64{p[0]*at[1] + p[1]*at[2] + p[2], p[3]*at[1] + p[4]*at[2] + p[5]}
}

// labelled waits for a field of that label.
func (x *tab) labelled(label string) {
	x.t.Helper()
	x.wait(`[...document.querySelectorAll(".field-label")].some((e) => (e.firstElementChild ?? e).textContent === ` + quote(label) + `)`)
}

func (x *tab) part(id string) scene.Part {
	x.t.Helper()
	p, ok := x.parts()[id]
	require.True(x.t, ok, "there is no part "+id)
	return p
}

func nudgesByAStep(x *tab) {
	x.pickIn("air_tank")
	was, file := x.at("air_tank"), x.file()
	x.whole("what can be done to its place", ".arrange")
	for _, way := range []struct {
		key  string
		axis int
		by   float64
	}{{"x-", 0, -1}, {"y+", 1, 1}, {"z+", 2, 1}} {
		x.tap(`.nudge[data-way="` + way.key + `"]`)
		x.eventually("it has moved", func() bool { return x.at("air_tank")[way.axis] == was[way.axis]+way.by })
	}
	x.tap(".bar-view button", "in")
	x.wait(`[...document.querySelectorAll(".arrange .group-name")].some((e) => e.textContent === "Nudge by 1/16 in")`)
	x.tap(`.nudge[data-way="y-"]`)
	// An inch is 25.4 mm (International yard and pound agreement of 1959).
	x.eventually("it has moved by a sixteenth", func() bool { return near(x.at("air_tank")[1], was[1]+1-25.4/16, 1e-6) })
	x.tap(".bar-view button", "mm")
	for range 4 {
		x.tap(".step-undo")
	}
	x.eventually("all is undone", func() bool { return x.file() == file })
}

// The rail's inner face and the tank's left side look at each other; the rail
// goes 10 out, and the question is answered with yes.
func followsTheRail(x *tab) {
	x.pickIn("air_tank")
	was := x.at("air_tank")
	x.choose("measured/y/from", "part:rail_l")
	x.eventually("it is noted", func() bool { return len(x.part("air_tank").MeasuredFrom) == 1 })
	m := x.part("air_tank").MeasuredFrom[0]
	assert.Equal(x.t, scene.Measured{Axis: 1, Part: "rail_l", Face: scene.High, To: scene.Low, MM: m.MM}, m)
	assert.Equal(x.t, was, x.at("air_tank"), "it stays")
	x.labelled("Left side from the right side of the left frame rail")
	x.enter("Left side from the right side of the left frame rail", "100 mm")
	x.eventually("it stands 100 from the rail", func() bool { return near(x.at("air_tank")[1], was[1]+100-m.MM, 1e-6) })
	was = x.at("air_tank")
	file := x.file()

	x.pickIn("rail_l")
	x.enter("Right of centre", "-450 mm")
	x.wait(shown("#ask"))
	rail := x.at("rail_l")
	assert.Equal(x.t, -450.0, rail[1])
	assert.Equal(x.t, was, x.at("air_tank"), "until it is answered it stays")
	assert.Equal(x.t, "Air tank was measured from the left frame rail, which has moved. Move it too?", x.text("#ask p"))
	x.whole("the question", "#ask")
	x.tap("#ask button", "Move it too")
	x.wait(`!` + shown("#ask"))
	assert.Equal(x.t, 100.0, x.part("air_tank").MeasuredFrom[0].MM)
	assert.NotEqual(x.t, was[1], x.at("air_tank")[1])
	x.tap(".step-undo")
	x.eventually("one step takes both back", func() bool { return x.file() == file })

	x.tap(".step-redo")
	x.eventually("and makes both again", func() bool { return x.at("rail_l")[1] == -450 && x.part("air_tank").MeasuredFrom[0].MM == 100 })
	x.tap(".step-undo")
	x.enter("Right of centre", "-460 mm")
	x.wait(shown("#ask"))
	x.tap("#ask button", "Leave it")
	x.wait(`!` + shown("#ask"))
	assert.Equal(x.t, was, x.at("air_tank"))
	assert.Greater(x.t, x.part("air_tank").MeasuredFrom[0].MM, 100.0, "the number is read anew")
}

func staysLocked(x *tab) {
	x.pickIn("air_tank")
	x.tap(".arrange-lock", "Lock in its place")
	x.eventually("it is locked", func() bool { return x.part("air_tank").Locked })
	x.wait(shown(".arrange-stays"))
	assert.Contains(x.t, x.text(".arrange-stays"), "Air tank is locked")
	assert.False(x.t, eval[bool](x, shown(".nudge")))
	file := x.file()
	x.enter("Station", "2000 mm")
	x.wait(shown(".field-error"))
	eval[string](x, `document.activeElement.blur(), ""`)
	if eval[bool](x, shown("#grip")) {
		x.tap("#grip") // the drawing needs the room
		x.wait(`document.getElementById("panel").dataset.sheet === "low"`)
		x.eventually("the drawing has it", x.canvasFits)
	}
	x.drag(x.spot("air_tank"), 40, 0)
	x.wait(`document.getElementById("toast").textContent.includes("locked")`)
	assert.Equal(x.t, file, x.file())
	x.raise()
	x.tap(".arrange-lock", "Unlock")
	x.eventually("it is free", func() bool { return !x.part("air_tank").Locked })
}

// A long press on the drawing begins to pick; the second part is ticked in the
// list.
func picksSeveral(x *tab) {
	x.pickIn("air_tank")
	x.leaveForm()
	if eval[bool](x, shown("#grip")+` && document.getElementById("panel").dataset.sheet !== "low"`) {
		x.tap("#grip")
		x.wait(`document.getElementById("panel").dataset.sheet === "low"`)
	}
	was := browser.Point{}
	x.eventually("the drawing has taken its new size", func() bool {
		time.Sleep(400 * time.Millisecond)
		at := x.onCanvas(x.spot("air_tank"))
		still := at == was
		was = at
		return still
	})
	x.must(x.Drag(was, was, 120)) // a finger that rests for two seconds
	x.eventually("it is picked", func() bool { l := x.look(); return len(l.Picked) == 1 && l.Picked[0] == "air_tank" })
	x.raise()
	x.wait(shown(".check-list"))
	x.tap(`.check-list li[data-key="battery"] .list-row`)
	x.eventually("so is the battery", func() bool { return len(x.look().Picked) == 2 })
	x.wait(`document.querySelector(".side-form .form-title").textContent === "2 parts picked"`)
	x.whole("what is picked", ".arrange")

	tank, battery := x.at("air_tank"), x.at("battery")
	x.tap(`[data-line="y-middle"]`)
	x.eventually("the battery is lined up", func() bool { return x.at("battery")[1] != battery[1] })
	assert.Equal(x.t, tank, x.at("air_tank"), "the first stays")
	x.tap(".step-undo")
	x.eventually("and back", func() bool { return x.at("battery") == battery })

	x.tap(`.arrange-group input[type="text"]`)
	x.must(x.Type("Air and power\r"))
	x.wait(`document.querySelector(".arrange-words").textContent.includes("Air and power")`)
	x.leaveForm()
	x.pickIn("battery")
	x.wait(shown(".arrange-words"))
	assert.Contains(x.t, x.text(".arrange-words"), "Air and power with 1 other")
	x.tap(`.nudge[data-way="z+"]`)
	x.eventually("the group moves as one", func() bool { return x.at("battery")[2] == battery[2]+1 && x.at("air_tank")[2] == tank[2]+1 })
	x.tap(".arrange-alone")
	x.wait(`document.querySelector(".arrange-alone input").checked`)
	x.tap(`.nudge[data-way="z+"]`)
	x.eventually("and one without the other", func() bool { return x.at("battery")[2] == battery[2]+2 && x.at("air_tank")[2] == tank[2]+1 })
}

func turnsAPart(x *tab) {
	x.pickIn("air_tank")
	x.tap(".arrange-turn summary")
	x.wait(shown(".turn-quarter"))
	x.tap(".turn-quarter", "+90°")
	x.eventually("it is turned", func() bool { return x.part("air_tank").TurnDeg == scene.Vec{0, 0, 90} })
	x.whole("the open fold", ".arrange")
	x.tap(`.arrange-turn input`)
	x.must(x.Type("-12,5\r"))
	x.eventually("and by the angle", func() bool { return x.part("air_tank").TurnDeg == scene.Vec{0, 0, 77.5} })
}
