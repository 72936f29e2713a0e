package scene

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"strings"
)

// measuredExcept are a part's references along the other axes.
func (p *Part) measuredExcept(axis int) (kept []Measured) {
	for _, m := range p.MeasuredFrom {
		if m.Axis != axis {
			kept = append(kept, m)
		}
	}
	return kept
}

// unrelate takes a part that is gone out of its group and out of what others
// were measured from; they stay where they are.
func (doc *Document) unrelate(id string) {
	doc.Groups = doc.groupsWithout([]string{id})
	for i := range doc.Parts {
		p := &doc.Parts[i]
		var kept []Measured
		for _, m := range p.MeasuredFrom {
			if m.Part != id {
				kept = append(kept, m)
			}
		}
		p.MeasuredFrom = kept
	}
}

// ruler reads references off a document. shift is how far each part has been
// moved since the boxes were taken; nil for not at all.
type ruler struct {
	doc   *Document
	boxes Boxes
	shift []Vec
}

// face is where a face of part i stands along an axis, body axes at ride.
func (r *ruler) face(i int, f Face, axis int) float64 {
	p := &r.doc.Parts[i]
	at := p.AtMM[axis] + r.doc.Vehicle.origin(p.Carrier)[axis]
	if f != Point {
		if lo, hi, ok := r.boxes(r.doc, p.ID); ok {
			at = lo[axis]
			if f == High {
				at = hi[axis]
			}
		}
	}
	if r.shift != nil {
		at += r.shift[i][axis]
	}
	return at
}

// read is what the tape reads for a reference of part i, and how much that
// grows with each millimetre the part moves along the axis.
func (r *ruler) read(i int, m *Measured) (mm, slope float64) {
	to := r.face(i, m.To, m.Axis)
	v := &r.doc.Vehicle
	switch m.Datum {
	case "":
		if k, err := r.doc.partAt(m.Part); err == nil {
			to -= r.face(k, m.Face, m.Axis)
		}
	case FromFrontAxle:
		to -= v.origin(FrontAxle)[m.Axis]
	case FromRearAxle:
		to -= v.origin(RearAxle)[m.Axis]
	case FromGround:
		// A plane FrameHeightMM below the datum plane at each axle, square to it.
		slope, upright := v.groundSlope()
		x := r.face(i, Point, 0)
		return v.Front.FrameHeightMM + float64(slope*x) + float64(upright*to), upright
	}
	return to, 1
}

// Reading is what the tape reads from a reference to a part, mm.
func Reading(doc *Document, part string, m *Measured, boxes Boxes) (float64, error) {
	i, err := doc.partAt(part)
	if err != nil {
		return 0, err
	}
	mm, _ := (&ruler{doc: doc, boxes: boxes}).read(i, m)
	return round6(mm), nil
}

// MeasureFrom notes what a part was measured from along m.Axis, in the place
// of what was noted before. The part stays; MM is read off.
func MeasureFrom(doc *Document, part string, m Measured, boxes Boxes) (*Document, string, error) {
	i, err := doc.partAt(part)
	if err != nil {
		return nil, "", err
	}
	if k := KindNamed(doc.Parts[i].Kind); k != nil && k.Derived {
		return nil, "", doc.Parts[i].Held()
	}
	if m.Axis < 0 || m.Axis > 2 {
		return nil, "", errors.New("a part is measured along one of three axes")
	}
	c := *doc
	c.Parts = append([]Part(nil), doc.Parts...)
	p := &c.Parts[i]
	if m.Part != "" {
		if _, err := doc.partAt(m.Part); err != nil {
			return nil, "", err
		}
		if way := doc.circle(i, &m); way != nil {
			return nil, "", fmt.Errorf("this would go in %s. Measure one of them from something else first", circleWords(way))
		}
	}
	m.MM, _ = (&ruler{doc: doc, boxes: boxes}).read(i, &m)
	m.MM = round6(m.MM)
	list := append(p.measuredExcept(m.Axis), m)
	for k := len(list) - 1; k > 0 && list[k].Axis < list[k-1].Axis; k-- {
		list[k], list[k-1] = list[k-1], list[k]
	}
	p.MeasuredFrom = list
	return c.checkedAs("measured " + p.Name + " from " + doc.fromWords(&m))
}

// SetMoves says what becomes of a part when what it was measured from along an
// axis moves.
func SetMoves(doc *Document, part string, axis int, moves Moves) (*Document, string, error) {
	i, err := doc.partAt(part)
	if err != nil {
		return nil, "", err
	}
	m := doc.Parts[i].MeasuredAlong(axis)
	if m == nil {
		return nil, "", fmt.Errorf("%s is not measured from anything along this axis", doc.Parts[i].Name)
	}
	c := *doc
	c.Parts = append([]Part(nil), doc.Parts...)
	p := &c.Parts[i]
	p.MeasuredFrom = append([]Measured(nil), p.MeasuredFrom...)
	p.MeasuredAlong(axis).Moves = moves
	words := map[Moves]string{Asks: "asked each time whether " + p.Name + " goes along with %s", Always: "let " + p.Name + " go along with %s", Never: "left " + p.Name + " in its place when %s moves"}[moves]
	return c.checkedAs(strings.Replace(words, "%s", doc.fromWords(m), 1))
}

// ForgetFrom forgets what a part was measured from along an axis.
func ForgetFrom(doc *Document, part string, axis int) (*Document, string, error) {
	i, err := doc.partAt(part)
	if err != nil {
		return nil, "", err
	}
	c := *doc
	c.Parts = append([]Part(nil), doc.Parts...)
	c.Parts[i].MeasuredFrom = doc.Parts[i].measuredExcept(axis)
	return &c, "measured " + c.Parts[i].Name + " by its own position", nil
}

// datumNames are the datums as they stand in a sentence.
var datumNames = map[Datum]string{
	FromFrontAxle: "the front axle’s centreline", FromRearAxle: "the rear axle’s centreline",
	FromCentre: "the vehicle’s centreline", FromFrame: "the underside of the straight rail", FromGround: "the ground at ride",
}

// Words is a datum as it stands in a sentence.
func (d Datum) Words() string { return datumNames[d] }

// fromWords is what a reference is measured from, in a sentence.
func (doc *Document) fromWords(m *Measured) string {
	if m.Datum != "" {
		return m.Datum.Words()
	}
	if i, err := doc.partAt(m.Part); err == nil {
		return doc.Parts[i].Name
	}
	return quote(m.Part)
}

// MeasuredWay is how far a part has to go so that its reference along an axis
// reads mm.
func MeasuredWay(doc *Document, part string, axis int, mm float64, boxes Boxes) (way Vec, err error) {
	i, err := doc.partAt(part)
	if err != nil {
		return way, err
	}
	m := doc.Parts[i].MeasuredAlong(axis)
	if m == nil {
		return way, fmt.Errorf("%s is not measured from anything along this axis", doc.Parts[i].Name)
	}
	is, slope := (&ruler{doc: doc, boxes: boxes}).read(i, m)
	way[axis] = (mm - is) / slope
	return way, nil
}

// sameReference says whether two references name the same places.
func sameReference(a, b *Measured) bool {
	c := *b
	c.MM, c.Moves = a.MM, a.Moves
	return *a == c
}

// sameShape says whether two versions of a part have the same dimensions.
func sameShape(a, b *Part) bool { return a.Kind == b.Kind && reflect.DeepEqual(a.Size, b.Size) }

// groundSlope is how the ground lies under the body at ride: a point stands
// FrameHeightMM of the front + slope·x + upright·z over it.
func (v *Vehicle) groundSlope() (slope, upright float64) {
	slope = (v.Rear.FrameHeightMM - v.Front.FrameHeightMM) / v.WheelbaseMM
	return slope, math.Sqrt(max(0, 1-float64(slope*slope)))
}
