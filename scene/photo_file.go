package scene

import "fmt"

func (d *decoder) photo(n *node, at string) (p Photo) {
	if !d.object(n, at, []string{"id", "view", "size_px", "at_px", "at_mm", "type", "base64"},
		[]string{"name", "station_mm", "corners_px", "wide_mm", "high_mm", "known", "ends_px", "length_mm", "checks",
			"turn_deg", "mirrored", "opacity", "hidden"}) {
		return p
	}
	p.ID, p.View = d.text(n, at, "id", ""), PhotoView(d.text(n, at, "view", ""))
	p.Name = d.text(n, at, "name", p.ID)
	p.StationMM = d.num(n, at, "station_mm", 0)
	d.photoTruth(n, at, &p)
	p.AtPX, p.AtMM = d.point(n, at, "at_px"), d.point(n, at, "at_mm")
	p.TurnDeg, p.Mirrored = d.num(n, at, "turn_deg", 0), d.flag(n, at, "mirrored", false)
	p.Opacity, p.Hidden = d.num(n, at, "opacity", 1), d.flag(n, at, "hidden", false)
	size := d.point(n, at, "size_px")
	kind, text := d.text(n, at, "type", ""), d.text(n, at, "base64", "")
	if d.err != nil {
		return p
	}
	picture, err := NewPicture(kind, text)
	if err != nil {
		d.fail(at+"/base64", "", "expected "+err.Error())
		return p
	}
	if wide, high := picture.Size(); size != (Spot{float64(wide), float64(high)}) {
		d.fail(at+"/size_px", fmt.Sprintf("the picture's size, %d by %d", wide, high), number(size[0])+" by "+number(size[1]))
	}
	p.Picture = picture
	return p
}

// photoTruth reads what makes a photo true to scale.
func (d *decoder) photoTruth(n *node, at string, p *Photo) {
	rect, line := []string{"corners_px", "wide_mm", "high_mm"}, []string{"ends_px", "length_mm"}
	needed := rect
	if n.member("ends_px") != nil || n.member("length_mm") != nil {
		needed = line
		for _, key := range append(rect, "known") {
			if n.member(key) != nil {
				d.fail(below(at, key), "nothing: two ends make this photo true", "it")
			}
		}
	}
	for _, key := range needed {
		if n.member(key) == nil {
			d.fail(below(at, key), "this field", "nothing")
		}
	}
	if n.member("ends_px") != nil {
		d.points(n, at, "ends_px", p.Ends[:])
		if p.LengthMM = d.num(n, at, "length_mm", 0); p.LengthMM == 0 && d.err == nil {
			d.fail(at+"/length_mm", "a length", "0")
		}
	} else if n.member("corners_px") != nil {
		d.points(n, at, "corners_px", p.Corners[:])
		p.WideMM, p.HighMM = d.num(n, at, "wide_mm", 0), d.num(n, at, "high_mm", 0)
	}
	d.each(n, at, "known", func(v *node, here string) {
		if d.object(v, here, []string{"px", "mm"}, nil) {
			p.Known = append(p.Known, PhotoPoint{d.point(v, here, "px"), d.point(v, here, "mm")})
		}
	})
	d.each(n, at, "checks", func(v *node, here string) {
		if d.object(v, here, []string{"from_px", "to_px", "length_mm"}, nil) {
			p.Checks = append(p.Checks, PhotoCheck{d.point(v, here, "from_px"), d.point(v, here, "to_px"), d.num(v, here, "length_mm", 0)})
		}
	})
}

// points reads a list of exactly as many points as out takes.
func (d *decoder) points(n *node, at, key string, out []Spot) {
	count := 0
	d.each(n, at, key, func(v *node, here string) {
		if count < len(out) {
			out[count] = d.pointOf(v, here)
		}
		count++
	})
	if d.err == nil && count != len(out) {
		d.fail(below(at, key), fmt.Sprintf("%d points", len(out)), fmt.Sprintf("%d", count))
	}
}

// point reads two numbers under key; absent it is zero.
func (d *decoder) point(n *node, at, key string) (p Spot) {
	v := n.member(key)
	if d.err != nil || v == nil {
		return p
	}
	return d.pointOf(v, below(at, key))
}

func (d *decoder) pointOf(v *node, at string) (p Spot) {
	if v.kind != 'a' || len(v.items) != 2 {
		got := v.String()
		if v.kind == 'a' {
			got = fmt.Sprintf("%d", len(v.items))
		}
		d.fail(at, "a list of two numbers", got)
		return p
	}
	for i, item := range v.items {
		p[i] = d.value(item, below(at, i))
	}
	return p
}

func pointRow(p Spot) string { return "[" + number(p[0]) + ", " + number(p[1]) + "]" }

func pointsRow(list []Spot) string {
	out := "["
	for i, p := range list {
		if i > 0 {
			out += ", "
		}
		out += pointRow(p)
	}
	return out + "]"
}

func (w *writer) photo(p *Photo) {
	w.open("{")
	w.line("id", text(p.ID))
	w.line("name", text(p.Name))
	w.line("view", text(string(p.View)))
	if p.View == PhotoSection {
		w.line("station_mm", number(p.StationMM))
	}
	if p.Rectangle() {
		w.line("corners_px", pointsRow(p.Corners[:]))
		w.line("wide_mm", number(p.WideMM))
		w.line("high_mm", number(p.HighMM))
	} else {
		w.line("ends_px", pointsRow(p.Ends[:]))
		w.line("length_mm", number(p.LengthMM))
	}
	if len(p.Known) > 0 {
		w.list("known", len(p.Known), func(i int) {
			w.item(row("px", pointRow(p.Known[i].PX), "mm", pointRow(p.Known[i].MM)))
		})
	}
	if len(p.Checks) > 0 {
		w.list("checks", len(p.Checks), func(i int) {
			k := p.Checks[i]
			w.item(row("from_px", pointRow(k.From), "to_px", pointRow(k.To), "length_mm", number(k.LengthMM)))
		})
	}
	w.line("at_px", pointRow(p.AtPX))
	w.line("at_mm", pointRow(p.AtMM))
	w.line("turn_deg", number(p.TurnDeg))
	w.line("mirrored", yesNo(p.Mirrored))
	w.line("opacity", number(p.Opacity))
	w.line("hidden", yesNo(p.Hidden))
	w.picture(p.Picture)
	w.close("}")
}

func (w *writer) picture(p *Picture) {
	if p == nil {
		return // no valid document has such a photo
	}
	w.line("size_px", pointRow(Spot{float64(p.wide), float64(p.high)}))
	w.line("type", text(p.kind))
	if w.keys {
		w.line("base64", text(keyMark+p.key))
		return
	}
	// It was checked when it was made: base64 needs no escapes.
	w.key("base64")
	w.keyed = false
	w.buf.WriteByte('"')
	w.buf.WriteString(p.base64)
	w.buf.WriteByte('"')
}

func photoSchema() obj {
	far := numSchema(-farMM, farMM, "")
	pair := func(of obj, about string) obj {
		return obj{"type": "array", "minItems": 2, "maxItems": 2, "items": of, "description": about}
	}
	inPicture := numSchema(0, MaxPicturePX, "")
	px := func(about string) obj { return pair(inPicture, about) }
	length := func(about string) obj { return numSchema(minPhotoMM, farMM, about) }
	many := func(of obj, n int, about string) obj {
		return obj{"type": "array", "minItems": n, "maxItems": n, "items": of, "description": about}
	}
	o := closed(obj{
		"id": idSchema(), "name": oneLine("Shown name."),
		"view":       obj{"enum": []PhotoView{PhotoSection, PhotoSide, PhotoPlan}, "description": "The view it stands behind."},
		"station_mm": numSchema(-farMM, farMM, "Section: the station it is of."),
		"corners_px": many(px(""), 4, "A rectangle's corners in the picture: lower left, lower right, upper right, upper left."),
		"wide_mm":    length("The rectangle's width."), "high_mm": length("The rectangle's height."),
		"known": obj{"type": "array", "maxItems": maxPhotoPoints, "items": closed(obj{
			"px": px(""), "mm": pair(far, "To the right and up from the lower left corner.")}, "px", "mm"),
			"description": "More known points of the rectangle's plane."},
		"ends_px":   many(px(""), 2, "Two ends of a known length, in a photo taken straight on."),
		"length_mm": length("That length."),
		"checks": obj{"type": "array", "maxItems": maxPhotoPoints, "items": closed(obj{
			"from_px": px(""), "to_px": px(""), "length_mm": length("")}, "from_px", "to_px", "length_mm"),
			"description": "Lengths measured to see whether the photo is right."},
		"at_px":    px("The point of the picture that lies at at_mm."),
		"at_mm":    pair(far, "Where it lies in the view's plane: Y and Z in a section, X and Z in the side view, X and Y in the plan."),
		"turn_deg": numSchema(-180, 180, "Turned about that point, anticlockwise as seen."),
		"mirrored": obj{"type": "boolean", "description": "Taken from the other side of the view."},
		"opacity":  numSchema(minOpacity, 1, ""),
		"hidden":   obj{"type": "boolean"},
		"size_px":  pair(obj{"type": "integer", "minimum": minPicturePX, "maximum": MaxPicturePX}, "The picture's width and height."),
		"type":     obj{"enum": []string{JPEG, WebP}},
		"base64": obj{"type": "string", "contentEncoding": "base64", "maxLength": (MaxPictureBytes + 2) / 3 * 4,
			"pattern": "^[A-Za-z0-9+/]+={0,2}$", "description": "The picture's bytes."},
	}, "id", "view", "size_px", "at_px", "at_mm", "type", "base64")
	none := func(keys ...string) obj {
		m := obj{}
		for _, k := range keys {
			m[k] = false
		}
		return m
	}
	o["oneOf"] = []obj{
		{"required": []string{"corners_px", "wide_mm", "high_mm"}, "properties": none("ends_px", "length_mm")},
		{"required": []string{"ends_px", "length_mm"}, "properties": none("corners_px", "wide_mm", "high_mm", "known")},
	}
	return obj{"type": "array", "maxItems": MaxPhotos, "items": o, "description": "Photos of the real thing, behind the views."}
}
