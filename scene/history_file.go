package scene

import (
	"encoding/json"
	"fmt"
	"hash/fnv"
	"strings"
)

// Limits of a packed history; the oldest steps are left out of it first.
const (
	PackedSteps    = 100     // steps, both ways together
	MaxPackedBytes = 2 << 20 // of the whole text; a picture that no longer shows may take 0.4 MB of it
)

const packedFormat = "scrubline-steps 1 "

// headBytes is what the text takes beside the steps and pictures, amply.
const headBytes = 1024

// packing is what a history needs to be packed, and to be used while it is.
type packing struct {
	pictures map[string]*Picture // by key: those of steps that are still packed
	rowsDoc  *Document           // the document last written as rows
	rows     []string
}

// packedStep is a step in the text of a history.
type packedStep struct {
	change string // leads from the step before to this one; see [rowChange]
	told   bool   // change holds
	cost   int    // bytes it takes in the text
	shown  string // of a step without a document: how it was looked at
	show   Units
}

// packedFile is the text of a history behind its first row.
type packedFile struct {
	Of       string        `json:"of"` // sum of the rows of the present document
	Now      int           `json:"now"`
	Steps    []fileStep    `json:"steps"`
	Pictures []filePicture `json:"pictures,omitempty"` // those the present document does not have
}

type fileStep struct {
	Label  string `json:"label,omitempty"`
	From   string `json:"from,omitempty"`
	In     string `json:"in,omitempty"`
	Shown  string `json:"shown,omitempty"`
	Show   Units  `json:"show"`
	Change string `json:"change,omitempty"`
}

type filePicture struct {
	Type   string `json:"type"`
	Base64 string `json:"base64"`
}

// Pack writes the steps around the present one, at most [PackedSteps], as text
// of at most [MaxPackedBytes] that [Unpack] reads beside the present document.
// That document itself is not in it.
func (h *History) Pack() string {
	lo, hi, keys := h.window()
	f := packedFile{Of: sumOf(h.rowsAt(h.now)), Now: h.now - lo}
	for i := lo; i <= hi; i++ {
		s := &h.steps[i]
		t := fileStep{Label: s.label, From: s.from, In: s.in, Shown: s.shown, Show: s.show, Change: s.change}
		if s.doc != nil {
			t.Shown, t.Show = s.doc.Shown, s.doc.Show
		}
		if i == lo {
			t.Label, t.From, t.In, t.Change = "", "", "", ""
		}
		f.Steps = append(f.Steps, t)
	}
	pool := h.pool()
	for _, k := range keys {
		f.Pictures = append(f.Pictures, filePicture{pool[k].kind, pool[k].base64})
	}
	body, err := json.Marshal(f)
	if err != nil {
		return "" // plain text always marshals
	}
	return packedFormat + sumOf([]string{string(body)}) + "\n" + string(body)
}

// sumOf tells texts apart (FNV-1a, 64 bits): it finds damage and what does not
// belong together, not malice.
func sumOf(rows []string) string {
	sum := fnv.New64a()
	for _, r := range rows {
		sum.Write([]byte(r))
		sum.Write([]byte{'\n'})
	}
	return fmt.Sprintf("%016x", sum.Sum64())
}

// window is the first and the last step that go into the text, taken in turn
// before and after the present one, and the keys of the pictures they need
// beside those of the present document.
func (h *History) window() (lo, hi int, keys []string) {
	have, pool, size := map[string]bool{}, h.pool(), headBytes
	for i := range h.Doc().Photos {
		have[h.Doc().Photos[i].Picture.key] = true
	}
	take := func(i int) bool { // the change that leads to step i
		if !h.tell(i) {
			return false
		}
		more, cost := []string{}, h.steps[i].cost
		for _, k := range pictureKeys(h.steps[i].change) {
			if have[k] {
				continue
			}
			if pool[k] == nil {
				return false
			}
			more, cost = append(more, k), cost+len(pool[k].base64)+64
		}
		if size+cost > MaxPackedBytes {
			return false
		}
		size += cost
		for _, k := range more {
			if !have[k] {
				have[k], keys = true, append(keys, k)
			}
		}
		return true
	}
	lo, hi = h.now, h.now
	for back, on := true, true; back || on; {
		if back = back && lo > 0 && hi-lo < PackedSteps && take(lo); back {
			lo--
		}
		if on = on && hi < len(h.steps)-1 && hi-lo < PackedSteps && take(hi+1); on {
			hi++
		}
	}
	return lo, hi, keys
}

// pictureKeys are the keys of pictures in a change.
func pictureKeys(change string) (keys []string) {
	if !strings.Contains(change, base64Key+keyMark) {
		return nil
	}
	for _, row := range strings.Split(change, "\n") {
		if k, ok := pictureKey(row); ok {
			keys = append(keys, k)
		}
	}
	return keys
}

// pool is every picture of every step, by key.
func (h *History) pool() map[string]*Picture {
	all := map[string]*Picture{}
	for k, p := range h.pictures {
		all[k] = p
	}
	for i := range h.steps {
		if doc := h.steps[i].doc; doc != nil {
			for j := range doc.Photos {
				all[doc.Photos[j].Picture.key] = doc.Photos[j].Picture
			}
		}
	}
	return all
}

// rowsAt are the rows of a step's document.
func (h *History) rowsAt(i int) []string {
	if doc := h.steps[i].doc; h.rowsDoc != doc {
		h.rowsDoc, h.rows = doc, rowsOf(doc)
	}
	return h.rows
}

// tell works out the change that leads to step i, from the one before.
func (h *History) tell(i int) bool {
	s := &h.steps[i]
	if s.told {
		return true
	}
	if s.doc == nil || h.steps[i-1].doc == nil {
		return false
	}
	before := h.rowsAt(i - 1)
	s.change = rowChange(before, h.rowsAt(i))
	s.cost, s.told = fileCost(s), true
	return true
}

// fileCost is how many bytes a step takes in the text, amply.
func fileCost(s *step) int {
	const names = 512 // what is not text of the user, and the ids of three variants
	escaped := 0
	for _, part := range []string{s.change, s.label} {
		for i := 0; i < len(part); i++ {
			switch c := part[i]; {
			case c == '"' || c == '\\' || c == '\n' || c == '\r' || c == '\t':
				escaped++
			case c < ' ' || c == '<' || c == '>' || c == '&' || c >= 0x7F:
				escaped += 5
			}
		}
		escaped += len(part)
	}
	return escaped + names
}

// loosen gets the present step ready for another document: its neighbours no
// longer follow from it, nor it from them.
func (h *History) loosen() {
	if h.now > 0 && h.unpack(h.now-1) {
		h.steps[h.now].told = false
	}
	if h.now < len(h.steps)-1 && h.unpack(h.now+1) {
		h.steps[h.now+1].told = false
	}
}

// unpack makes the document of a step beside one that has its own. When that
// fails, this step and those beyond are dropped.
func (h *History) unpack(i int) bool {
	s := &h.steps[i]
	if s.doc != nil {
		return true
	}
	beside, change, back := h.now, s.change, i < h.now
	if back {
		change = h.steps[beside].change
	}
	if rows, ok := changed(h.rowsAt(beside), change, back); ok {
		if s.doc = h.document(rows, s); s.doc != nil {
			return true
		}
	}
	if back {
		h.steps, h.now = append([]step(nil), h.steps[i+1:]...), 0
	} else {
		h.steps = h.steps[:i:i]
	}
	return false
}

// document reads the document of a step from its rows; nil when it is not to
// be had exactly as it was.
func (h *History) document(rows []string, s *step) *Document {
	whole := append([]string(nil), rows...)
	for i, row := range whole {
		key, ok := pictureKey(row)
		if !ok {
			continue
		}
		p := h.pictures[key]
		if p == nil {
			return nil
		}
		whole[i] = base64Key + p.base64 + `"`
	}
	doc, err := Decode([]byte(strings.Join(whole, "\n")))
	if err != nil {
		return nil
	}
	for i := range doc.Photos {
		doc.Photos[i].Picture = h.pictures[doc.Photos[i].Picture.key]
	}
	doc.Show = s.show
	if doc, err = View(doc, s.shown); err != nil || sumOf(rowsOf(doc)) != sumOf(rows) {
		return nil
	}
	return doc
}
