package scene

import "testing"

// A spring is carried with both its mounts; a box with its own place alone; and
// back again is the same file.
func TestCarryPartsTakesBothMounts(t *testing.T) {
	doc := add(t, add(t, New(), "air_spring", Vec{2900, 300, 350}), "box", Vec{100, 200, 300})
	spring, box := doc.Parts[len(doc.Parts)-2], doc.Parts[len(doc.Parts)-1]
	by := Vec{10, -20.5, 5}
	moved, label, err := CarryParts(doc, []string{spring.ID, box.ID}, by)
	if err != nil || label == "" {
		t.Fatal(err)
	}
	p, q := moved.Parts[len(doc.Parts)-2], moved.Parts[len(doc.Parts)-1]
	for axis, name := range lowerFields {
		if got := p.Size.Num(name) - spring.Size.Num(name); got != by[axis] {
			t.Errorf("%s moved by %g", name, got)
		}
		if p.AtMM[axis]-spring.AtMM[axis] != by[axis] || q.AtMM[axis]-box.AtMM[axis] != by[axis] {
			t.Errorf("axis %d: %v %v", axis, p.AtMM, q.AtMM)
		}
	}
	back, _, err := CarryParts(moved, []string{spring.ID, box.ID}, by.neg())
	if err != nil || string(Encode(back)) != string(Encode(doc)) {
		t.Errorf("carried back it is another file: %v", err)
	}
	if _, _, err := CarryParts(doc, []string{"nobody"}, by); err == nil {
		t.Error("a part that is not there was carried")
	}
}
