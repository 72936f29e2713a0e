package view

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/scene"
)

// Turn looks at everything from anywhere, without perspective. The eye stands
// far off in a direction: Yaw radians from the rear (X) towards the right (Y),
// Pitch radians above the level. Centre (mm, body axes) stands in the middle of
// the drawing, moved by Pan (CSS pixels).
type Turn struct {
	Yaw, Pitch float64
	Centre     scene.Vec
	PxPerMM    float64
	Pan        mgl64.Vec2
}

// perPixel is how far one pixel of a finger's way turns, radians: across a
// tablet's drawing is about once around.
const perPixel = 0.009

// Rows is the turn as a matrix: a row for the direction to the right on the
// screen, one for up, one towards the eye. With e the direction to the eye and
// z up: right = z × e, up = e × right.
func (t *Turn) Rows() mgl64.Mat3 {
	sy, cy := math.Sincos(t.Yaw)
	sp, cp := math.Sincos(t.Pitch)
	e := mgl64.Vec3{cp * cy, cp * sy, sp}
	right := mgl64.Vec3{-sy, cy, 0}
	return mgl64.Mat3FromRows(right, e.Cross(right), e)
}

// Screen is where a point of the body stands in a rectangle, and how near it is
// to the eye: larger is nearer, mm.
func (t *Turn) Screen(r Rect, p scene.Vec) (mgl64.Vec2, float64) {
	q := t.Rows().Mul3x1(mgl64.Vec3{p[0] - t.Centre[0], p[1] - t.Centre[1], p[2] - t.Centre[2]})
	m := r.Middle().Add(t.Pan)
	return mgl64.Vec2{m[0] + t.PxPerMM*q[0], m[1] - t.PxPerMM*q[1]}, q[2]
}

// By turns with a finger's movement: what the finger holds goes with it.
func (t Turn) By(d mgl64.Vec2) Turn {
	t.Yaw = math.Remainder(t.Yaw-d[0]*perPixel, 2*math.Pi)
	t.Pitch = mgl64.Clamp(t.Pitch+d[1]*perPixel, -math.Pi/2, math.Pi/2)
	return t
}

// ZoomAbout makes everything larger by a factor and keeps what is under p there.
func (t Turn) ZoomAbout(r Rect, p mgl64.Vec2, factor float64) Turn {
	k := mgl64.Clamp(t.PxPerMM*factor, minPxPerMM, maxPxPerMM)
	d := p.Sub(r.Middle())
	t.Pan = d.Sub(d.Sub(t.Pan).Mul(k / t.PxPerMM))
	t.PxPerMM = k
	return t
}

// Fit shows the box lo–hi whole, as it is turned now.
func (t Turn) Fit(r Rect, lo, hi scene.Vec, margin float64) Turn {
	t.Pan = mgl64.Vec2{}
	for k := range lo {
		t.Centre[k] = (lo[k] + hi[k]) / 2
	}
	t.PxPerMM = 1
	w, h := 100.0, 100.0
	for i := range 8 {
		p := lo
		for k := range p {
			if i>>k&1 == 1 {
				p[k] = hi[k]
			}
		}
		s, _ := t.Screen(Rect{}, p)
		w, h = math.Max(w, 2*math.Abs(s[0])), math.Max(h, 2*math.Abs(s[1]))
	}
	t.PxPerMM = mgl64.Clamp(math.Min((r.W-2*margin)/w, (r.H-2*margin)/h), minPxPerMM, maxPxPerMM)
	return t
}
