package motion

import "scrubline/fitment/internal/geom"

// Point is a point of a carrier that hangs on a linkage, with its own motion
// over the linkage's grid.
//
// The bounds of a carrier hold for all its points, and so know nothing of a ball
// joint that stands still while its wheel is steered about it; those of the
// point itself do.
type Point struct {
	on    Carrier
	p     geom.Vec // at ride, on its own side
	right bool
	u     *hung
	ch    *Chassis
	grid  *grid
}

// PointOf follows a point (body axes at ride) of a carrier; nil when the carrier
// does not hang on a linkage, or is turned by something else besides.
func (c *Chassis) PointOf(on Carrier, p geom.Vec) *Point {
	u := c.hung[endOf(on)]
	if _, ok := c.Bounds(on); !ok || u == nil {
		return nil
	}
	if !u.s.axle && endOf(on) == FrontEnd && !u.steered() {
		return nil
	}
	pt := &Point{on: on, p: p, right: on == WheelFR || on == WheelRR, u: u, ch: c}
	own := p
	if pt.right {
		own.Y = -own.Y
	}
	nodes := make([]node, len(u.nodes))
	for i := range u.nodes {
		n := u.node(&u.nodes[i])
		pose := n.pose(u.s.origin, false)
		d := pose.Apply(own).Sub(own)
		nodes[i] = node{d.X, d.Y, d.Z}
	}
	pt.grid = newGrid(u.grid.xs, u.grid.ys, nodes)
	return pt
}

// Bounds are the point's own: of its shift, with no turn.
func (pt *Point) Bounds() Bounds { return pt.grid.bounds }

// At is where the point stands in a state. Between the nodes it is within the
// grid's error of where the carrier's pose puts it, and at them the same.
func (pt *Point) At(st State) geom.Vec {
	x, y := pt.place(st)
	if !pt.grid.inside(x, y) {
		pose := pt.ch.Pose(pt.on, st)
		return pose.Apply(pt.p)
	}
	n := pt.grid.at(x, y, 3)
	if pt.right {
		n[1] = -n[1]
	}
	return pt.p.Add(geom.V(n[0], n[1], n[2]))
}

// place is a state as the grid's two parameters.
func (pt *Point) place(st State) (x, y float64) {
	l, r, steer := st.RL, st.RR, 0.0
	if endOf(pt.on) == FrontEnd {
		l, r, steer = st.FL, st.FR, st.Steer
	}
	switch {
	case pt.u.s.axle:
		return (l + r) / 2, l - r
	case pt.right:
		return r, -steer
	}
	return l, steer
}
