package motion

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// solve fits the grid, with steps so many times finer than the first along each
// axis. bad is the height of a row that cannot be had, 0 when all is well.
func (u *hung) solve(second float64, fine [2]float64) (bad float64) {
	lim := &u.limits
	xs := axisNodes(lim.Low, lim.High, heightStep/fine[0], nearLock/fine[0], lim.LockedLow, lim.LockedHigh)
	step := crossStep
	if !u.s.axle {
		step = steerStep
	}
	ys := axisNodes(-second, second, step/fine[1], 1, false, false)
	mid := indexOf(ys, 0)
	u.cols = make([]state, len(ys))
	for j := mid + 1; j < len(ys); j++ {
		u.cols[j], _ = u.column(u.cols[j-1], ys[j])
	}
	for j := mid - 1; j >= 0; j-- {
		u.cols[j], _ = u.column(u.cols[j+1], ys[j])
	}
	u.nodes = make([]state, len(xs)*len(ys))
	ride := indexOf(xs, 0)
	for j := range ys {
		u.nodes[ride*len(ys)+j] = u.free(u.cols[j])
	}
	for _, dir := range [2]int{1, -1} {
		for i := ride + dir; i >= 0 && i < len(xs); i += dir {
			if !u.row(i, i-dir, xs[i], len(ys)) {
				return xs[i]
			}
		}
	}
	u.fit(xs, ys)
	return 0
}

// row solves a row of nodes from the one before it.
func (u *hung) row(i, before int, x float64, cols int) bool {
	for j := 0; j < cols; j++ {
		from := u.nodes[before*cols+j]
		to := from.d
		to.h = x
		at, _, ok := u.s.follow(from, to)
		if !ok {
			return false
		}
		u.nodes[i*cols+j] = at
	}
	return true
}

func (u *hung) fit(xs, ys []float64) {
	nodes := make([]node, len(u.nodes))
	u.limits.Bind = 0
	for i := range u.nodes {
		nodes[i] = u.node(&u.nodes[i])
		u.limits.Bind = math.Max(u.limits.Bind, u.nodes[i].worst)
	}
	u.grid = newGrid(xs, ys, nodes)
}

func (u *hung) node(st *state) (n node) {
	p := u.s.place(&st.u, &st.d)
	t, r := p.o.Sub(u.s.origin), rotationVector(&p.r)
	return node{t.X, t.Y, t.Z, r.X, r.Y, r.Z, p.crank + st.d.rack}
}

// Steps of the grid, made finer until cubic pieces between the nodes come as
// near as offMM to what is solved half way between them.
const (
	heightStep = 14.0              // mm
	crossStep  = 20.0              // mm
	steerStep  = 3 * math.Pi / 180 // radians
	minHalf    = 3                 // steps from ride to an end of a range
	nearLock   = 0.4               // of the way left to a lock
	finest     = 8.0
	// offMM is at a metre from the carrier's origin: half of what is promised, for
	// what the pieces may be off beside their middles.
	offMM = 0.005
)

// farOff is an error of the grid (mm, at a metre from the origin) and where it is.
type farOff struct{ by, x, y float64 }

// off is the largest error half way between nodes along each axis: on the rows
// and columns at the middle and both ends.
func (u *hung) off() (most [2]farOff) {
	xs, ys := u.grid.xs, u.grid.ys
	check := func(axis, i, j int, x, y float64) {
		from := u.nodes[i*len(ys)+j]
		at, ok := u.to(from, x, y)
		if !ok {
			return
		}
		n, g := u.node(&at), u.grid.at(x, y, poseComps)
		shift := geom.V(n[0]-g[0], n[1]-g[1], n[2]-g[2])
		turn := geom.V(n[3]-g[3], n[4]-g[4], n[5]-g[5])
		if by := shift.Len() + float64(1000*turn.Len()); by > most[axis].by {
			most[axis] = farOff{by, x, y}
		}
	}
	for _, j := range [3]int{0, len(ys) / 2, len(ys) - 1} {
		for i := 0; i+1 < len(xs); i++ {
			check(0, i, j, (xs[i]+xs[i+1])/2, ys[j])
		}
	}
	for _, i := range [3]int{0, len(xs) / 2, len(xs) - 1} {
		for j := 0; j+1 < len(ys); j++ {
			check(1, i, j, xs[i], (ys[j]+ys[j+1])/2)
		}
	}
	return most
}

// axisNodes are the nodes of a range around 0, evenly spaced either way, and
// ever closer towards an end before which the linkage locks: no further apart
// than this part of the way left.
func axisNodes(lo, hi, step, near float64, lockedLo, lockedHi bool) []float64 {
	down, up := halfNodes(-lo, step, near, lockedLo), halfNodes(hi, step, near, lockedHi)
	var nodes []float64
	for i := len(down) - 1; i >= 0; i-- {
		nodes = append(nodes, -down[i])
	}
	nodes = append(nodes, 0)
	return append(nodes, up...)
}

func halfNodes(far, step, near float64, locked bool) (nodes []float64) {
	if far < geom.GapTol {
		return nil
	}
	step = math.Min(step, far/minHalf)
	if !locked {
		n := math.Ceil(far / step)
		for i := 1.0; i < n; i++ {
			nodes = append(nodes, far*i/n)
		}
		return append(nodes, far)
	}
	for x := 0.0; ; {
		s := math.Min(step, near*(far+lockRoomMM-x))
		if x+float64(1.5*s) >= far {
			return append(nodes, far)
		}
		x += s
		nodes = append(nodes, x)
	}
}

func indexOf(list []float64, v float64) int {
	for i, w := range list {
		if w == v {
			return i
		}
	}
	return 0
}

// beyond solves a state that is not on the grid, as far as the linkage goes.
func (u *hung) beyond(x, y float64) node {
	g := u.grid
	at, _ := u.to(u.nodes[nearest(g.xs, x)*len(g.ys)+nearest(g.ys, y)], x, y)
	return u.node(&at)
}

// to goes from a node to another state of the grid's parameters; ok is false
// when it gets only part of the way.
func (u *hung) to(from state, x, y float64) (at state, ok bool) {
	to := from.d
	to.h = x
	if u.s.axle {
		to.cross = y
	} else if j := nearest(u.grid.ys, y); u.steered() {
		to.rack = u.cols[j].u[5]
		if y != u.grid.ys[j] {
			col, _ := u.tie.lock(u.cols[j], drive{steer: y})
			to.rack = col.u[5]
		}
	}
	at, locked := u.s.lock(from, to)
	return at, !locked
}

func nearest(axis []float64, x float64) int {
	best := 0
	for i, v := range axis {
		if math.Abs(v-x) < math.Abs(axis[best]-x) {
			best = i
		}
	}
	return best
}
