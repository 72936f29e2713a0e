package scene

import (
	"bytes"
	"fmt"
)

// View is the whole document as seen through a variant: the document [Resolve]
// makes, which remembers what it is a part of. Edits of it are the variant's,
// and [Encode] writes all of it. For the empty id it is the document itself, as
// drawn.
func View(doc *Document, id string) (*Document, error) {
	doc = doc.Whole()
	if id == "" {
		c := *doc
		c.Shown = ""
		return &c, nil
	}
	c, err := Resolve(doc, id)
	if err != nil {
		return nil, err
	}
	c.whole, c.Shown = doc, id
	return c, nil
}

// Whole is the document of which this one is a view, with what the view has
// become; a document that is no view is whole.
func (doc *Document) Whole() *Document {
	if doc.whole == nil {
		return doc
	}
	c, err := Keep(doc.whole, doc.Shown, doc)
	if err != nil { // the variant was there when the view was made, and a whole document never changes
		return doc.whole
	}
	return c
}

// Alternatives lists the variants of the file a document is of, for their names:
// what the one that is shown has become is not in it; see [Document.Whole].
func (doc *Document) Alternatives() []Variant {
	if doc.whole != nil {
		return doc.whole.Variants
	}
	return doc.Variants
}

// through is the document as seen through a variant, or as it is where that is
// not there.
func (doc *Document) through(id string) *Document {
	if doc.Shown == id {
		return doc
	}
	if c, err := View(doc, id); err == nil {
		return c
	}
	return doc
}

// VariantsHold says in one sentence which variant would not hold any more with
// what a document has become; nil for none.
func (doc *Document) VariantsHold() error {
	all := doc.Whole()
	for i := range all.Variants {
		v := &all.Variants[i]
		made, err := Resolve(all, v.ID)
		if err == nil {
			made.Photos = nil // no variant has its own
			err = made.Validate()
		}
		if err != nil {
			return v.wouldNot(doc.Show, err)
		}
	}
	return nil
}

// wouldNot says in one sentence why a variant does not hold.
func (v *Variant) wouldNot(show Units, err error) error {
	return fmt.Errorf("the variant %s would not hold: %w", v.Name, sentence(show, nil, err))
}

// SameDrawn says whether two documents have the same parts and numbers, whatever
// variants and photos they hold.
func SameDrawn(a, b *Document) bool {
	plain := func(doc *Document) []byte {
		c := *doc
		c.Variants, c.Shown, c.whole, c.Photos = nil, "", nil, nil
		return Encode(&c)
	}
	return a == b || bytes.Equal(plain(a), plain(b))
}
