package app

import (
	"fmt"
	"strconv"
	"strings"

	"scrubline/scene"
)

// notMeasured is what is not measured yet, kept as long as the document stays.
type notMeasured struct {
	doc  *scene.Document
	list []scene.Unmeasured
}

func (a *App) notMeasured() []scene.Unmeasured {
	if a.asked.doc != a.doc {
		a.asked = notMeasured{a.doc, a.doc.NotMeasured()}
	}
	return a.asked.list
}

// measureOf names a field of a form as the document's edits do: a movement's
// fields stand in its part's form, the heights in one of their own.
func measureOf(target, field string) (string, string) {
	if m, ok := strings.CutPrefix(field, movePrefix); ok {
		id, rest, _ := strings.Cut(m, "/")
		return "movement:" + id, rest
	}
	if target == heightsForm {
		target = "scene"
	}
	return target, field
}

// markFields says of each field of a form whether its value is measured, and
// counts those that are not.
func (a *App) markFields(f *Form) {
	for i := range f.Fields {
		x := &f.Fields[i]
		if x.Type == "action" || x.Type == "shown" {
			continue
		}
		switch is, can := a.doc.IsMeasured(measureOf(f.Target, x.Field)); {
		case can && is:
			x.Measured = "yes"
		case can:
			x.Measured = "no"
		}
		if a.focus != "" && a.doc.Key(measureOf(f.Target, x.Field)) == a.focus {
			f.Focus = x.Field
		}
	}
	for _, u := range a.notMeasured() {
		if u.Target == f.Target || f.Target == heightsForm && strings.HasPrefix(u.Target, "height:") {
			f.Unmeasured++
		}
	}
}

// measured says of a value that it is measured as it stands, or not yet.
func (a *App) measuredCommand(c *Command, _ *Reply) error {
	target, field := measureOf(c.Target, c.Field)
	doc, label, err := scene.MarkMeasured(a.doc, target, field, c.On)
	if err != nil {
		return err
	}
	return a.commit(doc, label)
}

// toUnmeasured opens the form in which a value is typed, at its field.
func (a *App) toUnmeasured(c *Command, r *Reply) error {
	for _, u := range a.notMeasured() {
		if u.Key != c.Key {
			continue
		}
		what, id, _ := strings.Cut(u.Target, ":")
		var err error
		switch what {
		case "part":
			err = a.selectCommand(&Command{Part: id}, r)
		case "movement":
			err = a.selectCommand(&Command{Part: a.carriedBy(id)}, r)
		case "height":
			err = a.formCommand(&Command{Text: heightsForm}, r)
		default:
			err = a.formCommand(&Command{Text: "vehicle"}, r)
		}
		a.focus = u.Key
		return err
	}
	return fmt.Errorf("this is measured by now")
}

// carriedBy is the first part that a movement carries.
func (a *App) carriedBy(movement string) string {
	for i := range a.doc.Parts {
		if goesWith(&a.doc.Parts[i], movement) {
			return a.doc.Parts[i].ID
		}
	}
	return ""
}

// unmeasuredForm lists what is not measured, part by part; each line goes to
// its field.
func (a *App) unmeasuredForm() *Form {
	list := a.notMeasured()
	f := &Form{Target: "unmeasured", Title: notMeasuredWords(len(list)), Fields: []FormField{},
		Sub: "Defaults and guesses. Type a value where it stands, and it leaves this list."}
	if len(list) == 0 {
		f.Sub = "No value is marked as not measured. A field’s ? marks one."
	}
	for _, u := range list {
		group := u.Part
		switch {
		case group != "":
		case u.Target == "vehicle":
			group = "Vehicle"
		case strings.HasPrefix(u.Target, "height:"):
			group = "Heights"
		default:
			group = "Movements"
		}
		f.Fields = append(f.Fields, FormField{Field: u.Key, Group: group, Label: upper(u.Label) + a.valueWords(&u), Type: "action",
			Action: &Command{Do: "unmeasured", Key: u.Key}})
	}
	return f
}

// notMeasuredWords is the count for people.
func notMeasuredWords(n int) string {
	if n == 0 {
		return "Not measured: none"
	}
	return strconv.Itoa(n) + " not measured"
}

// valueWords is the value as it stands, after a colon; empty for what takes
// more than a number to say.
func (a *App) valueWords(u *scene.Unmeasured) string {
	what, id, _ := strings.Cut(u.Target, ":")
	steps := strings.Split(u.Field, "/")
	switch what {
	case "part":
		p := &a.doc.Parts[a.partIndex(id)]
		if steps[0] == "size" {
			return a.sizeWords(p, steps[1])
		}
		axis, _ := strconv.Atoi(steps[1])
		if steps[0] == "turn_deg" {
			return ": " + plainNumber(p.TurnDeg[axis]) + "°"
		}
		return ": " + a.length(p.AtMM[axis]) + " " + unit(a.doc.Show)
	case "height":
		for _, h := range a.doc.Heights {
			if h.ID == id {
				return ": " + a.level(map[bool]float64{true: h.FrontMM, false: h.RearMM}[u.Field == "front_mm"]) + " " + unit(a.doc.Show)
			}
		}
	case "vehicle":
		return a.vehicleWords(u.Field)
	}
	return ""
}

func (a *App) sizeWords(p *scene.Part, name string) string {
	k := scene.KindNamed(p.Kind)
	for i := range k.Fields {
		if k.Fields[i].Name != name {
			continue
		}
		x := a.sizeField(&k.Fields[i], p.Size)
		switch x.Type {
		case "table":
			return ": " + count(len(x.Rows), "row", "rows")
		case "choice":
			for _, c := range x.Choices {
				if c.Value == x.Value {
					return ": " + c.Label
				}
			}
		case "flag":
			return ": " + map[string]string{"true": "yes", "false": "no"}[x.Value]
		}
		return ": " + withUnit(x.Value, x.Unit)
	}
	return ""
}

// vehicleWords is a value of the vehicle as its form has it.
func (a *App) vehicleWords(field string) string {
	v := &a.doc.Vehicle
	fields := []FormField{a.lengthField("wheelbase_mm", "", "", "", v.WheelbaseMM)}
	fields = append(fields, a.endFields("front", "", &v.Front)...)
	fields = append(fields, a.endFields("rear", "", &v.Rear)...)
	for _, x := range fields {
		if a.doc.Key("vehicle", x.Field) != "vehicle/"+field || x.Type == "flag" {
			continue
		}
		return ": " + withUnit(x.Value, x.Unit)
	}
	for _, end := range [2]*scene.End{&v.Front, &v.Rear} {
		if e := map[bool]string{true: "front", false: "rear"}[end == &v.Front]; field == e+"/suspension/kind" {
			return ": " + lower(end.Form().Label)
		}
	}
	return ""
}

// restsOn says what of a finding's figures is not measured.
func (a *App) restsOn(moves bool, ids ...string) string {
	return a.checked.UnmeasuredBetween(moves, ids...)
}

// withUnit is a value with its unit; degrees stand close.
func withUnit(value, unit string) string {
	if unit == "" || unit == "°" {
		return value + unit
	}
	return value + " " + unit
}
