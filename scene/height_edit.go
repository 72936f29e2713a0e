package scene

import (
	"errors"
	"fmt"
	"strconv"
)

// standing are the heights every scene has: they are the ends and the middle of
// the travel that is checked.
var standing = []string{AiredOut, Ride, AiredUp}

// Stands says whether a height is one that every scene has.
func (h *Height) Stands() bool { return contains(standing, h.ID) }

// AddHeight names a height of the body: front and rear are its moves from ride,
// mm. It stands last in Heights.
func AddHeight(doc *Document, frontMM, rearMM float64) (*Document, string, error) {
	if len(doc.Heights) >= maxHeights {
		return nil, "", fmt.Errorf("a scene has at most %d heights", maxHeights)
	}
	h := Height{FrontMM: frontMM, RearMM: rearMM}
	for n := len(doc.Heights) + 1; h.ID == "" || doc.heightTaken(&h); n++ {
		h.ID, h.Name = "height-"+strconv.Itoa(n), "Height "+strconv.Itoa(n)
	}
	return doc.setWhole("added "+h.Name, func(c *Document) error {
		c.Heights = append(c.Heights, h)
		return nil
	})
}

func (doc *Document) heightTaken(h *Height) bool {
	for i := range doc.Heights {
		if doc.Heights[i].ID == h.ID || doc.Heights[i].Name == h.Name {
			return true
		}
	}
	return false
}

// RemoveHeight takes a named height away; the standing ones stay.
func RemoveHeight(doc *Document, id string) (*Document, string, error) {
	for i := range doc.Heights {
		h := &doc.Heights[i]
		if h.ID != id {
			continue
		}
		if h.Stands() {
			return nil, "", errors.New(h.Name + " stays: the travel that is checked goes from aired out over ride to aired up")
		}
		c := *doc
		c.Heights = kept(doc.Heights, func(o *Height) bool { return o.ID != id })
		return c.Pruned(), "removed the height " + h.Name, nil
	}
	return nil, "", fmt.Errorf("there is no height %s", quote(id))
}
