package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

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

// toPhoto shows the view and the station a photo stands behind, and the point
// it is placed by where that is off the sheet.
func (a *App) toPhoto(p *scene.Photo) {
	if err := a.viewCommand(&Command{View: string(p.View)}, nil); err != nil {
		return // a photo's view is one of those there are
	}
	if a.view == fitment.SectionView {
		a.setStation(p.StationMM)
	}
	proj := a.projection()
	at := fitment.Pt(p.AtMM)
	if !a.lay.Main.Inset(20).Contains(proj.Screen(at)) {
		a.centreOn(at)
	}
	a.touch()
}

// photoDraft is a photo as the page edits it.
func (a *App) photoDraft(p *scene.Photo) *PhotoDraft {
	wide, high := p.Picture.Size()
	d := &PhotoDraft{
		ID: p.ID, Name: p.Name, View: string(p.View), Station: a.length(p.StationMM), By: "rectangle",
		Known: []PhotoDraftPoint{}, Checks: []PhotoDraftCheck{},
		AtPX: p.AtPX, At: [2]string{a.length(p.AtMM[0]), a.length(p.AtMM[1])},
		Turn: plainNumber(p.TurnDeg), Mirrored: p.Mirrored, Opacity: p.Opacity, Hidden: p.Hidden,
		SizePX: [2]int{wide, high}, Key: p.Picture.Key(), Places: a.photoPlaces(),
	}
	if p.Rectangle() {
		d.Wide, d.High = a.length(p.WideMM), a.length(p.HighMM)
		for _, c := range p.Corners {
			d.Points = append(d.Points, c)
		}
	} else {
		d.By, d.Length = "length", a.length(p.LengthMM)
		d.Points = append(d.Points, p.Ends[0], p.Ends[1])
	}
	for _, k := range p.Known {
		d.Known = append(d.Known, PhotoDraftPoint{k.PX, a.length(k.MM[0]), a.length(k.MM[1])})
	}
	for _, k := range p.Checks {
		d.Checks = append(d.Checks, PhotoDraftCheck{k.From, k.To, a.length(k.LengthMM)})
	}
	return d
}

// draftReader reads what was typed and keeps the first fault.
type draftReader struct {
	show scene.Units
	err  error
}

// length reads a length as typed; what names it, for the sentence.
func (r *draftReader) length(text, what string) float64 {
	if r.err != nil {
		return 0
	}
	if strings.TrimSpace(text) == "" {
		r.err = errors.New("type " + what)
		return 0
	}
	mm, err := scene.ParseLength(text, r.show)
	if err != nil {
		r.err = fmt.Errorf("%s: %w", upper(what), err)
	}
	return mm
}

// above is a length that must be above 0.
func (r *draftReader) above(text, what string) float64 {
	mm := r.length(text, what)
	if r.err == nil && !(mm > 0) {
		r.err = fmt.Errorf("%s must be above 0", upper(what))
	}
	return mm
}

// draftPhoto reads what the page sends as a photo.
func (a *App) draftPhoto(text string) (*scene.Photo, error) {
	var d PhotoDraft
	if err := json.Unmarshal([]byte(text), &d); err != nil {
		return nil, fmt.Errorf("the page sent a photo that cannot be read: %w", err)
	}
	p := &scene.Photo{ID: d.ID, Name: strings.TrimSpace(d.Name), View: scene.PhotoView(d.View),
		AtPX: d.AtPX, Mirrored: d.Mirrored, Opacity: d.Opacity, Hidden: d.Hidden}
	if err := a.draftPicture(p, &d); err != nil {
		return nil, err
	}
	r := &draftReader{show: a.doc.Show}
	d.truth(p, r)
	if p.View == scene.PhotoSection {
		p.StationMM = r.length(d.Station, "the station it is of")
	}
	axes := photoAxes(p.View)
	for k := range 2 {
		p.AtMM[k] = r.length(d.At[k], "where its point lies, "+lower(axes[k]))
	}
	if r.err == nil && strings.TrimSpace(d.Turn) != "" {
		p.TurnDeg, r.err = scene.ParseAngle(d.Turn)
	}
	return p, r.err
}

// draftPicture finds the picture of a photo that is being edited, or the one
// that was taken last.
func (a *App) draftPicture(p *scene.Photo, d *PhotoDraft) error {
	if old := a.doc.PhotoNamed(d.ID); old != nil && d.ID != "" {
		p.Picture = old.Picture
		return nil
	}
	p.ID = ""
	if p.Picture = a.photos.fresh; p.Picture == nil || p.Picture.Key() != d.Key {
		return errors.New("the picture is not there any more; take or choose it again")
	}
	return nil
}

// truth reads what makes a photo true.
func (d *PhotoDraft) truth(p *scene.Photo, r *draftReader) {
	want := 4
	if d.By == "length" {
		want = 2
	}
	if len(d.Points) != want {
		r.err = fmt.Errorf("name all %d points in the picture first", want)
		return
	}
	wide, high := p.Picture.Size()
	inside := func(q [2]float64) scene.Spot {
		return scene.Spot{math.Max(0, math.Min(float64(wide), q[0])), math.Max(0, math.Min(float64(high), q[1]))}
	}
	p.AtPX = inside(p.AtPX)
	if want == 2 {
		p.Ends = [2]scene.Spot{inside(d.Points[0]), inside(d.Points[1])}
		p.LengthMM = r.above(d.Length, "the length between the two ends")
	} else {
		for k := range p.Corners {
			p.Corners[k] = inside(d.Points[k])
		}
		p.WideMM, p.HighMM = r.above(d.Wide, "the rectangle's width"), r.above(d.High, "the rectangle's height")
		for i, k := range d.Known {
			name := "further point " + strconv.Itoa(i+1)
			p.Known = append(p.Known, scene.PhotoPoint{PX: inside(k.PX),
				MM: scene.Spot{r.length(k.Right, "how far right "+name+" lies"), r.length(k.Up, "how far up "+name+" lies")}})
		}
	}
	for i, k := range d.Checks {
		p.Checks = append(p.Checks, scene.PhotoCheck{From: inside(k.From), To: inside(k.To),
			LengthMM: r.above(k.Length, "known length "+strconv.Itoa(i+1))})
	}
}
