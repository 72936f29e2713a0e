package scene

func init() {
	Register(Kind{
		Name: "plate", Label: "Plate", Group: "Plain shapes",
		About:    "Flat plate, lying level until it is turned. Placed by its middle.",
		Carriers: Carriers,
		Traits:   []Trait{Fixed},
		Fields: []Field{
			mm("length_mm", "Length", 1, 6000, 150, "Along the frame."),
			mm("width_mm", "Width", 1, 3000, 100, "Across."),
			mm("thick_mm", "Thickness", 0.5, 200, 6, "Of the plate."),
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			return []Shape{Box{Size: Vec{s.Num("length_mm"), s.Num("width_mm"), s.Num("thick_mm")}}}
		},
	})
}
