package scene

import "fmt"

func init() {
	Register(Kind{
		Name: "air_spring", Label: "Air spring", Group: "Air",
		About:    "From a mount on the body to one on an axle or wheel; its diameter follows its length. Placed by the middle of its top.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Spring},
		Caution:  "An air spring that rubs will burst: it must touch nothing at any height. Let the air out before working on it.",
		Fields:   airSpringFields(),
		Check:    checkAirSpring,
		Form:     airSpringForm,
	})
}

func airSpringFields() []Field {
	fields := lowerMount("rear_axle", 0, -360, 60)
	return append(fields,
		Field{Name: "profile", Label: "Diameter by length", Type: Table, MinRows: 1, MaxRows: 24,
			Help: "Largest diameter over the rubber at each length, from its maker's drawing or measured. The figures given are an assumption: replace them.",
			Columns: []Field{
				mm("length_mm", "Length", 10, 1500, 100, "Between the faces of its two ends."),
				mm("diameter_mm", "Diameter", 20, 800, 150, "Over its fattest place, at working pressure."),
			},
			DefaultRows: []Row{{75, 178}, {125, 170}, {200, 160}, {260, 150}}},
		mm("shortest_mm", "Shortest", 10, 1500, 70, "Between the faces of its ends on its bump stop."),
		mm("longest_mm", "Longest", 20, 1500, 270, "Between the faces of its ends when fully out."),
		mmOr("none", "plate_mm", "Top plate diameter", 600, 0, "Over the plate above it."),
		mm("plate_thick_mm", "Top plate thickness", 1, 100, 10, "Of the plate above it."),
	)
}

func checkAirSpring(s Size) *FieldError {
	rows := s.Rows("profile")
	for i := 1; i < len(rows); i++ {
		if rows[i][0] <= rows[i-1][0] {
			return bad(fmt.Sprintf("profile/%d/length_mm", i), "more than in the row before")
		}
	}
	if s.Num("shortest_mm") >= s.Num("longest_mm") {
		return bad("longest_mm", "more than the shortest length")
	}
	return nil
}

func airSpringForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	b := Bellows{Bottom: lowerAnchor(s), Limits: Limits{s.Num("shortest_mm"), s.Num("longest_mm")}}
	for _, r := range s.Rows("profile") {
		b.Profile = append(b.Profile, LengthDiameter{LengthMM: r[0], DiameterMM: r[1]})
	}
	shapes := []Shape{b}
	if d := s.Num("plate_mm"); there(d) {
		shapes = append(shapes, Cylinder{To: Vec{0, 0, s.Num("plate_thick_mm")}, Radius: d / 2})
	}
	return shapes
}
