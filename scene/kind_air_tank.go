package scene

func init() {
	Register(Kind{
		Name: "air_tank", Label: "Air tank", Group: "Air",
		About:    "Round tank for the air springs, lying along, across or upright.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Air},
		Caution:  "Pressure vessel: keep it off heat and moving parts, fit a safety valve, use it inside its rating.",
		Fields: []Field{
			{Name: "diameter_mm", Label: "Diameter", Type: Length, Min: 50, Max: 800, Default: 200,
				Help: "Around the shell, outside."},
			{Name: "length_mm", Label: "Length", Type: Length, Min: 100, Max: 3000, Default: 600,
				Help: "Over the two heads, without fittings."},
			{Name: "lies", Label: "Lies", Type: Choice, Choices: []string{"along", "across", "upright"},
				ChoiceLabels: []string{"along the frame", "across", "upright"}, DefaultChoice: "along"},
			{Name: "drain_mm", Label: "Drain", Type: Length, Min: 0, Max: 300, Default: 40,
				Help: "Room below the tank to open its drain.", ZeroIs: "none"},
		},
		Check: func(s Size) *FieldError {
			if s.Num("length_mm") < s.Num("diameter_mm")/2 {
				return &FieldError{"length_mm", "at least half the diameter"}
			}
			return nil
		},
		Form: airTankForm,
	})
}

// airTankForm rounds the heads by a quarter of the diameter: between the flat
// and the hemispherical head, and never smaller than a usual dished one.
func airTankForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	r, half := s.Num("diameter_mm")/2, s.Num("length_mm")/2
	axis := Vec{half, 0, 0}
	below := r
	switch s.Text("lies") {
	case "across":
		axis = Vec{0, half, 0}
	case "upright":
		axis, below = Vec{0, 0, half}, half
	}
	neg := Vec{-axis[0], -axis[1], -axis[2]}
	shapes := []Shape{Cylinder{From: neg, To: axis, Radius: r, Round: r / 2}}
	if d := s.Num("drain_mm"); there(d) {
		shapes = append(shapes, Room{For: "opening the drain",
			Shape: Cylinder{From: Vec{0, 0, -below}, To: Vec{0, 0, -below - d}, Radius: 20}})
	}
	return shapes
}
