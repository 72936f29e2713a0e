package trace

import "math"

// Camera is where a photo was taken from, as far as four points tell. A real
// camera has square pixels, and its axis goes through the middle of the
// picture. Then the map from the plane to the picture (px from the middle) is
//
//	H = s · diag(f, f, 1) · (r1 r2 t)
//
// with r1, r2 of length 1 and square to each other: two conditions on H with
// one unknown, the focal length f. The f that fits best is taken; what is left
// is [Camera.MisfitMM]. A cropped picture has its middle elsewhere, and this
// does not hold for it.
type Camera struct {
	FocalPX    float64 // as far as the picture tells: a straight-on photo says little about it
	TiltDeg    float64 // of the camera's axis against the plane's normal
	MisfitMM   float64 // by how much width and height, and the corner between them, disagree with any camera
	FootMM     Pt      // the point of the plane straight below the camera
	DistanceMM float64 // the camera's height over the plane
}

// Focal lengths that are tried, as parts of the picture's diagonal: 12 to
// 170 mm on 35 mm film, whose diagonal is 43.27 mm. A phone's main camera,
// about 26 mm, is where the search leans to when the picture says nothing
// (common practice, no source).
const (
	shortestFocal = 12 / 43.27
	longestFocal  = 170 / 43.27
	usualFocal    = 26 / 43.27
)

// Camera finds the camera of a rectangle's photo; size is the picture's (px).
// ok is false for two ends, which tell nothing of it.
func (f *Fit) Camera(size Pt) (c Camera, ok bool) {
	if !f.corners {
		return c, false
	}
	h := Affine([6]float64{1, 0, -size[0] / 2, 0, 1, -size[1] / 2}).Mul(f.ToPicture)
	diagonal := math.Hypot(size[0], size[1])
	// One pixel over the rectangle's side is as fine as its shape is known.
	lean := 1 / math.Max(float64(f.Share(size)*float64(size[0]*size[1])), 1)
	usual := math.Log(usualFocal * diagonal)
	cost := func(logFocal float64) float64 {
		a, b := misfit(&h, math.Exp2(logFocal*math.Log2E))
		d := logFocal - usual
		return float64(a*a) + float64(b*b) + float64(lean*float64(d*d))
	}
	focal := math.Exp2(math.Log2E * least(cost, math.Log(shortestFocal*diagonal), math.Log(longestFocal*diagonal)))
	a, b := misfit(&h, focal)
	c = pose(&h, focal)
	c.MisfitMM = float64(math.Hypot(a, b) * math.Min(f.Rect()[0], f.Rect()[1]))
	return c, true
}

// columns are the map's columns as a camera of that focal length sees them.
func columns(h *Homography, focal float64) (m [3][3]float64) {
	for c := range 3 {
		m[c] = [3]float64{h[c] / focal, h[3+c] / focal, h[6+c]}
	}
	return m
}

func dot3(a, b [3]float64) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}

// misfit is by how much the first two columns differ in length, as a part of
// their mean, and the cosine of the angle between them: 0 and 0 for a camera.
func misfit(h *Homography, focal float64) (stretch, skew float64) {
	m := columns(h, focal)
	a, b := math.Sqrt(dot3(m[0], m[0])), math.Sqrt(dot3(m[1], m[1]))
	return 2 * (a - b) / (a + b), dot3(m[0], m[1]) / float64(a*b)
}

// pose is where the camera stands and how it looks.
func pose(h *Homography, focal float64) Camera {
	m := columns(h, focal)
	a, b := math.Sqrt(dot3(m[0], m[0])), math.Sqrt(dot3(m[1], m[1]))
	n := [3]float64{
		float64(m[0][1]*m[1][2]) - float64(m[0][2]*m[1][1]),
		float64(m[0][2]*m[1][0]) - float64(m[0][0]*m[1][2]),
		float64(m[0][0]*m[1][1]) - float64(m[0][1]*m[1][0]),
	}
	length, s := math.Sqrt(dot3(n, n)), (a+b)/2
	tilt := math.Acos(math.Min(1, math.Abs(n[2])/length))
	return Camera{
		FocalPX: focal, TiltDeg: tilt * 180 / math.Pi,
		FootMM:     Pt{-dot3(m[0], m[2]) / float64(a*a), -dot3(m[1], m[2]) / float64(b*b)},
		DistanceMM: math.Abs(dot3(n, m[2])) / float64(length*s),
	}
}

// least is where f is smallest between lo and hi: a coarse look, then the
// golden section around the best of it.
func least(f func(float64) float64, lo, hi float64) float64 {
	const steps = 60
	at := func(i int) float64 { return lerp(lo, hi, float64(i)/steps) }
	best := 0
	for i := 1; i <= steps; i++ {
		if f(at(i)) < f(at(best)) {
			best = i
		}
	}
	a, b := at(max(best-1, 0)), at(min(best+1, steps))
	golden := (math.Sqrt(5) - 1) / 2
	for range 40 {
		x, y := b-float64(golden*(b-a)), a+float64(golden*(b-a))
		if f(x) < f(y) {
			b = y
		} else {
			a = x
		}
	}
	return (a + b) / 2
}

// ProudMM is by how much a thing that stands proud of the plane (mm, towards
// the camera) is drawn away from its place, at a point of the plane: it hides
// what lies behind it as seen from the camera, (p − foot)·proud/(distance − proud).
func (c *Camera) ProudMM(at Pt, proud float64) float64 {
	return float64(at.dist(c.FootMM)*proud) / math.Max(c.DistanceMM-proud, 1)
}

// Slip is what it does when every known point is one pixel off in the picture,
// each way of its own: the root of the summed squares (mm). It is the standard
// deviation of the answer when that of a tap is one pixel.
type Slip struct {
	InsideMM float64 // the most at the rectangle's corners, sides and middle, or between the two ends
	AroundMM float64 // the most one more rectangle away to every side, as far as the picture goes; 0: it does not go there
	MisfitMM float64 // of [Camera.MisfitMM]
}

// Slip works out what one pixel does; size is the picture's (px).
func (f *Fit) Slip(size Pt) (s Slip) {
	inside, around := f.probes(size)
	sums := make([]float64, len(inside)+len(around))
	base, _ := f.Camera(size)
	misfits := 0.0
	for i := range f.Known {
		for axis := range 2 {
			g := f.moved(i, axis)
			if g == nil {
				return Slip{math.Inf(1), math.Inf(1), math.Inf(1)}
			}
			for k, px := range append(append([]Pt{}, inside...), around...) {
				p, _ := f.ToPlane.At(px)
				q, _ := g.ToPlane.At(px)
				d := p.dist(q)
				sums[k] += float64(d * d)
			}
			c, _ := g.Camera(size)
			d := c.MisfitMM - base.MisfitMM
			misfits += float64(d * d)
		}
	}
	for k, sum := range sums {
		to := &s.InsideMM
		if k >= len(inside) {
			to = &s.AroundMM
		}
		*to = math.Max(*to, math.Sqrt(sum))
	}
	s.MisfitMM = math.Sqrt(misfits)
	return s
}

// moved is the fit with one known point a pixel further along an axis of the
// picture; nil when there is none.
func (f *Fit) moved(i, axis int) *Fit {
	g := &Fit{corners: f.corners, Known: append([]Known{}, f.Known...)}
	g.Known[i].PX[axis]++
	if !f.corners {
		m, err := Straight(g.Known[0].PX, g.Known[1].PX, f.Known[0].MM.dist(f.Known[1].MM))
		if err != nil {
			return nil
		}
		return m
	}
	if !g.solve() {
		return nil
	}
	return g
}

// probes are the points of the picture where a slip is looked at.
func (f *Fit) probes(size Pt) (inside, around []Pt) {
	if !f.corners {
		return []Pt{f.Known[0].PX, f.Known[1].PX}, nil
	}
	r := f.Rect()
	for i := range 3 {
		for k := range 3 {
			px, _ := f.ToPicture.At(Pt{r[0] * float64(i) / 2, r[1] * float64(k) / 2})
			inside = append(inside, px)
			px, w := f.ToPicture.At(Pt{r[0] * (float64(3*i)/2 - 1), r[1] * (float64(3*k)/2 - 1)})
			if w > horizon && px[0] >= 0 && px[1] >= 0 && px[0] <= size[0] && px[1] <= size[1] && (i != 1 || k != 1) {
				around = append(around, px)
			}
		}
	}
	return inside, around
}
