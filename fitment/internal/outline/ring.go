package outline

import "math"

const (
	minAround = 16
	maxAround = 96
	ringStep  = 8 // a multiple of 4 keeps the four axis directions exact
)

// ring is a set of unit directions equally spaced around the circle, counter-
// clockwise from (1, 0).
type ring struct {
	dir []Pt
	sag float64 // chord error on the circle of radius 1: 1 − cos(π/n)
}

// rings has every ring from minAround to maxAround directions.
var rings = makeRings()

func makeRings() []ring {
	var out []ring
	for n := minAround; n <= maxAround; n += ringStep {
		r := ring{dir: make([]Pt, n), sag: 1 - math.Cos(math.Pi/float64(n))}
		for k := range n / 4 {
			s, c := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			r.dir[k] = Pt{c, s}
			r.dir[k+n/4] = Pt{-s, c}
			r.dir[k+n/2] = Pt{-c, -s}
			r.dir[k+3*n/4] = Pt{s, -c}
		}
		out = append(out, r)
	}
	return out
}

// ringFor is the coarsest ring whose chord error on a circle of the given
// radius is at most allowed (both mm), or the finest there is.
func ringFor(radius, allowed float64) *ring {
	for i := range rings {
		if radius*rings[i].sag <= allowed {
			return &rings[i]
		}
	}
	return &rings[len(rings)-1]
}

// after is the index of the first direction strictly counter-clockwise of the
// unit direction d.
func (r *ring) after(d Pt) int {
	n := len(r.dir)
	k := int(math.Floor(math.Atan2(d[1], d[0])/(2*math.Pi)*float64(n))) + 1
	return (k%n + n) % n
}
