package scene

import (
	"math"
	"sort"
	"testing"
)

// measure sums up what shapes take up, for tests: extents and, for shapes that
// have a closed form, volume. Rooms are left out.
type measure struct {
	lo, hi Vec
	volume float64
}

func newMeasure() *measure {
	inf := math.Inf(1)
	return &measure{lo: Vec{inf, inf, inf}, hi: Vec{-inf, -inf, -inf}}
}

func measureAll(t testing.TB, shapes []Shape) *measure {
	t.Helper()
	m := newMeasure()
	for _, s := range shapes {
		if _, room := s.(Room); !room {
			m.add(t, s)
		}
	}
	return m
}

func (m *measure) point(p Vec, r Vec) {
	for i := range p {
		m.lo[i], m.hi[i] = math.Min(m.lo[i], p[i]-r[i]), math.Max(m.hi[i], p[i]+r[i])
	}
}

func (m *measure) add(t testing.TB, s Shape) {
	t.Helper()
	m.reach(t, s)
	switch s := s.(type) {
	case Box:
		m.volume += s.Size[0] * s.Size[1] * s.Size[2]
	case Hull:
		m.volume += hullVolume(s.Points)
	case Cylinder:
		m.volume += math.Pi * s.Radius * s.Radius * s.To.sub(s.From).len()
	case Run:
		m.volume += math.Pi * s.Radius * s.Radius * runLength(s.Vertices)
	}
}

// reach widens the extents to hold a shape; a run counts by its corners.
func (m *measure) reach(t testing.TB, s Shape) {
	switch s := s.(type) {
	case Box:
		m.point(s.Center, s.Size.scale(0.5))
	case Hull:
		for _, p := range s.Points {
			m.point(p, Vec{})
		}
	case Cylinder:
		axis := s.To.sub(s.From)
		l := axis.len()
		var r Vec
		for i := range r { // a disc square to the axis reaches r·sqrt(1-a²) along each direction
			r[i] = s.Radius * math.Sqrt(math.Max(0, 1-axis[i]/l*(axis[i]/l)))
		}
		m.point(s.From, r)
		m.point(s.To, r)
	case Run:
		for _, v := range s.Vertices {
			m.point(v.P, Vec{})
		}
	case Bellows, Shaft:
	default:
		t.Fatalf("a shape of type %T", s)
	}
}

// hullVolume is the volume of the convex hull of a few points: the sum over
// its faces of area times distance to an inner point over three. Faces are
// found by trying every plane through three points.
func hullVolume(points []Vec) float64 {
	pts := unique(points)
	var mid Vec
	for _, p := range pts {
		mid = mid.add(p.scale(1 / float64(len(pts))))
	}
	volume := 0.0
	seen := map[[4]int]bool{}
	for i := range pts {
		for j := i + 1; j < len(pts); j++ {
			for k := j + 1; k < len(pts); k++ {
				volume += faceVolume(pts, mid, [3]int{i, j, k}, seen)
			}
		}
	}
	return volume
}

func unique(points []Vec) []Vec {
	var out []Vec
	for _, p := range points {
		near := false
		for _, q := range out {
			near = near || p.sub(q).len() < 1e-7
		}
		if !near {
			out = append(out, p)
		}
	}
	return out
}

func faceVolume(pts []Vec, mid Vec, tri [3]int, seen map[[4]int]bool) float64 {
	a := pts[tri[0]]
	n := pts[tri[1]].sub(a).cross(pts[tri[2]].sub(a))
	if n.len() < 1e-6 {
		return 0
	}
	n = n.unit()
	if n.dot(a.sub(mid)) < 0 {
		n = n.neg()
	}
	d := n.dot(a)
	var face []Vec
	for _, p := range pts {
		if h := n.dot(p) - d; h > 1e-6 {
			return 0 // not a face
		} else if h > -1e-6 {
			face = append(face, p)
		}
	}
	round := func(x float64) int { return int(math.Round(x * 1e4)) }
	key := [4]int{round(n[0]), round(n[1]), round(n[2]), round(d)}
	if seen[key] {
		return 0
	}
	seen[key] = true
	return faceArea(face, n) * (d - n.dot(mid)) / 3
}

// faceArea orders the corners of a convex face about its middle and sums triangles.
func faceArea(face []Vec, n Vec) float64 {
	var c Vec
	for _, p := range face {
		c = c.add(p.scale(1 / float64(len(face))))
	}
	u := face[0].sub(c).unit()
	v := n.cross(u)
	angle := func(p Vec) float64 { return math.Atan2(p.sub(c).dot(v), p.sub(c).dot(u)) }
	sort.Slice(face, func(i, j int) bool { return angle(face[i]) < angle(face[j]) })
	area := 0.0
	for i, p := range face {
		area += p.sub(c).cross(face[(i+1)%len(face)].sub(c)).len() / 2
	}
	return area
}

// near asserts a number.
func near(t testing.TB, what string, got, want, tol float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tol) {
		t.Errorf("%s: %.9g, want %.9g", what, got, want)
	}
}

func nearVec(t testing.TB, what string, got, want Vec) {
	t.Helper()
	if got.sub(want).len() > 1e-6 {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func TestHullVolumeOfKnownBodies(t *testing.T) {
	// A cube, and the regular octahedron: a³·√2/3 with edge a = √2 (closed forms).
	var cube []Vec
	for i := range 8 {
		cube = append(cube, Vec{float64(i & 1), float64(i >> 1 & 1), float64(i >> 2)})
	}
	near(t, "cube", hullVolume(cube), 1, 1e-9)
	near(t, "octahedron", hullVolume([]Vec{{1, 0, 0}, {-1, 0, 0}, {0, 1, 0}, {0, -1, 0}, {0, 0, 1}, {0, 0, -1}}), 4.0/3, 1e-9)
}
