package app

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// Wheel zooms the main view about the pointer; over the staff it moves the
// body, over the strip the station.
func (a *App) Wheel(_, dy, x, y float64, _ bool) {
	p := mgl64.Vec2{x, y}
	if math.IsNaN(dy+x+y) || math.IsInf(dy+x+y, 0) {
		return
	}
	dy = math.Max(-400, math.Min(400, dy))
	switch a.zoneOf(p) {
	case onMain:
		if a.showing == turning {
			a.turnZoom(p, math.Exp2(-dy/400))
			break
		}
		*a.camera() = a.camera().ZoomAbout(a.lay.Main, p, math.Exp2(-dy/400))
	case onStaff:
		a.nudgeHeight(-math.Copysign(5*a.step(), dy))
	case onStrip:
		a.setStation(view.Round(a.station+math.Copysign(view.Grid(a.doc.Show, 0), dy), view.Grid(a.doc.Show, 0)))
	}
	a.touch()
}

// Key is a key pressed while the canvas has the focus; it says whether it
// meant anything.
func (a *App) Key(key string, shift, ctrl bool) bool {
	if ctrl {
		switch {
		case key == "z" && !shift:
			a.do(Command{Do: "undo"})
		case key == "y", key == "z", key == "Z":
			a.do(Command{Do: "redo"})
		case key == "d" && len(a.chosen()) > 0:
			a.do(Command{Do: "duplicate", Part: a.selected})
		default:
			return false
		}
		return true
	}
	switch key {
	case "Escape":
		if a.hand.mode != idle {
			a.rollBack()
			a.hand.mode = spent
			return true
		}
		if a.tape.on {
			a.tape = taping{}
			a.touch()
			return true
		}
		a.finding, a.form = "", ""
		a.endPicking()
		a.selectPart("")
	case "Delete", "Backspace":
		if len(a.chosen()) == 0 {
			return false
		}
		a.do(Command{Do: "delete", Part: a.selected})
	case "+", "=", "-":
		f := 1.25
		if key == "-" {
			f = 0.8
		}
		*a.camera() = a.camera().ZoomAbout(a.lay.Main, a.lay.Main.Middle(), f)
		a.touch()
	case "0":
		a.do(Command{Do: "fit"})
	case "PageUp":
		a.nudgeHeight(5 * a.step())
	case "PageDown":
		a.nudgeHeight(-5 * a.step())
	default:
		return a.arrow(key, shift)
	}
	return true
}

// arrow nudges what is selected or picked by the finest step, with shift by a
// coarse one; with nothing selected it moves the station and the height, by a
// coarse step and with shift by the finest.
func (a *App) arrow(key string, shift bool) bool {
	d, ok := map[string]fitment.Pt{"ArrowLeft": {-1, 0}, "ArrowRight": {1, 0}, "ArrowUp": {0, 1}, "ArrowDown": {0, -1}}[key]
	if !ok {
		return false
	}
	grid := view.Grid(a.doc.Show, 0)
	if shift {
		grid = a.step()
	}
	switch {
	case len(a.chosen()) > 0 && a.hand.mode == idle:
		by := a.step()
		if shift {
			by = view.Grid(a.doc.Show, 0)
		}
		if err := a.moveBy(view.Lift(a.view, fitment.Pt{d[0] * by, d[1] * by})); err != nil {
			a.say(sentence(err.Error()))
		}
	case d[0] != 0:
		a.setStation(a.station + d[0]*grid)
	default:
		a.nudgeHeight(d[1] * 5 * a.step())
	}
	return true
}

// nudgeHeight moves the body by mm of the staff; apart, both ends alike.
func (a *App) nudgeHeight(mm float64) {
	if a.apart {
		a.setHeight(a.front+mm, a.rear+mm)
		return
	}
	f, r := a.travel.Pair(a.travel.Coord(a.front, a.rear) + mm)
	a.setHeight(f, r)
}

// say shows a message for a while.
func (a *App) say(text string) {
	a.message, a.panelsDue = text, true
	a.host.Wake(200)
}

// unit is the unit's short name.
func unit(u scene.Units) string {
	if u == scene.Inches {
		return "in"
	}
	return "mm"
}
