package vehicles

import (
	"math"

	"scrubline/scene"
)

// box is two opposite corners, least first.
type box [2]scene.Vec

// hits says whether a box meets one that is taken.
func (b *builder) hits(x box) bool {
	for i := range b.taken {
		t := &b.taken[i]
		if x[0][0] < t[1][0] && t[0][0] < x[1][0] && x[0][1] < t[1][1] && t[0][1] < x[1][1] && x[0][2] < t[1][2] && t[0][2] < x[1][2] {
			return true
		}
	}
	return false
}

// turned is a box about the box turned about Z.
func (b box) turned(deg float64) box {
	s := math.Abs(math.Sin(deg * math.Pi / 180))
	x, y := max(-b[0][0], b[1][0]), max(-b[0][1], b[1][1])
	return box{{b[0][0] - y*s, b[0][1] - x*s, b[0][2]}, {b[1][0] + y*s, b[1][1] + x*s, b[1][2]}}
}

// around is a box about shapes in their part's own axes. It may be too large.
func around(shapes []scene.Shape) box {
	inf := math.Inf(1)
	b := box{{inf, inf, inf}, {-inf, -inf, -inf}}
	for _, s := range shapes {
		b.shape(s)
	}
	return b
}

func (b *box) point(p scene.Vec, by float64) {
	for i := range p {
		b[0][i], b[1][i] = min(b[0][i], p[i]-by), max(b[1][i], p[i]+by)
	}
}

func (b *box) shape(s scene.Shape) {
	switch s := s.(type) {
	case scene.Box:
		for _, side := range [2]float64{-0.5, 0.5} {
			var p scene.Vec
			for i := range p {
				p[i] = s.Center[i] + side*s.Size[i]
			}
			b.point(p, 0)
		}
	case scene.Hull:
		for _, p := range s.Points {
			b.point(p, 0)
		}
	case scene.Cylinder:
		b.point(s.From, s.Radius)
		b.point(s.To, s.Radius)
	case scene.Capsule:
		b.point(s.From, s.Radius)
		b.point(s.To, s.Radius)
	case scene.Run:
		for _, v := range s.Vertices {
			b.point(v.P, s.Radius)
		}
	case scene.Room:
		b.shape(s.Shape)
	}
}
