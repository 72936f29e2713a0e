package scene

import (
	"errors"
	"fmt"
	"strings"
)

// Keep puts an edited document back into the whole one it was resolved from.
// For the empty id it is the scene as drawn that was edited; every variant
// follows it where it says nothing else. Otherwise the variant of that id keeps
// what differs, and what no variant has of its own (the name, the tolerance,
// the money, the shelf) is the whole document's.
func Keep(whole *Document, id string, edited *Document) (*Document, error) {
	c := *edited
	c.Variants, c.Shown, c.whole = whole.Variants, id, nil
	if id == "" {
		return &c, nil
	}
	c.drawnFrom(whole)
	c.Variants = append([]Variant(nil), whole.Variants...)
	v := c.VariantNamed(id)
	if v == nil {
		return nil, fmt.Errorf("there is no variant %s", quote(id))
	}
	*v = v.named(Diff(&c, edited))
	return &c, nil
}

// drawnFrom takes over all that a variant may have of its own.
func (doc *Document) drawnFrom(from *Document) {
	doc.Vehicle, doc.Heights, doc.Movements, doc.Parts = from.Vehicle, from.Heights, from.Movements, from.Parts
	doc.Needs, doc.Joined = from.Needs, from.Joined
	doc.Groups, doc.Tapes, doc.Checked, doc.Unmeasured = from.Groups, from.Tapes, from.Checked, from.Unmeasured
}

// named is a change under the name of v.
func (v *Variant) named(change Variant) Variant {
	change.ID, change.Name, change.Note = v.ID, v.Name, v.Note
	return change
}

// AddVariant keeps what is shown as a variant of its own, and shows it.
func AddVariant(doc *Document, name string) (*Document, string, error) {
	name = strings.TrimSpace(name)
	if name == "" {
		return nil, "", errors.New("a variant needs a name")
	}
	if len(doc.Variants) >= MaxVariants {
		return nil, "", fmt.Errorf("a scene has at most %d variants", MaxVariants)
	}
	var v Variant
	if from := doc.VariantNamed(doc.Shown); from != nil {
		v = *from
	}
	v.ID, v.Name, v.Note = doc.freeVariant(name), name, ""
	c := *doc
	c.Variants = append(append([]Variant(nil), doc.Variants...), v)
	c.Shown = v.ID
	return c.checkedAs("made the variant " + name)
}

func (doc *Document) freeVariant(name string) string {
	base := slug(name)
	id := base
	for n := 2; doc.VariantNamed(id) != nil; n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	return id
}

// SetVariant changes a variant's name or note.
func SetVariant(doc *Document, id, field, text string) (*Document, string, error) {
	c := *doc
	c.Variants = append([]Variant(nil), doc.Variants...)
	v := c.VariantNamed(id)
	if v == nil {
		return nil, "", fmt.Errorf("there is no variant %s", quote(id))
	}
	was := v.Name
	switch field {
	case "name":
		if v.Name = strings.TrimSpace(text); v.Name == "" {
			return nil, "", errors.New("a variant needs a name")
		}
	case "note":
		v.Note = text
	default:
		return nil, "", errNoField(field)
	}
	label := "changed the variant " + was
	if field == "name" {
		label = "renamed the variant " + was
	}
	return c.checkedAs(label)
}

// DropVariant takes a variant away. Where it was shown, the scene as drawn is.
func DropVariant(doc *Document, id string) (*Document, string, error) {
	v := doc.VariantNamed(id)
	if v == nil {
		return nil, "", fmt.Errorf("there is no variant %s", quote(id))
	}
	c := *doc
	c.Variants = kept(doc.Variants, func(o *Variant) bool { return o.ID != id })
	if doc.Shown == id {
		c.Shown = ""
	}
	return &c, "deleted the variant " + v.Name, nil
}

// TakeVariant makes a variant the scene as drawn. What was drawn before takes
// its place among the variants, and every other variant stays what it was.
func TakeVariant(doc *Document, id string) (*Document, string, error) {
	taken, err := Resolve(doc, id)
	if err != nil || id == "" {
		return nil, "", fmt.Errorf("there is no variant %s", quote(id))
	}
	c := *doc
	c.drawnFrom(taken)
	c.Shown = ""
	c.Variants = append([]Variant(nil), doc.Variants...)
	for i := range c.Variants {
		v, from := &c.Variants[i], doc.Variants[i].ID
		if v.ID == id {
			from = ""
			before := doc.Variants[i]
			before.Name, before.Note = "As drawn before", ""
			before.ID = doc.freeVariant(before.Name)
			*v = before
		}
		was, err := Resolve(doc, from)
		if err != nil {
			return nil, "", err
		}
		*v = v.named(Diff(&c, was))
	}
	return c.checkedAs("made " + doc.VariantNamed(id).Name + " the one drawn")
}

// reserved adds the ids that a new part must not get, beside those of the
// parts: it would be taken for what is on the shelf or in a variant.
func (doc *Document) reserved(taken map[string]bool) {
	for i := range doc.Shelf {
		taken[doc.Shelf[i].ID] = true
	}
	if doc.whole != nil {
		for i := range doc.whole.Parts {
			taken[doc.whole.Parts[i].ID] = true
		}
		doc.whole.reserved(taken)
	}
	for i := range doc.Variants {
		for k := range doc.Variants[i].Parts {
			taken[doc.Variants[i].Parts[k].ID] = true
		}
	}
}
