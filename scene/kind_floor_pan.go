package scene

func init() {
	Register(Kind{
		Name: "floor_pan", Label: "Floor pan", Group: "Body",
		About:    "Floor with a tunnel. Placed by the middle of its front edge, at the underside of the flat floor.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Floor},
		Stays:    true,
		Fields: []Field{
			mm("length_mm", "Length", 50, 6000, 1300, "Along the frame."),
			mm("width_mm", "Width", 100, 3000, 1400, "Across, edge to edge."),
			mm("thick_mm", "Thickness", 0.5, 100, 2, "Of the sheet, with ribs and coating."),
			mmOr("flat", "tunnel_height_mm", "Tunnel height", 800, 160, "From the floor's underside up to the tunnel's underside."),
			mm("tunnel_width_mm", "Tunnel width", 20, 2000, 300, "Inside, at the floor."),
			mm("tunnel_top_mm", "Tunnel top", 10, 2000, 220, "Inside width, at its top."),
			mmY("tunnel_y_mm", "Tunnel offset", -1000, 1000, 0, "Middle of the tunnel, right of the middle of the floor."),
		},
		Check: checkFloorPan,
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			quads, _ := sheet(floorPath(s), s.Num("thick_mm"))
			var shapes []Shape
			for _, q := range quads {
				shapes = append(shapes, prismAlong(q, 0, s.Num("length_mm")))
			}
			return shapes
		},
	})
}

// floorPath is the floor's underside in Y and Z, left to right.
func floorPath(s Size) []pt {
	half, h, y := s.Num("width_mm")/2, s.Num("tunnel_height_mm"), s.Num("tunnel_y_mm")
	if !there(h) {
		return []pt{{-half, 0}, {half, 0}}
	}
	foot, top := s.Num("tunnel_width_mm")/2, s.Num("tunnel_top_mm")/2
	return []pt{{-half, 0}, {y - foot, 0}, {y - top, h}, {y + top, h}, {y + foot, 0}, {half, 0}}
}

func checkFloorPan(s Size) *FieldError {
	path := floorPath(s)
	if len(path) == 2 {
		return nil
	}
	if path[1].U < path[0].U+1 || path[4].U > path[5].U-1 {
		return bad("tunnel_width_mm", "small enough for the tunnel to lie within the floor")
	}
	if s.Num("tunnel_top_mm") > s.Num("tunnel_width_mm") {
		return bad("tunnel_top_mm", "at most the width at the floor")
	}
	if _, thin := sheet(path, s.Num("thick_mm")); thin >= 0 {
		return bad("thick_mm", "thin enough for this tunnel")
	}
	return nil
}
