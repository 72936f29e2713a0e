package scene

// Plain shapes stand for whatever has no kind of its own. They ride on
// anything.
func init() {
	plain := func(k Kind) {
		k.Group, k.Carriers, k.Traits = "Plain shapes", Carriers, []Trait{Fixed}
		Register(k)
	}
	plain(Kind{
		Name: "plate", Label: "Plate",
		About: "Flat plate, lying level until it is turned. Placed by its middle.",
		Fields: []Field{
			mm("length_mm", "Length", 1, 6000, 150, "Along the frame."),
			mm("width_mm", "Width", 1, 3000, 100, "Across."),
			mm("thick_mm", "Thickness", 0.5, 200, 6, "Of the plate."),
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			return []Shape{Box{Size: Vec{s.Num("length_mm"), s.Num("width_mm"), s.Num("thick_mm")}}}
		},
	})
	plain(Kind{
		Name: "box", Label: "Box",
		About: "Rectangular block. Placed by its middle.",
		Fields: []Field{
			mm("length_mm", "Length", 1, 6000, 300, "Along the frame."),
			mm("width_mm", "Width", 1, 3000, 200, "Across."),
			mm("height_mm", "Height", 1, 3000, 150, "Upright."),
			mm("round_mm", "Edge radius", 0, 500, 0, "Of all its edges; 0 is sharp."),
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
	plain(Kind{
		Name: "cylinder", Label: "Cylinder",
		About: "Round bar with flat ends. Placed by its middle.",
		Fields: []Field{
			mm("diameter_mm", "Diameter", 1, 2000, 100, "Outside."),
			mm("length_mm", "Length", 1, 6000, 300, "Over its ends."),
			liesField("along"),
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			axis := liesAxis(s.Text("lies"), s.Num("length_mm"))
			return []Shape{Cylinder{From: axis.neg(), To: axis, Radius: s.Num("diameter_mm") / 2}}
		},
	})
	plain(Kind{
		Name: "tube", Label: "Tube",
		About: "Straight round tube; its bore is drawn, and is never free room. Placed by its middle.",
		Fields: []Field{
			mm("diameter_mm", "Diameter", 1, 2000, 60, "Outside."),
			mm("wall_mm", "Wall", 0.1, 500, 3, "Thickness of the wall."),
			mm("length_mm", "Length", 1, 6000, 500, "Over its ends."),
			liesField("along"),
		},
		Check: func(s Size) *FieldError {
			if s.Num("wall_mm")*2 > s.Num("diameter_mm") {
				return bad("wall_mm", "at most half the diameter")
			}
			return nil
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			axis, r := liesAxis(s.Text("lies"), s.Num("length_mm")), s.Num("diameter_mm")/2
			return []Shape{Cylinder{From: axis.neg(), To: axis, Radius: r, BoreRadius: r - s.Num("wall_mm")}}
		},
	})
}
