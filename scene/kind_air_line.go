package scene

func init() {
	registerLine(Kind{
		Name: "air_line", Label: "Air line", Group: "Air",
		Traits:  []Trait{Fixed, Air},
		Caution: "Keep air lines off heat, sharp edges and moving parts; let the air out before opening one.",
	}, 10)
}
