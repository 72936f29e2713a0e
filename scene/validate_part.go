package scene

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
)

func (c *checker) parts() {
	if n := len(c.doc.Parts); n > MaxParts {
		c.fail("/parts", fmt.Sprintf("at most %d parts", MaxParts), strconv.Itoa(n))
		return
	}
	for i := range c.doc.Parts {
		p, at := &c.doc.Parts[i], below("/parts", i)
		c.id(at+"/id", p.ID)
		if first, ok := c.index[p.ID]; ok {
			c.fail(at+"/id", "an id of its own", fmt.Sprintf("%s, which /parts/%d has", quote(p.ID), first))
		} else {
			c.index[p.ID] = i
		}
		c.part(at, p)
		if c.err != nil {
			return
		}
	}
}

// validPart is what is wrong with one part by itself, with places that start
// at the part, or nil.
func validPart(p *Part) *PlaceError {
	c := &checker{}
	c.id("/id", p.ID)
	c.part("", p)
	return c.err
}

func (c *checker) part(at string, p *Part) {
	c.line(at+"/name", p.Name)
	c.note(at+"/note", p.Note)
	for i := range p.AtMM {
		c.num(below(at+"/at_mm", i), p.AtMM[i], -farMM, farMM)
		c.num(below(at+"/turn_deg", i), p.TurnDeg[i], -360, 360)
	}
	for i, t := range p.Traits {
		if !contains(AllTraits, t) {
			c.fail(below(at+"/traits", i), "one of "+list(traitWords()), quote(string(t)))
		}
		if contains(p.Traits[:i], t) {
			c.fail(below(at+"/traits", i), "each trait once", quote(string(t)))
		}
	}
	if p.ToleranceMM != nil {
		c.num(at+"/tolerance_mm", *p.ToleranceMM, 0, 100)
	}
	c.stock(at, p)
	k := KindNamed(p.Kind)
	if k == nil {
		c.fail(at+"/kind", "a kind of part", quote(p.Kind))
		return
	}
	if !contains(k.Carriers, p.Carrier) {
		c.fail(at+"/carrier", list(carrierWords(k.Carriers)), quote(string(p.Carrier)))
	}
	c.size(at+"/size", k, p.Size)
}

func carrierWords(cs []Carrier) []string {
	words := make([]string, len(cs))
	for i, w := range cs {
		words[i] = string(w)
	}
	return words
}

// size checks every field by itself, then what is wrong between them.
func (c *checker) size(at string, k *Kind, s Size) {
	for i := range k.Fields {
		f := &k.Fields[i]
		v, ok := s[f.Name]
		if !ok {
			c.fail(below(at, f.Name), "this field", "nothing")
			return
		}
		c.field(below(at, f.Name), f, v)
	}
	if len(s) > len(k.Fields) {
		c.fail(below(at, unknownField(k, s)), "a known field", "an unknown one")
	}
	if c.err != nil || k.Check == nil {
		return
	}
	if e := k.Check(s); e != nil {
		c.fail(at+"/"+e.Field, e.Expected, foundIn(k, s, e.Field))
	}
}

// unknownField is the first field, by name, that k does not have.
func unknownField(k *Kind, s Size) string {
	var extra []string
	for name := range s {
		if k.field(name) == nil {
			extra = append(extra, name)
		}
	}
	sort.Strings(extra)
	return extra[0]
}

// field is the field of that name, or nil.
func (k *Kind) field(name string) *Field {
	for i := range k.Fields {
		if k.Fields[i].Name == name {
			return &k.Fields[i]
		}
	}
	return nil
}

func (c *checker) field(at string, f *Field, v Value) {
	switch f.Type {
	case Choice:
		if !contains(f.Choices, v.Text) {
			c.fail(at, list(f.Choices), quote(v.Text))
		}
	case Flag:
	case Table:
		if n := len(v.Rows); n < f.MinRows || n > f.MaxRows {
			c.fail(at, fmt.Sprintf("%d to %d rows", f.MinRows, f.MaxRows), strconv.Itoa(n))
			return
		}
		for i, row := range v.Rows {
			if len(row) != len(f.Columns) {
				c.fail(below(at, i), fmt.Sprintf("%d numbers", len(f.Columns)), strconv.Itoa(len(row)))
				return
			}
			for j := range f.Columns {
				c.field(below(below(at, i), f.Columns[j].Name), &f.Columns[j], Value{Num: row[j]})
			}
		}
	default:
		c.num(at, v.Num, f.Min, f.Max)
		if f.Type == Count && !whole(v.Num) {
			c.fail(at, "a whole number", number(v.Num))
		}
	}
}

// foundIn shows what stands at a FieldError's field.
func foundIn(k *Kind, s Size, field string) string {
	steps := strings.Split(field, "/")
	f := k.field(steps[0])
	if f == nil {
		return "what is there"
	}
	v := s[f.Name]
	switch {
	case f.Type == Choice:
		return quote(v.Text)
	case f.Type != Table:
		return number(v.Num)
	case len(steps) == 3:
		row, err := strconv.Atoi(steps[1])
		for j := range f.Columns {
			if err == nil && f.Columns[j].Name == steps[2] && row < len(v.Rows) {
				return number(v.Rows[row][j])
			}
		}
	}
	return fmt.Sprintf("%d rows", len(v.Rows))
}
