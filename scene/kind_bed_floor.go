package scene

func init() {
	Register(Kind{
		Name: "bed_floor", Label: "Bed floor", Group: "Body",
		About:    "Flat floor of a bed or load room, of wood unless its traits say otherwise. Placed by the middle of its front edge, at the underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Floor, Burns},
		Stays:    true,
		Fields: []Field{
			mm("length_mm", "Length", 50, 8000, 2200, "Along the frame."),
			mm("width_mm", "Width", 50, 3000, 1500, "Across, edge to edge."),
			mm("thick_mm", "Thickness", 0.5, 300, 22, "Of boards and strips; of the cross sills too where they are not drawn."),
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			half := s.Num("width_mm") / 2
			return []Shape{block(Vec{0, -half, 0}, Vec{s.Num("length_mm"), half, s.Num("thick_mm")})}
		},
	})
}
