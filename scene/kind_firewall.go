package scene

func init() {
	Register(Kind{
		Name: "firewall", Label: "Firewall", Group: "Body",
		About:    "Firewall with a sloped toe board. Placed by the middle of the toe board's rear edge, at the floor's underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Floor},
		Stays:    true,
		Fields: []Field{
			mm("width_mm", "Width", 100, 3000, 1400, "Across."),
			mm("height_mm", "Height", 50, 2500, 700, "From the floor's underside to the top edge."),
			mm("thick_mm", "Thickness", 0.5, 150, 3, "Of the sheet, with its lining."),
			mmOr("none", "toe_length_mm", "Toe board length", 1000, 250, "Forward, from its rear edge to the upright part."),
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
