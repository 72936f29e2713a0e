package gap

import (
	"math"
	"math/rand"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// kindNames are the kinds in order, for messages and tables.
var kindNames = []string{"point", "segment", "disc", "cylinder", "box", "hull", "arc"}

const kindCount = 7

// maker makes random solids from a fixed seed. It uses no math.Exp or math.Pow,
// so that both builds make the same ones.
type maker struct{ *rand.Rand }

func newMaker(seed int64) maker { return maker{rand.New(rand.NewSource(seed))} }

func (m maker) in(lo, hi float64) float64 { return lo + float64((hi-lo)*m.Float64()) }

func (m maker) vec(half float64) geom.Vec {
	return geom.V(m.in(-half, half), m.in(-half, half), m.in(-half, half))
}

func (m maker) unit() geom.Vec {
	for {
		v := m.vec(1)
		if l := v.Len(); l > 0.1 && l <= 1 {
			return v.Unit()
		}
	}
}

// turn is a random turn; one in four keeps to right angles, where ties and
// parallel faces are.
func (m maker) turn() geom.Mat {
	if m.Intn(4) == 0 {
		q := math.Pi / 2
		return geom.Turn(q*float64(m.Intn(4)), q*float64(m.Intn(4)), q*float64(m.Intn(4)))
	}
	return geom.Turn(m.in(-3, 3), m.in(-3, 3), m.in(-3, 3))
}

// solid is a random solid of a kind: 20 to 600 mm, and every tenth up to 6 m.
func (m maker) solid(k solid.Kind) solid.Solid {
	size := m.in(20, 300)
	if m.Intn(10) == 0 {
		size = m.in(300, 3000)
	}
	s := solid.Solid{Kind: k, Pose: geom.Pose{R: m.turn(), P: m.vec(400)}}
	if m.Intn(3) > 0 {
		s.Round = m.in(0, 60)
	}
	switch k {
	case solid.Segment, solid.Disc:
		s.H = geom.V(size, 0, 0)
	case solid.Cylinder:
		s.H = geom.V(size, 0, m.in(5, 300))
	case solid.Box:
		s.H = geom.V(size, m.in(1, 300), m.in(1, 300))
	case solid.Hull:
		for range 4 + m.Intn(12) {
			s.Points = append(s.Points, m.vec(size))
		}
	case solid.Arc:
		s.H = geom.V(size, m.in(0.05, math.Pi), 0)
		if m.Intn(8) == 0 {
			s.H.Y = math.Pi
		}
	}
	return s
}

// pair is a pair of random solids of two kinds of which about half touch: the
// second is moved along the line of the centres to a random place about where
// the two just meet.
func (m maker) pair(ka, kb solid.Kind) (a, b solid.Solid) {
	a, b = m.solid(ka), m.solid(kb)
	r := Between(&a, &b)
	shift := float64(m.in(-1.2, 1) * m.in(1, 80))
	b.Pose.P = b.Pose.P.AddScaled(r.N, shift-r.Gap)
	return a, b
}

// eachPair calls f for n random pairs of every two kinds in both orders.
func eachPair(seed int64, n int, f func(ka, kb solid.Kind, a, b *solid.Solid)) {
	m := newMaker(seed)
	for ka := solid.Kind(0); ka < kindCount; ka++ {
		for kb := solid.Kind(0); kb < kindCount; kb++ {
			for range n {
				a, b := m.pair(ka, kb)
				f(ka, kb, &a, &b)
			}
		}
	}
}
