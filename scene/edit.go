package scene

import (
	"fmt"
	"strconv"
	"strings"
)

// The edits below are pure: they leave the document they are given as it is
// and return a changed copy that shares what did not change. label says what
// was done, for undo ("moved Air tank"). err is one plain sentence; the
// document is nil then. A part that is added stands last in Parts.

// partAt is the index of the part of that id.
func (doc *Document) partAt(id string) (int, error) {
	for i := range doc.Parts {
		if doc.Parts[i].ID == id {
			return i, nil
		}
	}
	return 0, fmt.Errorf("there is no part %s", quote(id))
}

// withPart is doc with part i replaced, once that part is valid.
func (doc *Document) withPart(i int, p Part) (*Document, error) {
	return doc.withPlaced([]placing{{i, p}})
}

// withNewPart is doc with a part added at the end.
func (doc *Document) withNewPart(p Part) (*Document, error) {
	if len(doc.Parts) >= MaxParts {
		return nil, fmt.Errorf("a scene has at most %d parts", MaxParts)
	}
	c := *doc
	c.Parts = append(append([]Part(nil), doc.Parts...), p)
	return c.withPart(len(c.Parts)-1, p)
}

// AddPart adds a part of a kind at its default size, at a position on its
// kind's first carrier. Of the kinds that do not ride on the body, the second
// goes onto the next carrier, and so on: four wheels on four wheels.
func AddPart(doc *Document, kind string, at Vec) (*Document, string, error) {
	k := KindNamed(kind)
	if k == nil {
		return nil, "", fmt.Errorf("there is no kind of part called %s", quote(kind))
	}
	p := Part{Name: k.Label, Kind: kind, Carrier: k.freeCarrier(doc), AtMM: at, Size: k.DefaultSize()}
	p.Name = doc.freeName(p.Name)
	p.ID = doc.freeID(p.Name)
	c, err := doc.withNewPart(p)
	if err == nil {
		c.markNew(&p)
	}
	return c, "placed " + p.Name, err
}

func (k *Kind) freeCarrier(doc *Document) Carrier {
	if contains(k.Carriers, Body) {
		return k.Carriers[0]
	}
	taken := map[Carrier]bool{}
	for i := range doc.Parts {
		if doc.Parts[i].Kind == k.Name {
			taken[doc.Parts[i].Carrier] = true
		}
	}
	for _, on := range k.Carriers {
		if !taken[on] {
			return on
		}
	}
	return k.Carriers[0]
}

// freeName is name, or name with the least number that makes it new.
func (doc *Document) freeName(name string) string {
	taken := map[string]bool{}
	for i := range doc.Parts {
		taken[doc.Parts[i].Name] = true
	}
	base, n := name, 2
	if i := strings.LastIndexByte(name, ' '); i > 0 && taken[name] {
		if _, err := strconv.Atoi(name[i+1:]); err == nil {
			base = name[:i]
		}
	}
	for taken[name] {
		name = fmt.Sprintf("%s %d", base, n)
		n++
	}
	return name
}

// freeID makes a readable id from a name: air-tank, air-tank-2.
func (doc *Document) freeID(name string) string {
	taken := map[string]bool{}
	for i := range doc.Parts {
		taken[doc.Parts[i].ID] = true
	}
	doc.reserved(taken)
	base := slug(name)
	id := base
	for n := 2; taken[id]; n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	return id
}

// slug is text in small letters and digits joined by single hyphens.
func slug(text string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(text) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 48 {
			break
		}
	}
	if s := strings.Trim(b.String(), "-"); s != "" {
		return s
	}
	return "part"
}

// RemovePart removes a part with its needs and joins.
func RemovePart(doc *Document, id string) (*Document, string, error) {
	i, err := doc.partAt(id)
	if err != nil {
		return nil, "", err
	}
	if doc.Parts[i].Locked {
		return nil, "", errLocked(&doc.Parts[i])
	}
	c := *doc
	c.Parts = append(append([]Part(nil), doc.Parts[:i]...), doc.Parts[i+1:]...)
	c.unrelate(id)
	c.Needs, c.Joined = nil, nil
	for _, n := range doc.Needs {
		if n.Parts[0] != id && n.Parts[1] != id {
			c.Needs = append(c.Needs, n)
		}
	}
	for _, j := range doc.Joined {
		if j.A != id && j.B != id {
			c.Joined = append(c.Joined, j)
		}
	}
	c.withoutPart(id)
	c.backOnShelf(&doc.Parts[i])
	return c.Pruned(), "removed " + doc.Parts[i].Name, nil
}

// copyStepMM is how far behind its original a duplicate is put, so that it can
// be seen and picked up.
const copyStepMM = 100

// DuplicatePart adds a copy of a part a little behind it; a copy of a wheel or
// an axle goes onto the next carrier instead.
func DuplicatePart(doc *Document, id string) (*Document, string, error) {
	i, err := doc.partAt(id)
	if err != nil {
		return nil, "", err
	}
	p := doc.Parts[i].clone()
	p.Locked = false
	p.copied()
	k := KindNamed(p.Kind)
	if on := k.freeCarrier(doc); contains(k.Carriers, Body) || on == p.Carrier {
		p.AtMM[0] += copyStepMM
	} else {
		p.Carrier, p.Moves = on, nil // a movement stays with its carrier
	}
	p.Name = doc.freeName(p.Name)
	p.ID = doc.freeID(p.Name)
	c, err := doc.withNewPart(p)
	if err == nil {
		c.copyMarks(id, p.ID)
	}
	return c, "duplicated " + doc.Parts[i].Name, err
}

// clone is a copy that shares nothing that can be changed.
func (p *Part) clone() Part {
	c := *p
	c.Size = p.Size.Clone()
	c.Traits = append([]Trait(nil), p.Traits...)
	c.Moves = append([]string(nil), p.Moves...)
	c.MeasuredFrom = append([]Measured(nil), p.MeasuredFrom...)
	if p.ToleranceMM != nil {
		tol := *p.ToleranceMM
		c.ToleranceMM = &tol
	}
	if p.MassKG != nil {
		kg := *p.MassKG
		c.MassKG = &kg
	}
	if p.Price != nil {
		v := *p.Price
		c.Price = &v
	}
	return c
}

// MirrorPart adds the same part on the other side of the vehicle: Y changes
// sign in its position, its turn and its dimensions, and left and right change
// over in its carriers and its name.
func MirrorPart(doc *Document, id string) (*Document, string, error) {
	i, err := doc.partAt(id)
	if err != nil {
		return nil, "", err
	}
	p := doc.Parts[i].clone()
	p.Locked, p.MeasuredFrom = false, p.measuredExcept(1) // what stands on its right now stood on its left
	p.AtMM[1] = -p.AtMM[1] + 0
	p.TurnDeg[0], p.TurnDeg[2] = -p.TurnDeg[0]+0, -p.TurnDeg[2]+0
	p.Carrier = otherSide(p.Carrier)
	p.Moves = nil // what moves one side stays on its side
	p.Size = mirrorSize(KindNamed(p.Kind), p.Size)
	p.copied()
	p.Name = doc.freeName(leftRight.Replace(p.Name))
	p.ID = doc.freeID(p.Name)
	c, err := doc.withNewPart(p)
	if err == nil {
		c.copyMarks(id, p.ID)
	}
	return c, "mirrored " + doc.Parts[i].Name, err
}

var leftRight = strings.NewReplacer("left", "right", "right", "left", "Left", "Right", "Right", "Left")

// otherSide is the carrier on the other side of the vehicle.
func otherSide(on Carrier) Carrier {
	switch on {
	case WheelFL:
		return WheelFR
	case WheelFR:
		return WheelFL
	case WheelRL:
		return WheelRR
	case WheelRR:
		return WheelRL
	}
	return on
}

// mirrorSize is a size on the other side: handed numbers change sign, and a
// choice of a carrier goes to the one across.
func mirrorSize(k *Kind, s Size) Size {
	m := s.Clone()
	for i := range k.Fields {
		f := &k.Fields[i]
		v := m[f.Name]
		switch {
		case f.Type == Choice:
			v.Text = string(otherSide(Carrier(v.Text)))
		case f.Type == Table:
			for j := range f.Columns {
				for _, r := range v.Rows {
					if f.Columns[j].Handed {
						r[j] = -r[j] + 0
					}
				}
			}
		case f.Handed:
			v.Num = -v.Num + 0
		}
		m[f.Name] = v
	}
	return m
}

// MovePart puts a part's reference point elsewhere.
func MovePart(doc *Document, id string, at Vec) (*Document, string, error) {
	i, err := doc.partAt(id)
	if err != nil {
		return nil, "", err
	}
	p := doc.Parts[i]
	p.AtMM = Vec{at[0] + 0, at[1] + 0, at[2] + 0}
	c, err := doc.withPart(i, p)
	return c, "moved " + p.Name, err
}

// SetJoined declares two parts joined, with the reason, or takes that back.
func SetJoined(doc *Document, a, b string, on bool, why string) (*Document, string, error) {
	i, err := doc.partAt(a)
	if err != nil {
		return nil, "", err
	}
	k, err := doc.partAt(b)
	if err != nil {
		return nil, "", err
	}
	if i == k {
		return nil, "", fmt.Errorf("%s cannot be joined to itself", doc.Parts[i].Name)
	}
	c := *doc
	c.Joined = nil
	for _, j := range doc.Joined {
		if !(j.A == a && j.B == b || j.A == b && j.B == a) {
			c.Joined = append(c.Joined, j)
		}
	}
	pair := doc.Parts[i].Name + " and " + doc.Parts[k].Name
	if !on {
		return &c, "parted " + pair, nil
	}
	c.Joined = append(c.Joined, Joined{A: a, B: b, Why: strings.TrimSpace(why)})
	if err := c.Validate(); err != nil {
		return nil, "", sentence(doc.Show, nil, err)
	}
	return &c, "joined " + pair, nil
}
