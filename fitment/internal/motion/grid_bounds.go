package motion

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// Bounds holds how fast a carrier on a linkage moves at most, anywhere on its
// grid: derivatives by the height (first) and by the cross height or the steer
// (second). A piece of the grid lies within its coefficients' hull, and so do
// its derivatives within the hulls of the coefficients' differences (Farin,
// Curves and Surfaces for CAGD, chapters 4 and 14); so the bounds are those of
// the interpolated motion itself, without exception.
type Bounds struct {
	Shift [2]geom.Vec // of the carrier's origin, axis by axis
	Turn  [2]geom.Vec // of the rotation vector, axis by axis
	Swing [2]float64  // of the rotation vector, its length
	// Second derivatives: by height twice, by both, by the second twice.
	ShiftBend [3]float64
	TurnBend  [3]float64
	Angle     float64 // the largest rotation
}

// slack covers the rounding in the differences.
const slack = 1 + 1e-9

func (g *grid) measure() {
	size := g.nx * g.ny * nodeComps
	cols := max(1, len(g.ys)-1)
	for k := 0; k*size < len(g.cells); k++ {
		cell := net{g.cells[k*size:][:size], g.nx, g.ny}
		g.bounds.take(&cell, width(g.xs, k/cols), width(g.ys, k%cols))
	}
}

func width(axis []float64, i int) float64 {
	if len(axis) < 2 {
		return 1
	}
	return axis[i+1] - axis[i]
}

// net is the coefficients of a cell.
type net struct {
	c      []float64
	nx, ny int
}

// vec is the shift (0) or the rotation vector (3) of a coefficient.
func (n *net) vec(i, j, first int) geom.Vec {
	c := n.c[(i*n.ny+j)*nodeComps+first:]
	return geom.V(c[0], c[1], c[2])
}

// diff is a difference of order a along x and b along y.
func (n *net) diff(i, j, a, b, first int) geom.Vec {
	switch {
	case a > 0:
		return n.diff(i+1, j, a-1, b, first).Sub(n.diff(i, j, a-1, b, first))
	case b > 0:
		return n.diff(i, j+1, a, b-1, first).Sub(n.diff(i, j, a, b-1, first))
	}
	return n.vec(i, j, first)
}

// most is the largest derivative of order a and b: axis by axis, and in length.
func (n *net) most(a, b, first int, scale float64) (each geom.Vec, norm float64) {
	for i := 0; i+a < n.nx; i++ {
		for j := 0; j+b < n.ny; j++ {
			d := n.diff(i, j, a, b, first).Scale(scale * slack)
			each = wider(each, geom.V(math.Abs(d.X), math.Abs(d.Y), math.Abs(d.Z)))
			norm = max(norm, d.Len())
		}
	}
	return each, norm
}

func wider(a, b geom.Vec) geom.Vec { return geom.V(max(a.X, b.X), max(a.Y, b.Y), max(a.Z, b.Z)) }

// take widens the bounds by a cell of widths wx and wy.
func (b *Bounds) take(n *net, wx, wy float64) {
	for k, by := range [2][3]float64{{1, 0, 3 / wx}, {0, 1, 3 / wy}} {
		shift, _ := n.most(int(by[0]), int(by[1]), 0, by[2])
		turn, swing := n.most(int(by[0]), int(by[1]), 3, by[2])
		b.Shift[k], b.Turn[k], b.Swing[k] = wider(b.Shift[k], shift), wider(b.Turn[k], turn), max(b.Swing[k], swing)
	}
	for k, by := range [3][3]float64{{2, 0, 6 / (wx * wx)}, {1, 1, 9 / (wx * wy)}, {0, 2, 6 / (wy * wy)}} {
		_, shift := n.most(int(by[0]), int(by[1]), 0, by[2])
		_, turn := n.most(int(by[0]), int(by[1]), 3, by[2])
		b.ShiftBend[k], b.TurnBend[k] = max(b.ShiftBend[k], shift), max(b.TurnBend[k], turn)
	}
	_, angle := n.most(0, 0, 3, 1)
	b.Angle = max(b.Angle, angle)
}
