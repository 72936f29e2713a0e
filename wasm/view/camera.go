package view

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
)

// Limits of the zoom, pixels per millimetre: from a whole lorry on a phone to
// a washer across the screen.
const (
	minPxPerMM = 0.02
	maxPxPerMM = 40
)

// Camera looks at a view's ground axes: Centre (mm) stands in the middle of
// the drawing.
type Camera struct {
	Centre  mgl64.Vec2
	PxPerMM float64
}

// Matrix maps ground axes (mm, second axis up) to the screen.
func (c Camera) Matrix(r Rect) mgl64.Mat3 {
	m, k := r.Middle(), c.PxPerMM
	return mgl64.Mat3FromRows(
		mgl64.Vec3{k, 0, m[0] - k*c.Centre[0]},
		mgl64.Vec3{0, -k, m[1] + k*c.Centre[1]},
		mgl64.Vec3{0, 0, 1})
}

// ZoomAbout makes everything larger by factor and keeps what is under the
// screen point p there.
func (c Camera) ZoomAbout(r Rect, p mgl64.Vec2, factor float64) Camera {
	k := mgl64.Clamp(c.PxPerMM*factor, minPxPerMM, maxPxPerMM)
	d := p.Sub(r.Middle())
	s := 1/c.PxPerMM - 1/k
	return Camera{mgl64.Vec2{c.Centre[0] + d[0]*s, c.Centre[1] - d[1]*s}, k}
}

// PanBy moves the picture by d pixels.
func (c Camera) PanBy(d mgl64.Vec2) Camera {
	return Camera{mgl64.Vec2{c.Centre[0] - d[0]/c.PxPerMM, c.Centre[1] + d[1]/c.PxPerMM}, c.PxPerMM}
}

// Fit shows the ground-axes box lo–hi (mm) with room around it: margin pixels
// at the sides and below, twice that above, where the caption stands.
func Fit(r Rect, lo, hi mgl64.Vec2, margin float64) Camera {
	w, h := max(hi[0]-lo[0], 100), max(hi[1]-lo[1], 100)
	k := min((r.W-2*margin)/w, (r.H-3*margin)/h)
	k = mgl64.Clamp(k, minPxPerMM, maxPxPerMM)
	mid := lo.Add(hi).Mul(0.5)
	mid[1] += margin / 2 / k
	return Camera{mid, k}
}

// Projection maps a view's plane in body axes to the screen and back.
type Projection struct{ M, Inv mgl64.Mat3 }

// Project is the projection of a view whose ground is n·p + c = height (see
// [fitment.Model.GroundPlane]); station is the section's X.
func Project(v fitment.View, station float64, n scene.Vec, c float64, cam Camera, r Rect) Projection {
	m := cam.Matrix(r).Mul3(GroundAxes(v, station, n, c))
	return Projection{m, m.Inv()}
}

// GroundAxes maps a view's plane in body axes to its ground axes: the first
// axis level, the second the height over the ground. It turns by the slope of
// the ground in the plane and keeps lengths. The plan stays as it is; the front
// view is turned over, so that the vehicle's right is at the left.
func GroundAxes(v fitment.View, station float64, n scene.Vec, c float64) mgl64.Mat3 {
	slope, rest := n[1], c+n[0]*station
	if v == fitment.SideView {
		slope, rest = n[0], c
	}
	if v == fitment.PlanView {
		return mgl64.Ident3()
	}
	l := math.Hypot(slope, n[2])
	if l == 0 {
		return mgl64.Ident3()
	}
	s, k := slope/l, n[2]/l
	if v == fitment.FrontView {
		return mgl64.Mat3FromRows(
			mgl64.Vec3{-k, s, 0},
			mgl64.Vec3{s, k, c / l},
			mgl64.Vec3{0, 0, 1})
	}
	return mgl64.Mat3FromRows(
		mgl64.Vec3{k, -s, 0},
		mgl64.Vec3{s, k, rest / l},
		mgl64.Vec3{0, 0, 1})
}

// Screen is where a point of the plane stands on the screen.
func (p *Projection) Screen(w fitment.Pt) mgl64.Vec2 {
	return p.M.Mul3x1(mgl64.Vec3{w[0], w[1], 1}).Vec2()
}

// World is the point of the plane under a screen point.
func (p *Projection) World(s mgl64.Vec2) fitment.Pt {
	return fitment.Pt(p.Inv.Mul3x1(mgl64.Vec3{s[0], s[1], 1}).Vec2())
}

// Step is the movement in the plane (mm) of a movement on the screen.
func (p *Projection) Step(d mgl64.Vec2) fitment.Pt {
	return fitment.Pt(p.Inv.Mul3x1(mgl64.Vec3{d[0], d[1], 0}).Vec2())
}

// Axes says which body axes (0 X, 1 Y, 2 Z) a view's plane has, first and
// second.
func Axes(v fitment.View) (first, second int) {
	switch v {
	case fitment.SideView:
		return 0, 2
	case fitment.PlanView:
		return 0, 1
	}
	return 1, 2
}

// Drop is a point of the body projected into a view's plane.
func Drop(v fitment.View, p scene.Vec) fitment.Pt {
	a, b := Axes(v)
	return fitment.Pt{p[a], p[b]}
}

// Lift is a movement in a view's plane as a movement in body axes.
func Lift(v fitment.View, d fitment.Pt) scene.Vec {
	var m scene.Vec
	a, b := Axes(v)
	m[a], m[b] = d[0], d[1]
	return m
}
