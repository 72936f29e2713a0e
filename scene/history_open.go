package scene

import (
	"encoding/json"
	"strings"
)

// Unpack reads the history that was packed when doc was the present document,
// which stays the one given. False when the text is damaged or belongs to
// another document: a history is a convenience, and nothing is said about it.
// Documents of other steps are made when they are reached.
func Unpack(doc *Document, text string) (*History, bool) {
	head, body, _ := strings.Cut(text, "\n")
	if len(text) > MaxPackedBytes || head != packedFormat+sumOf([]string{body}) {
		return nil, false
	}
	return unpackBody(doc, body)
}

// unpackBody is Unpack behind the first row.
func unpackBody(doc *Document, body string) (*History, bool) {
	var f packedFile
	if json.Unmarshal([]byte(body), &f) != nil || len(f.Steps) > PackedSteps+1 || f.Now < 0 || f.Now >= len(f.Steps) {
		return nil, false
	}
	h := &History{steps: make([]step, len(f.Steps)), now: f.Now}
	for i, t := range f.Steps {
		if t.Show != Millimetres && t.Show != Inches {
			return nil, false
		}
		s := &h.steps[i]
		s.label, s.from, s.in = t.Label, t.From, t.In
		s.change, s.told, s.shown, s.show = t.Change, true, t.Shown, t.Show
		s.cost = fileCost(s)
	}
	h.steps[h.now].doc = doc
	if sumOf(h.rowsAt(h.now)) != f.Of || !h.takePictures(f.Pictures) || !h.fits() {
		return nil, false
	}
	return h, true
}

// takePictures keeps the pictures that packed steps may name: those in the
// text and those of the present document.
func (h *History) takePictures(list []filePicture) bool {
	h.pictures = map[string]*Picture{}
	for _, t := range list {
		p, err := NewPicture(t.Type, t.Base64)
		if err != nil {
			return false
		}
		h.pictures[p.key] = p
	}
	for i := range h.Doc().Photos {
		p := h.Doc().Photos[i].Picture
		h.pictures[p.key] = p
	}
	return true
}

// fits says whether every change fits the rows it is for, and names no picture
// that is not there.
func (h *History) fits() bool {
	for i := range h.steps {
		for _, k := range pictureKeys(h.steps[i].change) {
			if h.pictures[k] == nil {
				return false
			}
		}
	}
	rows, ok := h.rowsAt(h.now), true
	for i := h.now; i > 0 && ok; i-- {
		rows, ok = changed(rows, h.steps[i].change, true)
	}
	if !ok {
		return false
	}
	rows = h.rowsAt(h.now)
	for i := h.now + 1; i < len(h.steps) && ok; i++ {
		rows, ok = changed(rows, h.steps[i].change, false)
	}
	return ok
}
