package scene

import (
	"fmt"
	"math"
)

func init() {
	Register(Kind{
		Name: "frame_rail", Label: "Frame rail", Group: "Chassis",
		About:    "Box-section rail with its kick-up and notch. Placed by its front end: middle of the width, at the height its kick-up is measured from.",
		Carriers: []Carrier{Body},
		Traits:   []Trait{Fixed, Frame},
		Stays:    true,
		Caution:  "The frame carries everything: have a cut, notch or weld in it designed and inspected as your local code asks.",
		Fields: []Field{
			mm("width_mm", "Width", 10, 300, 76, "Across the rail, outside to inside."),
			mm("depth_mm", "Depth", 20, 500, 127, "From the underside to the top, square to the rail."),
			mm("length_mm", "Length", 100, 12000, 4400, "From the front end to the rear end, along the frame."),
			{Name: "profile", Label: "Kick-up", Type: Table, MaxRows: 24,
				Help: "Height of the underside along the rail; no rows for a straight one. Before the first and after the last row the rail runs level.",
				Columns: []Field{
					mm("station_mm", "Station", 0, 12000, 0, "Rearward from the rail's front end."),
					mm("height_mm", "Height", -2000, 2000, 0, "Of the underside, up from the rail's placing point."),
				},
				DefaultRows: []Row{{2700, 0}, {2950, 150}, {3600, 150}, {3850, 60}}},
			{Name: "notch", Label: "Notch", Type: Choice, Choices: []string{"none", "round", "square"},
				ChoiceLabels: []string{"none", "round", "square"}, DefaultChoice: "none",
				Help: "Room cut from below for the axle."},
			notWith("notch", "none", mm("notch_station_mm", "Notch at", 0, 12000, 3280, "Rearward from the rail's front end to the middle of the notch.")),
			notWith("notch", "none", mm("notch_length_mm", "Notch length", 10, 2000, 300, "Along the frame, at the underside, inside the notch's plate.")),
			notWith("notch", "none", mm("notch_depth_mm", "Notch depth", 1, 450, 60, "From the line of the underside up to the notch's plate, in the middle.")),
		},
		Check: checkRail,
		Form:  railForm,
	})
}

// railProfile is the rail's underside from its front end to its rear end.
func railProfile(s Size) []pt {
	length := s.Num("length_mm")
	rows := s.Rows("profile")
	if len(rows) == 0 {
		return []pt{{0, 0}, {length, 0}}
	}
	var path []pt
	if rows[0][0] > 0 {
		path = append(path, pt{0, rows[0][1]})
	}
	for _, r := range rows {
		path = append(path, pt{r[0], r[1]})
	}
	if last := rows[len(rows)-1]; last[0] < length {
		path = append(path, pt{length, last[1]})
	}
	return path
}

func checkRail(s Size) *FieldError {
	length, depth := s.Num("length_mm"), s.Num("depth_mm")
	rows := s.Rows("profile")
	for i, r := range rows {
		where := fmt.Sprintf("profile/%d/station_mm", i)
		if i > 0 && r[0] < rows[i-1][0]+1 {
			return bad(where, "at least 1 mm behind the row before")
		}
		if r[0] > length {
			return bad(where, "at most the rail's length")
		}
		if r[0] < length && r[0] > length-1 || r[0] > 0 && r[0] < 1 {
			return bad(where, "the rail's end, or at least 1 mm from it")
		}
	}
	if _, thin := sheet(railProfile(s), depth); thin >= 0 {
		return bad("profile", "gentle enough for a rail of this depth: corners farther apart, turns of at most 120 degrees")
	}
	if s.Text("notch") == "none" {
		return nil
	}
	half := s.Num("notch_length_mm") / 2
	if at := s.Num("notch_station_mm"); at-half < 0 || at+half > length {
		return bad("notch_station_mm", "such that the notch lies within the rail's length")
	}
	if s.Num("notch_depth_mm") > depth-5 {
		return bad("notch_depth_mm", "at least 5 mm less than the rail's depth")
	}
	return nil
}

func railForm(s Size, _ *Vehicle, _ Carrier) []Shape {
	path := railProfile(s)
	quads, _ := sheet(path, s.Num("depth_mm"))
	half := s.Num("width_mm") / 2
	var shapes []Shape
	for i, q := range quads {
		for _, piece := range notched(s, q, path[i], path[i+1]) {
			if math.Abs(area(piece)) > sliver {
				shapes = append(shapes, prismAcross(piece, -half, half))
			}
		}
	}
	return shapes
}

// notchStrips is how many strips stand for a round notch. Their undersides are
// chords of the arc, so that the rail is never drawn smaller than it is.
const notchStrips = 12

// notched cuts the notch out of one leg of the rail, whose underside runs from
// a to b, and returns the convex pieces that remain.
func notched(s Size, q []pt, a, b pt) [][]pt {
	if s.Text("notch") == "none" {
		return [][]pt{q}
	}
	half, mid := s.Num("notch_length_mm")/2, s.Num("notch_station_mm")
	slope := (b.V - a.V) / (b.U - a.U)
	under := func(u float64) float64 { return a.V + float64(slope*(u-a.U)) }
	pieces := [][]pt{clip(q, -1, 0, mid-half)}
	strips := notchStrips
	if s.Text("notch") == "square" {
		strips = 1
	}
	for k := 0; k < strips; k++ {
		o0, o1 := notchOffset(half, k, strips), notchOffset(half, k+1, strips)
		u0, u1 := mid+o0, mid+o1
		v0, v1 := under(u0)+notchCut(s, o0), under(u1)+notchCut(s, o1)
		piece := clip(clip(q, 1, 0, -u0), -1, 0, u1)
		pieces = append(pieces, clip(piece, v0-v1, u1-u0, float64(u0*v1)-float64(u1*v0)))
	}
	return append(pieces, clip(q, 1, 0, -mid-half))
}

// notchOffset is where strip edge k lies, from the notch's middle.
func notchOffset(half float64, k, strips int) float64 {
	switch k {
	case 0:
		return -half
	case strips:
		return half
	}
	return -half * math.Cos(math.Pi*float64(k)/float64(strips))
}

// notchCut is how much is cut from below at an offset from the notch's middle:
// a circular arc through the notch's two ends, or, where it is deeper than half
// its length, a half circle on upright walls.
func notchCut(s Size, off float64) float64 {
	half, depth := s.Num("notch_length_mm")/2, s.Num("notch_depth_mm")
	if s.Text("notch") == "square" {
		return depth
	}
	r, wall := half, depth-half
	if wall < 0 {
		r = (float64(half*half) + float64(depth*depth)) / (2 * depth)
		wall = depth - r
	}
	return wall + math.Sqrt(max(0, float64(r*r)-float64(off*off)))
}
