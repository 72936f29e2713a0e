package scene

import (
	"errors"
	"fmt"
	"strings"
)

// AddMovement gives a part a movement of its own: a hinge across the vehicle
// through the part's reference point, or a slide rearward, over a small range
// to begin with. The part's carrier becomes the movement's.
func AddMovement(doc *Document, part string, kind MovementKind) (*Document, string, error) {
	i, err := doc.partAt(part)
	if err != nil {
		return nil, "", err
	}
	if len(doc.Movements) >= MaxMovements {
		return nil, "", fmt.Errorf("there are %d movements already, which is all a scene holds", MaxMovements)
	}
	p := doc.Parts[i].clone()
	if len(p.Moves) >= maxPartMoves {
		return nil, "", fmt.Errorf("%s has %d movements already, which is all a part takes", p.Name, maxPartMoves)
	}
	m := Movement{Kind: kind, Carrier: p.Carrier, AtMM: p.AtMM, Axis: Vec{0, 1, 0}, To: 30, Name: p.Name + " swings"}
	if kind == Slide {
		m.Axis, m.To, m.Name = Vec{1, 0, 0}, 150, p.Name+" slides"
	}
	m.ID = doc.freeMovement(slug(m.Name))
	p.Moves = append(p.Moves, m.ID)
	c := *doc
	c.Movements = append(append([]Movement(nil), doc.Movements...), m)
	next, err := c.withPart(i, p)
	if err == nil {
		err = next.Validate()
	}
	if err != nil {
		return nil, "", err
	}
	return next, "let " + p.Name + " move", nil
}

func (doc *Document) freeMovement(id string) string {
	for n, try := 2, id; ; n++ {
		if doc.MovementNamed(try) == nil {
			return try
		}
		try = fmt.Sprintf("%s-%d", id, n)
	}
}

// RemoveMovement takes a movement away; the parts it carried stay where they
// are drawn.
func RemoveMovement(doc *Document, id string) (*Document, string, error) {
	m := doc.MovementNamed(id)
	if m == nil {
		return nil, "", fmt.Errorf("there is no movement called %s", quote(id))
	}
	c := *doc
	c.Movements = nil
	for _, other := range doc.Movements {
		if other.ID != id {
			c.Movements = append(c.Movements, other)
		}
	}
	c.Parts = append([]Part(nil), doc.Parts...)
	for i := range c.Parts {
		c.Parts[i].Moves = doc.Parts[i].without(id)
	}
	return c.Pruned(), "removed the movement " + m.Name, nil
}

// without is a part's movements but one.
func (p *Part) without(id string) (kept []string) {
	for _, m := range p.Moves {
		if m != id {
			kept = append(kept, m)
		}
	}
	return kept
}

// setMovement changes a field of a movement: name, at_mm/0, axis/1, from, to.
func setMovement(c *Document, id string, steps []string, text string) error {
	c.Movements = append([]Movement(nil), c.Movements...)
	m := c.MovementNamed(id)
	if m == nil {
		return fmt.Errorf("there is no movement called %s", quote(id))
	}
	if axis, ok := axisOf(steps, "at"); ok {
		v, err := ParseLength(text, c.Show)
		m.AtMM[axis] = v
		return err
	}
	if axis, ok := axisOf(steps, "axis"); ok {
		v, err := ParseAngle(text) // a plain number, whatever the unit shown
		m.Axis[axis] = v
		return err
	}
	switch bare(steps[0]) {
	case "name":
		if m.Name = strings.TrimSpace(text); m.Name == "" {
			return errors.New("a movement needs a name")
		}
		return nil
	case "from":
		return m.setEnd(&m.From, text, c.Show)
	case "to":
		return m.setEnd(&m.To, text, c.Show)
	}
	return errNoField(strings.Join(steps, "/"))
}

func (m *Movement) setEnd(end *float64, text string, show Units) (err error) {
	if m.Kind == Slide {
		*end, err = ParseLength(text, show)
	} else {
		*end, err = ParseAngle(text)
	}
	return err
}
