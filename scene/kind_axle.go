package scene

import "math"

func init() {
	Register(Kind{
		Name: "axle", Label: "Axle", Group: "Running gear",
		About:    "Live axle with its housing and pinion, or a plain beam. Placed by the middle of the line between the wheel centres.",
		Carriers: []Carrier{RearAxle, FrontAxle},
		Traits:   []Trait{Moving},
		Stays:    true,
		Fields: []Field{
			{Name: "style", Label: "Style", Type: Choice, Choices: []string{"live", "beam"},
				ChoiceLabels: []string{"live axle", "plain beam"}, DefaultChoice: "live",
				Help: "A plain beam has no housing and no pinion."},
			mm("tube_mm", "Tube diameter", 20, 250, 76, "Around the axle tube, outside."),
			mm("length_mm", "Length", 300, 3000, 1420, "Between the outer faces of the wheel flanges."),
			onlyWith("style", "beam", mm("beam_drop_mm", "Beam drop", -300, 400, 0, "Plain beam: how far its middle lies below the wheel centres.")),
			onlyWith("style", "beam", mm("kingpin_mm", "Beam end", 20, 500, 120, "Plain beam: from the flange in to where the dropped part begins.")),
			onlyWith("style", "live", mm("housing_mm", "Housing diameter", 50, 600, 270, "Live axle: over the housing, seen from the side.")),
			onlyWith("style", "live", mm("housing_width_mm", "Housing width", 50, 800, 240, "Live axle: across, over the housing.")),
			onlyWith("style", "live", mmY("housing_y_mm", "Housing offset", -800, 800, 0, "Live axle: middle of the housing, right of the axle's middle.")),
			onlyWith("style", "live", mm("pinion_length_mm", "Pinion length", 50, 800, 300, "Live axle: from the axle's centreline forward to the pinion flange.")),
			onlyWith("style", "live", mm("pinion_mm", "Pinion diameter", 20, 300, 120, "Live axle: over the pinion's nose and flange.")),
			onlyWith("style", "live", mm("pinion_drop_mm", "Pinion drop", -150, 150, 25, "Live axle: how far the pinion's centre lies below the axle's, at the axle.")),
			onlyWith("style", "live", deg("pinion_deg", "Pinion angle", -30, 30, 3, "Live axle: nose up, from level.")),
		},
		Check: func(s Size) *FieldError {
			if s.Text("style") == "beam" {
				if s.Num("kingpin_mm")*2 > s.Num("length_mm")-20 {
					return bad("kingpin_mm", "at least 10 mm less than half the length")
				}
				return nil
			}
			half, y := s.Num("length_mm")/2, s.Num("housing_y_mm")
			if max(y, -y)+s.Num("housing_width_mm")/2 > half {
				return bad("housing_y_mm", "such that the housing lies between the flanges")
			}
			return nil
		},
		Form: axleForm,
	})
}

func axleForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	half, r := s.Num("length_mm")/2, s.Num("tube_mm")/2
	tube := Cylinder{From: Vec{0, -half, 0}, To: Vec{0, half, 0}, Radius: r}
	if s.Text("style") == "beam" {
		drop := s.Num("beam_drop_mm")
		if !there(max(drop, -drop)) {
			return []Shape{tube}
		}
		// The beam steps down within its own diameter of the king pins.
		in := half - s.Num("kingpin_mm")
		low := max(in-s.Num("tube_mm"), 1)
		return []Shape{Run{Radius: r, Vertices: []RunVertex{
			{P: Vec{0, -half, 0}}, {P: Vec{0, -in, 0}}, {P: Vec{0, -low, -drop}},
			{P: Vec{0, low, -drop}}, {P: Vec{0, in, 0}}, {P: Vec{0, half, 0}},
		}}}
	}
	y, w := s.Num("housing_y_mm"), s.Num("housing_width_mm")/2
	sin, cos := math.Sincos(radians(s.Num("pinion_deg")))
	root := Vec{0, y, -s.Num("pinion_drop_mm")}
	return []Shape{
		tube,
		Cylinder{From: Vec{0, y - w, 0}, To: Vec{0, y + w, 0}, Radius: s.Num("housing_mm") / 2,
			Round: min(20, w/2, s.Num("housing_mm")/4)},
		Cylinder{From: root, To: root.add(Vec{-cos, 0, sin}.scale(s.Num("pinion_length_mm"))),
			Radius: s.Num("pinion_mm") / 2},
	}
}
