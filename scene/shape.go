package scene

// Shape is one piece of what a part is made of, described, not computed: in
// the part's own axes, millimetres. Package fitment turns shapes into solids.
type Shape interface{ isShape() }

// Box is a rectangular block. Round ≥ 0 rounds its edges inside the block.
type Box struct {
	Center Vec
	Size   Vec // full lengths along X, Y, Z
	Round  float64
}

// Hull is the convex hull of points: a prism, a gusset, a slanted panel.
type Hull struct{ Points []Vec }

// Cylinder is a round bar with flat ends. Round ≥ 0 rounds its rims inside
// it (a tyre's shoulder, a tank's head). BoreRadius > 0 says it is hollow; the
// bore is drawn, never free room.
type Cylinder struct {
	From, To   Vec
	Radius     float64
	Round      float64
	BoreRadius float64
}

// Capsule is a bar with round ends.
type Capsule struct {
	From, To Vec
	Radius   float64
}

// Run is a bent tube along a centreline. Its first and last ends are flat.
// At every vertex between, the tube bends with that vertex's centreline
// radius; 0 is a mitred corner.
type Run struct {
	Vertices   []RunVertex
	Radius     float64
	BoreRadius float64
}

// RunVertex is a corner of a run's centreline.
type RunVertex struct {
	P          Vec
	BendRadius float64
}

// Anchor is a point fixed to a carrier, measured from that carrier's origin at
// ride along body axes. It takes no part of the part's own turn. An empty On
// is the part's own carrier, and P is then measured from the part's reference
// point: a Form does not know where its part stands.
type Anchor struct {
	On Carrier
	P  Vec
}

// Bellows is a solid of revolution between two anchors whose diameter follows
// its length: an air spring. Profile is sorted by rising length; between rows
// the diameter is interpolated, beyond them it is held.
type Bellows struct {
	Top, Bottom Anchor
	Profile     []LengthDiameter
	Limits      Limits
}

// LengthDiameter is one row of an air spring's measured table.
type LengthDiameter struct{ LengthMM, DiameterMM float64 }

// Shaft is a round bar between joints on two carriers: a driveshaft, a shock
// absorber.
type Shaft struct {
	Front, Rear Anchor
	Radius      float64
	Limits      Limits
	// FrontAxis and RearAxis are the directions of what its two joints are
	// bolted to, rearward, each turning with its carrier; zero where a joint's
	// angle does not matter. MaxAngleDeg is the most either joint may bend, 0
	// for no limit.
	FrontAxis, RearAxis Vec
	MaxAngleDeg         float64
}

// Limits is how short and how long something between two anchors may get, in
// millimetres between the anchors; 0 is not measured.
type Limits struct{ ShortestMM, LongestMM float64 }

// Room is a shape that must stay free for service: the lift of a battery lid,
// a drain, the reach to a filler. It takes no room from its own part.
type Room struct {
	Shape Shape
	For   string // two or three plain words: "lifting the lid"
}

func (Box) isShape()      {}
func (Hull) isShape()     {}
func (Cylinder) isShape() {}
func (Capsule) isShape()  {}
func (Run) isShape()      {}
func (Bellows) isShape()  {}
func (Shaft) isShape()    {}
func (Room) isShape()     {}
