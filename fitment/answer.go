package fitment

import "scrubline/scene"

// State is where the body and wheels stand: how far the body has risen over
// each wheel from ride (mm along body Z; FL is front left), and the steer of
// the front wheels (degrees, positive turns them to the right), and where each
// of the document's movements stands, in its order (degrees or mm).
type State struct {
	FL, FR, RL, RR float64
	Steer          float64
	Moves          [scene.MaxMovements]float64
}

// StateAt is the level state of a front and a rear move.
func StateAt(front, rear float64) State { return State{FL: front, FR: front, RL: rear, RR: rear} }

// Status is what is wrong between two parts.
type Status string

const (
	Contact Status = "contact" // they touch or overlap somewhere in the travel
	Tight   Status = "tight"   // they stay apart, by less than they need
)

// Finding is one pair of parts that comes closer than it may.
type Finding struct {
	A, B    string // part ids, A before B in the document
	Status  Status
	Service string // id of the part whose service room is meant; empty for the parts themselves
	For     string // what the service room is for
	GapMM   float64
	BoundMM float64
	NeedMM  float64
	// NeedSource says where the need comes from, for people.
	NeedSource string
	At         State // the worst state
	// Still is true when the two do not move against each other, so that the
	// gap is the same at every height.
	Still    bool
	PointsMM [2]scene.Vec
	// Sure is true when the shortfall is larger than the tolerances of the two
	// parts together, so that it holds wherever within them they really are.
	Sure bool
	// AtHeights has the pair's gap at each of the document's heights, in order,
	// wheels straight and level.
	AtHeights []float64
	Caution   string
}

// Key names a finding for as long as its parts keep their ids.
func (f *Finding) Key() string { return f.A + "|" + f.B + "|" + f.Service }

// Clearance is what hangs lowest at one height: the ground clearance and the
// rim line (nothing but wheels below the lowest point of the rims).
type Clearance struct {
	Height   string // height id; empty for a free state
	At       State
	GroundMM float64   // least distance of any body or axle part to the ground
	Part     string    // the part that has it
	PointMM  scene.Vec // its lowest point
	// RimLineMM is the height over the ground of the lowest rim.
	RimLineMM float64
	// Below lists the parts that reach below the rim line, lowest first.
	Below []Hanging
}

// Hanging is a part below the rim line.
type Hanging struct {
	Part     string
	GroundMM float64
	PointMM  scene.Vec
}

// Summary counts what was looked at.
type Summary struct {
	Pairs, Contact, Tight, Clear, Undecided int
	RimLine                                 int // parts below the rim line at some height
	Locked                                  int // ends whose suspension does not reach the document's heights
	Limits                                  int // limits of springs, shocks and shafts that are passed
}

// Report is the whole answer to one document.
type Report struct {
	Findings []Finding
	Limits   []Limit     // in document order
	Ground   []Clearance // one for each of the document's heights, in order
	Summary  Summary

	// Undecided are the pairs whose search was given up before it knew, with
	// the least gap it found and what it could prove.
	Undecided []Undecided
	// Suspension is what is to be known of both ends' suspensions, front first.
	Suspension []SuspensionReport
	// Lowered are the pairs for which the user's own figure is less than the
	// starting table's, or which are joined although the table warns of them.
	Lowered []Lowered
}

// Undecided is a pair that nothing is certain about.
type Undecided struct {
	A, B           string
	GapMM, BoundMM float64
	Short          bool // it has a finding all the same
}

// Lowered is a pair that is looked at less strictly than the table would, where
// that could hurt someone.
type Lowered struct {
	A, B            string
	NeedMM, TableMM float64
	Joined          bool
	Shielded        bool // by a heat shield that is stated between the two
	Caution         string
}

// Short says whether anything falls short: a pair, a spring's, shock's or
// shaft's limit, a part below the rim line or on the ground, a pair that is
// undecided, or a suspension that does not reach the document's heights.
func (r *Report) Short() bool {
	return len(r.Findings) > 0 || r.Summary.Locked > 0 || len(r.Limits) > 0 || r.Summary.RimLine > 0 || r.Summary.Undecided > 0
}

// Gap is the signed gap of two parts in one state with its two nearest (or
// deepest) points in body axes.
type Gap struct {
	A, B     string
	At       State
	GapMM    float64
	NeedMM   float64
	Source   string // where the need comes from; empty when none applies
	PointsMM [2]scene.Vec
}
