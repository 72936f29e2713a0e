package scene

import (
	"bytes"
	"reflect"
	"sort"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// twin is a starter scene with a battery and a variant that has the battery
// 800 farther back.
func twin(t testing.TB) *Document {
	t.Helper()
	doc := add(t, New(), "battery", Vec{600, 300, 200})
	doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return AddVariant(d, "Rear bay") })
	return inVariant(t, doc, "rear-bay", func(d *Document) (*Document, string, error) {
		return MovePart(d, "battery", Vec{1400, 300, 200})
	})
}

func resolved(t testing.TB, doc *Document, id string) *Document {
	t.Helper()
	out, err := Resolve(doc, id)
	if err != nil {
		t.Fatal(err)
	}
	if err := out.Validate(); err != nil {
		t.Fatal(err)
	}
	return out
}

// inVariant edits what a variant shows, and keeps it there.
func inVariant(t testing.TB, doc *Document, id string, edit func(*Document) (*Document, string, error)) *Document {
	t.Helper()
	now, _ := edited(t, resolved(t, doc, id), edit)
	out, err := Keep(doc, id, now)
	if err != nil {
		t.Fatal(err)
	}
	if err := out.Validate(); err != nil {
		t.Fatal(err)
	}
	return out
}

func partOf(t testing.TB, doc *Document, id string) *Part {
	t.Helper()
	i, err := doc.partAt(id)
	if err != nil {
		t.Fatal(err)
	}
	return &doc.Parts[i]
}

func TestAnEditInAVariantLeavesTheDrawnOneAlone(t *testing.T) {
	doc := twin(t)
	if x := partOf(t, doc, "battery").AtMM[0]; x != 600 {
		t.Errorf("drawn at %v", x)
	}
	if x := partOf(t, resolved(t, doc, "rear-bay"), "battery").AtMM[0]; x != 1400 {
		t.Errorf("in the variant at %v", x)
	}
	v := &doc.Variants[0]
	if len(v.Parts) != 1 || v.Without != nil || !v.Vehicle.none() || v.Joined != nil {
		t.Errorf("more than the battery differs: %+v", v)
	}
}

func TestAnEditOfTheDrawnOneFlowsIntoVariants(t *testing.T) {
	doc := set(t, twin(t), "vehicle", "rear/tyre", "245/45R17")
	doc = add(t, doc, "air_tank", Vec{2000, 0, 0})
	doc = set(t, doc, "part:battery", "at_y", "350 mm")
	r := resolved(t, doc, "rear-bay")
	if got := r.Vehicle.Rear.Tyre.Code; got != "245/45R17" {
		t.Error(got)
	}
	partOf(t, r, "air-tank")
	if at := partOf(t, r, "battery").AtMM; at != (Vec{1400, 300, 200}) {
		t.Errorf("what the variant says itself does not flow: %v", at)
	}
}

// What a variant names may go: the file still opens, and nothing hangs in the air.
func TestWhatAVariantNamesMayGo(t *testing.T) {
	doc := twin(t)
	doc = inVariant(t, doc, "rear-bay", func(d *Document) (*Document, string, error) {
		return SetJoined(d, "battery", "left-frame-rail", true, "on a tray")
	})
	doc = inVariant(t, doc, "rear-bay", func(d *Document) (*Document, string, error) { return RemovePart(d, "driveshaft") })
	doc = inVariant(t, doc, "rear-bay", func(d *Document) (*Document, string, error) { return AddMovement(d, "right-frame-rail", Slide) })
	for _, id := range []string{"left-frame-rail", "right-frame-rail", "driveshaft", "rear-axle", "battery"} {
		doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return RemovePart(d, id) })
		fixedPoint(t, doc)
	}
	r := resolved(t, doc, "rear-bay")
	for _, j := range r.Joined {
		if j.A == "left-frame-rail" || j.B == "left-frame-rail" {
			t.Error("joined to a rail that is gone")
		}
	}
	partOf(t, r, "battery")          // the variant has its own
	partOf(t, r, "right-frame-rail") // and a rail of its own, for it slides there
}

// A part placed as drawn never takes the id of one that only a variant has.
func TestNewPartsKeepClearOfVariants(t *testing.T) {
	doc := inVariant(t, twin(t), "rear-bay", func(d *Document) (*Document, string, error) { return AddPart(d, "air_tank", Vec{}) })
	if got := resolved(t, doc, "rear-bay").Parts; got[len(got)-1].ID != "air-tank" {
		t.Fatal(got[len(got)-1].ID)
	}
	doc = add(t, doc, "air_tank", Vec{500, 0, 0})
	if got := newest(doc).ID; got != "air-tank-2" {
		t.Error(got)
	}
	if n := len(resolved(t, doc, "rear-bay").Parts); n != len(doc.Parts)+1 {
		t.Errorf("%d parts", n)
	}
}

func TestVariantsAreNamedDroppedAndTaken(t *testing.T) {
	doc := twin(t)
	doc, label := edited(t, doc, func(d *Document) (*Document, string, error) {
		return SetVariant(d, "rear-bay", "name", "Behind the axle")
	})
	if label != "renamed the variant Rear bay" || doc.Variants[0].Name != "Behind the axle" {
		t.Error(label, doc.Variants[0].Name)
	}
	doc.Shown = "rear-bay"
	doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return AddVariant(d, "Bigger tyres") })
	doc = inVariant(t, doc, "bigger-tyres", func(d *Document) (*Document, string, error) {
		return SetField(d, "vehicle", "rear/tyre", "255/50R17")
	})
	was := map[string]*Document{}
	for _, id := range []string{"", "rear-bay", "bigger-tyres"} {
		was[id] = resolved(t, doc, id)
	}
	taken, label := edited(t, doc, func(d *Document) (*Document, string, error) { return TakeVariant(d, "rear-bay") })
	if label != "made Behind the axle the one drawn" || taken.Shown != "" {
		t.Error(label, taken.Shown)
	}
	for now, before := range map[string]string{"": "rear-bay", "as-drawn-before": "", "bigger-tyres": "bigger-tyres"} {
		sameScene(t, was[before], resolved(t, taken, now))
	}
	dropped, _ := edited(t, doc, func(d *Document) (*Document, string, error) { return DropVariant(d, "bigger-tyres") })
	if len(dropped.Variants) != 1 || dropped.Shown != "" {
		t.Error(dropped.Variants, dropped.Shown)
	}
	for _, f := range []func(*Document, string) (*Document, string, error){DropVariant, TakeVariant} {
		if _, _, err := f(doc, "nobody"); err == nil {
			t.Error("there is no such variant")
		}
	}
	if _, _, err := AddVariant(doc, "  "); err == nil {
		t.Error("a variant without a name")
	}
}

// sameScene expects two documents to differ in the order of their lists at most.
func sameScene(t rapidOrTest, a, b *Document) {
	t.Helper()
	if x, y := string(sorted(a)), string(sorted(b)); x != y {
		for i, line := range strings.Split(x, "\n") {
			if other := strings.Split(y, "\n"); i >= len(other) || other[i] != line {
				t.Fatalf("line %d: %s\nin place of %s", i+1, other[min(i, len(other)-1)], line)
			}
		}
		t.Fatalf("another document")
	}
}

// sorted is a document's text with the lists in which order means nothing
// sorted.
func sorted(doc *Document) []byte {
	c := *doc
	c.Parts = append([]Part(nil), doc.Parts...)
	sort.Slice(c.Parts, func(i, j int) bool { return c.Parts[i].ID < c.Parts[j].ID })
	c.Movements = append([]Movement(nil), doc.Movements...)
	sort.Slice(c.Movements, func(i, j int) bool { return c.Movements[i].ID < c.Movements[j].ID })
	c.Needs = append([]Need(nil), doc.Needs...)
	sort.Slice(c.Needs, func(i, j int) bool { return needKey(&c.Needs[i]) < needKey(&c.Needs[j]) })
	c.Joined = append([]Joined(nil), doc.Joined...)
	sort.Slice(c.Joined, func(i, j int) bool { return joinedKey(&c.Joined[i]) < joinedKey(&c.Joined[j]) })
	return Encode(&c)
}

// anyEdits makes up to n random edits, those that are refused left out.
func anyEdits(t *rapid.T, doc *Document, n int) (*Document, int) {
	done := 0
	for range rapid.IntRange(0, n).Draw(t, "edits") {
		if next, _, err := anyEdit(t, doc); err == nil {
			doc, done = next, done+1
		}
	}
	return doc, done
}

// anyEdit is randomEdit, or one of what only variants and the shelf need.
func anyEdit(t *rapid.T, doc *Document) (*Document, string, error) {
	if len(doc.Parts) == 0 {
		return randomEdit(t, doc)
	}
	p := &doc.Parts[rapid.IntRange(0, len(doc.Parts)-1).Draw(t, "which")]
	q := &doc.Parts[rapid.IntRange(0, len(doc.Parts)-1).Draw(t, "mate")]
	switch rapid.IntRange(0, 20).Draw(t, "what") {
	case 0:
		return AddMovement(doc, p.ID, rapid.SampledFrom([]MovementKind{Hinge, Slide}).Draw(t, "way"))
	case 1:
		if n := len(doc.Movements); n > 0 {
			return RemoveMovement(doc, doc.Movements[rapid.IntRange(0, n-1).Draw(t, "movement")].ID)
		}
	case 2:
		return SetField(doc, "part:"+p.ID, "carrier", string(rapid.SampledFrom(Carriers).Draw(t, "carrier")))
	case 3:
		return SetField(doc, "scene", "height/aired_out/rear_mm", rapid.SampledFrom([]string{"-60 mm", "-90 mm"}).Draw(t, "height"))
	case 4:
		return KeepOnShelf(doc, p.ID)
	case 5:
		if n := len(doc.Shelf); n > 0 {
			return PlaceFromShelf(doc, doc.Shelf[rapid.IntRange(0, n-1).Draw(t, "entry")].ID, Vec{1, 2, 3})
		}
	case 6:
		return SetField(doc, "part:"+p.ID, rapid.SampledFrom([]string{"price", "mass_kg"}).Draw(t, "field"), rapid.SampledFrom([]string{"", "12.5"}).Draw(t, "text"))
	case 7:
		q := &doc.Parts[rapid.IntRange(0, len(doc.Parts)-1).Draw(t, "mate")]
		return MakeGroup(doc, []string{p.ID, q.ID}, "")
	case 8:
		return AddTape(doc, "gap", TapeEnd{Part: p.ID, Feature: "1/corner/1"}, TapeEnd{Part: q.ID, Feature: "1/corner/2"})
	case 9:
		return TickPart(doc, p.ID, "2026-11-25")
	case 10:
		if n := len(doc.Tapes); n > 0 {
			return TickTape(doc, doc.Tapes[rapid.IntRange(0, n-1).Draw(t, "tape")].ID, "2026-11-25", 300, 298, 0, 0)
		}
	case 11:
		m := Measured{Axis: rapid.IntRange(0, 2).Draw(t, "axis"), Part: q.ID, Face: Point, To: Point}
		return MeasureFrom(doc, p.ID, m, nil)
	case 12:
		return MarkMeasured(doc, "part:"+p.ID, KindNamed(p.Kind).Fields[0].Name, rapid.Bool().Draw(t, "measured"))
	case 13:
		return SetField(doc, "part:"+p.ID, "at_z", "120 mm")
	}
	return randomEdit(t, doc)
}

// Resolve of what Diff found is the edited document again, for any edits.
func TestResolveTakesDiffBack(t *testing.T) {
	edits := 0
	rapid.Check(t, func(t *rapid.T) {
		base, _ := anyEdits(t, New(), 8)
		was := Encode(base)
		changed, n := anyEdits(t, base, 12)
		edits += n
		v := Diff(base, changed)
		v.ID = "v"
		whole := *base
		whole.Variants = []Variant{v}
		got, err := Resolve(&whole, "v")
		if err != nil {
			t.Fatal(err)
		}
		shared := *changed // the shelf is the whole document's
		shared.Shelf, shared.Name = base.Shelf, base.Name
		sameScene(t, &shared, got)
		if !bytes.Equal(was, Encode(base)) {
			t.Fatal("the one drawn was changed")
		}
		if v := Diff(base, base); !reflect.DeepEqual(v, Variant{}) {
			t.Fatalf("nothing differs, and yet %+v", v)
		}
	})
	if edits < 200 {
		t.Errorf("only %d edits succeeded", edits)
	}
}

// Edits here and there, in any order: the file stays valid and the same when it
// is saved and opened, and an edit in a variant is seen there alone.
func TestEditsOfVariantsInAnyOrder(t *testing.T) {
	inside := 0
	rapid.Check(t, func(t *rapid.T) {
		doc, _, err := AddVariant(New(), "One")
		if err == nil {
			doc, _, err = AddVariant(doc, "Two")
		}
		if err != nil {
			t.Fatal(err)
		}
		for range rapid.IntRange(1, 15).Draw(t, "steps") {
			id := rapid.SampledFrom([]string{"", "one", "two"}).Draw(t, "variant")
			now, err := Resolve(doc, id)
			if err != nil {
				t.Fatal(err)
			}
			if id == "" {
				now = doc
			}
			next, _, err := anyEdit(t, now)
			if err != nil {
				continue
			}
			kept, err := Keep(doc, id, next)
			if err != nil {
				t.Fatal(err)
			}
			if err := kept.Validate(); err != nil {
				if id != "" {
					t.Fatalf("an edit in a variant alone: %v", err)
				}
				continue // what is drawn no longer goes with a variant: refused, and said
			}
			back, err := Resolve(kept, id)
			if err != nil {
				t.Fatal(err)
			}
			if id != "" {
				inside++
				sameScene(t, next, back)
				drawnAlone(t, doc, kept)
			}
			doc = kept
		}
		fixedPoint(t, doc)
	})
	if inside < 200 {
		t.Errorf("only %d edits in a variant", inside)
	}
}

// drawnAlone expects the drawn parts to be untouched.
func drawnAlone(t *rapid.T, before, after *Document) {
	if !reflect.DeepEqual(before.Parts, after.Parts) || !reflect.DeepEqual(before.Vehicle, after.Vehicle) ||
		!reflect.DeepEqual(before.Joined, after.Joined) || !reflect.DeepEqual(before.Movements, after.Movements) {
		t.Fatal("the edit of a variant changed what is drawn")
	}
}
