package scene

func init() {
	Register(Kind{
		Name: "battery", Label: "Battery", Group: "Electric",
		About:    "Battery with room above to lift its lid. Placed by the middle of its underside.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Battery},
		Caution:  "Batteries burn, gas and spark: fix it so that it cannot move, cover the terminals, vent it to the outside as your local code asks.",
		Fields: []Field{
			{Name: "case", Label: "Case", Type: Choice, Choices: batteryWords(), ChoiceLabels: batteryLabels(),
				DefaultChoice: "bci_34", Help: "Group printed on its label, or its own measures."},
			onlyWith("case", "free", mm("length_mm", "Length", 30, 1000, 260, "Own measures: the longer side of its case.")),
			onlyWith("case", "free", mm("width_mm", "Width", 30, 600, 173, "Own measures: the shorter side of its case.")),
			onlyWith("case", "free", mm("height_mm", "Height", 30, 600, 200, "Own measures: over the terminals.")),
			{Name: "lies", Label: "Long side", Type: Choice, Choices: []string{"along", "across"},
				ChoiceLabels: []string{"along the frame", "across"}, DefaultChoice: "across",
				Help: "The way its longer side points."},
			mmOr("none", "lid_mm", "Lid room", 600, 80, "Free height above it to lift the lid and reach the terminals."),
		},
		Form: batteryForm,
	})
}

// batteryCase is a standard case: outside length, width and height over the
// terminals, millimetres.
type batteryCase struct {
	word, label string
	size        Vec
}

// batteryCases are the BCI group sizes as a public BCI chart prints them
// (group 48 after two sources that agree with EN size L3), and the EN 50342-2
// lengths with width 175 and height 190. Group 24 is published with two
// heights; the larger holds here.
var batteryCases = []batteryCase{
	{"bci_24", "group 24", Vec{260, 173, 225}},
	{"bci_27", "group 27", Vec{306, 173, 225}},
	{"bci_31", "group 31", Vec{330, 173, 240}},
	{"bci_34", "group 34", Vec{260, 173, 200}},
	{"bci_35", "group 35", Vec{230, 175, 225}},
	{"bci_48", "group 48", Vec{278, 175, 190}},
	{"bci_51", "group 51", Vec{238, 129, 223}},
	{"bci_65", "group 65", Vec{306, 190, 192}},
	{"bci_78", "group 78", Vec{260, 179, 196}},
	{"en_l0", "EN L0", Vec{175, 175, 190}},
	{"en_l1", "EN L1", Vec{207, 175, 190}},
	{"en_l2", "EN L2", Vec{242, 175, 190}},
	{"en_l3", "EN L3", Vec{278, 175, 190}},
	{"en_l4", "EN L4", Vec{315, 175, 190}},
	{"en_l5", "EN L5", Vec{353, 175, 190}},
	{"en_l6", "EN L6", Vec{394, 175, 190}},
}

func batteryWords() []string {
	words := []string{"free"}
	for _, c := range batteryCases {
		words = append(words, c.word)
	}
	return words
}

func batteryLabels() []string {
	labels := []string{"own measures"}
	for _, c := range batteryCases {
		labels = append(labels, c.label)
	}
	return labels
}

// batterySize is the case's length, width and height.
func batterySize(s Size) Vec {
	for _, c := range batteryCases {
		if c.word == s.Text("case") {
			return c.size
		}
	}
	return Vec{s.Num("length_mm"), s.Num("width_mm"), s.Num("height_mm")}
}

func batteryForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	d := batterySize(s)
	if s.Text("lies") == "across" {
		d[0], d[1] = d[1], d[0]
	}
	shapes := []Shape{block(Vec{-d[0] / 2, -d[1] / 2, 0}, Vec{d[0] / 2, d[1] / 2, d[2]})}
	if room := s.Num("lid_mm"); there(room) {
		shapes = append(shapes, Room{For: "lifting the lid",
			Shape: block(Vec{-d[0] / 2, -d[1] / 2, d[2]}, Vec{d[0] / 2, d[1] / 2, d[2] + room})})
	}
	return shapes
}
