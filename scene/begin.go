package scene

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// Answers are what was typed or chosen in the questions a new vehicle begins
// with, by the question's name. An empty one takes its default.
type Answers map[string]string

// The questions, in the order in which one measures. Lengths are typed as
// [ParseLength] reads them.
const (
	AskWheelbase  = "wheelbase"
	AskFrontTyre  = "front_tyre"  // a size code, or the plain diameter
	AskRearSame   = "rear_same"   // SameTyre or OtherTyre
	AskRearTyre   = "rear_tyre"   // where the rear's is another
	AskFrontFrame = "front_frame" // straight rail underside to the ground at ride, carried to the axle
	AskRearFrame  = "rear_frame"
	AskRailOver   = "rail_over" // over both rails, outside to outside
	AskRailDepth  = "rail_depth"
	AskFrontAxle  = "front_axle" // AxleBeam, AxleLive or AxleNone
	AskFrontHold  = "front_hold" // the name of a suspension kind; Guide: not measured yet
	AskRearAxle   = "rear_axle"
	AskRearHold   = "rear_hold"
	AskFrontDown  = "front_down" // how far the body goes down from ride
	AskRearDown   = "rear_down"
	AskFrontUp    = "front_up"
	AskRearUp     = "rear_up"
)

// What some questions are answered with.
const (
	SameTyre  = "same"
	OtherTyre = "other"
	AxleBeam  = "beam"
	AxleLive  = "live"
	AxleNone  = "independent"
)

// Begun is a new vehicle made from answers.
type Begun struct {
	Doc *Document
	// MM are the lengths used, by question; of a tyre its outer diameter.
	MM map[string]float64
	// Chosen are the choices used, by question.
	Chosen map[string]string
	// Given are the questions that were answered; the others have their default.
	Given map[string]bool
	// Faults say what is wrong with an answer, one sentence each. The vehicle
	// then has the default there.
	Faults map[string]string
}

// Begin makes a vehicle from answers: rails, axles, wheels and what holds them,
// on top of the starter's assumptions. Whatever was not answered is listed as
// not measured.
func Begin(a Answers, show Units) *Begun {
	b := &begin{a: a, show: show, measured: map[string]bool{}, Begun: &Begun{MM: map[string]float64{}, Chosen: map[string]string{}, Given: map[string]bool{}, Faults: map[string]string{}}}
	doc := New()
	b.Doc, doc.Show = doc, show
	doc.Note = "What is listed as not measured is assumed: measure it and put it in."
	doc.Parts, doc.Joined = nil, nil
	b.vehicle(&doc.Vehicle)
	b.heights(doc)
	b.suspension("front", &doc.Vehicle.Front, AskFrontAxle, AskFrontHold)
	b.suspension("rear", &doc.Vehicle.Rear, AskRearAxle, AskRearHold)
	b.runningGear()
	b.rails()
	for i := range doc.Parts {
		b.list(sizeKeys(&doc.Parts[i])...)
	}
	for _, key := range b.keys {
		if !b.measured[key] {
			doc.Unmeasured = append(doc.Unmeasured, key)
		}
	}
	doc.Unmeasured = doc.withKeys(nil)
	return b.Begun
}

// Unanswered is the starter with all that the questions would have asked, and
// all that they leave as it is, listed as not measured.
func Unanswered() *Document {
	doc := New()
	doc.Unmeasured = Begin(nil, doc.Show).Doc.Unmeasured // of the same parts
	return doc
}

// begin is a vehicle being made.
type begin struct {
	*Begun
	a        Answers
	show     Units
	keys     []string        // not measured
	measured map[string]bool // of those that are listed wholesale
}

func (b *begin) list(keys ...string) { b.keys = append(b.keys, keys...) }

// given says whether a question was answered, and lists the keys that it
// stands for when it was not.
func (b *begin) given(ask string, keys ...string) bool {
	if !b.Given[ask] {
		b.list(keys...)
	}
	return b.Given[ask]
}

func (b *begin) fault(ask, text string) {
	if b.Faults[ask] == "" {
		b.Faults[ask] = strings.ToUpper(text[:1]) + text[1:] + "."
	}
	b.Given[ask] = false
}

// length is a length as answered, or its default.
func (b *begin) length(ask, label string, least, most, def float64) float64 {
	b.MM[ask] = def
	text := strings.TrimSpace(b.a[ask])
	if text == "" {
		return def
	}
	mm, err := ParseLength(text, b.show)
	switch {
	case err != nil:
		b.fault(ask, err.Error())
		return def
	case mm < least || mm > most:
		b.fault(ask, fmt.Sprintf("%s must be from %s to %s %s", label, FormatLength(least, b.show), FormatLength(most, b.show), b.show))
		return def
	}
	b.Given[ask], b.MM[ask] = true, mm
	return mm
}

// choice is one of some words as answered, or the first.
func (b *begin) choice(ask string, words ...string) string {
	b.Chosen[ask] = words[0]
	if w := b.a[ask]; contains(words, w) {
		b.Given[ask], b.Chosen[ask] = true, w
	}
	return b.Chosen[ask]
}

// The starter's assumptions that the questions leave as they are, or that they
// are measured against (mm).
const (
	beginRailWide = 60.0  // a rail's own width
	beginAhead    = 550.0 // from a rail's front end to the front axle
	beginBehind   = 1100.0
	beginClear    = 35.0 // between the axle at its highest and the rail over it
)

func (b *begin) vehicle(v *Vehicle) {
	v.WheelbaseMM = b.length(AskWheelbase, "the wheelbase", 500, 10000, v.WheelbaseMM)
	b.given(AskWheelbase, "vehicle/wheelbase_mm")
	b.tyre(AskFrontTyre, "front", &v.Front)
	if b.choice(AskRearSame, SameTyre, OtherTyre) == OtherTyre {
		b.MM[AskRearTyre] = v.Front.Tyre.Outer()
		b.tyre(AskRearTyre, "rear", &v.Rear)
	} else {
		v.Rear.Tyre = v.Front.Tyre
		b.MM[AskRearTyre] = v.Rear.Tyre.Outer()
		if b.Given[AskRearSame] && b.Given[AskFrontTyre] {
			b.plainTyre("rear", &v.Rear)
		} else {
			b.list("vehicle/rear/tyre", "vehicle/rear/tyre/diameter_mm", "vehicle/rear/tyre/width_mm", "vehicle/rear/tyre/rim_mm")
		}
	}
	v.Front.FrameHeightMM = b.length(AskFrontFrame, "the frame height", 10, 1500, v.Front.FrameHeightMM)
	v.Rear.FrameHeightMM = b.length(AskRearFrame, "the frame height", 10, 1500, v.Front.FrameHeightMM)
	if d := v.Rear.FrameHeightMM - v.Front.FrameHeightMM; max(d, -d) > v.WheelbaseMM/5 {
		b.fault(AskRearFrame, "the two heights may differ by a fifth of the wheelbase at most")
		v.Rear.FrameHeightMM = v.Front.FrameHeightMM
		b.MM[AskRearFrame] = v.Rear.FrameHeightMM
	}
	b.given(AskFrontFrame, "vehicle/front/frame_height_mm")
	b.given(AskRearFrame, "vehicle/rear/frame_height_mm")
	b.list("vehicle/front/track_mm", "vehicle/rear/track_mm", "vehicle/front/steer_deg",
		"vehicle/front/tyre/deflection_mm", "vehicle/rear/tyre/deflection_mm")
}

// tyre reads a size code or a plain diameter. The width and the rim of a plain
// one are assumed in common proportion.
func (b *begin) tyre(ask, end string, e *End) {
	text := strings.TrimSpace(b.a[ask])
	b.MM[ask] = e.Tyre.Outer()
	if text == "" {
		b.list("vehicle/" + end + "/tyre")
		return
	}
	deflection := e.Tyre.DeflectionMM
	read, err := ParseTyre(text)
	if err != nil && !isOldTyre(text) {
		read, err = plainTyre(text, b.show)
	}
	if err != nil {
		b.fault(ask, err.Error())
		b.list("vehicle/" + end + "/tyre")
		return
	}
	read.DeflectionMM = min(deflection, (read.Outer()-read.Rim())/4)
	e.Tyre = read
	b.Given[ask], b.MM[ask] = true, read.Outer()
	b.plainTyre(end, e)
}

// plainTyre lists what a plain diameter does not tell.
func (b *begin) plainTyre(end string, e *End) {
	if e.Tyre.Code == "" {
		b.list("vehicle/"+end+"/tyre/width_mm", "vehicle/"+end+"/tyre/rim_mm")
	}
}

func plainTyre(text string, show Units) (Tyre, error) {
	d, err := ParseLength(text, show)
	if err != nil || strings.ContainsAny(text, "rR") {
		return Tyre{}, errors.New("type the size on its side, such as 225/45R17, or its diameter")
	}
	if d < 250 && strings.Contains(text, "/") {
		return Tyre{}, errors.New("type all of the size on its side, such as 225/45R17")
	}
	if d < 250 || d > 2000 {
		return Tyre{}, fmt.Errorf("a tyre's diameter is from %s to %s %s", FormatLength(250, show), FormatLength(2000, show), show)
	}
	return Tyre{DiameterMM: d, WidthMM: math.Round(0.07*d) * 5, RimMM: thousandths(math.Round(0.65*d/millimetresPerInch) * millimetresPerInch)}, nil
}

func (b *begin) heights(doc *Document) {
	down := b.length(AskFrontDown, "how far it goes down", 0, 600, 90)
	rearDown := b.length(AskRearDown, "how far it goes down", 0, 600, down)
	up := b.length(AskFrontUp, "how far it goes up", 0, 600, 70)
	rearUp := b.length(AskRearUp, "how far it goes up", 0, 600, up)
	for i := range doc.Heights {
		switch h := &doc.Heights[i]; h.ID {
		case AiredOut:
			h.FrontMM, h.RearMM = -down+0, -rearDown+0
		case AiredUp:
			h.FrontMM, h.RearMM = up, rearUp
		}
	}
	b.given(AskFrontDown, "height:aired_out/front_mm")
	b.given(AskRearDown, "height:aired_out/rear_mm")
	b.given(AskFrontUp, "height:aired_up/front_mm")
	b.given(AskRearUp, "height:aired_up/rear_mm")
}

// HoldsFor are the kinds of suspension that go with a kind of axle, the plain
// guide first.
func HoldsFor(axle string) (names []string) {
	for _, k := range suspensionKinds {
		if k.Name == Guide || k.Alone == (axle == AxleNone) {
			names = append(names, k.Name)
		}
	}
	return names
}

// suspension sets what holds an end's wheels: the template of its kind, whose
// points are all assumed.
func (b *begin) suspension(end string, e *End, askAxle, askHold string) {
	kinds := []string{AxleBeam, AxleLive, AxleNone}
	if end == "rear" {
		kinds = []string{AxleLive, AxleBeam, AxleNone}
	}
	axle := b.choice(askAxle, kinds...)
	b.given(askAxle, "vehicle/"+end+"/independent")
	hold := b.choice(askHold, HoldsFor(axle)...)
	e.Independent = axle == AxleNone
	e.Suspension = SuspensionTemplate(hold, &b.Doc.Vehicle, end)
	switch {
	case e.Suspension == nil:
		b.list("vehicle/" + end + "/suspension/kind")
	default:
		b.list("vehicle/" + end + "/suspension/bars")
	}
}
