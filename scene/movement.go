package scene

import "fmt"

// Movement is a way single parts move by themselves: a backrest reclines, a
// door or a tilting bed swings, a seat slides on its track, a battery is lifted
// out. As drawn the movement stands at 0; parts name the movements that carry
// them, so that those of one movement go together. What a movement sweeps
// counts at every height.
type Movement struct {
	ID, Name string
	Kind     MovementKind
	// Carrier is what the movement is fixed to: AtMM is measured from its
	// origin, and both AtMM and Axis are along body axes at ride.
	Carrier Carrier
	AtMM    Vec     // hinge: a point on its axis; slide: not used
	Axis    Vec     // hinge: the axis it turns about, right-handed; slide: the way it goes. Any length but 0
	From    float64 // hinge: degrees, slide: millimetres; at most 0
	To      float64 // at least 0
}

// MovementKind is how something moves.
type MovementKind string

const (
	Hinge MovementKind = "hinge"
	Slide MovementKind = "slide"
)

// MaxMovements is the most movements of a document, and maxPartMoves the most
// that carry one part.
const (
	MaxMovements = 8
	maxPartMoves = 2
)

// ends are the names of a movement's two ends in a file: the unit depends on
// its kind.
func (k MovementKind) ends() (from, to string) {
	if k == Slide {
		return "from_mm", "to_mm"
	}
	return "from_deg", "to_deg"
}

func (d *decoder) movement(n *node, at string) (m Movement) {
	if d.err == nil && n.kind != 'o' {
		d.fail(at, "an object", n.String())
		return m
	}
	m.Kind = MovementKind(d.text(n, at, "kind", ""))
	if d.err == nil && m.Kind != Hinge && m.Kind != Slide {
		d.fail(at+"/kind", "hinge or slide", quote(string(m.Kind)))
	}
	from, to := m.Kind.ends()
	if !d.object(n, at, []string{"id", "kind", "axis", from, to}, []string{"name", "carrier", "at_mm"}) {
		return m
	}
	m.ID = d.text(n, at, "id", "")
	m.Name = d.text(n, at, "name", m.ID)
	m.Carrier = Carrier(d.text(n, at, "carrier", string(Body)))
	m.AtMM, m.Axis = d.vec(n, at, "at_mm"), d.vec(n, at, "axis")
	m.From, m.To = d.num(n, at, from, 0), d.num(n, at, to, 0)
	return m
}

func movementRow(m Movement) string {
	from, to := m.Kind.ends()
	return "{" + text("id") + ": " + text(m.ID) + ", " + text("name") + ": " + text(m.Name) +
		", " + text("kind") + ": " + text(string(m.Kind)) + ", " + text("carrier") + ": " + text(string(m.Carrier)) +
		", " + text("at_mm") + ": " + vecRow(m.AtMM) + ", " + text("axis") + ": " + vecRow(m.Axis) +
		", " + text(from) + ": " + number(m.From) + ", " + text(to) + ": " + number(m.To) + "}"
}

// Limits of a movement (degrees, millimetres).
const (
	swingDeg = 180
	slideMM  = 3000
)

func movementSchema() obj {
	one := func(kind MovementKind, far float64) obj {
		from, to := kind.ends()
		return closed(obj{
			"id": idSchema(), "name": oneLine("Shown name."), "kind": obj{"const": kind},
			"carrier": obj{"enum": Carriers, "description": "What the movement is fixed to; its place is measured from that carrier's origin."},
			"at_mm":   vecSchema(farMM, "A point on a hinge's axis."),
			"axis":    vecSchema(farMM, "What a hinge turns about, right-handed, or the way a slide goes; any length but 0."),
			from:      numSchema(-far, 0, "As drawn it stands at 0."), to: numSchema(0, far, ""),
		}, "id", "kind", "axis", from, to)
	}
	return obj{"type": "array", "maxItems": MaxMovements, "description": "How single parts move by themselves.",
		"items": obj{"oneOf": []obj{one(Hinge, swingDeg), one(Slide, slideMM)}}}
}

func (c *checker) movements() {
	if n := len(c.doc.Movements); n > MaxMovements {
		c.fail("/movements", fmt.Sprintf("at most %d movements", MaxMovements), fmt.Sprintf("%d", n))
	}
	seen := map[string]bool{}
	for i := range c.doc.Movements {
		m, at := &c.doc.Movements[i], below("/movements", i)
		c.id(at+"/id", m.ID)
		if seen[m.ID] {
			c.fail(at+"/id", "an id of its own", "a second "+quote(m.ID))
		}
		seen[m.ID] = true
		c.line(at+"/name", m.Name)
		c.movement(at, m)
	}
	for i := range c.doc.Parts {
		c.partMoves(below("/parts", i)+"/moves", &c.doc.Parts[i], seen)
	}
}

func (c *checker) movement(at string, m *Movement) {
	far := float64(swingDeg)
	switch m.Kind {
	case Hinge:
	case Slide:
		far = slideMM
	default:
		c.fail(at+"/kind", "hinge or slide", quote(string(m.Kind)))
	}
	if !contains(Carriers, m.Carrier) {
		c.fail(at+"/carrier", "one of "+list(carrierWords(Carriers)), quote(string(m.Carrier)))
	}
	for k := range m.AtMM {
		c.num(below(at+"/at_mm", k), m.AtMM[k], -farMM, farMM)
		c.num(below(at+"/axis", k), m.Axis[k], -farMM, farMM)
	}
	if m.Axis == (Vec{}) {
		c.fail(at+"/axis", "a direction", "0, 0, 0")
	}
	from, to := m.Kind.ends()
	c.num(below(at, from), m.From, -far, 0)
	c.num(below(at, to), m.To, 0, far)
}

func (c *checker) partMoves(at string, p *Part, known map[string]bool) {
	if n := len(p.Moves); n > maxPartMoves {
		c.fail(at, fmt.Sprintf("at most %d movements", maxPartMoves), fmt.Sprintf("%d", n))
	}
	for i, id := range p.Moves {
		if !known[id] {
			c.fail(below(at, i), "the id of a movement", quote(id))
			continue
		}
		if m := c.doc.MovementNamed(id); m.Carrier != p.Carrier {
			c.fail(below(at, i), "a movement on the part's own carrier, "+string(p.Carrier), quote(id)+" on "+string(m.Carrier))
		}
		if i > 0 && p.Moves[i-1] == id {
			c.fail(below(at, i), "each movement once", "a second "+quote(id))
		}
	}
}

// MovementNamed is the movement of that id, or nil.
func (doc *Document) MovementNamed(id string) *Movement {
	for i := range doc.Movements {
		if doc.Movements[i].ID == id {
			return &doc.Movements[i]
		}
	}
	return nil
}
