package scene

func init() {
	Register(Kind{
		Name: "driveshaft", Label: "Driveshaft", Group: "Running gear",
		About:    "Turning shaft from a joint on the body to the axle's pinion. Placed by the centre of its front joint.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Driveshaft},
		Caution:  "A driveshaft that touches anything can break it or itself: fit a safety loop where your local code asks for one.",
		Fields: []Field{
			mm("diameter_mm", "Diameter", 20, 250, 89, "Over the tube or the joint, whichever is larger when it turns."),
			{Name: "rear_on", Label: "Rear joint on", Type: Choice, Choices: []string{"rear_axle", "front_axle", "body"},
				ChoiceLabels: []string{"rear axle", "front axle", "body"}, DefaultChoice: "rear_axle",
				Help: "What the rear joint is bolted to; the body for the front piece of a two-piece shaft."},
			mm("rear_x_mm", "Rear joint X", -10000, 10000, -300, "Rearward from the axle's middle (from the front axle's line when on the body); minus is ahead of it."),
			mmY("rear_y_mm", "Rear joint Y", -1500, 1500, 0, "To the right of the axle's middle."),
			mm("rear_z_mm", "Rear joint Z", -1000, 2000, -10, "Up from the axle's middle (from the frame datum when on the body)."),
		},
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			return []Shape{Shaft{
				Rear:   Anchor{On: Carrier(s.Text("rear_on")), P: Vec{s.Num("rear_x_mm"), s.Num("rear_y_mm"), s.Num("rear_z_mm")}},
				Radius: s.Num("diameter_mm") / 2,
			}}
		},
	})
}
