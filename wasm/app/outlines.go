package app

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// outlineCache keeps the outlines of the main view and of the strip for as
// long as nothing they depend on changes.
type outlineCache struct {
	main    [views]outlineEntry // by view
	side    outlineEntry
	borders draw.Borders
}

type outlineEntry struct {
	model   *fitment.Model
	view    fitment.View
	station float64
	st      fitment.State
	left    string // the classes left out
	outs    []fitment.Outline
	picker  *view.Picker // nil: not asked for yet
	hidden  [][][2]fitment.Pt
	known   bool   // hidden was computed
	long    []bool // side view: which parts are long; nil: not asked yet
}

func (e *outlineEntry) get(m *fitment.Model, v fitment.View, station float64, st fitment.State, h *hides) []fitment.Outline {
	if left := h.key(); e.model != m || e.view != v || e.station != station || e.st != st || e.left != left {
		outs := draw.PaintOrder(v, station, h.kept(m.Doc, m.Outlines(v, station, st)))
		*e = outlineEntry{model: m, view: v, station: station, st: st, left: left, outs: outs}
	}
	return e.outs
}

// hiddenLines are the hidden lines of the outlines last asked for.
func (e *outlineEntry) hiddenLines(b *draw.Borders) [][][2]fitment.Pt {
	if !e.known {
		e.hidden, e.known = draw.Hidden(e.outs, e.view, b), true
	}
	return e.hidden
}

// outs are the outlines of the main view, back to front.
func (a *App) outs() []fitment.Outline {
	station := a.station
	if a.view != fitment.SectionView {
		station = 0
	}
	return a.cache.main[a.view].get(a.model, a.view, station, a.state(), &a.hides)
}

// picker finds parts of the main view under a finger.
func (a *App) picker() *view.Picker {
	a.outs()
	e := &a.cache.main[a.view]
	if e.picker == nil {
		p := view.NewPicker(e.outs)
		e.picker = &p
	}
	return e.picker
}

// sideOuts are the outlines of the strip, back to front.
func (a *App) sideOuts() []fitment.Outline {
	return a.cache.side.get(a.model, fitment.SideView, 0, a.state(), &a.hides)
}

// camera is the main view's camera; a view not looked at yet is fitted first.
func (a *App) camera() *view.Camera {
	i := a.camAt(a.view)
	if !a.fitted[i] {
		f := &a.framings[i]
		if f.all {
			a.cams[i] = a.fitCamera(a.view)
		} else {
			a.cams[i] = a.homeCamera(a.view)
		}
		a.fitted[i], f.fitted = true, a.cams[i]
	}
	return &a.cams[i]
}

// project is the projection of a view through a camera.
func (a *App) project(v fitment.View, cam view.Camera, r view.Rect) view.Projection {
	n, c := a.model.GroundPlane(a.state())
	return view.Project(v, a.station, n, c, cam, r)
}

// projection is the main view's projection.
func (a *App) projection() view.Projection {
	return a.project(a.view, *a.camera(), a.lay.Main)
}

// stripProjection is the side strip's projection.
func (a *App) stripProjection() view.Projection {
	return a.project(fitment.SideView, a.strip, a.lay.Strip)
}

// fitStrip shows the whole vehicle in the strip.
func (a *App) fitStrip() {
	lo, hi := a.bounds(fitment.SideView)
	a.strip = view.Fit(a.lay.Strip, lo, hi, 7)
}

// fitAll shows all of the main view.
func (a *App) fitAll() {
	if a.showing == turning {
		a.turned.fitted = false
		return
	}
	i := a.camAt(a.view)
	a.fitted[i], a.framings[i].all = false, true
	a.camera()
}

// fitCamera is the camera that shows all of a view.
func (a *App) fitCamera(v fitment.View) view.Camera {
	lo, hi := a.bounds(v)
	return view.Fit(a.lay.Main, lo, hi, 26)
}

// homeCamera is how a view is first seen: all of it, but the section closer,
// on what lies between the ground and the tops of the running gear, where the
// work is. What else there is room for is what stands above that.
func (a *App) homeCamera(v fitment.View) view.Camera {
	all := a.fitCamera(v)
	if v != fitment.SectionView {
		return all
	}
	lo, hi := a.boundsOf(v, func(p *scene.Part) bool {
		t := scene.TraitsOf(p)
		return hasTrait(t, scene.Frame) || hasTrait(t, scene.TyreTrait) || hasTrait(t, scene.Moving)
	})
	const margin = 26
	r := a.lay.Main
	k := (r.W - 2*margin) / math.Max(hi[0]-lo[0], 1)
	_, top := a.bounds(v)
	hi[1] = math.Max(hi[1], math.Min(top[1], lo[1]+(r.H-3*margin)/k)) // the ground at the lower edge of a low sheet
	if cam := view.Fit(r, lo, hi, margin); cam.PxPerMM > all.PxPerMM {
		return cam
	}
	return all
}

// bounds is the box around all parts of a view, at ride, in ground axes; the
// ground itself belongs to it.
func (a *App) bounds(v fitment.View) (lo, hi mgl64.Vec2) {
	return a.boundsOf(v, func(*scene.Part) bool { return true })
}

// boundsOf is [App.bounds] of some of the parts.
func (a *App) boundsOf(v fitment.View, want func(*scene.Part) bool) (lo, hi mgl64.Vec2) {
	st := fitment.StateAt(0, 0)
	n, c := a.model.GroundPlane(st)
	m := view.GroundAxes(v, a.station, n, c)
	lo, hi = mgl64.Vec2{math.Inf(1), math.Inf(1)}, mgl64.Vec2{math.Inf(-1), math.Inf(-1)}
	for _, o := range draw.PaintOrder(v, a.station, a.model.Outlines(v, a.station, st)) {
		if !want(&a.doc.Parts[o.Part]) {
			continue
		}
		for _, group := range [2][][]fitment.Pt{o.Seen, o.Cut} {
			for _, piece := range group {
				for _, p := range piece {
					q := m.Mul3x1(mgl64.Vec3{p[0], p[1], 1})
					for k := range 2 {
						lo[k], hi[k] = math.Min(lo[k], q[k]), math.Max(hi[k], q[k])
					}
				}
			}
		}
	}
	if lo[0] > hi[0] {
		lo, hi = mgl64.Vec2{-900, 0}, mgl64.Vec2{900, 900}
		if v != fitment.SectionView {
			hi[0] = a.doc.Vehicle.WheelbaseMM + 900
		}
	}
	if v != fitment.PlanView {
		lo[1] = math.Min(lo[1], 0)
	}
	return lo, hi
}

// zoomKept is the zoom a finding is shown with at least: close enough to see a
// gap of a few millimetres.
const zoomKept = 0.6

// lookAt puts a point of the view's plane into the middle, close enough to see
// what is wrong there.
func (a *App) lookAt(p fitment.Pt) {
	if a.showing == turning {
		a.setShowing(oneLarge)
	}
	a.centreOn(p)
	cam := a.camera()
	cam.PxPerMM = math.Max(cam.PxPerMM, zoomKept)
	if a.view != fitment.PlanView { // no more of the sheet than this lies below the ground
		cam.Centre[1] = math.Max(cam.Centre[1], 0.32*a.lay.Main.H/cam.PxPerMM)
	}
}

// centreOn puts a point of the view's plane into the middle.
func (a *App) centreOn(p fitment.Pt) {
	n, c := a.model.GroundPlane(a.state())
	g := view.GroundAxes(a.view, a.station, n, c)
	a.camera().Centre = g.Mul3x1(mgl64.Vec3{p[0], p[1], 1}).Vec2()
}
