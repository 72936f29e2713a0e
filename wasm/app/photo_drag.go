package app

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
)

// heldPhoto is the photo a finger moves, when it stands behind the view shown.
// Who selects a part has that in hand, and lets go of the photo.
func (a *App) heldPhoto() *scene.Photo {
	if a.selected != "" {
		a.photos.held = ""
	}
	if a.photos.held == "" {
		return nil
	}
	p := a.doc.PhotoNamed(a.photos.held)
	if p == nil || p.Hidden || !a.stands(p) {
		return nil
	}
	return p
}

// pickUpPhoto begins to move the held photo.
func (a *App) pickUpPhoto(p *scene.Photo) {
	h := &a.hand
	h.mode, h.before = dragPhoto, a.doc
	h.photoAt = fitment.Pt(p.AtMM)
}

// photoTo moves the held photo after the finger, to tenths of a millimetre.
func (a *App) photoTo(f *finger) {
	h := &a.hand
	proj := a.projection()
	d := proj.Step(mgl64.Vec2(f.now.Sub(f.start)))
	tenth := func(v float64) float64 { return math.Round(v*10)/10 + 0 }
	doc, _, err := scene.MovePhoto(h.before, a.photos.held, scene.Spot{tenth(h.photoAt[0] + d[0]), tenth(h.photoAt[1] + d[1])})
	if err != nil {
		a.say(sentence(err.Error()))
		return
	}
	a.doc = doc
	a.touch()
}

// dropPhoto makes where the photo was moved a step.
func (a *App) dropPhoto() {
	if p := a.doc.PhotoNamed(a.photos.held); p != nil && a.doc != a.hand.before {
		a.commitPhotos(a.doc, "", "moved the photo "+p.Name)
	}
	a.hand.before = nil
}
