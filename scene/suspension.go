package scene

// Suspension is what holds an axle, or the wheels that move by themselves: bars
// of fixed length between points a builder can measure. An end without one
// moves on a plain vertical guide.
type Suspension struct {
	Kind string // name of a [SuspensionKind]
	// Crank says what the crank of a Watt's link turns on, CrankOnAxle or
	// CrankOnBody; empty for every other kind. The crank's ends are those of its
	// two bars on that side; it turns about the point midway between them.
	Crank string
	// Bars are in the order of the kind's. For wheels that move by themselves
	// they are those of the left wheel; the right one's are their mirror image.
	Bars []SuspensionBar
}

// SuspensionBar goes from a point of the body to a point of what it carries.
// BodyMM is in body axes at ride; CarriedMM is measured from the middle of the
// axle, or from the wheel's centre, at ride.
type SuspensionBar struct {
	Name      string
	BodyMM    Vec
	CarriedMM Vec
}

// What the crank of a Watt's link turns on.
const (
	CrankOnAxle = "axle"
	CrankOnBody = "body"
)

// The kinds of suspension.
const (
	Guide                = "guide"
	FourLinkPanhard      = "four_link_panhard"
	FourLinkWatts        = "four_link_watts"
	TriangulatedFourLink = "triangulated_four_link"
	TrailingArms         = "trailing_arms"
	LeafSprings          = "leaf_springs"
	BeamAxle             = "beam_axle"
	DoubleWishbone       = "double_wishbone"
	Strut                = "strut"
)

// SuspensionKind is a form of suspension.
type SuspensionKind struct {
	Name, Label, About string
	Alone              bool // each wheel moves by itself; otherwise an axle joins the two
	Approximate        bool // its motion is that of bars that stand for something else
	Bars               []string
}

var fourLinks = []string{"Lower left link", "Lower right link", "Upper left link", "Upper right link"}

// suspensionKinds in the order they are shown.
var suspensionKinds = []*SuspensionKind{
	{Name: Guide, Label: "Plain vertical guide",
		About: "Straight up and down; the axle rolls about its own middle."},
	{Name: FourLinkPanhard, Label: "Four links and a Panhard bar",
		About: "Two lower and two upper links fore and aft; a bar from the body to the other side of the axle.",
		Bars:  append(append([]string(nil), fourLinks...), "Panhard bar")},
	{Name: FourLinkWatts, Label: "Four links and a Watt's link",
		About: "Two lower and two upper links fore and aft; a crank and two bars hold the axle sideways.",
		Bars:  append(append([]string(nil), fourLinks...), "Watt's link, left bar", "Watt's link, right bar")},
	{Name: TriangulatedFourLink, Label: "Triangulated four-link",
		About: "Four links, two of them at an angle in plan, which also hold the axle sideways.",
		Bars:  fourLinks},
	{Name: TrailingArms, Label: "Trailing arms and a Panhard bar",
		About: "An arm on each side that is fixed to the axle in two places and turns on one joint at the body.",
		Bars:  []string{"Left arm, to its upper bolt", "Left arm, to its lower bolt", "Right arm, to its upper bolt", "Right arm, to its lower bolt", "Panhard bar"}},
	{Name: LeafSprings, Label: "Leaf springs", Approximate: true,
		About: "An approximation: each leaf's fixed half moves the axle as a bar of three quarters of its length would, and keeps its seat from turning. From the fixed eye to the seat on the axle.",
		Bars:  []string{"Left leaf's fixed half", "Right leaf's fixed half"}},
	{Name: BeamAxle, Label: "Beam axle on four links and a Panhard bar",
		About: "As a live axle; its wheels are steered about their upright axes.",
		Bars:  append(append([]string(nil), fourLinks...), "Panhard bar")},
	{Name: DoubleWishbone, Label: "Double wishbones", Alone: true,
		About: "An upper and a lower arm, each of two bars to one ball joint, and a tie rod.",
		Bars:  []string{"Upper arm, front leg", "Upper arm, rear leg", "Lower arm, front leg", "Lower arm, rear leg", "Tie rod"}},
	{Name: Strut, Label: "Struts", Alone: true,
		About: "A strut from the body's top mount, fixed to what carries the wheel; a lower arm of two bars, and a tie rod.",
		Bars:  []string{"Strut, top mount to its lower end", "Lower arm, front leg", "Lower arm, rear leg", "Tie rod"}},
}

// SuspensionKinds lists every kind in the order they are shown, the plain guide
// first.
func SuspensionKinds() []*SuspensionKind { return suspensionKinds }

// SuspensionKindNamed is the kind of that name, or nil.
func SuspensionKindNamed(name string) *SuspensionKind {
	for _, k := range suspensionKinds {
		if k.Name == name {
			return k
		}
	}
	return nil
}

func suspensionNames(keep func(*SuspensionKind) bool) (names []string) {
	for _, k := range suspensionKinds {
		if keep(k) {
			names = append(names, k.Name)
		}
	}
	return names
}

// Form is the kind of suspension an end has.
func (e *End) Form() *SuspensionKind {
	if e.Suspension != nil {
		if k := SuspensionKindNamed(e.Suspension.Kind); k != nil {
			return k
		}
	}
	return suspensionKinds[0]
}

// clone is a copy that shares nothing that can be changed.
func (s *Suspension) clone() *Suspension {
	if s == nil {
		return nil
	}
	c := *s
	c.Bars = append([]SuspensionBar(nil), s.Bars...)
	return &c
}

// Equal says whether two suspensions are the same to the last digit, names and
// all.
func (s *Suspension) Equal(o *Suspension) bool {
	if s == nil || o == nil || s == o {
		return s == o
	}
	if s.Kind != o.Kind || s.Crank != o.Crank || len(s.Bars) != len(o.Bars) {
		return false
	}
	for i := range s.Bars {
		if s.Bars[i] != o.Bars[i] {
			return false
		}
	}
	return true
}

// carries is what the bars of an end hold: the axle, or the left wheel.
func (v *Vehicle) carries(e *End) Carrier {
	switch {
	case e == &v.Front && e.Independent:
		return WheelFL
	case e == &v.Front:
		return FrontAxle
	case e.Independent:
		return WheelRL
	}
	return RearAxle
}
