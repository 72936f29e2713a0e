package solid

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// LocalSupport is the point of the core that lies farthest along d, both in
// the solid's own axes. d needs no unit length. Where several points tie, one
// of them. An arc is not convex; its support is that of its hull.
//
// The round kinds take the direction's part across their own axis from two
// components. Taking it in the world as d − u(d·u) instead leaves rounding
// noise of any direction and length when d is along the axis, and a point
// outside the solid; in local axes the point is on the rim whatever d is.
func (s *Solid) LocalSupport(d geom.Vec) geom.Vec {
	switch s.Kind {
	case Segment:
		return geom.Vec{X: math.Copysign(s.H.X, d.X)}
	case Box:
		return geom.Vec{X: math.Copysign(s.H.X, d.X), Y: math.Copysign(s.H.Y, d.Y), Z: math.Copysign(s.H.Z, d.Z)}
	case Disc:
		return Rim(s.H.X, d)
	case Cylinder:
		p := Rim(s.H.X, d)
		p.Z = math.Copysign(s.H.Z, d.Z)
		return p
	case Hull:
		return *Farthest(s.Points, d)
	case Arc:
		return arcSupport(s.H.X, s.H.Y, d)
	}
	return geom.Vec{}
}

// Rim is the point of the circle of radius r about Z farthest along d.
func Rim(r float64, d geom.Vec) geom.Vec {
	l := math.Sqrt(float64(d.X*d.X) + float64(d.Y*d.Y))
	if l == 0 {
		return geom.Vec{X: r}
	}
	k := r / l
	return geom.Vec{X: float64(k * d.X), Y: float64(k * d.Y)}
}

// Farthest is the first of points, of which there is at least one, that lies
// farthest along d. It takes four at a time: WebAssembly pays for every round of a
// loop, and the processor need not wait for one comparison after the other.
func Farthest(points []geom.Vec, d geom.Vec) *geom.Vec {
	best := &points[0]
	x, y, z := d.X, d.Y, d.Z // in registers: WebAssembly would load them for every point
	far := float64(best.X*x) + float64(best.Y*y) + float64(best.Z*z)
	points = points[1:]
	for len(points) >= 4 {
		four := (*[4]geom.Vec)(points)
		p, q, r, s := &four[0], &four[1], &four[2], &four[3]
		a := float64(p.X*x) + float64(p.Y*y) + float64(p.Z*z)
		b := float64(q.X*x) + float64(q.Y*y) + float64(q.Z*z)
		c := float64(r.X*x) + float64(r.Y*y) + float64(r.Z*z)
		e := float64(s.X*x) + float64(s.Y*y) + float64(s.Z*z)
		if b > a {
			p, a = q, b
		}
		if e > c {
			r, c = s, e
		}
		if c > a {
			p, a = r, c
		}
		if a > far {
			best, far = p, a
		}
		points = points[4:]
	}
	for i := range points {
		p := &points[i]
		if f := float64(p.X*x) + float64(p.Y*y) + float64(p.Z*z); f > far {
			best, far = p, f
		}
	}
	return best
}

// arcSupport is the rim point if it lies on the arc, else the farther end.
// d lies within the half angle of X exactly when the cosine of its own angle
// is at least that of the half angle.
func arcSupport(r, half float64, d geom.Vec) geom.Vec {
	l := math.Sqrt(float64(d.X*d.X) + float64(d.Y*d.Y))
	sin, cos := geom.Sincos(half)
	if l == 0 || d.X >= l*cos || half >= math.Pi {
		return Rim(r, d)
	}
	return geom.Vec{X: float64(r * cos), Y: math.Copysign(float64(r*sin), d.Y)}
}

// CoreSupport is the point of the core farthest along dir, in the world.
func (s *Solid) CoreSupport(dir geom.Vec) geom.Vec {
	return s.Pose.Apply(s.LocalSupport(s.Pose.R.ApplyT(dir)))
}

// Support is the point of the whole solid farthest along dir, in the world.
func (s *Solid) Support(dir geom.Vec) geom.Vec {
	return s.CoreSupport(dir).AddScaled(dir.Unit(), s.Round)
}

// Lowest is the solid's lowest point along the unit normal n, and its height
// n·p over the plane through the origin.
func (s *Solid) Lowest(n geom.Vec) (p geom.Vec, height float64) {
	p = s.Support(n.Neg())
	return p, n.Dot(p)
}

// Moved is the solid carried by a further pose.
func (s *Solid) Moved(by *geom.Pose) Solid {
	m := *s
	m.Pose = s.Pose.Then(by)
	return m
}
