package app

import (
	"math"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// besideMM is how far another part may lie from a dragged one, along the axis
// it is not lined up on, and still be something to line up with.
const besideMM = 400.0

// guides are the lines a dragged part may settle on: faces of the frame and
// the centrelines from afar, edges and middles of the parts beside it from
// closer by.
func (a *App) guides(dragged int, boxes []box) []view.Guide {
	list := a.centrelines()
	moving := map[string]bool{}
	for _, id := range a.hand.movers {
		moving[id] = true
	}
	for _, o := range a.outs() {
		p := &a.doc.Parts[o.Part]
		e, ok := edgesOf(&o)
		if !ok || moving[p.ID] || a.view == fitment.SectionView && len(o.Cut) == 0 {
			continue // what lies far ahead is nothing to settle on
		}
		e = boxes[o.Part].refine(e, a.view)
		switch {
		case hasTrait(scene.TraitsOf(p), scene.Frame):
			list = append(list, faces(p.Name, e, false)...)
		case a.beside(e, boxes[dragged], boxes[o.Part]):
			list = append(list, faces(p.Name, e, true)...)
			mid := "middle of " + fitment.PlainName(p.Name)
			list = append(list, view.Guide{MM: (e.Lo[0] + e.Hi[0]) / 2, Name: mid, Middle: true, Weak: true},
				view.Guide{Second: true, MM: (e.Lo[1] + e.Hi[1]) / 2, Name: mid, Middle: true, Weak: true})
		}
	}
	return list
}

// beside says whether a part is near enough to the dragged one to line up with.
func (a *App) beside(e view.Extent, dragged, other box) bool {
	for axis := range dragged.lo {
		if dragged.lo[axis]-other.hi[axis] > besideMM || other.lo[axis]-dragged.hi[axis] > besideMM {
			return false
		}
	}
	return e.Hi[0]-e.Lo[0] < longMM && e.Hi[1]-e.Lo[1] < longMM
}

// faces are the four sides of a part as guides.
func faces(name string, e view.Extent, weak bool) []view.Guide {
	return []view.Guide{
		{MM: e.Lo[0], Name: name, Weak: weak}, {MM: e.Hi[0], Name: name, Weak: weak},
		{Second: true, MM: e.Lo[1], Name: name, Weak: weak}, {Second: true, MM: e.Hi[1], Name: name, Weak: weak},
	}
}

// centrelines are the vehicle's and the axles' as the view shows them. An
// axle's height counts in a section only where the axle is near.
func (a *App) centrelines() []view.Guide {
	var list []view.Guide
	if a.view != fitment.SideView {
		list = append(list, view.Guide{Second: a.view == fitment.PlanView, Name: "centre of the vehicle", Middle: true})
	}
	for _, on := range [2]scene.Carrier{scene.FrontAxle, scene.RearAxle} {
		c := a.model.WheelCentre(on, a.state())
		name := "front axle centreline"
		if on == scene.RearAxle {
			name = "rear axle centreline"
		}
		if a.view != fitment.SectionView {
			list = append(list, view.Guide{MM: c[0], Name: name, Middle: true})
		}
		if a.view == fitment.SideView || a.view == fitment.SectionView && math.Abs(a.station-c[0]) < besideMM {
			list = append(list, view.Guide{Second: true, MM: c[2], Name: name, Middle: true})
		}
	}
	return list
}
