package view

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
)

// Distance is how far p lies outside a convex polygon, in the polygon's unit;
// 0 inside. A polygon with fewer than three corners is a line or a point.
func Distance(p fitment.Pt, poly []fitment.Pt) float64 {
	n := len(poly)
	if n == 0 {
		return math.Inf(1)
	}
	best := math.Inf(1)
	left, right := false, false
	for i, a := range poly {
		b := poly[(i+1)%n]
		d := toSegment(p, a, b)
		best = math.Min(best, d)
		c := (b[0]-a[0])*(p[1]-a[1]) - (b[1]-a[1])*(p[0]-a[0])
		left = left || c > 0
		right = right || c < 0
	}
	if n >= 3 && !(left && right) {
		return 0
	}
	return best
}

// toSegment is the distance of p from the segment a–b.
func toSegment(p, a, b fitment.Pt) float64 {
	dx, dy := b[0]-a[0], b[1]-a[1]
	t := 0.0
	if l := dx*dx + dy*dy; l > 0 {
		t = mgl64.Clamp(((p[0]-a[0])*dx+(p[1]-a[1])*dy)/l, 0, 1)
	}
	return math.Hypot(p[0]-a[0]-t*dx, p[1]-a[1]-t*dy)
}

// Picker finds the part under a finger.
type Picker struct {
	outs  []fitment.Outline
	boxes []Extent
	some  []bool // whether the outline has any piece
}

// NewPicker is a picker over outlines that lie back to front as they are
// painted.
func NewPicker(outs []fitment.Outline) Picker {
	p := Picker{outs, make([]Extent, len(outs)), make([]bool, len(outs))}
	for i := range outs {
		p.boxes[i], p.some[i] = ExtentOf(outs[i].Cut, outs[i].Seen)
	}
	return p
}

// Hits are the indices of the outlines p touches, nearest to the eye first;
// when it touches none, the closest within reach (mm), if any.
func (k *Picker) Hits(p fitment.Pt, reach float64) []int {
	var hits []int
	best, found := reach, -1
	for i := len(k.outs) - 1; i >= 0; i-- {
		b := &k.boxes[i]
		if !k.some[i] || p[0] < b.Lo[0]-reach || p[0] > b.Hi[0]+reach || p[1] < b.Lo[1]-reach || p[1] > b.Hi[1]+reach {
			continue
		}
		d := math.Inf(1)
		for _, group := range [2][][]fitment.Pt{k.outs[i].Cut, k.outs[i].Seen} {
			for _, poly := range group {
				d = math.Min(d, Distance(p, poly))
			}
		}
		if d == 0 {
			hits = append(hits, i)
		} else if d < best {
			best, found = d, i
		}
	}
	if len(hits) == 0 && found >= 0 {
		hits = append(hits, found)
	}
	return hits
}

// Handle is a point of an outline a finger can pick it up at: the middle of
// its largest piece. ok is false for an empty outline.
func Handle(o *fitment.Outline) (p fitment.Pt, ok bool) {
	best := -1.0
	for _, group := range [2][][]fitment.Pt{o.Cut, o.Seen} {
		for _, poly := range group {
			if a := math.Abs(Area(poly)); a > best && len(poly) > 0 {
				best, ok = a, true
				p = fitment.Pt{}
				for _, q := range poly {
					p[0] += q[0] / float64(len(poly))
					p[1] += q[1] / float64(len(poly))
				}
			}
		}
		if ok {
			return p, true
		}
	}
	return p, ok
}

// Area is the signed area of a polygon, positive when its corners turn from
// the first axis to the second.
func Area(poly []fitment.Pt) float64 {
	sum := 0.0
	for i, a := range poly {
		b := poly[(i+1)%len(poly)]
		sum += a[0]*b[1] - a[1]*b[0]
	}
	return sum / 2
}
