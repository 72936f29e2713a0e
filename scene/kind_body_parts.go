package scene

import "math"

func init() {
	Register(Kind{
		Name: "rocker", Label: "Rocker", Group: "Body",
		About:    "Sill below a door, as a bar along the frame. Placed by the middle of its front end, at the underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed},
		Fields: []Field{
			mm("length_mm", "Length", 50, 5000, 1300, "Along the frame."),
			mm("width_mm", "Width", 5, 500, 90, "Across."),
			mm("height_mm", "Height", 5, 600, 140, "From its underside to its top."),
			mm("round_mm", "Edge radius", 0, 100, 10, "Of its long edges."),
		},
		Check: func(s Size) *FieldError {
			if s.Num("round_mm")*2 > min(s.Num("width_mm"), s.Num("height_mm"), s.Num("length_mm")) {
				return bad("round_mm", "at most half the smallest measure")
			}
			return nil
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			half := s.Num("width_mm") / 2
			b := block(Vec{0, -half, 0}, Vec{s.Num("length_mm"), half, s.Num("height_mm")})
			b.Round = s.Num("round_mm")
			return []Shape{b}
		},
	})
	Register(Kind{
		Name: "seat", Label: "Seat", Group: "Body",
		About:    "Seat base and back rest. Placed by the middle of the base's underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Burns},
		Caution:  "Seats and belts hold people in a crash: fix them as your local code asks.",
		Fields: []Field{
			mm("width_mm", "Width", 100, 2000, 500, "Across."),
			mm("base_length_mm", "Base length", 100, 1200, 520, "Along the frame, over the cushion."),
			mm("base_height_mm", "Base height", 20, 800, 300, "From the mounts' feet to the top of the cushion."),
			mm("back_height_mm", "Back height", 20, 1300, 620, "Along the back rest, from the cushion up."),
			mm("back_thick_mm", "Back thickness", 10, 400, 120, "Square to the back rest."),
			deg("back_deg", "Back angle", -20, 80, 20, "The back rest leans rearward from upright."),
		},
		Form: seatForm,
	})
}

// seatForm stands the back rest on the rear top edge of the base, its front
// face leaning about that edge; its foot is filled down to the base.
func seatForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	half, l, h := s.Num("width_mm")/2, s.Num("base_length_mm")/2, s.Num("base_height_mm")
	sin, cos := math.Sincos(radians(s.Num("back_deg")))
	up, t := s.Num("back_height_mm"), s.Num("back_thick_mm")
	foot := pt{l, h}
	top := pt{foot.U + float64(up*sin), foot.V + float64(up*cos)}
	back := []pt{foot, {foot.U + float64(t*cos), foot.V - float64(t*sin)},
		{top.U + float64(t*cos), top.V - float64(t*sin)}, top}
	return []Shape{
		block(Vec{-l, -half, 0}, Vec{l, half, h}),
		prismAcross(back, -half, half),
	}
}
