package scene

func init() {
	Register(Kind{
		Name: "box", Label: "Box", Group: "Plain shapes",
		About:    "Rectangular block. Placed by its middle.",
		Carriers: Carriers,
		Traits:   []Trait{Fixed},
		Fields: []Field{
			mm("length_mm", "Length", 1, 6000, 300, "Along the frame."),
			mm("width_mm", "Width", 1, 3000, 200, "Across."),
			mm("height_mm", "Height", 1, 3000, 150, "Upright."),
			mmOr("sharp", "round_mm", "Edge radius", 500, 0, "Of all its edges."),
		},
		Check: func(s Size) *FieldError {
			if s.Num("round_mm")*2 > min(s.Num("length_mm"), s.Num("width_mm"), s.Num("height_mm")) {
				return bad("round_mm", "at most half the smallest measure")
			}
			return nil
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			return []Shape{Box{Size: Vec{s.Num("length_mm"), s.Num("width_mm"), s.Num("height_mm")}, Round: s.Num("round_mm")}}
		},
	})
}
