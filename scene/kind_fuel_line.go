package scene

func init() {
	registerLine(Kind{
		Name: "fuel_line", Label: "Fuel line", Group: "Fuel",
		Traits:  []Trait{Fixed, Fuel},
		Caution: fuelCaution,
	}, 10)
}
