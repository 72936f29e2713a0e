package scene

import (
	"fmt"
	"strconv"
)

// Measured is what a part's place along one axis was measured from: a datum of
// the vehicle, or a face of another part. The part's AtMM says where it stands;
// MM is the same told from the reference, as the tape reads it, so that the
// part can follow when the reference moves. See [Settle].
type Measured struct {
	Axis  int    // 0 X, 1 Y, 2 Z
	Datum Datum  // empty: a part
	Part  string // id; empty: a datum
	Face  Face   // of that part
	To    Face   // of this part
	MM    float64
	Moves Moves // what becomes of this part when the reference moves
}

// Moves says what becomes of a part when what it was measured from moves.
type Moves string

const (
	Asks   Moves = ""       // that is asked each time
	Always Moves = "always" // it goes along
	Never  Moves = "never"  // it stays
)

// Datum is a place of the vehicle one measures from.
type Datum string

const (
	FromFrontAxle Datum = "front_axle" // X, Z: its centreline at ride
	FromRearAxle  Datum = "rear_axle"  // X, Z: its centreline at ride
	FromCentre    Datum = "centre"     // Y: the vehicle's centreline
	FromFrame     Datum = "frame"      // Z: the frame datum plane
	FromGround    Datum = "ground"     // Z: the ground at ride, square to it
)

// DatumsAlong lists the datums of an axis, the one positions are stored from first
// for a part on the body.
func DatumsAlong(axis int) []Datum {
	switch axis {
	case 0:
		return []Datum{FromFrontAxle, FromRearAxle}
	case 1:
		return []Datum{FromCentre}
	}
	return []Datum{FromFrame, FromGround, FromFrontAxle, FromRearAxle}
}

// Face is a place of a part along an axis, at ride: where it begins, where it
// ends, or its reference point.
type Face string

const (
	Point Face = "point"
	Low   Face = "low"  // front end, left side, underside
	High  Face = "high" // rear end, right side, top
)

// Faces lists every face.
var Faces = []Face{Point, Low, High}

// axisNames are the axes as a file writes them.
var axisNames = [3]string{"x", "y", "z"}

// MeasuredAlong is what a part was measured from along an axis, or nil.
func (p *Part) MeasuredAlong(axis int) *Measured {
	for i := range p.MeasuredFrom {
		if p.MeasuredFrom[i].Axis == axis {
			return &p.MeasuredFrom[i]
		}
	}
	return nil
}

func (d *decoder) measured(n *node, at string) (m Measured) {
	if !d.object(n, at, []string{"axis", "mm"}, []string{"datum", "part", "face", "to", "moves"}) {
		return m
	}
	switch axis := d.text(n, at, "axis", ""); axis {
	case "x", "y", "z":
		m.Axis = int(axis[0] - 'x')
	default:
		d.fail(at+"/axis", "x, y or z", quote(axis))
	}
	if (n.member("datum") == nil) == (n.member("part") == nil) {
		d.fail(at, "either a datum or a part", "both or neither")
	}
	m.Datum, m.Part = Datum(d.text(n, at, "datum", "")), d.text(n, at, "part", "")
	if n.member("part") != nil {
		m.Face = Face(d.text(n, at, "face", string(Point)))
	} else if n.member("face") != nil {
		d.fail(at+"/face", "a face of a part only", "a face of a datum")
	}
	m.To, m.MM = Face(d.text(n, at, "to", string(Point))), d.num(n, at, "mm", 0)
	if n.member("moves") != nil {
		m.Moves = Moves(d.text(n, at, "moves", ""))
		if m.Moves == Asks {
			d.fail(at+"/moves", "always or never", "nothing")
		}
	}
	return m
}

func measuredRow(m Measured) string {
	pairs := []string{"axis", text(axisNames[m.Axis])}
	if m.Datum != "" {
		pairs = append(pairs, "datum", text(string(m.Datum)))
	} else {
		pairs = append(pairs, "part", text(m.Part), "face", text(string(m.Face)))
	}
	pairs = append(pairs, "to", text(string(m.To)), "mm", number(m.MM))
	if m.Moves != Asks {
		pairs = append(pairs, "moves", text(string(m.Moves)))
	}
	return row(pairs...)
}

func measuredSchema() obj {
	faces := func(about string) obj { return obj{"enum": Faces, "default": Point, "description": about} }
	one := closed(obj{
		"axis":  obj{"enum": axisNames},
		"datum": obj{"enum": []Datum{FromFrontAxle, FromRearAxle, FromCentre, FromFrame, FromGround}, "description": "A place of the vehicle."},
		"part":  idSchema(), "face": faces("Of that part: its reference point, or where it begins or ends along the axis."),
		"to":    faces("Of this part."),
		"mm":    numSchema(-2*farMM, 2*farMM, "From there to this part, along the axis; from the ground, square to it."),
		"moves": obj{"enum": []Moves{Always, Never}, "description": "When the reference moves: this part always goes along, or never does. Without it, that is asked each time."},
	}, "axis", "mm")
	var byAxis []obj
	for axis, name := range axisNames {
		byAxis = append(byAxis, obj{"properties": obj{"axis": obj{"const": name}, "datum": obj{"enum": DatumsAlong(axis)}}})
	}
	one["anyOf"] = byAxis
	one["oneOf"] = []obj{
		{"required": []string{"datum"}, "properties": obj{"face": false}},
		{"required": []string{"part"}},
	}
	return obj{"type": "array", "maxItems": 3, "items": one,
		"description": "What its place was measured from, one line for an axis. at_mm says where it stands."}
}

// measured checks what all parts were measured from.
func (c *checker) measured() {
	for i := range c.doc.Parts {
		p := &c.doc.Parts[i]
		var seen [3]bool
		for k := range p.MeasuredFrom {
			m, at := &p.MeasuredFrom[k], below(below("/parts", i)+"/measured_from", k)
			if m.Axis < 0 || m.Axis > 2 {
				c.fail(at+"/axis", "x, y or z", strconv.Itoa(m.Axis))
				return
			}
			if seen[m.Axis] {
				c.fail(at+"/axis", "each axis once", "a second "+axisNames[m.Axis])
			}
			seen[m.Axis] = true
			c.reference(at, p, m)
		}
	}
	if c.err == nil {
		c.circles()
	}
}

func (c *checker) reference(at string, p *Part, m *Measured) {
	if (m.Datum == "") == (m.Part == "") {
		c.fail(at, "either a datum or a part", "both or neither")
		return
	}
	if m.Datum != "" {
		if !contains(DatumsAlong(m.Axis), m.Datum) {
			c.fail(at+"/datum", list(datumWords(m.Axis))+" along "+axisNames[m.Axis], quote(string(m.Datum)))
		}
	} else {
		if _, ok := c.index[m.Part]; !ok {
			c.fail(at+"/part", "the id of a part", quote(m.Part))
		}
		if m.Part == p.ID {
			c.fail(at+"/part", "another part", quote(m.Part))
		}
		c.face(at+"/face", m.Face)
	}
	c.face(at+"/to", m.To)
	c.num(at+"/mm", m.MM, -2*farMM, 2*farMM)
	if m.Moves != Asks && m.Moves != Always && m.Moves != Never {
		c.fail(at+"/moves", "always or never", quote(string(m.Moves)))
	}
}

func (c *checker) face(at string, f Face) {
	if !contains(Faces, f) {
		c.fail(at, "point, low or high", quote(string(f)))
	}
}

func datumWords(axis int) []string {
	var words []string
	for _, d := range DatumsAlong(axis) {
		words = append(words, string(d))
	}
	return words
}

// circles refuses measurements that lead back to their own part.
func (c *checker) circles() {
	for i := range c.doc.Parts {
		for k := range c.doc.Parts[i].MeasuredFrom {
			m := &c.doc.Parts[i].MeasuredFrom[k]
			if way := c.doc.circle(i, m); way != nil {
				c.fail(below(below("/parts", i)+"/measured_from", k)+"/part", "a part that is not itself measured from this one", circleWords(way))
				return
			}
		}
	}
}

// circle follows what part i is measured from and gives the names on the way
// back to it, nil when it does not lead back.
func (doc *Document) circle(i int, m *Measured) []string {
	way := []string{doc.Parts[i].Name}
	for range doc.Parts {
		if m == nil || m.Part == "" {
			return nil
		}
		at, err := doc.partAt(m.Part)
		if err != nil {
			return nil
		}
		way = append(way, doc.Parts[at].Name)
		if at == i {
			return way
		}
		m = doc.Parts[at].MeasuredAlong(m.Axis)
	}
	return nil // a circle further on, told where it lies
}

func circleWords(way []string) string {
	s := way[0]
	for _, name := range way[1:] {
		s += " from " + name
	}
	return fmt.Sprintf("a circle: %s", s)
}
