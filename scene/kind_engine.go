package scene

func init() {
	Register(Kind{
		Name: "engine", Label: "Engine", Group: "Chassis",
		About:    "Block, heads and sump as boxes. Placed on the crankshaft's line, at the rear face of the block.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Engine},
		Stays:    true,
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
				return bad("sump_length_mm", "short enough for the deep part to lie within the engine's length")
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
}
