package scene

func init() {
	Register(Kind{
		Name: "engine", Label: "Engine", Group: "Chassis",
		About:    "Block, heads and sump as boxes. Placed on the crankshaft's line, at the rear face of the block.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Engine},
		Caution:  "The engine shakes on its mounts and gets hot: leave it room all round.",
		Fields: []Field{
			mm("length_mm", "Length", 100, 2000, 700, "From the rear face forward, over pulleys and fan."),
			mm("width_mm", "Width", 100, 1500, 560, "Across, over heads and manifolds."),
			mm("above_mm", "Above crank", 50, 1200, 480, "From the crankshaft's line up to the highest point."),
			mm("below_mm", "Below crank", 10, 500, 90, "From the crankshaft's line down to the sump's flange or shallow part."),
			mm("sump_width_mm", "Sump width", 20, 800, 260, "Across, over the sump."),
			mm("sump_depth_mm", "Sump depth", 10, 600, 210, "From the crankshaft's line down to the sump's underside."),
			mm("sump_length_mm", "Sump length", 20, 1500, 320, "Of the deep part, along the engine."),
			mm("sump_from_mm", "Sump from", 0, 1500, 40, "From the rear face forward to where the deep part begins."),
		},
		Check: func(s Size) *FieldError {
			if s.Num("sump_depth_mm") < s.Num("below_mm") {
				return bad("sump_depth_mm", "at least what lies below the crank")
			}
			if s.Num("sump_from_mm")+s.Num("sump_length_mm") > s.Num("length_mm") {
				return bad("sump_length_mm", "a deep part within the engine's length")
			}
			return nil
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			half, sump := s.Num("width_mm")/2, s.Num("sump_width_mm")/2
			below, from := -s.Num("below_mm"), -s.Num("sump_from_mm")
			shapes := []Shape{block(Vec{-s.Num("length_mm"), -half, below}, Vec{0, half, s.Num("above_mm")})}
			if there(s.Num("sump_depth_mm") - s.Num("below_mm")) {
				shapes = append(shapes, block(Vec{from - s.Num("sump_length_mm"), -sump, -s.Num("sump_depth_mm")}, Vec{from, sump, below}))
			}
			return shapes
		},
	})
	Register(Kind{
		Name: "gearbox", Label: "Gearbox", Group: "Chassis",
		About:    "Bell housing, case with pan, and tail housing. Placed on the crankshaft's line, at the bell housing's front face.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Engine},
		Caution:  "The gearbox shakes with the engine: leave it room all round.",
		Fields: []Field{
			mm("bell_mm", "Bell diameter", 50, 800, 380, "Over the bell housing's front flange."),
			mm("bell_length_mm", "Bell length", 10, 600, 160, "From its front face to the case."),
			mm("case_width_mm", "Case width", 50, 800, 270, "Across, over the case."),
			mm("case_length_mm", "Case length", 50, 1500, 420, "From the bell housing to the tail housing."),
			mm("case_above_mm", "Case above", 20, 500, 130, "From the crankshaft's line up to the case's top."),
			mm("case_below_mm", "Case below", 20, 600, 175, "From the crankshaft's line down to the pan's underside."),
			mm("tail_mm", "Tail diameter", 20, 400, 130, "Over the tail housing."),
			mm("tail_length_mm", "Tail length", 10, 1000, 250, "From the case to the end of the tail housing or yoke."),
		},
		Form: gearboxForm,
	})
}

func gearboxForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	bell, end := s.Num("bell_length_mm"), s.Num("bell_length_mm")+s.Num("case_length_mm")
	half := s.Num("case_width_mm") / 2
	r0 := s.Num("bell_mm") / 2
	return []Shape{
		cone(Vec{}, Vec{bell, 0, 0}, r0, min(r0, max(half, s.Num("tail_mm")/2))),
		block(Vec{bell, -half, -s.Num("case_below_mm")}, Vec{end, half, s.Num("case_above_mm")}),
		Cylinder{From: Vec{end, 0, 0}, To: Vec{end + s.Num("tail_length_mm"), 0, 0}, Radius: s.Num("tail_mm") / 2},
	}
}
