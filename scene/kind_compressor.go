package scene

func init() {
	Register(Kind{
		Name: "compressor", Label: "Compressor", Group: "Air",
		About:    "Air compressor on its mounts: motor and head. Placed by the middle of its mounts' feet.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Air, Electric},
		Caution:  "Gets hot when it runs: give it air, and keep its line off what melts.",
		Fields: []Field{
			mm("length_mm", "Length", 50, 800, 260, "Over motor and head."),
			mm("width_mm", "Width", 40, 500, 110, "Across, over the feet."),
			mm("height_mm", "Height", 40, 600, 165, "From under the feet to the top of the head."),
			mm("head_mm", "Head length", 20, 500, 80, "Of the upright head, along the compressor."),
			mm("motor_height_mm", "Motor height", 20, 600, 115, "From under the feet to the top of the motor."),
		},
		Check: func(s Size) *FieldError {
			if s.Num("head_mm") > s.Num("length_mm") {
				return bad("head_mm", "at most the length")
			}
			if s.Num("motor_height_mm") > s.Num("height_mm") {
				return bad("motor_height_mm", "at most the height")
			}
			return nil
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			l, w, h := s.Num("length_mm")/2, s.Num("width_mm")/2, s.Num("height_mm")
			return []Shape{
				block(Vec{-l, -w, 0}, Vec{l, w, s.Num("motor_height_mm")}),
				block(Vec{-l, -w, 0}, Vec{-l + s.Num("head_mm"), w, h}),
			}
		},
	})
}
