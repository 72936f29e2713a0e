package scene

import (
	"errors"
	"flag"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "write the files under testdata and schema.json anew")

// read gives a file below testdata of the module.
func read(t testing.TB, elem ...string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(append([]string{"..", "testdata"}, elem...)...))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// golden compares a file with what the code makes of it, or writes it anew.
func golden(t *testing.T, path string, want []byte) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, want, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	g, w := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(g), len(w)) {
		if i >= len(g) || i >= len(w) || g[i] != w[i] {
			t.Fatalf("%s is stale from line %d on; run the test with -update", path, i+1)
		}
	}
}

func TestStarterIsTheFileShipped(t *testing.T) {
	doc := New()
	if err := doc.Validate(); err != nil {
		t.Fatal(err)
	}
	golden(t, filepath.Join("..", "testdata", "scenes", "starter.json"), Encode(doc))
}

func TestEveryShippedSceneSurvivesSaving(t *testing.T) {
	for _, path := range shippedScenes(t) {
		data, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		doc, err := Decode(data)
		if err != nil {
			t.Errorf("%s: %v", path, err)
			continue
		}
		again, err := Decode(Encode(doc))
		if err != nil {
			t.Errorf("%s: %v", path, err)
		} else if !reflect.DeepEqual(doc, again) {
			t.Errorf("%s: saved and opened it is another document", path)
		}
	}
}

func shippedScenes(t testing.TB) []string {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join("..", "testdata", "scenes", "*.json"))
	if err != nil || len(paths) == 0 {
		t.Fatalf("no scenes in testdata: %v", err)
	}
	return paths
}

// small is a document with every optional field left out.
const small = `{"format":"scrubline-scene","version":1,
 "vehicle":{"wheelbase_mm":3000,
  "front":{"track_mm":1500,"tyre":{"code":"225/45R17"},"frame_height_mm":200},
  "rear":{"track_mm":1500,"tyre":{"diameter_mm":640,"width_mm":230,"rim_mm":430},"frame_height_mm":210}},
 "heights":[{"id":"aired_out","front_mm":-80,"rear_mm":-90},{"id":"ride","front_mm":0,"rear_mm":-0},{"id":"aired_up","front_mm":60,"rear_mm":60}],
 "parts":[{"id":"tank","kind":"air_tank"},{"id":"wheel","kind":"wheel","size":{}}]}`

func TestFieldsLeftOutTakeTheirDefaults(t *testing.T) {
	doc, err := Decode([]byte(small))
	if err != nil {
		t.Fatal(err)
	}
	if doc.Show != Millimetres || doc.ToleranceMM != DefaultToleranceMM || doc.Heights[0].Name != "Aired out" {
		t.Errorf("defaults of the document: %+v", doc)
	}
	tank := doc.Parts[0]
	if tank.Name != "Air tank" || tank.Carrier != Body || !reflect.DeepEqual(tank.Size, KindNamed("air_tank").DefaultSize()) {
		t.Errorf("defaults of a part: %+v", tank)
	}
	if doc.Parts[1].Carrier != WheelFL {
		t.Errorf("a wheel's first carrier is %s", doc.Parts[1].Carrier)
	}
	if math.Signbit(doc.Heights[1].RearMM) {
		t.Error("minus zero was kept")
	}
	if got := doc.Vehicle.Front.Tyre.Outer(); math.Abs(got-634.3) > 1e-9 {
		t.Errorf("outer diameter of the front tyre: %v", got)
	}
}

// with is the small document with one piece of its text replaced.
func with(t testing.TB, old, new string) string {
	t.Helper()
	if strings.Count(small, old) == 0 {
		t.Fatalf("the small document has no %q", old)
	}
	return strings.Replace(small, old, new, 1)
}

func TestDecodeTellsThePlace(t *testing.T) {
	tank := `{"id":"tank","kind":"air_tank"}`
	part := func(more string) [2]string { return [2]string{tank, `{"id":"tank","kind":"air_tank",` + more + `}`} }
	deep := strings.Repeat("[", 100) + strings.Repeat("]", 100)
	cases := []struct {
		name  string
		edit  [2]string
		place string
		says  string
	}{
		{"unknown field", part(`"colour":"red"`), "/parts/0/colour", "known field"},
		{"unknown size field", part(`"size":{"volume":1}`), "/parts/0/size/volume", "known field"},
		{"key twice", part(`"name":"a","name":"b"`), "/parts/0/name", "once"},
		{"text for a number", part(`"size":{"diameter_mm":"200"}`), "/parts/0/size/diameter_mm", "a number"},
		{"number for text", part(`"name":3`), "/parts/0/name", "text"},
		{"null", part(`"name":null`), "/parts/0/name", "null"},
		{"overflow", part(`"size":{"diameter_mm":1e400}`), "/parts/0/size/diameter_mm", "stored"},
		{"negative size", part(`"size":{"diameter_mm":-5}`), "/parts/0/size/diameter_mm", "from 50 to 800"},
		{"too far", part(`"at_mm":[0,0,20001]`), "/parts/0/at_mm/2", "20000"},
		{"two coordinates", part(`"at_mm":[0,0]`), "/parts/0/at_mm", "three numbers"},
		{"text in a vector", part(`"at_mm":[0,"1",0]`), "/parts/0/at_mm/1", "a number"},
		{"unknown kind", [2]string{`"kind":"air_tank"`, `"kind":"jet"`}, "/parts/0/kind", `"jet"`},
		{"unknown carrier", part(`"carrier":"moon"`), "/parts/0/carrier", `"moon"`},
		{"carrier not for this kind", part(`"carrier":"wheel_fl"`), "/parts/0/carrier", "body"},
		{"unknown trait", part(`"traits":["shiny"]`), "/parts/0/traits/0", `"shiny"`},
		{"trait twice", part(`"traits":["air","air"]`), "/parts/0/traits/1", "once"},
		{"unknown choice", part(`"size":{"lies":"askew"}`), "/parts/0/size/lies", "along, across or upright"},
		{"between fields", part(`"size":{"diameter_mm":800,"length_mm":399}`), "/parts/0/size/length_mm", "half the diameter"},
		{"tolerance", part(`"tolerance_mm":-1`), "/parts/0/tolerance_mm", "from 0 to 100"},
		{"no id", [2]string{tank, `{"kind":"air_tank"}`}, "/parts/0/id", "nothing"},
		{"empty id", [2]string{`"id":"tank"`, `"id":""`}, "/parts/0/id", "letters"},
		{"id with a bar", [2]string{`"id":"tank"`, `"id":"a|b"`}, "/parts/0/id", "letters"},
		{"same id", [2]string{`"id":"tank"`, `"id":"wheel"`}, "/parts/1/id", "/parts/0"},
		{"newer", [2]string{`"version":1`, `"version":3`}, "/version", "made by a newer Scrubline: version 3, this one reads up to 1"},
		{"version nought", [2]string{`"version":1`, `"version":0`}, "/version", "version 1"},
		{"version and a half", [2]string{`"version":1`, `"version":1.5`}, "/version", "version 1"},
		{"other format", [2]string{`scrubline-scene`, `drawing`}, "/format", "scrubline-scene"},
		{"no vehicle", [2]string{`"vehicle"`, `"wagon"`}, "/wagon", "known field"},
		{"no ride", [2]string{`"id":"ride"`, `"id":"cruise"`}, "/heights", "ride"},
		{"ride moved", [2]string{`"ride","front_mm":0`, `"ride","front_mm":2`}, "/heights/1/front_mm", "measured from ride"},
		{"aired out up", [2]string{`"front_mm":-80`, `"front_mm":80`}, "/heights/0/front_mm", "from -1000 to 0"},
		{"tyre code", [2]string{`225/45R17`, `225-45`}, "/vehicle/front/tyre/code", "225/45R17"},
		{"tyre both ways", [2]string{`"code":"225/45R17"`, `"code":"225/45R17","rim_mm":4`}, "/vehicle/front/tyre/rim_mm", "known field"},
		{"rim larger than tyre", [2]string{`"rim_mm":430`, `"rim_mm":700`}, "/vehicle/rear/tyre/rim_mm", "less than the outer diameter"},
		{"frame on a ramp", [2]string{`"frame_height_mm":210`, `"frame_height_mm":801`}, "/vehicle/rear/frame_height_mm", "a fifth of the wheelbase"},
		{"show", [2]string{`"version":1,`, `"version":1,"show":"cm",`}, "/show", "mm or in"},
		{"control character", part(`"name":"a\u0007b"`), "/parts/0/name", "control"},
		{"two lines in a name", part(`"name":"a\nb"`), "/parts/0/name", "control"},
		{"deep", part(`"size":` + deep), "/parts/0/size/0/0/0/0/0/0/0/0/0", "levels"},
		{"list for object", part(`"size":[]`), "/parts/0/size", "an object"},
		{"trailing", [2]string{`"kind":"wheel","size":{}}]}`, `"kind":"wheel","size":{}}]} {}`}, "", "end of the file"},
		{"cut off", [2]string{`"kind":"wheel","size":{}}]}`, `"kind":"wheel","si`}, "/parts/1", "end of the file"},
		{"fault in the text", [2]string{`"parts":[`, `"parts":[,`}, "/parts/0", "at byte"},
		{"need of nobody", [2]string{`"version":1,`, `"version":1,"needs":[{"parts":["tank","ghost"],"need_mm":5}],`}, "/needs/0/parts/1", `"ghost"`},
		{"need of itself", [2]string{`"version":1,`, `"version":1,"needs":[{"parts":["tank","tank"],"need_mm":5}],`}, "/needs/0/parts/1", "another part"},
		{"need without number", [2]string{`"version":1,`, `"version":1,"needs":[{"parts":["tank","wheel"]}],`}, "/needs/0/need_mm", "shield"},
		{"need of both", [2]string{`"version":1,`, `"version":1,"needs":[{"parts":["tank","wheel"],"traits":["air","fuel"],"need_mm":5}],`}, "/needs/0", "either"},
		{"need of neither", [2]string{`"version":1,`, `"version":1,"needs":[{"need_mm":5}],`}, "/needs/0", "either"},
		{"need of three", [2]string{`"version":1,`, `"version":1,"needs":[{"traits":["air","fuel","burns"],"need_mm":5}],`}, "/needs/0/traits", "two"},
		{"need twice", [2]string{`"version":1,`, `"version":1,"needs":[{"traits":["air","fuel"],"need_mm":5},{"traits":["fuel","air"],"need_mm":6}],`}, "/needs/1/traits", "once"},
		{"shield of traits", [2]string{`"version":1,`, `"version":1,"needs":[{"traits":["air","fuel"],"shielded":true}],`}, "/needs/0/shielded", "two parts"},
		{"unmeasured nothing", [2]string{`"version":1,`, `"version":1,"unmeasured":["part:tank/size/volume_mm"],`}, "/unmeasured/0", "a value of the vehicle"},
		{"unmeasured nobody", [2]string{`"version":1,`, `"version":1,"unmeasured":["part:ghost/at_mm/0"],`}, "/unmeasured/0", "ghost"},
		{"unmeasured twice", [2]string{`"version":1,`, `"version":1,"unmeasured":["part:wheel/at_mm/0","part:tank/at_mm/0","part:wheel/at_mm/0"],`}, "/unmeasured/2", "once"},
		{"unmeasured ride", [2]string{`"version":1,`, `"version":1,"unmeasured":["height:ride/front_mm"],`}, "/unmeasured/0", "height:ride"},
		{"unmeasured number", [2]string{`"version":1,`, `"version":1,"unmeasured":[3],`}, "/unmeasured/0", "text"},
		{"joined to nobody", [2]string{`"version":1,`, `"version":1,"joined":[{"a":"ghost","b":"tank"}],`}, "/joined/0/a", `"ghost"`},
		{"joined twice", [2]string{`"version":1,`, `"version":1,"joined":[{"a":"wheel","b":"tank"},{"a":"tank","b":"wheel"}],`}, "/joined/1/b", "once"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			expectPlace(t, []byte(with(t, c.edit[0], c.edit[1])), c.place, c.says)
		})
	}
}

// expectPlace asserts that a file is refused at a place, in one line.
func expectPlace(t *testing.T, data []byte, place, says string) {
	t.Helper()
	_, err := Decode(data)
	var e *PlaceError
	if !errors.As(err, &e) {
		t.Fatalf("want a fault at %s, got %v", place, err)
	}
	if e.Place != place || !strings.Contains(e.Error(), says) {
		t.Errorf("want %s … %s, got %v", place, says, e)
	}
	if strings.ContainsAny(e.Error(), "\n\r") {
		t.Errorf("more than one line: %q", e.Error())
	}
}

func TestDecodeRefusesWhatIsNoText(t *testing.T) {
	expectPlace(t, nil, "", "end of the file")
	expectPlace(t, []byte("\xff\xfe{}"), "", "UTF-8")
	expectPlace(t, []byte(`"hello"`), "", "an object")
	expectPlace(t, []byte(`{"a\nb":1,"a\nb":2}`), `/a\nb`, "once")
}

func TestDecodeCapsWhatItReads(t *testing.T) {
	huge := append([]byte(small), make([]byte, MaxFileBytes)...)
	expectPlace(t, huge, "", "bytes")
	var many strings.Builder
	for i := 0; i <= MaxParts; i++ {
		many.WriteString(`{"id":"x","kind":"box"},`)
	}
	expectPlace(t, []byte(with(t, `"parts":[`, `"parts":[`+many.String())), "/parts", "5000")
	expectPlace(t, []byte(`{"a":[`+strings.Repeat("0,", maxValues)+`0]}`), "/a/1999998", "values")
	rows := strings.Repeat(`{"x_mm":1},`, 61)
	expectPlace(t, []byte(with(t, `"parts":[`, `"parts":[{"id":"run","kind":"exhaust_run","size":{"vertices":[`+rows[:len(rows)-1]+`]}},`)),
		"/parts/0/size/vertices", "at most 60 rows")
}

func TestTablesAreReadByColumn(t *testing.T) {
	text := with(t, `"parts":[`, `"parts":[{"id":"run","kind":"fuel_line","size":{"vertices":[{},{"z_mm":5,"x_mm":100,"bend_mm":0},{"x_mm":300,"y_mm":-7}]}},`)
	doc, err := Decode([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	want := []Row{{0, 0, 0, 40}, {100, 0, 5, 0}, {300, -7, 0, 40}}
	if got := doc.Parts[0].Size.Rows("vertices"); !reflect.DeepEqual(got, want) {
		t.Errorf("rows: %v, want %v", got, want)
	}
	bad := strings.Replace(text, `"y_mm":-7`, `"w_mm":-7`, 1)
	expectPlace(t, []byte(bad), "/parts/0/size/vertices/2/w_mm", "known field")
	far := strings.Replace(text, `"y_mm":-7`, `"y_mm":-7000`, 1)
	expectPlace(t, []byte(far), "/parts/0/size/vertices/2/y_mm", "from -3000 to 3000")
}

func TestValidateTellsWhatNoFileCanHold(t *testing.T) {
	cases := []struct {
		name  string
		edit  func(*Document)
		place string
	}{
		{"no number", func(d *Document) { d.Parts[0].AtMM[1] = math.NaN() }, "/parts/0/at_mm/1"},
		{"no end", func(d *Document) { d.Vehicle.WheelbaseMM = math.Inf(1) }, "/vehicle/wheelbase_mm"},
		{"no number in a size", func(d *Document) { d.Parts[0].Size["diameter_mm"] = Value{Num: math.NaN()} }, "/parts/0/size/diameter_mm"},
		{"field gone", func(d *Document) { delete(d.Parts[0].Size, "lies") }, "/parts/0/size/lies"},
		{"field too many", func(d *Document) { d.Parts[0].Size["zeal"] = Value{} }, "/parts/0/size/zeal"},
		{"no kind", func(d *Document) { d.Parts[0].Kind = "" }, "/parts/0/kind"},
		{"no text", func(d *Document) { d.Name = "\xff" }, "/name"},
		{"long name", func(d *Document) { d.Parts[0].Name = strings.Repeat("ä", 201) }, "/parts/0/name"},
		{"no tyre", func(d *Document) { d.Vehicle.Front.Tyre = Tyre{} }, "/vehicle/front/tyre/diameter_mm"},
		{"format", func(d *Document) { d.Format = "" }, "/format"},
		{"version", func(d *Document) { d.Version = 2 }, "/version"},
		{"short row", func(d *Document) {
			s := KindNamed("fuel_line").DefaultSize()
			s["vertices"] = Value{Rows: []Row{{0, 0, 0}, {1, 1, 1}}}
			d.Parts = append(d.Parts, Part{ID: "x", Kind: "fuel_line", Carrier: Body, Size: s})
		}, "/parts/2/size/vertices/0"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			doc, err := Decode([]byte(small))
			if err != nil {
				t.Fatal(err)
			}
			c.edit(doc)
			var e *PlaceError
			if err := doc.Validate(); !errors.As(err, &e) || e.Place != c.place {
				t.Errorf("want a fault at %s, got %v", c.place, err)
			}
		})
	}
}

// A document built in memory may spell things otherwise than a file does; the
// file is the same however it came about.
func TestEncodeIsCanonicalForDocumentsBuiltInMemory(t *testing.T) {
	doc := New()
	doc.Name = "Päckchen \"A\" <b> & \\ \u2028"
	doc.Vehicle.Rear.Tyre = Tyre{Code: " 225/45  r17"}
	doc.Parts[0].AtMM[1] = math.Copysign(0, -1)
	doc.Parts[0].Traits = []Trait{}
	fixedPoint(t, doc)
	if out := string(Encode(doc)); !strings.Contains(out, `{"code": "225/45 R17", "deflection_mm": 0}`) || !strings.Contains(out, `"Päckchen \"A\" <b> & \\ \u2028"`) {
		t.Error(out[:400])
	}
}

func BenchmarkEncode(b *testing.B) {
	doc := crowd()
	for b.Loop() {
		Encode(doc)
	}
}

func BenchmarkDecode(b *testing.B) {
	data := Encode(crowd())
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := Decode(data); err != nil {
			b.Fatal(err)
		}
	}
}

// crowd is a document with as many parts as there may be.
func crowd() *Document {
	doc := New()
	for i := 0; len(doc.Parts) < MaxParts; i++ {
		k := Kinds()[i%len(Kinds())]
		doc.Parts = append(doc.Parts, Part{ID: fmt.Sprint("part-", i), Name: k.Label, Kind: k.Name, Carrier: k.Carriers[0], Size: k.DefaultSize()})
	}
	return doc
}

// An editor's byte order mark is no fault, and is not written again.
func TestByteOrderMarkIsPassedOver(t *testing.T) {
	data := Encode(New())
	doc, err := Decode(append([]byte("\ufeff"), data...))
	if err != nil || string(Encode(doc)) != string(data) {
		t.Fatalf("a byte order mark changes the document: %v", err)
	}
}
