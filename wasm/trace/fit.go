package trace

import (
	"errors"
	"fmt"
	"math"
)

// CornerNames are the corners of a rectangle in the order they are given in.
var CornerNames = [4]string{"lower left", "lower right", "upper right", "upper left"}

// Fit is a photo made true: the maps between its picture and the plane of what
// is known in it.
type Fit struct {
	Known     []Known
	ToPicture Homography // mm → px
	ToPlane   Homography // px → mm
	corners   bool       // a rectangle; otherwise two ends, straight on
}

// Below these, points are refused rather than believed: nobody taps them apart.
const (
	closestPX = 4.0  // px between two points
	flattest  = 0.02 // height of the triangle of three corners against its longest side
)

// Rectangle fits the four corners of a rectangle that is wide by high (mm),
// lower left, lower right, upper right, upper left, and further known points
// measured from its lower left corner. The error is one plain sentence.
func Rectangle(corners [4]Pt, wide, high float64, more []Known) (*Fit, error) {
	if !(wide > 0 && high > 0) || math.IsInf(wide, 0) || math.IsInf(high, 0) {
		return nil, errors.New("the rectangle's width and height must be above 0")
	}
	if err := sound(corners); err != nil {
		return nil, err
	}
	f := &Fit{corners: true, Known: append([]Known{
		{corners[0], Pt{0, 0}}, {corners[1], Pt{wide, 0}}, {corners[2], Pt{wide, high}}, {corners[3], Pt{0, high}}}, more...)}
	if !f.solve() {
		return nil, errors.New("the known points do not go together: one of them is far from where it should be")
	}
	return f, nil
}

// Straight fits two points a known length apart in a photo taken square to the
// plane: turned and scaled alike everywhere. The plane's first axis is the
// picture's, its origin the first point.
func Straight(a, b Pt, length float64) (*Fit, error) {
	if !(length > 0) || math.IsInf(length, 0) {
		return nil, errors.New("the known length must be above 0")
	}
	px := a.dist(b)
	if !(px >= closestPX) {
		return nil, errors.New("the two points stand on each other: put them on the two ends of the known length")
	}
	s := length / px
	f := &Fit{Known: []Known{{a, Pt{}}, {b, Pt{float64((b[0] - a[0]) * s), -float64((b[1] - a[1]) * s)}}}}
	f.ToPlane = Affine([6]float64{s, 0, -float64(s * a[0]), 0, -s, float64(s * a[1])})
	f.ToPicture = Affine([6]float64{1 / s, 0, a[0], 0, -1 / s, a[1]})
	return f, nil
}

// sound refuses corners that are no picture of a rectangle's.
func sound(c [4]Pt) error {
	for i := range c {
		for k := range i {
			if !(c[i].dist(c[k]) >= closestPX) {
				return fmt.Errorf("two corners stand on each other: %s and %s", CornerNames[k], CornerNames[i])
			}
		}
	}
	right := 0
	for i := range c {
		a, b, d := c[i], c[(i+1)%4], c[(i+2)%4]
		longest := max(a.dist(b), b.dist(d), a.dist(d))
		t := turn(a, b, d)
		if math.Abs(t) < float64(flattest*float64(longest*longest)) {
			return fmt.Errorf("three corners stand in a line: %s, %s and %s",
				CornerNames[i], CornerNames[(i+1)%4], CornerNames[(i+2)%4])
		}
		if t < 0 { // y goes down: this is leftwards round, as it should be
			right++
		}
	}
	switch right {
	case 4:
		return nil
	case 0:
		return errors.New("the corners go round the wrong way: left and right, or upper and lower, are exchanged")
	case 2:
		return errors.New("the sides cross: two neighbouring corners are exchanged")
	}
	return errors.New("one corner lies between the other three: no rectangle looks like that")
}

// solve fills in the maps from the known points.
func (f *Fit) solve() bool {
	h, ok := solve(f.Known)
	if !ok {
		return false
	}
	f.ToPicture = h
	var middle Pt
	for _, k := range f.Known {
		if _, w := h.At(k.MM); !(w > 0) {
			return false
		}
		middle[0] += k.PX[0] / float64(len(f.Known))
		middle[1] += k.PX[1] / float64(len(f.Known))
	}
	f.ToPlane, ok = h.inverse(middle)
	for _, k := range f.Known {
		_, w := f.ToPlane.At(k.PX)
		ok = ok && w > 0
	}
	return ok
}

// Residual is how far the known points miss their places in the plane (mm):
// root of the mean square, the largest, and whose it is. With a rectangle's
// four corners, or two ends, it is zero by construction and means nothing: ok
// is false then.
func (f *Fit) Residual() (rms, worst float64, at int, ok bool) {
	if !f.corners || len(f.Known) <= 4 {
		return 0, 0, 0, false
	}
	sum := 0.0
	for i, k := range f.Known {
		p, _ := f.ToPlane.At(k.PX)
		d := p.dist(k.MM)
		sum += float64(d * d)
		if d > worst {
			worst, at = d, i
		}
	}
	return math.Sqrt(sum / float64(len(f.Known))), worst, at, true
}

// Length is how far apart two points of the picture are in the plane (mm); ok
// is false when one of them lies at the horizon or beyond.
func (f *Fit) Length(a, b Pt) (mm float64, ok bool) {
	p, wp := f.ToPlane.At(a)
	q, wq := f.ToPlane.At(b)
	return p.dist(q), wp > horizon && wq > horizon
}

// horizon is the least weight of a point that is still believed: four times
// as far from the camera as the middle of the known points, where a pixel is up
// to sixteen times as long.
const horizon = 0.25

// Rect is the rectangle's width and height (mm); zero for two ends.
func (f *Fit) Rect() Pt {
	if !f.corners {
		return Pt{}
	}
	return f.Known[2].MM
}

// Share is how much of a picture of the given size the rectangle covers, 0 to 1.
func (f *Fit) Share(size Pt) float64 {
	if !f.corners {
		return 0
	}
	sum := 0.0
	for i := range 4 {
		sum += f.Known[i].PX.cross(f.Known[(i+1)%4].PX)
	}
	return math.Abs(sum) / 2 / float64(size[0]*size[1])
}
