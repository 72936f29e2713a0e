package scene

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
