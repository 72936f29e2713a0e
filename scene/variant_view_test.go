package scene

import (
	"bytes"
	"testing"

	"pgregory.net/rapid"
)

func view(t rapidOrTest, doc *Document, id string) *Document {
	t.Helper()
	v, err := View(doc, id)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return v
}

// A view takes edits as any document, and is written as the whole file.
func TestAViewIsTheWholeFile(t *testing.T) {
	doc := twin(t)
	seen := view(t, doc, "rear-bay")
	if seen.Variants != nil || seen.Shown != "rear-bay" {
		t.Error(seen.Shown)
	}
	seen = set(t, seen, "part:battery", "at_z", "250 mm")
	seen = set(t, seen, "scene", "name", "Another name") // which is the file's
	opened, err := Decode(Encode(seen))
	if err != nil {
		t.Fatal(err)
	}
	if opened.Shown != "rear-bay" || opened.Name != "Another name" || partOf(t, opened, "battery").AtMM != (Vec{600, 300, 200}) {
		t.Error(opened.Shown, opened.Name, partOf(t, opened, "battery").AtMM)
	}
	again := view(t, opened, opened.Shown)
	if at := partOf(t, again, "battery").AtMM; at != (Vec{1400, 300, 250}) {
		t.Error(at)
	}
	if drawn := view(t, seen, ""); drawn.Shown != "" || partOf(t, drawn, "battery").AtMM[0] != 600 {
		t.Error("as drawn it stands elsewhere")
	}
	if _, err := View(doc, "nobody"); err == nil {
		t.Error("there is no such variant")
	}
}

// What is added in a variant never has an id of the scene as drawn, not even of
// a part that the variant lacks.
func TestNewPartsOfAVariantHaveIDsOfTheirOwn(t *testing.T) {
	seen := view(t, twin(t), "rear-bay")
	seen, _ = edited(t, seen, func(d *Document) (*Document, string, error) { return RemovePart(d, "battery") })
	seen = add(t, seen, "battery", Vec{})
	if id := newest(seen).ID; id != "battery-2" {
		t.Error(id)
	}
}

// Undo and redo go to the variant in which the step was made, whatever is
// shown; switching itself is no step.
func TestUndoShowsWhereItWas(t *testing.T) {
	h := NewHistory(twin(t))
	h.Replace(view(t, h.Doc(), "rear-bay"))
	moved := set(t, h.Doc(), "part:battery", "at_z", "250 mm")
	h.Do(moved, "moved Battery")
	h.Replace(view(t, h.Doc(), ""))
	h.Do(add(t, h.Doc(), "box", Vec{}), "placed Box")
	h.Replace(view(t, h.Doc(), "rear-bay"))
	doc, _ := h.Undo()
	if doc.Shown != "" {
		t.Error("the box was placed as drawn")
	}
	doc, _ = h.Undo()
	if doc.Shown != "rear-bay" || partOf(t, doc, "battery").AtMM[2] != 200 {
		t.Error(doc.Shown, partOf(t, doc, "battery").AtMM)
	}
	if _, ok := h.Undo(); ok {
		t.Error("switching was a step")
	}
	doc, _ = h.Redo()
	if doc.Shown != "rear-bay" || partOf(t, doc, "battery").AtMM[2] != 250 {
		t.Error(doc.Shown, partOf(t, doc, "battery").AtMM)
	}
	doc, _ = h.Redo()
	if doc.Shown != "" || newest(doc).Kind != "box" {
		t.Error(doc.Shown)
	}
}

// Any edits in any variants, all taken back: the first file again. All done
// again: the last one.
func TestUndoAcrossVariants(t *testing.T) {
	steps := 0
	rapid.Check(t, func(t *rapid.T) {
		begin, _, err := AddVariant(New(), "One")
		if err == nil {
			begin, _, err = AddVariant(begin, "Two")
		}
		if err != nil {
			t.Fatal(err)
		}
		begin.Shown = ""
		h := NewHistory(begin)
		for range rapid.IntRange(1, 12).Draw(t, "steps") {
			h.Replace(view(t, h.Doc(), rapid.SampledFrom([]string{"", "one", "two"}).Draw(t, "variant")))
			doc, label, err := anyEdit(t, h.Doc())
			if err != nil || doc.Whole().Validate() != nil {
				continue
			}
			fixedPoint(t, doc.Whole())
			h.Do(doc, label)
			steps++
		}
		end := h.Doc()
		for _, ok := h.Undo(); ok; _, ok = h.Undo() {
		}
		if first := view(t, h.Doc(), ""); !bytes.Equal(Encode(begin), Encode(first)) {
			t.Fatalf("undone, it is another document:\n%s\n%s", Encode(begin), Encode(first))
		}
		for _, ok := h.Redo(); ok; _, ok = h.Redo() {
		}
		if !bytes.Equal(Encode(view(t, end, "")), Encode(view(t, h.Doc(), ""))) {
			t.Fatal("done again, it is another document")
		}
	})
	if steps < 200 {
		t.Errorf("only %d edits succeeded", steps)
	}
}
