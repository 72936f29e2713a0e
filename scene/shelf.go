package scene

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// PartState is how far a part has come: empty where nobody has said.
type PartState string

const (
	ToOrder PartState = "to_order"
	Ordered PartState = "ordered"
	OnHand  PartState = "on_hand"
	Fitted  PartState = "fitted"
)

// PartStates lists every state, in the order a part goes through them.
var PartStates = []PartState{ToOrder, Ordered, OnHand, Fitted}

// Label is a state for people; empty for none.
func (s PartState) Label() string {
	return map[PartState]string{ToOrder: "To order", Ordered: "Ordered", OnHand: "On hand", Fitted: "Fitted"}[s]
}

// Limits of what the shelf holds (kilograms, money, letters, entries).
const (
	MaxShelf      = 500
	massKG        = 20000
	priceMost     = 1e9
	currencyRunes = 8
)

// Totals are what the parts of a document weigh and cost. The money counts
// every part that is placed, and of the shelf what is ordered or on hand: what
// nobody has paid for and nobody has placed is a wish.
type Totals struct {
	Parts    int // placed
	MassKG   float64
	NoMass   int // placed parts whose mass is not known
	Cost     float64
	Priced   int // parts that count, with a price
	NoPrice  int // and without one
	OnShelf  int // parts on the shelf
	Order    []OrderLine
	OrderSum float64
	NoOrder  int // lines without a price
	NoState  int // placed parts and parts on the shelf of which nobody has said how far they have come
}

// OrderLine is one part that is still to be ordered.
type OrderLine struct {
	ID, Name, Kind string
	Shelf          bool // not placed yet
	Price          *float64
}

// Totals adds up the document's parts and shelf.
func (doc *Document) Totals() Totals {
	var t Totals
	for i := range doc.Parts {
		p := &doc.Parts[i]
		t.Parts++
		if p.MassKG != nil {
			t.MassKG += *p.MassKG
		} else {
			t.NoMass++
		}
		t.pay(p)
		t.order(p, false)
	}
	for _, p := range doc.OnShelf() {
		t.OnShelf++
		if p.State != "" && p.State != ToOrder {
			t.pay(p)
		}
		t.order(p, true)
	}
	return t
}

func (t *Totals) pay(p *Part) {
	if p.Price != nil {
		t.Cost = cents(t.Cost + *p.Price)
		t.Priced++
	} else {
		t.NoPrice++
	}
}

func (t *Totals) order(p *Part, shelf bool) {
	if p.State == "" {
		t.NoState++
	}
	if p.State != ToOrder {
		return
	}
	t.Order = append(t.Order, OrderLine{p.ID, p.Name, p.Kind, shelf, p.Price})
	if p.Price != nil {
		t.OrderSum = cents(t.OrderSum + *p.Price)
	} else {
		t.NoOrder++
	}
}

// cents keeps sums of money to the hundredth.
func cents(v float64) float64 { return math.Round(v*100)/100 + 0 }

// OnShelf lists the parts of the shelf that are not placed: a part of the same
// id is the entry, placed.
func (doc *Document) OnShelf() []*Part {
	placed := map[string]bool{}
	for i := range doc.Parts {
		placed[doc.Parts[i].ID] = true
	}
	var list []*Part
	for i := range doc.Shelf {
		if p := &doc.Shelf[i]; !placed[p.ID] {
			list = append(list, p)
		}
	}
	return list
}

// ShelfNamed is the shelf's entry of that id, or nil.
func (doc *Document) ShelfNamed(id string) *Part {
	for i := range doc.Shelf {
		if doc.Shelf[i].ID == id {
			return &doc.Shelf[i]
		}
	}
	return nil
}

// AddToShelf puts a part of a kind at its default size on the shelf.
func AddToShelf(doc *Document, kind string) (*Document, string, error) {
	k := KindNamed(kind)
	if k == nil {
		return nil, "", fmt.Errorf("there is no kind of part called %s", quote(kind))
	}
	p := Part{Kind: kind, Carrier: k.Carriers[0], Size: k.DefaultSize()}
	p.Name = doc.freeShelfName(k.Label)
	p.ID = doc.freeID(p.Name)
	return doc.withNewOnShelf(p, "put "+p.Name+" on the shelf")
}

// KeepOnShelf puts a copy of a placed part on the shelf. Nobody has said that
// the copy is ordered or on hand.
func KeepOnShelf(doc *Document, id string) (*Document, string, error) {
	i, err := doc.partAt(id)
	if err != nil {
		return nil, "", err
	}
	p := shelved(&doc.Parts[i])
	p.State = ""
	p.Name = doc.freeShelfName(p.Name)
	p.ID = doc.freeID(p.Name)
	return doc.withNewOnShelf(p, "kept a copy of "+doc.Parts[i].Name+" on the shelf")
}

// shelved is a part without where it stands and what moves it.
func shelved(p *Part) Part {
	c := p.clone()
	c.AtMM, c.TurnDeg, c.Moves, c.ToleranceMM = Vec{}, Vec{}, nil, nil
	c.Carrier = KindNamed(c.Kind).Carriers[0]
	return c
}

func (doc *Document) withNewOnShelf(p Part, label string) (*Document, string, error) {
	if len(doc.Shelf) >= MaxShelf {
		return nil, "", fmt.Errorf("the shelf holds at most %d parts", MaxShelf)
	}
	if e := validPart(&p); e != nil {
		return nil, "", sentence(doc.Show, &p, e)
	}
	c := *doc
	c.Shelf = append(append([]Part(nil), doc.Shelf...), p)
	return &c, label, nil
}

// freeShelfName is a name no other part of the shelf has.
func (doc *Document) freeShelfName(name string) string {
	return (&Document{Parts: doc.Shelf}).freeName(name)
}

// PlaceFromShelf places a part of the shelf. Its id says that it is the entry;
// removed again it is back on the shelf.
func PlaceFromShelf(doc *Document, id string, at Vec) (*Document, string, error) {
	entry := doc.ShelfNamed(id)
	if entry == nil {
		return nil, "", fmt.Errorf("there is no %s on the shelf", quote(id))
	}
	if _, err := doc.partAt(id); err == nil {
		return nil, "", fmt.Errorf("%s is placed already", entry.Name)
	}
	p := entry.clone()
	p.AtMM, p.Carrier = at, KindNamed(p.Kind).freeCarrier(doc)
	c, err := doc.withNewPart(p)
	return c, "placed " + p.Name + " from the shelf", err
}

// RemoveFromShelf takes an entry off the shelf; a part placed from it stays.
func RemoveFromShelf(doc *Document, id string) (*Document, string, error) {
	c := *doc
	c.Shelf = nil
	name := ""
	for i := range doc.Shelf {
		if doc.Shelf[i].ID == id {
			name = doc.Shelf[i].Name
			continue
		}
		c.Shelf = append(c.Shelf, doc.Shelf[i])
	}
	if name == "" {
		return nil, "", fmt.Errorf("there is no %s on the shelf", quote(id))
	}
	return &c, "took " + name + " off the shelf", nil
}

// backOnShelf renews the entry a part was placed from, so that it lies there
// as it was last known.
func (doc *Document) backOnShelf(p *Part) {
	for i := range doc.Shelf {
		if doc.Shelf[i].ID != p.ID {
			continue
		}
		doc.Shelf = append([]Part(nil), doc.Shelf...)
		doc.Shelf[i] = shelved(p)
		if p.State == Fitted {
			doc.Shelf[i].State = OnHand
		}
	}
}

// setShelf changes a field of a part on the shelf, as of a placed one.
func (doc *Document) setShelf(id, field string, steps []string, text string) (*Document, string, error) {
	for i := range doc.Shelf {
		if doc.Shelf[i].ID != id {
			continue
		}
		p := doc.Shelf[i].clone()
		if err := doc.setOwn(&p, field, steps, text); err != nil {
			return nil, "", err
		}
		if e := validPart(&p); e != nil {
			return nil, "", sentence(doc.Show, &p, e)
		}
		c := *doc
		c.Shelf = append([]Part(nil), doc.Shelf...)
		c.Shelf[i] = shelved(&p)
		return &c, "changed " + p.Name + " on the shelf", nil
	}
	return nil, "", fmt.Errorf("there is no %s on the shelf", quote(id))
}

// setStock changes what the shelf asks of every part. ok is false for any
// other field.
func (doc *Document) setStock(p *Part, field, text string) (ok bool, err error) {
	empty := strings.TrimSpace(text) == ""
	switch field {
	case "mass_kg", "mass":
		p.MassKG = nil
		if !empty {
			var kg float64
			kg, err = ParseMass(text, doc.Show)
			p.MassKG = &kg
		}
	case "price":
		p.Price = nil
		if !empty {
			var v float64
			v, err = ParseMoney(text, doc.Currency)
			p.Price = &v
		}
	case "state":
		p.State = PartState(strings.TrimSpace(text))
	default:
		return false, nil
	}
	return true, err
}

// setBudget changes the budget; nothing typed is none.
func (doc *Document) setBudget(text string) error {
	doc.Budget = nil
	if strings.TrimSpace(text) == "" {
		return nil
	}
	v, err := ParseMoney(text, doc.Currency)
	doc.Budget = &v
	return err
}

// copied is what a copy of a part inherits: it has to be got too, where its
// original has a state at all.
func (p *Part) copied() {
	if p.State != "" {
		p.State = ToOrder
	}
}

// OrderText is what is still to be ordered as plain text, a line to a part,
// with the sum.
func (doc *Document) OrderText() string {
	t := doc.Totals()
	var b strings.Builder
	name := doc.Name
	if name == "" {
		name = "Scene"
	}
	fmt.Fprintf(&b, "Still to order: %s\n", name)
	for _, l := range t.Order {
		price := "no price"
		if l.Price != nil {
			price = doc.Money(*l.Price)
		}
		kind := KindNamed(l.Kind).Label
		if l.Name != "" && l.Name != kind {
			kind = l.Name + " (" + strings.ToLower(kind) + ")"
		}
		fmt.Fprintf(&b, "- %s: %s\n", kind, price)
	}
	fmt.Fprintf(&b, "Together: %s", doc.Money(t.OrderSum))
	if t.NoOrder > 0 {
		b.WriteString(", " + strconv.Itoa(t.NoOrder) + " without a price")
	}
	b.WriteByte('\n')
	return b.String()
}
