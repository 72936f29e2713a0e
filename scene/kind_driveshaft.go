package scene

import "math"

func init() {
	Register(Kind{
		Name: "driveshaft", Label: "Driveshaft", Group: "Running gear",
		About:    "Turning shaft from a joint on the body to the axle's pinion. Placed by the centre of its front joint.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Driveshaft},
		Stays:    true,
		Caution:  "A driveshaft that touches anything can break it or itself: fit a safety loop where your local code asks for one.",
		Fields: []Field{
			mm("diameter_mm", "Diameter", 20, 250, 89, "Over the tube or the joint, whichever is larger when it turns."),
			{Name: "rear_on", Label: "Rear joint on", Type: Choice, Choices: []string{"rear_axle", "front_axle", "body"},
				ChoiceLabels: []string{"rear axle", "front axle", "body"}, DefaultChoice: "rear_axle",
				Help: "What the rear joint is bolted to; the body for the front piece of a two-piece shaft."},
			mm("rear_x_mm", "Rear joint back", -10000, 10000, -300, "From the axle's middle (from the front axle's line when on the body); minus is ahead of it."),
			mmY("rear_y_mm", "Rear joint right", -1500, 1500, 0, "From the axle's middle, or from the vehicle's centreline; minus is left."),
			mm("rear_z_mm", "Rear joint up", -1000, 2000, -10, "From the axle's middle (from the straight rail underside, the frame datum, when on the body); minus is below."),
			mmOr("no limit", "shortest_mm", "Shortest", 10000, 0, "Between the joints with the slip pushed home, a finger's breadth kept."),
			mmOr("no limit", "longest_mm", "Longest", 10000, 0, "Between the joints with the slip out as far as it may go."),
			{Name: "front_falls_deg", Label: "Front falls", Type: Angle, Min: -30, Max: 30, Default: 3,
				Help: "Angle of the gearbox's output to the frame, falling to the rear; minus when it rises."},
			{Name: "rear_falls_deg", Label: "Pinion falls", Type: Angle, Min: -30, Max: 30, Default: 3,
				Help: "Angle of the pinion to the frame at ride, falling to the rear; the same as in front for two joints that even out."},
			{Name: "joint_max_deg", Label: "Most joint angle", Type: Angle, Min: 0, Max: 45, Default: 0, ZeroIs: "no limit",
				Help: "What either joint may bend at most, from its maker. Under power at road speed a few degrees, aired out what it clears."},
		},
		Check: checkLimits,
		Form:  driveshaftForm,
	})
}

func driveshaftForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	return []Shape{Shaft{
		Rear:      Anchor{On: Carrier(s.Text("rear_on")), P: Vec{s.Num("rear_x_mm"), s.Num("rear_y_mm"), s.Num("rear_z_mm")}},
		Radius:    s.Num("diameter_mm") / 2,
		Limits:    Limits{s.Num("shortest_mm"), s.Num("longest_mm")},
		FrontAxis: falling(s.Num("front_falls_deg")), RearAxis: falling(s.Num("rear_falls_deg")),
		MaxAngleDeg: s.Num("joint_max_deg"),
	}}
}

// falling is the rearward direction that falls by an angle.
func falling(deg float64) Vec {
	sin, cos := math.Sincos(deg * math.Pi / 180)
	return Vec{cos, 0, -sin}
}
