package scene

func init() {
	registerLine(Kind{
		Name: "brake_line", Label: "Brake line", Group: "Brakes",
		Traits:  []Trait{Fixed, Brake},
		Caution: brakeCaution,
	}, 5)
}
