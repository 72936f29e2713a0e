package scene

import (
	"reflect"
	"strings"
	"testing"
)

// Heights are added where the body stands, named, and taken away again, with
// what was said of them.
func TestHeightsAreAddedAndRemoved(t *testing.T) {
	start := New()
	doc, label := edited(t, start, func(d *Document) (*Document, string, error) { return AddHeight(d, -20, -30.5) })
	if want := (Height{ID: "height-4", Name: "Height 4", FrontMM: -20, RearMM: -30.5}); label != "added Height 4" || !reflect.DeepEqual(doc.Heights[3], want) {
		t.Errorf("%q, %+v", label, doc.Heights)
	}
	doc = set(t, doc, "height:height-4", "name", "Height 5")
	doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return AddHeight(d, 0, 0) })
	if h := doc.Heights[4]; h.ID != "height-6" || h.Name != "Height 6" {
		t.Errorf("a name that is taken was given again: %+v", h)
	}
	doc = set(t, doc, "scene", "height/height-4/front_mm", "-25 mm")
	doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) {
		return MarkMeasured(d, "height:height-4", "rear_mm", false)
	})
	doc, label = edited(t, doc, func(d *Document) (*Document, string, error) { return RemoveHeight(d, "height-4") })
	if label != "removed the height Height 5" || len(doc.Heights) != 4 {
		t.Errorf("%q, %+v", label, doc.Heights)
	}
	for _, k := range doc.Unmeasured {
		if strings.HasPrefix(k, "height:height-4/") {
			t.Error("a height that is gone is still not measured")
		}
	}
}

func TestHeightsThatCannotBe(t *testing.T) {
	doc := New()
	for len(doc.Heights) < maxHeights {
		doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return AddHeight(d, 0, 0) })
	}
	for _, c := range []struct {
		edit func(*Document) (*Document, string, error)
		says string
	}{
		{func(d *Document) (*Document, string, error) { return AddHeight(d, 0, 0) }, "at most 20 heights"},
		{func(d *Document) (*Document, string, error) { return RemoveHeight(d, Ride) }, "Ride stays"},
		{func(d *Document) (*Document, string, error) { return RemoveHeight(d, AiredOut) }, "stays"},
		{func(d *Document) (*Document, string, error) { return RemoveHeight(d, AiredUp) }, "stays"},
		{func(d *Document) (*Document, string, error) { return RemoveHeight(d, "lunch") }, `no height "lunch"`},
		{func(d *Document) (*Document, string, error) { return AddHeight(New(), 0, 1500) }, "Rear must be from"},
		{func(d *Document) (*Document, string, error) { return SetField(d, "height:ride", "name", " ") }, "a height needs a name"},
		{func(d *Document) (*Document, string, error) { return SetField(d, "height:aired_up", "rear", "-5") }, "Rear must be from 0 to"},
	} {
		if out, _, err := c.edit(doc); err == nil || out != nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%v; want … %s", err, c.says)
		}
	}
}

// A variant may have a height that the scene as drawn has not.
func TestVariantsHaveHeightsOfTheirOwn(t *testing.T) {
	doc := inVariant(t, twin(t), "rear-bay", func(d *Document) (*Document, string, error) { return AddHeight(d, -10, -10) })
	if len(doc.Heights) != 3 || len(resolved(t, doc, "rear-bay").Heights) != 4 {
		t.Errorf("%+v, %+v", doc.Heights, doc.Variants[0].Heights)
	}
}
