package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
	"scrubline/scene"
)

// Wire is one solid as lines in space, to be looked at from anywhere. Points
// are body axes, millimetres.
type Wire struct {
	Part  int           // index in the document's parts
	Edges [][]scene.Vec // edges and rims
	// Spine and Radius are what is round along a line: it is seen as two lines,
	// Radius beside the spine as it is looked at. Ball says that its ends are
	// round too. A spine of one point is a ball. Radius 0: nothing of the kind.
	Spine  []scene.Vec
	Radius float64
	Ball   bool
}

// Wires lists every solid of every part as lines, in one state and in the
// order of the document, without service rooms. What a box or a hull is rounded
// by is left out: its edges are drawn where its faces would meet.
func (m *Model) Wires(st State) []Wire {
	var out []Wire
	for part, p := range m.parts {
		for i := range p.items {
			it := &p.items[i]
			if it.room != "" {
				continue
			}
			for k := range it.solids {
				s := m.solidAt(it, k, st)
				w := m.wireOf(&s)
				w.Part = part
				out = append(out, w)
			}
		}
	}
	return out
}

// wireArc is the most a bend's spine turns from point to point, radians, and
// wireRing the number of straights a rim is drawn with.
const (
	wireArc  = math.Pi / 16
	wireRing = 32
)

func (m *Model) wireOf(s *solid.Solid) Wire {
	var w Wire
	at := func(x, y, z float64) scene.Vec { return unvec(s.Pose.Apply(geom.V(x, y, z))) }
	switch s.Kind {
	case solid.Point:
		w.Spine, w.Radius, w.Ball = []scene.Vec{at(0, 0, 0)}, s.Round, true
	case solid.Segment:
		w.Spine, w.Radius, w.Ball = []scene.Vec{at(-s.H.X, 0, 0), at(s.H.X, 0, 0)}, s.Round, true
	case solid.Disc, solid.Cylinder:
		w.Radius = s.H.X + s.Round
		w.Spine = []scene.Vec{at(0, 0, -s.H.Z), at(0, 0, s.H.Z)}
		for _, sign := range [2]float64{-1, 1} {
			w.Edges = append(w.Edges, rim(s, sign*s.H.Z, w.Radius))
			if s.Round > 0 {
				w.Edges = append(w.Edges, rim(s, sign*(s.H.Z+s.Round), s.H.X))
			}
		}
	case solid.Arc:
		n := int(math.Ceil(2*s.H.Y/wireArc)) + 1
		for i := range n + 1 {
			sin, cos := geom.Sincos(s.H.Y * (2*float64(i)/float64(n) - 1))
			w.Spine = append(w.Spine, at(s.H.X*cos, s.H.X*sin, 0))
		}
		w.Radius = s.Round
	case solid.Box:
		w.Edges = boxEdges(s)
	case solid.Hull:
		w.Edges = m.hullEdges(s)
	}
	return w
}

// rim is a circle about local Z at a height, closed.
func rim(s *solid.Solid, z, radius float64) []scene.Vec {
	out := make([]scene.Vec, wireRing+1)
	for i := range out {
		sin, cos := geom.Sincos(2 * math.Pi * float64(i%wireRing) / wireRing)
		out[i] = unvec(s.Pose.Apply(geom.V(radius*cos, radius*sin, z)))
	}
	return out
}

func boxEdges(s *solid.Solid) [][]scene.Vec {
	corner := func(i int) scene.Vec {
		r := s.Round
		return unvec(s.Pose.Apply(geom.V(bitSign(i, 1)*(s.H.X+r), bitSign(i, 2)*(s.H.Y+r), bitSign(i, 4)*(s.H.Z+r))))
	}
	var out [][]scene.Vec
	for i := range 8 {
		for _, bit := range [3]int{1, 2, 4} {
			if i&bit == 0 {
				out = append(out, []scene.Vec{corner(i), corner(i | bit)})
			}
		}
	}
	return out
}

func (m *Model) hullEdges(s *solid.Solid) [][]scene.Vec {
	var out [][]scene.Vec
	known := map[[2]int]bool{}
	for _, f := range m.faces(s.Points) {
		for k, i := range f.loop {
			j := f.loop[(k+1)%len(f.loop)]
			if key := [2]int{min(i, j), max(i, j)}; !known[key] {
				known[key] = true
				out = append(out, []scene.Vec{unvec(s.Pose.Apply(s.Points[i])), unvec(s.Pose.Apply(s.Points[j]))})
			}
		}
	}
	return out
}
