package scene

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// SetField changes one field from text as typed. target is part:ID, vehicle,
// scene, height:ID, movement:ID or shelf:ID. field names it as the file does, steps joined by / or a
// point; units at the end of a step may be left out, and so may size/:
//
//	part:ID    name note carrier traits moves tolerance_mm at_mm/0 turn_deg/2
//	           mass_kg price state
//	           size/diameter_mm size/vertices/2/x_mm (also at_x, turn_z)
//	vehicle    wheelbase_mm front/track_mm rear/tyre rear/tyre/width_mm …
//	           rear/suspension/kind rear/suspension/bars/0/body_mm/1 …
//	scene      name note show tolerance_mm currency budget height/ID/front_mm …
//	shelf:ID   as of a part, but for its place
//	height:ID  name front_mm rear_mm
//	movement:ID  name at_mm/0 axis/1 from to
//
// Lengths may be written in any unit; a bare number is in the shown one. What is
// typed is measured: see [Document.NotMeasured].
func SetField(doc *Document, target, field, text string) (*Document, string, error) {
	c, label, err := doc.setField(target, field, text)
	if err == nil {
		c.typed(doc, target, field, text)
	}
	return c, label, err
}

func (doc *Document) setField(target, field, text string) (*Document, string, error) {
	what, id, _ := strings.Cut(target, ":")
	steps := fieldSteps(field)
	switch {
	case what == "part":
		return doc.setPart(id, field, steps, text)
	case what == "shelf":
		return doc.setShelf(id, field, steps, text)
	case target == "vehicle":
		return doc.setWhole("changed the vehicle", func(c *Document) error { return setVehicle(c, steps, text) })
	case target == "scene" && steps[0] == "height" && len(steps) == 3:
		return doc.setField("height:"+strings.SplitN(field, "/", 3)[1], steps[2], text)
	case target == "scene":
		return doc.setWhole("changed the scene", func(c *Document) error { return setScene(c, steps, text) })
	case what == "movement":
		return doc.setWhole("changed a movement", func(c *Document) error { return setMovement(c, id, steps, text) })
	case what == "height":
		return doc.setWhole(doc.heightLabel(id, steps[0]), func(c *Document) error { return setHeight(c, id, steps, text) })
	}
	return nil, "", fmt.Errorf("there is nothing called %s to change", quote(target))
}

// fieldSteps splits a field's name and drops the units.
func fieldSteps(field string) []string {
	steps := strings.Split(strings.ReplaceAll(field, ".", "/"), "/")
	if len(steps) > 1 && steps[0] == "size" {
		steps = steps[1:]
	}
	for i, s := range steps {
		steps[i] = bare(s)
	}
	return steps
}

// bare is a field's name without the unit at its end.
func bare(name string) string {
	return strings.TrimSuffix(strings.TrimSuffix(name, "_mm"), "_deg")
}

func errNoField(field string) error { return fmt.Errorf("there is no field called %s", quote(field)) }

// setWhole changes what is no part, and checks the whole document.
func (doc *Document) setWhole(label string, change func(*Document) error) (*Document, string, error) {
	c := *doc
	c.Heights = append([]Height(nil), doc.Heights...)
	if err := change(&c); err != nil {
		return nil, "", err
	}
	if err := c.Validate(); err != nil {
		return nil, "", sentence(doc.Show, nil, err)
	}
	return &c, label, nil
}

func setScene(c *Document, steps []string, text string) (err error) {
	switch strings.Join(steps, "/") {
	case "name":
		c.Name = strings.TrimSpace(text)
	case "note":
		c.Note = text
	case "currency":
		c.Currency = strings.TrimSpace(text)
	case "budget":
		err = c.setBudget(text)
	case "show":
		c.Show = Units(text)
	case "tolerance":
		c.ToleranceMM, err = ParseLength(text, c.Show)
	default:
		return errNoField(strings.Join(steps, "/"))
	}
	return err
}

func setHeight(c *Document, id string, steps []string, text string) (err error) {
	for i := range c.Heights {
		h := &c.Heights[i]
		if h.ID != id {
			continue
		}
		switch steps[0] {
		case "name":
			if h.Name = strings.TrimSpace(text); h.Name == "" {
				return errors.New("a height needs a name")
			}
		case "front":
			h.FrontMM, err = ParseLength(text, c.Show)
		case "rear":
			h.RearMM, err = ParseLength(text, c.Show)
		default:
			return errNoField(steps[0])
		}
		return err
	}
	return fmt.Errorf("there is no height %s", quote(id))
}

// heightLabel says what a field of a height is changed for.
func (doc *Document) heightLabel(id, field string) string {
	for i := range doc.Heights {
		switch {
		case doc.Heights[i].ID != id:
		case field == "name":
			return "renamed the height " + doc.Heights[i].Name
		default:
			return "changed " + doc.Heights[i].Name
		}
	}
	return "changed a height"
}

// setVehicle takes front/track and front_track alike.
func setVehicle(c *Document, steps []string, text string) (err error) {
	v := &c.Vehicle
	name := strings.ReplaceAll(strings.Join(steps, "_"), "_tyre_", "_")
	if name == "wheelbase" {
		v.WheelbaseMM, err = ParseLength(text, c.Show)
		return err
	}
	which, rest, _ := strings.Cut(name, "_")
	e := &v.Front
	if which == "rear" {
		e = &v.Rear
	} else if which != "front" {
		return errNoField(name)
	}
	if steps[0] == which && len(steps) > 1 && steps[1] == "suspension" {
		return setSuspension(c, e, steps[2:], text)
	}
	switch rest {
	case "tyre":
		return setTyre(&e.Tyre, text, c.Show)
	case "independent":
		err = setIndependent(e, text)
	case "steer":
		e.SteerDeg, err = ParseAngle(text)
	default:
		into := endLength(e, rest)
		if into == nil {
			return errNoField(name)
		}
		*into, err = ParseLength(text, c.Show)
	}
	return err
}

// endLength is where a length of an end is kept. A tyre's plain number takes
// the place of its code.
func endLength(e *End, name string) *float64 {
	switch name {
	case "track":
		return &e.TrackMM
	case "frame_height":
		return &e.FrameHeightMM
	case "cross":
		return &e.CrossMM
	case "deflection":
		return &e.Tyre.DeflectionMM
	}
	plain := e.Tyre.numbers()
	plain.Code = ""
	switch name {
	case "diameter":
		e.Tyre = plain
		return &e.Tyre.DiameterMM
	case "width":
		e.Tyre = plain
		return &e.Tyre.WidthMM
	case "rim":
		e.Tyre = plain
		return &e.Tyre.RimMM
	}
	return nil
}

// setTyre takes a size code, a plain diameter, or nothing: nothing keeps the
// numbers and drops the code.
func setTyre(t *Tyre, text string, show Units) error {
	deflection := t.DeflectionMM
	read, err := ParseTyre(text)
	if err != nil {
		read = t.numbers()
		read.Code = ""
		if strings.TrimSpace(text) != "" {
			d, bad := ParseLength(text, show)
			if bad != nil {
				return err
			}
			read.DiameterMM = d
		}
	}
	*t = read
	t.DeflectionMM = deflection
	return nil
}

func parseFlag(text string) (bool, error) {
	switch strings.ToLower(strings.TrimSpace(text)) {
	case "true", "yes", "on", "1":
		return true, nil
	case "false", "no", "off", "0":
		return false, nil
	}
	return false, errors.New("answer yes or no")
}

func (doc *Document) setPart(id, field string, steps []string, text string) (*Document, string, error) {
	i, err := doc.partAt(id)
	if err != nil {
		return nil, "", err
	}
	p := doc.Parts[i].clone()
	was := p.Name
	if err := doc.setOwn(&p, field, steps, text); err != nil {
		return nil, "", err
	}
	c, err := doc.withPart(i, p)
	return c, partLabel(was, &p, steps), err
}

func partLabel(was string, p *Part, steps []string) string {
	switch {
	case steps[0] == "name":
		return "renamed " + was
	case strings.HasPrefix(steps[0], "at"):
		return "moved " + p.Name
	case strings.HasPrefix(steps[0], "turn"):
		return "turned " + p.Name
	}
	if f := fieldOf(KindNamed(p.Kind).Fields, steps[0]); f != nil {
		return "changed " + p.Name + ": " + strings.ToLower(f.Label)
	}
	return "changed " + p.Name
}

// setOwn changes a field every part has, or one of its kind's.
func (doc *Document) setOwn(p *Part, field string, steps []string, text string) (err error) {
	if axis, ok := axisOf(steps, "at"); ok {
		p.AtMM[axis], err = ParseLength(text, doc.Show)
		return err
	}
	if axis, ok := axisOf(steps, "turn"); ok {
		p.TurnDeg[axis], err = ParseAngle(text)
		return err
	}
	if ok, err := doc.setStock(p, steps[0], text); ok {
		return err
	}
	switch steps[0] {
	case "name":
		if p.Name = strings.TrimSpace(text); p.Name == "" {
			return errors.New("a part needs a name")
		}
	case "note":
		p.Note = text
	case "carrier":
		doc.ride(p, Carrier(text))
	case "moves":
		p.Moves = strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' })
	case "traits":
		p.Traits = nil
		for _, w := range strings.FieldsFunc(text, func(r rune) bool { return r == ',' || r == ' ' }) {
			p.Traits = append(p.Traits, Trait(w))
		}
	case "tolerance":
		p.ToleranceMM = nil
		if strings.TrimSpace(text) != "" {
			tol, err := ParseLength(text, doc.Show)
			p.ToleranceMM = &tol
			return err
		}
	default:
		return doc.setSize(p, field, steps, text)
	}
	return nil
}

// axisOf reads at/1 or at_y.
func axisOf(steps []string, name string) (int, bool) {
	word := strings.Join(steps, "_")
	for i, axis := range []string{"x", "y", "z"} {
		if word == name+"_"+axis || word == name+"_"+strconv.Itoa(i) {
			return i, true
		}
	}
	return 0, false
}

// ride puts a part on another carrier and leaves it where it stands at ride.
func (doc *Document) ride(p *Part, on Carrier) {
	from, to := doc.Vehicle.origin(p.Carrier), doc.Vehicle.origin(on)
	for i := range p.AtMM {
		p.AtMM[i] = math.Round((p.AtMM[i]+from[i]-to[i])*1e6)/1e6 + 0
	}
	if on != p.Carrier {
		p.Moves = nil // they are fixed to the carrier it leaves
	}
	p.Carrier = on
}

// origin is a carrier's origin in body axes at ride: the frame datum lies
// FrameHeightMM over the ground at each axle, the wheel centre the tyre's
// loaded radius, both square to the ground.
func (v *Vehicle) origin(on Carrier) Vec {
	e := v.EndOf(on)
	_, upright := v.groundSlope()
	if on == Body || upright == 0 {
		return Vec{}
	}
	o := Vec{0, 0, (e.Tyre.LoadedRadius() - e.FrameHeightMM) / upright}
	if e == &v.Rear {
		o[0] = v.WheelbaseMM
	}
	switch on {
	case Ground:
		o[2] = -v.Front.FrameHeightMM / upright
	case WheelFL, WheelRL:
		o[1] = -e.TrackMM / 2
	case WheelFR, WheelRR:
		o[1] = e.TrackMM / 2
	}
	return o
}

// setSize changes a dimension: name, or name/row/column for a table.
func (doc *Document) setSize(p *Part, field string, steps []string, text string) error {
	// The name in full: pinion_deg is not pinion_mm.
	name, _, _ := strings.Cut(strings.TrimPrefix(strings.ReplaceAll(field, ".", "/"), "size/"), "/")
	f := fieldOf(KindNamed(p.Kind).Fields, name)
	if f == nil || (f.Type == Table) != (len(steps) == 3) {
		return errNoField(field)
	}
	v := p.Size[f.Name]
	var err error
	switch f.Type {
	case Choice:
		v.Text = strings.TrimSpace(text)
	case Flag:
		v.Flag, err = parseFlag(text)
	case Table:
		row, bad := strconv.Atoi(steps[1])
		col := columnOf(f, steps[2])
		if bad != nil || row < 0 || row >= len(v.Rows) || col < 0 {
			return errNoField(field)
		}
		v.Rows[row][col], err = f.Columns[col].parse(text, doc.Show)
	default:
		v.Num, err = f.parse(text, doc.Show)
	}
	p.Size[f.Name] = v
	return err
}

// fieldOf is the field of that name, with or without its unit, or nil.
func fieldOf(fields []Field, name string) *Field {
	for i := range fields {
		if fields[i].Name == name || bare(fields[i].Name) == name {
			return &fields[i]
		}
	}
	return nil
}

// columnOf is the index of a table's column by name or number, −1 for none.
func columnOf(f *Field, name string) int {
	for i := range f.Columns {
		if f.Columns[i].Name == name || bare(f.Columns[i].Name) == name || strconv.Itoa(i) == name {
			return i
		}
	}
	return -1
}

// parse reads a number of this field from text as typed.
func (f *Field) parse(text string, show Units) (float64, error) {
	if f.ZeroIs != "" && strings.TrimSpace(text) == "" {
		return 0, nil
	}
	switch f.Type {
	case Length:
		return ParseLength(text, show)
	case Angle:
		return ParseAngle(text)
	}
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return 0, errors.New("type a whole number")
	}
	return float64(n), nil
}
