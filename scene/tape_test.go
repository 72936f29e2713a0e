package scene

import (
	"fmt"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// randomTapeEdit lays, renames, removes and ticks tapes now and then; ok is
// false where it did nothing.
func randomTapeEdit(t *rapid.T, doc *Document, p *Part) (*Document, string, error, bool) {
	pick := rapid.IntRange(0, 9).Draw(t, "tape edit")
	var id string
	if n := len(doc.Tapes); n > 0 {
		id = doc.Tapes[rapid.IntRange(0, n-1).Draw(t, "tape")].ID
	}
	done := func(next *Document, label string, err error) (*Document, string, error, bool) {
		return next, label, err, true
	}
	switch {
	case pick < 3:
		datum := rapid.SampledFrom(Datums).Draw(t, "datum")
		return done(AddTape(doc, p.Name+" to the "+datum, TapeEnd{Part: p.ID, Feature: "1/corner/5"}, TapeEnd{Datum: datum}))
	case pick < 5:
		return done(TickPart(doc, p.ID, "2026-11-25"))
	case id == "":
		return nil, "", nil, false
	case pick < 7:
		return done(TickTape(doc, id, "2024-02-29", rapid.Float64Range(0, 5000).Draw(t, "read"), 800, -110, 0))
	case pick == 7:
		return done(RemoveTape(doc, id))
	case pick == 8:
		return done(Untick(doc, id, ""))
	}
	return done(RenameTape(doc, id, "Tape \"x\""))
}

// withTape is the starting vehicle with a tank, a tape from it to the ground,
// and both checked.
func withTape(t testing.TB) *Document {
	t.Helper()
	doc, _, err := AddPart(New(), "air_tank", Vec{1000, 200, 100})
	if err != nil {
		t.Fatal(err)
	}
	id := doc.Parts[len(doc.Parts)-1].ID
	if doc, _, err = AddTape(doc, " Tank to ground ", TapeEnd{Part: id, Feature: "1/mid/bottom"}, TapeEnd{Datum: GroundDatum}); err != nil {
		t.Fatal(err)
	}
	if doc, _, err = TickTape(doc, doc.Tapes[0].ID, "2026-11-25", 214.5, 213, -110, -130); err != nil {
		t.Fatal(err)
	}
	if doc, _, err = TickPart(doc, id, "2026-11-24"); err != nil {
		t.Fatal(err)
	}
	return doc
}

func TestATapeIsKeptInTheFile(t *testing.T) {
	doc := withTape(t)
	again, err := Decode(Encode(doc))
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(again.Tapes, doc.Tapes) || !reflect.DeepEqual(again.Checked, doc.Checked) {
		t.Errorf("opened, the tapes are others: %+v %+v", again.Tapes, again.Checked)
	}
	if doc.Tapes[0].Name != "Tank to ground" {
		t.Errorf("its name: %q", doc.Tapes[0].Name)
	}
	k := doc.CheckOfTape(doc.Tapes[0].ID)
	if k == nil || k.OffMM != 1.5 || k.MeasuredMM != 214.5 || k.FrontMM != -110 || k.On != "2026-11-25" {
		t.Errorf("the check: %+v", k)
	}
	if err := accepts(compiled(t), Encode(doc)); err != nil {
		t.Error(err)
	}
	// A document without any writes what it always wrote.
	plain := string(Encode(New()))
	if strings.Contains(plain, "tapes") || strings.Contains(plain, "checked") {
		t.Error("the empty lists are written")
	}
}

func TestAPartTakesItsTapesAndChecksAlong(t *testing.T) {
	doc := withTape(t)
	id := doc.Tapes[0].From.Part
	next, _, err := RemovePart(doc, id)
	if err != nil {
		t.Fatal(err)
	}
	if len(next.Tapes) != 0 || len(next.Checked) != 0 {
		t.Errorf("left over: %+v %+v", next.Tapes, next.Checked)
	}
	if err := next.Validate(); err != nil {
		t.Error(err)
	}
	if len(doc.Tapes) != 1 || len(doc.Checked) != 2 {
		t.Error("the document before was changed")
	}
	next, _, err = RemoveTape(doc, doc.Tapes[0].ID)
	if err != nil || len(next.Checked) != 1 || next.Checked[0].Part != id {
		t.Errorf("removing the tape: %v %+v", err, next)
	}
	next, _, err = Untick(doc, "", id)
	if err != nil || next.CheckOfPart(id) != nil || next.CheckOfTape(doc.Tapes[0].ID) == nil {
		t.Errorf("taking a check back: %v", err)
	}
}

// The later check of the same thing takes the earlier one's place.
func TestTheLastCheckIsKept(t *testing.T) {
	doc := withTape(t)
	doc, _, err := TickTape(doc, doc.Tapes[0].ID, "2026-12-01", 210, 213, 0, 0)
	if err != nil {
		t.Fatal(err)
	}
	if len(doc.Checked) != 2 {
		t.Errorf("%d checks", len(doc.Checked))
	}
	if k := doc.CheckOfTape(doc.Tapes[0].ID); k.On != "2026-12-01" || k.OffMM != -3 {
		t.Errorf("%+v", k)
	}
}

// What the numbers of a part are: all that says where it is and how large.
func TestNumbersFollowThePart(t *testing.T) {
	doc := withTape(t)
	i := len(doc.Parts) - 1
	was := Numbers(&doc.Parts[i])
	target := "part:" + doc.Parts[i].ID
	for _, c := range []struct {
		field, text string
		same        bool
	}{
		{"name", "Left tank", true}, {"note", "second-hand", true}, {"tolerance", "2", true},
		{"at_x", "40", false}, {"turn_z", "5", false}, {"diameter_mm", "7", false}, {"lies", "across", false},
	} {
		next, _, err := SetField(doc, target, c.field, c.text)
		if err != nil {
			t.Fatalf("%s: %v", c.field, err)
		}
		if got := Numbers(&next.Parts[i]) == was; got != c.same {
			t.Errorf("%s changed: same numbers is %v", c.field, got)
		}
	}
}

// Every day of four hundred years, and as many that are none, by the standard
// library's calendar.
func TestDaysOfTheCalendar(t *testing.T) {
	for year := 1900; year < 2300; year++ {
		for month := 0; month <= 13; month++ {
			for day := 0; day <= 32; day++ {
				s := fmt.Sprintf("%04d-%02d-%02d", year, month, day)
				if _, err := time.Parse(time.DateOnly, s); dayOfCalendar(s) != (err == nil) {
					t.Fatalf("%s: %v", s, err)
				}
			}
		}
	}
	for _, s := range []string{"", "2026-1-2", "2026/11/25", "2026-11-25 ", "٢٠٢٦-11-25", "+026-11-25"} {
		if dayOfCalendar(s) {
			t.Errorf("%q is taken", s)
		}
	}
}

func TestBadTapesAreRefused(t *testing.T) {
	doc := withTape(t)
	id := doc.Tapes[0].From.Part
	tank := TapeEnd{Part: id, Feature: "1/centre"}
	for _, c := range []struct {
		name     string
		from, to TapeEnd
		says     string
	}{
		{"the same place twice", tank, tank, "another place"},
		{"no part", TapeEnd{Part: "nobody", Feature: "1/centre"}, tank, "id of a part"},
		{"no datum", TapeEnd{Datum: "moon"}, tank, "one of"},
		{"nothing", TapeEnd{}, tank, "either"},
		{"both", TapeEnd{Part: id, Feature: "1/centre", Datum: "frame"}, tank, "either"},
		{"a feature in capitals", TapeEnd{Part: id, Feature: "1/Corner"}, tank, "a feature"},
		{"a feature of one step", TapeEnd{Part: id, Feature: "corner"}, tank, "a feature"},
	} {
		if _, _, err := AddTape(doc, "x", c.from, c.to); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	for _, day := range []string{"", "2026-02-30", "2026-1-2", "tomorrow"} {
		if _, _, err := TickPart(doc, id, day); err == nil {
			t.Errorf("a check on %q", day)
		}
	}
	if _, _, err := TickTape(doc, doc.Tapes[0].ID, "2026-11-25", -1, 0, 0, 0); err == nil {
		t.Error("a tape that reads less than nothing")
	}
	if _, _, err := RenameTape(doc, doc.Tapes[0].ID, "  "); err == nil {
		t.Error("a tape without a name")
	}
}
