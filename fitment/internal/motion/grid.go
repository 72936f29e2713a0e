package motion

import (
	"sort"

	"scrubline/fitment/internal/geom"
)

// A node's numbers: the shift of the carrier's origin, its rotation vector,
// and the turn of the crank or the move of the rack.
const (
	poseComps = 6
	nodeComps = 7
)

type node [nodeComps]float64

// grid keeps a linkage's motion over two parameters: the height over the origin
// (mm) and, for an axle, the cross height (mm), for a wheel, the steer
// (radians).
//
// Poses are solved at the nodes. Between them the numbers follow a bicubic
// piece in each cell, with slopes from the five nearest nodes (Lagrange), so
// that neighbours join without a corner (bicubic Hermite interpolation, as in
// Press et al., Numerical Recipes, 3rd edition, section 3.6.3). The pieces are
// kept as Bernstein coefficients: they bound themselves.
type grid struct {
	xs, ys []float64
	nx, ny int       // coefficients each way: 4, or 1 where there is no range
	cells  []float64 // cell by cell, then [nx][ny][nodeComps]
	bounds Bounds
}

// newGrid fits the nodes, x by x.
func newGrid(xs, ys []float64, nodes []node) *grid {
	g := &grid{xs: xs, ys: ys, nx: order(xs), ny: order(ys)}
	w := len(ys)
	byX := slopes(xs, w, nodes, func(i, j int) int { return i*w + j })
	byY := slopes(ys, len(xs), nodes, func(j, i int) int { return i*w + j })
	both := slopes(xs, w, byY, func(i, j int) int { return i*w + j })
	for i := 0; i < max(1, len(xs)-1); i++ {
		for j := 0; j < max(1, len(ys)-1); j++ {
			g.addCell(i, j, nodes, byX, byY, both)
		}
	}
	g.measure()
	return g
}

func order(axis []float64) int {
	if len(axis) > 1 {
		return 4
	}
	return 1
}

// slopes are the derivatives along one axis, whose k-th node in line l stands
// at at(k, l).
func slopes(axis []float64, lines int, nodes []node, at func(k, l int) int) []node {
	out := make([]node, len(nodes))
	n := len(axis)
	width := min(n, 5)
	for k := 0; k < n; k++ {
		first := max(0, min(k-width/2, n-width))
		weights := slopeWeights(axis[first:first+width], k-first)
		for l := 0; l < lines; l++ {
			o := &out[at(k, l)]
			for q, w := range weights {
				v := &nodes[at(first+q, l)]
				for c := range o {
					o[c] += float64(w * v[c])
				}
			}
		}
	}
	return out
}

// slopeWeights are the weights of values at points x for the slope at x[k] of
// the polynomial through them: the derivatives of Lagrange's polynomials.
func slopeWeights(x []float64, k int) []float64 {
	w := make([]float64, len(x))
	for j := range x {
		if j == k {
			continue
		}
		p := 1 / (x[j] - x[k])
		for m := range x {
			if m != j && m != k {
				p *= (x[k] - x[m]) / (x[j] - x[m])
			}
		}
		w[j] = p
		w[k] -= p
	}
	return w
}

// addCell turns a cell's corner values and slopes into coefficients: along an
// axis of width w, f0, f0 + f0'·w/3, f1 − f1'·w/3, f1.
func (g *grid) addCell(i, j int, f, fx, fy, fxy []node) {
	w := len(g.ys)
	for a := 0; a < g.nx; a++ {
		for b := 0; b < g.ny; b++ {
			ka, kb := i+a/2, j+b/2
			at := ka*w + kb
			dx, dy := inward(g.xs, i, a), inward(g.ys, j, b)
			for c := 0; c < nodeComps; c++ {
				v := f[at][c] + float64(dx*fx[at][c]) + float64(dy*fy[at][c]) + float64(dx*dy*fxy[at][c])
				g.cells = append(g.cells, v)
			}
		}
	}
}

// inward is how far coefficient a of a cell stands from its node.
func inward(axis []float64, i, a int) float64 {
	if a == 1 || a == 2 {
		return float64(3-2*a) * (axis[i+1] - axis[i]) / 3
	}
	return 0
}

// inside says whether a point lies on the grid; beyond by less than tolerance
// it counts.
func (g *grid) inside(x, y float64) bool {
	return x >= g.xs[0]-geom.Tiny && x <= g.xs[len(g.xs)-1]+geom.Tiny &&
		y >= g.ys[0]-geom.Tiny && y <= g.ys[len(g.ys)-1]+geom.Tiny
}

// find is the cell along an axis and the place in it, 0 to 1.
func find(axis []float64, x float64) (i int, t float64) {
	n := len(axis)
	if n < 2 {
		return 0, 0
	}
	i = sort.SearchFloat64s(axis, x) - 1
	i = max(0, min(i, n-2))
	return i, max(0, min(1, (x-axis[i])/(axis[i+1]-axis[i])))
}

// bernstein are the weights of a cubic's coefficients.
func bernstein(t float64) [4]float64 {
	s := 1 - t
	return [4]float64{s * s * s, 3 * t * s * s, 3 * t * t * s, t * t * t}
}

// at interpolates the first comps numbers.
func (g *grid) at(x, y float64, comps int) (out node) {
	i, t := find(g.xs, x)
	j, u := find(g.ys, y)
	wx, wy := bernstein(t), bernstein(u)
	size := g.nx * g.ny * nodeComps
	cell := g.cells[(i*max(1, len(g.ys)-1)+j)*size:][:size]
	for a := 0; a < g.nx; a++ {
		for b := 0; b < g.ny; b++ {
			w := float64(wx[a] * wy[b])
			for c := 0; c < comps; c++ {
				out[c] += float64(w * cell[c])
			}
			cell = cell[nodeComps:]
		}
	}
	return out
}

// pose is the pose of a carrier with its origin at o. other mirrors it to the
// other side of the vehicle.
func (n *node) pose(o geom.Vec, other bool) geom.Pose {
	t, r := geom.V(n[0], n[1], n[2]), geom.V(n[3], n[4], n[5])
	if other { // a turn's axis is mirrored the other way round
		t.Y, r.X, r.Z = -t.Y, -r.X, -r.Z
	}
	m := rotationOf(r)
	return geom.Pose{R: m, P: o.Add(t).Sub(m.Apply(o))}
}
