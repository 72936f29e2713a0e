package trace

import "math"

// Pt is a point of a picture (px) or of a plane (mm).
type Pt [2]float64

func (p Pt) sub(q Pt) Pt           { return Pt{p[0] - q[0], p[1] - q[1]} }
func (p Pt) mid(q Pt) Pt           { return Pt{(p[0] + q[0]) / 2, (p[1] + q[1]) / 2} }
func (p Pt) dist(q Pt) float64     { return math.Hypot(p[0]-q[0], p[1]-q[1]) }
func (p Pt) cross(q Pt) float64    { return float64(p[0]*q[1]) - float64(p[1]*q[0]) }
func turn(a, b, c Pt) float64      { return b.sub(a).cross(c.sub(a)) }
func lerp(a, b, f float64) float64 { return a + float64((b-a)*f) }

// Homography is a projective map, by rows. Its scale is such that the weight w
// is 1 in the middle of the points it was found from; a point with a weight of
// 0 or less lies on or behind the horizon and has no image.
type Homography [9]float64

// At is where a point goes, with its weight; without a positive weight it goes
// nowhere.
func (h *Homography) At(p Pt) (q Pt, w float64) {
	w = float64(h[6]*p[0]) + float64(h[7]*p[1]) + h[8]
	x := float64(h[0]*p[0]) + float64(h[1]*p[1]) + h[2]
	y := float64(h[3]*p[0]) + float64(h[4]*p[1]) + h[5]
	return Pt{x / w, y / w}, w
}

// Mul is first g, then h.
func (h Homography) Mul(g Homography) (m Homography) {
	for r := range 3 {
		for c := range 3 {
			m[3*r+c] = float64(h[3*r]*g[c]) + float64(h[3*r+1]*g[3+c]) + float64(h[3*r+2]*g[6+c])
		}
	}
	return m
}

// scaled is h with the weight 1 at p; ok is false where p has none.
func (h Homography) scaled(p Pt) (Homography, bool) {
	_, w := h.At(p)
	if w == 0 || math.IsNaN(w) || math.IsInf(w, 0) {
		return h, false
	}
	for i := range h {
		h[i] /= w
	}
	return h, true
}

// inverse is the map back, with the weight 1 at p.
func (h Homography) inverse(p Pt) (Homography, bool) {
	minor := func(a, b, c, d int) float64 { return float64(h[a]*h[d]) - float64(h[b]*h[c]) }
	inv := Homography{
		minor(4, 5, 7, 8), -minor(1, 2, 7, 8), minor(1, 2, 4, 5),
		-minor(3, 5, 6, 8), minor(0, 2, 6, 8), -minor(0, 2, 3, 5),
		minor(3, 4, 6, 7), -minor(0, 1, 6, 7), minor(0, 1, 3, 4),
	}
	return inv.scaled(p)
}

// Affine is the map p → (m0 x + m1 y + m2, m3 x + m4 y + m5).
func Affine(m [6]float64) Homography {
	return Homography{m[0], m[1], m[2], m[3], m[4], m[5], 0, 0, 1}
}

// centred is the map that moves points to their middle and scales them to a
// mean distance of √2 from it, with that middle and the scale.
func centred(pts []Pt) (m Homography, middle Pt, scale float64) {
	for _, p := range pts {
		middle[0] += p[0] / float64(len(pts))
		middle[1] += p[1] / float64(len(pts))
	}
	mean := 0.0
	for _, p := range pts {
		mean += p.dist(middle) / float64(len(pts))
	}
	scale = math.Sqrt2 / mean
	return Affine([6]float64{scale, 0, -float64(scale * middle[0]), 0, scale, -float64(scale * middle[1])}), middle, scale
}

// Known is a point of the picture whose place in the plane is known.
type Known struct{ PX, MM Pt }

// solve finds the map from the plane to the picture. The points must be such
// that one exists: four or more, no three of the first four in a line. ok is
// false when the equations have no single answer.
func solve(known []Known) (toPicture Homography, ok bool) {
	mm, px := make([]Pt, len(known)), make([]Pt, len(known))
	for i, k := range known {
		mm[i], px[i] = k.MM, k.PX
	}
	fromMM, middle, mmScale := centred(mm)
	fromPX, pxMiddle, pxScale := centred(px)
	if !(mmScale > 0 && pxScale > 0) || math.IsInf(mmScale, 0) || math.IsInf(pxScale, 0) {
		return toPicture, false
	}
	for i := range known {
		mm[i], _ = fromMM.At(mm[i])
		px[i], _ = fromPX.At(px[i])
	}
	h, ok := linear(mm, px)
	if ok && len(known) > 4 {
		h = refine(h, mm, px)
	}
	if !ok {
		return toPicture, false
	}
	back := Affine([6]float64{1 / pxScale, 0, pxMiddle[0], 0, 1 / pxScale, pxMiddle[1]})
	return back.Mul(h).Mul(fromMM).scaled(middle)
}

// linear is the direct linear transformation of centred points. Their middle
// is seen, so that its weight is not 0 and may be set to 1.
func linear(mm, px []Pt) (Homography, bool) {
	rows := make([][]float64, 0, 2*len(mm))
	for i, p := range mm {
		x, y := px[i][0], px[i][1]
		rows = append(rows,
			[]float64{p[0], p[1], 1, 0, 0, 0, -float64(x * p[0]), -float64(x * p[1]), x},
			[]float64{0, 0, 0, p[0], p[1], 1, -float64(y * p[0]), -float64(y * p[1]), y})
	}
	s, ok := leastSquares(rows)
	if !ok {
		return Homography{}, false
	}
	return Homography{s[0], s[1], s[2], s[3], s[4], s[5], s[6], s[7], 1}, true
}

// rounds are the steps of [refine]: it starts so close that three would do.
const rounds = 6

// refine makes the sum of the squared distances in the picture least, by
// Gauss–Newton. A step that does not help is not taken.
func refine(h Homography, mm, px []Pt) Homography {
	best := misses(&h, mm, px)
	for range rounds {
		rows := make([][]float64, 0, 2*len(mm))
		for i, p := range mm {
			q, w := h.At(p)
			u, v := p[0]/w, p[1]/w
			rows = append(rows,
				[]float64{u, v, 1 / w, 0, 0, 0, -float64(q[0] * u), -float64(q[0] * v), px[i][0] - q[0]},
				[]float64{0, 0, 0, u, v, 1 / w, -float64(q[1] * u), -float64(q[1] * v), px[i][1] - q[1]})
		}
		step, ok := leastSquares(rows)
		if !ok {
			return h
		}
		next := h
		for k, d := range step {
			next[k] += d
		}
		sum := misses(&next, mm, px)
		if !(sum < best) {
			return h
		}
		h, best = next, sum
	}
	return h
}

// misses is the sum of the squared distances in the picture; infinite when a
// point would lie behind the camera.
func misses(h *Homography, mm, px []Pt) float64 {
	sum := 0.0
	for i, p := range mm {
		q, w := h.At(p)
		if !(w > 0) {
			return math.Inf(1)
		}
		d := q.sub(px[i])
		sum += float64(d[0]*d[0]) + float64(d[1]*d[1])
	}
	return sum
}
