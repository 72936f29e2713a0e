package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// startOpacity is how strong a new photo is: drawing and photo equally plain.
const startOpacity = 0.6

// photoTake takes a new picture in hand: it is kept until another is taken, and
// put into the document by photo_put only.
func (a *App) photoTake(c *Command, r *Reply) error {
	pic, err := scene.NewPicture(c.Kind, c.Text)
	if err != nil {
		return fmt.Errorf("the picture cannot be kept: expected %w", err)
	}
	if len(a.doc.Photos) >= scene.MaxPhotos {
		return fmt.Errorf("a scene holds at most %d photos; remove one first", scene.MaxPhotos)
	}
	a.photos.fresh = pic
	wide, high := pic.Size()
	d := &PhotoDraft{
		View: viewNames[a.view], Station: a.length(math.Round(a.station*10) / 10), By: "rectangle",
		Points: [][2]float64{}, Known: []PhotoDraftPoint{}, Checks: []PhotoDraftCheck{},
		Turn: "0", Opacity: startOpacity, SizePX: [2]int{wide, high}, Key: pic.Key(), Places: a.photoPlaces(),
	}
	if _, ok := d.Places[d.View]; !ok {
		d.View = string(scene.PhotoSection)
	}
	d.At = d.Places[d.View].At
	text, err := json.Marshal(d)
	r.Text = string(text)
	return err
}

// photoViews are the views a photo may stand behind.
var photoViews = [3]fitment.View{fitment.SectionView, fitment.SideView, fitment.PlanView}

// photoPlaces are the coordinates of those views, and those of their middles.
func (a *App) photoPlaces() map[string]PhotoPlace {
	list := map[string]PhotoPlace{}
	for _, v := range photoViews {
		a.in(v, a.lay.Main, func() {
			proj := a.projection()
			mid := proj.World(a.lay.Main.Middle())
			grid := view.Grid(a.doc.Show, 0)
			list[viewNames[v]] = PhotoPlace{photoAxes(scene.PhotoView(viewNames[v])),
				[2]string{a.length(view.Round(mid[0], grid)), a.length(view.Round(mid[1], grid))}}
		})
	}
	return list
}

// photoTry says how true a photo would be, and changes nothing.
func (a *App) photoTry(c *Command, r *Reply) error {
	p, err := a.draftPhoto(c.Text)
	if err != nil {
		return err
	}
	f, err := fitOf(p)
	if err != nil {
		return err
	}
	text, err := json.Marshal(a.photoReport(p, f, nil))
	r.Text = string(text)
	return err
}

// photoPut puts a photo behind the view, and takes the view to it.
func (a *App) photoPut(c *Command, r *Reply) error {
	p, err := a.draftPhoto(c.Text)
	if err != nil {
		return err
	}
	f, err := fitOf(p)
	if err != nil {
		return err
	}
	if _, ok := (&photoFit{photo: *p, fit: f}).placed(); !ok {
		return errors.New("the point it is placed by lies beyond what can be seen of the plane")
	}
	doc, label, err := scene.PutPhoto(a.doc, *p)
	if err != nil {
		return err
	}
	a.commitPhotos(doc, "", label)
	if p.ID == "" {
		p.ID = doc.Photos[len(doc.Photos)-1].ID
	}
	r.Name = p.ID
	a.toPhoto(doc.PhotoNamed(p.ID))
	return nil
}

// photoGet answers a photo as the page edits it, without its picture.
func (a *App) photoGet(c *Command, r *Reply) error {
	p := a.doc.PhotoNamed(c.Key)
	if p == nil {
		return errors.New("there is no such photo any more")
	}
	text, err := json.Marshal(a.photoDraft(p))
	r.Text = string(text)
	return err
}

// photoSet changes what is set beside the drawing. The moves of one slider are
// one step.
func (a *App) photoSet(c *Command, _ *Reply) error {
	doc, label, err := scene.ChangePhoto(a.doc, c.Key, c.Field, c.Text)
	if err != nil {
		return err
	}
	word := ""
	if c.Field == "opacity" {
		word = "photo opacity " + c.Key
	}
	a.commitPhotos(doc, word, label)
	return nil
}

// commitPhotos makes a document the current one that differs in its photos
// alone: nothing is measured anew for it. Steps of one word are one.
func (a *App) commitPhotos(doc *scene.Document, word, label string) {
	a.doc = doc
	a.hist.DoWithin(word, doc, label)
	a.save()
	a.touch()
}

func (a *App) photoRemove(c *Command, _ *Reply) error {
	doc, label, err := scene.RemovePhoto(a.doc, c.Key)
	if err != nil {
		return err
	}
	a.commitPhotos(doc, "", label)
	return nil
}

// photoShow takes the view to a photo.
func (a *App) photoShow(c *Command, _ *Reply) error {
	p := a.doc.PhotoNamed(c.Key)
	if p == nil {
		return errors.New("there is no such photo any more")
	}
	a.toPhoto(p)
	return nil
}

// photoHold lets a finger on the drawing move a photo, or no longer.
func (a *App) photoHold(c *Command, _ *Reply) error {
	if !c.On {
		a.photos.held = ""
		return nil
	}
	p := a.doc.PhotoNamed(c.Key)
	if p == nil {
		return errors.New("there is no such photo any more")
	}
	a.selectPart("")
	a.photos.held = p.ID
	a.toPhoto(p)
	return nil
}

// toPhoto shows the view and the station a photo stands behind, and brings what
// is known in it into sight.
func (a *App) toPhoto(p *scene.Photo) {
	if err := a.viewCommand(&Command{View: string(p.View)}, nil); err != nil {
		return // a photo's view is one of those there are
	}
	if a.view == fitment.SectionView {
		a.setStation(p.StationMM)
	}
	a.framePhoto(p)
	a.touch()
}

// A photo is shown so that what is known in it fills this part of the sheet,
// where it is off the sheet or this much smaller.
const (
	photoFills = 0.5
	photoSmall = 2.5
)

// framePhoto brings what is known in a photo into sight, large enough to be of use.
func (a *App) framePhoto(p *scene.Photo) {
	var f *photoFit
	fits := a.photoFits()
	for i := range fits {
		if fits[i].photo.ID == p.ID {
			f = &fits[i]
		}
	}
	if f == nil {
		return
	}
	h, ok := f.placed()
	if !ok {
		return // it is not drawn, and its item says why
	}
	lo, hi := fitment.Pt{math.Inf(1), math.Inf(1)}, fitment.Pt{math.Inf(-1), math.Inf(-1)}
	for _, k := range f.fit.Known {
		q, _ := h.At(k.PX)
		for axis := range 2 {
			lo[axis], hi[axis] = math.Min(lo[axis], q[axis]), math.Max(hi[axis], q[axis])
		}
	}
	mid := fitment.Pt{(lo[0] + hi[0]) / 2, (lo[1] + hi[1]) / 2}
	span := math.Max(hi[0]-lo[0], hi[1]-lo[1])
	fills := photoFills * math.Min(a.lay.Main.W, a.lay.Main.H) / span
	proj, cam := a.projection(), a.camera()
	small := cam.PxPerMM*photoSmall < fills
	if small || !a.lay.Main.Inset(20).Contains(proj.Screen(mid)) {
		a.centreOn(mid)
	}
	if small {
		cam.PxPerMM = fills
	}
}
