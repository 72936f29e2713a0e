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
func (c *Chassis) GroundPlane(st State) (n geom.Vec, offset float64) {
	zf := c.frontZ - (st.FL+st.FR)/2
	zr := c.rearZ - (st.RL+st.RR)/2
	m := ((st.FL-st.FR)/c.Front.Track + (st.RL-st.RR)/c.Rear.Track) / 2
	q := math.Sqrt(1 + float64(m*m))
	d := (zr - zf) / q
	span := math.Sqrt(float64(c.Wheelbase*c.Wheelbase) + float64(d*d))
	ratio := (c.Rear.Loaded - c.Front.Loaded) / span
	a := math.Asin(math.Max(-1, math.Min(1, ratio))) - math.Atan2(d, c.Wheelbase)
	sin, cos := math.Sincos(a)
	n = geom.V(sin, -m*cos/q, cos/q)
	return n, c.Front.Loaded - float64(n.Z*zf)
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
