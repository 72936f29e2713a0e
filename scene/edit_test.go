package scene

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// edited checks that an edit left the document it was given as it was, and
// gave a valid one.
func edited(t testing.TB, before *Document, edit func(*Document) (*Document, string, error)) (*Document, string) {
	t.Helper()
	was := Encode(before)
	doc, label, err := edit(before)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(was, Encode(before)) {
		t.Fatal("the edit changed the document it was given")
	}
	if err := doc.Validate(); err != nil {
		t.Fatal(err)
	}
	return doc, label
}

func set(t testing.TB, doc *Document, target, field, text string) *Document {
	t.Helper()
	out, _ := edited(t, doc, func(d *Document) (*Document, string, error) { return SetField(d, target, field, text) })
	return out
}

func add(t testing.TB, doc *Document, kind string, at Vec) *Document {
	t.Helper()
	out, _ := edited(t, doc, func(d *Document) (*Document, string, error) { return AddPart(d, kind, at) })
	return out
}

func newest(doc *Document) *Part { return &doc.Parts[len(doc.Parts)-1] }

func TestAddedPartsHaveReadableIDs(t *testing.T) {
	doc := New()
	var ids []string
	for range 3 {
		doc = add(t, doc, "air_tank", Vec{100, 200, 300})
		ids = append(ids, newest(doc).ID+"="+newest(doc).Name)
	}
	if got := strings.Join(ids, " "); got != "air-tank=Air tank air-tank-2=Air tank 2 air-tank-3=Air tank 3" {
		t.Error(got)
	}
	if _, label, _ := AddPart(doc, "battery", Vec{}); label != "placed Battery" {
		t.Error(label)
	}
	if _, _, err := AddPart(doc, "jet", Vec{}); err == nil {
		t.Error("a jet was placed")
	}
	if _, _, err := AddPart(doc, "battery", Vec{1e9, 0, 0}); err == nil {
		t.Error("a battery was placed on the moon")
	}
}

func TestWheelsGoOntoFreeWheels(t *testing.T) {
	doc := New()
	for _, id := range []string{"front-right-wheel", "rear-left-wheel"} {
		doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return RemovePart(d, id) })
	}
	doc = add(t, add(t, doc, "wheel", Vec{}), "wheel", Vec{})
	n := len(doc.Parts)
	if doc.Parts[n-2].Carrier != WheelFR || doc.Parts[n-1].Carrier != WheelRL {
		t.Errorf("%s, %s", doc.Parts[n-2].Carrier, doc.Parts[n-1].Carrier)
	}
}

func TestRemovePartTakesItsPairsAlong(t *testing.T) {
	doc := New()
	doc.Needs = []Need{{Parts: [2]string{"driveshaft", "left-frame-rail"}, NeedMM: 30},
		{Traits: [2]Trait{Air, Fuel}, NeedMM: 9}, {Parts: [2]string{"left-frame-rail", "rear-axle"}, NeedMM: 5}}
	out, label := edited(t, doc, func(d *Document) (*Document, string, error) { return RemovePart(d, "driveshaft") })
	if label != "removed Driveshaft" || len(out.Parts) != len(doc.Parts)-1 || len(out.Needs) != 2 || len(out.Joined) != len(doc.Joined)-1 {
		t.Errorf("%s: %d parts, needs %v, joined %v", label, len(out.Parts), out.Needs, out.Joined)
	}
	if _, _, err := RemovePart(out, "driveshaft"); err == nil {
		t.Error("removed twice")
	}
}

func TestMirrorPart(t *testing.T) {
	doc := add(t, New(), "air_spring", Vec{2900, -360, 300})
	doc = set(t, doc, "part:air-spring", "name", "Left spring")
	doc = set(t, doc, "part:air-spring", "lower_on", "wheel_rl")
	doc = set(t, doc, "part:air-spring", "turn_x", "10")
	doc = set(t, doc, "part:air-spring", "turn_y", "20")
	doc = set(t, doc, "part:air-spring", "turn_z", "30")
	doc, label := edited(t, doc, func(d *Document) (*Document, string, error) { return MirrorPart(d, "air-spring") })
	p := newest(doc)
	if label != "mirrored Left spring" || p.ID != "right-spring" || p.Name != "Right spring" {
		t.Errorf("%s, %s, %s", label, p.ID, p.Name)
	}
	if p.AtMM != (Vec{2900, 360, 300}) || p.TurnDeg != (Vec{-10, 20, -30}) {
		t.Errorf("at %v, turned %v", p.AtMM, p.TurnDeg)
	}
	if p.Size.Num("lower_y_mm") != 360 || p.Size.Text("lower_on") != "wheel_rr" || p.Size.Num("lower_z_mm") != 60 {
		t.Errorf("%v", p.Size)
	}
	doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return MirrorPart(d, "rear-left-wheel") })
	if p := newest(doc); p.Carrier != WheelRR || p.Name != "Rear right wheel 2" {
		t.Errorf("%+v", p)
	}
}

func TestMirrorTwiceIsTheSamePart(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(Kinds()).Draw(t, "kind")
		s := drawSize(t, k)
		if !reflect.DeepEqual(mirrorSize(k, mirrorSize(k, s)), s.Clone()) {
			t.Fatalf("%s: %v", k.Name, s)
		}
	})
}

func TestDuplicatePart(t *testing.T) {
	doc, label := edited(t, New(), func(d *Document) (*Document, string, error) { return DuplicatePart(d, "driveshaft") })
	p := newest(doc)
	if label != "duplicated Driveshaft" || p.ID != "driveshaft-2" || p.AtMM[0] != 1450 {
		t.Errorf("%s: %+v", label, p)
	}
	p.Size["diameter_mm"] = Value{Num: 50}
	if i, _ := doc.partAt("driveshaft"); doc.Parts[i].Size.Num("diameter_mm") != 76 {
		t.Error("the copy shares its size")
	}
}

func TestMovePartAndJoin(t *testing.T) {
	doc, label := edited(t, New(), func(d *Document) (*Document, string, error) { return MovePart(d, "driveshaft", Vec{1, 2, 3}) })
	if i, _ := doc.partAt("driveshaft"); label != "moved Driveshaft" || doc.Parts[i].AtMM != (Vec{1, 2, 3}) {
		t.Error(label)
	}
	doc, label = edited(t, doc, func(d *Document) (*Document, string, error) {
		return SetJoined(d, "driveshaft", "left-frame-rail", true, " hanger ")
	})
	last := doc.Joined[len(doc.Joined)-1]
	if label != "joined Driveshaft and Left frame rail" || last != (Joined{"driveshaft", "left-frame-rail", "hanger"}) {
		t.Errorf("%s: %+v", label, last)
	}
	again, _ := edited(t, doc, func(d *Document) (*Document, string, error) {
		return SetJoined(d, "left-frame-rail", "driveshaft", true, "bracket")
	})
	if len(again.Joined) != len(doc.Joined) {
		t.Error("joined twice")
	}
	apart, label := edited(t, again, func(d *Document) (*Document, string, error) {
		return SetJoined(d, "driveshaft", "left-frame-rail", false, "")
	})
	if label != "parted Driveshaft and Left frame rail" || len(apart.Joined) != len(doc.Joined)-1 {
		t.Error(label)
	}
	for _, pair := range [][2]string{{"driveshaft", "driveshaft"}, {"driveshaft", "ghost"}, {"ghost", "driveshaft"}} {
		if _, _, err := SetJoined(doc, pair[0], pair[1], true, ""); err == nil {
			t.Errorf("%v joined", pair)
		}
	}
}

// TestSetFieldReachesEveryField checks text against what the file then holds.
func TestSetFieldReachesEveryField(t *testing.T) {
	doc := add(t, add(t, New(), "exhaust_run", Vec{}), "box", Vec{2950, 0, 117.15})
	cases := []struct{ target, field, text, want string }{
		{"scene", "name", " Bakery van ", `"name": "Bakery van"`},
		{"scene", "note", "two\nlines", `"note": "two\nlines"`},
		{"scene", "show", "mm", `"show": "mm"`},
		{"scene", "tolerance_mm", "1/8", `"tolerance_mm": 3.175`},
		{"scene", "tolerance", "2 mm", `"tolerance_mm": 2`},
		{"scene", "height/aired_out/front", "-4", `"front_mm": -101.6`},
		{"height:aired_up", "rear_mm", "3 1/2", `"rear_mm": 88.9`},
		{"height:ride", "name", "Driving", `"name": "Driving"`},
		{"vehicle", "wheelbase_mm", "118", `"wheelbase_mm": 2997.2`},
		{"vehicle", "front/track_mm", "58", `"track_mm": 1473.2`},
		{"vehicle", "front_track", "58 1/2", `"track_mm": 1485.9`},
		{"vehicle", "rear/tyre", "255/40r18", `{"code": "255/40R18", "deflection_mm": 12}`},
		{"vehicle", "rear/tyre", "650 mm", `{"diameter_mm": 650, "width_mm": 225, "rim_mm": 431.8, "deflection_mm": 12}`},
		{"vehicle", "rear_tyre", "", `{"diameter_mm": 634.3, "width_mm": 225, "rim_mm": 431.8, "deflection_mm": 12}`},
		{"vehicle", "rear/tyre/width_mm", "230 mm", `{"diameter_mm": 634.3, "width_mm": 230, "rim_mm": 431.8, "deflection_mm": 12}`},
		{"vehicle", "rear_tyre_diameter", "640 mm", `"diameter_mm": 640`},
		{"vehicle", "rear_rim", "17", `"rim_mm": 431.8`},
		{"vehicle", "front/tyre/deflection_mm", "15 mm", `{"code": "225/45R17", "deflection_mm": 15}`},
		{"vehicle", "front_deflection", "14 mm", `"deflection_mm": 14`},
		{"vehicle", "front_frame_height", "9", `"frame_height_mm": 228.6`},
		{"vehicle", "rear/independent", "true", `"independent": true`},
		{"vehicle", "front/steer_deg", "25", `"steer_deg": 25`},
		{"vehicle", "rear/cross_mm", "40 mm", `"cross_mm": 40`},
		{"part:box", "name", "Tool box", `"name": "Tool box"`},
		{"part:box", "note", "bolted", `"note": "bolted"`},
		{"part:box", "at_mm/1", "-10", `"at_mm": [2950, -254, 117.15]`},
		{"part:box", "at_z", "-1 1/2", `"at_mm": [2950, 0, -38.1]`},
		{"part:box", "turn_deg/2", "12.5°", `"turn_deg": [0, 0, 12.5]`},
		{"part:box", "turn_x", "3", `"turn_deg": [3, 0, 0]`},
		{"part:box", "traits", "fixed, exhaust", `"traits": ["fixed", "exhaust"]`},
		{"part:box", "tolerance", "1 mm", `"tolerance_mm": 1`},
		{"part:box", "size/length_mm", "12 3/8", `"length_mm": 314.325`},
		{"part:box", "length", "300.5 mm", `"length_mm": 300.5`},
		{"part:box", "carrier", "ground", `"carrier": "ground"`},
		{"part:exhaust-run", "size/vertices/2/x_mm", "60", `{"x_mm": 1524, "y_mm": 0, "z_mm": -40, "bend_mm": 95}`},
		{"part:exhaust-run", "vertices/1/3", "4", `{"x_mm": 300, "y_mm": 0, "z_mm": -40, "bend_mm": 101.6}`},
		{"part:front-axle", "style", "live", `"style": "live"`},
	}
	for _, c := range cases {
		t.Run(c.target+"/"+c.field, func(t *testing.T) {
			before, after := string(Encode(doc)), string(Encode(set(t, doc, c.target, c.field, c.text)))
			if strings.Count(after, c.want) != strings.Count(before, c.want)+1 {
				t.Errorf("%s did not come to be in the file", c.want)
			}
		})
	}
}

// The rear axle's origin of the new vehicle: loaded radius 634.3/2 − 12 over
// the ground, the frame 200 over it: 105.15 above the frame datum.
func TestChangingTheCarrierLeavesThePartInPlace(t *testing.T) {
	doc := add(t, New(), "box", Vec{3000, -50, 205.15})
	doc = set(t, doc, "part:box", "carrier", "rear_axle")
	nearVec(t, "from the rear axle", newest(doc).AtMM, Vec{50, -50, 100})
	doc = set(t, doc, "part:box", "carrier", "wheel_rl")
	nearVec(t, "from the rear left wheel", newest(doc).AtMM, Vec{50, 680, 100})
	doc = set(t, doc, "part:box", "carrier", "ground")
	nearVec(t, "from the ground", newest(doc).AtMM, Vec{3000, -50, 405.15})
	doc = set(t, doc, "part:box", "carrier", "body")
	nearVec(t, "from the body's origin", newest(doc).AtMM, Vec{3000, -50, 205.15})
}

func TestSetFieldSaysWhatItDid(t *testing.T) {
	doc := add(t, New(), "exhaust_run", Vec{})
	for _, c := range [][4]string{
		{"part:exhaust-run", "name", "Left pipe", "renamed Exhaust run"},
		{"part:exhaust-run", "at_x", "9", "moved Exhaust run"},
		{"part:exhaust-run", "turn_deg/0", "9", "turned Exhaust run"},
		{"part:exhaust-run", "size/tube_mm", "3", "changed Exhaust run: tube diameter"},
		{"part:exhaust-run", "vertices/2/y_mm", "3", "changed Exhaust run: corners"},
		{"part:exhaust-run", "note", "3", "changed Exhaust run"},
		{"vehicle", "front/track", "55", "changed the vehicle"},
		{"height:ride", "name", "Cruise", "renamed the height Ride"},
		{"scene", "name", "Van", "changed the scene"},
	} {
		if _, label, err := SetField(doc, c[0], c[1], c[2]); err != nil || label != c[3] {
			t.Errorf("%v: %q, %v", c, label, err)
		}
	}
}

func TestSetFieldRefusesInOneSentence(t *testing.T) {
	doc := add(t, add(t, New(), "exhaust_run", Vec{}), "air_tank", Vec{})
	for _, c := range []struct{ target, field, text, says string }{
		{"part:air-tank", "diameter_mm", "100", "Diameter must be from 1 15/16 to 31 1/2 in."},
		{"part:air-tank", "diameter_mm", "wide", "type a length such as 12 3/8"},
		{"part:air-tank", "length_mm", "3", "Length must be from 3 15/16 to 118 1/8 in."},
		{"part:air-tank", "lies", "askew", "Lies must be along, across or upright."},
		{"part:air-tank", "colour", "red", `there is no field called "colour"`},
		{"part:air-tank", "at_mm/3", "1", `there is no field called "at_mm/3"`},
		{"part:air-tank", "at_x", "900'", "Position back must be from -787 3/8 to 787 3/8 in."},
		{"part:air-tank", "turn_z", "400", "Yaw must be from -360 to 360°."},
		{"part:air-tank", "carrier", "ground", "Carrier must be body."},
		{"part:air-tank", "name", " ", "a part needs a name"},
		{"part:air-tank", "traits", "shiny", "must be one of fixed"},
		{"part:exhaust-run", "vertices/3/bend_mm", "40", "Corners, row 4: Bend radius must be small enough for its bend to fit between the corners on either side."},
		{"part:exhaust-run", "vertices/99/x_mm", "40", "no field"},
		{"part:exhaust-run", "vertices", "40", "no field"},
		{"part:ghost", "name", "x", `there is no part "ghost"`},
		{"vehicle", "wheelbase", "5 mm", "Wheelbase must be from 19 11/16"},
		{"vehicle", "front/tyre", "soft", "a tyre size looks like 225/45R17"},
		{"vehicle", "front/frame_height", "9000", "Front frame height must be from"},
		{"vehicle", "front/independent", "perhaps", "answer yes or no"},
		{"vehicle", "middle/track", "5", "no field"},
		{"vehicle", "front/colour", "5", "no field"},
		{"scene", "show", "furlongs", "Show must be mm or in."},
		{"scene", "colour", "x", "no field"},
		{"height:ride", "front", "3", "Front must be 0: moves are measured from ride."},
		{"height:lunch", "front", "3", `there is no height "lunch"`},
		{"moon", "name", "x", "nothing called"},
	} {
		out, _, err := SetField(doc, c.target, c.field, c.text)
		if err == nil || out != nil || strings.ContainsAny(err.Error(), "\n") || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s %s %q: %v; want … %s", c.target, c.field, c.text, err, c.says)
		}
	}
}

func TestRowsAreAddedBetweenAndBeyond(t *testing.T) {
	doc := add(t, New(), "air_spring", Vec{2900, -360, 300})
	rows := func(d *Document) string { return fmt.Sprint(newest(d).Size.Rows("profile")) }
	row := func(d *Document, f func(*Document, string, string, int) (*Document, string, error), at int) *Document {
		out, _ := edited(t, d, func(d *Document) (*Document, string, error) { return f(d, "part:air-spring", "size/profile", at) })
		return out
	}
	if got := rows(row(doc, AddRow, 0)); got != "[[75 178] [100 174] [125 170] [200 160] [260 150]]" {
		t.Error(got)
	}
	if got := rows(row(doc, AddRow, 3)); got != "[[75 178] [125 170] [200 160] [260 150] [320 140]]" {
		t.Error(got)
	}
	if got := rows(row(doc, AddRow, -1)); got != "[[25 186] [75 178] [125 170] [200 160] [260 150]]" {
		t.Error(got)
	}
	one := row(row(row(doc, RemoveRow, 0), RemoveRow, 0), RemoveRow, 1)
	if got := rows(one); got != "[[200 160]]" {
		t.Error(got)
	}
	for _, at := range []int{-1, 0} {
		if _, _, err := RemoveRow(one, "part:air-spring", "profile", at); err == nil {
			t.Errorf("row %d of one removed", at)
		}
	}
	for _, c := range []struct{ target, field string }{{"vehicle", "profile"}, {"part:ghost", "profile"}, {"part:air-spring", "lower_on"}, {"part:air-spring", "x"}} {
		if _, _, err := AddRow(doc, c.target, c.field, 0); err == nil {
			t.Errorf("%v", c)
		}
	}
	if _, _, err := AddRow(doc, "part:air-spring", "profile", 9); err == nil {
		t.Error("a row was added behind row 9 of 4")
	}
	empty := add(t, New(), "frame_rail", Vec{})
	for range 4 {
		empty, _ = edited(t, empty, func(d *Document) (*Document, string, error) { return RemoveRow(d, "part:frame-rail", "profile", 0) })
	}
	empty, label := edited(t, empty, func(d *Document) (*Document, string, error) { return AddRow(d, "part:frame-rail", "profile", -1) })
	if label != "added a row to Frame rail" || len(newest(empty).Size.Rows("profile")) != 1 {
		t.Error(label)
	}
}

func TestTraitsFollowTheCarrier(t *testing.T) {
	p := Part{Kind: "plate", Carrier: Body}
	if got := TraitsOf(&p); !reflect.DeepEqual(got, []Trait{Fixed}) {
		t.Errorf("on the body: %v", got)
	}
	p.Carrier = RearAxle
	if got := TraitsOf(&p); !reflect.DeepEqual(got, []Trait{Moving}) {
		t.Errorf("on an axle: %v", got)
	}
	p.Traits = []Trait{Exhaust}
	if got := TraitsOf(&p); !reflect.DeepEqual(got, []Trait{Exhaust}) {
		t.Errorf("its own: %v", got)
	}
	if got := TraitsOf(&Part{Kind: "jet"}); got != nil {
		t.Errorf("of no kind: %v", got)
	}
}
