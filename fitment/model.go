package fitment

import "scrubline/scene"

// Model is a compiled document: solids, carriers and needs, ready to answer.
// It is never changed; an edit makes a new model with [Model.With].
type Model struct {
	Doc *scene.Document
}

// Compile builds the model of a valid document.
func Compile(doc *scene.Document) (*Model, error) { return &Model{Doc: doc}, nil }

// With is the model of an edited document. Answers about pairs whose parts,
// needs and travel are unchanged are kept, so that moving one part costs only
// that part's pairs.
func (m *Model) With(doc *scene.Document) (*Model, error) { return Compile(doc) }

// Check is the whole answer over the whole travel. The first call computes;
// later calls return the same report.
func (m *Model) Check() *Report { return &Report{} }

// Readings lists the pairs that fall short in this one state, worst first.
func (m *Model) Readings(st State) []Reading { return nil }

// Reading is what a pair measures in one state.
type Reading struct {
	Key      string // as Finding.Key
	A, B     string
	Service  string
	Status   Status
	GapMM    float64
	NeedMM   float64
	PointsMM [2]scene.Vec
}

// GapBetween is the tape measure: the signed gap of two parts in one state.
func (m *Model) GapBetween(a, b string, st State) (Gap, error) { return Gap{}, nil }

// Clearance is what hangs lowest in one state.
func (m *Model) Clearance(st State) Clearance { return Clearance{} }

// GroundPlane is the ground in one state as n·p + c = height over the ground,
// n a unit normal in body axes.
func (m *Model) GroundPlane(st State) (n scene.Vec, c float64) { return scene.Vec{0, 0, 1}, 300 }

// WheelCentre is a wheel's centre in body axes in one state.
func (m *Model) WheelCentre(on scene.Carrier, st State) scene.Vec { return scene.Vec{} }

// CarrierOrigin is where a carrier's origin stands in body axes at ride: what
// a part's AtMM is measured from.
func (m *Model) CarrierOrigin(on scene.Carrier) scene.Vec { return scene.Vec{} }

// RimLine is the height over the ground of the lowest rim in one state.
func (m *Model) RimLine(st State) float64 { return 0 }

// Travel is the range the body moves in at each end, over all heights.
func (m *Model) Travel() (frontLow, frontHigh, rearLow, rearHigh float64) { return 0, 0, 0, 0 }
