package scene

import (
	"errors"
	"strings"
)

// NeedFor is the document's own figure for the two parts or traits that n
// names; nil when it has none.
func (doc *Document) NeedFor(n Need) *Need {
	key := needKey(&n)
	for i := range doc.Needs {
		if needKey(&doc.Needs[i]) == key {
			return &doc.Needs[i]
		}
	}
	return nil
}

// SetNeed puts a figure of the user's own in place of the table's, for two parts
// or for two traits.
func SetNeed(doc *Document, n Need) (*Document, string, error) {
	n.Why = strings.TrimSpace(n.Why)
	was := doc.NeedFor(n)
	c := *doc
	c.Needs = append([]Need(nil), doc.Needs...)
	if old := c.NeedFor(n); old != nil {
		n.Parts, n.Traits = old.Parts, old.Traits
		*old = n
	} else {
		c.Needs = append(c.Needs, n)
	}
	if err := c.Validate(); err != nil {
		return nil, "", sentence(doc.Show, nil, err)
	}
	return &c, needLabel(doc, was, &n), nil
}

// needLabel says what was changed about a need.
func needLabel(doc *Document, was, now *Need) string {
	pair := doc.needPair(now)
	switch {
	case now.Shielded && (was == nil || !was.Shielded):
		return "stated a shield between " + pair
	case was != nil && was.Shielded && !now.Shielded:
		return "took back the shield between " + pair
	case was != nil && was.NeedMM == now.NeedMM:
		return "said why " + pair + " need that"
	}
	return "changed the need of " + pair
}

// needPair names the two a need stands between.
func (doc *Document) needPair(n *Need) string {
	if n.Parts == [2]string{} {
		return string(n.Traits[0]) + " and " + string(n.Traits[1])
	}
	var names [2]string
	for k, id := range n.Parts {
		if names[k] = id; id != "" {
			if i, err := doc.partAt(id); err == nil {
				names[k] = doc.Parts[i].Name
			}
		}
	}
	return names[0] + " and " + names[1]
}

// DropNeed goes back to the table's figure for two parts or two traits.
func DropNeed(doc *Document, n Need) (*Document, string, error) {
	key := needKey(&n)
	if doc.NeedFor(n) == nil {
		return nil, "", errors.New("the table's figure holds for these two already")
	}
	c := *doc
	c.Needs = kept(doc.Needs, func(o *Need) bool { return needKey(o) != key })
	return &c, "went back to the table for " + doc.needPair(&n), nil
}
