package app

import (
	"math"
	"sort"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
)

// pickOf is something under a finger that a tape can be held to. far is how far
// off it lies, in pixels, and a little more for what is less likely meant.
type pickOf struct {
	end scene.TapeEnd
	far float64
}

// What is added, in pixels, so that a corner under the finger comes before the
// face it bounds, and either before a datum that runs through everything.
const (
	faceOnPx  = 3.0
	faceEndPx = 6.0
	datumPx   = 8.0
	deepPx    = 6.0 // for what lies farthest from the eye
	picksMost = 12
)

// picksAt lists what a tape can be held to within a finger's reach of a place,
// the likeliest first.
func (a *App) picksAt(p mgl64.Vec2) []pickOf {
	w := &pickWork{a: a, spot: a.spots(), p: p}
	w.partPicks()
	for i := range w.list { // nearer to the eye comes first of two alike
		if w.near > w.far {
			w.list[i].far += deepPx * mgl64.Clamp((w.near-w.depths[i])/(w.near-w.far), 0, 1)
		}
	}
	w.datumPicks()
	sort.SliceStable(w.list, func(i, j int) bool { return w.list[i].far < w.list[j].far })
	return w.list[:min(len(w.list), picksMost)]
}

type pickWork struct {
	a         *App
	spot      func(scene.Vec) (mgl64.Vec2, float64)
	p         mgl64.Vec2
	list      []pickOf
	depths    []float64
	near, far float64
}

func (w *pickWork) add(e scene.TapeEnd, distance, more, depth float64) {
	if distance > reachPx {
		return
	}
	if len(w.list) == 0 {
		w.near, w.far = depth, depth
	}
	w.near, w.far = math.Max(w.near, depth), math.Min(w.far, depth)
	w.list, w.depths = append(w.list, pickOf{e, distance + more}), append(w.depths, depth)
}

// partPicks are the features of what is drawn: in a section, of what lies at
// the plane or ahead of it.
func (w *pickWork) partPicks() {
	a := w.a
	for _, part := range a.drawnParts() {
		id := a.doc.Parts[part].ID
		fs := a.features(part)
		for i := range fs {
			f := &fs[i]
			e := scene.TapeEnd{Part: id, Feature: f.Name}
			if f.Normal != (scene.Vec{}) && w.face(e, f) {
				continue
			}
			if a.behindPlane(f.At) {
				continue
			}
			at, depth := w.spot(f.At)
			more := 0.0
			if f.Normal != (scene.Vec{}) {
				more = faceOnPx
			}
			w.add(e, at.Sub(w.p).Len(), more, depth)
		}
	}
}

// behindPlane says that a point lies behind the viewer's back in a section.
func (a *App) behindPlane(p scene.Vec) bool {
	return a.showing != turning && a.view == fitment.SectionView && p[0] > a.station+0.5
}

// drawnParts are the parts in the drawing the fingers work in.
func (a *App) drawnParts() []int {
	var list []int
	if a.showing == turning {
		for i := range a.doc.Parts {
			if !a.hides.part(&a.doc.Parts[i]) {
				list = append(list, i)
			}
		}
		return list
	}
	for _, o := range a.outs() {
		list = append(list, o.Part)
	}
	return list
}

// edgeOn (pixels) is how far the corners of a face may lie off a line and the
// face still be seen as that line.
const edgeOn = 1.5

// face takes a face that is seen on its edge, by its distance from the line it
// is seen as; false when it is seen otherwise.
func (w *pickWork) face(e scene.TapeEnd, f *fitment.Feature) bool {
	if len(f.Rim) < 2 {
		return false
	}
	pts := make([]mgl64.Vec2, len(f.Rim))
	depth, ahead := math.Inf(-1), false
	for i, p := range f.Rim {
		var d float64
		pts[i], d = w.spot(p)
		if !w.a.behindPlane(p) {
			ahead = true
			depth = math.Max(depth, d)
		}
	}
	from, to := pts[0], pts[0]
	for range 2 {
		for _, q := range pts {
			if q.Sub(from).Len() > to.Sub(from).Len() {
				to = q
			}
		}
		from, to = to, from
	}
	if to.Sub(from).Len() < 1 {
		return false
	}
	for _, q := range pts {
		if offLine(q, from, to) > edgeOn {
			return false
		}
	}
	if ahead {
		w.add(e, offLine(w.p, from, to), faceEndPx, depth)
	}
	return true
}

// offLine is how far p lies from the line from a to b.
func offLine(p, a, b mgl64.Vec2) float64 {
	d := b.Sub(a)
	t := 0.0
	if l := d.Dot(d); l > 0 {
		t = mgl64.Clamp(p.Sub(a).Dot(d)/l, 0, 1)
	}
	return p.Sub(a.Add(d.Mul(t))).Len()
}

// datumPicks are the datums: planes where the drawing shows them as lines, and
// the middles of axles and wheels.
func (w *pickWork) datumPicks() {
	a := w.a
	for _, name := range scene.Datums {
		f, ok := a.model.Datum(name, a.state())
		if !ok {
			continue
		}
		e := scene.TapeEnd{Datum: name}
		if f.Normal == (scene.Vec{}) {
			if !a.behindPlane(f.At) {
				at, depth := w.spot(f.At)
				w.add(e, at.Sub(w.p).Len(), 1, depth) // before a tyre's middle, whichever is nearer to the eye
			}
			continue
		}
		if p, q, ok := a.datumLine(name); ok {
			w.add(e, offLine(w.p, p, q), datumPx, math.Inf(-1))
		}
	}
}

// datumLine is a datum plane as the line it is seen as, on the screen.
func (a *App) datumLine(name string) (p, q mgl64.Vec2, ok bool) {
	if a.showing == turning {
		return p, q, false
	}
	const far = 30000.0
	st := a.station
	plan, side := a.view == fitment.PlanView, a.view == fitment.SideView
	var from, to scene.Vec
	switch {
	case name == scene.CentreDatum && plan:
		from, to = scene.Vec{-far, 0, 0}, scene.Vec{far, 0, 0}
	case name == scene.CentreDatum && !side:
		from, to = scene.Vec{st, 0, -far}, scene.Vec{st, 0, far}
	case plan || name == scene.CentreDatum:
		return p, q, false
	case side:
		from, to = scene.Vec{-far, 0, 0}, scene.Vec{far, 0, 0}
	default:
		from, to = scene.Vec{st, -far, 0}, scene.Vec{st, far, 0}
		if a.view == fitment.FrontView {
			from[0], to[0] = 0, 0
		}
	}
	if name == scene.GroundDatum {
		from, to = a.onGround(from[0], from[1]), a.onGround(to[0], to[1])
	}
	spot := a.spots()
	p, _ = spot(from)
	q, _ = spot(to)
	return p, q, true
}

// featureCache keeps the features of the parts in one state.
type featureCache struct {
	model *fitment.Model
	st    fitment.State
	parts map[int][]fitment.Feature
}

// features are a part's features at the height shown.
func (a *App) features(part int) []fitment.Feature {
	c := &a.tape.known
	if c.model != a.model || c.st != a.state() {
		*c = featureCache{a.model, a.state(), map[int][]fitment.Feature{}}
	}
	if _, ok := c.parts[part]; !ok {
		c.parts[part] = a.model.Features(part, c.st)
	}
	return c.parts[part]
}

// holdTries is how many features of a part are tried for a place to hold to.
const holdTries = 6

// holds are places in the drawing where a finger holds a tape to a part, one
// for each part, by part and feature.
func (a *App) holds() map[string][2]float64 {
	out := map[string][2]float64{}
	if !a.tape.on {
		return out
	}
	spot := a.spots()
	for _, part := range a.drawnParts() {
		id := a.doc.Parts[part].ID
		fs := a.features(part)
		for i := range fs[:min(len(fs), holdTries)] {
			at, _ := spot(fs[i].At)
			if !a.lay.Main.Inset(4).Contains(at) {
				continue
			}
			if k := a.picksAt(at); len(k) > 0 && k[0].end == (scene.TapeEnd{Part: id, Feature: fs[i].Name}) {
				out[id+"|"+fs[i].Name] = at
				break
			}
		}
	}
	return out
}
