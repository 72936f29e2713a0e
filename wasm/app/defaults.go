package app

import (
	"math"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// fittedPart puts a new part where one of its kind belongs: a spring or a shock
// onto the nearest axle, an exhaust behind the engine. It returns the document
// with the part, which stands last, so placed, and what to say about it.
func (a *App) fittedPart(doc *scene.Document) (*scene.Document, string) {
	p := &doc.Parts[len(doc.Parts)-1]
	switch p.Kind {
	case "air_spring", "shock":
		return a.onAxle(doc)
	case "exhaust_run":
		return a.behindEngine(doc), ""
	}
	return doc, ""
}

// replacedLast is a document with its last part another one, as long as that is
// valid.
func replacedLast(doc *scene.Document, p scene.Part) *scene.Document {
	c := *doc
	c.Parts = append([]scene.Part(nil), doc.Parts...)
	c.Parts[len(c.Parts)-1] = p
	if c.Validate() != nil {
		return doc
	}
	return &c
}

// onAxle stands a new spring or shock on the nearest axle, its foot under its
// top, half way between its shortest and its longest at ride, out along the
// axle where it keeps its gaps if there is such a place, and joins it to it.
func (a *App) onAxle(doc *scene.Document) (*scene.Document, string) {
	p := doc.Parts[len(doc.Parts)-1]
	p.Size = p.Size.Clone()
	v := &doc.Vehicle
	on, wheel, end, side := scene.FrontAxle, scene.WheelFL, &v.Front, -1.0
	if p.AtMM[0] > v.WheelbaseMM/2 {
		on, wheel, end = scene.RearAxle, scene.WheelRL, &v.Rear
	}
	if p.AtMM[1] > 0 || p.AtMM[1] == 0 && p.Kind == "air_spring" {
		side = 1
	}
	if math.Abs(p.AtMM[1]) < clearOfMiddle || math.Abs(p.AtMM[1]) > end.TrackMM/2-clearOfWheel {
		p.AtMM[1] = side * math.Round(math.Max(clearOfMiddle, math.Min(defaultOut, end.TrackMM/2-clearOfWheel)))
	}
	if end.Independent {
		on = wheel
		if side > 0 {
			on = map[scene.Carrier]scene.Carrier{scene.WheelFL: scene.WheelFR, scene.WheelRL: scene.WheelRR}[wheel]
		}
	}
	origin := a.model.CarrierOrigin(on)
	p.AtMM[0] = round3(origin[0] + p.Size.Num("lower_x_mm"))
	foot := origin[2] + p.Size.Num("lower_z_mm")
	lo, hi := p.Size.Num("shortest_mm"), p.Size.Num("longest_mm")
	if hi <= lo {
		lo, hi = shockLength, shockLength
	}
	if l := p.AtMM[2] - foot; l < lo || l > hi {
		p.AtMM[2] = round3(view.Round(foot+(lo+hi)/2, view.Grid(doc.Show, 0)))
	}
	p.Size["lower_on"] = scene.Value{Text: string(on)}
	best, text, least := doc, "", 3
	for _, y := range [...]float64{p.AtMM[1], side * 360, side * 280, side * 220, side * 500} {
		q := p
		q.Size = p.Size.Clone()
		q.AtMM[1] = y
		q.Size["lower_y_mm"] = scene.Value{Num: round3(y - origin[1])}
		now, said := joinToAxle(replacedLast(doc, q), on)
		if n := a.crowding(now, q.ID); n < least {
			best, text, least = now, said, n
		}
	}
	return best, text
}

// crowding says how a part of a document stands among what it is not joined to,
// at ride: 0 clear of all, 1 too close to some, 2 touching some.
func (a *App) crowding(doc *scene.Document, id string) int {
	m, err := a.model.With(doc)
	if err != nil {
		return 2
	}
	worst := 0
	for _, r := range m.Nearest(id, fitment.StateAt(0, 0), 8) {
		switch r.Status {
		case fitment.Contact:
			return 2
		case fitment.Tight:
			worst = 1
		}
	}
	return worst
}

// Millimetres: how far a spring or shock keeps from the middle of the axle,
// where its housing is, and from the middle of the tyre; how far out it stands
// where the user pointed at neither; how long a shock is at ride. All are
// assumptions to start from.
const (
	clearOfMiddle = 200.0
	clearOfWheel  = 250.0
	defaultOut    = 360.0
	shockLength   = 400.0
)

func round3(mm float64) float64 { return math.Round(mm*1000) / 1000 }

// joinToAxle joins the last part to the axle it stands on, when there is one.
func joinToAxle(doc *scene.Document, on scene.Carrier) (*scene.Document, string) {
	p := &doc.Parts[len(doc.Parts)-1]
	for i := range doc.Parts {
		x := &doc.Parts[i]
		if x.Kind != "axle" || x.Carrier != on {
			continue
		}
		joined, _, err := scene.SetJoined(doc, p.ID, x.ID, true, "mounted on it")
		if err != nil {
			break
		}
		return joined, p.Name + " stands on " + lower(x.Name) + " and is joined to it: mounted on it."
	}
	return doc, ""
}

// behindEngine starts a new exhaust behind the gearbox, or behind the engine,
// beside the driveshaft; without either it stays where it was put. It ends
// within the vehicle.
func (a *App) behindEngine(doc *scene.Document) *scene.Document {
	p := doc.Parts[len(doc.Parts)-1]
	p.Size = p.Size.Clone()
	if at, ok := exhaustStart(doc); ok {
		p.AtMM = at
	}
	room := a.rearEnd() - p.AtMM[0]
	rows := p.Size.Rows("vertices")
	long := rows[len(rows)-1][0]
	if room >= long {
		return replacedLast(doc, p)
	}
	for _, r := range rows {
		r[0] = math.Round(r[0] * room / long)
	}
	p.Size["vertices"] = scene.Value{Rows: rows}
	if short := replacedLast(doc, p); short != doc {
		return short
	}
	// Too little room for its bends: a straight piece to begin with.
	p.Size["vertices"] = scene.Value{Rows: []scene.Row{{0, 0, 0, 0}, {math.Max(math.Round(room), shortestRun), 0, 0, 0}}}
	p.Size["mufflers"] = scene.Value{}
	return replacedLast(doc, p)
}

// shortestRun (mm) is the shortest exhaust that is put down.
const shortestRun = 200.0

// exhaustStart is behind the gearbox, or behind the engine, a hand's breadth
// out and down from its axis.
func exhaustStart(doc *scene.Document) (at scene.Vec, ok bool) {
	for _, kind := range [2]string{"engine", "gearbox"} { // a gearbox stands farther back
		for i := range doc.Parts {
			x := &doc.Parts[i]
			if x.Kind != kind {
				continue
			}
			at, ok = x.AtMM, true
			for _, f := range [3]string{"bell_length_mm", "case_length_mm", "tail_length_mm"} {
				at[0] += x.Size.Num(f)
			}
			at[0], at[1], at[2] = math.Round(at[0]+50), at[1]+200, at[2]-60
		}
	}
	return at, ok
}

// rearEnd is how far back the vehicle reaches: its rearmost part, or its rear
// wheels.
func (a *App) rearEnd() float64 {
	end := a.doc.Vehicle.WheelbaseMM + a.doc.Vehicle.Rear.Tyre.LoadedRadius()
	for _, o := range a.model.Outlines(fitment.SectionView, 0, fitment.StateAt(0, 0)) {
		end = math.Max(end, math.Max(o.Near, o.Far))
	}
	return end
}
