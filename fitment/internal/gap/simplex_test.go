package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/fitment/internal/geom"
)

// nearestOf is the distance of the origin to the hull of up to four points: the
// least over all their subsets of the foot on the point, line or plane of the
// subset, where the foot has no negative share. Derived: the nearest point is
// such a foot. inside says that four points have the origin among them.
func nearestOf(v []geom.Vec) (d float64, inside bool) {
	d = math.Inf(1)
	for i, a := range v {
		d = math.Min(d, a.Len())
		for j, b := range v[:i] {
			ab := b.Sub(a)
			if t := -a.Dot(ab) / ab.LenSq(); t >= 0 && t <= 1 {
				d = math.Min(d, a.Lerp(b, t).Len())
			}
			for _, c := range v[:j] {
				if h, ok := footOn(a, b, c); ok {
					d = math.Min(d, h)
				}
			}
		}
	}
	if len(v) < 4 {
		return d, false
	}
	side := func(a, b, c, p geom.Vec) float64 { return b.Sub(a).Cross(c.Sub(a)).Dot(p.Sub(a)) }
	inside = true
	for _, f := range [4][4]int{{0, 1, 2, 3}, {0, 1, 3, 2}, {0, 2, 3, 1}, {1, 2, 3, 0}} {
		a, b, c, p := v[f[0]], v[f[1]], v[f[2]], v[f[3]]
		inside = inside && side(a, b, c, p)*side(a, b, c, geom.Vec{}) > 0
	}
	return d, inside
}

// footOn is the distance of the origin to the plane of a triangle; ok says that
// the foot is in the triangle.
func footOn(a, b, c geom.Vec) (h float64, ok bool) {
	n := b.Sub(a).Cross(c.Sub(a)).Unit()
	foot := n.Scale(n.Dot(a))
	in := func(a, b geom.Vec) bool { return b.Sub(a).Cross(foot.Sub(a)).Dot(n) >= 0 }
	return math.Abs(n.Dot(a)), in(a, b) && in(b, c) && in(c, a)
}

// used is the vertices in use.
func (s *simplex) used() (v []geom.Vec) {
	for _, i := range s.at[:s.n] {
		v = append(v, s.v[i].w)
	}
	return v
}

// Whatever vertex comes that is farther towards the origin, as the search's are,
// the simplex is left with the nearest point of those it had and the new one, and
// its mix is that point.
func TestSimplexHasTheNearest(t *testing.T) {
	m := newMaker(31)
	var became [5][5]int // from so many, the new one among them, to so many
	for range 10000 {
		var s simplex
		off := m.vec(120)
		s.v[0].w = m.vec(100).Add(off)
		s.start()
		for range 40 {
			w := m.vec(100).Add(off)
			if w.Dot(s.p) >= s.sq-float64(geom.GapStop*math.Sqrt(s.sq)) {
				continue // no nearer
			}
			s.spare().w = w
			all := append(s.used(), w)
			want, inside := nearestOf(all)
			assert.True(t, s.add())
			became[len(all)][s.n]++
			if assert.Equal(t, inside, s.n == 4); s.n == 4 {
				break
			}
			assert.InDelta(t, want, math.Sqrt(s.sq), geom.Tiny)
			assert.InDelta(t, want, s.p.Len(), geom.Tiny)
			var a, b geom.Vec
			s.points(&a, &b)
			assert.InDelta(t, 0, b.Add(s.p).Dist(a), geom.Tiny, "the mix")
		}
	}
	for from := 2; from <= 4; from++ {
		for to := 1; to <= from; to++ {
			assert.Greater(t, became[from][to], 50, "%d vertices to %d", from, to)
		}
	}
}

// A simplex that holds the origin settles on its nearest face.
func TestSimplexSettles(t *testing.T) {
	m := newMaker(32)
	held := 0
	for held < 500 {
		var s simplex
		var v []geom.Vec
		for i := range s.v {
			s.v[i].w = m.vec(100)
			v = append(v, s.v[i].w)
		}
		want, inside := nearestOf(v)
		if !inside {
			continue
		}
		held++
		s.n = 4
		s.settle()
		assert.InDelta(t, want, math.Sqrt(s.sq), geom.Tiny)
		assert.Equal(t, 3, s.n)
	}
}

// A triangle without area, or nearly so, still gives a point of itself, no
// farther than both its new edges: three vertices within two thousandths of a
// line, wherever the origin is.
func TestThinTriangle(t *testing.T) {
	m := newMaker(33)
	thin := 0
	for range 20000 {
		var s simplex
		u, p := m.unit(), m.vec(100)
		width := float64(m.Intn(3)) * geom.GapTol * m.in(0, 1)
		for i := range 3 {
			s.v[i].w = p.AddScaled(u, m.in(-100, 100)).AddScaled(m.unit(), width)
		}
		s.sq = math.Inf(1)
		s.triangle(0, 1, 2, 3)
		d := math.Sqrt(s.sq)
		ac, _ := nearestOf([]geom.Vec{s.v[0].w, s.v[2].w})
		bc, _ := nearestOf([]geom.Vec{s.v[1].w, s.v[2].w})
		least, _ := nearestOf([]geom.Vec{s.v[0].w, s.v[1].w, s.v[2].w})
		assert.GreaterOrEqual(t, d, least-geom.Tiny)
		assert.LessOrEqual(t, d, math.Max(ac, bc)+geom.Tiny)
		if d > least+geom.Tiny {
			thin++ // nearest beside the old edge, which the search never asks for
		}
	}
	assert.Greater(t, thin, 100)
}
