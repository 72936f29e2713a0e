package app

import (
	"errors"
	"strconv"
	"strings"

	"scrubline/scene"
)

// theForm is what is selected as fields to type into, nil when nothing is.
func (a *App) theForm() *Form {
	f := a.plainForm()
	if f != nil {
		a.markFields(f)
		a.sayVariant(f)
	}
	return f
}

func (a *App) plainForm() *Form {
	if a.arr.picking {
		return a.pickedForm()
	}
	if i := a.partIndex(a.selected); a.selected != "" && i >= 0 {
		return a.partForm(&a.doc.Parts[i])
	}
	if id, ok := strings.CutPrefix(a.form, shelfForm); ok {
		return a.shelfPartForm(id)
	}
	if strings.HasPrefix(a.form, needForm) {
		return a.pairNeedForm()
	}
	switch a.form {
	case heightsForm:
		return a.namedHeights()
	case "vehicle":
		return a.vehicleForm()
	case "scene":
		return a.sceneForm()
	case "unmeasured":
		return a.unmeasuredForm()
	}
	return nil
}

// Field makers: a length, an angle, a plain text, a yes or no.

func (a *App) lengthField(field, group, label, help string, mm float64) FormField {
	return FormField{Field: field, Group: group, Label: label, Help: help, Type: "number",
		Value: a.length(mm), Unit: unit(a.doc.Show)}
}

// unsigned is a field whose number cannot be below 0.
func unsigned(f FormField) FormField {
	f.Unsigned = true
	return f
}

func angleField(field, group, label, help string, deg float64) FormField {
	return FormField{Field: field, Group: group, Label: label, Help: help, Type: "number",
		Value: plainNumber(deg), Unit: "°"}
}

func textField(field, group, label, help, value string) FormField {
	return FormField{Field: field, Group: group, Label: label, Help: help, Type: "text", Value: value}
}

func flagField(field, group, label, help string, on bool) FormField {
	return FormField{Field: field, Group: group, Label: label, Help: help, Type: "flag", Value: strconv.FormatBool(on)}
}

// plainNumber writes a number as short as it reads back.
func plainNumber(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// carrierLabels are the carriers for people.
var carrierLabels = map[scene.Carrier]string{
	scene.Body: "the body", scene.FrontAxle: "the front axle", scene.RearAxle: "the rear axle",
	scene.WheelFL: "the front left wheel", scene.WheelFR: "the front right wheel",
	scene.WheelRL: "the rear left wheel", scene.WheelRR: "the rear right wheel", scene.Ground: "the ground",
}

// positionLabels names the three lengths of a position by what the tape
// measures from on that carrier.
func positionLabels(on scene.Carrier) [3][2]string {
	switch on {
	case scene.Body:
		return [3][2]string{
			{"Station", "Rearward from the front axle's centreline at ride; ahead of it is negative."},
			{"Right of centre", "From the vehicle's centreline; left is negative."},
			{"Above straight rail underside", "Up from the frame datum: the underside of the straight run of the frame rails, also where the rails kick up. Below it is negative."}}
	case scene.Ground:
		return [3][2]string{
			{"Station", "Rearward from the front axle's centreline at ride."},
			{"Right of centre", "From the vehicle's centreline; left is negative."},
			{"Above the ground", "From the ground at ride."}}
	case scene.FrontAxle, scene.RearAxle:
		return [3][2]string{
			{"Behind the axle", "From the axle's centreline; ahead is negative."},
			{"Right of centre", "From the middle of the axle; left is negative."},
			{"Above the axle", "From the height of the wheel centres; below is negative."}}
	}
	return [3][2]string{
		{"Behind the wheel centre", "Ahead is negative."},
		{"Right of the wheel centre", "Left is negative."},
		{"Above the wheel centre", "Below is negative."}}
}

// aboutKind is what a form says of its part below its name: its kind, unless that
// is the name or begins what follows, and what it is.
func aboutKind(k *scene.Kind, name string) string {
	if k.Label == name || strings.HasPrefix(k.About, k.Label+" ") {
		return k.About
	}
	return k.Label + ". " + k.About
}

func (a *App) partForm(p *scene.Part) *Form {
	k := scene.KindNamed(p.Kind)
	if k == nil {
		k = &scene.Kind{Label: p.Kind}
	}
	f := &Form{Target: "part:" + p.ID, Title: p.Name, Sub: aboutKind(k, p.Name), Caution: k.Caution, CanMove: true}
	f.Fields = append(f.Fields, textField("name", "", "Name", "As it stands in the lists and on the drawing.", p.Name))
	f.Fields = append(f.Fields, a.checkFields(p)...)
	f.Fields = append(f.Fields, a.reachFields(p)...)
	labels := positionLabels(p.Carrier)
	for i, axis := range [3]string{"x", "y", "z"} {
		f.Fields = append(f.Fields, a.lengthField("at_"+axis, "Position", labels[i][0], labels[i][1], p.AtMM[i]))
		f.Fields = append(f.Fields, a.readingField(p, i)...)
	}
	if len(k.Carriers) > 1 {
		c := FormField{Field: "carrier", Group: "Position", Label: "Rides on", Help: "What it is bolted to and moves with.", Type: "choice", Value: string(p.Carrier)}
		for _, on := range k.Carriers {
			c.Choices = append(c.Choices, FormChoice{string(on), carrierLabels[on]})
		}
		f.Fields = append(f.Fields, c)
	}
	for i := range k.Fields {
		f.Fields = append(f.Fields, a.sizeField(&k.Fields[i], p.Size))
	}
	turns := [3][2]string{
		{"Roll", "About the vehicle's length: positive lifts the right side."},
		{"Pitch", "About the crosswise axis: positive lifts the front end."},
		{"Yaw", "About the upright axis: positive turns the rear end to the right."}}
	for i, axis := range [3]string{"x", "y", "z"} {
		f.Fields = append(f.Fields, angleField("turn_"+axis, "Turned", turns[i][0], turns[i][1], p.TurnDeg[i]))
	}
	f.Fields = append(f.Fields, a.measuredFields(p)...)
	f.Fields = append(f.Fields, a.movementFields(p)...)
	tol := ""
	if p.ToleranceMM != nil {
		tol = a.length(*p.ToleranceMM)
	}
	f.Fields = append(f.Fields,
		FormField{Field: "tolerance", Group: "Notes", Label: "Tolerance", Type: "number", Value: tol, Unit: unit(a.doc.Show), Unsigned: true,
			Help: "How far it may really stand from where it is drawn. Empty: " + a.length(a.doc.ToleranceMM) + ", as the whole scene."},
		textField("note", "Notes", "Note", "For you; nothing is computed from it.", p.Note))
	f.Fields = append(append(f.Fields, a.stockFields(p)...), a.keepField(p))
	f.Fields = append(f.Fields, traitFields(p)...)
	f.Folded = []string{stockGroup, measuredGroup, movesGroup, traitsGroup}
	f.Arrange = a.partArrange(p)
	f.Near, f.Joined = a.nearItems(p.ID), a.joinedItems(p.ID)
	return f
}

// traitsGroup is the heading of the ticks that say what a part is.
const traitsGroup = "What it is"

// traitPrefix begins the field of such a tick.
const traitPrefix = "trait/"

// traitFields show what a part is, which decides the gaps it keeps.
func traitFields(p *scene.Part) []FormField {
	var list []FormField
	is := scene.TraitsOf(p)
	for _, t := range scene.AllTraits {
		w := traitWords[t]
		list = append(list, flagField(traitPrefix+string(t), traitsGroup, w[0], w[1]+" Decides the gaps it must keep.", hasTrait(is, t)))
	}
	return list
}

// setTrait ticks or unticks what a part is. What its kind says anyway is stored
// as nothing of its own.
func (a *App) setTrait(target string, t scene.Trait, text string) (*scene.Document, string, error) {
	id := strings.TrimPrefix(target, "part:")
	p, err := a.part(id)
	if err != nil {
		return nil, "", err
	}
	var words []string
	for _, u := range scene.AllTraits {
		if on := hasTrait(scene.TraitsOf(p), u); u == t && text == "true" || u != t && on {
			words = append(words, string(u))
		}
	}
	if len(words) == 0 {
		return nil, "", errors.New("a part is at least one of these")
	}
	bare := *p
	bare.Traits = nil
	if own := scene.TraitsOf(&bare); sameTraits(own, words) {
		words = nil
	}
	return scene.SetField(a.doc, target, "traits", strings.Join(words, ", "))
}

func sameTraits(list []scene.Trait, words []string) bool {
	if len(list) != len(words) {
		return false
	}
	for _, w := range words {
		if !hasTrait(list, scene.Trait(w)) {
			return false
		}
	}
	return true
}

// sizeField is one dimension of a part's kind.
func (a *App) sizeField(f *scene.Field, s scene.Size) FormField {
	v := s[f.Name]
	out := FormField{Field: f.Name, Group: "Size", Label: f.Label, Help: f.Help}
	switch f.Type {
	case scene.Choice:
		out.Type, out.Value = "choice", v.Text
		for i, c := range f.Choices {
			label := c
			if i < len(f.ChoiceLabels) {
				label = f.ChoiceLabels[i]
			}
			out.Choices = append(out.Choices, FormChoice{c, label})
		}
	case scene.Flag:
		out.Type, out.Value = "flag", strconv.FormatBool(v.Flag)
	case scene.Table:
		out.Type, out.Group = "table", f.Label
		out.MinRows, out.MaxRows = f.MinRows, f.MaxRows
		for i := range f.Columns {
			c := &f.Columns[i]
			_, u := a.cell(c, 0)
			out.Columns = append(out.Columns, FormField{Field: c.Name, Label: c.Label, Help: c.Help, Type: "number", Unit: u, Unsigned: c.Min >= 0})
		}
		out.Rows = [][]string{}
		for _, r := range v.Rows {
			cells := make([]string, len(f.Columns))
			for i := range cells {
				if i < len(r) {
					cells[i], _ = a.cell(&f.Columns[i], r[i])
				}
			}
			out.Rows = append(out.Rows, cells)
		}
	default:
		out.Type, out.Unsigned = "number", f.Min >= 0
		out.Value, out.Unit = a.cell(f, v.Num)
		if f.ZeroIs != "" {
			out.ZeroIs = f.ZeroIs
			out.Help += " Empty: " + f.ZeroIs + "."
			if v.Num == 0 {
				out.Value = ""
			}
		}
	}
	return out
}

// cell writes a number of a field and names its unit.
func (a *App) cell(f *scene.Field, v float64) (text, u string) {
	switch f.Type {
	case scene.Length:
		return a.length(v), unit(a.doc.Show)
	case scene.Angle:
		return plainNumber(v), "°"
	}
	return plainNumber(v), ""
}

func (a *App) vehicleForm() *Form {
	v := &a.doc.Vehicle
	f := &Form{Target: "vehicle", Title: "Vehicle", Sub: "What the tape says of the chassis as a whole."}
	f.Fields = append(f.Fields, unsigned(a.lengthField("wheelbase", "", "Wheelbase",
		"From the front axle's centreline to the rear axle's, along the ground.", v.WheelbaseMM)))
	says := a.model.Suspension()
	f.Fields = append(f.Fields, a.endFields("front", "Front", &v.Front)...)
	f.Fields = append(f.Fields, a.suspensionFields("front", "Front", &v.Front, &says[0])...)
	f.Fields = append(f.Fields, a.endFields("rear", "Rear", &v.Rear)...)
	f.Fields = append(f.Fields, a.suspensionFields("rear", "Rear", &v.Rear, &says[1])...)
	f.Folded = []string{pointsOf("Front"), pointsOf("Rear")}
	return f
}

func (a *App) endFields(end, group string, e *scene.End) []FormField {
	k := end + "_"
	list := []FormField{
		unsigned(a.lengthField(k+"track", group, "Track", "Between the middles of the two tyres.", e.TrackMM)),
		textField(k+"tyre", group, "Tyre", "The size on its side, such as 225/45R17, or the plain diameter: an old size such as 6.50-16 does not name it. Leave it empty to give plain numbers.", e.Tyre.Code),
	}
	if e.Tyre.Code == "" {
		list = append(list,
			unsigned(a.lengthField(k+"tyre_diameter", group, "Tyre diameter", "Free of load.", e.Tyre.DiameterMM)),
			unsigned(a.lengthField(k+"tyre_width", group, "Tyre width", "Over the sidewalls.", e.Tyre.WidthMM)),
			unsigned(a.lengthField(k+"rim", group, "Rim diameter", "Over the flanges: what would touch the road with a flat tyre.", e.Tyre.RimMM)))
	}
	return append(list,
		unsigned(a.lengthField(k+"deflection", group, "Tyre squash", "How much lower the axle stands than half the free diameter, at its load.", e.Tyre.DeflectionMM)),
		a.lengthField(k+"frame_height", group, "Straight rail underside to ground at ride, carried to this axle",
			"Not the rail over the axle: where it kicks up, that is wrong by the whole kick-up. Hold a straight edge or a string along the underside of the straight run, carry it on to this axle's centreline, and measure from there to the ground.", e.FrameHeightMM),
		flagField(k+"independent", group, "Each wheel by itself", "No axle joins the two wheels.", e.Independent),
		unsigned(angleField(k+"steer", group, "Steer each way", "Largest angle of the wheels; 0 does not steer.", e.SteerDeg)),
		unsigned(a.lengthField(k+"cross", group, "Left and right apart", "Largest difference of the two corners that is to be checked; 0 keeps them level.", e.CrossMM)))
}

func (a *App) sceneForm() *Form {
	d := a.doc
	f := &Form{Target: "scene", Title: "Scene", Sub: "Name, tolerance and unit."}
	f.Fields = append(f.Fields,
		textField("name", "", "Name", "Of the whole scene; a saved file is called so.", d.Name),
		textField("note", "", "Note", "For you; nothing is computed from it.", d.Note))
	f.Fields = append(f.Fields,
		FormField{Field: heightsForm, Label: "Named heights", Type: "action", Help: "Aired out, ride, aired up and what else you name.",
			Action: &Command{Do: "form", Text: heightsForm}},
		unsigned(a.lengthField("tolerance", "Measuring", "Tolerance", "How far a part may really stand from where it is drawn, where it states nothing of its own.", d.ToleranceMM)),
		FormField{Field: "show", Group: "Measuring", Label: "Lengths in", Help: "How lengths are shown; a length may be typed in either.", Type: "choice", Value: string(d.Show),
			Choices: []FormChoice{{"mm", "millimetres"}, {"in", "inches"}}})
	return f
}
