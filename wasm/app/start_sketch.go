package app

import (
	"math"
	"strconv"

	"scrubline/scene"
)

// Sketch is a drawing beside the questions: outlines and dimensions in
// millimetres of the drawing, to the right and up. The page fits it into its
// place and keeps lines and letters at their size.
type Sketch struct {
	Words string       `json:"words"` // what it shows, for those who do not see it
	Lines []SketchLine `json:"lines"`
	Dims  []SketchDim  `json:"dims"`
}

// SketchLine is a line or an outline. Of a circle Pts is its middle and R its
// radius.
type SketchLine struct {
	Kind   string       `json:"kind"` // cut, seen, hidden, axis, ground, bar, on_body, on_axle, break
	Pts    [][2]float64 `json:"pts"`
	Closed bool         `json:"closed"`
	R      float64      `json:"r"`
	On     bool         `json:"on"` // belongs to the question at hand
}

// SketchDim is a dimension between two points, measured along its way.
type SketchDim struct {
	Ask  string     `json:"ask"` // the question it is the answer to
	From [2]float64 `json:"from"`
	To   [2]float64 `json:"to"`
	Way  string     `json:"way"`  // h or v
	Side int        `json:"side"` // which way the dimension line stands off: -1 below or left, 1 above or right
	Text string     `json:"text"`
	On   bool       `json:"on"`
}

// sketcher draws one.
type sketcher struct {
	*Sketch
	app   *App
	b     *scene.Begun
	focus string
}

func (k *sketcher) line(kind string, pts ...[2]float64) {
	k.Lines = append(k.Lines, SketchLine{Kind: kind, Pts: pts})
}

func (k *sketcher) outline(kind string, pts ...[2]float64) {
	k.Lines = append(k.Lines, SketchLine{Kind: kind, Pts: pts, Closed: true})
}

func (k *sketcher) box(kind string, x, y, w, h float64) {
	k.outline(kind, [2]float64{x, y}, [2]float64{x + w, y}, [2]float64{x + w, y + h}, [2]float64{x, y + h})
}

func (k *sketcher) circle(kind string, x, y, r float64) {
	k.Lines = append(k.Lines, SketchLine{Kind: kind, Pts: [][2]float64{{x, y}}, R: r})
}

// dim is a dimension that answers a question; it stands out while that one is
// at hand.
func (k *sketcher) dim(ask, way string, side int, from, to [2]float64, mark string) {
	k.Dims = append(k.Dims, SketchDim{Ask: ask, From: from, To: to, Way: way, Side: side,
		Text: mark + k.app.measured(k.b.MM[ask]), On: ask == k.focus})
}

// wheel is a wheel seen from the side, on the ground.
func (k *sketcher) wheel(x float64, t *scene.Tyre) (centre [2]float64) {
	y := t.LoadedRadius()
	k.circle("seen", x, y, t.Outer()/2)
	k.circle("seen", x, y, t.Rim()/2)
	k.cross(x, y, t.Outer()*0.58)
	return [2]float64{x, y}
}

// cross are the two centrelines of something round.
func (k *sketcher) cross(x, y, r float64) {
	k.line("axis", [2]float64{x - r, y}, [2]float64{x + r, y})
	k.line("axis", [2]float64{x, y - r}, [2]float64{x, y + r})
}

// wheelbase is the whole chassis from the left, front at the left.
func (k *sketcher) wheelbase() {
	v := &k.b.Doc.Vehicle
	k.rail(0, v.WheelbaseMM)
	front, rear := k.wheel(0, &v.Front.Tyre), k.wheel(v.WheelbaseMM, &v.Rear.Tyre)
	k.line("ground", [2]float64{-v.Front.Tyre.Outer(), 0}, [2]float64{v.WheelbaseMM + 2*v.Rear.Tyre.Outer(), 0})
	k.dim(scene.AskWheelbase, "h", -1, front, rear, "")
	k.Words = "The chassis from the left: " + k.app.measured(v.WheelbaseMM) + " between the axles’ middles."
}

// rail is the side of the left rail, over the ground, with the front axle at
// one place of the drawing and the rear one at another.
func (k *sketcher) rail(frontAt, rearAt float64) {
	for i := range k.b.Doc.Parts {
		p := &k.b.Doc.Parts[i]
		if p.ID != "left-frame-rail" {
			continue
		}
		path := [][2]float64{{0, 0}}
		for _, r := range p.Size.Rows("profile") {
			path = append(path, [2]float64{r[0], r[1]})
		}
		if rows := p.Size.Rows("profile"); len(rows) > 0 {
			path[0][1] = rows[0][1]
			path = append(path, [2]float64{p.Size.Num("length_mm"), rows[len(rows)-1][1]})
		} else {
			path = append(path, [2]float64{p.Size.Num("length_mm"), 0})
		}
		var under, top [][2]float64
		for _, q := range path {
			x := q[0] + p.AtMM[0]
			at := [2]float64{frontAt + x, k.datum(x) + q[1]}
			if x > k.b.Doc.Vehicle.WheelbaseMM/2 {
				at[0] = rearAt + x - k.b.Doc.Vehicle.WheelbaseMM
			}
			under = append(under, at)
			top = append([][2]float64{{at[0], at[1] + p.Size.Num("depth_mm")}}, top...)
		}
		k.outline("rail", append(under, top...)...)
	}
}

// datum is the height of the frame datum over the ground at a station, at ride.
func (k *sketcher) datum(x float64) float64 {
	v := &k.b.Doc.Vehicle
	return v.Front.FrameHeightMM + (v.Rear.FrameHeightMM-v.Front.FrameHeightMM)*x/v.WheelbaseMM
}

// ends draws both ends of the chassis with the middle broken out, so that what
// is small beside the wheelbase can be seen. It returns where the rear axle
// stands.
func (k *sketcher) ends() (rearAt float64) {
	v := &k.b.Doc.Vehicle
	half := (v.Front.Tyre.Outer() + v.Rear.Tyre.Outer()) / 2
	rearAt = math.Round(half + 320)
	k.wheel(0, &v.Front.Tyre)
	k.wheel(rearAt, &v.Rear.Tyre)
	k.line("ground", [2]float64{-half * 0.62, 0}, [2]float64{rearAt + half*0.62, 0})
	mid := (v.Front.Tyre.Outer() + rearAt - v.Rear.Tyre.Outer() + rearAt) / 4
	for _, side := range [2]float64{-20, 20} {
		x := mid + side
		k.line("break", [2]float64{x - 10, -60}, [2]float64{x + 10, half * 0.3}, [2]float64{x - 10, half * 0.5}, [2]float64{x + 10, half})
	}
	return rearAt
}

// datumLine is the frame datum over the ground along both ends, moved by front
// and rear.
func (k *sketcher) datumLine(kind string, rearAt, front, rear float64) {
	v := &k.b.Doc.Vehicle
	k.line(kind, [2]float64{0, v.Front.FrameHeightMM + front}, [2]float64{rearAt, v.Rear.FrameHeightMM + rear})
}

func (k *sketcher) tyres() {
	rearAt := k.ends()
	v := &k.b.Doc.Vehicle
	for _, w := range []struct {
		ask  string
		x    float64
		e    *scene.End
		side int
	}{{scene.AskFrontTyre, 0, &v.Front, -1}, {scene.AskRearTyre, rearAt, &v.Rear, 1}} {
		y, r := w.e.Tyre.LoadedRadius(), w.e.Tyre.Outer()/2
		k.dim(w.ask, "v", w.side, [2]float64{w.x, y - r}, [2]float64{w.x, y + r}, "Ø ")
	}
	k.Words = "Front and rear wheel: tyre diameters " + k.app.measured(v.Front.Tyre.Outer()) + " and " + k.app.measured(v.Rear.Tyre.Outer()) + "."
	if k.focus == scene.AskRearSame {
		k.Dims[1].On = true
	}
}

func (k *sketcher) frameHeights() {
	rearAt := k.ends()
	v := &k.b.Doc.Vehicle
	k.straightRun(rearAt, 0, 0, "rail")
	k.dim(scene.AskFrontFrame, "v", -1, [2]float64{0, 0}, [2]float64{0, v.Front.FrameHeightMM}, "")
	k.dim(scene.AskRearFrame, "v", 1, [2]float64{rearAt, 0}, [2]float64{rearAt, v.Rear.FrameHeightMM}, "")
	k.Words = "Both axles from the left: the underside of the rails’ straight run, carried on to each axle, over the ground."
}

// straightRun is a piece of the rail between the wheels and its underside
// carried on to both axles, moved by front and rear from ride.
func (k *sketcher) straightRun(rearAt, front, rear float64, kind string) {
	v := &k.b.Doc.Vehicle
	at := func(x float64) float64 {
		f := x / rearAt
		return (v.Front.FrameHeightMM+front)*(1-f) + (v.Rear.FrameHeightMM+rear)*f
	}
	from, to := v.Front.Tyre.Outer()/2+30, rearAt-v.Rear.Tyre.Outer()/2-30
	depth := k.b.MM[scene.AskRailDepth]
	k.outline(kind, [2]float64{from, at(from)}, [2]float64{to, at(to)}, [2]float64{to, at(to) + depth}, [2]float64{from, at(from) + depth})
	k.line("axis", [2]float64{0, at(0)}, [2]float64{from, at(from)})
	k.line("axis", [2]float64{to, at(to)}, [2]float64{rearAt, at(rearAt)})
}

// railSection is the straight run cut across, looking forward.
func (k *sketcher) railSection() {
	over, depth := k.b.MM[scene.AskRailOver], k.b.MM[scene.AskRailDepth]
	wide := math.Min(60, over/4)
	k.box("cut", -over/2, 0, wide, depth)
	k.box("cut", over/2-wide, 0, wide, depth)
	k.line("axis", [2]float64{0, -0.35 * depth}, [2]float64{0, 1.35 * depth})
	k.dim(scene.AskRailOver, "h", 1, [2]float64{-over / 2, depth}, [2]float64{over / 2, depth}, "")
	k.dim(scene.AskRailDepth, "v", 1, [2]float64{over / 2, 0}, [2]float64{over / 2, depth}, "")
	k.Words = "The two rails cut across, looking forward: " + k.app.measured(over) + " over both, " + k.app.measured(depth) + " deep."
}

func (k *sketcher) frontAxle() {
	k.axlePlan(&k.b.Doc.Vehicle.Front, 0, scene.AskFrontAxle, scene.AskFrontHold, "front")
}

func (k *sketcher) rearAxle() {
	v := &k.b.Doc.Vehicle
	k.axlePlan(&v.Rear, v.WheelbaseMM, scene.AskRearAxle, scene.AskRearHold, "rear")
}

// axlePlan is one end from above, front at the left: wheels, axle, rails and
// the bars that hold it, from the joints on the body to those on the axle.
func (k *sketcher) axlePlan(e *scene.End, station float64, askAxle, askHold, end string) {
	k.frontArrow(e)
	dia, wide := e.Tyre.Outer(), e.Tyre.Width()
	lo, hi := -dia/2, dia/2
	for _, bar := range k.bars(e, station) {
		lo, hi = math.Min(lo, bar[0][0]-60), math.Max(hi, bar[0][0]+60)
	}
	over := k.b.MM[scene.AskRailOver] / 2
	for _, side := range [2]float64{-1, 1} {
		k.box("seen", -dia/2, side*e.TrackMM/2-wide/2, dia, wide)
		y := side*over - math.Max(side, 0)*60
		k.box("hidden", lo, y, hi-lo, 60)
	}
	k.line("axis", [2]float64{lo, 0}, [2]float64{hi, 0})
	from := len(k.Lines)
	k.axle(k.b.Chosen[askAxle], e)
	k.mark(from, k.focus == askAxle)
	from = len(k.Lines)
	for _, bar := range k.bars(e, station) {
		k.line("bar", bar[0], bar[1])
		k.circle("on_body", bar[0][0], bar[0][1], 18)
		k.circle("on_axle", bar[1][0], bar[1][1], 18)
	}
	k.mark(from, k.focus == askHold)
	k.Words = "The " + end + " end from above, front at the left: " + k.app.axleWords(k.b.Chosen[askAxle]) + ", " + lower(e.Form().Label) + ", " +
		strconv.Itoa(len(k.bars(e, station))) + " bars."
}

// axleWords is a kind of axle within a sentence.
func (a *App) axleWords(kind string) string {
	return map[string]string{scene.AxleBeam: "a beam axle", scene.AxleLive: "a live axle", scene.AxleNone: "each wheel by itself"}[kind]
}

func (k *sketcher) mark(from int, on bool) {
	for i := from; i < len(k.Lines); i++ {
		k.Lines[i].On = on
	}
}

// frontArrow says which way is forward.
func (k *sketcher) frontArrow(e *scene.End) {
	x, y := -e.Tyre.Outer()/2, e.TrackMM/2+e.Tyre.Width()/2+90
	k.line("arrow", [2]float64{x + 260, y}, [2]float64{x, y})
}

func (k *sketcher) axle(kind string, e *scene.End) {
	half := e.TrackMM/2 - e.Tyre.Width()/2
	switch kind {
	case scene.AxleBeam:
		k.box("part", -35, -half, 70, 2*half)
	case scene.AxleLive:
		k.box("part", -38, -half, 76, 2*half)
		k.box("part", -300, -60, 300, 120)
		k.circle("part", 0, 0, 135)
	default:
		for _, side := range [2]float64{-1, 1} {
			k.box("part", -45, side*half-math.Max(side, 0)*70, 90, 70)
		}
	}
}

// bars are the bars that hold an end, from above: from the body to what they
// hold; those of a wheel by itself on both sides.
func (k *sketcher) bars(e *scene.End, station float64) (list [][2][2]float64) {
	if e.Suspension == nil {
		return nil
	}
	for _, b := range e.Suspension.Bars {
		y := 0.0
		if e.Independent {
			y = -e.TrackMM / 2
		}
		bar := [2][2]float64{{b.BodyMM[0] - station, b.BodyMM[1]}, {b.CarriedMM[0], b.CarriedMM[1] + y}}
		list = append(list, bar)
		if e.Independent {
			list = append(list, [2][2]float64{{bar[0][0], -bar[0][1]}, {bar[1][0], -bar[1][1]}})
		}
	}
	return list
}

// travel is both ends at ride, with the straight run aired out and aired up.
func (k *sketcher) travel() {
	rearAt := k.ends()
	v := &k.b.Doc.Vehicle
	fd, rd, fu, ru := k.b.MM[scene.AskFrontDown], k.b.MM[scene.AskRearDown], k.b.MM[scene.AskFrontUp], k.b.MM[scene.AskRearUp]
	k.straightRun(rearAt, 0, 0, "rail")
	k.datumLine("hidden", rearAt, -fd, -rd)
	k.datumLine("hidden", rearAt, fu, ru)
	f, r := v.Front.FrameHeightMM, v.Rear.FrameHeightMM
	k.dim(scene.AskFrontDown, "v", -1, [2]float64{0, f - fd}, [2]float64{0, f}, "−")
	k.dim(scene.AskRearDown, "v", 1, [2]float64{rearAt, r - rd}, [2]float64{rearAt, r}, "−")
	k.dim(scene.AskFrontUp, "v", -1, [2]float64{0, f}, [2]float64{0, f + fu}, "+")
	k.dim(scene.AskRearUp, "v", 1, [2]float64{rearAt, r}, [2]float64{rearAt, r + ru}, "+")
	k.Words = "Both axles from the left: the underside of the rails at ride, and dashed aired out and aired up."
}
