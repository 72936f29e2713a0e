package app

import (
	"errors"
	"fmt"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

// Where a part's place was measured from stands in its form under these.
const (
	measuredGroup  = "Measured from"
	measuredPrefix = "measured/" // measured/x is the reading, measured/x/from the reference
	partChoice     = "part:"     // begins a choice that is a part
)

// faceWords name the faces of a part along each axis.
var faceWords = [3]map[scene.Face]string{
	{scene.Low: "front end", scene.High: "rear end", scene.Point: "reference point"},
	{scene.Low: "left side", scene.High: "right side", scene.Point: "reference point"},
	{scene.Low: "underside", scene.High: "top", scene.Point: "reference point"},
}

// axisKeys are the axes as the page names them.
var axisKeys = [3]string{"x", "y", "z"}

// wayWords say along what one measures.
var wayWords = [3]string{"Along the vehicle", "Across", "Up and down"}

// readingField is a part's place along an axis as the tape reads it from what
// it was measured from; nothing when it was not. It is read off the drawing:
// the number in a file written by hand, or in a variant of what has moved
// since, may be an old one.
func (a *App) readingField(p *scene.Part, axis int) []FormField {
	m := p.MeasuredAlong(axis)
	if m == nil {
		return nil
	}
	label := upper(faceWords[axis][m.To]) + " from " + a.fromWords(m)
	help := [3]string{"Rearward of it; ahead is negative.", "To the right of it; left is negative.", "Above it; below is negative."}[axis]
	if m.Datum == scene.FromGround {
		help = "Square to the ground, at ride."
	}
	mm, err := scene.Reading(a.doc, p.ID, m, a.boxes)
	if err != nil {
		mm = m.MM
	}
	return []FormField{a.lengthField(measuredPrefix+axisKeys[axis], "Position", label, help, mm)}
}

// fromWords is a reference as it stands in a label.
func (a *App) fromWords(m *scene.Measured) string {
	if m.Datum != "" {
		return m.Datum.Words()
	}
	return "the " + faceWords[m.Axis][m.Face] + " of " + fitment.The(a.name(m.Part))
}

// measuredFields choose for each axis what a part is measured from, and
// between which faces.
func (a *App) measuredFields(p *scene.Part) []FormField {
	if k := scene.KindNamed(p.Kind); k != nil && k.Derived {
		return nil
	}
	var list []FormField
	for axis, key := range axisKeys {
		m := p.MeasuredAlong(axis)
		from := FormField{Field: measuredPrefix + key + "/from", Group: measuredGroup, Label: wayWords[axis], Type: "choice",
			Help:    "What the tape starts at. When that is moved later, you are asked whether this part goes along, unless you decide it here.",
			Choices: a.fromChoices(p, axis)}
		if m != nil {
			if from.Value = string(m.Datum); m.Datum == "" {
				from.Value = partChoice + m.Part
			}
		}
		list = append(list, from)
		if m == nil {
			continue
		}
		if m.Datum == "" {
			list = append(list, faceField(axis, "/face", "From its", "Where on "+fitment.The(a.name(m.Part))+" the tape starts.", m.Face))
		}
		list = append(list, faceField(axis, "/to", "To this part’s", "Where on this part the tape ends.", m.To), movesField(axis, m))
	}
	return list
}

// fromChoices are the datums of an axis and the other parts.
func (a *App) fromChoices(p *scene.Part, axis int) []FormChoice {
	list := []FormChoice{{"", "Nothing noted"}}
	for _, d := range scene.DatumsAlong(axis) {
		list = append(list, FormChoice{string(d), upper(d.Words())})
	}
	for i := range a.doc.Parts {
		if q := &a.doc.Parts[i]; q.ID != p.ID {
			list = append(list, FormChoice{partChoice + q.ID, q.Name})
		}
	}
	return list
}

func faceField(axis int, step, label, help string, f scene.Face) FormField {
	out := FormField{Field: measuredPrefix + axisKeys[axis] + step, Group: measuredGroup, Label: label, Help: help, Type: "choice", Value: string(f)}
	for _, face := range scene.Faces {
		out.Choices = append(out.Choices, FormChoice{string(face), upper(faceWords[axis][face])})
	}
	return out
}

// asks stands for [scene.Asks] among the choices.
const asks = "ask"

// movesField chooses what becomes of a part when what it was measured from moves.
func movesField(axis int, m *scene.Measured) FormField {
	out := FormField{Field: measuredPrefix + axisKeys[axis] + "/moves", Group: measuredGroup, Label: "When that moves", Type: "choice", Value: asks,
		Help:    "Whether this part goes along when what it was measured from is moved. A locked part never does.",
		Choices: []FormChoice{{asks, "Ask each time"}, {string(scene.Always), "This part goes along"}, {string(scene.Never), "This part stays"}}}
	if m.Moves != scene.Asks {
		out.Value = string(m.Moves)
	}
	return out
}

// setMeasured changes what a part is measured from, or moves it to where the
// tape reads what was typed.
func (a *App) setMeasured(target, field, text string) (*scene.Document, string, error) {
	id := strings.TrimPrefix(target, "part:")
	p, err := a.part(id)
	if err != nil {
		return nil, "", err
	}
	key, step, _ := strings.Cut(field, "/")
	axis, err := axisOf(key)
	if err != nil {
		return nil, "", err
	}
	if step == "" {
		return a.moveToReading(p, axis, text)
	}
	m := scene.Measured{Axis: axis}
	if old := p.MeasuredAlong(axis); old != nil {
		m = *old
	} else if step != "from" {
		return nil, "", errors.New("choose first what it is measured from")
	}
	switch step {
	case "from":
		if text == "" {
			return scene.ForgetFrom(a.doc, id, axis)
		}
		m = a.newReference(p, axis, text)
	case "face":
		m.Face = scene.Face(text)
	case "to":
		m.To = scene.Face(text)
	case "moves":
		if text == asks {
			text = string(scene.Asks)
		}
		return scene.SetMoves(a.doc, id, axis, scene.Moves(text))
	default:
		return nil, "", fmt.Errorf("there is no field called %q", field)
	}
	return scene.MeasureFrom(a.doc, id, m, a.boxes)
}

// newReference is a reference as one would begin to measure it: between the
// two faces that look at each other, from a datum to the reference point, from
// the ground to the underside.
func (a *App) newReference(p *scene.Part, axis int, choice string) scene.Measured {
	m := scene.Measured{Axis: axis, To: scene.Point}
	other, ok := strings.CutPrefix(choice, partChoice)
	if !ok {
		if m.Datum = scene.Datum(choice); m.Datum == scene.FromGround {
			m.To = scene.Low
		}
		return m
	}
	m.Part, m.Face = other, scene.Point
	lo, hi, solid := a.boxes(a.doc, p.ID)
	olo, ohi, there := a.boxes(a.doc, other)
	switch {
	case !solid || !there:
	case lo[axis] >= ohi[axis]:
		m.Face, m.To = scene.High, scene.Low
	case hi[axis] <= olo[axis]:
		m.Face, m.To = scene.Low, scene.High
	}
	return m
}

// moveToReading moves a part to where the tape reads a length; its group goes
// along as with any typed position.
func (a *App) moveToReading(p *scene.Part, axis int, text string) (*scene.Document, string, error) {
	mm, err := scene.ParseLength(text, a.doc.Show)
	if err != nil {
		return nil, "", err
	}
	by, err := scene.MeasuredWay(a.doc, p.ID, axis, mm, a.boxes)
	if err != nil {
		return nil, "", err
	}
	return scene.MoveParts(a.doc, []string{p.ID}, by)
}
