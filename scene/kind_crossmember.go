package scene

func init() {
	Register(Kind{
		Name: "crossmember", Label: "Crossmember", Group: "Chassis",
		About:    "Beam from rail to rail, straight or dropped in the middle. Placed by its middle, at the underside of its ends.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Frame},
		Stays:    true,
		Caution:  "The frame carries everything: have a change to it designed and inspected as your local code asks.",
		Fields: []Field{
			mm("length_mm", "Length", 50, 3000, 720, "Across, from end to end."),
			mm("width_mm", "Width", 5, 600, 80, "Along the vehicle."),
			mm("depth_mm", "Depth", 3, 400, 50, "From its underside to its top, square to it."),
			mm("drop_mm", "Drop", -500, 500, 0, "How far the middle lies below the ends; minus for above, as over a driveshaft."),
			mm("flat_mm", "Dropped part", 0, 2500, 300, "Length of the dropped part; from it to the ends it slopes at 45 degrees."),
		},
		Check: func(s Size) *FieldError {
			path := crossmemberPath(s)
			for i := 1; i < len(path); i++ {
				if path[i].U < path[i-1].U+1 {
					return bad("flat_mm", "short enough for slopes of 45 degrees between it and the ends")
				}
			}
			if _, thin := sheet(path, s.Num("depth_mm")); thin >= 0 {
				return bad("depth_mm", "small enough for the corners of its drop")
			}
			return nil
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			quads, _ := sheet(crossmemberPath(s), s.Num("depth_mm"))
			half := s.Num("width_mm") / 2
			var shapes []Shape
			for _, q := range quads {
				shapes = append(shapes, prismAlong(q, -half, half))
			}
			return shapes
		},
	})
}

// crossmemberPath is its underside in Y and Z.
func crossmemberPath(s Size) []pt {
	half, drop, flat := s.Num("length_mm")/2, s.Num("drop_mm"), s.Num("flat_mm")/2
	if max(drop, -drop) < 1 {
		return []pt{{-half, 0}, {half, 0}}
	}
	run := max(drop, -drop)
	if flat < 0.5 { // the slopes meet
		return []pt{{-half, 0}, {-run, 0}, {0, -drop}, {run, 0}, {half, 0}}
	}
	return []pt{{-half, 0}, {-flat - run, 0}, {-flat, -drop}, {flat, -drop}, {flat + run, 0}, {half, 0}}
}
