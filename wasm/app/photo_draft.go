package app

import (
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"scrubline/scene"
)

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

// entryError is what is wrong with one entry of a draft.
type entryError struct {
	field string
	error
}

func (e *entryError) Unwrap() error { return e.error }

// draftReader reads what was typed and keeps the first fault.
type draftReader struct {
	show scene.Units
	err  error
}

// length reads a length as typed; field is its entry, what names it for the
// sentence.
func (r *draftReader) length(text, field, what string) float64 {
	if r.err != nil {
		return 0
	}
	if strings.TrimSpace(text) == "" {
		r.err = &entryError{field, errors.New("type " + what)}
		return 0
	}
	mm, err := scene.ParseLength(text, r.show)
	if err != nil {
		r.err = &entryError{field, fmt.Errorf("%s: %w", upper(what), err)}
	}
	return mm
}

// above is a length that must be above 0.
func (r *draftReader) above(text, field, what string) float64 {
	mm := r.length(text, field, what)
	if r.err == nil && !(mm > 0) {
		r.err = &entryError{field, fmt.Errorf("%s must be above 0", upper(what))}
	}
	return mm
}

// angle reads degrees; nothing typed is none.
func (r *draftReader) angle(text, field, what string) float64 {
	if r.err != nil || strings.TrimSpace(text) == "" {
		return 0
	}
	deg, err := scene.ParseAngle(text)
	if err != nil {
		r.err = &entryError{field, fmt.Errorf("%s: %w", upper(what), err)}
	}
	return deg
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
		p.StationMM = r.length(d.Station, "station", "the station it is of")
	}
	axes := photoAxes(p.View)
	for k := range 2 {
		p.AtMM[k] = r.length(d.At[k], "at/"+strconv.Itoa(k), "where its point lies, "+lower(axes[k]))
	}
	p.TurnDeg = r.angle(d.Turn, "turn", "how far it is turned")
	if old := a.doc.PhotoNamed(p.ID); old != nil {
		a.keepUntyped(p, old)
	}
	return p, r.err
}

// keepUntyped leaves every length as it was that reads as it did: shown in
// sixteenths it had lost a little.
func (a *App) keepUntyped(p, old *scene.Photo) {
	keep := func(now *float64, was float64) {
		if a.length(*now) == a.length(was) {
			*now = was
		}
	}
	keep(&p.StationMM, old.StationMM)
	keep(&p.WideMM, old.WideMM)
	keep(&p.HighMM, old.HighMM)
	keep(&p.LengthMM, old.LengthMM)
	for k := range 2 {
		keep(&p.AtMM[k], old.AtMM[k])
	}
	for i := range min(len(p.Known), len(old.Known)) {
		for k := range 2 {
			keep(&p.Known[i].MM[k], old.Known[i].MM[k])
		}
	}
	for i := range min(len(p.Checks), len(old.Checks)) {
		keep(&p.Checks[i].LengthMM, old.Checks[i].LengthMM)
	}
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
		p.LengthMM = r.above(d.Length, "length", "the length between the two ends")
	} else {
		for k := range p.Corners {
			p.Corners[k] = inside(d.Points[k])
		}
		p.WideMM, p.HighMM = r.above(d.Wide, "wide", "the rectangle's width"), r.above(d.High, "high", "the rectangle's height")
		for i, k := range d.Known {
			name, field := "further point "+strconv.Itoa(i+1), "known/"+strconv.Itoa(i)
			p.Known = append(p.Known, scene.PhotoPoint{PX: inside(k.PX),
				MM: scene.Spot{r.length(k.Right, field+"/right", "how far right "+name+" lies"), r.length(k.Up, field+"/up", "how far up "+name+" lies")}})
		}
	}
	for i, k := range d.Checks {
		p.Checks = append(p.Checks, scene.PhotoCheck{From: inside(k.From), To: inside(k.To),
			LengthMM: r.above(k.Length, "checks/"+strconv.Itoa(i), "known length "+strconv.Itoa(i+1))})
	}
}
