package gap

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// row is one closed form: two solids and their signed gap. why is where the
// value comes from.
type row struct {
	name string
	a, b solid.Solid
	gap  float64
	why  string
}

// The solids of the tables, in millimetres. Unless said otherwise they stand
// about the origin, round ones about Z.
func must(s solid.Solid, err error) solid.Solid {
	if err != nil {
		panic(err)
	}
	return s
}

func ball(x, y, z, r float64) solid.Solid { return must(solid.NewBall(geom.V(x, y, z), r)) }

func capsule(x1, y1, z1, x2, y2, z2, r float64) solid.Solid {
	return must(solid.NewCapsule(geom.V(x1, y1, z1), geom.V(x2, y2, z2), r))
}

// disc has the core radius r and is grown by grow.
func disc(x, y, z float64, normal geom.Vec, r, grow float64) solid.Solid {
	c, n := geom.V(x, y, z), normal.Unit()
	return must(solid.NewCylinder(c.AddScaled(n, -grow), c.AddScaled(n, grow), r+grow, grow))
}

func cylinder(x, y, z float64, axis geom.Vec, r, half float64) solid.Solid {
	c, n := geom.V(x, y, z), axis.Unit()
	return must(solid.NewCylinder(c.AddScaled(n, -half), c.AddScaled(n, half), r, 0))
}

// box has half lengths hx, hy, hz and sharp edges.
func box(x, y, z, hx, hy, hz float64) solid.Solid {
	return turnedBox(x, y, z, hx, hy, hz, geom.Identity)
}

func turnedBox(x, y, z, hx, hy, hz float64, turn geom.Mat) solid.Solid {
	return must(solid.NewBox(geom.V(x, y, z), geom.V(2*hx, 2*hy, 2*hz), turn, 0))
}

// octa is the octahedron |x| + |y| + |z| ≤ h about its centre. Its support is
// h·max|n|, and its faces are h/√3 from its centre.
func octa(x, y, z, h float64) solid.Solid {
	c := geom.V(x, y, z)
	p := []geom.Vec{
		c.Add(geom.V(h, 0, 0)), c.Add(geom.V(-h, 0, 0)), c.Add(geom.V(0, h, 0)),
		c.Add(geom.V(0, -h, 0)), c.Add(geom.V(0, 0, h)), c.Add(geom.V(0, 0, -h)),
	}
	return must(solid.NewHull(p, 0))
}

// ring is a full ring of radius r square to normal; bow is half of one about Z,
// on the side of positive X.
func ring(x, y, z float64, normal geom.Vec, r, tube float64) solid.Solid {
	c := geom.V(x, y, z)
	return must(solid.NewArc(c, normal, c.AddScaled(normal.Perp(), r), 2*math.Pi, tube))
}

func bow(x, y, z, r, tube float64) solid.Solid {
	c := geom.V(x, y, z)
	return must(solid.NewArc(c, zAxis, c.Add(geom.V(0, -r, 0)), math.Pi, tube))
}

var (
	xAxis, yAxis, zAxis = geom.V(1, 0, 0), geom.V(0, 1, 0), geom.V(0, 0, 1)
	oct                 = geom.V(1, 1, 1) // normal of an octahedron's face
	lean                = geom.V(1, 0, 1) // 45° between X and Z
	yaw45               = geom.Turn(0, 0, math.Pi/4)
	pitch45             = geom.Turn(0, math.Pi/4, 0)
	root2, root3        = math.Sqrt2, math.Sqrt(3)
)

// Each row is measured as it stands, with the two swapped, and after random
// rigid motions, which change no gap.
func checkRows(t *testing.T, rows []row) {
	m := newMaker(11)
	for _, r := range rows {
		t.Run(r.name, func(t *testing.T) {
			require.NotEmpty(t, r.why)
			a, b := r.a, r.b
			for range 6 {
				assertGap(t, &a, &b, r.gap)
				assertGap(t, &b, &a, r.gap)
				by := geom.Pose{R: m.turn(), P: m.vec(2000)}
				a, b = r.a.Moved(&by), r.b.Moved(&by)
			}
		})
	}
}

func assertGap(t *testing.T, a, b *solid.Solid, want float64) {
	t.Helper()
	r := Between(a, b)
	assert.InDelta(t, want, r.Gap, geom.GapTol)
	assert.InDelta(t, r.Gap, r.B.Sub(r.A).Dot(r.N), geom.GapTol, "points")
	assert.InDelta(t, 1, r.N.Len(), geom.GapTol, "direction")
}

// Every two kinds must be in the tables.
func TestTablesHoldEveryPair(t *testing.T) {
	seen := map[[2]solid.Kind]int{}
	for _, table := range [][]row{pointRows, segmentRows, discRows, cylinderRows, boxRows, hullRows, arcRows} {
		for _, r := range table {
			seen[[2]solid.Kind{min(r.a.Kind, r.b.Kind), max(r.a.Kind, r.b.Kind)}]++
		}
	}
	for a := solid.Kind(0); a < kindCount; a++ {
		for b := a; b < kindCount; b++ {
			assert.GreaterOrEqual(t, seen[[2]solid.Kind{a, b}], 3, "%s–%s", kindNames[a], kindNames[b])
		}
	}
}
