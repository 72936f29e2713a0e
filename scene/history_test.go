package scene

import (
	"bytes"
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

func TestHistoryJoinsTheMovesOfOneDrag(t *testing.T) {
	first, h := New(), (*History)(nil)
	h = NewHistory(first)
	move := func(drag string, x float64) {
		doc, label, err := MovePart(h.Doc(), "driveshaft", Vec{x, 0, 0})
		if err != nil {
			t.Fatal(err)
		}
		h.DoWithin(drag, doc, label)
	}
	for x := range 10 {
		move("a", float64(x))
	}
	move("b", 50)
	move("", 60)
	move("", 70)
	for want := 4; want > 0; want-- {
		if h.UndoLabel() != "moved Driveshaft" {
			t.Fatalf("%d steps to go: %q", want, h.UndoLabel())
		}
		h.Undo()
	}
	if h.UndoLabel() != "" || h.Doc() != first {
		t.Error("not back at the beginning")
	}
	if doc, ok := h.Redo(); !ok || doc.Parts[8].AtMM[0] != 9 {
		t.Error("the first drag's last move is not what is done again")
	}
	// A drag that goes on after an undo is a new one: it must not change what
	// was done again.
	h.Undo()
	move("a", 5)
	if doc, _ := h.Undo(); doc != first {
		t.Error("the drag joined across an undo")
	}
}

func TestHistoryIsBounded(t *testing.T) {
	h := NewHistory(&Document{})
	for i := range 3 * MaxSteps {
		h.Do(&Document{Name: fmt.Sprint(i)}, fmt.Sprint("step ", i))
	}
	n := 0
	for _, ok := h.Undo(); ok; _, ok = h.Undo() {
		n++
	}
	if n != MaxSteps || h.Doc().Name != fmt.Sprint(2*MaxSteps-1) {
		t.Errorf("%d steps back to %s", n, h.Doc().Name)
	}
	if h.RedoLabel() != fmt.Sprint("step ", 2*MaxSteps) {
		t.Error(h.RedoLabel())
	}
}

// TestUndoOfEverythingRestoresTheBytes makes random edits, takes all back, and
// does all again.
func TestUndoOfEverythingRestoresTheBytes(t *testing.T) {
	done := 0
	rapid.Check(t, func(t *rapid.T) {
		h := NewHistory(New())
		begin := Encode(h.Doc())
		for range rapid.IntRange(1, 25).Draw(t, "edits") {
			doc, label, err := randomEdit(t, h.Doc())
			if err == nil {
				if err := doc.Validate(); err != nil {
					t.Fatalf("%s: %v", label, err)
				}
				h.Do(doc, label)
				done++
			}
		}
		end := Encode(h.Doc())
		for _, ok := h.Undo(); ok; _, ok = h.Undo() {
		}
		if !bytes.Equal(begin, Encode(h.Doc())) {
			t.Fatal("undone, it is another document")
		}
		for _, ok := h.Redo(); ok; _, ok = h.Redo() {
		}
		if !bytes.Equal(end, Encode(h.Doc())) {
			t.Fatal("done again, it is another document")
		}
	})
	if done < 200 {
		t.Errorf("only %d edits succeeded", done)
	}
}

// randomEdit draws one edit; it may be one that is refused.
func randomEdit(t *rapid.T, doc *Document) (*Document, string, error) {
	some := func(label string) *Part {
		return &doc.Parts[rapid.IntRange(0, len(doc.Parts)-1).Draw(t, label)]
	}
	at := Vec{rapid.Float64Range(-500, 4000).Draw(t, "x"), rapid.Float64Range(-900, 900).Draw(t, "y"), 100}
	if len(doc.Parts) == 0 {
		return AddPart(doc, "box", at)
	}
	p := some("part")
	switch rapid.IntRange(0, 12).Draw(t, "edit") {
	case 0:
		return AddPart(doc, rapid.SampledFrom(Kinds()).Draw(t, "kind").Name, at)
	case 1:
		return RemovePart(doc, p.ID)
	case 2:
		return DuplicatePart(doc, p.ID)
	case 3:
		return MirrorPart(doc, p.ID)
	case 4:
		return MovePart(doc, p.ID, at)
	case 5:
		return SetJoined(doc, p.ID, some("other").ID, rapid.Bool().Draw(t, "on"), "bracket")
	case 6:
		f := rapid.SampledFrom(KindNamed(p.Kind).Fields).Draw(t, "field")
		if f.Type == Table {
			return AddRow(doc, "part:"+p.ID, f.Name, rapid.IntRange(-1, 3).Draw(t, "row"))
		}
		if f.Type == Choice {
			return SetField(doc, "part:"+p.ID, f.Name, rapid.SampledFrom(f.Choices).Draw(t, "choice"))
		}
		return SetField(doc, "part:"+p.ID, f.Name, fmt.Sprintf("%.1f mm", rapid.Float64Range(f.Min, f.Max).Draw(t, "value")))
	case 7:
		return SetField(doc, "vehicle", "rear/tyre", rapid.SampledFrom([]string{"225/45R17", "640 mm", "soft"}).Draw(t, "tyre"))
	case 8:
		k := rapid.SampledFrom(SuspensionKinds()).Draw(t, "suspension").Name
		return SetField(doc, "vehicle", rapid.SampledFrom([]string{"front", "rear"}).Draw(t, "end")+"/suspension/kind", k)
	case 9:
		if s := doc.Vehicle.Rear.Suspension; s != nil {
			field := fmt.Sprintf("rear/suspension/bars/%d/body_mm/%d", rapid.IntRange(0, len(s.Bars)).Draw(t, "bar"), rapid.IntRange(0, 2).Draw(t, "axis"))
			return SetField(doc, "vehicle", field, fmt.Sprintf("%.2f mm", rapid.Float64Range(-4000, 4000).Draw(t, "value")))
		}
	}
	if next, label, err, ok := randomTapeEdit(t, doc, p); ok {
		return next, label, err
	}
	return SetField(doc, "scene", "name", rapid.String().Draw(t, "name"))
}
