package scene

import "fmt"

func init() {
	Register(Kind{
		Name: "exhaust_run", Label: "Exhaust run", Group: "Exhaust",
		About:    "Bent tube from the collector to the tip, with the mufflers in it. Placed by the middle of the tube's start.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Exhaust},
		Caution:  exhaustCaution,
		Fields:   exhaustRunFields(),
		Check:    checkExhaustRun,
		Form:     exhaustRunForm,
	})
}

func exhaustRunFields() []Field {
	return []Field{
		mm("tube_mm", "Tube diameter", 10, 250, 63.5, "Around the tube, outside."),
		mm("wall_mm", "Wall", 0.5, 10, 1.6, "Thickness of the tube's wall."),
		{Name: "vertices", Label: "Corners", Type: Table, MinRows: 2, MaxRows: 60,
			Help:    "Where the straight lines along the middle of the tube meet, start and end first and last.",
			Columns: cornerColumns(95),
			DefaultRows: []Row{{0, 0, 0, 0}, {300, 0, -40, 95}, {1500, 0, -40, 95},
				{1750, 0, 160, 95}, {2250, 0, 160, 95}, {2500, 0, 60, 95}, {2800, 0, 60, 0}}},
		{Name: "mufflers", Label: "Mufflers", Type: Table, MaxRows: 6,
			Help: "Mufflers and resonators in the tube. Round where width and height are the same.",
			Columns: []Field{
				mm("start_mm", "From start", 0, 20000, 0, "Along the middle of the tube from its start to where the body begins."),
				mm("length_mm", "Length", 20, 2000, 400, "Over the body, without its pipes."),
				mm("width_mm", "Width", 20, 800, 200, "Across the body."),
				mm("height_mm", "Height", 20, 800, 125, "Of the body."),
			},
			DefaultRows: []Row{{600, 450, 230, 125}}},
		mmOr("none", "tip_length_mm", "Tip length", 1000, 0, "Of the exit tip, beyond the tube's end."),
		withSome("tip_length_mm", mm("tip_mm", "Tip diameter", 10, 300, 76, "Around the exit tip, outside.")),
	}
}

func checkExhaustRun(s Size) *FieldError {
	if s.Num("wall_mm")*2 >= s.Num("tube_mm") {
		return bad("wall_mm", "less than half the tube's diameter")
	}
	if e := checkCorners("vertices", s.Rows("vertices"), s.Num("tube_mm")/2); e != nil {
		return e
	}
	total := runLength(corners(s.Rows("vertices")))
	for i, m := range s.Rows("mufflers") {
		if m[0]+m[1] > total {
			return bad(fmt.Sprintf("mufflers/%d/start_mm", i), "small enough for the muffler to end before the tube does")
		}
	}
	return nil
}

// exhaustRunForm sets a muffler straight, along the tube's direction in the
// muffler's middle and centred there.
func exhaustRunForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	vs, r := corners(s.Rows("vertices")), s.Num("tube_mm")/2
	shapes := []Shape{Run{Vertices: vs, Radius: r, BoreRadius: r - s.Num("wall_mm")}}
	for _, m := range s.Rows("mufflers") {
		mid, dir := runPlace(vs, m[0]+m[1]/2)
		shapes = append(shapes, oval(mid.sub(dir.scale(m[1]/2)), dir, m[1], m[2], m[3]))
	}
	if l := s.Num("tip_length_mm"); there(l) {
		end := vs[len(vs)-1].P
		dir := end.sub(vs[len(vs)-2].P).unit()
		shapes = append(shapes, Cylinder{From: end, To: end.add(dir.scale(l)), Radius: s.Num("tip_mm") / 2,
			BoreRadius: max(0, s.Num("tip_mm")/2-s.Num("wall_mm"))})
	}
	return shapes
}
