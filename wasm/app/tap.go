package app

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// tap is a finger that came down and went up in place.
func (a *App) tap(p mgl64.Vec2) {
	switch a.hand.zone {
	case onMain:
		switch {
		case a.tape.on:
			a.tapTape(p)
		case a.showing == turning:
			a.tapTurned(p)
		default:
			a.tapMain(p)
		}
	case onStaff:
		a.tapStaff(p)
	case onStrip:
		a.flagTo(p[0])
		a.touch()
	case onSmall:
		a.swapSmall()
	}
}

// tapMain selects the mark or the part under the finger; a second tap on empty
// paper shows everything.
func (a *App) tapMain(p mgl64.Vec2) {
	h := &a.hand
	now := h.lastMS
	if key := a.markAt(p); key != "" {
		a.openFinding(key)
		return
	}
	if i := a.partAt(p); i >= 0 && a.arr.picking {
		a.pick(a.doc.Parts[i].ID, !a.isPicked(a.doc.Parts[i].ID))
		h.lastTap, h.lastTapMS = p, math.Inf(-1)
		return
	}
	if i := a.deeper(p); i >= 0 {
		a.selectPart(a.doc.Parts[i].ID)
		h.lastTap, h.lastTapMS = p, math.Inf(-1)
		return
	}
	if now-h.lastTapMS < doubleTapMS && p.Sub(h.lastTap).Len() < 40 {
		a.fitAll()
		h.lastTapMS = math.Inf(-1)
	} else {
		h.lastTap, h.lastTapMS = p, now
		a.selectPart("")
		a.finding = ""
	}
	a.touch()
}

// openFinding opens the finding of a mark that was tapped, in place of what is
// open: the list shows it.
func (a *App) openFinding(key string) {
	a.selectPart("")
	a.finding, a.form = key, ""
	a.opened, a.onRung = a.opened+1, false
	a.touch()
}

// selectPart selects a part by id; empty selects none.
func (a *App) selectPart(id string) {
	if id != a.selected {
		a.between, a.arr.alone = [2]string{}, false
	}
	if id != "" {
		a.arr.picking, a.arr.picked = false, nil
	}
	a.selected = id
	if id != "" {
		a.form = ""
		a.live = a.doc.Parts[a.partIndex(id)].Name + " selected"
	}
	a.touch()
}

// partAt is the index of the part under a screen point, −1 for none.
func (a *App) partAt(p mgl64.Vec2) int {
	proj := a.projection()
	if hits := a.partsAt(proj.World(p)); len(hits) > 0 {
		return hits[0]
	}
	return -1
}

// partsAt lists the parts at a point of the view's plane, in the order a finger
// means them: nearest to the eye first, but what is long, a body or a rail,
// after what it hides. The hidden part is drawn there too, dashed.
func (a *App) partsAt(p fitment.Pt) []int {
	long := a.longParts()
	var first, last []int
	for _, i := range a.picker().Hits(p, 12/a.camera().PxPerMM) {
		part := a.outs()[i].Part
		if a.view != fitment.SectionView && long[part] {
			last = append(last, part)
			continue
		}
		first = append(first, part)
	}
	return append(first, last...)
}

// deeper is the part to select with a tap at p: the first there, or, when the
// tap before was at the same place, the one behind what is selected now.
func (a *App) deeper(p mgl64.Vec2) int {
	proj := a.projection()
	hits := a.partsAt(proj.World(p))
	if len(hits) == 0 {
		return -1
	}
	if p.Sub(a.hand.lastTap).Len() < reachPx {
		for k, i := range hits {
			if a.doc.Parts[i].ID == a.selected {
				return hits[(k+1)%len(hits)]
			}
		}
	}
	return hits[0]
}

// held is the selected or picked part that a screen point lies on, whatever
// else lies there, or within a finger's reach of a small one; empty for none.
func (a *App) held(p mgl64.Vec2) string {
	proj := a.projection()
	for _, id := range a.chosen() {
		i := a.partIndex(id)
		for _, o := range a.outs() {
			if o.Part != i {
				continue
			}
			one := view.NewPicker([]fitment.Outline{o})
			if len(one.Hits(proj.World(p), reachPx/a.camera().PxPerMM)) > 0 {
				return id
			}
		}
	}
	return ""
}

// markAt is the key of the finding whose mark is under a screen point.
func (a *App) markAt(p mgl64.Vec2) string { return markIn(a.marks(), a.projection(), p) }

func markIn(marks []draw.Mark, proj view.Projection, p mgl64.Vec2) string {
	best, key := reachPx, ""
	for i := range marks {
		if d := marks[i].At(&proj).Sub(p).Len(); d < best {
			best, key = d, marks[i].Key
		}
	}
	return key
}
