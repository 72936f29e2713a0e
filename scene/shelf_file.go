package scene

import "fmt"

// shelfFields are the fields of an entry of the shelf beside its id and kind.
var shelfFields = []string{"name", "traits", "mass_kg", "price", "state", "note", "size"}

// stock reads what every part may say of itself for the shelf.
func (d *decoder) stock(n *node, at string, p *Part) {
	if n.member("mass_kg") != nil {
		kg := d.num(n, at, "mass_kg", 0)
		p.MassKG = &kg
	}
	if n.member("price") != nil {
		v := d.num(n, at, "price", 0)
		p.Price = &v
	}
	p.State = PartState(d.text(n, at, "state", ""))
}

// money reads what the document says of money.
func (d *decoder) money(n *node, doc *Document) {
	doc.Currency = d.text(n, "", "currency", "")
	if n.member("budget") != nil {
		v := d.num(n, "", "budget", 0)
		doc.Budget = &v
	}
}

// shelf reads the parts that are not placed. They have no place, nothing moves
// them, and their carrier is their kind's first.
func (d *decoder) shelf(n *node, doc *Document) {
	if shelf := n.member("shelf"); shelf != nil && len(shelf.items) > MaxShelf {
		d.fail("/shelf", fmt.Sprintf("at most %d parts", MaxShelf), fmt.Sprintf("%d", len(shelf.items)))
	}
	d.each(n, "", "shelf", func(v *node, at string) {
		if d.object(v, at, []string{"id", "kind"}, shelfFields) {
			doc.Shelf = append(doc.Shelf, d.part(v, at))
		}
	})
}

func (w *writer) stock(p *Part) {
	if p.MassKG != nil {
		w.line("mass_kg", number(*p.MassKG))
	}
	if p.Price != nil {
		w.line("price", number(*p.Price))
	}
	if p.State != "" {
		w.line("state", text(string(p.State)))
	}
}

func (w *writer) money(doc *Document) {
	if doc.Currency != "" {
		w.line("currency", text(doc.Currency))
	}
	if doc.Budget != nil {
		w.line("budget", number(*doc.Budget))
	}
}

func (w *writer) shelf(doc *Document) {
	if len(doc.Shelf) == 0 {
		return
	}
	w.list("shelf", len(doc.Shelf), func(i int) {
		p := &doc.Shelf[i]
		w.open("{")
		w.line("id", text(p.ID))
		w.line("name", text(p.Name))
		w.line("kind", text(p.Kind))
		if len(p.Traits) > 0 {
			w.line("traits", wordRow(p.Traits...))
		}
		w.stock(p)
		if p.Note != "" {
			w.line("note", text(p.Note))
		}
		w.size(KindNamed(p.Kind), p.Size)
		w.close("}")
	})
}

// stock checks what a part says of itself for the shelf.
func (c *checker) stock(at string, p *Part) {
	if p.MassKG != nil {
		c.num(at+"/mass_kg", *p.MassKG, 0, massKG)
	}
	if p.Price != nil {
		c.num(at+"/price", *p.Price, 0, priceMost)
	}
	if p.State != "" && !contains(PartStates, p.State) {
		c.fail(at+"/state", list(stateWords()), quote(string(p.State)))
	}
}

func stateWords() []string {
	words := make([]string, len(PartStates))
	for i, s := range PartStates {
		words[i] = string(s)
	}
	return words
}

// shelf checks the money and the parts that are not placed.
func (c *checker) shelf() {
	d := c.doc
	c.text("/currency", d.Currency, currencyRunes, false)
	if d.Budget != nil {
		c.num("/budget", *d.Budget, 0, priceMost)
	}
	if n := len(d.Shelf); n > MaxShelf {
		c.fail("/shelf", fmt.Sprintf("at most %d parts", MaxShelf), fmt.Sprintf("%d", n))
		return
	}
	seen := map[string]bool{}
	for i := range d.Shelf {
		p, at := &d.Shelf[i], below("/shelf", i)
		c.id(at+"/id", p.ID)
		if seen[p.ID] {
			c.fail(at+"/id", "an id of its own", "a second "+quote(p.ID))
		}
		seen[p.ID] = true
		if c.part(at, p); c.err != nil {
			return
		}
	}
}

// stockSchema adds what every part may say of itself for the shelf.
func stockSchema(members obj) {
	members["mass_kg"] = numSchema(0, massKG, "What it weighs.")
	members["price"] = numSchema(0, priceMost, "What it costs, in the document's currency.")
	members["state"] = obj{"enum": PartStates, "description": "How far it has come."}
}

// shelfSchema is a list of parts without a place.
func shelfSchema() obj {
	members := obj{"id": obj{}, "kind": obj{}}
	for _, f := range shelfFields {
		members[f] = obj{}
	}
	item := closed(members, "id", "kind")
	item["allOf"] = []obj{{"$ref": "#/$defs/part"}} // says what each may be
	return obj{"type": "array", "maxItems": MaxShelf, "items": item,
		"description": "Parts of the user's own that are not placed; one that has the id of a part is that part, placed."}
}
