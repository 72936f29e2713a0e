package scene

import "fmt"

func init() {
	Register(Kind{
		Name: "body_shell", Label: "Body sides and roof", Group: "Body",
		About:    "Two side panels, and the roof between them, from an outline. Placed by the point its stations and heights start from.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed},
		Stays:    true,
		Fields: []Field{
			mm("width_mm", "Width", 200, 3500, 1840, "Across, outside."),
			mm("thick_mm", "Thickness", 0.5, 200, 30, "Of the sides, with ribs and lining."),
			{Name: "roof", Label: "Roof", Type: Flag, Default: 1, Help: "Whether the top of the outline is closed."},
			{Name: "outline", Label: "Outline", Type: Table, MinRows: 2, MaxRows: 40,
				Help: "Lower and upper edge of the side, front to rear; straight between rows. Wheel openings are raised lower edges.",
				Columns: []Field{
					mm("station_mm", "Station", -3000, 12000, 0, "Rearward from the start."),
					mm("low_mm", "Lower edge", -1500, 3500, 0, "Up from the start."),
					mm("high_mm", "Upper edge", -1500, 3500, 0, "Up from the start."),
				},
				DefaultRows: []Row{{-650, 0, 420}, {-420, 0, 620}, {-400, 330, 640}, {400, 330, 760}, {420, 0, 770},
					{700, 0, 820}, {1050, 0, 1480}, {1300, 0, 1600}, {2700, 0, 1620}, {2720, 380, 1620},
					{3560, 380, 1600}, {3580, 0, 1600}, {4150, 40, 1560}}},
		},
		Check: func(s Size) *FieldError {
			rows := s.Rows("outline")
			for i, r := range rows {
				if i > 0 && r[0] < rows[i-1][0]+1 {
					return bad(fmt.Sprintf("outline/%d/station_mm", i), "at least 1 mm behind the row before")
				}
				if r[2] < r[1]+1 {
					return bad(fmt.Sprintf("outline/%d/high_mm", i), "at least 1 mm above the lower edge")
				}
			}
			if s.Num("thick_mm")*2 > s.Num("width_mm") {
				return bad("thick_mm", "at most half the width")
			}
			return nil
		},
		Form: bodyShellForm,
	})
}

// bodyShellForm makes each side of one panel between two rows. The roof's
// thickness lies below the upper edge, square to the level.
func bodyShellForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	half, t := s.Num("width_mm")/2, s.Num("thick_mm")
	rows := s.Rows("outline")
	var shapes []Shape
	for i := 1; i < len(rows); i++ {
		a, b := rows[i-1], rows[i]
		side := []pt{{a[0], a[1]}, {b[0], b[1]}, {b[0], b[2]}, {a[0], a[2]}}
		shapes = append(shapes, prismAcross(side, -half, -half+t), prismAcross(side, half-t, half))
		if s.Flag("roof") {
			top := []pt{{a[0], a[2] - t}, {b[0], b[2] - t}, {b[0], b[2]}, {a[0], a[2]}}
			shapes = append(shapes, prismAcross(top, -half, half))
		}
	}
	return shapes
}
