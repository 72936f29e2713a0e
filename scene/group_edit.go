package scene

import (
	"errors"
	"fmt"
	"strings"
)

// MakeGroup puts parts into a group of their own and out of those they were
// in. An empty name is made from the first part's.
func MakeGroup(doc *Document, parts []string, name string) (*Document, string, error) {
	ids := (&Document{}).Together(parts) // each once
	if len(ids) < 2 {
		return nil, "", errors.New("a group needs two parts or more")
	}
	first, err := doc.partAt(ids[0])
	if err != nil {
		return nil, "", err
	}
	for _, id := range ids[1:] {
		if _, err := doc.partAt(id); err != nil {
			return nil, "", err
		}
	}
	c := *doc
	c.Groups = doc.groupsWithout(ids)
	if name = strings.TrimSpace(name); name == "" {
		name = doc.Parts[first].Name + " and more"
	}
	c.Groups = append(c.Groups, Group{ID: c.freeGroup(slug(name)), Name: name, Parts: ids})
	return c.checkedAs("grouped " + name)
}

// checkedAs is a document that was just changed, once all of it is valid.
func (doc *Document) checkedAs(label string) (*Document, string, error) {
	if err := doc.Validate(); err != nil {
		return nil, "", sentence(doc.Show, nil, err)
	}
	return doc, label, nil
}

// groupsWithout is the groups less some parts; one that is left with a single
// part is no group any more.
func (doc *Document) groupsWithout(parts []string) (kept []Group) {
	for _, g := range doc.Groups {
		var left []string
		for _, id := range g.Parts {
			if !contains(parts, id) {
				left = append(left, id)
			}
		}
		if len(left) > 1 {
			g.Parts = left
			kept = append(kept, g)
		}
	}
	return kept
}

func (doc *Document) freeGroup(base string) string {
	taken := map[string]bool{}
	for i := range doc.Groups {
		taken[doc.Groups[i].ID] = true
	}
	id := base
	for n := 2; taken[id]; n++ {
		id = fmt.Sprintf("%s-%d", base, n)
	}
	return id
}

// groupAt is the index of the group of that id.
func (doc *Document) groupAt(id string) (int, error) {
	for i := range doc.Groups {
		if doc.Groups[i].ID == id {
			return i, nil
		}
	}
	return 0, fmt.Errorf("there is no group %s", quote(id))
}

// RenameGroup gives a group another name.
func RenameGroup(doc *Document, id, name string) (*Document, string, error) {
	i, err := doc.groupAt(id)
	if err != nil {
		return nil, "", err
	}
	if name = strings.TrimSpace(name); name == "" {
		return nil, "", errors.New("a group needs a name")
	}
	c := *doc
	c.Groups = append([]Group(nil), doc.Groups...)
	c.Groups[i].Name = name
	return c.checkedAs("renamed " + doc.Groups[i].Name)
}

// Ungroup takes a group apart; its parts stay where they are.
func Ungroup(doc *Document, id string) (*Document, string, error) {
	i, err := doc.groupAt(id)
	if err != nil {
		return nil, "", err
	}
	c := *doc
	c.Groups = doc.groupsWithout(doc.Groups[i].Parts)
	return c.checkedAs("took apart " + doc.Groups[i].Name)
}

// SetLocked locks a part in its place, or frees it. A locked part keeps its
// place, turn and carrier and is not deleted; its dimensions may be changed.
func SetLocked(doc *Document, id string, on bool) (*Document, string, error) {
	i, err := doc.partAt(id)
	if err != nil {
		return nil, "", err
	}
	c := *doc
	c.Parts = append([]Part(nil), doc.Parts...)
	c.Parts[i].Locked = on
	if on {
		return &c, "locked " + c.Parts[i].Name, nil
	}
	return &c, "unlocked " + c.Parts[i].Name, nil
}

// Held says why a part can be neither moved nor turned, or is nil.
func (p *Part) Held() error {
	if p.Locked {
		return errLocked(p)
	}
	if k := KindNamed(p.Kind); k != nil && k.Derived {
		return fmt.Errorf("%s stands where the suspension has it: change the suspension's points", p.Name)
	}
	return nil
}

// errLocked refuses to move a locked part.
func errLocked(p *Part) error {
	return fmt.Errorf("%s is locked in its place: unlock it first", p.Name)
}

// samePlace says whether two versions of a part stand alike.
func samePlace(a, b *Part) bool {
	return a.AtMM == b.AtMM && a.TurnDeg == b.TurnDeg && a.Carrier == b.Carrier
}
