package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/outline"
	"scrubline/fitment/internal/solid"
)

// Pt is a point of a view's plane in body axes, millimetres: (Y, Z) in the
// section, which looks forward, and in the front view, which looks rearward; (X,
// Z) in the side view, which looks at the vehicle's left side, front at the
// left; (X, Y) in the plan, which looks down.
type Pt = [2]float64

// View is a direction of looking.
type View int

// The views.
const (
	SectionView View = iota
	SideView
	PlanView
	FrontView // all of the vehicle from its front, so that its right is at the left

	viewCount = int(iota)
)

// way is the direction of looking of silhouettes: those from the front are
// those from behind, and only the drawing turns them over.
func (v View) way() outline.View {
	if v == FrontView {
		return outline.Section
	}
	return outline.View(v)
}

// Outline is how one part looks in a view, as convex polygons whose union is
// the shape; a painter strokes all, then fills all, and only the outer border
// of the union stays.
type Outline struct {
	Part int    // index in the document's parts
	Seen [][]Pt // what is seen of it; in the section, of what lies ahead of the plane
	Cut  [][]Pt // what the section plane cuts (section only)
	Bore [][]Pt // hollow inside the cut
	Room [][]Pt // service room: must stay free
	// Near and Far are its extent along the direction of looking: X in the
	// section (larger is nearer to the eye) and the front view (smaller is), Y in the side view (smaller is
	// nearer), Z in the plan (larger is nearer). Near ≤ Far always.
	Near, Far float64
}

// seenAt is a silhouette kept for as long as its item stands where it stood, and
// with it what the section plane does to it where that was asked last. Models
// that have the item in common have it in common.
type seenAt struct {
	known bool
	pose  geom.Pose
	st    State // of a link
	seen  [][]Pt
	at    *planeAt
}

// planeAt is what a plane does to an item: how far it reaches along the
// direction of looking, what is cut, and what of it lies ahead.
type planeAt struct {
	station   float64
	near, far float64
	whole     bool // none of it lies on the viewer's side
	cut       [][]Pt
	bore      [][]Pt
	ahead     [][]Pt // unless whole
}

// Outlines lists every part's outline in one state, in document order. station
// is the X of the section plane.
func (m *Model) Outlines(v View, station float64, at State) []Outline {
	out := make([]Outline, len(m.parts))
	for i, p := range m.parts {
		o := &out[i]
		o.Part = i
		for k := range p.items {
			m.outlineItem(o, &p.items[k], v, station, at, k == 0)
		}
	}
	return out
}

func (m *Model) outlineItem(o *Outline, it *placedItem, v View, station float64, st State, first bool) {
	seen := m.seen(it, v, st)
	if it.room != "" {
		o.Room = append(o.Room, seen...)
		return
	}
	at := m.atPlane(it, v, station, st)
	if first {
		o.Near, o.Far = at.near, at.far
	}
	o.Near, o.Far = min(o.Near, at.near), max(o.Far, at.far)
	o.Cut = append(o.Cut, at.cut...)
	o.Bore = append(o.Bore, at.bore...)
	if !at.whole {
		seen = at.ahead
	}
	o.Seen = append(o.Seen, seen...)
}

// atPlane is what a view's plane does to an item, kept between calls as its
// silhouette is. Only a section has a plane that is anywhere.
func (m *Model) atPlane(it *placedItem, v View, station float64, st State) *planeAt {
	if v != SectionView {
		station = 0
	}
	kept := &it.looks[v]
	if kept.at == nil || kept.at.station != station {
		kept.at = m.newPlaneAt(it, v, station, st)
	}
	return kept.at
}

func (m *Model) newPlaneAt(it *placedItem, v View, station float64, st State) *planeAt {
	at := &planeAt{station: station, near: math.Inf(1), far: math.Inf(-1), whole: true}
	for i := range it.solids {
		s := m.solidAt(it, i, st)
		near, far := outline.Extent(&s, v.way()) // nearest to the eye first
		near, far = min(near, far), max(near, far)
		at.near, at.far = min(at.near, near), max(at.far, far)
		if v == SectionView && near <= station && station <= far {
			at.cut = append(at.cut, outline.Cut(&s, station)...)
		}
		at.whole = at.whole && (v != SectionView || far <= station)
	}
	if !at.whole {
		for i := range it.solids {
			s := m.solidAt(it, i, st)
			at.ahead = append(at.ahead, outline.Ahead(&s, station)...)
		}
	}
	if v == SectionView {
		for i := range it.bores {
			b := m.moved(it, &it.bores[i], st)
			at.bore = append(at.bore, outline.Cut(&b, station)...)
		}
	}
	return at
}

// moved carries a solid with its item.
func (m *Model) moved(it *placedItem, s *solid.Solid, st State) solid.Solid {
	if it.fixed() {
		return *s
	}
	pose := m.pose(it.item, st)
	return s.Moved(&pose)
}

// seen is an item's silhouette, kept between calls while it does not move in
// the body, and for a link while nothing does: its shape changes with its length.
func (m *Model) seen(it *placedItem, v View, st State) [][]Pt {
	kept := &it.looks[v]
	if it.link != nil {
		if !kept.known || kept.st != st {
			s := m.solidAt(it, 0, st)
			*kept = seenAt{known: true, st: st, seen: outline.Seen(&s, v.way())}
		}
		return kept.seen
	}
	pose := m.pose(it.item, st)
	if !kept.known || kept.pose != pose {
		*kept = seenAt{known: true, pose: pose}
		for i := range it.solids {
			s := it.solids[i].Moved(&pose)
			kept.seen = append(kept.seen, outline.Seen(&s, v.way())...)
		}
	}
	return kept.seen
}
