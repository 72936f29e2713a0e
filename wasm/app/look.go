package app

import (
	"encoding/json"
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/wasm/draw"
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

// Frames is how many pictures were composed.
func (a *App) Frames() int { return a.frames }

// Look tells where things are on the canvas.
func (a *App) Look() *Look {
	k := a.lay
	st, t := a.staff(), &a.travel
	l := &Look{
		Frames: a.frames, Main: rect4(k.Main), Staff: rect4(k.Staff), Strip: rect4(k.Strip),
		PxPerMM: a.camera().PxPerMM, Selected: a.selected, StationMM: a.station,
		FrontMM: a.front, RearMM: a.rear, View: viewNames[a.view],
		Flag: a.stripSheet().Flag().Middle(), Parts: map[string][2]float64{},
	}
	l.Saddle = st.Saddle(t.Coord(a.front, a.rear)).Middle()
	l.SaddleF = l.Saddle
	if a.apart {
		l.Saddle, l.SaddleF = st.SaddleRear(a.rear).Middle(), st.SaddleFront(a.front).Middle()
	}
	l.Picked, l.Guides = a.stillPicked(), []string{}
	for _, g := range a.hand.on {
		l.Guides = append(l.Guides, g.Name)
	}
	l.TurnDeg = [2]float64{a.turned.cam.Yaw * 180 / math.Pi, a.turned.cam.Pitch * 180 / math.Pi}
	l.Showing, l.Small, l.Panes, l.Holds = a.showingWord(), rect4(k.Small), map[string][4]float64{}, a.holds()
	if list, ok := a.panes(); ok && a.showing == four {
		for v, r := range list {
			l.Panes[viewNames[fitment.View(v)]] = rect4(r)
		}
	}
	if a.checked != nil {
		l.Findings = len(a.findingItems())
	}
	proj, marks := a.projection(), a.marks()
	for k := range l.Plane {
		l.Plane[k] = proj.M.At(k/3, k%3)
	}
	for _, o := range a.outs() {
		if p, ok := a.pickPoint(&o, proj, marks); ok {
			l.Parts[a.doc.Parts[o.Part].ID] = p
		}
	}
	return l
}

func rect4(r view.Rect) [4]float64 { return [4]float64{r.X, r.Y, r.W, r.H} }

// pickTries is how many corners of a part are tried after its middle.
const pickTries = 24

// pickPoint is a screen point of the main view where a tap picks a part up.
func (a *App) pickPoint(o *fitment.Outline, proj view.Projection, marks []draw.Mark) (mgl64.Vec2, bool) {
	picks := func(p fitment.Pt) (mgl64.Vec2, bool) {
		s := proj.Screen(p)
		if !a.lay.Main.Inset(4).Contains(s) || markIn(marks, proj, s) != "" {
			return s, false
		}
		hits := a.partsAt(p)
		return s, len(hits) > 0 && hits[0] == o.Part
	}
	if h, ok := view.Handle(o); ok {
		if s, ok := picks(h); ok {
			return s, true
		}
	}
	tries := 0
	for _, group := range [2][][]fitment.Pt{o.Cut, o.Seen} {
		for _, piece := range group {
			for _, p := range piece {
				if tries++; tries > pickTries {
					return mgl64.Vec2{}, false
				}
				if s, ok := picks(p); ok {
					return s, true
				}
			}
		}
	}
	return mgl64.Vec2{}, false
}
