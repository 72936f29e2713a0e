package scene

func init() {
	Register(Kind{
		Name: "shock", Label: "Shock absorber", Group: "Running gear",
		About:    "From a mount on the body to one on an axle or wheel. Placed by its upper mount.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Moving},
		Fields: append(append([]Field{
			mm("diameter_mm", "Diameter", 10, 200, 60, "Over the fattest part of its body."),
		}, lowerMount("rear_axle", -80, -400, -60)...),
			mmOr("no limit", "shortest_mm", "Shortest", 1500, 0, "Between the middles of its mounts, pushed in."),
			mmOr("no limit", "longest_mm", "Longest", 2000, 0, "Between the middles of its mounts, pulled out.")),
		Check: checkLimits,
		Form: func(s Size, _ *Vehicle, _ Carrier) []Shape {
			return []Shape{Shaft{Rear: lowerAnchor(s), Radius: s.Num("diameter_mm") / 2,
				Limits: Limits{s.Num("shortest_mm"), s.Num("longest_mm")}}}
		},
	})
}

// lowerMount asks where the lower end of an air spring or shock is fixed.
func lowerMount(on string, x, y, z float64) []Field {
	return []Field{
		{Name: "lower_on", Label: "Lower mount on", Type: Choice,
			Choices:       []string{"front_axle", "rear_axle", "wheel_fl", "wheel_fr", "wheel_rl", "wheel_rr"},
			ChoiceLabels:  []string{"front axle", "rear axle", "front left wheel", "front right wheel", "rear left wheel", "rear right wheel"},
			DefaultChoice: on, Help: "What the lower mount is bolted to."},
		mm("lower_x_mm", "Lower mount back", -2000, 2000, x, "From the middle of that axle, or from that wheel's centre; minus is ahead."),
		mmY("lower_y_mm", "Lower mount right", -2000, 2000, y, "From the middle of that axle, or from that wheel's centre; minus is left."),
		mm("lower_z_mm", "Lower mount up", -1500, 1500, z, "From the height of the wheel centres; minus is below."),
	}
}

func lowerAnchor(s Size) Anchor {
	return Anchor{On: Carrier(s.Text("lower_on")), P: Vec{s.Num("lower_x_mm"), s.Num("lower_y_mm"), s.Num("lower_z_mm")}}
}

// checkLimits: where both lengths are measured, the longest is the longer one.
func checkLimits(s Size) *FieldError {
	if long := s.Num("longest_mm"); long > 0 && long <= s.Num("shortest_mm") {
		return bad("longest_mm", "more than the shortest length")
	}
	return nil
}
