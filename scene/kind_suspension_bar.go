package scene

func init() {
	Register(Kind{
		Name: "suspension_bar", Label: "Suspension bar", Group: "Running gear",
		About:    "One bar of the vehicle's suspension as a thing that takes room. It stands where the suspension has it and moves as it does.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Moving},
		Stays:    true,
		Derived:  true,
		Fields: []Field{
			{Name: "end", Label: "End", Type: Choice, Choices: []string{"front", "rear"}, ChoiceLabels: []string{"front", "rear"},
				DefaultChoice: "rear", Help: "Which end's suspension it belongs to."},
			{Name: "bar", Label: "Bar", Type: Count, Min: 1, Max: MaxBars, Default: 1,
				Help: "Its number in the list of that suspension's bars."},
			{Name: "side", Label: "Side", Type: Choice, Choices: []string{"left", "right"}, ChoiceLabels: []string{"left", "right"},
				DefaultChoice: "left", Help: "Which wheel's, where each wheel has its own bars; else it says nothing."},
			mm("diameter_mm", "Diameter", 3, 200, 45, "Over the bar, or over its joints where those are thicker."),
		},
		Form: suspensionBarForm,
	})
}

// MaxBars is the most bars a suspension of any kind has.
const MaxBars = 5

// suspensionBarForm is a shaft between the two ends of the bar; nothing when
// the vehicle has no such bar, or only one that does not go from the body to
// what it carries ([Suspension.Spans]).
func suspensionBarForm(s Size, v *Vehicle, _ Carrier) []Shape {
	end := &v.Rear
	if s.Text("end") == "front" {
		end = &v.Front
	}
	i := int(s.Num("bar")) - 1
	if !end.Suspension.Spans(i) {
		return nil
	}
	b, on := end.Suspension.Bars[i], v.carries(end)
	if end.Independent && s.Text("side") == "right" {
		b.BodyMM[1], b.CarriedMM[1] = -b.BodyMM[1], -b.CarriedMM[1]
		on = rightOf[on]
	}
	return []Shape{Shaft{Front: Anchor{On: Body, P: b.BodyMM}, Rear: Anchor{On: on, P: b.CarriedMM}, Radius: s.Num("diameter_mm") / 2}}
}

var rightOf = map[Carrier]Carrier{WheelFL: WheelFR, WheelRL: WheelRR}

// Spans says whether the bar of that index goes from a point fixed in the body
// to a point fixed in what it carries. The bars of a Watt's link end on its
// crank, and a tie rod begins on the rack: both ends move by themselves.
func (s *Suspension) Spans(i int) bool {
	if s == nil || i < 0 || i >= len(s.Bars) {
		return false
	}
	switch s.Kind {
	case FourLinkWatts:
		return i < len(s.Bars)-2
	case DoubleWishbone, Strut:
		return i < len(s.Bars)-1
	}
	return s.Kind != Guide
}
