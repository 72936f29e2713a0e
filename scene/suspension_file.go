package scene

import (
	"fmt"
	"strconv"
)

// shortestBarMM is the least length of a bar and of a Watt's link's crank:
// anything shorter is a slip of the pen.
const shortestBarMM = 20

// carriedMM bounds a point measured from an axle's middle or a wheel's centre.
const carriedMM = 3000

// suspension reads what an end hangs on; the plain guide is what an end without
// one has.
func (d *decoder) suspension(n *node, at string) *Suspension {
	if n == nil || !d.object(n, at, []string{"kind"}, []string{"crank", "bars"}) {
		return nil
	}
	s := &Suspension{Kind: d.text(n, at, "kind", "")}
	k := SuspensionKindNamed(s.Kind)
	if d.err == nil && k == nil {
		d.fail(at+"/kind", "one of "+list(suspensionNames(anyKind)), quote(s.Kind))
	}
	if d.err != nil {
		return nil
	}
	if s.Kind == FourLinkWatts {
		s.Crank = d.text(n, at, "crank", CrankOnAxle)
	} else if got := n.member("crank"); got != nil {
		d.fail(at+"/crank", "no crank with "+s.Kind, got.String())
	}
	d.each(n, at, "bars", func(v *node, here string) { s.Bars = append(s.Bars, d.bar(v, here, k, len(s.Bars))) })
	if k.Name == Guide && len(s.Bars) == 0 {
		return nil
	}
	return s
}

func (d *decoder) bar(n *node, at string, k *SuspensionKind, i int) (b SuspensionBar) {
	if !d.object(n, at, []string{"body_mm", "carried_mm"}, []string{"name"}) {
		return b
	}
	def := ""
	if i < len(k.Bars) {
		def = k.Bars[i]
	}
	b.Name = d.text(n, at, "name", def)
	b.BodyMM, b.CarriedMM = d.vec(n, at, "body_mm"), d.vec(n, at, "carried_mm")
	return b
}

func (w *writer) suspension(s *Suspension) {
	if s == nil || s.Kind == Guide {
		return
	}
	w.key("suspension")
	w.open("{")
	w.line("kind", text(s.Kind))
	if s.Crank != "" {
		w.line("crank", text(s.Crank))
	}
	w.list("bars", len(s.Bars), func(i int) {
		b := &s.Bars[i]
		w.item(row("name", text(b.Name), "body_mm", vecRow(b.BodyMM), "carried_mm", vecRow(b.CarriedMM)))
	})
	w.close("}")
}

func anyKind(*SuspensionKind) bool { return true }

// suspension checks what an end hangs on.
func (c *checker) suspension(at string, e *End) {
	s := e.Suspension
	if s == nil || c.err != nil {
		return
	}
	at += "/suspension"
	k := SuspensionKindNamed(s.Kind)
	if k == nil {
		c.fail(at+"/kind", "one of "+list(suspensionNames(anyKind)), quote(s.Kind))
		return
	}
	if k.Name != Guide && k.Alone != e.Independent {
		who := "an axle"
		if e.Independent {
			who = "wheels that move by themselves"
		}
		fits := suspensionNames(func(o *SuspensionKind) bool { return o.Name == Guide || o.Alone == e.Independent })
		c.fail(at+"/kind", "a kind for "+who+": "+list(fits), quote(s.Kind))
	}
	if k.Name == FourLinkWatts && s.Crank != CrankOnAxle && s.Crank != CrankOnBody {
		c.fail(at+"/crank", CrankOnAxle+" or "+CrankOnBody, quote(s.Crank))
	} else if k.Name != FourLinkWatts && s.Crank != "" {
		c.fail(at+"/crank", "no crank with "+k.Name, quote(s.Crank))
	}
	if len(s.Bars) != len(k.Bars) {
		c.fail(at+"/bars", fmt.Sprintf("%d bars for %s", len(k.Bars), k.Name), strconv.Itoa(len(s.Bars)))
		return
	}
	for i := range s.Bars {
		c.bar(below(at+"/bars", i), s, e, i)
	}
	if k.Name == FourLinkWatts {
		c.crank(at+"/bars", s)
	}
}

func (c *checker) bar(at string, s *Suspension, e *End, i int) {
	b := &s.Bars[i]
	c.line(at+"/name", b.Name)
	for axis := range b.BodyMM {
		c.num(below(at+"/body_mm", axis), b.BodyMM[axis], -farMM, farMM)
		c.num(below(at+"/carried_mm", axis), b.CarriedMM[axis], -carriedMM, carriedMM)
	}
	v := &c.doc.Vehicle
	length := v.origin(v.carries(e)).add(b.CarriedMM).sub(b.BodyMM).len()
	if c.err == nil && length < shortestBarMM {
		c.fail(at, fmt.Sprintf("two ends at least %d mm apart", shortestBarMM), fmt.Sprintf("%.1f mm", length))
	}
	for j := range s.Bars[:i] {
		if s.Bars[j].BodyMM == b.BodyMM && s.Bars[j].CarriedMM == b.CarriedMM {
			c.fail(at, "a bar of its own", fmt.Sprintf("the same as bar %d", j+1))
		}
	}
}

// crank: the ends of a Watt's link's crank are those of the last two bars.
func (c *checker) crank(at string, s *Suspension) {
	a, b := s.Bars[len(s.Bars)-2], s.Bars[len(s.Bars)-1]
	across := a.CarriedMM.sub(b.CarriedMM).len()
	if s.Crank == CrankOnBody {
		across = a.BodyMM.sub(b.BodyMM).len()
	}
	if c.err == nil && across < shortestBarMM {
		c.fail(below(at, len(s.Bars)-1), fmt.Sprintf("ends of the crank at least %d mm apart", shortestBarMM), fmt.Sprintf("%.1f mm", across))
	}
}

// suspensionSchema describes the object and, kind by kind, the number of its
// bars.
func suspensionSchema() obj {
	bar := closed(obj{
		"name":       oneLine("Shown name."),
		"body_mm":    vecSchema(farMM, "Its end on the body, in body axes at ride."),
		"carried_mm": vecSchema(carriedMM, "Its other end, from the middle of the axle or the wheel's centre at ride."),
	}, "body_mm", "carried_mm")
	o := closed(obj{
		"kind":  obj{"enum": suspensionNames(anyKind), "description": "What holds the axle, or the wheels that move by themselves."},
		"crank": obj{"enum": []string{CrankOnAxle, CrankOnBody}, "description": "What the crank of a Watt's link turns on; its ends are those of the last two bars there."},
		"bars": obj{"type": "array", "items": bar,
			"description": "In the order of the kind's; for wheels that move by themselves, the left wheel's: the right one's are their mirror image."},
	}, "kind")
	var byKind []obj
	for _, k := range suspensionKinds {
		n := len(k.Bars)
		then := obj{"properties": obj{"bars": obj{"minItems": n, "maxItems": n, "description": list(k.Bars)}}}
		if n > 0 {
			then["required"] = []string{"bars"}
		} else {
			then["properties"] = obj{"bars": obj{"maxItems": 0}}
		}
		if k.Name != FourLinkWatts {
			then["not"] = obj{"required": []string{"crank"}}
		}
		byKind = append(byKind, obj{"if": obj{"properties": obj{"kind": obj{"const": k.Name}}}, "then": then})
	}
	o["allOf"] = byKind
	o["description"] = "What holds this end; without it, a plain vertical guide."
	return o
}

// suspensionFits is a schema's part for an end: the kind fits what it holds.
func suspensionFits() []obj {
	has := func(alone bool) obj {
		names := suspensionNames(func(k *SuspensionKind) bool { return k.Name != Guide && k.Alone == alone })
		return obj{"required": []string{"suspension"}, "properties": obj{"suspension": obj{
			"required": []string{"kind"}, "properties": obj{"kind": obj{"enum": names}}}}}
	}
	return []obj{
		{"if": has(true), "then": obj{"required": []string{"independent"}, "properties": obj{"independent": obj{"const": true}}}},
		{"if": has(false), "then": obj{"properties": obj{"independent": obj{"const": false}}}},
	}
}
