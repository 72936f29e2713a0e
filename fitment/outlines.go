package fitment

// Pt is a point of a view's plane in body axes, millimetres: (Y, Z) in the
// section, which looks forward; (X, Z) in the side view, which looks at the
// vehicle's left side, front at the left; (X, Y) in the plan, which looks down.
type Pt [2]float64

// View is a direction of looking.
type View int

const (
	SectionView View = iota
	SideView
	PlanView
)

// Outline is how one part looks in a view, as convex polygons whose union is
// the shape; a painter strokes all, then fills all, and only the outer border
// of the union stays.
type Outline struct {
	Part int    // index in the document's parts
	Seen [][]Pt // what is seen of it
	Cut  [][]Pt // what the section plane cuts (section only)
	Bore [][]Pt // hollow inside the cut
	Room [][]Pt // service room: must stay free
	// Near and Far are its extent along the direction of looking: X in the
	// section (larger is nearer to the eye), Y in the side view (smaller is
	// nearer), Z in the plan (larger is nearer).
	Near, Far float64
}

// Outlines lists every part's outline in one state, in document order. station
// is the X of the section plane.
func (m *Model) Outlines(v View, station float64, st State) []Outline { return nil }
