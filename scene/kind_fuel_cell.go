package scene

func init() {
	Register(Kind{
		Name: "fuel_cell", Label: "Fuel cell", Group: "Fuel",
		About:    "Fuel tank with sump, filler, sender and vent. Placed by the middle of the box's underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Fuel},
		Caution:  fuelCaution,
		Fields:   fuelCellFields(),
		Check:    checkFuelCell,
		Form:     fuelCellForm,
	})
}

func fuelCellFields() []Field {
	return []Field{
		mm("length_mm", "Length", 100, 2000, 510, "Along the frame, over the box."),
		mm("width_mm", "Width", 100, 2000, 510, "Across, over the box."),
		mm("height_mm", "Height", 50, 1000, 230, "Of the box, without sump and fittings."),
		mmOr("none", "sump_depth_mm", "Sump depth", 300, 75, "From the box's underside down."),
		mm("sump_length_mm", "Sump length", 20, 1000, 180, "Along the frame."),
		mm("sump_width_mm", "Sump width", 20, 1000, 180, "Across."),
		mm("sump_x_mm", "Sump back", -1000, 1000, 140, "Middle of the sump, rearward from the middle of the box."),
		mmY("sump_y_mm", "Sump right", -1000, 1000, 0, "Middle of the sump, right of the middle of the box."),
		mm("filler_mm", "Filler diameter", 20, 250, 90, "Over the filler's flange or cap."),
		mmOr("none", "filler_height_mm", "Filler height", 500, 60, "From the box's top to the cap's."),
		mm("filler_x_mm", "Filler back", -1000, 1000, 150, "Rearward from the middle of the box."),
		mmY("filler_y_mm", "Filler right", -1000, 1000, -160, "Right of the middle of the box."),
		mmOr("none", "reach_mm", "Filler room", 1000, 120, "Free height above the cap to open it and fill."),
		mm("sender_mm", "Sender diameter", 20, 250, 75, "Over the fuel gauge sender's flange and plug."),
		mmOr("none", "sender_height_mm", "Sender height", 300, 35, "From the box's top, with its plug."),
		mm("sender_x_mm", "Sender back", -1000, 1000, -60, "Rearward from the middle of the box."),
		mmY("sender_y_mm", "Sender right", -1000, 1000, 60, "Right of the middle of the box."),
		mm("vent_mm", "Vent diameter", 5, 150, 25, "Over the vent's fitting."),
		mmOr("none", "vent_height_mm", "Vent height", 300, 45, "From the box's top, with its hose."),
		mm("vent_x_mm", "Vent back", -1000, 1000, -180, "Rearward from the middle of the box."),
		mmY("vent_y_mm", "Vent right", -1000, 1000, 180, "Right of the middle of the box."),
	}
}

// checkFuelCell keeps sump and fittings on the box.
func checkFuelCell(s Size) *FieldError {
	for _, name := range []string{"filler", "sender", "vent"} {
		if there(s.Num(name + "_height_mm")) {
			if e := within(s, name, s.Num(name+"_mm"), s.Num(name+"_mm")); e != nil {
				return e
			}
		}
	}
	if there(s.Num("sump_depth_mm")) {
		return within(s, "sump", s.Num("sump_length_mm"), s.Num("sump_width_mm"))
	}
	return nil
}

// within checks that something of this length and width at name's X and Y does
// not stand out over the side of the box.
func within(s Size, name string, length, width float64) *FieldError {
	x, y := s.Num(name+"_x_mm"), s.Num(name+"_y_mm")
	if max(x, -x)+length/2 > s.Num("length_mm")/2 {
		return bad(name+"_x_mm", "such that it lies within the box's length")
	}
	if max(y, -y)+width/2 > s.Num("width_mm")/2 {
		return bad(name+"_y_mm", "such that it lies within the box's width")
	}
	return nil
}

func fuelCellForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	l, w, h := s.Num("length_mm")/2, s.Num("width_mm")/2, s.Num("height_mm")
	shapes := []Shape{block(Vec{-l, -w, 0}, Vec{l, w, h})}
	if d := s.Num("sump_depth_mm"); there(d) {
		x, y := s.Num("sump_x_mm"), s.Num("sump_y_mm")
		a, b := s.Num("sump_length_mm")/2, s.Num("sump_width_mm")/2
		shapes = append(shapes, block(Vec{x - a, y - b, -d}, Vec{x + a, y + b, 0}))
	}
	for _, name := range []string{"filler", "sender", "vent"} {
		up := s.Num(name + "_height_mm")
		if !there(up) {
			continue
		}
		foot := Vec{s.Num(name + "_x_mm"), s.Num(name + "_y_mm"), h}
		top, r := foot.add(Vec{0, 0, up}), s.Num(name+"_mm")/2
		shapes = append(shapes, Cylinder{From: foot, To: top, Radius: r})
		if reach := s.Num("reach_mm"); name == "filler" && there(reach) {
			shapes = append(shapes, Room{For: "opening the filler",
				Shape: Cylinder{From: top, To: top.add(Vec{0, 0, reach}), Radius: r}})
		}
	}
	return shapes
}
