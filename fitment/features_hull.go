package fitment

import (
	"math"
	"sort"

	"scrubline/fitment/internal/geom"
)

// hullFace is one flat face of a convex hull: its corners in turn about the
// outward normal, as indices of the points.
type hullFace struct {
	normal geom.Vec
	loop   []int
}

// flatMM is how far a point may lie off a face and still belong to it.
const flatMM = geom.GapTol

// faces are [hullFaces], kept by the points they are of: these are never written
// to, and carried solids share them.
func (m *Model) faces(pts []geom.Vec) []hullFace {
	if len(pts) == 0 {
		return nil
	}
	if kept, ok := m.hulls[&pts[0]]; ok {
		return kept
	}
	if m.hulls == nil {
		m.hulls = map[*geom.Vec][]hullFace{}
	}
	m.hulls[&pts[0]] = hullFaces(pts)
	return m.hulls[&pts[0]]
}

// hullFaces are the faces of the hull of points, in the order of their first
// corners. Every plane through three points that leaves all points on one side
// carries one; part kinds have a few dozen points at most, so that trying all
// is quick and needs no bookkeeping.
func hullFaces(pts []geom.Vec) []hullFace {
	var faces []hullFace
	for i := range pts {
		for j := i + 1; j < len(pts); j++ {
			for k := j + 1; k < len(pts); k++ {
				if f, ok := faceThrough(pts, i, j, k); ok && !knownFace(faces, &f) {
					faces = append(faces, f)
				}
			}
		}
	}
	return faces
}

// faceThrough is the face through three points; false when they are in line or
// points lie on both sides.
func faceThrough(pts []geom.Vec, i, j, k int) (hullFace, bool) {
	n := pts[j].Sub(pts[i]).Cross(pts[k].Sub(pts[i]))
	if n.Len() <= flatMM {
		return hullFace{}, false
	}
	n = n.Unit()
	above, below := false, false
	var on []int
	for q := range pts {
		switch d := n.Dot(pts[q].Sub(pts[i])); {
		case d > flatMM:
			above = true
		case d < -flatMM:
			below = true
		default:
			on = append(on, q)
		}
	}
	if above && below {
		return hullFace{}, false
	}
	if above {
		n = n.Neg()
	}
	return hullFace{n, inTurn(pts, on, n)}, true
}

func knownFace(faces []hullFace, f *hullFace) bool {
	for i := range faces {
		if faces[i].normal.Dot(f.normal) > 1-1e-9 {
			return true
		}
	}
	return false
}

// inTurn puts the points of a face in turn about its normal, left-handed ones
// last, and leaves out what lies within the face or on an edge.
func inTurn(pts []geom.Vec, on []int, n geom.Vec) []int {
	mid := geom.Vec{}
	for _, i := range on {
		mid = mid.AddScaled(pts[i], 1/float64(len(on)))
	}
	far := on[0]
	for _, i := range on {
		if pts[i].Sub(mid).LenSq() > pts[far].Sub(mid).LenSq() {
			far = i
		}
	}
	x := pts[far].Sub(mid).Unit()
	y := n.Cross(x)
	angle := func(i int) float64 { d := pts[i].Sub(mid); return math.Atan2(d.Dot(y), d.Dot(x)) }
	loop := append([]int(nil), on...)
	sort.SliceStable(loop, func(a, b int) bool { return angle(loop[a]) < angle(loop[b]) })
	for i := 0; i < len(loop) && len(loop) > 3; {
		a, b, c := pts[loop[(i+len(loop)-1)%len(loop)]], pts[loop[i]], pts[loop[(i+1)%len(loop)]]
		if b.Sub(a).Cross(c.Sub(b)).Dot(n) > flatMM*flatMM {
			i++
			continue
		}
		loop = append(loop[:i], loop[i+1:]...)
		i = max(0, i-1)
	}
	return loop
}
