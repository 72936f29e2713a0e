package scene

func init() {
	Register(Kind{
		Name: "booster", Label: "Brake booster", Group: "Brakes",
		About:    "Booster with its master cylinder ahead of it. Placed by the middle of its mounting face.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Brake},
		Caution:  brakeCaution,
		Fields: []Field{
			mm("diameter_mm", "Diameter", 50, 500, 205, "Around the booster's drum."),
			mm("length_mm", "Length", 20, 500, 150, "Of the drum, from its mounting face forward."),
			mmOr("none", "bracket_mm", "Bracket", 500, 0, "From the mounting face rearward, over bracket and push rod."),
			mm("bracket_width_mm", "Bracket width", 10, 400, 110, "Across, over the bracket."),
			mm("master_length_mm", "Master length", 20, 500, 190, "Of the master cylinder, from the drum forward."),
			mm("master_width_mm", "Master width", 10, 300, 70, "Across, over cylinder and reservoir."),
			mm("below_mm", "Below", 5, 300, 35, "From the drum's middle down to the master cylinder's underside."),
			mm("cap_height_mm", "Cap height", 5, 400, 90, "From the drum's middle up to the top of the reservoir's cap."),
			mmOr("none", "cap_room_mm", "Cap room", 600, 60, "Free height above the cap to open and fill it."),
		},
		Form: boosterForm,
	})
}

func boosterForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	front := -s.Num("length_mm")
	nose, w := front-s.Num("master_length_mm"), s.Num("master_width_mm")/2
	cap := s.Num("cap_height_mm")
	shapes := []Shape{
		Cylinder{From: Vec{front, 0, 0}, Radius: s.Num("diameter_mm") / 2},
		block(Vec{nose, -w, -s.Num("below_mm")}, Vec{front, w, cap}),
	}
	if l := s.Num("bracket_mm"); there(l) {
		b := s.Num("bracket_width_mm") / 2
		shapes = append(shapes, block(Vec{0, -b, -b}, Vec{l, b, b}))
	}
	if room := s.Num("cap_room_mm"); there(room) {
		shapes = append(shapes, Room{For: "opening the cap",
			Shape: block(Vec{nose, -w, cap}, Vec{front, w, cap + room})})
	}
	return shapes
}
