package scene

func init() {
	registerLine(Kind{
		Name: "wiring", Label: "Wiring", Group: "Electric",
		Traits:  []Trait{Fixed, Electric},
		Caution: "Protect wiring by a fuse near the battery, and keep it off heat and sharp edges.",
	}, 15)
}
