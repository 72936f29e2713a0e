package scene

// Cautions of what carries fuel and of what brakes.
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
