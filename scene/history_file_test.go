package scene

import (
	"bytes"
	"fmt"
	"math/rand"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// reopened is a history after its document was written to a file and opened,
// and the steps with it, as a page does that is loaded again.
func reopened(t rapidOrTest, h *History) *History {
	t.Helper()
	packed := h.Pack()
	if len(packed) > MaxPackedBytes {
		t.Fatalf("packed it takes %d bytes", len(packed))
	}
	again, ok := Unpack(openedView(t, h.Doc()), packed)
	if !ok {
		t.Fatalf("it does not open:\n%.2000s", packed)
	}
	if twice := again.Pack(); twice != packed {
		t.Fatalf("packed again it differs:\n%.2000s\n%.2000s", packed, twice)
	}
	return again
}

// openedView is a document saved and opened, seen as it was.
func openedView(t rapidOrTest, doc *Document) *Document {
	t.Helper()
	c, err := Decode(Encode(doc))
	if err == nil {
		c, err = View(c, c.Shown)
	}
	if err != nil {
		t.Fatalf("saved, it does not open: %v", err)
	}
	return c
}

// sameWalk walks two histories to both ends and back and expects the same names
// and the same bytes at every step. It returns how many steps that were.
func sameWalk(t rapidOrTest, a, b *History) (steps int) {
	t.Helper()
	same := func() {
		t.Helper()
		if a.UndoLabel() != b.UndoLabel() || a.RedoLabel() != b.RedoLabel() {
			t.Fatalf("undo %q, redo %q became %q, %q", a.UndoLabel(), a.RedoLabel(), b.UndoLabel(), b.RedoLabel())
		}
		if !bytes.Equal(Encode(a.Doc()), Encode(b.Doc())) {
			t.Fatalf("after %d steps it is another document", steps)
		}
	}
	same()
	for _, walk := range []func(*History) (*Document, bool){(*History).Undo, (*History).Redo, (*History).Undo} {
		for {
			_, more := walk(a)
			if _, moreToo := walk(b); more != moreToo {
				t.Fatalf("after %d steps one goes on and the other does not", steps)
			}
			if !more {
				break
			}
			steps++
			same()
		}
	}
	return steps
}

// anyStep makes a random edit a step: of parts, variants, photos, of what is
// shown; or goes back or on.
func anyStep(t *rapid.T, h *History, photos []Photo) {
	doc, label, err := h.Doc(), "", error(nil)
	some := func() string {
		list := doc.Alternatives()
		if len(list) == 0 {
			return ""
		}
		return list[rapid.IntRange(0, len(list)-1).Draw(t, "variant")].ID
	}
	shown := func() { doc, err = View(doc, doc.Shown) }
	switch rapid.IntRange(0, 15).Draw(t, "step") {
	case 0:
		h.Undo()
		return
	case 1:
		h.Redo()
		return
	case 2:
		if doc, err = View(doc, some()); err == nil {
			h.Replace(doc)
		}
		return
	case 3:
		if doc, label, err = AddVariant(doc.Whole(), "other"); err == nil {
			shown()
		}
	case 4:
		if doc, label, err = DropVariant(doc.Whole(), some()); err == nil {
			shown()
		}
	case 5:
		if doc, label, err = TakeVariant(doc.Whole(), some()); err == nil {
			shown()
		}
	case 6:
		doc, label, err = PutPhoto(doc, photos[rapid.IntRange(0, len(photos)-1).Draw(t, "photo")])
	case 7:
		doc, label, err = RemovePhoto(doc, photos[0].ID)
	case 8:
		doc, label, err = SetField(doc, "scene", "show", rapid.SampledFrom([]string{"in", "mm"}).Draw(t, "unit"))
	default:
		doc, label, err = anyEdit(t, doc)
	}
	if err == nil && doc.VariantsHold() == nil {
		h.DoWithin(rapid.SampledFrom([]string{"", "", "drag"}).Draw(t, "drag"), doc, label)
	}
	if rapid.Bool().Draw(t, "pack") { // as a page does at every edit: what it works out is kept
		h.Pack()
	}
}

// TestPackedHistoryGivesTheSameBytes makes random steps, packs, opens, makes
// more, packs again, and goes all the way both ways beside a history that was
// never packed.
func TestPackedHistoryGivesTheSameBytes(t *testing.T) {
	photos := somePhotos(t)
	photos[1].Picture = pictureOf(t, JPEG, jpegOf(800, 600, 200))
	steps := 0
	rapid.Check(t, func(t *rapid.T) {
		h := NewHistory(New())
		for range rapid.IntRange(1, 20).Draw(t, "steps") {
			anyStep(t, h, photos)
		}
		again := reopened(t, h)
		if n := rapid.IntRange(0, 4).Draw(t, "walk"); n > 0 { // leaves some steps packed
			for range n {
				h.Undo()
				again.Undo()
			}
			for range n / 2 {
				h.Redo()
				again.Redo()
			}
			doc, label, err := SetField(h.Doc(), "scene", "note", "later")
			if err != nil {
				t.Fatal(err)
			}
			h.Do(doc, label)
			again.Do(doc, label)
			again = reopened(t, again)
		}
		steps += sameWalk(t, h, again)
	})
	if steps < 500 {
		t.Errorf("only %d steps were walked", steps)
	}
}

// A variant that says what is so anyway is written shorter once it is looked
// at: the steps around the present one follow that.
func TestPackedStepsFollowAnotherView(t *testing.T) {
	doc := New()
	same := doc.Parts[0].clone()
	doc.Variants = []Variant{{ID: "same", Name: "Same", Parts: []Part{same}}}
	h := NewHistory(doc)
	for _, note := range []string{"one", "two"} {
		next, label, err := SetField(h.Doc(), "scene", "note", note)
		if err != nil {
			t.Fatal(err)
		}
		h.Do(next, label)
	}
	h.Undo()
	for _, shown := range []string{"", "same", ""} {
		before := h.Pack()
		view, err := View(h.Doc(), shown)
		if err != nil {
			t.Fatal(err)
		}
		h.Replace(view)
		again := reopened(t, h)
		if again.UndoLabel() == "" || again.RedoLabel() == "" {
			t.Errorf("steps are gone: %s", again.Pack())
		}
		if shown == "same" && before == h.Pack() {
			t.Error("this is no example: nothing is written otherwise")
		}
		sameWalk(t, copied(h), again)
	}
}

// copied is a history of its own with the same steps at the same place.
func copied(h *History) *History {
	c := *h
	c.steps = append([]step(nil), h.steps...)
	return &c
}

// A photo that was taken away comes back after a reload, and a picture stands
// in the packed steps at most once, and not at all while the document has it.
func TestPackedPicturesStandOnce(t *testing.T) {
	h := NewHistory(withPhotos(t))
	data := h.Doc().Photos[0].Picture.Base64()
	edit := func(doc *Document, label string, err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		h.Do(doc, label)
	}
	edit(ChangePhoto(h.Doc(), "photo-1", "opacity", "0.5"))
	if strings.Contains(h.Pack(), data) {
		t.Error("the document's own picture is in the steps too")
	}
	edit(RemovePhoto(h.Doc(), "photo-1"))
	edit(RemovePhoto(h.Doc(), "photo-2"))
	if n := strings.Count(h.Pack(), data); n != 1 {
		t.Errorf("the picture stands %d times in the steps", n)
	}
	again := reopened(t, h)
	again.Undo()
	again.Undo()
	if got := again.Doc().Photos; len(got) != 2 || got[0].Picture != got[1].Picture || got[0].Picture.Base64() != data {
		t.Error("the photos are not back with their one picture")
	}
}

// manyEdits is a history of n moves.
func manyEdits(t testing.TB, n int) *History {
	h := NewHistory(New())
	for i := range n {
		doc, label, err := MovePart(h.Doc(), "driveshaft", Vec{float64(i), 1, 0})
		if err != nil {
			t.Fatal(err)
		}
		h.Do(doc, label)
	}
	return h
}

func TestPackedHistoryKeepsTheLastSteps(t *testing.T) {
	h := manyEdits(t, 500)
	packed := h.Pack()
	// A move is a row gone, a row come and a name: two fifths of a kilobyte is ample.
	if len(packed) > PackedSteps*400+headBytes {
		t.Errorf("%d steps take %d bytes", PackedSteps, len(packed))
	}
	again := reopened(t, h)
	n := 0
	for _, ok := again.Undo(); ok; _, ok = again.Undo() {
		n++
	}
	if n != PackedSteps || again.Doc().Parts[8].AtMM[0] != 399 {
		t.Errorf("%d steps back to %v", n, again.Doc().Parts[8].AtMM)
	}
	for range 50 {
		h.Undo()
	}
	if again = reopened(t, h); again.RedoLabel() == "" || again.UndoLabel() == "" {
		t.Error("in the middle it goes but one way")
	}
}

// Pictures that no longer show fill the text up to its bound and not beyond:
// the oldest steps are left out.
func TestPackedHistoryIsBounded(t *testing.T) {
	h := NewHistory(New())
	photo := somePhotos(t)[1]
	for i := range 20 {
		// Random bytes do not shrink, and 280 kB is about the most a picture may have.
		photo.Picture = pictureOf(t, JPEG, jpegOf(1600, 1200-i, 280_000))
		photo.ID = "photo-2"
		doc, _, err := PutPhoto(h.Doc(), photo)
		if err != nil {
			t.Fatal(err)
		}
		h.Do(doc, fmt.Sprint("photo ", i))
	}
	packed := h.Pack()
	if len(packed) > MaxPackedBytes || len(packed) < MaxPackedBytes/2 {
		t.Errorf("packed it takes %d bytes", len(packed))
	}
	again := reopened(t, h)
	n := 0
	for _, ok := again.Undo(); ok; _, ok = again.Undo() {
		n++
	}
	if n < 2 || n > 8 {
		t.Errorf("%d steps are kept", n)
	}
}

// Damaged steps are refused, or taken for what they now say; the document
// stays the one that was open, and nothing panics.
func TestDamagedStepsNeverLoseTheDocument(t *testing.T) {
	h := manyEdits(t, 6)
	doc, _, err := RemovePart(h.Doc(), "driveshaft")
	if err != nil {
		t.Fatal(err)
	}
	h.Do(doc, "removed")
	h.Undo()
	h.Undo()
	packed := h.Pack()
	_, body, _ := strings.Cut(packed, "\n")
	present := openedView(t, h.Doc())
	want := Encode(present)
	r := rand.New(rand.NewSource(1))
	opened, refused := 0, 0
	for range 3000 {
		bad := damaged(r, []byte(body))
		if _, ok := Unpack(present, strings.Replace(packed, body, bad, 1)); ok && bad != body {
			t.Fatal("damage was not noticed")
		}
		h, ok := unpackBody(present, bad) // as if the sum had been made after the damage
		if !ok {
			refused++
			continue
		}
		opened++
		if h.Doc() != present || !bytes.Equal(want, Encode(h.Doc())) {
			t.Fatal("the document is another one")
		}
		for _, walk := range []func(*History) (*Document, bool){(*History).Undo, (*History).Redo} {
			for _, more := walk(h); more; _, more = walk(h) {
				if err := h.Doc().Validate(); err != nil {
					t.Fatal(err)
				}
			}
		}
		h.Pack()
	}
	if opened < 100 || refused < 100 {
		t.Errorf("%d were taken, %d refused", opened, refused)
	}
	for _, text := range []string{"", "\n", packedFormat, packed + " ", packed[:len(packed)/2], "{}"} {
		if _, ok := Unpack(present, text); ok {
			t.Errorf("taken for steps: %.40q", text)
		}
	}
	if _, ok := Unpack(New(), packed); ok {
		t.Error("steps of another document were taken")
	}
}

// damaged is text with one to three bytes or stretches of it changed.
func damaged(r *rand.Rand, text []byte) string {
	out := append([]byte(nil), text...)
	for range 1 + r.Intn(3) {
		i := r.Intn(len(out))
		j := min(len(out), i+r.Intn(40))
		switch r.Intn(4) {
		case 0:
			out[i] = byte(r.Intn(256))
		case 1:
			out[i] = '0' + byte(r.Intn(10))
		case 2:
			out = append(out[:i:i], out[j:]...)
		default:
			out = append(out[:j:j], out[i:]...)
		}
		if len(out) == 0 {
			return ""
		}
	}
	return string(out)
}

// BenchmarkPack is what keeping a step costs beside the document.
func BenchmarkPack(b *testing.B) {
	h := manyEdits(b, 100)
	h.Pack()
	for i := range b.N {
		doc, label, err := MovePart(h.Doc(), "driveshaft", Vec{float64(i), 2, 0})
		if err != nil {
			b.Fatal(err)
		}
		h.Do(doc, label)
		h.Pack()
	}
}
