package fitment

import (
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// Body is one solid of a part in one state as plain numbers, for holding the
// engine against something else. Sizes are as in package solid: half lengths,
// radii, and for an arc its radius and half its angle.
type Body struct {
	Part   int    // index in the document
	Kind   string // ball, capsule, disc, cylinder, box, hull, arc
	Round  float64
	Size   [3]float64
	Points [][3]float64
	Turn   [9]float64 // by rows
	At     [3]float64 // body axes
}

var bodyKinds = map[solid.Kind]string{
	solid.Point: "ball", solid.Segment: "capsule", solid.Disc: "disc", solid.Cylinder: "cylinder",
	solid.Box: "box", solid.Hull: "hull", solid.Arc: "arc",
}

// Bodies lists every solid of every part, without service rooms, in the order
// of the document; the same ones in every state.
func (m *Model) Bodies(at State) []Body {
	var out []Body
	for part, p := range m.parts {
		for i := range p.items {
			if p.items[i].room != "" {
				continue
			}
			for k := range p.items[i].solids {
				s := m.solidAt(&p.items[i], k, at)
				out = append(out, bodyOf(part, &s))
			}
		}
	}
	return out
}

func bodyOf(part int, s *solid.Solid) Body {
	b := Body{Part: part, Kind: bodyKinds[s.Kind], Round: s.Round, Size: three(s.H), At: three(s.Pose.P)}
	for _, p := range s.Points {
		b.Points = append(b.Points, three(p))
	}
	for i, row := range [3]geom.Vec{s.Pose.R.X, s.Pose.R.Y, s.Pose.R.Z} {
		b.Turn[3*i], b.Turn[3*i+1], b.Turn[3*i+2] = row.X, row.Y, row.Z
	}
	return b
}

func three(v geom.Vec) [3]float64 { return [3]float64{v.X, v.Y, v.Z} }
