package app

import (
	"errors"
	"math"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// rooms is the room map of the part in hand, or of the selected part when asked
// for. A part's own place in the plane does not change its room, so that one map
// serves a whole drag.
type rooms struct {
	on    bool // asked for
	part  string
	view  fitment.View
	cell  float64
	doc   *scene.Document // what it is of, the part's place in the plane apart
	room  *fitment.Room   // nil: it cannot be had
	done  bool
	drawn *draw.RoomMap
	atMS  float64 // when that was drawn
}

// roomFor is the part whose room is shown now; empty for none.
func (a *App) roomFor() string {
	switch {
	case a.showing != oneLarge || a.view == fitment.FrontView:
		return ""
	case a.hand.mode == dragPart:
		return a.hand.part
	case a.rooms.on && a.selected != "" && a.hand.mode != dragStaff:
		return a.selected
	}
	return ""
}

// roomSlice begins or refines the room that is shown.
func (a *App) roomSlice() {
	k := &a.rooms
	part := a.roomFor()
	if part == "" {
		return
	}
	doc := a.doc
	if a.hand.mode == dragPart {
		doc = a.hand.before
	}
	if cell := a.roomCell(); k.part != part || k.view != a.view || k.cell != cell || k.doc != doc {
		on := k.on
		*k = rooms{on: on, part: part, view: a.view, cell: cell, doc: doc}
		m := a.modelOf(doc)
		if m == nil {
			return
		}
		if r, err := m.NewRoomWithin(part, a.view, fitment.RoomReachMM, cell); err == nil {
			k.room = r
		}
	}
	if k.room == nil || k.done {
		return
	}
	most := roomMS
	if a.dirty { // this frame has a finger to follow
		most /= 2
	}
	from := a.host.NowMS()
	for !k.done && a.host.NowMS()-from < most {
		k.done = k.room.Advance(roomStep)
	}
	if k.done || from-k.atMS > roomEveryMS {
		k.drawn, k.atMS = nil, from
		a.dirty = true
	}
	if !k.done {
		a.host.Wake(100)
	} else {
		a.touch()
	}
}

// A slice takes no longer than roomMS, so that the finger keeps its frames; the
// clock is looked at after every roomStep cells.
const (
	roomMS   = 4.0
	roomStep = 4
)

// roomEveryMS is how often a map that is still being worked out is drawn: finding
// its borders takes longer than a slice.
const roomEveryMS = 150.0

// roomCell is how fine the map is: about what a few pixels are, and 5 mm at most.
func (a *App) roomCell() float64 {
	switch k := a.camera().PxPerMM; {
	case k > 3.2:
		return 1.25
	case k > 1.6:
		return 2.5
	}
	return fitment.RoomCellMM
}

// keepRoom lets the room go on as that of a document in which its part was only
// moved in the plane.
func (a *App) keepRoom(before *scene.Document) {
	if a.rooms.doc == before {
		a.rooms.doc = a.doc
	}
}

// roomPoint is where a part's reference point is in the plane of the main view,
// as it is drawn at ride, and by how much its carrier has moved since.
func (a *App) roomPoint(part string) (at, moved fitment.Pt, ok bool) {
	p, err := a.part(part)
	if err != nil {
		return at, moved, false
	}
	from := a.model.CarrierOrigin(p.Carrier)
	now := from
	if p.Carrier != scene.Body && p.Carrier != scene.Ground {
		now = a.model.WheelCentre(p.Carrier, a.state())
	}
	first, second := view.Axes(a.view)
	for k, axis := range [2]int{first, second} {
		at[k], moved[k] = p.AtMM[axis]+from[axis], now[axis]-from[axis]
	}
	return at, moved, true
}

// roomHere is the room as it is drawn; nil for none.
func (a *App) roomHere() *draw.RoomMap {
	k := &a.rooms
	if k.room == nil || k.part != a.roomFor() || k.view != a.view {
		return nil
	}
	at, moved, ok := a.roomPoint(k.part)
	if !ok {
		return nil
	}
	by, _ := k.room.At(at[0], at[1])
	if k.drawn == nil {
		k.drawn = a.roomMap(k.room, moved)
	}
	out := *k.drawn
	out.At, out.Fits = fitment.Pt{at[0] + moved[0], at[1] + moved[1]}, by == ""
	return &out
}

// roomMap makes pieces to draw of a room.
func (a *App) roomMap(r *fitment.Room, moved fitment.Pt) *draw.RoomMap {
	m := &draw.RoomMap{}
	at := func(u, w float64) fitment.Pt { return fitment.Pt{u + moved[0], w + moved[1]} }
	for w := range r.Nw {
		lo := r.LoMM[1] + float64(w)*r.CellMM
		for _, run := range r.Row(w) {
			if run.By != "" {
				continue
			}
			from, to := r.LoMM[0]+float64(run.From)*r.CellMM, r.LoMM[0]+float64(run.To)*r.CellMM
			m.Free = append(m.Free, []fitment.Pt{at(from, lo), at(to, lo), at(to, lo+r.CellMM), at(from, lo+r.CellMM)})
		}
	}
	m.Hatch = a.roomHatch(r, at)
	for _, s := range r.Sides() {
		m.Sides = append(m.Sides, []fitment.Pt{at(s.FromMM[0], s.FromMM[1]), at(s.ToMM[0], s.ToMM[1])})
	}
	if !r.Rough() {
		w := fitment.NewWords(a.doc)
		for _, b := range r.Borders() {
			m.Names = append(m.Names, draw.RoomName{At: at(b.AtMM[0], b.AtMM[1]), Text: w.BorderName(&b)})
		}
	}
	return m
}

// hatchPX is how far apart the hatch lines of a room are, about, on the screen.
const hatchPX = 26.0

// roomHatch lays slanting lines over the free cells: along each line the rows that
// are free one after the other make one piece.
func (a *App) roomHatch(r *fitment.Room, at func(u, w float64) fitment.Pt) (lines [][]fitment.Pt) {
	every := max(1, int(math.Round(hatchPX/a.camera().PxPerMM/r.CellMM)))
	for c := -r.Nw; c < r.Nu; c++ {
		if (c%every+every)%every != 0 {
			continue
		}
		from := -1
		for w := range r.Nw + 1 {
			u := c + w
			free := w < r.Nw && u >= 0 && u < r.Nu && r.Free(u, w)
			switch {
			case free && from < 0:
				from = w
			case !free && from >= 0:
				lo := r.LoMM
				lines = append(lines, []fitment.Pt{
					at(lo[0]+float64(c+from)*r.CellMM, lo[1]+float64(from)*r.CellMM),
					at(lo[0]+float64(c+w)*r.CellMM, lo[1]+float64(w)*r.CellMM)})
				from = -1
			}
		}
	}
	return lines
}

// roomWords say whether the part in hand fits where it is; empty where that is not
// known.
func (a *App) roomWords() string {
	k := &a.rooms
	at, _, ok := a.roomPoint(k.part)
	if !ok || k.room == nil || k.room.Rough() || k.part != a.roomFor() || k.view != a.view {
		return ""
	}
	switch by, known := k.room.At(at[0], at[1]); {
	case !known:
		return ""
	case by == "":
		return "fits here"
	case by == fitment.RimLineName:
		return "below the rim line"
	default:
		return "too close to " + a.plain(by)
	}
}

// sits puts the room that is asked for into a sentence: what the field in the
// drawing is, or why there is none.
func (a *App) sits() string {
	k := &a.rooms
	switch {
	case !k.on || a.selected == "":
		return ""
	case a.showing != oneLarge || a.view == fitment.FrontView:
		return "Shown in the section, the side view and the plan."
	case k.part != a.selected || k.view != a.view || k.room == nil || !k.done:
		return "Working it out …"
	case k.room.FreeShare() > 0:
		text := "Its cross may stand anywhere in the hatched field: there it keeps every need over the whole travel."
		if now := a.roomWords(); now != "" && now != "fits here" {
			text += " Where it stands it is " + now + "."
		}
		return text
	}
	return "No place within reach in this view: " + a.roomWords() + " where it stands, and something is in the way everywhere else. Look from another side."
}

// roomCommand shows or hides the room of the selected part.
func (a *App) roomCommand(c *Command, _ *Reply) error {
	if c.On && a.selected == "" {
		return errors.New("select a part to see its room")
	}
	a.rooms.on = c.On
	if c.On && (a.showing != oneLarge || a.view == fitment.FrontView) {
		a.say("A room is shown in the section, the side view and the plan.")
	}
	return nil
}
