package app

import (
	"errors"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// turned is the outline that a finger turns: how it is turned, and its lines
// for as long as nothing they depend on changes.
type turned struct {
	cam    view.Turn
	known  bool // it was looked at before: the way it is turned stays
	fitted bool

	model *fitment.Model
	st    fitment.State
	wires []fitment.Wire
}

// looks are the directions the outline can be looked at from without a finger:
// yaw from the rear towards the right, and pitch, degrees.
var lookFrom = map[string][2]float64{
	"front_left": {-150, 24}, "front_right": {150, 24}, "rear_left": {-35, 24}, "rear_right": {35, 24},
	"above": {-90, 89}, "below": {-90, -35},
}

// lookCommand turns the outline to a named direction.
func (a *App) lookCommand(c *Command, _ *Reply) error {
	d, ok := lookFrom[c.Text]
	if !ok {
		return errors.New("it cannot be looked at from there")
	}
	a.setShowing(turning)
	cam := a.turnCam()
	cam.Yaw, cam.Pitch = d[0]*math.Pi/180, d[1]*math.Pi/180
	a.turned.fitted = false
	return nil
}

// turnCam is how the outline is turned; at first from ahead of the left side,
// fitted.
func (a *App) turnCam() *view.Turn {
	t := &a.turned
	if !t.known {
		d := lookFrom["front_left"]
		t.cam.Yaw, t.cam.Pitch, t.known = d[0]*math.Pi/180, d[1]*math.Pi/180, true
	}
	if !t.fitted {
		lo, hi := a.room()
		t.cam, t.fitted = t.cam.Fit(a.lay.Main, lo, hi, 46), true
	}
	return &t.cam
}

// frontFrom and frontTo (mm) are the ends of the arrow ahead of the vehicle that
// says where its front is.
const frontFrom, frontTo = -780.0, -1250.0

// room is the box around everything that has lines, the arrow ahead of it
// included.
func (a *App) room() (lo, hi scene.Vec) {
	lo, hi = scene.Vec{math.Inf(1), math.Inf(1), math.Inf(1)}, scene.Vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	grow := func(p scene.Vec, r float64) {
		for k := range p {
			lo[k], hi[k] = math.Min(lo[k], p[k]-r), math.Max(hi[k], p[k]+r)
		}
	}
	for _, w := range a.model.Wires(fitment.State{}) {
		for _, e := range w.Edges {
			for _, p := range e {
				grow(p, 0)
			}
		}
		for _, p := range w.Spine {
			grow(p, w.Radius)
		}
	}
	if lo[0] > hi[0] {
		grow(scene.Vec{}, 900)
		grow(scene.Vec{a.doc.Vehicle.WheelbaseMM, 0, 0}, 900)
	}
	lo[0] = math.Min(lo[0], frontTo)
	return lo, hi
}

func (a *App) turnBy(d mgl64.Vec2) {
	*a.turnCam() = a.turnCam().By(d)
	a.dirty = true
}

func (a *App) turnZoom(p mgl64.Vec2, factor float64) {
	*a.turnCam() = a.turnCam().ZoomAbout(a.lay.Main, p, factor)
	a.dirty = true
}

// turnPinch moves and zooms with two fingers.
func (a *App) turnPinch(mid, was mgl64.Vec2, span, wasSpan float64) {
	cam := a.turnCam()
	cam.Pan = cam.Pan.Add(mid.Sub(was))
	a.dirty = true
	if span > 10 && wasSpan > 10 {
		a.turnZoom(mid, span/wasSpan)
	}
}

// tapTurned selects what is under the finger.
func (a *App) tapTurned(p mgl64.Vec2) {
	a.finding = ""
	if i := a.turnSheet().PartAt(p, reachPx); i >= 0 {
		a.selectPart(a.doc.Parts[i].ID)
		return
	}
	a.selectPart("")
}

// turnWires are the lines of what is not hidden.
func (a *App) turnWires() []fitment.Wire {
	t := &a.turned
	if t.model != a.model || t.st != a.state() {
		t.model, t.st, t.wires = a.model, a.state(), a.model.Wires(a.state())
	}
	if a.hides == (hides{}) {
		return t.wires
	}
	var kept []fitment.Wire
	for _, w := range t.wires {
		if !a.hides.part(&a.doc.Parts[w.Part]) {
			kept = append(kept, w)
		}
	}
	return kept
}

// turnSheet is the outline as it stands.
func (a *App) turnSheet() *draw.TurnSheet {
	s := &draw.TurnSheet{Rect: a.lay.Main, Turn: *a.turnCam(), Wires: a.turnWires(), Parts: a.turnLooks(), Selected: -1,
		Tapes: a.tapeLines(), Held: a.tapeHeld(), Measure: a.measure, Caption: a.captionOf([]string{"Outline, turn it with a finger", "Turn it"}, "")}
	if a.selected != "" {
		s.Selected = a.partIndex(a.selected)
		s.Caption = a.name(a.selected)
	}
	v := &a.doc.Vehicle
	half := math.Max(v.Front.TrackMM, v.Rear.TrackMM)/2 + 250
	for _, p := range [4][2]float64{{-700, -half}, {-700, half}, {v.WheelbaseMM + 700, half}, {v.WheelbaseMM + 700, -half}} {
		s.Ground = append(s.Ground, a.onGround(p[0], p[1]))
	}
	s.Front = [2]scene.Vec{a.onGround(frontFrom, 0), a.onGround(frontTo, 0)}
	for _, r := range a.readings() {
		m := draw.TurnMark{Status: r.Status, Selected: r.Key == a.finding}
		for k := range m.At {
			m.At[k] = (r.PointsMM[0][k] + r.PointsMM[1][k]) / 2
		}
		s.Marks = append(s.Marks, m)
	}
	return s
}

// turnLooks colours all that falls short here, long parts too: there is no
// hatching that it could hide.
func (a *App) turnLooks() []draw.PartLook {
	list := a.looks(false)
	for _, r := range a.readings() {
		for _, id := range [2]string{r.A, r.B} {
			if i := a.partIndex(id); i >= 0 && list[i].Status != fitment.Contact {
				list[i].Status = r.Status
			}
		}
	}
	return list
}

// onGround is the point of the ground at a station and a distance to the right.
func (a *App) onGround(x, y float64) scene.Vec {
	n, c := a.model.GroundPlane(a.state())
	if n[2] == 0 {
		return scene.Vec{x, y, 0}
	}
	return scene.Vec{x, y, -(c + n[0]*x + n[1]*y) / n[2]}
}
