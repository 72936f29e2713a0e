package app

import (
	"fmt"
	"math"
	"reflect"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/trace"
	"scrubline/wasm/view"
)

// photoWithin is how far from its station (mm) a photo still stands behind the
// section: it shows what is there, not what is a foot further on.
const photoWithin = 150.0

// photoOffPX is how far a photo's triangles may be from its perspective, CSS
// pixels: half a device pixel of a dense screen.
const photoOffPX = 0.25

// photos is what the sketcher knows of the document's photos: how each is made
// true, worked out once for each change of it, and which pictures the page has
// handed over.
type photos struct {
	of    *scene.Document // what fits are of
	fits  []photoFit
	held  string            // the photo a finger moves
	fresh *scene.Picture    // taken, not yet put in
	have  map[string]bool   // pictures that are there to paint, by key
	come  map[string]Pixels // handed over and not yet taken by the painter
}

// Pixels is a decoded picture: four bytes a pixel, red, green, blue, alpha.
type Pixels struct {
	W, H int
	RGBA []byte
}

// photoFit is one photo made true, or why it is not.
type photoFit struct {
	photo  scene.Photo
	units  scene.Units
	fit    *trace.Fit
	err    error
	report PhotoReport

	// The mesh last laid, and what for.
	screen trace.Homography
	rect   view.Rect
	mesh   *trace.Mesh
}

func photoPt(p scene.Spot) trace.Pt { return trace.Pt(p) }

// fitOf makes a photo true.
func fitOf(p *scene.Photo) (*trace.Fit, error) {
	if !p.Rectangle() {
		return trace.Straight(photoPt(p.Ends[0]), photoPt(p.Ends[1]), p.LengthMM)
	}
	var corners [4]trace.Pt
	for i := range corners {
		corners[i] = photoPt(p.Corners[i])
	}
	var known []trace.Known
	for _, k := range p.Known {
		known = append(known, trace.Known{PX: photoPt(k.PX), MM: photoPt(k.MM)})
	}
	return trace.Rectangle(corners, p.WideMM, p.HighMM, known)
}

// photoFits are the document's photos in its order.
func (a *App) photoFits() []photoFit {
	s := &a.photos
	if s.of == a.doc {
		return s.fits
	}
	old := s.fits
	s.of, s.fits = a.doc, make([]photoFit, len(a.doc.Photos))
	for i := range a.doc.Photos {
		s.fits[i] = a.photoFitOf(&a.doc.Photos[i], old)
	}
	if a.doc.PhotoNamed(s.held) == nil {
		s.held = ""
	}
	return s.fits
}

// photoFitOf is a photo made true; what was worked out before for the same
// points is kept.
func (a *App) photoFitOf(p *scene.Photo, old []photoFit) photoFit {
	for i := range old {
		f := &old[i]
		if f.photo.ID == p.ID && f.units == a.doc.Show && sameTruth(&f.photo, p) {
			kept := *f
			kept.photo = *p
			return kept
		}
	}
	f := photoFit{photo: *p, units: a.doc.Show}
	f.fit, f.err = fitOf(p)
	f.report = a.photoReport(p, f.fit, f.err)
	return f
}

// sameTruth says whether two photos are made true in the same way: then their
// fits and what is said of them are the same, wherever they lie.
func sameTruth(p, q *scene.Photo) bool {
	return p.Picture == q.Picture && p.Corners == q.Corners && p.Ends == q.Ends &&
		p.WideMM == q.WideMM && p.HighMM == q.HighMM && p.LengthMM == q.LengthMM &&
		reflect.DeepEqual(p.Known, q.Known) && reflect.DeepEqual(p.Checks, q.Checks)
}

// placed is the map from a photo's picture to its view's plane (mm). ok is
// false when the point it is placed by has no place in it.
func (f *photoFit) placed() (h trace.Homography, ok bool) {
	if f.fit == nil {
		return h, false
	}
	p := &f.photo
	from, w := f.fit.ToPlane.At(photoPt(p.AtPX))
	if !(w > 0) {
		return h, false
	}
	sin, cos := math.Sincos(p.TurnDeg * math.Pi / 180)
	m := 1.0
	if p.Mirrored {
		m = -1
	}
	return trace.Affine([6]float64{
		float64(cos * m), -sin, p.AtMM[0] - float64(float64(cos*m)*from[0]) + float64(sin*from[1]),
		float64(sin * m), cos, p.AtMM[1] - float64(float64(sin*m)*from[0]) - float64(cos*from[1]),
	}).Mul(f.fit.ToPlane), true
}

// stands says whether a photo stands behind the view as it is now.
func (a *App) stands(p *scene.Photo) bool {
	return viewNames[a.view] == string(p.View) && a.showing != turning && (a.view != fitment.SectionView || a.atStation(p))
}

// atStation says whether the section stands at a photo's station.
func (a *App) atStation(p *scene.Photo) bool { return math.Abs(a.station-p.StationMM) <= photoWithin }

// photosHere are the photos behind the main view, in the document's order.
func (a *App) photosHere() []draw.Photo {
	if len(a.doc.Photos) == 0 {
		return nil
	}
	var list []draw.Photo
	proj := a.projection()
	fits := a.photoFits()
	for i := range fits {
		f := &fits[i]
		if f.photo.Hidden || !a.stands(&f.photo) || !a.photos.have[f.photo.Picture.Key()] {
			continue
		}
		if mesh := f.lay(&proj, a.lay.Main); mesh != nil {
			list = append(list, draw.Photo{Key: f.photo.Picture.Key(), Opacity: f.photo.Opacity, Mesh: mesh})
		}
	}
	return list
}

// lay lays the photo out on the screen, once for each way it lies there.
func (f *photoFit) lay(proj *view.Projection, r view.Rect) *trace.Mesh {
	h, ok := f.placed()
	if !ok {
		return nil
	}
	screen := affine(proj.M).Mul(h)
	if f.mesh == nil || f.screen != screen || f.rect != r {
		wide, high := f.photo.Picture.Size()
		f.screen, f.rect = screen, r
		f.mesh = trace.Lay(screen, trace.Pt{float64(wide), float64(high)},
			trace.Pt{r.X, r.Y}, trace.Pt{r.X + r.W, r.Y + r.H}, photoOffPX)
	}
	return f.mesh
}

func affine(m mgl64.Mat3) trace.Homography {
	return trace.Affine([6]float64{m.At(0, 0), m.At(0, 1), m.At(0, 2), m.At(1, 0), m.At(1, 1), m.At(1, 2)})
}

// PictureURL is a picture of the document as an address the page can decode;
// empty when there is none of that key.
func (a *App) PictureURL(key string) string {
	for i := range a.doc.Photos {
		if p := a.doc.Photos[i].Picture; p.Key() == key {
			return "data:" + p.Kind() + ";base64," + p.Base64()
		}
	}
	return ""
}

// GivePicture takes a decoded picture of the document from the page, four bytes
// a pixel. The error says why it is not of use.
func (a *App) GivePicture(key string, w, h int, rgba []byte) error {
	for i := range a.doc.Photos {
		p := a.doc.Photos[i].Picture
		if p.Key() != key {
			continue
		}
		if wide, high := p.Size(); w != wide || h != high || len(rgba) != 4*w*h {
			return fmt.Errorf("the picture of %s came out %d by %d, not %d by %d", a.doc.Photos[i].Name, w, h, wide, high)
		}
		s := &a.photos
		if s.have == nil {
			s.have, s.come = map[string]bool{}, map[string]Pixels{}
		}
		s.have[key], s.come[key] = true, Pixels{w, h, rgba}
		a.touch()
		return nil
	}
	return nil // it was taken away meanwhile
}

// TakePixels hands a decoded picture to the painter, once.
func (a *App) TakePixels(key string) (Pixels, bool) {
	p, ok := a.photos.come[key]
	delete(a.photos.come, key)
	return p, ok
}

// KeepPicture says whether the document still has a picture. When it does not,
// the painter drops it, and it is asked for again if it comes back.
func (a *App) KeepPicture(key string) bool {
	for i := range a.doc.Photos {
		if a.doc.Photos[i].Picture.Key() == key {
			return true
		}
	}
	delete(a.photos.have, key)
	delete(a.photos.come, key)
	return false
}

// photoItems are the document's photos for the page.
func (a *App) photoItems() []PhotoItem {
	list := []PhotoItem{}
	fits := a.photoFits()
	a.heldPhoto() // lets go where a part is selected
	for i := range fits {
		p := &fits[i].photo
		it := PhotoItem{
			ID: p.ID, Name: p.Name, Where: a.photoWhere(p), Key: p.Picture.Key(),
			Opacity: p.Opacity, Hidden: p.Hidden, Here: a.stands(p), Held: a.photos.held == p.ID,
			Lines: fits[i].report.Lines, Warnings: fits[i].report.Warnings,
			At: [2]string{a.measured(p.AtMM[0]), a.measured(p.AtMM[1])}, Axes: photoAxes(p.View), Turn: plainNumber(p.TurnDeg),
		}
		it.Here = it.Here || a.showing == four && (p.View != scene.PhotoSection || a.atStation(p))
		it.Wanted = it.Here && !it.Hidden && !a.photos.have[it.Key]
		if _, ok := fits[i].placed(); !ok {
			why := "The point it is placed by lies beyond what can be seen of the plane."
			if fits[i].err != nil {
				why = sentence(fits[i].err.Error())
			}
			it.Warnings = []string{why + " It is not drawn: change it."}
		}
		list = append(list, it)
	}
	return list
}
