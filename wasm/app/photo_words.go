package app

import (
	"math"
	"strings"

	"scrubline/scene"
	"scrubline/wasm/trace"
)

// When a photo is spoken of with a warning. All of it is common practice, no
// source: these are where a tape and a tap with a finger stop being the larger
// part of what is wrong.
const (
	tiltWarnDeg  = 30.0
	shareWarn    = 0.08 // of the picture
	slipsWarn    = 3.0  // slips of one pixel, by which a fit may disagree
	leastWarnMM  = 3.0  // what a tape is good for
	lengthWarn   = 0.01 // of a known length
	standsOffMM  = 50.0 // a rail's flange, a bracket: what stands off the plane
	straightTilt = 10.0
)

// photoWhere says which view a photo stands behind.
func (a *App) photoWhere(p *scene.Photo) string {
	switch p.View {
	case scene.PhotoSide:
		return "Side view"
	case scene.PhotoPlan:
		return "Plan"
	}
	return "Section at " + a.length(p.StationMM) + " " + unit(a.doc.Show)
}

// photoAxes are the names of the two coordinates of a view's plane.
func photoAxes(v scene.PhotoView) [2]string {
	const station, right, above = "Behind the front axle", "Right of centre", "Above the frame"
	switch v {
	case scene.PhotoSide:
		return [2]string{station, above}
	case scene.PhotoPlan:
		return [2]string{station, right}
	}
	return [2]string{right, above}
}

// fine writes a small length that is only as good as its order of size.
func (a *App) fine(mm float64) string {
	if mm < leastWarnMM*2 && a.doc.Show == scene.Inches {
		return strings.Replace(plainNumber(math.Round(mm*10)/10), "-", "−", 1) + " mm"
	}
	return a.measured(mm) + " " + unit(a.doc.Show)
}

// photoReport is all that can be said of how true a photo is.
func (a *App) photoReport(p *scene.Photo, f *trace.Fit, err error) PhotoReport {
	r := PhotoReport{Lines: []string{}, Warnings: []string{}, Checks: []string{}}
	if err != nil {
		r.Warnings = append(r.Warnings, sentence(err.Error()))
		return r
	}
	wide, high := p.Picture.Size()
	size := trace.Pt{float64(wide), float64(high)}
	slip := f.Slip(size)
	if p.Rectangle() {
		a.rectangleWords(&r, f, size, slip)
	} else {
		a.straightWords(&r, p, f, slip)
	}
	for _, k := range p.Checks {
		a.checkWords(&r, k, f)
	}
	return r
}

// rectangleWords says what four corners and more tell of a photo.
func (a *App) rectangleWords(r *PhotoReport, f *trace.Fit, size trace.Pt, slip trace.Slip) {
	say := func(s string) { r.Lines = append(r.Lines, s) }
	warn := func(s string) { r.Warnings = append(r.Warnings, s) }
	cam, _ := f.Camera(size)
	rms, worst, at, more := f.Residual()
	if more {
		say("The known points miss their places by " + a.fine(rms) + " in the mean, at most by " + a.fine(worst) + ": " + knownName(at) + ".")
		if rms > math.Max(leastWarnMM, slipsWarn*slip.InsideMM) {
			warn("The known points do not go together: they miss by " + a.fine(rms) + ". Look at " + knownName(at) + " first.")
		}
	}
	say("Held against a real camera, the rectangle is out by " + a.fine(cam.MisfitMM) + "; taps one pixel off explain " + a.fine(slip.MisfitMM) + ".")
	if cam.MisfitMM > math.Max(leastWarnMM, slipsWarn*slip.MisfitMM) {
		warn("No camera sees such a rectangle like this: it is out by " + a.fine(cam.MisfitMM) +
			". Are width and height exchanged, is one of them wrong, or was the picture cropped?")
	}
	say("The camera leaned by " + plainNumber(math.Round(cam.TiltDeg)) + "° and stood about " + a.rough(cam.DistanceMM) + " away.")
	if cam.TiltDeg > tiltWarnDeg {
		warn("The camera leaned by " + plainNumber(math.Round(cam.TiltDeg)) + "°. Above about 30° the far side gets coarse, and what stands off " +
			"the plane is drawn far from its place (common practice, no source). Take it again, squarer to the plane.")
	}
	around := ""
	if slip.AroundMM > 0 {
		around = ", and by up to " + a.fine(slip.AroundMM) + " one more rectangle further out"
	}
	say("A tap one pixel off moves what lies in the rectangle by up to " + a.fine(slip.InsideMM) + around + ".")
	if slip.InsideMM > leastWarnMM {
		warn("A tap one pixel off moves things by " + a.fine(slip.InsideMM) + ". Go nearer, or use a larger rectangle.")
	}
	if share := f.Share(size); share < shareWarn {
		warn("The rectangle covers " + plainNumber(math.Max(1, math.Round(share*100))) + " % of the picture. What lies well outside it is a guess: use a larger rectangle, or go nearer.")
	}
	proud := 0.0
	for _, k := range f.Known[:4] {
		proud = math.Max(proud, cam.ProudMM(k.MM, standsOffMM))
	}
	say("It is true in the rectangle's plane only. What stands " + a.length(standsOffMM) + " " + unit(a.doc.Show) + " in front of it is drawn up to " + a.fine(math.Round(proud)) + " out of place.")
}

// straightWords says what two ends tell of a photo: less.
func (a *App) straightWords(r *PhotoReport, p *scene.Photo, f *trace.Fit, slip trace.Slip) {
	d := [2]float64{p.Ends[1][0] - p.Ends[0][0], p.Ends[0][1] - p.Ends[1][1]}
	lean := math.Atan2(d[1], d[0]) * 180 / math.Pi
	r.LeanDeg = math.Round(lean*100) / 100
	r.Lines = append(r.Lines,
		"The line between the two ends leans by "+strings.Replace(plainNumber(math.Round(lean*10)/10), "-", "−", 1)+"° in the picture.",
		"A tap one pixel off moves the far end by up to "+a.fine(slip.InsideMM)+".",
		"It is true in the plane of the two ends only.")
	short := 100 * (1 - math.Cos(straightTilt*math.Pi/180))
	r.Warnings = append(r.Warnings, "That it was taken square to the plane is on trust: two ends cannot tell. Leaning by 10° makes lengths "+
		plainNumber(math.Round(short*10)/10)+" % short. With a rectangle it can be told.")
}

// checkWords compares a known length with what the photo makes of it.
func (a *App) checkWords(r *PhotoReport, k scene.PhotoCheck, f *trace.Fit) {
	mm, ok := f.Length(photoPt(k.From), photoPt(k.To))
	if !ok {
		r.Checks = append(r.Checks, "This length reaches beyond what can be seen of the plane.")
		return
	}
	d := mm - k.LengthMM
	words := "Measures " + a.measured(mm) + " in the photo, " + a.fine(math.Abs(d))
	switch {
	case a.fine(math.Abs(d)) == a.fine(0):
		words = "Measures " + a.measured(mm) + " in the photo, as it should"
	case d > 0:
		words += " too long"
	default:
		words += " too short"
	}
	r.Checks = append(r.Checks, words+".")
	if math.Abs(d) > math.Max(leastWarnMM, lengthWarn*k.LengthMM) {
		r.Warnings = append(r.Warnings, "The known length of "+a.measured(k.LengthMM)+" "+unit(a.doc.Show)+" is out by "+a.fine(math.Abs(d))+
			": does it lie in the rectangle's plane?")
	}
}

// knownName is what a known point is called, by its place in the fit.
func knownName(i int) string {
	if i < len(trace.CornerNames) {
		return "the " + trace.CornerNames[i] + " corner"
	}
	return "further point " + plainNumber(float64(i-len(trace.CornerNames)+1))
}

// rough is a distance that is only about right.
func (a *App) rough(mm float64) string {
	if a.doc.Show == scene.Inches {
		return plainNumber(math.Round(mm/304.8*2)/2) + " ft"
	}
	return plainNumber(math.Round(mm/100)/10) + " m"
}
