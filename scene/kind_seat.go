package scene

import "math"

func init() {
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
// face leaning about that edge.
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
