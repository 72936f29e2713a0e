package scene

import (
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func mark(t testing.TB, doc *Document, target, field string, on bool) *Document {
	t.Helper()
	out, _ := edited(t, doc, func(d *Document) (*Document, string, error) { return MarkMeasured(d, target, field, on) })
	return out
}

// keys are the keys of what is not measured, in the order they are shown.
func keys(doc *Document) (list []string) {
	for _, u := range doc.NotMeasured() {
		list = append(list, u.Key)
	}
	return list
}

// A new part's dimensions are defaults until they are typed; where it stands
// is where it was put.
func TestANewPartsDimensionsAreNotMeasured(t *testing.T) {
	doc := New()
	if len(doc.Unmeasured) != 0 {
		t.Fatal("a starter lists nothing by itself")
	}
	doc = add(t, doc, "air_tank", Vec{2100, -150, 40})
	n := len(doc.NotMeasured())
	if n == 0 {
		t.Fatal("a new tank's dimensions count as measured")
	}
	for _, u := range doc.NotMeasured() {
		if u.Part != "Air tank" || !strings.HasPrefix(u.Field, "size/") || u.Label == "" {
			t.Errorf("%+v", u)
		}
	}
	if is, can := doc.IsMeasured("part:air-tank", "at_x"); !is || !can {
		t.Error("its place is where it was put")
	}
	if is, can := doc.IsMeasured("part:air-tank", "diameter_mm"); is || !can {
		t.Error("its diameter is a default")
	}
	same := FormatLength(doc.Parts[len(doc.Parts)-1].Size.Num("diameter_mm"), doc.Show)
	doc = set(t, doc, "part:air-tank", "diameter", same)
	if is, _ := doc.IsMeasured("part:air-tank", "diameter_mm"); !is || len(doc.NotMeasured()) != n-1 {
		t.Error("typed, it is measured, whatever the value")
	}
	for _, field := range []string{"name", "note", "carrier", "size/nothing", "tolerance"} {
		if _, can := doc.IsMeasured("part:air-tank", field); can {
			t.Errorf("%s is nothing to measure", field)
		}
	}
}

// Only what means something as the document stands is listed.
func TestWhatMeansNothingIsNotAskedFor(t *testing.T) {
	doc := New()
	doc = mark(t, doc, "part:front-axle", "", false)
	has := func(field string) bool { return contains(keys(doc), "part:front-axle/size/"+field) }
	if has("housing_mm") || !has("beam_drop_mm") || !has("tube_mm") || !contains(keys(doc), "part:front-axle/at_mm/2") {
		t.Errorf("a plain beam: %v", keys(doc))
	}
	doc = set(t, doc, "part:front-axle", "style", "live")
	if !has("housing_mm") || has("beam_drop_mm") {
		t.Errorf("a live axle: %v", keys(doc))
	}
	if doc = mark(t, doc, "part:front-axle", "", true); len(doc.Unmeasured) != 0 {
		t.Errorf("all measured: %v", doc.Unmeasured)
	}
}

func TestTyresByCodeAndByNumbers(t *testing.T) {
	cases := []struct {
		name  string
		edits [][2]string // field and text
		want  string
	}{
		{"as it is", nil, "vehicle/front/tyre"},
		{"a code tells all", [][2]string{{"front_tyre", "225/45R17"}}, ""},
		{"a diameter tells no width", [][2]string{{"front_tyre", "640 mm"}}, "vehicle/front/tyre/width_mm vehicle/front/tyre/rim_mm"},
		{"no code, the numbers stay", [][2]string{{"front_tyre", ""}}, "vehicle/front/tyre/diameter_mm vehicle/front/tyre/width_mm vehicle/front/tyre/rim_mm"},
		{"the width alone", [][2]string{{"front_tyre_width", "230 mm"}}, "vehicle/front/tyre/diameter_mm vehicle/front/tyre/rim_mm"},
		{"all three", [][2]string{{"front_tyre", "640 mm"}, {"front_tyre_width", "230 mm"}, {"front_rim", "430 mm"}}, ""},
		{"back to a code", [][2]string{{"front_tyre", "640 mm"}, {"front_tyre", "245/40R18"}}, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			doc := mark(t, New(), "vehicle", "front_tyre", false)
			for _, e := range c.edits {
				doc = set(t, doc, "vehicle", e[0], e[1])
			}
			if got := strings.Join(keys(doc), " "); got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
}

// The points of another kind of suspension are assumed.
func TestASuspensionsPointsAreNotMeasured(t *testing.T) {
	doc := set(t, New(), "vehicle", "rear/suspension/kind", FourLinkPanhard)
	if got := strings.Join(keys(doc), " "); got != "vehicle/rear/suspension/bars" {
		t.Error(got)
	}
	doc = set(t, doc, "vehicle", "rear/suspension/bars/0/body_mm/1", "-300 mm")
	if len(doc.Unmeasured) != 1 {
		t.Error("one coordinate is not all of them")
	}
	if doc = mark(t, doc, "vehicle", "rear/suspension/bars", true); len(doc.Unmeasured) != 0 {
		t.Error(doc.Unmeasured)
	}
	doc = set(t, doc, "vehicle", "rear/suspension/kind", LeafSprings)
	if doc = set(t, doc, "vehicle", "rear/suspension/kind", Guide); len(doc.Unmeasured) != 0 {
		t.Errorf("a guide has no points: %v", doc.Unmeasured)
	}
}

func TestMarksFollowTheirPart(t *testing.T) {
	doc := add(t, New(), "air_tank", Vec{2100, -150, 40})
	doc = set(t, doc, "part:air-tank", "name", "Left tank")
	n := len(doc.Unmeasured)
	if u := doc.NotMeasured()[0]; u.Part != "Left tank" {
		t.Error("a renamed part's marks follow", u)
	}
	copied, _ := edited(t, doc, func(d *Document) (*Document, string, error) { return DuplicatePart(d, "air-tank") })
	mirrored, _ := edited(t, copied, func(d *Document) (*Document, string, error) { return MirrorPart(d, "air-tank") })
	if len(mirrored.Unmeasured) != 3*n {
		t.Errorf("copies are no better measured: %v", mirrored.Unmeasured)
	}
	gone, _ := edited(t, copied, func(d *Document) (*Document, string, error) { return RemovePart(d, "air-tank") })
	if len(gone.Unmeasured) != n || contains(gone.Unmeasured, "part:air-tank/size/diameter_mm") {
		t.Errorf("%v", gone.Unmeasured)
	}
	h := NewHistory(copied)
	h.Do(gone, "removed")
	if back, _ := h.Undo(); !reflect.DeepEqual(back.Unmeasured, copied.Unmeasured) {
		t.Error("undo brings them back")
	}
}

func TestMovementsAndHeightsCanBeMarked(t *testing.T) {
	doc, _ := edited(t, New(), func(d *Document) (*Document, string, error) { return AddMovement(d, "driveshaft", Hinge) })
	id := doc.Movements[0].ID
	for _, f := range []string{"axis/2", "to", "at_mm/1", "at_x", "from"} {
		doc = mark(t, doc, "movement:"+id, f, false)
	}
	doc = mark(t, doc, "scene", "height/aired_out/rear_mm", false)
	doc = mark(t, doc, "height:aired_out", "front", false)
	p := "movement:" + id + "/"
	want := strings.Join([]string{"height:aired_out/front_mm", "height:aired_out/rear_mm", p + "at_mm/0", p + "at_mm/1", p + "axis/2", p + "from", p + "to"}, " ")
	if got := strings.Join(keys(doc), " "); got != want {
		t.Errorf("got %s\nwant %s", got, want)
	}
	doc = set(t, doc, "movement:"+id, "to", "40")
	doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return RemoveMovement(d, id) })
	doc = set(t, doc, "scene", "height/aired_out/rear_mm", "-80 mm")
	if got := strings.Join(doc.Unmeasured, " "); got != "height:aired_out/front_mm" {
		t.Error(got)
	}
}

func TestMarkMeasuredRefusals(t *testing.T) {
	doc := New()
	for _, c := range [][2]string{
		{"part:nobody", ""}, {"part:nobody", "at_x"}, {"part:driveshaft", "name"}, {"vehicle", "colour"},
		{"height:ride", "front"}, {"scene", "name"}, {"vehicle", "rear/suspension/bars/0/body_mm/0"}, {"moon", ""},
	} {
		if _, _, err := MarkMeasured(doc, c[0], c[1], false); err == nil {
			t.Errorf("%v was marked", c)
		}
	}
}

// What concerns two parts: their own dimensions and places, and what of the
// vehicle lies between what they ride on.
func TestUnmeasuredBetween(t *testing.T) {
	doc := mark(t, New(), "vehicle", "", false)
	doc = mark(t, doc, "height:aired_out", "", false)
	doc = mark(t, doc, "part:driveshaft", "", false)
	doc = mark(t, doc, "part:left-frame-rail", "width_mm", false)
	between := func(moves bool, ids ...string) string { return strings.Join(doc.UnmeasuredBetween(moves, ids...), " ") }
	if got := between(false, "left-frame-rail", "right-frame-rail"); got != "part:left-frame-rail/size/width_mm" {
		t.Errorf("two rails of one frame: %s", got)
	}
	got := between(true, "left-frame-rail", "front-left-wheel")
	for _, key := range []string{"vehicle/front/track_mm", "vehicle/front/tyre", "vehicle/front/frame_height_mm", "vehicle/front/steer_deg", "height:aired_out/front_mm"} {
		if !strings.Contains(got, key) {
			t.Errorf("%s is missing in %s", key, got)
		}
	}
	if strings.Contains(got, "vehicle/rear") || strings.Contains(got, "wheelbase") {
		t.Errorf("the rear has nothing to do with it: %s", got)
	}
	// The shaft's rear joint is on the rear axle though it rides on the body.
	if got := between(true, "driveshaft", "right-frame-rail"); !strings.Contains(got, "vehicle/wheelbase_mm") || !strings.Contains(got, "part:driveshaft/at_mm/0") {
		t.Error(got)
	}
}

// Random edits and marks: every list is sorted, names what is there, and comes
// back from the file as it was.
func TestUnmeasuredSurvivesEditsAndFiles(t *testing.T) {
	marked := 0
	rapid.Check(t, func(t *rapid.T) {
		doc := New()
		for range rapid.IntRange(1, 12).Draw(t, "edits") {
			var next *Document
			var err error
			if len(doc.Parts) > 0 && rapid.Bool().Draw(t, "mark") {
				p := &doc.Parts[rapid.IntRange(0, len(doc.Parts)-1).Draw(t, "part")]
				target := rapid.SampledFrom([]string{"part:" + p.ID, "vehicle", "height:aired_up"}).Draw(t, "target")
				field := ""
				if target == "part:"+p.ID && rapid.Bool().Draw(t, "one") {
					field = rapid.SampledFrom(KindNamed(p.Kind).Fields).Draw(t, "field").Name
				}
				next, _, err = MarkMeasured(doc, target, field, rapid.Bool().Draw(t, "on"))
				if err != nil {
					t.Fatal(err)
				}
			} else if next, _, err = randomEdit(t, doc); err != nil {
				continue
			}
			doc = next
			fixedPoint(t, doc)
			again, err := Decode(Encode(doc))
			if err != nil || !reflect.DeepEqual(doc.Unmeasured, again.Unmeasured) {
				t.Fatalf("%v\n%v\n%v", err, doc.Unmeasured, again.Unmeasured)
			}
			for _, u := range doc.NotMeasured() {
				if is, can := doc.IsMeasured(u.Target, u.Field); is || !can || u.Words() == "" {
					t.Fatalf("%+v", u)
				}
			}
		}
		marked += len(doc.Unmeasured)
	})
	if marked < 100 {
		t.Errorf("only %d marks were made", marked)
	}
}
