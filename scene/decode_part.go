package scene

import "fmt"

func (d *decoder) vehicle(n *node, at string, v *Vehicle) {
	if d.object(n, at, []string{"wheelbase_mm", "front", "rear"}, nil) {
		v.WheelbaseMM = d.num(n, at, "wheelbase_mm", 0)
		d.end(n.member("front"), at+"/front", &v.Front)
		d.end(n.member("rear"), at+"/rear", &v.Rear)
	}
}

func (d *decoder) end(n *node, at string, e *End) {
	if !d.object(n, at, []string{"track_mm", "tyre", "frame_height_mm"}, []string{"independent", "steer_deg", "cross_mm", "suspension"}) {
		return
	}
	e.TrackMM = d.num(n, at, "track_mm", 0)
	d.tyre(n.member("tyre"), at+"/tyre", &e.Tyre)
	e.FrameHeightMM = d.num(n, at, "frame_height_mm", 0)
	e.Independent = d.flag(n, at, "independent", false)
	e.SteerDeg, e.CrossMM = d.num(n, at, "steer_deg", 0), d.num(n, at, "cross_mm", 0)
	e.Suspension = d.suspension(n.member("suspension"), at+"/suspension")
}

// tyre reads a code, or plain numbers: one or the other.
func (d *decoder) tyre(n *node, at string, t *Tyre) {
	if n.kind == 'o' && n.member("code") != nil {
		if !d.object(n, at, []string{"code"}, []string{"deflection_mm"}) {
			return
		}
		read, err := ParseTyre(d.text(n, at, "code", ""))
		if err != nil {
			d.fail(at+"/code", "a tyre size such as 225/45R17", n.member("code").String())
		}
		*t = read
	} else if d.object(n, at, []string{"diameter_mm", "width_mm", "rim_mm"}, []string{"deflection_mm"}) {
		t.DiameterMM, t.WidthMM = d.num(n, at, "diameter_mm", 0), d.num(n, at, "width_mm", 0)
		t.RimMM = d.num(n, at, "rim_mm", 0)
	}
	t.DeflectionMM = d.num(n, at, "deflection_mm", 0)
}

func (d *decoder) part(n *node, at string) (p Part) {
	if !d.object(n, at, []string{"id", "kind"},
		[]string{"name", "carrier", "at_mm", "turn_deg", "traits", "moves", "tolerance_mm", "mass_kg", "price", "state", "note", "locked", "measured_from", "size"}) {
		return p
	}
	p.ID, p.Kind = d.text(n, at, "id", ""), d.text(n, at, "kind", "")
	k := KindNamed(p.Kind)
	if d.err == nil && k == nil {
		d.fail(at+"/kind", "a kind of part", quote(p.Kind))
	}
	if d.err != nil {
		return p
	}
	p.Name = d.text(n, at, "name", k.Label)
	p.Carrier = Carrier(d.text(n, at, "carrier", string(k.Carriers[0])))
	p.AtMM, p.TurnDeg = d.vec(n, at, "at_mm"), d.vec(n, at, "turn_deg")
	for _, t := range d.words(n, at, "traits") {
		p.Traits = append(p.Traits, Trait(t))
	}
	p.Moves = d.words(n, at, "moves")
	if n.member("tolerance_mm") != nil {
		tol := d.num(n, at, "tolerance_mm", 0)
		p.ToleranceMM = &tol
	}
	d.stock(n, at, &p)
	p.Note = d.text(n, at, "note", "")
	p.Locked = d.flag(n, at, "locked", false)
	d.each(n, at, "measured_from", func(v *node, here string) { p.MeasuredFrom = append(p.MeasuredFrom, d.measured(v, here)) })
	p.Size = k.DefaultSize()
	if size := n.member("size"); size != nil {
		d.size(size, at+"/size", k, p.Size)
	}
	return p
}

// size reads the fields that are there over the defaults.
func (d *decoder) size(n *node, at string, k *Kind, s Size) {
	names := make([]string, len(k.Fields))
	for i, f := range k.Fields {
		names[i] = f.Name
	}
	if !d.object(n, at, nil, names) {
		return
	}
	for i := range k.Fields {
		f := &k.Fields[i]
		if n.member(f.Name) == nil {
			continue
		}
		var v Value
		switch f.Type {
		case Choice:
			v.Text = d.text(n, at, f.Name, "")
		case Flag:
			v.Flag = d.flag(n, at, f.Name, false)
		case Table:
			v.Rows = d.rows(n, at, f)
		default:
			v.Num = d.num(n, at, f.Name, 0)
		}
		s[f.Name] = v
	}
}

// rows reads a table: a list of objects with the columns as fields.
func (d *decoder) rows(n *node, at string, f *Field) (rows []Row) {
	names := make([]string, len(f.Columns))
	for i, c := range f.Columns {
		names[i] = c.Name
	}
	if v := n.member(f.Name); len(v.items) > f.MaxRows {
		d.fail(below(at, f.Name), fmt.Sprintf("at most %d rows", f.MaxRows), fmt.Sprintf("%d", len(v.items)))
	}
	d.each(n, at, f.Name, func(v *node, here string) {
		if !d.object(v, here, nil, names) {
			return
		}
		row := make(Row, len(f.Columns))
		for i, c := range f.Columns {
			row[i] = d.num(v, here, c.Name, c.Default)
		}
		rows = append(rows, row)
	})
	return rows
}
