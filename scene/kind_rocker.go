package scene

func init() {
	Register(Kind{
		Name: "rocker", Label: "Rocker", Group: "Body",
		About:    "Sill below a door, as a bar along the frame. Placed by the middle of its front end, at the underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed},
		Stays:    true,
		Fields: []Field{
			mm("length_mm", "Length", 50, 5000, 1300, "Along the frame."),
			mm("width_mm", "Width", 5, 500, 90, "Across."),
			mm("height_mm", "Height", 5, 600, 140, "From its underside to its top."),
			mm("round_mm", "Edge radius", 0, 100, 10, "Of its long edges."),
		},
		Check: func(s Size) *FieldError {
			if s.Num("round_mm")*2 > min(s.Num("width_mm"), s.Num("height_mm"), s.Num("length_mm")) {
				return bad("round_mm", "at most half the smallest measure")
			}
			return nil
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			half := s.Num("width_mm") / 2
			b := block(Vec{0, -half, 0}, Vec{s.Num("length_mm"), half, s.Num("height_mm")})
			b.Round = s.Num("round_mm")
			return []Shape{b}
		},
	})
}
