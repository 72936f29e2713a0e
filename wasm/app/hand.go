package app

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// mode is what the fingers on the canvas are doing.
type mode int

const (
	idle      mode = iota
	pressed        // one finger down, not moved yet
	panning        // one finger moves the drawing
	pinching       // two fingers zoom and move it
	dragPart       // one finger moves the selected part
	dragStaff      // one finger moves a saddle
	dragFlag       // one finger moves the station
	dragPhoto      // one finger moves the held photo
	picked         // one finger rested and picked; lifting it leaves that so, moving takes it back
	spent          // what was begun is over; wait until all fingers are up
)

// Pixels a finger may wander before a press becomes a drag, and around a small
// thing within which it still counts as touched (half of 44).
const (
	wanderTouch = 7.0
	wanderMouse = 3.0
	reachPx     = 22.0
	snapPx      = 8.0
	doubleTapMS = 350.0
	palmMS      = 60000.0
)

// finger is one pointer that is down.
type finger struct {
	id         int
	kind       string // mouse, touch, pen
	start, now mgl64.Vec2
}

// hand is all fingers and what they are at.
type hand struct {
	mode    mode
	fingers []finger // in the order they came down
	zone    zone     // where the first came down
	restMS  float64  // how long it has rested, and when that was last counted
	tickMS  float64
	unpick  func()  // picked: what takes that back
	penMS   float64 // when a pen was last down: for a while after, a finger may be a palm and moves no metal

	grip    mgl64.Vec2      // staff and flag: finger less handle, so that nothing jumps
	which   saddle          // dragStaff
	before  *scene.Document // dragPart, dragPhoto: what to go back to
	part    string          // dragPart: the part the finger holds
	movers  []string        // dragPart: what moves with it
	at      scene.Vec       // dragPart: where the part was
	along   [2]bool         // dragPart: axes the finger has really moved along
	extent  view.Extent     // dragPart: its extent in the plane
	guides  []view.Guide    // dragPart: what it may settle on
	on      []view.Guide    // dragPart: what it has settled on
	heights [2]float64      // dragStaff: where the body was
	station float64         // dragFlag: where the section was
	photoAt fitment.Pt      // dragPhoto: where it was

	lastTap   mgl64.Vec2
	lastTapMS float64
	lastMS    float64 // when the last movement came in
}

type zone int

const (
	nowhere zone = iota
	onMain
	onStaff
	onStrip
	onSmall
)

type saddle int

const (
	both saddle = iota
	frontSaddle
	rearSaddle
)

func newHand() hand { return hand{lastTapMS: math.Inf(-1), penMS: math.Inf(-1)} }

func (h *hand) clear() { h.mode, h.fingers, h.before, h.on = idle, nil, nil, nil }

func (h *hand) find(id int) *finger {
	for i := range h.fingers {
		if h.fingers[i].id == id {
			return &h.fingers[i]
		}
	}
	return nil
}

func (h *hand) lift(id int) {
	for i := range h.fingers {
		if h.fingers[i].id == id {
			h.fingers = append(h.fingers[:i], h.fingers[i+1:]...)
			return
		}
	}
}

// Pointer is one pointer event of the page: its type (pointerdown, pointermove,
// pointerup, pointercancel), mouse, touch or pen, its id, and where, in CSS
// pixels within the canvas.
func (a *App) Pointer(event, kind string, id int, x, y, _ float64) {
	p := mgl64.Vec2{x, y}
	if math.IsNaN(x+y) || math.IsInf(x+y, 0) {
		return
	}
	h := &a.hand
	h.lastMS = a.host.NowMS()
	switch event {
	case "pointerdown":
		a.down(finger{id, kind, p, p})
	case "pointermove":
		if f := h.find(id); f != nil {
			old := f.now
			f.now = p
			a.moved(f, old)
		}
	case "pointerup":
		if f := h.find(id); f != nil {
			f.now = p
			a.up(*f)
		}
	case "pointercancel":
		if h.find(id) != nil {
			a.rollBack()
			h.lift(id)
			a.settle()
		}
	}
	a.host.Wake(150)
}

// down begins a gesture, or turns a one-finger gesture into a pinch.
func (a *App) down(f finger) {
	h := &a.hand
	if old := h.find(f.id); old != nil { // its end was lost
		a.rollBack()
		h.lift(f.id)
		a.settle()
	}
	if f.kind == "pen" {
		h.penMS = h.lastMS
	}
	for _, g := range h.fingers {
		if g.kind == "pen" && f.kind == "touch" {
			return // a palm beside the pen
		}
	}
	h.fingers = append(h.fingers, f)
	if len(h.fingers) > 1 {
		if h.zone == onMain && a.zoneOf(f.start) == onMain && h.mode != spent {
			a.rollBack()
			h.mode = pinching
		}
		return
	}
	a.takeUp(f.start)
	h.zone, h.restMS, h.tickMS = a.zoneOf(f.start), 0, h.lastMS
	h.mode = pressed
	a.host.Wake(int(longPressMS) + 150)
	a.grab(f)
}

func (a *App) zoneOf(p mgl64.Vec2) zone {
	switch {
	case a.lay.Main.Contains(p):
		return onMain
	case a.lay.Staff.Contains(p):
		return onStaff
	case a.lay.Strip.Contains(p):
		return onStrip
	case a.lay.Small.Contains(p):
		return onSmall
	}
	return nowhere
}

// grab takes hold of a saddle or the flag at once when the finger is on it.
func (a *App) grab(f finger) {
	h := &a.hand
	switch h.zone {
	case onStaff:
		h.heights = [2]float64{a.front, a.rear}
		if s, r, ok := a.saddleAt(f.start); ok {
			h.mode, h.which = dragStaff, s
			h.grip = f.start.Sub(r.Middle())
			a.dirty = true
		}
	case onStrip:
		h.station = a.station
		flag := a.flagX()
		if math.Abs(f.start[0]-flag) <= 40 {
			h.mode = dragFlag
			h.grip = mgl64.Vec2{f.start[0] - flag, 0}
		}
	}
}

// moved carries a gesture on after a finger moved from old.
func (a *App) moved(f *finger, old mgl64.Vec2) {
	h := &a.hand
	if h.mode == pressed || h.mode == picked {
		wander := wanderTouch
		if f.kind == "mouse" {
			wander = wanderMouse
		}
		if d := f.now.Sub(f.start).Len(); d < wander {
			if d > restPX { // it has begun to move, however slowly the page follows
				h.restMS = 0
			}
			return
		}
		if h.mode == picked {
			h.unpick()
		}
		a.begun(f)
		old = f.start
	}
	switch h.mode {
	case panning:
		if a.showing == turning {
			a.turnBy(f.now.Sub(old))
			return
		}
		*a.camera() = a.camera().PanBy(f.now.Sub(old))
		a.dirty = true
	case pinching:
		a.pinch(f, old)
	case dragPart:
		a.dragTo(f)
	case dragStaff:
		a.staffTo(f.now.Sub(h.grip)[1])
	case dragFlag:
		a.flagTo(f.now[0] - h.grip[0])
	case dragPhoto:
		a.photoTo(f)
	}
}

// begun decides what a press that starts to move is. Only a part that was
// selected or picked before is moved: a stray finger moves the drawing, never metal.
func (a *App) begun(f *finger) {
	h := &a.hand
	switch {
	case h.zone == onStrip:
		h.mode = dragFlag
		h.grip = mgl64.Vec2{}
	case h.zone != onMain:
		h.mode = spent
	case a.showing == turning || a.tape.on:
		h.mode = panning
	case a.heldPhoto() != nil:
		a.pickUpPhoto(a.heldPhoto())
	case !(f.kind == "touch" && h.lastMS < h.penMS+palmMS) && a.held(f.start) != "":
		if err := a.ready(); err != nil {
			a.say(sentence(err.Error()))
			h.mode = panning
			return
		}
		a.pickUp(a.held(f.start))
	default:
		h.mode = panning
	}
}

// pinch zooms about the middle of the first two fingers and moves with it.
func (a *App) pinch(f *finger, old mgl64.Vec2) {
	h := &a.hand
	if len(h.fingers) < 2 {
		return
	}
	p, q := h.fingers[0], h.fingers[1]
	pOld, qOld := p.now, q.now
	switch f.id {
	case p.id:
		pOld = old
	case q.id:
		qOld = old
	default:
		return
	}
	mid, was := p.now.Add(q.now).Mul(0.5), pOld.Add(qOld).Mul(0.5)
	span, wasSpan := p.now.Sub(q.now).Len(), pOld.Sub(qOld).Len()
	if a.showing == turning {
		a.turnPinch(mid, was, span, wasSpan)
		return
	}
	cam := a.camera().PanBy(mid.Sub(was))
	if span > 10 && wasSpan > 10 {
		cam = cam.ZoomAbout(a.lay.Main, mid, span/wasSpan)
	}
	*a.camera() = cam
	a.dirty = true
}

// up ends a gesture, or a tap.
func (a *App) up(f finger) {
	h := &a.hand
	switch h.mode {
	case pressed:
		a.tap(f.now)
	case dragPart:
		a.drop()
	case dragPhoto:
		a.dropPhoto()
	case dragStaff, dragFlag:
		a.panelsDue, a.dirty = true, true
	}
	h.lift(f.id)
	a.settle()
}

// settle goes to rest once all fingers are up; after a pinch the finger that
// is left does nothing.
func (a *App) settle() {
	h := &a.hand
	if len(h.fingers) == 0 {
		h.mode, h.before, h.on, h.unpick = idle, nil, nil, nil
		a.dirty = true
		return
	}
	if h.mode != pinching || len(h.fingers) < 2 {
		h.mode = spent
	}
}

// rollBack undoes what an unfinished gesture did.
func (a *App) rollBack() {
	h := &a.hand
	switch h.mode {
	case dragPhoto:
		if h.before != nil {
			a.doc = h.before
		}
	case dragPart:
		if h.before != nil {
			// The document stood before, so it can be built again.
			if err := a.show(h.before); err != nil {
				a.say(err.Error())
			}
		}
	case dragStaff:
		a.front, a.rear = h.heights[0], h.heights[1]
	case dragFlag:
		a.station = h.station
	}
	h.before, h.on = nil, nil
	a.touch()
}

// stallMS is the most of the time between two frames that counts as resting: in
// a longer one the page was busy, and the finger may be up already.
const stallMS = 250.0

// restPX is how far a finger that rests may tremble.
const restPX = 3.0

// rested counts how long a finger has rested on the main drawing, and says when
// that is a long press.
func (h *hand) rested(now float64) bool {
	if h.mode != pressed || h.zone != onMain {
		return false
	}
	h.restMS += math.Min(now-h.tickMS, stallMS)
	h.tickMS = now
	return h.restMS >= longPressMS
}
