package scene

func init() {
	Register(Kind{
		Name: "wheel", Label: "Wheel and tyre", Group: "Running gear",
		About:    "Takes its size from the vehicle's tyre at its end. Placed by the wheel centre.",
		Carriers: []Carrier{WheelFL, WheelFR, WheelRL, WheelRR},
		Traits:   []Trait{TyreTrait},
		Stays:    true,
		Fields: []Field{
			mm("extra_width_mm", "Extra width", 0, 150, 0,
				"Added to the tyre's nominal width, half on each side: bulge, chains, a wide rim's flange."),
		},
		Form: wheelForm,
	})
}

// wheelForm rounds the shoulder by a tenth of the width: less than a real
// tyre's, so that the drawn tyre is never smaller than the real one.
func wheelForm(s Size, v *Vehicle, on Carrier) []Shape {
	tyre := v.EndOf(on).Tyre
	half := (tyre.Width() + s.Num("extra_width_mm")) / 2
	return []Shape{Cylinder{
		From: Vec{0, -half, 0}, To: Vec{0, half, 0},
		Radius: tyre.Outer() / 2, Round: half / 5, BoreRadius: tyre.Rim() / 2,
	}}
}

// EndOf is the end of the vehicle a carrier belongs to; the front for the body
// and the ground.
func (v *Vehicle) EndOf(on Carrier) *End {
	switch on {
	case RearAxle, WheelRL, WheelRR:
		return &v.Rear
	}
	return &v.Front
}
