package scene

func init() {
	Register(Kind{
		Name: "tube", Label: "Tube", Group: "Plain shapes",
		About:    "Straight round tube; its bore is drawn, and is never free room. Placed by its middle.",
		Carriers: Carriers,
		Traits:   []Trait{Fixed},
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
