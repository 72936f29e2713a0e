package scene

import "fmt"

// Panels are sheets bent along a line: the floor with its tunnel across the
// vehicle, the firewall and the roof along it.
func init() {
	Register(Kind{
		Name: "floor_pan", Label: "Floor pan", Group: "Body",
		About:    "Floor with a tunnel. Placed by the middle of its front edge, at the underside of the flat floor.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Floor},
		Fields: []Field{
			mm("length_mm", "Length", 50, 6000, 1300, "Along the frame."),
			mm("width_mm", "Width", 100, 3000, 1400, "Across, edge to edge."),
			mm("thick_mm", "Thickness", 0.5, 100, 2, "Of the sheet, with ribs and coating."),
			mm("tunnel_height_mm", "Tunnel height", 0, 800, 160, "From the floor's underside up to the tunnel's underside; 0 for a flat floor."),
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
	Register(Kind{
		Name: "firewall", Label: "Firewall", Group: "Body",
		About:    "Firewall with a sloped toe board. Placed by the middle of the toe board's rear edge, at the floor's underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Floor},
		Fields: []Field{
			mm("width_mm", "Width", 100, 3000, 1400, "Across."),
			mm("height_mm", "Height", 50, 2500, 700, "From the floor's underside to the top edge."),
			mm("thick_mm", "Thickness", 0.5, 150, 3, "Of the sheet, with its lining."),
			mm("toe_length_mm", "Toe board length", 0, 1000, 250, "Forward, from its rear edge to the upright part; 0 for none."),
			mm("toe_height_mm", "Toe board height", 1, 1000, 250, "From the floor's underside to where the upright part begins."),
		},
		Check: checkFirewall,
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			quads, _ := sheet(firewallPath(s), s.Num("thick_mm"))
			half := s.Num("width_mm") / 2
			var shapes []Shape
			for _, q := range quads {
				shapes = append(shapes, prismAcross(q, -half, half))
			}
			return shapes
		},
	})
	Register(Kind{
		Name: "bed_floor", Label: "Bed floor", Group: "Body",
		About:    "Flat floor of a bed or load room, of wood unless its traits say otherwise. Placed by the middle of its front edge, at the underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Floor, Burns},
		Fields: []Field{
			mm("length_mm", "Length", 50, 8000, 2200, "Along the frame."),
			mm("width_mm", "Width", 50, 3000, 1500, "Across, edge to edge."),
			mm("thick_mm", "Thickness", 0.5, 300, 22, "Of boards and strips; of the cross sills too where they are not drawn."),
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			half := s.Num("width_mm") / 2
			return []Shape{block(Vec{0, -half, 0}, Vec{s.Num("length_mm"), half, s.Num("thick_mm")})}
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
		return bad("tunnel_width_mm", "a tunnel within the floor's width")
	}
	if s.Num("tunnel_top_mm") > s.Num("tunnel_width_mm") {
		return bad("tunnel_top_mm", "at most the width at the floor")
	}
	if _, thin := sheet(path, s.Num("thick_mm")); thin >= 0 {
		return bad("thick_mm", fmt.Sprintf("thin enough for this tunnel (edge %d has no length left)", thin+1))
	}
	return nil
}

// firewallPath is the firewall's front face in X and Z from the top down, so
// that its thickness lies behind it.
func firewallPath(s Size) []pt {
	toe, h := s.Num("toe_length_mm"), s.Num("height_mm")
	if !there(toe) {
		return []pt{{0, h}, {0, 0}}
	}
	return []pt{{-toe, h}, {-toe, s.Num("toe_height_mm")}, {0, 0}}
}

func checkFirewall(s Size) *FieldError {
	if !there(s.Num("toe_length_mm")) {
		return nil
	}
	if s.Num("toe_height_mm") > s.Num("height_mm")-1 {
		return bad("toe_height_mm", "less than the height")
	}
	if _, thin := sheet(firewallPath(s), s.Num("thick_mm")); thin >= 0 {
		return bad("thick_mm", "thin enough for this toe board")
	}
	return nil
}
