package scene

// Lines are thin tubes and looms that follow a table of corners; four kinds
// differ only in what they carry.
func init() {
	registerLine(Kind{Name: "fuel_line", Label: "Fuel line", Group: "Fuel", Traits: []Trait{Fixed, Fuel},
		Caution: fuelCaution}, 10)
	registerLine(Kind{Name: "brake_line", Label: "Brake line", Group: "Brakes", Traits: []Trait{Fixed, Brake},
		Caution: brakeCaution}, 5)
	registerLine(Kind{Name: "air_line", Label: "Air line", Group: "Air", Traits: []Trait{Fixed, Air},
		Caution: "Keep air lines off heat, sharp edges and moving parts; let the air out before opening one."}, 10)
	registerLine(Kind{Name: "wiring", Label: "Wiring", Group: "Electric", Traits: []Trait{Fixed, Electric},
		Caution: "Protect wiring by a fuse near the battery, and keep it off heat and sharp edges."}, 15)
}

const (
	fuelCaution  = "Fuel burns: keep it off heat and sparks, out of harm in a crash, vented and earthed as your local code asks."
	brakeCaution = "Brakes: have work on them done and inspected as your local code asks."
)

// registerLine completes a kind that is a thin run of this diameter.
func registerLine(k Kind, diameter float64) {
	k.About = k.Label + " along its corners. Placed by its start."
	k.Carriers = []Carrier{Body, FrontAxle, RearAxle}
	k.Fields = []Field{
		mm("diameter_mm", "Diameter", 2, 100, diameter, "Over everything: sleeve, loom and clips' bulge."),
		{Name: "vertices", Label: "Corners", Type: Table, MinRows: 2, MaxRows: 60,
			Help:        "Where its straight lines meet, start and end first and last.",
			Columns:     cornerColumns(40),
			DefaultRows: []Row{{0, 0, 0, 0}, {800, 0, 0, 40}, {800, 100, 0, 40}, {1600, 100, 0, 0}}},
	}
	k.Check = func(s Size) *FieldError {
		return checkCorners("vertices", s.Rows("vertices"), s.Num("diameter_mm")/2)
	}
	k.Form = func(s Size, _ *Vehicle, _ Carrier) []Shape {
		return []Shape{Run{Vertices: corners(s.Rows("vertices")), Radius: s.Num("diameter_mm") / 2}}
	}
	Register(k)
}
