package fitment

import (
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

// seenKey is what a still item's silhouette depends on.
type seenKey struct {
	it *placedItem
	v  View
}

// seenAt is a silhouette kept for as long as its item stands where it stood.
type seenAt struct {
	pose geom.Pose
	seen [][]Pt
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
	from, whole := len(o.Seen), true // whole: none of it lies on the viewer's side
	o.Seen = append(o.Seen, seen...)
	for i := range it.solids {
		s := m.solidAt(it, i, st)
		near, far := outline.Extent(&s, v.way()) // nearest to the eye first
		near, far = min(near, far), max(near, far)
		if first && i == 0 {
			o.Near, o.Far = near, far
		}
		o.Near, o.Far = min(o.Near, near), max(o.Far, far)
		if v == SectionView && near <= station && station <= far {
			o.Cut = append(o.Cut, outline.Cut(&s, station)...)
		}
		whole = whole && (v != SectionView || far <= station)
	}
	if !whole {
		o.Seen = o.Seen[:from]
		for i := range it.solids {
			s := m.solidAt(it, i, st)
			o.Seen = append(o.Seen, outline.Ahead(&s, station)...)
		}
	}
	if v == SectionView {
		for i := range it.bores {
			b := m.moved(it, &it.bores[i], st)
			o.Bore = append(o.Bore, outline.Cut(&b, station)...)
		}
	}
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
// the body. A link is drawn anew: its shape changes with its length.
func (m *Model) seen(it *placedItem, v View, st State) [][]Pt {
	if it.link != nil {
		s := m.solidAt(it, 0, st)
		return outline.Seen(&s, v.way())
	}
	pose := m.pose(it.item, st)
	key := seenKey{it, v}
	if kept, ok := m.looks[key]; ok && kept.pose == pose {
		return kept.seen
	}
	var seen [][]Pt
	for i := range it.solids {
		s := it.solids[i].Moved(&pose)
		seen = append(seen, outline.Seen(&s, v.way())...)
	}
	m.looks[key] = seenAt{pose, seen}
	return seen
}
