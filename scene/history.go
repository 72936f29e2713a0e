package scene

// MaxSteps is how many steps a history keeps; older ones can no longer be undone.
const MaxSteps = 500

// History is the documents of one sitting. Documents are never changed once
// they are in it.
type History struct {
	steps []step // steps[0] is where it began, or the oldest kept
	now   int
	packing
}

type step struct {
	doc   *Document // nil: still packed; see [History.unpack]
	label string    // what led to it from the step before: "moved Air tank"
	drag  string    // one drag's moves have the same word; empty never joins
	// from is the variant that was shown before it, in the one that was shown then.
	from, in string
	packedStep
}

// NewHistory begins with a document and nothing to undo.
func NewHistory(doc *Document) *History { return &History{steps: []step{{doc: doc}}} }

// Doc is the present document.
func (h *History) Doc() *Document { return h.steps[h.now].doc }

// Do makes doc the present one; what had been undone is gone.
func (h *History) Do(doc *Document, label string) { h.DoWithin("", doc, label) }

// DoWithin is Do for one of many moves of a drag: it joins the step before
// where that came from the same drag, so that one undo takes the whole drag
// back.
func (h *History) DoWithin(drag string, doc *Document, label string) {
	last := &h.steps[h.now]
	if drag != "" && last.drag == drag && h.now == len(h.steps)-1 && h.now > 0 {
		last.doc, last.label, last.told = doc, label, false
		return
	}
	h.steps = append(h.steps[:h.now+1:h.now+1], step{doc: doc, label: label, drag: drag, from: last.doc.Shown, in: doc.Shown})
	if over := len(h.steps) - 1 - MaxSteps; over > 0 {
		h.steps = append([]step(nil), h.steps[over:]...)
	}
	h.now = len(h.steps) - 1
}

// Replace puts another view of the present document in its place; nothing can
// be undone about it.
func (h *History) Replace(doc *Document) {
	if doc != h.Doc() {
		h.loosen()
	}
	h.steps[h.now].doc = doc
}

// Undo goes one step back and returns the document there, seen through the
// variant in which the step was made; false at the beginning.
func (h *History) Undo() (*Document, bool) {
	if h.now == 0 || !h.unpack(h.now-1) {
		return h.Doc(), false
	}
	from := h.steps[h.now].from
	h.now--
	h.Replace(h.Doc().through(from))
	return h.Doc(), true
}

// Redo goes one step forward again, to where the step was made; false when
// nothing was undone.
func (h *History) Redo() (*Document, bool) {
	if h.now == len(h.steps)-1 || !h.unpack(h.now+1) {
		return h.Doc(), false
	}
	h.now++
	h.Replace(h.Doc().through(h.steps[h.now].in))
	return h.Doc(), true
}

// UndoLabel is what Undo would take back, empty for nothing.
func (h *History) UndoLabel() string {
	if h.now == 0 {
		return ""
	}
	return h.steps[h.now].label
}

// RedoLabel is what Redo would do again, empty for nothing.
func (h *History) RedoLabel() string {
	if h.now == len(h.steps)-1 {
		return ""
	}
	return h.steps[h.now+1].label
}
