// Package sidebyside makes the pairs of solids on which the gap engine is held
// against an outside judge, in exactness and in time. The engine itself does
// not use it.
package sidebyside

import (
	"math"
	"math/rand"

	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
	"scrubline/testdata/reference"
)

// Class is what is difficult about a pair.
type Class int

const (
	Plain    Class = iota // 20 to 600 mm, one in ten up to 6 m
	Thin                  // up to 6 m long and half a millimetre to ten thick
	Parallel              // turned alike but for a lean of 1e-1 down to 1e-12
	Touching              // within two hundredths of a millimetre of just touching
	Small                 // nearly parallel, one a core of 1 mm down to a thousandth
	Classes
)

func (c Class) String() string {
	return [Classes]string{"plain", "thin", "parallel", "touching", "small"}[c]
}

// Kinds are the convex kinds in order; Names say what they are once grown.
var (
	Kinds = []solid.Kind{solid.Point, solid.Segment, solid.Disc, solid.Cylinder, solid.Box, solid.Hull}
	Names = []string{"ball", "capsule", "disc", "cylinder", "box", "hull"}
)

// Maker makes pairs from a seed: the same ones in every build, so that the
// times of two builds can be compared.
type Maker struct {
	*rand.Rand
	// Sharp makes boxes, cylinders, discs and hulls without rounding.
	Sharp bool
}

// NewMaker starts from a seed.
func NewMaker(seed int64) *Maker { return &Maker{Rand: rand.New(rand.NewSource(seed))} }

func (m *Maker) in(lo, hi float64) float64 { return lo + float64((hi-lo)*m.Float64()) }

func (m *Maker) vec(half float64) geom.Vec {
	return geom.V(m.in(-half, half), m.in(-half, half), m.in(-half, half))
}

func (m *Maker) turn() geom.Mat { return geom.Turn(m.in(-3, 3), m.in(-3, 3), m.in(-3, 3)) }

// Apart is a plain pair 1 to 80 mm apart.
func (m *Maker) Apart(ka, kb solid.Kind) (a, b solid.Solid) {
	for {
		a, b = m.solid(ka, Plain), m.solid(kb, Plain)
		set(&a, &b, m.in(1, 80))
		if g := gap.Between(&a, &b).Gap; g > 0.5 && g < 81 {
			return a, b
		}
	}
}

// Pair is a pair of a class, about half of which overlap.
func (m *Maker) Pair(ka, kb solid.Kind, c Class) (a, b solid.Solid) {
	a, b = m.solid(ka, c), m.solid(kb, c)
	if c == Parallel || c == Small {
		m.align(&a, &b)
	}
	if c == Small {
		m.shrink(&a, &b)
	}
	by := m.in(-1, 1) * m.in(0, 80)
	if c == Touching {
		by = m.in(-0.02, 0.02)
		if m.Intn(8) == 0 {
			by = 0
		}
	}
	set(&a, &b, by)
	return a, b
}

// set moves b along the direction of the gap to where that measures about mm.
func set(a, b *solid.Solid, mm float64) {
	r := gap.Between(a, b)
	b.Pose.P = b.Pose.P.AddScaled(r.N, mm-r.Gap)
}

// align turns b like a, by quarter turns and a lean.
func (m *Maker) align(a, b *solid.Solid) {
	lean := m.in(-1, 1)
	for range m.Intn(13) {
		lean /= 10
	}
	q := math.Pi / 2 * float64(m.Intn(3))
	tilt := geom.Turn(q, lean, 0)
	if m.Intn(2) == 0 {
		tilt = geom.Turn(lean, 0, q)
	}
	b.Pose.R = a.Pose.R.Mul(&tilt)
	if m.Intn(2) == 0 { // side by side rather than anywhere
		b.Pose.P = a.Pose.Apply(geom.V(m.in(-50, 50), 0, m.in(-400, 400)))
	}
}

// shrink makes the core of one of the two small, as of a short straight between
// two bends or a thickly rounded bar, and sets it off to the side of the other.
func (m *Maker) shrink(a, b *solid.Solid) {
	s := a
	if m.Intn(2) == 0 {
		s = b
	}
	by := m.in(0.3, 1)
	for range m.Intn(4) {
		by /= 10
	}
	by /= 300
	s.H = s.H.Scale(by)
	for i := range s.Points {
		s.Points[i] = s.Points[i].Scale(by)
	}
	s.Round = m.in(1, 60)
	s.Pose.P = s.Pose.P.Add(m.vec(800))
}

// sizes of a solid: one long, two across.
func (m *Maker) sizes(c Class) (long, across, other float64) {
	if c == Thin {
		return m.in(200, 3000), m.in(0.5, 10), m.in(0.5, 10)
	}
	long = m.in(10, 300)
	if m.Intn(10) == 0 {
		long = m.in(300, 3000)
	}
	return long, m.in(5, 300), m.in(5, 300)
}

func (m *Maker) solid(k solid.Kind, c Class) solid.Solid {
	long, across, other := m.sizes(c)
	s := solid.Solid{Kind: k, Pose: geom.Pose{R: m.turn(), P: m.vec(400)}}
	if !m.Sharp && m.Intn(2) == 0 {
		s.Round = m.in(0.5, 40)
	}
	switch k {
	case solid.Point:
		s.Round = across
	case solid.Segment:
		s.Round, s.H = min(across, 80), geom.V(long, 0, 0)
	case solid.Disc:
		s.H = geom.V(long, 0, 0)
	case solid.Cylinder: // thin: a rod or a plate
		s.H = geom.V(across, 0, long)
		if m.Intn(2) == 0 {
			s.H = geom.V(long, 0, across)
		}
	case solid.Box:
		s.H = geom.V(long, across, other)
	case solid.Arc: // for counting allocations; the judge has none
		s.H = geom.V(long, m.in(0.1, math.Pi), 0)
	case solid.Hull:
		for range 4 + m.Intn(21) {
			s.Points = append(s.Points, geom.V(m.in(-long, long), m.in(-across, across), m.in(-other, other)))
		}
	}
	return s
}

// Outside is a solid as the outside judge reads it, and the rounding that the
// judge leaves out.
func Outside(s *solid.Solid) (out reference.Solid, left float64) {
	out = reference.Solid{Kind: outsideKind[s.Kind], H: [3]float64{s.H.X, s.H.Y, s.H.Z}, P: [3]float64{s.Pose.P.X, s.Pose.P.Y, s.Pose.P.Z}}
	for i, row := range [3]geom.Vec{s.Pose.R.X, s.Pose.R.Y, s.Pose.R.Z} {
		out.R[3*i], out.R[3*i+1], out.R[3*i+2] = row.X, row.Y, row.Z
	}
	for _, p := range s.Points {
		out.Points = append(out.Points, [3]float64{p.X, p.Y, p.Z})
	}
	if s.Kind <= solid.Segment {
		out.Round = s.Round
		return out, 0
	}
	return out, s.Round
}

var outsideKind = map[solid.Kind]int{
	solid.Point: reference.Ball, solid.Segment: reference.Capsule, solid.Disc: reference.Disc,
	solid.Cylinder: reference.Cylinder, solid.Box: reference.Box, solid.Hull: reference.Hull,
}

// Line is a pair as one line for the judge, and the rounding it leaves out of
// the two together.
func Line(a, b *solid.Solid) (line string, left float64) {
	x, ra := Outside(a)
	y, rb := Outside(b)
	return reference.Line(&x, &y), ra + rb
}
