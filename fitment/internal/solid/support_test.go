package solid

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
)

// samples is n points of the solid's core, random over all of it and including
// its corners, in the world.
func samples(m *rand.Rand, s *Solid, n int) []geom.Vec {
	in := func() float64 {
		x := 3*m.Float64() - 1.5
		return math.Max(-1, math.Min(1, x)) // a third on each end
	}
	var out []geom.Vec
	for range n {
		var p geom.Vec
		sin, cos := geom.Sincos(math.Pi * (2*m.Float64() - 1))
		switch s.Kind {
		case Segment:
			p = geom.V(s.H.X*in(), 0, 0)
		case Disc, Cylinder:
			r := s.H.X * math.Abs(in())
			p = geom.V(r*cos, r*sin, s.H.Z*in())
		case Box:
			p = geom.V(s.H.X*in(), s.H.Y*in(), s.H.Z*in())
		case Hull:
			w := m.Float64()
			p = s.Points[m.Intn(len(s.Points))].Lerp(s.Points[m.Intn(len(s.Points))], w)
		case Arc:
			sin, cos := geom.Sincos(s.H.Y * in())
			p = geom.V(s.H.X*cos, s.H.X*sin, 0)
		}
		out = append(out, s.Pose.Apply(p))
	}
	return out
}

func randomVec(m *rand.Rand, h float64) geom.Vec {
	return geom.V(h*(2*m.Float64()-1), h*(2*m.Float64()-1), h*(2*m.Float64()-1))
}

// everyKind is solids of all kinds in random places.
func everyKind(m *rand.Rand) []Solid {
	out := []Solid{
		{Kind: Point}, {Kind: Segment, H: geom.V(100, 0, 0)}, {Kind: Disc, H: geom.V(80, 0, 0)},
		{Kind: Cylinder, H: geom.V(80, 0, 120)}, {Kind: Box, H: geom.V(100, 50, 25)}, {Kind: Hull},
		{Kind: Arc, H: geom.V(100, 0.4, 0)}, {Kind: Arc, H: geom.V(100, 2, 0)}, {Kind: Arc, H: geom.V(100, math.Pi, 0)},
	}
	for range 10 {
		out[5].Points = append(out[5].Points, randomVec(m, 100))
	}
	for i := range out {
		turn := randomVec(m, 3)
		out[i].Pose = geom.Pose{R: geom.Turn(turn.X, turn.Y, turn.Z), P: randomVec(m, 300)}
		out[i].Round = 7
	}
	return out
}

// No point of a solid is beyond its support, outside its bounds or its ball, or
// farther from a line than the bound says; the bounds are met within what
// sampling leaves. Derived: definitions.
func TestNothingSticksOut(t *testing.T) {
	m := rand.New(rand.NewSource(1))
	for range 20 {
		for _, s := range everyKind(m) {
			lo, hi := s.Bounds()
			c, r := s.BoundingBall()
			p, dir := randomVec(m, 300), randomVec(m, 1).Unit()
			n := randomVec(m, 1).Unit()
			top, axis := n.Dot(s.Support(n)), s.MaxDistToAxis(p, dir)
			_, low := s.Lowest(n)
			reached := math.Inf(-1)
			for _, q := range samples(m, &s, 300) {
				reached = math.Max(reached, n.Dot(q)+s.Round)
				assert.LessOrEqual(t, n.Dot(q)+s.Round, top+geom.Tiny)
				assert.GreaterOrEqual(t, n.Dot(q)-s.Round, low-geom.Tiny)
				assert.LessOrEqual(t, q.Dist(c)+s.Round, r+geom.Tiny)
				assert.LessOrEqual(t, q.Sub(p).Cross(dir).Len()+s.Round, axis+geom.Tiny)
				for _, x := range [3][3]float64{{lo.X, q.X, hi.X}, {lo.Y, q.Y, hi.Y}, {lo.Z, q.Z, hi.Z}} {
					assert.LessOrEqual(t, x[0]+s.Round, x[1]+geom.Tiny)
					assert.LessOrEqual(t, x[1]+s.Round, x[2]+geom.Tiny)
				}
			}
			assert.InDelta(t, top, reached, 10, "kind %d: the support is reached", s.Kind)
		}
	}
}

// Along a round solid's own axis, where the direction across it is rounding
// noise, the support stays a point of the solid. Derived; in the world frame the
// same noise puts it outside.
func TestSupportAlongTheAxis(t *testing.T) {
	m := rand.New(rand.NewSource(2))
	for range 2000 {
		axis := randomVec(m, 1).Unit()
		a := randomVec(m, 1000)
		s, err := NewCylinder(a, a.AddScaled(axis, 500), 80, 0)
		assert.NoError(t, err)
		p := s.Support(axis)
		assert.InDelta(t, 500, p.Sub(a).Dot(axis), geom.GapTol*geom.GapTol)
		assert.LessOrEqual(t, p.Sub(a).Cross(axis).Len(), 80+geom.Tiny)
	}
}

// Moving by one pose and then another is moving by both. Derived.
func TestMoved(t *testing.T) {
	m := rand.New(rand.NewSource(3))
	for _, s := range everyKind(m) {
		by := geom.Pose{R: geom.Turn(0.3, -0.2, 1), P: geom.V(10, 20, 30)}
		moved := s.Moved(&by)
		n := randomVec(m, 1).Unit()
		turned := by.R.Apply(n)
		assert.InDelta(t, 0, by.Apply(s.Support(n)).Dist(moved.Support(turned)), geom.GapTol*geom.GapTol)
	}
}

// The farthest of any number of points is the first of those with the greatest
// height. Derived: definition, one after the other.
func TestFarthest(t *testing.T) {
	m := rand.New(rand.NewSource(4))
	ties := 0
	for n := 1; n <= 14; n++ {
		for range 200 {
			var points []geom.Vec
			for range n {
				points = append(points, geom.V(float64(m.Intn(5)), float64(m.Intn(5)), float64(m.Intn(5))))
			}
			d := geom.V(float64(m.Intn(3)-1), float64(m.Intn(3)-1), float64(m.Intn(3)-1))
			best, equal := 0, 0
			for i, p := range points {
				if p.Dot(d) > points[best].Dot(d) {
					best, equal = i, 0
				} else if p.Dot(d) == points[best].Dot(d) {
					equal++
				}
			}
			if equal > 1 {
				ties++
			}
			assert.Same(t, &points[best], Farthest(points, d), "%d points", n)
		}
	}
	assert.Greater(t, ties, 100)
}
