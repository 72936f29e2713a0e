package scene

// exhaustCaution goes with every hot part.
const exhaustCaution = "Exhaust burns and sets fire: keep it off fuel, brakes, wiring and whatever chars, and lead the gas clear of people as your local code asks."

func init() {
	Register(Kind{
		Name: "muffler", Label: "Muffler", Group: "Exhaust",
		About:    "Oval or round muffler on its own, along the frame. Placed by its middle.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Exhaust},
		Caution:  exhaustCaution,
		Fields: []Field{
			mm("length_mm", "Length", 50, 2000, 450, "Over the body, without its pipes."),
			mm("width_mm", "Width", 40, 800, 250, "Across the body; the same as the height for a round one."),
			mm("height_mm", "Height", 40, 800, 125, "Of the body."),
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			l := s.Num("length_mm")
			return []Shape{oval(Vec{-l / 2, 0, 0}, Vec{1, 0, 0}, l, s.Num("width_mm"), s.Num("height_mm"))}
		},
	})
}
