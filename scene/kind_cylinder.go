package scene

func init() {
	Register(Kind{
		Name: "cylinder", Label: "Cylinder", Group: "Plain shapes",
		About:    "Round bar with flat ends. Placed by its middle.",
		Carriers: Carriers,
		Traits:   []Trait{Fixed},
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
}
