package scene

import (
	"fmt"
	"strings"
)

// barKind is the kind of part that stands for a bar of the suspension.
const barKind = "suspension_bar"

// barRef is which bar of the vehicle a part stands for.
type barRef struct {
	end  string
	bar  int // from 1
	side string
}

// barOf is the bar a part of that kind stands for. Where an axle joins the
// wheels the side says nothing.
func (v *Vehicle) barOf(p *Part) (r barRef, ok bool) {
	if p.Kind != barKind {
		return r, false
	}
	r = barRef{p.Size.Text("end"), int(p.Size.Num("bar")), p.Size.Text("side")}
	if !v.end(r.end).Independent {
		r.side = ""
	}
	return r, true
}

// end is the vehicle's end of that name, the rear for any other.
func (v *Vehicle) end(name string) *End {
	if name == "front" {
		return &v.Front
	}
	return &v.Rear
}

// barRefs are the bars of an end that can stand among the parts; see
// [Suspension.Spans].
func (v *Vehicle) barRefs(end string) (out []barRef) {
	e := v.end(end)
	sides := []string{""}
	if e.Independent {
		sides = []string{"left", "right"}
	}
	if e.Suspension == nil {
		return nil
	}
	for _, side := range sides {
		for i := range e.Suspension.Bars {
			if e.Suspension.Spans(i) {
				out = append(out, barRef{end, i + 1, side})
			}
		}
	}
	return out
}

// BarsAmongParts counts an end's bars that can stand among the parts, and those
// that do.
func BarsAmongParts(doc *Document, end string) (stand, of int) {
	there := doc.barsThere()
	refs := doc.Vehicle.barRefs(end)
	for _, r := range refs {
		if there[r] {
			stand++
		}
	}
	return stand, len(refs)
}

func (doc *Document) barsThere() map[barRef]bool {
	there := map[barRef]bool{}
	for i := range doc.Parts {
		if r, ok := doc.Vehicle.barOf(&doc.Parts[i]); ok {
			there[r] = true
		}
	}
	return there
}

// AddBars adds every bar of an end ("front" or "rear") that does not stand among
// the parts yet, at the kind's default diameter, and returns the ids of those
// added.
func AddBars(doc *Document, end string) (c *Document, ids []string, label string, err error) {
	there := doc.barsThere()
	c = doc
	for _, r := range doc.Vehicle.barRefs(end) {
		if there[r] {
			continue
		}
		k := KindNamed(barKind)
		p := Part{Name: doc.Vehicle.barName(r), Kind: barKind, Carrier: Body, Size: k.DefaultSize()}
		p.Size["end"], p.Size["bar"] = Value{Text: r.end}, Value{Num: float64(r.bar)}
		if r.side != "" {
			p.Size["side"] = Value{Text: r.side}
		}
		p.Name = c.freeName(p.Name)
		p.ID = c.freeID(p.Name)
		if c, err = c.withNewPart(p); err != nil {
			return nil, nil, "", err
		}
		ids = append(ids, p.ID)
	}
	if len(ids) == 0 {
		return nil, nil, "", fmt.Errorf("the %s suspension has no bars that could stand among the parts", end)
	}
	return c, ids, "put the " + end + " bars among the parts", nil
}

// barName is a bar's own name with its end before it, and its side behind it
// where each wheel has its own.
func (v *Vehicle) barName(r barRef) string {
	name := v.end(r.end).Suspension.Bars[r.bar-1].Name
	if name == "" {
		name = fmt.Sprintf("bar %d", r.bar)
	}
	name = strings.ToUpper(r.end[:1]) + r.end[1:] + " " + strings.ToLower(name[:1]) + name[1:]
	if r.side != "" {
		name += ", " + r.side
	}
	return name
}

// RemoveBars removes the parts that stand for an end's bars, with their needs
// and joins.
func RemoveBars(doc *Document, end string) (*Document, string, error) {
	c := doc
	for i := range doc.Parts {
		p := &doc.Parts[i]
		if r, ok := doc.Vehicle.barOf(p); ok && r.end == end {
			var err error
			if c, _, err = RemovePart(c, p.ID); err != nil {
				return nil, "", err
			}
		}
	}
	if c == doc {
		return nil, "", fmt.Errorf("no bar of the %s suspension stands among the parts", end)
	}
	return c, "took the " + end + " bars out of the parts", nil
}
