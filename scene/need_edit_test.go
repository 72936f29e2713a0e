package scene

import (
	"reflect"
	"strings"
	"testing"
)

func tankAndPipe(t testing.TB) *Document {
	t.Helper()
	return add(t, add(t, New(), "air_tank", Vec{2000, 0, 0}), "exhaust_run", Vec{600, 300, 0})
}

// A need is put, changed, shielded and taken back, each as a named step; the
// pair is the same either way round.
func TestNeedsAreSetAndTakenBack(t *testing.T) {
	doc := tankAndPipe(t)
	pair, turned := [2]string{"air-tank", "exhaust-run"}, [2]string{"exhaust-run", "air-tank"}
	kinds := [2]Trait{Exhaust, Fuel}
	for _, step := range []struct {
		n     Need
		label string
		holds []Need
	}{
		{Need{Parts: pair, NeedMM: 40}, "changed the need of Air tank and Exhaust run", []Need{{Parts: pair, NeedMM: 40}}},
		{Need{Parts: turned, NeedMM: 40, Why: " tried "}, "said why Air tank and Exhaust run need that", []Need{{Parts: pair, NeedMM: 40, Why: "tried"}}},
		{Need{Parts: pair, Shielded: true, Why: "steel"}, "stated a shield between Air tank and Exhaust run", []Need{{Parts: pair, Shielded: true, Why: "steel"}}},
		{Need{Parts: pair, NeedMM: 30}, "took back the shield between Air tank and Exhaust run", []Need{{Parts: pair, NeedMM: 30}}},
		{Need{Traits: kinds, NeedMM: 80}, "changed the need of exhaust and fuel", []Need{{Parts: pair, NeedMM: 30}, {Traits: kinds, NeedMM: 80}}},
		{Need{Traits: [2]Trait{Fuel, Exhaust}, NeedMM: 60}, "changed the need of exhaust and fuel", []Need{{Parts: pair, NeedMM: 30}, {Traits: kinds, NeedMM: 60}}},
	} {
		out, label := edited(t, doc, func(d *Document) (*Document, string, error) { return SetNeed(d, step.n) })
		if label != step.label || !reflect.DeepEqual(out.Needs, step.holds) {
			t.Errorf("%+v: %q, %+v; want %q, %+v", step.n, label, out.Needs, step.label, step.holds)
		}
		doc = out
	}
	out, label := edited(t, doc, func(d *Document) (*Document, string, error) { return DropNeed(d, Need{Parts: turned}) })
	if label != "went back to the table for Exhaust run and Air tank" || len(out.Needs) != 1 {
		t.Errorf("%q, %+v", label, out.Needs)
	}
	out, _ = edited(t, out, func(d *Document) (*Document, string, error) { return DropNeed(d, Need{Traits: kinds}) })
	if len(out.Needs) != 0 {
		t.Errorf("%+v", out.Needs)
	}
}

func TestNeedsThatCannotBe(t *testing.T) {
	doc := tankAndPipe(t)
	pair := [2]string{"air-tank", "exhaust-run"}
	for _, c := range []struct {
		n    Need
		says string
	}{
		{Need{Parts: pair, NeedMM: -1}, "Need must be from 0 to 78 3/4 in."},
		{Need{Parts: pair, NeedMM: 3000}, "Need must be from 0 to 78 3/4 in."},
		{Need{Parts: pair, NeedMM: 5, Why: strings.Repeat("x", 201)}, "Why must be at most 200 characters."},
		{Need{Parts: [2]string{"air-tank", "ghost"}, NeedMM: 5}, "must be the id of a part"},
		{Need{Parts: [2]string{"air-tank", "air-tank"}, NeedMM: 5}, "must be another part than the first"},
		{Need{Traits: [2]Trait{"shiny", Fuel}, NeedMM: 5}, "must be one of fixed"},
		{Need{NeedMM: 5}, "either parts or traits"},
	} {
		if out, _, err := SetNeed(doc, c.n); err == nil || out != nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%+v: %v; want … %s", c.n, err, c.says)
		}
	}
	if _, _, err := DropNeed(doc, Need{Parts: pair}); err == nil {
		t.Error("a need that is not there was taken back")
	}
}

// A variant keeps its own figure, and gives one back that the scene has.
func TestVariantsHaveNeedsOfTheirOwn(t *testing.T) {
	kinds := Need{Traits: [2]Trait{Exhaust, Battery}, NeedMM: 60}
	doc, _ := edited(t, twin(t), func(d *Document) (*Document, string, error) { return SetNeed(d, kinds) })
	other := kinds
	other.NeedMM = 90
	doc = inVariant(t, doc, "rear-bay", func(d *Document) (*Document, string, error) { return SetNeed(d, other) })
	if got, now := doc.NeedFor(kinds).NeedMM, resolved(t, doc, "rear-bay").NeedFor(kinds).NeedMM; got != 60 || now != 90 {
		t.Errorf("drawn %v, in the variant %v", got, now)
	}
	doc = inVariant(t, doc, "rear-bay", func(d *Document) (*Document, string, error) { return DropNeed(d, kinds) })
	if doc.NeedFor(kinds) == nil || resolved(t, doc, "rear-bay").NeedFor(kinds) != nil {
		t.Errorf("%+v", doc.Variants[0])
	}
}
