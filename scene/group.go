package scene

import "fmt"

// Group is parts that are moved together by hand: a tank with its brackets.
// A part is in one group at most. Grouped parts are checked against each other
// like any others.
type Group struct {
	ID, Name string
	Parts    []string // part ids, at least two
}

// maxGroups is the most groups of a document: as many as its parts allow.
const maxGroups = MaxParts / 2

func (d *decoder) group(n *node, at string) (g Group) {
	if d.object(n, at, []string{"id", "parts"}, []string{"name"}) {
		g.ID = d.text(n, at, "id", "")
		g.Name = d.text(n, at, "name", g.ID)
		g.Parts = d.words(n, at, "parts")
	}
	return g
}

func groupRow(g Group) string {
	return row("id", text(g.ID), "name", text(g.Name), "parts", wordRow(g.Parts...))
}

func groupSchema() obj {
	return obj{"type": "array", "maxItems": maxGroups, "description": "Parts that are moved together.",
		"items": closed(obj{
			"id": idSchema(), "name": oneLine("Shown name."),
			"parts": obj{"type": "array", "minItems": 2, "maxItems": MaxParts, "uniqueItems": true, "items": idSchema(),
				"description": "Ids of parts; each part is in one group at most."},
		}, "id", "parts")}
}

func (c *checker) groups() {
	if n := len(c.doc.Groups); n > maxGroups {
		c.fail("/groups", fmt.Sprintf("at most %d groups", maxGroups), fmt.Sprintf("%d", n))
		return
	}
	ids, taken := map[string]bool{}, map[string]string{}
	for i := range c.doc.Groups {
		g, at := &c.doc.Groups[i], below("/groups", i)
		c.id(at+"/id", g.ID)
		if ids[g.ID] {
			c.fail(at+"/id", "an id of its own", "a second "+quote(g.ID))
		}
		ids[g.ID] = true
		c.line(at+"/name", g.Name)
		if len(g.Parts) < 2 {
			c.fail(at+"/parts", "two parts or more", fmt.Sprintf("%d", len(g.Parts)))
		}
		for k, id := range g.Parts {
			if _, ok := c.index[id]; !ok {
				c.fail(below(at+"/parts", k), "the id of a part", quote(id))
			}
			if other, ok := taken[id]; ok {
				c.fail(below(at+"/parts", k), "a part of no other group", quote(id)+", which is in "+quote(other))
			}
			taken[id] = g.ID
		}
	}
}

// GroupOf is the group a part is in, or nil.
func (doc *Document) GroupOf(part string) *Group {
	for i := range doc.Groups {
		if contains(doc.Groups[i].Parts, part) {
			return &doc.Groups[i]
		}
	}
	return nil
}

// Together are the parts that move with the listed ones: themselves and the
// members of their groups, each once, the listed ones first.
func (doc *Document) Together(parts []string) []string {
	var all []string
	add := func(id string) {
		if !contains(all, id) {
			all = append(all, id)
		}
	}
	for _, id := range parts {
		add(id)
	}
	for _, id := range parts {
		if g := doc.GroupOf(id); g != nil {
			for _, mate := range g.Parts {
				add(mate)
			}
		}
	}
	return all
}
