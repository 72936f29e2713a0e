package scene

import "fmt"

var variantFields = []string{"note", "parts", "without", "vehicle", "heights", "movements", "without_movements",
	"needs", "without_needs", "joined", "parted", "groups", "tapes", "checked", "unmeasured", "measured"}

// variants reads the alternatives and which of them is shown.
func (d *decoder) variants(n *node, doc *Document) {
	if v := n.member("variants"); v != nil && len(v.items) > MaxVariants {
		d.fail("/variants", fmt.Sprintf("at most %d variants", MaxVariants), fmt.Sprintf("%d", len(v.items)))
	}
	d.each(n, "", "variants", func(v *node, at string) { doc.Variants = append(doc.Variants, d.variant(v, at)) })
	doc.Shown = d.text(n, "", "shown", "")
}

func (d *decoder) variant(n *node, at string) (v Variant) {
	if !d.object(n, at, []string{"id", "name"}, variantFields) {
		return v
	}
	v.ID, v.Name, v.Note = d.text(n, at, "id", ""), d.text(n, at, "name", ""), d.text(n, at, "note", "")
	if parts := n.member("parts"); parts != nil && len(parts.items) > MaxParts {
		d.fail(at+"/parts", fmt.Sprintf("at most %d parts", MaxParts), fmt.Sprintf("%d", len(parts.items)))
	}
	v.Parts = listOf(d, n, at, "parts", d.part)
	v.Without = d.words(n, at, "without")
	if c := n.member("vehicle"); c != nil {
		d.vehicleChange(c, at+"/vehicle", &v.Vehicle)
	}
	v.Heights = asGiven(n, "heights", listOf(d, n, at, "heights", d.height))
	v.Movements = listOf(d, n, at, "movements", d.movement)
	v.WithoutMovements = d.words(n, at, "without_movements")
	v.Needs = listOf(d, n, at, "needs", d.need)
	v.WithoutNeeds = listOf(d, n, at, "without_needs", d.needPair)
	v.Joined = listOf(d, n, at, "joined", d.joint)
	v.Parted = listOf(d, n, at, "parted", d.idPair)
	v.Groups = asGiven(n, "groups", listOf(d, n, at, "groups", d.group))
	v.Tapes = asGiven(n, "tapes", listOf(d, n, at, "tapes", d.tape))
	v.Checked = asGiven(n, "checked", listOf(d, n, at, "checked", d.check))
	v.Unmeasured, v.Measured = d.words(n, at, "unmeasured"), d.words(n, at, "measured")
	return v
}

func listOf[T any](d *decoder, n *node, at, key string, read func(*node, string) T) (list []T) {
	d.each(n, at, key, func(v *node, here string) { list = append(list, read(v, here)) })
	return list
}

// asGiven keeps a list that is there and empty apart from one that is not there.
func asGiven[T any](n *node, key string, list []T) []T {
	if n.member(key) != nil && list == nil {
		return []T{}
	}
	return list
}

// idPair reads two ids.
func (d *decoder) idPair(n *node, at string) (pair [2]string) {
	if n.kind != 'a' || len(n.items) != 2 || n.items[0].kind != 's' || n.items[1].kind != 's' {
		d.fail(at, "a list of two ids", n.String())
		return pair
	}
	return [2]string{n.items[0].text, n.items[1].text}
}

// needPair reads which need is meant.
func (d *decoder) needPair(n *node, at string) (out Need) {
	if !d.object(n, at, nil, []string{"parts", "traits"}) {
		return out
	}
	parts, traits := n.member("parts"), n.member("traits")
	switch {
	case (parts == nil) == (traits == nil):
		d.fail(at, "either parts or traits", "both or neither")
	case parts != nil:
		out.Parts = d.idPair(parts, at+"/parts")
	default:
		pair := d.idPair(traits, at+"/traits")
		out.Traits = [2]Trait{Trait(pair[0]), Trait(pair[1])}
	}
	return out
}

// optional reads a number that may be left out.
func (d *decoder) optional(n *node, at, key string) *float64 {
	if n.member(key) == nil {
		return nil
	}
	v := d.num(n, at, key, 0)
	return &v
}

func (d *decoder) vehicleChange(n *node, at string, c *VehicleChange) {
	if !d.object(n, at, nil, []string{"wheelbase_mm", "front", "rear"}) {
		return
	}
	c.WheelbaseMM = d.optional(n, at, "wheelbase_mm")
	d.endChange(n.member("front"), at+"/front", &c.Front)
	d.endChange(n.member("rear"), at+"/rear", &c.Rear)
}

func (d *decoder) endChange(n *node, at string, c *EndChange) {
	if n == nil || !d.object(n, at, nil, []string{"track_mm", "tyre", "frame_height_mm", "independent", "steer_deg", "cross_mm", "suspension"}) {
		return
	}
	c.TrackMM, c.FrameHeightMM = d.optional(n, at, "track_mm"), d.optional(n, at, "frame_height_mm")
	c.SteerDeg, c.CrossMM = d.optional(n, at, "steer_deg"), d.optional(n, at, "cross_mm")
	if t := n.member("tyre"); t != nil {
		c.Tyre = &Tyre{}
		d.tyre(t, at+"/tyre", c.Tyre)
	}
	if n.member("independent") != nil {
		c.Hung = &Hung{Independent: d.flag(n, at, "independent", false), Suspension: d.suspension(n.member("suspension"), at+"/suspension")}
	} else if n.member("suspension") != nil {
		d.fail(at+"/independent", "this field beside a suspension", "nothing")
	}
}

func (w *writer) variants(doc *Document) {
	if len(doc.Variants) > 0 {
		w.list("variants", len(doc.Variants), func(i int) { w.variant(&doc.Variants[i]) })
	}
	if doc.Shown != "" {
		w.line("shown", text(doc.Shown))
	}
}

func (w *writer) variant(v *Variant) {
	w.open("{")
	w.line("id", text(v.ID))
	w.line("name", text(v.Name))
	if v.Note != "" {
		w.line("note", text(v.Note))
	}
	if len(v.Parts) > 0 {
		w.list("parts", len(v.Parts), func(i int) { w.part(&v.Parts[i]) })
	}
	if len(v.Without) > 0 {
		w.line("without", wordRow(v.Without...))
	}
	w.vehicleChange(&v.Vehicle)
	if v.Heights != nil {
		w.rows("heights", len(v.Heights), func(i int) string { return heightRow(v.Heights[i]) })
	}
	w.some("movements", len(v.Movements), func(i int) string { return movementRow(v.Movements[i]) })
	if len(v.WithoutMovements) > 0 {
		w.line("without_movements", wordRow(v.WithoutMovements...))
	}
	w.some("needs", len(v.Needs), func(i int) string { return needRow(v.Needs[i]) })
	w.some("without_needs", len(v.WithoutNeeds), func(i int) string { return needPairRow(&v.WithoutNeeds[i]) })
	w.some("joined", len(v.Joined), func(i int) string { return joinedRow(v.Joined[i]) })
	w.some("parted", len(v.Parted), func(i int) string { return wordRow(v.Parted[i][:]...) })
	if v.Groups != nil {
		w.rows("groups", len(v.Groups), func(i int) string { return groupRow(v.Groups[i]) })
	}
	if v.Tapes != nil {
		w.rows("tapes", len(v.Tapes), func(i int) string { return tapeRow(v.Tapes[i]) })
	}
	if v.Checked != nil {
		w.rows("checked", len(v.Checked), func(i int) string { return checkRow(v.Checked[i]) })
	}
	w.some("unmeasured", len(v.Unmeasured), func(i int) string { return text(v.Unmeasured[i]) })
	w.some("measured", len(v.Measured), func(i int) string { return text(v.Measured[i]) })
	w.close("}")
}

// rows writes a list with an element to a line; some only when there is one.
func (w *writer) rows(name string, n int, f func(i int) string) {
	w.list(name, n, func(i int) { w.item(f(i)) })
}

func (w *writer) some(name string, n int, f func(i int) string) {
	if n > 0 {
		w.rows(name, n, f)
	}
}

func needPairRow(n *Need) string {
	if n.Traits != [2]Trait{} {
		return row("traits", wordRow(n.Traits[:]...))
	}
	return row("parts", wordRow(n.Parts[:]...))
}

func (w *writer) vehicleChange(c *VehicleChange) {
	if c.none() {
		return
	}
	w.key("vehicle")
	w.open("{")
	w.maybe("wheelbase_mm", c.WheelbaseMM)
	w.endChange("front", &c.Front)
	w.endChange("rear", &c.Rear)
	w.close("}")
}

func (w *writer) maybe(name string, v *float64) {
	if v != nil {
		w.line(name, number(*v))
	}
}

func (w *writer) endChange(name string, c *EndChange) {
	if c.none() {
		return
	}
	w.key(name)
	w.open("{")
	w.maybe("track_mm", c.TrackMM)
	if c.Tyre != nil {
		w.line("tyre", tyreRow(*c.Tyre))
	}
	w.maybe("frame_height_mm", c.FrameHeightMM)
	if c.Hung != nil {
		w.line("independent", yesNo(c.Hung.Independent))
	}
	w.maybe("steer_deg", c.SteerDeg)
	w.maybe("cross_mm", c.CrossMM)
	if c.Hung != nil {
		w.suspension(c.Hung.Suspension)
	}
	w.close("}")
}

// variants checks the alternatives: each by itself, then the document it makes.
func (c *checker) variants() {
	d := c.doc
	if n := len(d.Variants); n > MaxVariants {
		c.fail("/variants", fmt.Sprintf("at most %d variants", MaxVariants), fmt.Sprintf("%d", n))
	}
	if d.Shown != "" && d.whole == nil && d.VariantNamed(d.Shown) == nil {
		c.fail("/shown", "the id of a variant", quote(d.Shown))
	}
	seen := map[string]bool{}
	for i := range d.Variants {
		v, at := &d.Variants[i], below("/variants", i)
		c.id(at+"/id", v.ID)
		if seen[v.ID] {
			c.fail(at+"/id", "an id of its own", "a second "+quote(v.ID))
		}
		seen[v.ID] = true
		c.variant(at, v)
		if c.err != nil {
			return
		}
	}
}

func (c *checker) variant(at string, v *Variant) {
	c.line(at+"/name", v.Name)
	c.note(at+"/note", v.Note)
	c.each(at+"/parts", keysOf(v.Parts, partKey), func(here string, i int) { c.id(here+"/id", v.Parts[i].ID); c.part(here, &v.Parts[i]) })
	c.each(at+"/movements", keysOf(v.Movements, movementKey), nil)
	c.each(at+"/needs", keysOf(v.Needs, needKey), nil)
	c.each(at+"/joined", keysOf(v.Joined, joinedKey), nil)
	for i, id := range v.Without {
		c.id(below(at+"/without", i), id)
	}
	for i, id := range v.WithoutMovements {
		c.id(below(at+"/without_movements", i), id)
	}
	for i := range v.WithoutNeeds {
		if n := &v.WithoutNeeds[i]; (n.Parts == [2]string{}) == (n.Traits == [2]Trait{}) {
			c.fail(below(at+"/without_needs", i), "either parts or traits", "both or neither")
		}
	}
	if c.err != nil {
		return
	}
	made, err := Resolve(c.doc, v.ID)
	if err == nil {
		made.Photos = nil // no variant has its own
		err = made.Validate()
	}
	if err != nil {
		c.fail(at, "", "with its changes, "+err.Error())
		c.err.inside = v.wouldNot(c.doc.Show, err)
	}
}

// each checks that what a list names stands in it once, and its elements.
func (c *checker) each(at string, keys []string, check func(here string, i int)) {
	seen := map[string]bool{}
	for i, k := range keys {
		here := below(at, i)
		if seen[k] {
			c.fail(here, "each once", "a second one for "+quote(k))
		}
		seen[k] = true
		if check != nil {
			check(here, i)
		}
		if c.err != nil {
			return
		}
	}
}

// variantsSchema says what a variant may have otherwise.
func variantsSchema() obj {
	pair := func(of obj) obj { return obj{"type": "array", "minItems": 2, "maxItems": 2, "items": of} }
	list := func(most int, of obj) obj { return obj{"type": "array", "maxItems": most, "items": of} }
	ids := list(MaxParts, idSchema())
	which := closed(obj{"parts": pair(idSchema()), "traits": pair(obj{"$ref": "#/$defs/trait"})})
	which["oneOf"] = []obj{{"required": []string{"parts"}}, {"required": []string{"traits"}}}
	joined := closed(obj{"a": idSchema(), "b": idSchema(), "why": oneLine("Why the two may touch.")}, "a", "b")
	return obj{"type": "array", "maxItems": MaxVariants,
		"description": "Alternatives. What a variant does not name is as drawn.",
		"items": closed(obj{
			"id": idSchema(), "name": oneLine("Shown name."), "note": obj{"type": "string", "maxLength": noteRunes},
			"parts":     list(MaxParts, obj{"$ref": "#/$defs/part"}),
			"without":   ids,
			"vehicle":   vehicleChangeSchema(),
			"heights":   heightsSchema(),
			"movements": movementSchema(), "without_movements": ids,
			"needs": list(maxPairs, needSchema()), "without_needs": list(maxPairs, which),
			"joined": list(maxPairs, joined), "parted": list(maxPairs, pair(idSchema())),
			"groups": groupSchema(), "tapes": tapesSchema(), "checked": checkedSchema(),
			"unmeasured": unmeasuredSchema(), "measured": unmeasuredSchema(),
		}, "id", "name")}
}

// vehicleChangeSchema is the vehicle's schema with nothing required.
func vehicleChangeSchema() obj {
	full := vehicleSchema()["properties"].(obj)
	loose := obj{"wheelbase_mm": full["wheelbase_mm"]}
	for _, end := range []string{"front", "rear"} {
		o := closed(full[end].(obj)["properties"].(obj))
		o["dependentRequired"] = obj{"suspension": []string{"independent"}}
		loose[end] = o
	}
	return closed(loose)
}
