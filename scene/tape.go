package scene

import (
	"fmt"
	"strings"
)

// Tape is a measure laid between two places of the vehicle. It holds what it is
// laid between, never a length: the length follows from where the parts are.
type Tape struct {
	ID, Name string
	From, To TapeEnd
}

// TapeEnd is what one end of a tape is held to: a feature of a part (a corner,
// a face, an end; package fitment names them), or a datum of the vehicle. Part
// and Feature are set, or Datum is.
type TapeEnd struct{ Part, Feature, Datum string }

// The datums a tape can be held to.
const (
	FrameDatum  = "frame"      // the frame datum plane
	GroundDatum = "ground"     // the ground under the tyres
	CentreDatum = "centre"     // the vehicle's middle plane
	FrontCentre = "front_axle" // middle of the front axle; wheel centres by their carrier's name
	RearCentre  = "rear_axle"
)

// Datums lists every datum in the order it is shown.
var Datums = []string{FrameDatum, GroundDatum, CentreDatum, FrontCentre, RearCentre,
	string(WheelFL), string(WheelFR), string(WheelRL), string(WheelRR)}

// MaxTapes is the most tapes of a document.
const MaxTapes = 500

// TapeNamed is the tape of that id, or nil.
func (doc *Document) TapeNamed(id string) *Tape {
	for i := range doc.Tapes {
		if doc.Tapes[i].ID == id {
			return &doc.Tapes[i]
		}
	}
	return nil
}

// AddTape lays a tape between two places. It stands last in Tapes.
func AddTape(doc *Document, name string, from, to TapeEnd) (*Document, string, error) {
	t := Tape{Name: strings.TrimSpace(name), From: from, To: to}
	if r := []rune(t.Name); len(r) > nameRunes {
		t.Name = string(r[:nameRunes])
	}
	for n := len(doc.Tapes) + 1; ; n++ {
		if t.ID = fmt.Sprintf("tape-%d", n); doc.TapeNamed(t.ID) == nil {
			break
		}
	}
	c := *doc
	c.Tapes = append(append([]Tape(nil), doc.Tapes...), t)
	return c.sound("laid the tape " + t.Name)
}

// RenameTape gives a tape another name.
func RenameTape(doc *Document, id, name string) (*Document, string, error) {
	c := *doc
	c.Tapes = append([]Tape(nil), doc.Tapes...)
	t := c.TapeNamed(id)
	if t == nil {
		return nil, "", fmt.Errorf("there is no tape called %s", quote(id))
	}
	if t.Name = strings.TrimSpace(name); t.Name == "" {
		return nil, "", fmt.Errorf("a tape needs a name")
	}
	return c.sound("renamed the tape " + t.Name)
}

// RemoveTape takes a tape away, with the tick that it was checked.
func RemoveTape(doc *Document, id string) (*Document, string, error) {
	t := doc.TapeNamed(id)
	if t == nil {
		return nil, "", fmt.Errorf("there is no tape called %s", quote(id))
	}
	c := *doc
	c.dropTapes(func(o *Tape) bool { return o.ID == id })
	return &c, "removed the tape " + t.Name, nil
}

// dropTapes takes away the tapes that gone says, and their checks.
func (doc *Document) dropTapes(gone func(*Tape) bool) {
	var tapes []Tape
	dropped := map[string]bool{}
	for i := range doc.Tapes {
		if t := &doc.Tapes[i]; gone(t) {
			dropped[t.ID] = true
		} else {
			tapes = append(tapes, *t)
		}
	}
	doc.Tapes = tapes
	doc.dropChecks(func(k *Check) bool { return k.Tape != "" && dropped[k.Tape] })
}

// withoutPart takes away what was measured on a part.
func (doc *Document) withoutPart(id string) {
	doc.dropTapes(func(t *Tape) bool { return t.From.Part == id || t.To.Part == id })
	doc.dropChecks(func(k *Check) bool { return k.Part == id })
}

// sound is the changed copy of a document with its label, once it is valid.
func (doc *Document) sound(label string) (*Document, string, error) {
	if err := doc.Validate(); err != nil {
		return nil, "", sentence(doc.Show, nil, err)
	}
	return doc, label, nil
}

func (d *decoder) tape(n *node, at string) (t Tape) {
	if d.object(n, at, []string{"id", "from", "to"}, []string{"name"}) {
		t.ID = d.text(n, at, "id", "")
		t.Name = d.text(n, at, "name", t.ID)
		t.From, t.To = d.tapeEnd(n.member("from"), at+"/from"), d.tapeEnd(n.member("to"), at+"/to")
	}
	return t
}

func (d *decoder) tapeEnd(n *node, at string) (e TapeEnd) {
	if !d.object(n, at, nil, []string{"part", "feature", "datum"}) {
		return e
	}
	if n.member("datum") != nil && (n.member("part") != nil || n.member("feature") != nil) {
		d.fail(at, "either a part with a feature or a datum", "both")
	}
	e = TapeEnd{d.text(n, at, "part", ""), d.text(n, at, "feature", ""), d.text(n, at, "datum", "")}
	return e
}

func tapeRow(t Tape) string {
	return row("id", text(t.ID), "name", text(t.Name), "from", tapeEndRow(t.From), "to", tapeEndRow(t.To))
}

func tapeEndRow(e TapeEnd) string {
	if e.Datum != "" {
		return row("datum", text(e.Datum))
	}
	return row("part", text(e.Part), "feature", text(e.Feature))
}

func tapesSchema() obj {
	end := closed(obj{
		"part":    idSchema(),
		"feature": obj{"type": "string", "pattern": featurePattern, "description": "A feature of the part: a solid's number and what of it is meant."},
		"datum":   obj{"enum": Datums, "description": "A datum of the vehicle."},
	})
	end["oneOf"] = []obj{
		{"required": []string{"part", "feature"}, "not": obj{"required": []string{"datum"}}},
		{"required": []string{"datum"}, "not": obj{"anyOf": []obj{{"required": []string{"part"}}, {"required": []string{"feature"}}}}},
	}
	return obj{"type": "array", "maxItems": MaxTapes, "description": "Measures laid between two places; their lengths follow the drawing.",
		"items": closed(obj{"id": idSchema(), "name": oneLine("Shown name."), "from": end, "to": end}, "id", "from", "to")}
}

// featurePattern is how package fitment names features: "1/corner/5".
const featurePattern = "^[a-z0-9]+(/[a-z0-9+-]+){1,3}$"

func (c *checker) tapes() {
	if n := len(c.doc.Tapes); n > MaxTapes {
		c.fail("/tapes", fmt.Sprintf("at most %d tapes", MaxTapes), fmt.Sprintf("%d", n))
	}
	seen := map[string]bool{}
	for i := range c.doc.Tapes {
		t, at := &c.doc.Tapes[i], below("/tapes", i)
		c.id(at+"/id", t.ID)
		if seen[t.ID] {
			c.fail(at+"/id", "an id of its own", "a second "+quote(t.ID))
		}
		seen[t.ID] = true
		c.line(at+"/name", t.Name)
		c.tapeEnd(at+"/from", &t.From)
		c.tapeEnd(at+"/to", &t.To)
		if t.From == t.To {
			c.fail(at+"/to", "another place than the first", "the same")
		}
	}
}

func (c *checker) tapeEnd(at string, e *TapeEnd) {
	switch {
	case e.Datum != "" && (e.Part != "" || e.Feature != ""), e.Datum == "" && (e.Part == "" || e.Feature == ""):
		c.fail(at, "either a part with a feature or a datum", "both or neither")
	case e.Datum != "":
		if !contains(Datums, e.Datum) {
			c.fail(at+"/datum", "one of "+list(Datums), quote(e.Datum))
		}
	default:
		if _, ok := c.index[e.Part]; !ok {
			c.fail(at+"/part", "the id of a part", quote(e.Part))
		}
		if !featureName(e.Feature) {
			c.fail(at+"/feature", "a feature such as 1/corner/5", quote(e.Feature))
		}
	}
}

// featureName says whether a text is written as [featurePattern] asks, in at
// most 80 bytes.
func featureName(s string) bool {
	steps := strings.Split(s, "/")
	if len(steps) < 2 || len(steps) > 4 || len(s) > 80 {
		return false
	}
	for i, step := range steps {
		for _, r := range step {
			if !(r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || i > 0 && (r == '+' || r == '-')) {
				return false
			}
		}
		if step == "" {
			return false
		}
	}
	return true
}
