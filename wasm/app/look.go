package app

import (
	"encoding/json"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// LookJSON is [App.Look] as JSON.
func (a *App) LookJSON() string {
	text, err := json.Marshal(a.Look())
	if err != nil {
		return "{}" // plain strings and finite numbers always marshal
	}
	return string(text)
}

// Look tells where things are on the canvas.
func (a *App) Look() *Look {
	k := a.lay
	st, t := a.staff(), &a.travel
	l := &Look{
		Frames: a.frames, Main: four(k.Main), Staff: four(k.Staff), Strip: four(k.Strip),
		PxPerMM: a.camera().PxPerMM, Selected: a.selected, StationMM: a.station,
		FrontMM: a.front, RearMM: a.rear, View: viewNames[a.view],
		Flag: a.stripSheet().Flag().Middle(), Parts: map[string][2]float64{},
	}
	l.Saddle = st.Saddle(t.Coord(a.front, a.rear)).Middle()
	l.SaddleF = l.Saddle
	if a.apart {
		l.Saddle, l.SaddleF = st.SaddleRear(a.rear).Middle(), st.SaddleFront(a.front).Middle()
	}
	if a.checked != nil {
		l.Findings = len(a.findingItems())
	}
	for i := range a.doc.Parts {
		if p, ok := a.pickPoint(i); ok {
			l.Parts[a.doc.Parts[i].ID] = p
		}
	}
	return l
}

func four(r view.Rect) [4]float64 { return [4]float64{r.X, r.Y, r.W, r.H} }

// pickPoint is a screen point of the main view where a tap picks part i up.
func (a *App) pickPoint(i int) (mgl64.Vec2, bool) {
	proj := a.projection()
	try := func(p fitment.Pt) (mgl64.Vec2, bool) {
		s := proj.Screen(p)
		return s, a.lay.Main.Inset(4).Contains(s) && a.markAt(s) == "" && a.partAt(s) == i
	}
	for _, o := range a.outs() {
		if o.Part != i {
			continue
		}
		if h, ok := view.Handle(&o); ok {
			if s, ok := try(h); ok {
				return s, true
			}
		}
		for _, group := range [2][][]fitment.Pt{o.Cut, o.Seen} {
			for _, piece := range group {
				for _, p := range piece {
					if s, ok := try(p); ok {
						return s, true
					}
				}
			}
		}
	}
	return mgl64.Vec2{}, false
}
