package app

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// pickUp begins to move the part under the finger, with what goes with it.
func (a *App) pickUp(part string) {
	h := &a.hand
	i := a.partIndex(part)
	h.mode, h.before, h.along = dragPart, a.doc, [2]bool{}
	h.part, h.movers, h.at = part, a.movers(), a.doc.Parts[i].AtMM
	h.guides = nil
	boxes := a.boxes3()
	for _, o := range a.outs() {
		if e, ok := edgesOf(&o); ok && o.Part == i {
			h.extent = boxes[i].refine(e, a.view)
		}
	}
	h.guides = a.guides(i, boxes)
}

// edgesOf is the extent of what the section cuts of a part, else of what is
// seen of it.
func edgesOf(o *fitment.Outline) (view.Extent, bool) {
	if len(o.Cut) > 0 {
		return view.ExtentOf(o.Cut)
	}
	return view.ExtentOf(o.Seen)
}

// box is a part's exact extent along the three body axes, mm.
type box struct{ lo, hi scene.Vec }

// boxes3 are the exact extents of all parts in the state shown, by part index. Outlines are
// polygons, a little inside what is round.
func (a *App) boxes3() []box {
	list := make([]box, len(a.doc.Parts))
	for i := range list {
		list[i].lo, list[i].hi, _ = a.model.ExtentIn(a.doc.Parts[i].ID, a.state())
	}
	return list
}

// roundMM is more than a polygon lies inside the round thing it stands for.
const roundMM = 1.0

// refine puts the exact extent in the place of a polygon's where the two mean
// the same side; a cut through the middle of a part keeps its own.
func (b *box) refine(e view.Extent, v fitment.View) view.Extent {
	for k, axis := range axes(v) {
		if math.Abs(e.Lo[k]-b.lo[axis]) < roundMM {
			e.Lo[k] = b.lo[axis]
		}
		if math.Abs(e.Hi[k]-b.hi[axis]) < roundMM {
			e.Hi[k] = b.hi[axis]
		}
	}
	return e
}

func axes(v fitment.View) [2]int {
	first, second := view.Axes(v)
	return [2]int{first, second}
}

func hasTrait(list []scene.Trait, t scene.Trait) bool {
	for _, x := range list {
		if x == t {
			return true
		}
	}
	return false
}

// dragTo moves the picked-up part under the finger, settled on the grid and on
// guides, and shows it there; nothing is committed yet.
func (a *App) dragTo(f *finger) {
	h := &a.hand
	proj := a.projection()
	move := h.steady(proj.Step(f.now.Sub(f.start)), wanderTouch/a.camera().PxPerMM)
	first, second := view.Axes(a.view)
	at := fitment.Pt{h.at[first], h.at[second]}
	k := a.camera().PxPerMM
	s := view.Snap(at, h.extent, move, view.Grid(a.doc.Show, k), snapPx/k, h.guides)
	h.on = h.on[:0]
	for _, g := range [2]*view.Guide{s.First, s.Second} {
		if g != nil {
			h.on = append(h.on, *g)
		}
	}
	doc, _, err := scene.MoveParts(h.before, h.movers, view.Lift(a.view, s.Move))
	if err == nil {
		err = a.show(doc)
	}
	if err != nil {
		a.say(err.Error())
	}
}

// steady leaves an axis alone until the finger has gone least (mm) along it: a
// part that is drawn sideways keeps its height.
func (h *hand) steady(move fitment.Pt, least float64) fitment.Pt {
	for k := range 2 {
		h.along[k] = h.along[k] || math.Abs(move[k]) >= least
		if !h.along[k] {
			move[k] = 0
		}
	}
	return move
}

// drop commits the move.
func (a *App) drop() {
	h := &a.hand
	i := a.partIndex(h.part)
	if i < 0 || h.before == nil || a.doc.Parts[i].AtMM == h.at {
		return
	}
	var by scene.Vec
	for k := range by {
		by[k] = a.doc.Parts[i].AtMM[k] - h.at[k]
	}
	fits := a.roomWords()
	before := h.before
	if err := a.arranged(scene.MoveParts(before, h.movers, by)); err != nil {
		a.say(sentence(err.Error()))
		return
	}
	a.keepRoom(before)
	if fits != "" && fits != "fits here" && a.message == "" {
		a.say("Dropped " + fits + ". Undo takes it back.")
	}
}

// staff is the height staff as it stands.
func (a *App) staff() view.Staff {
	st := view.NewStaff(a.lay.Staff, &a.travel)
	st.Handle *= min(a.letters, handleMost)
	return st
}

// saddleAt is the saddle under a screen point.
func (a *App) saddleAt(p mgl64.Vec2) (saddle, view.Rect, bool) {
	st := a.staff()
	if !a.apart {
		r := st.Saddle(a.travel.Coord(a.front, a.rear))
		return both, r, r.Inset(-4).Contains(p)
	}
	if r := st.SaddleFront(a.front); r.Inset(-2).Contains(p) {
		return frontSaddle, r, true
	}
	r := st.SaddleRear(a.rear)
	return rearSaddle, r, r.Inset(-2).Contains(p)
}

// staffTo moves the held saddle to a height on the screen. Named heights
// attract it; between them it counts in whole millimetres or sixteenths.
func (a *App) staffTo(y float64) {
	st := a.staff()
	mm := view.Round(st.MM(y), a.step())
	reach := 10 / st.PxPerMM()
	t := &a.travel
	var named []float64
	for _, h := range a.doc.Heights {
		switch a.hand.which {
		case frontSaddle:
			named = append(named, h.FrontMM)
		case rearSaddle:
			named = append(named, h.RearMM)
		default:
			named = append(named, t.Coord(h.FrontMM, h.RearMM))
		}
	}
	if v, ok := view.Nearest(st.MM(y), reach, named); ok {
		mm = v
	}
	switch a.hand.which {
	case frontSaddle:
		a.setHeight(mm, a.rear)
	case rearSaddle:
		a.setHeight(a.front, mm)
	default:
		f, r := t.Pair(mm)
		a.setHeight(f, r)
	}
}

// step is the finest step of the unit.
func (a *App) step() float64 {
	if a.doc.Show == scene.Inches {
		return 25.4 / 16
	}
	return 1
}

// setHeight puts the body at a height within its travel.
func (a *App) setHeight(front, rear float64) {
	if front == a.front && rear == a.rear && a.posed == nil {
		return
	}
	a.front, a.rear = front, rear
	a.left = nil // the user went on from here
	a.posed = nil
	a.holdHeight()
	a.touch()
}

// tapStaff goes to what is nearest to the finger: left of the staff's edge a
// finding at its mark, right of it a named height.
func (a *App) tapStaff(p mgl64.Vec2) {
	st := a.staff()
	best, found := 24.0, -1
	if p[0] < st.LineX+6 {
		rungs := a.rungs()
		for i, r := range rungs {
			if d := math.Abs(st.Y(r.MM) - p[1]); d < best {
				best, found = d, i
			}
		}
		if found >= 0 { // to where it begins, which is what the rung shows
			front, rear := a.travel.Pair(rungs[found].MM)
			a.toRung(rungs[found].Key, front, rear)
			a.opened, a.onRung = a.opened+1, true
		}
		return
	}
	for i, h := range a.doc.Heights {
		if d := math.Abs(st.Y(a.travel.Coord(h.FrontMM, h.RearMM)) - p[1]); d < best {
			best, found = d, i
		}
	}
	if found >= 0 {
		a.toNamed(&a.doc.Heights[found])
	}
}

// toNamed puts the body at a named height. One that is not in the proportion
// of the others needs the two ends apart.
func (a *App) toNamed(h *scene.Height) {
	f, r := a.travel.Pair(a.travel.Coord(h.FrontMM, h.RearMM))
	if !near(f, h.FrontMM) || !near(r, h.RearMM) {
		a.apart = true
	}
	a.setHeight(h.FrontMM, h.RearMM)
	a.left = nil
	a.live = h.Name
	a.touch()
}

// near says whether two heights are the same to the eye.
func near(a, b float64) bool { return math.Abs(a-b) < 0.05 }

// flagX is where the flag stands on the screen.
func (a *App) flagX() float64 {
	f := a.stripSheet().Flag()
	return f.X + f.W/2
}

// flagTo moves the station to a place on the strip. Ends of parts and axle
// centrelines attract it.
func (a *App) flagTo(x float64) {
	proj := a.stripProjection()
	mm := proj.World(mgl64.Vec2{x, a.lay.Strip.Middle()[1]})[0]
	list := []float64{0, a.doc.Vehicle.WheelbaseMM}
	for _, o := range a.sideOuts() {
		if e, ok := view.ExtentOf(o.Seen); ok {
			list = append(list, e.Lo[0], e.Hi[0])
		}
	}
	if v, ok := view.Nearest(mm, 3/a.strip.PxPerMM, list); ok {
		a.setStation(v)
		return
	}
	a.setStation(view.Round(mm, view.Grid(a.doc.Show, 0)))
}

// setStation moves the section, within the strip.
func (a *App) setStation(mm float64) {
	proj, r := a.stripProjection(), a.lay.Strip
	y := r.Middle()[1]
	low, high := proj.World(mgl64.Vec2{r.X + 4, y})[0], proj.World(mgl64.Vec2{r.X + r.W - 4, y})[0]
	mm = math.Round(math.Max(low, math.Min(high, mm))*1000) / 1000
	if mm != a.station {
		a.station = mm
		a.touch()
	}
}
