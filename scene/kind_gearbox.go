package scene

func init() {
	Register(Kind{
		Name: "gearbox", Label: "Gearbox", Group: "Chassis",
		About:    "Bell housing, case with pan, and tail housing. Placed on the crankshaft's line, at the bell housing's front face.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Engine},
		Stays:    true,
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
