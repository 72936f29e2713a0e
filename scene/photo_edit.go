package scene

import (
	"errors"
	"fmt"
	"strings"
)

// PutPhoto puts a photo behind a view: a new one, or in the place of the one
// of the same id. An empty id gets a fresh one, an empty name a plain one.
func PutPhoto(doc *Document, p Photo) (*Document, string, error) {
	p.Name = strings.TrimSpace(p.Name)
	at := -1
	for i := range doc.Photos {
		if p.ID != "" && doc.Photos[i].ID == p.ID {
			at = i
		}
	}
	if at < 0 && len(doc.Photos) >= MaxPhotos {
		return nil, "", fmt.Errorf("a scene holds at most %d photos; remove one first", MaxPhotos)
	}
	label := "changed the photo "
	c := *doc
	c.Photos = append([]Photo(nil), doc.Photos...)
	if at < 0 {
		at, label = len(c.Photos), "put in the photo "
		if p.ID == "" {
			p.ID = doc.freePhoto()
		}
		c.Photos = append(c.Photos, p)
	}
	if p.Name == "" {
		p.Name = strings.ToUpper(p.ID[:1]) + strings.ReplaceAll(p.ID[1:], "-", " ")
	}
	c.Photos[at] = p
	return c.withPhotos(doc, label+p.Name)
}

func (doc *Document) freePhoto() string {
	for n := len(doc.Photos) + 1; ; n++ {
		if id := fmt.Sprintf("photo-%d", n); doc.PhotoNamed(id) == nil {
			return id
		}
	}
}

// withPhotos is the changed document c, once its photos are valid.
func (c *Document) withPhotos(old *Document, label string) (*Document, string, error) {
	check := &checker{doc: c}
	if check.photos(); check.err != nil {
		return nil, "", sentence(old.Show, nil, check.err)
	}
	return c, label, nil
}

// RemovePhoto takes a photo away.
func RemovePhoto(doc *Document, id string) (*Document, string, error) {
	p := doc.PhotoNamed(id)
	if p == nil {
		return nil, "", errNoPhoto(id)
	}
	c := *doc
	c.Photos = nil
	for _, other := range doc.Photos {
		if other.ID != id {
			c.Photos = append(c.Photos, other)
		}
	}
	return &c, "removed the photo " + p.Name, nil
}

func errNoPhoto(id string) error { return fmt.Errorf("there is no photo %s any more", quote(id)) }

// ChangePhoto changes what is set beside the drawing: its name, how strong it
// is (opacity), whether it is hidden, or where it lies (at_mm/0, at_mm/1,
// turn_deg) from text as typed.
func ChangePhoto(doc *Document, id, field, text string) (*Document, string, error) {
	old := doc.PhotoNamed(id)
	if old == nil {
		return nil, "", errNoPhoto(id)
	}
	p, label := *old, "changed the photo "
	var err error
	switch field {
	case "name":
		if p.Name = strings.TrimSpace(text); p.Name == "" {
			return nil, "", errors.New("a photo needs a name")
		}
	case "opacity":
		p.Opacity, err = decimal(strings.TrimSpace(text))
		label = "set the strength of the photo "
	case "hidden":
		p.Hidden = text == "true"
		label = "showed the photo "
		if p.Hidden {
			label = "hid the photo "
		}
	case "at_mm/0", "at_mm/1":
		p.AtMM[field[len(field)-1]-'0'], err = ParseLength(text, doc.Show)
		label = "moved the photo "
	case "turn_deg":
		p.TurnDeg, err = ParseAngle(text)
		label = "turned the photo "
	default:
		return nil, "", errNoField(field)
	}
	if err != nil {
		return nil, "", err
	}
	next, _, err := PutPhoto(doc, p)
	return next, label + p.Name, err
}

// MovePhoto puts the point a photo is placed by elsewhere in its view's plane.
func MovePhoto(doc *Document, id string, at Spot) (*Document, string, error) {
	old := doc.PhotoNamed(id)
	if old == nil {
		return nil, "", errNoPhoto(id)
	}
	p := *old
	p.AtMM = Spot{at[0] + 0, at[1] + 0}
	next, _, err := PutPhoto(doc, p)
	return next, "moved the photo " + p.Name, err
}
