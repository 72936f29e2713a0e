package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// pointArc is the gap of a point and the centreline of an arc.
func pointArc(p, arc *solid.Solid, c *core) {
	var q placed
	placeArc(arc, arc.Pose.Inverse(p.Pose.P), &q)
	c.placed(p.Pose.P, arc, &q)
}

// placeArc is the place of p, in the arc's own axes, from its centreline. The
// nearest point of the whole circle is in the direction of p from the axis; if
// it is not on the arc, the nearer end is nearest, as the distance to a point of
// the circle grows with its angle from that direction. On the axis all are as
// near, and the middle of the arc is taken.
func placeArc(arc *solid.Solid, p geom.Vec, q *placed) {
	d := geom.Vec{X: p.X, Y: p.Y}
	if d == (geom.Vec{}) {
		d.X = 1
	}
	// Where p lies on the centreline, square to it: along the axis.
	q.from(arc.LocalSupport(d), p, geom.Vec{Z: 1})
}

// turn is a place on an arc as the unit vector from its centre, in its plane.
type turn struct{ x, y float64 }

// between is the direction half way from t to u, which are less than half a
// turn apart.
func (t turn) between(u turn) turn {
	x, y := t.x+u.x, t.y+u.y
	l := math.Sqrt(float64(x*x) + float64(y*y))
	return turn{x / l, y / l}
}

// cross is positive when u is to the left of t, by less than half a turn.
func (t turn) cross(u turn) float64 { return float64(t.x*u.y) - float64(t.y*u.x) }

func (t turn) dot(u turn) float64 { return float64(t.x*u.x) + float64(t.y*u.y) }

// pieces cuts an arc of the given half angle into quarters or less. It returns
// their ends, one more than there are pieces.
func pieces(half float64) (ends [5]turn, n int) {
	n = int(math.Ceil(half / (math.Pi / 4)))
	n = min(max(n, 1), 4)
	for i := range n + 1 {
		sin, cos := geom.Sincos(-half + float64(2*half*float64(i)/float64(n)))
		ends[i] = turn{cos, sin}
	}
	return ends, n
}
