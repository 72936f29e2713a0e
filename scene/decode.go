package scene

import (
	"fmt"
	"math"
	"sort"
	"strconv"
)

// Decode reads a scene file. It is strict: a document it returns validates,
// and what it refuses is told by a *[PlaceError]. Fields left out take their
// defaults.
func Decode(data []byte) (*Document, error) {
	root, err := readTree(data)
	if err != nil {
		return nil, err
	}
	d := &decoder{}
	doc := d.document(root)
	if d.err != nil {
		return nil, d.err
	}
	if err := doc.Validate(); err != nil {
		return nil, err
	}
	sort.Strings(doc.Unmeasured)
	return doc, nil
}

// decoder turns nodes into a document; after the first fault it does nothing more.
type decoder struct{ err error }

func (d *decoder) fail(place, expected, got string) {
	if d.err == nil {
		d.err = &PlaceError{Place: place, Expected: expected, Got: got}
	}
}

// object makes sure that n is an object of known keys with the needed ones.
func (d *decoder) object(n *node, place string, needed, optional []string) bool {
	if d.err != nil {
		return false
	}
	if n.kind != 'o' {
		d.fail(place, "an object", n.String())
		return false
	}
	for _, k := range n.keys {
		if !contains(needed, k) && !contains(optional, k) {
			d.fail(below(place, k), "a known field", "an unknown one")
			return false
		}
	}
	for _, k := range needed {
		if n.member(k) == nil {
			d.fail(below(place, k), "this field", "nothing")
			return false
		}
	}
	return true
}

func contains[T comparable](list []T, v T) bool {
	for _, w := range list {
		if w == v {
			return true
		}
	}
	return false
}

// text reads the text under key; absent it leaves def.
func (d *decoder) text(n *node, place, key, def string) string {
	v := n.member(key)
	if d.err != nil || v == nil {
		return def
	}
	if v.kind != 's' {
		d.fail(below(place, key), "text", v.String())
	}
	return v.text
}

// flag reads the yes or no under key; absent it leaves def.
func (d *decoder) flag(n *node, place, key string, def bool) bool {
	v := n.member(key)
	if d.err != nil || v == nil {
		return def
	}
	if v.kind != 'b' {
		d.fail(below(place, key), "true or false", v.String())
	}
	return v.yes
}

// num reads the number under key; absent it leaves def.
func (d *decoder) num(n *node, place, key string, def float64) float64 {
	v := n.member(key)
	if d.err != nil || v == nil {
		return def
	}
	return d.value(v, below(place, key))
}

// value reads a number. Minus zero is zero: the two would be written differently.
func (d *decoder) value(v *node, place string) float64 {
	if v.kind != 'n' {
		d.fail(place, "a number", v.String())
		return 0
	}
	f, err := strconv.ParseFloat(v.text, 64)
	if err != nil || math.IsInf(f, 0) {
		d.fail(place, "a number that can be stored", v.String())
		return 0
	}
	return f + 0
}

// vec reads three numbers under key; absent it is zero.
func (d *decoder) vec(n *node, place, key string) (out Vec) {
	v := n.member(key)
	if d.err != nil || v == nil {
		return out
	}
	place = below(place, key)
	if v.kind != 'a' || len(v.items) != 3 {
		got := v.String()
		if v.kind == 'a' {
			got = fmt.Sprintf("%d", len(v.items))
		}
		d.fail(place, "a list of three numbers", got)
		return out
	}
	for i, item := range v.items {
		out[i] = d.value(item, below(place, i))
	}
	return out
}

// each calls f for the elements of the list under key.
func (d *decoder) each(n *node, place, key string, f func(v *node, place string)) {
	v := n.member(key)
	if d.err != nil || v == nil {
		return
	}
	place = below(place, key)
	if v.kind != 'a' {
		d.fail(place, "a list", v.String())
		return
	}
	for i, item := range v.items {
		if f(item, below(place, i)); d.err != nil {
			return
		}
	}
}

// words reads a list of text under key.
func (d *decoder) words(n *node, place, key string) (out []string) {
	d.each(n, place, key, func(v *node, at string) {
		if v.kind != 's' {
			d.fail(at, "text", v.String())
		}
		out = append(out, v.text)
	})
	return out
}

// DefaultToleranceMM is the tolerance of a document that states none: what a
// tape and a hand-made bracket are good for.
const DefaultToleranceMM = 3

func (d *decoder) document(n *node) *Document {
	doc := &Document{Format: Format, Version: Version}
	d.version(n)
	if !d.object(n, "", []string{"format", "version", "vehicle", "heights"},
		[]string{"name", "note", "show", "tolerance_mm", "currency", "budget", "shelf", "variants", "shown", "movements", "parts", "groups", "needs", "joined", "photos", "tapes", "checked", "unmeasured"}) {
		return doc
	}
	doc.Name = d.text(n, "", "name", "")
	doc.Note = d.text(n, "", "note", "")
	doc.Show = Units(d.text(n, "", "show", string(Millimetres)))
	doc.ToleranceMM = d.num(n, "", "tolerance_mm", DefaultToleranceMM)
	d.money(n, doc)
	d.vehicle(n.member("vehicle"), "/vehicle", &doc.Vehicle)
	d.each(n, "", "heights", func(v *node, at string) { doc.Heights = append(doc.Heights, d.height(v, at)) })
	d.each(n, "", "movements", func(v *node, at string) { doc.Movements = append(doc.Movements, d.movement(v, at)) })
	if parts := n.member("parts"); parts != nil && len(parts.items) > MaxParts {
		d.fail("/parts", fmt.Sprintf("at most %d parts", MaxParts), fmt.Sprintf("%d", len(parts.items)))
	}
	d.each(n, "", "parts", func(v *node, at string) { doc.Parts = append(doc.Parts, d.part(v, at)) })
	d.each(n, "", "groups", func(v *node, at string) { doc.Groups = append(doc.Groups, d.group(v, at)) })
	d.each(n, "", "needs", func(v *node, at string) { doc.Needs = append(doc.Needs, d.need(v, at)) })
	d.each(n, "", "joined", func(v *node, at string) { doc.Joined = append(doc.Joined, d.joint(v, at)) })
	d.each(n, "", "photos", func(v *node, at string) { doc.Photos = append(doc.Photos, d.photo(v, at)) })
	doc.Unmeasured = d.words(n, "", "unmeasured")
	d.each(n, "", "tapes", func(v *node, at string) { doc.Tapes = append(doc.Tapes, d.tape(v, at)) })
	d.each(n, "", "checked", func(v *node, at string) { doc.Checked = append(doc.Checked, d.check(v, at)) })
	d.shelf(n, doc)
	d.variants(n, doc)
	return doc
}

// version is looked at first: a newer file may look different in every other way.
func (d *decoder) version(n *node) {
	if n.kind != 'o' {
		d.fail("", "an object", n.String())
		return
	}
	if f := n.member("format"); f != nil && (f.kind != 's' || f.text != Format) {
		d.fail("/format", quote(Format), f.String())
		return
	}
	v := n.member("version")
	if v == nil {
		return // told as a missing field
	}
	if x := d.value(v, "/version"); d.err == nil && x > Version && x == math.Trunc(x) {
		d.fail("/version", "", fmt.Sprintf("made by a newer Scrubline: version %s, this one reads up to %d", number(x), Version))
	} else if d.err == nil && x != Version {
		d.fail("/version", fmt.Sprintf("version %d", Version), v.String())
	}
}

func (d *decoder) height(n *node, at string) (h Height) {
	if d.object(n, at, []string{"id", "front_mm", "rear_mm"}, []string{"name"}) {
		h.ID = d.text(n, at, "id", "")
		h.Name = d.text(n, at, "name", heightName(h.ID))
		h.FrontMM, h.RearMM = d.num(n, at, "front_mm", 0), d.num(n, at, "rear_mm", 0)
	}
	return h
}

// heightName is what a height is called that has no name of its own.
func heightName(id string) string {
	switch id {
	case AiredOut:
		return "Aired out"
	case Ride:
		return "Ride"
	case AiredUp:
		return "Aired up"
	}
	return id
}

func (d *decoder) need(n *node, at string) (out Need) {
	if !d.object(n, at, nil, []string{"parts", "traits", "need_mm", "shielded", "why"}) {
		return out
	}
	parts, traits := n.member("parts"), n.member("traits")
	if (parts == nil) == (traits == nil) {
		d.fail(at, "either parts or traits", "both or neither")
		return out
	}
	key := "parts"
	if traits != nil {
		key = "traits"
	}
	words := d.words(n, at, key)
	if d.err == nil && len(words) != 2 {
		d.fail(below(at, key), "two of them", fmt.Sprintf("%d", len(words)))
	}
	if d.err != nil {
		return out
	}
	if traits != nil {
		out.Traits = [2]Trait{Trait(words[0]), Trait(words[1])}
	} else {
		out.Parts = [2]string{words[0], words[1]}
	}
	out.Shielded = d.flag(n, at, "shielded", false)
	if n.member("need_mm") == nil && !out.Shielded {
		d.fail(below(at, "need_mm"), "this field, or a shield", "nothing")
	}
	out.NeedMM, out.Why = d.num(n, at, "need_mm", 0), d.text(n, at, "why", "")
	return out
}

func (d *decoder) joint(n *node, at string) (j Joined) {
	if d.object(n, at, []string{"a", "b"}, []string{"why"}) {
		j = Joined{A: d.text(n, at, "a", ""), B: d.text(n, at, "b", ""), Why: d.text(n, at, "why", "")}
	}
	return j
}
