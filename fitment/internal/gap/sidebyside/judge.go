package sidebyside

import (
	"math"
	"sort"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// The judge's own geometry: heights and distances from closed forms in world
// coordinates. It shares no support function with the engine.

// Slab is the signed width between the supporting planes of two convex solids
// square to the unit vector n: a lower bound of their signed gap.
func Slab(a, b *solid.Solid, n geom.Vec) float64 { return -Height(b, n.Neg()) - Height(a, n) }

// Height is the largest n·p over a convex solid.
func Height(s *solid.Solid, n geom.Vec) float64 {
	x, y, z := n.Dot(s.Pose.R.AxisX()), n.Dot(s.Pose.R.AxisY()), n.Dot(s.Pose.R.AxisZ())
	h := n.Dot(s.Pose.P) + s.Round
	switch s.Kind {
	case solid.Segment:
		return h + s.H.X*math.Abs(x)
	case solid.Disc, solid.Cylinder:
		return h + s.H.Z*math.Abs(z) + s.H.X*math.Hypot(x, y)
	case solid.Box:
		return h + s.H.X*math.Abs(x) + s.H.Y*math.Abs(y) + s.H.Z*math.Abs(z)
	case solid.Hull:
		far := math.Inf(-1)
		for _, p := range s.Points {
			far = math.Max(far, p.X*x+p.Y*y+p.Z*z)
		}
		return h + far
	}
	return h
}

// Beyond is how far a point lies outside a convex solid, nought inside it.
// For a hull it is right for points on its surface and no less than right
// elsewhere: a point of the surface lies in a triangle of corners.
func Beyond(s *solid.Solid, at geom.Vec) float64 {
	d := at.Sub(s.Pose.P)
	x, y, z := d.Dot(s.Pose.R.AxisX()), d.Dot(s.Pose.R.AxisY()), d.Dot(s.Pose.R.AxisZ())
	out := func(v, h float64) float64 { return math.Max(math.Abs(v)-h, 0) }
	far := d.Len()
	switch s.Kind {
	case solid.Segment:
		far = geom.V(out(x, s.H.X), y, z).Len()
	case solid.Disc, solid.Cylinder:
		far = math.Hypot(out(math.Hypot(x, y), s.H.X), out(z, s.H.Z))
	case solid.Box:
		far = geom.V(out(x, s.H.X), out(y, s.H.Y), out(z, s.H.Z)).Len()
	case solid.Hull:
		far = toTriangles(s.Points, geom.V(x, y, z))
	}
	return math.Max(far-s.Round, 0)
}

// toTriangles is the least distance of p to a triangle of any three points.
func toTriangles(v []geom.Vec, p geom.Vec) float64 {
	far := math.Inf(1)
	for i := range v {
		for j := range v[:i] {
			for k := range v[:j] {
				far = math.Min(far, toTriangle(v[i], v[j], v[k], p))
			}
		}
	}
	return far
}

func toTriangle(a, b, c, p geom.Vec) float64 {
	n := b.Sub(a).Cross(c.Sub(a))
	if l := n.Len(); l > 0 {
		n = n.Scale(1 / l)
		in := func(a, b geom.Vec) bool { return b.Sub(a).Cross(p.Sub(a)).Dot(n) >= 0 }
		if in(a, b) && in(b, c) && in(c, a) {
			return math.Abs(p.Sub(a).Dot(n))
		}
	}
	return math.Min(toSegment(a, b, p), math.Min(toSegment(b, c, p), toSegment(c, a, p)))
}

func toSegment(a, b, p geom.Vec) float64 {
	u := b.Sub(a)
	t := 0.0
	if l := u.LenSq(); l > 0 {
		t = math.Min(math.Max(p.Sub(a).Dot(u)/l, 0), 1)
	}
	return p.Dist(a.AddScaled(u, t))
}

// BestSlab looks for the widest slab of any direction, which for overlapping
// solids is minus the least move that parts them: of a few thousand directions
// the best few are climbed from, and the direction in doubt. What it finds is a proof; that it finds
// nothing wider is none.
func BestSlab(a, b *solid.Solid, doubt geom.Vec) float64 {
	const (
		count = 4000
		few   = 12
	)
	type start struct {
		n geom.Vec
		s float64
	}
	starts := make([]start, count)
	for i := range starts {
		z := 1 - (2*float64(i)+1)/count
		r := math.Sqrt(1 - z*z)
		n := geom.V(r*math.Cos(golden*float64(i)), r*math.Sin(golden*float64(i)), z)
		starts[i] = start{n, Slab(a, b, n)}
	}
	sort.Slice(starts, func(i, j int) bool { return starts[i].s > starts[j].s })
	best := climb(a, b, doubt)
	for _, s := range starts[:few] {
		best = math.Max(best, climb(a, b, s.n))
	}
	return best
}

// climb goes from one direction to wider slabs. The width has ridges, along
// which only few ways lead up: each try is the golden angle on from the last,
// and the step is halved only after a whole turn of them found nothing.
func climb(a, b *solid.Solid, n geom.Vec) float64 {
	const turn = 24
	s := Slab(a, b, n)
	phi, failed := 0.0, 0
	for step := 0.05; step > 1e-8; {
		x := n.Perp()
		y := n.Cross(x)
		phi += golden
		m := n.AddScaled(x, step*math.Cos(phi)).AddScaled(y, step*math.Sin(phi)).Unit()
		if t := Slab(a, b, m); t > s {
			n, s, failed = m, t, 0
		} else if failed++; failed == turn {
			step, failed = step/2, 0
		}
	}
	return s
}

const golden = 2.399963229728653 // radians: spreads directions evenly
