package travel

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment/internal/geom"
)

// ball is a problem with a closed form: a ball of radius r whose centre stands
// at base + Σ x·dir in space, against the ball of radius q at the origin. The
// gap is |centre| − r − q; a unit of parameter i moves the centre by |dir|.
type ball struct {
	base geom.Vec
	dir  [3]geom.Vec
	r    float64
}

func (b *ball) centre(x *Point) geom.Vec {
	c := b.base
	for i, d := range b.dir {
		c = c.AddScaled(d, x[i])
	}
	return c
}

func (b *ball) gap(x *Point) float64 { return b.centre(x).Len() - b.r }

// problem is the ball's search problem. The centre moves in straight lines, so
// a slab has no curve and no kink.
func (b *ball) problem(n int) *Problem {
	p := &Problem{N: n, Enough: math.Inf(1), Floor: math.Inf(-1), Limit: 100000}
	p.Measure = func(x *Point) (float64, geom.Vec) { return b.gap(x), b.centre(x).Unit() }
	p.Slab = func(x *Point, n geom.Vec) float64 { return n.Dot(b.centre(x)) - b.r }
	for i, d := range b.dir {
		p.Rate[i] = d.Len()
	}
	return p
}

// Against dense sampling: no sample lies below the certified bound, and the
// reported gap is one that occurs, at most the bound tolerance above it.
func TestSearchAgainstSampling(t *testing.T) {
	touching, all := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		v := func(name string, most float64) geom.Vec {
			g := rapid.Float64Range(-most, most)
			return geom.V(g.Draw(t, name+"x"), g.Draw(t, name+"y"), g.Draw(t, name+"z"))
		}
		n := rapid.IntRange(1, 3).Draw(t, "n")
		b := &ball{base: v("base", 300), r: rapid.Float64Range(10, 200).Draw(t, "r")}
		for i := 0; i < n; i++ {
			b.dir[i] = v("dir", 1.5)
		}
		p := b.problem(n)
		for i := 0; i < n; i++ {
			p.Lo[i], p.Hi[i] = -rapid.Float64Range(0, 120).Draw(t, "lo"), rapid.Float64Range(0, 120).Draw(t, "hi")
		}
		got := Search(p)
		require.True(t, got.Decided)
		require.Equal(t, b.gap(&got.At), got.Gap)
		require.LessOrEqual(t, got.Gap-got.Bound, geom.BoundTol)
		for k := 0; k < 500; k++ { // an additive recurrence covers the box evenly
			var x Point
			for i := 0; i < n; i++ {
				_, f := math.Modf(float64(k) * [3]float64{0.8191725134, 0.6710436067, 0.5497004779}[i])
				x[i] = p.Lo[i] + f*(p.Hi[i]-p.Lo[i])
			}
			require.GreaterOrEqual(t, b.gap(&x)+geom.Tiny, got.Bound) // but for rounding
		}
		all++
		if got.Gap < 0 {
			touching++
		}
	})
	t.Logf("%d of %d touch", touching, all)
	require.Greater(t, touching*10, all*2, "too few pairs touch for the test to mean anything")
	require.Less(t, touching*10, all*8, "too few pairs are apart for the test to mean anything")
}

// A pair that is far apart costs one gap.
func TestFarApartCostsOne(t *testing.T) {
	b := &ball{base: geom.V(900, 0, 0), dir: [3]geom.Vec{geom.V(0, 0, 1)}, r: 100}
	p := b.problem(1)
	p.Lo, p.Hi, p.Enough, p.Seeds = Point{-100}, Point{100}, 25, func() []Point { return []Point{{0}, {-100}} }
	got := Search(p)
	require.True(t, got.Decided)
	require.GreaterOrEqual(t, got.Bound, 25.0)
	require.Equal(t, 1, got.Samples)
}

// Of states that tie, the first seed is reported.
func TestTiesGoToTheSeed(t *testing.T) {
	b := &ball{base: geom.V(105, 0, 0), r: 100}
	p := b.problem(1)
	p.Lo, p.Hi, p.Enough, p.Seeds = Point{-130}, Point{70}, 25, func() []Point { return []Point{{0}, {-130}} }
	got := Search(p)
	require.Equal(t, Point{0}, got.At)
	require.Equal(t, 5.0, got.Bound)
}

// What cannot be decided within the limit is said to be undecided, with the
// bound proven so far.
func TestUndecided(t *testing.T) {
	b := &ball{base: geom.V(105, 0, 0), r: 100}
	p := b.problem(1)
	p.Lo, p.Hi, p.Enough, p.Limit = Point{-130}, Point{70}, 25, 20
	p.Kink = Point{100}
	got := Search(p)
	require.False(t, got.Decided)
	require.Less(t, got.Bound, 5-geom.BoundTol)
}

// A motion that bends: the ball's centre runs round a circle of radius R about
// a point beside the other ball, so that the second derivative is R. The least
// gap is R less the distance of the two middles (closed form).
func TestCurvedMotion(t *testing.T) {
	const R, off, r = 300, 120, 80
	centre := func(x *Point) geom.Vec { return geom.V(off+R*math.Cos(x[0]), R*math.Sin(x[0]), 0) }
	got := Search(&Problem{N: 1, Lo: Point{0}, Hi: Point{4}, Enough: math.Inf(1), Floor: math.Inf(-1), Limit: 1000, Curve: Point{R}, Rate: Point{R},
		Measure: func(x *Point) (float64, geom.Vec) { return centre(x).Len() - r, centre(x).Unit() },
		Slab:    func(x *Point, n geom.Vec) float64 { return n.Dot(centre(x)) - r }})
	require.True(t, got.Decided)
	require.LessOrEqual(t, got.Bound, float64(R-off-r))
	require.GreaterOrEqual(t, got.Gap, float64(R-off-r))
	require.LessOrEqual(t, got.Gap-got.Bound, geom.BoundTol)
}
