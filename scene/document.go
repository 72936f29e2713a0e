package scene

// Format and Version name the file format. A reader refuses a newer version
// rather than guess what it means.
const (
	Format  = "scrubline-scene"
	Version = 1
)

// Vec is a point or a direction in millimetres: X rearward, Y right, Z up.
type Vec [3]float64

// Units is the unit lengths are shown in. Stored lengths are always millimetres.
type Units string

const (
	Millimetres Units = "mm"
	Inches      Units = "in"
)

// Document is a whole scene file.
type Document struct {
	Format  string
	Version int
	Name    string
	Note    string
	Show    Units
	// ToleranceMM is the tape and fabrication tolerance of a part that states
	// none of its own: how far it may really stand from where it is drawn.
	ToleranceMM float64
	Currency    string   // of every price, such as USD; empty: none is named
	Budget      *float64 // nil: none is set
	Vehicle     Vehicle
	Heights     []Height
	Movements   []Movement
	Parts       []Part
	Groups      []Group
	Needs       []Need
	Joined      []Joined
	Photos      []Photo
	Tapes       []Tape
	Checked     []Check
	// Unmeasured are the keys of the values that are not measured yet, sorted;
	// see [Document.NotMeasured].
	Unmeasured []string
	// Shelf holds parts of the user's own without a place. One with the id of a
	// part is that part, placed: it lies on the shelf again when the part goes.
	Shelf []Part
	// Variants are the scene's alternatives; see [Resolve].
	Variants []Variant
	// Shown is the variant that is shown, by id; empty is the scene as drawn.
	Shown string

	whole *Document // of which this is a view; nil: it is whole. See [View]
}

// Height is a named state of the body over the ground. FrontMM and RearMM say
// how far the body has risen over each axle from ride, along body Z; aired out
// is negative. Ride itself is zero at both ends.
type Height struct {
	ID      string // aired_out, ride, aired_up, or the user's own
	Name    string
	FrontMM float64
	RearMM  float64
}

// The heights every scene has.
const (
	AiredOut = "aired_out"
	Ride     = "ride"
	AiredUp  = "aired_up"
)

// Part is one thing that takes up room. AtMM is its reference point measured
// from its carrier's origin at ride, along body axes; see [Carrier].
// TurnDeg turns it about that point: roll about X, then pitch about Y, then
// yaw about Z, each right-handed.
type Part struct {
	ID          string
	Name        string
	Kind        string
	Carrier     Carrier
	AtMM        Vec
	TurnDeg     Vec
	Traits      []Trait  // empty: what its kind says
	Moves       []string // movements that carry it, by id, innermost first
	ToleranceMM *float64 // nil: the document's
	MassKG      *float64 // nil: not known
	Price       *float64 // nil: not known
	State       PartState
	Note        string
	Locked      bool // stays in its place: neither moved nor turned nor deleted
	// MeasuredFrom says what its place was measured from, at most once an axis.
	MeasuredFrom []Measured
	Size         Size
}

// Need overrides the gap a pair must keep: for two parts by id, or for every
// pair of two traits. Exactly one of Parts and Traits is set.
type Need struct {
	Parts    [2]string
	Traits   [2]Trait
	NeedMM   float64
	Shielded bool // Parts only: a heat shield stands between the two; NeedMM is ignored when the starting table has a figure with a shield
	Why      string
}

// Joined declares that two parts are meant to touch: a bracket on a frame, a
// mount on an axle. A joined pair is never a finding.
type Joined struct {
	A, B string
	Why  string
}
