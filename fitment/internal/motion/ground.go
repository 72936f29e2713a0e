package motion

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// GroundPlane is the plane under the tyres in body axes: n·p + c is the height
// of a point over it, n a unit normal.
//
// It is tangent to the front and the rear tyres (radius Loaded) in side view
// and has the mean of the two ends' left–right slope. With m that slope,
// q = √(1+m²), D the rise of the rear wheel centres over the front ones, L the
// wheelbase and ΔR the difference of the loaded radii, the normal is
// (sin a, −m cos a/q, cos a/q) where L sin a + (D/q) cos a = ΔR, that is
// a = asin(ΔR/A) − atan2(D/q, L) with A = hypot(L, D/q).
//
// The centres are the middles between an end's two wheels. On a linkage they
// also move along and across, by Y to the right of each other; then L is the
// distance along, D is less m·Y, and the slope of that end is that of the line
// through its two wheel centres.
func (c *Chassis) GroundPlane(st State) (n geom.Vec, offset float64) {
	front, mf := c.wheels(FrontEnd, st)
	rear, mr := c.wheels(RearEnd, st)
	m := (mf + mr) / 2
	q := math.Sqrt(1 + float64(m*m))
	along := rear.X - front.X
	d := (rear.Z - front.Z - float64(m*(rear.Y-front.Y))) / q
	span := math.Sqrt(float64(along*along) + float64(d*d))
	ratio := (c.Rear.Loaded - c.Front.Loaded) / span
	a := math.Asin(math.Max(-1, math.Min(1, ratio))) - math.Atan2(d, along)
	sin, cos := math.Sincos(a)
	n = geom.V(sin, -m*cos/q, cos/q)
	return n, c.Front.Loaded - n.Dot(front)
}

// wheels is the middle between an end's two wheel centres, and the slope of
// the line through them.
func (c *Chassis) wheels(end Which, st State) (middle geom.Vec, slope float64) {
	l, r, track := st.FL, st.FR, c.Front.Track
	axle, left, right := FrontAxle, WheelFL, WheelFR
	if end == RearEnd {
		l, r, track = st.RL, st.RR, c.Rear.Track
		axle, left, right = RearAxle, WheelRL, WheelRR
	}
	middle = c.Origin(axle)
	u := c.hung[end]
	if u == nil {
		middle.Z -= (l + r) / 2
		return middle, (l - r) / track
	}
	pl, pr := c.Pose(left, st), c.Pose(right, st)
	a, b := pl.Apply(c.Origin(left)), pr.Apply(c.Origin(right))
	return a.Lerp(b, 0.5), (b.Z - a.Z) / (b.Y - a.Y)
}

// groundPose carries ground-borne things with the plane: its origin stays
// under the body origin, and its normal turns the short way.
func (c *Chassis) groundPose(st State) geom.Pose {
	n, off := c.GroundPlane(st)
	rot := between(c.rideN, n)
	from := c.Origin(Ground)
	to := geom.V(0, 0, -off/n.Z)
	return geom.Pose{R: rot, P: to.Sub(rot.Apply(from))}
}

// between is the rotation that takes unit vector a to unit vector b the short
// way (Rodrigues): I + K + K²/(1+a·b), K the cross matrix of a×b. The two are
// never opposite here: both point up.
func between(a, b geom.Vec) geom.Mat {
	v := a.Cross(b)
	k := 1 / (1 + a.Dot(b))
	col := func(e geom.Vec) geom.Vec {
		x := v.Cross(e)
		return e.Add(x).AddScaled(v.Cross(x), k)
	}
	x, y, z := col(geom.V(1, 0, 0)), col(geom.V(0, 1, 0)), col(geom.V(0, 0, 1))
	return geom.Mat{X: geom.V(x.X, y.X, z.X), Y: geom.V(x.Y, y.Y, z.Y), Z: geom.V(x.Z, y.Z, z.Z)}
}
