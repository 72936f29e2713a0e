package scene

import (
	"bytes"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"pgregory.net/rapid"
)

func TestSchemaFile(t *testing.T) { golden(t, "schema.json", Schema()) }

// compiled is the schema ready to check, by a library that knows nothing of
// this package.
func compiled(t testing.TB) *jsonschema.Schema {
	t.Helper()
	tree, err := jsonschema.UnmarshalJSON(bytes.NewReader(Schema()))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("scene.json", tree); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("scene.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// accepts checks a file by the schema; a file that is no JSON is refused.
func accepts(s *jsonschema.Schema, data []byte) error {
	tree, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
	if err != nil {
		return err
	}
	return s.Validate(tree)
}

func TestSchemaTakesEveryShippedScene(t *testing.T) {
	s := compiled(t)
	for _, path := range shippedScenes(t) {
		data, err := os.ReadFile(path)
		if err == nil {
			err = accepts(s, data)
		}
		if err != nil {
			t.Errorf("%s: %v", path, err)
		}
	}
	if err := accepts(s, []byte(small)); err != nil {
		t.Error(err)
	}
}

// TestSchemaAndDecodeAgreeOnBrokenFiles: the schema refuses what a schema can
// express. What it cannot express it takes, unless the file is no JSON at all.
func TestSchemaAndDecodeAgreeOnBrokenFiles(t *testing.T) {
	s := compiled(t)
	for name, want := range brokenPlaces {
		data := read(t, "broken", name+".json")
		err := accepts(s, data)
		if want.schemaSees && err == nil {
			t.Errorf("%s: the schema takes it", name)
		}
		if _, noJSON := jsonschema.UnmarshalJSON(bytes.NewReader(data)); !want.schemaSees && noJSON == nil && err != nil {
			t.Errorf("%s: the schema does see it: %v", name, err)
		}
	}
}

// TestSchemaTakesWhatEncodeWrites on documents after random edits.
func TestSchemaTakesWhatEncodeWrites(t *testing.T) {
	s := compiled(t)
	rapid.Check(t, func(t *rapid.T) {
		doc := New()
		for range rapid.IntRange(1, 10).Draw(t, "edits") {
			if next, _, err := randomEdit(t, doc); err == nil {
				doc = next
			}
		}
		doc.Needs = append(doc.Needs, Need{Traits: [2]Trait{Air, Fuel}, NeedMM: 12})
		if err := accepts(s, Encode(doc)); err != nil {
			t.Fatal(err)
		}
	})
}

// TestSchemaAndDecodeAgreeOnRanges puts one number of one kind anywhere, and
// asks both. Only what a kind's check refuses may differ.
func TestSchemaAndDecodeAgreeOnRanges(t *testing.T) {
	s := compiled(t)
	taken, asked := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.SampledFrom(Kinds()).Draw(t, "kind")
		f := rapid.SampledFrom(k.Fields).Draw(t, "field")
		if f.Type != Length && f.Type != Angle {
			return
		}
		wide := f.Max - f.Min
		v := rapid.Float64Range(f.Min-wide, f.Max+wide).Draw(t, "value")
		part := fmt.Sprintf(`"parts":[{"id":"x","kind":%q,"size":{%q:%s}},`, k.Name, f.Name, number(v))
		data := []byte(strings.Replace(small, `"parts":[`, part, 1))
		_, err := Decode(data)
		in := v >= f.Min && v <= f.Max
		if refused := accepts(s, data) != nil; refused == in {
			t.Fatalf("%s %s = %v: in range %v, refused by the schema %v", k.Name, f.Name, v, in, refused)
		}
		if err == nil && !in {
			t.Fatalf("%s %s = %v was read", k.Name, f.Name, v)
		}
		asked++
		if in {
			taken++
		}
	})
	if taken*10 < asked || taken*10 > 9*asked {
		t.Errorf("%d of %d in range: the test asks only one side", taken, asked)
	}
}

// The pattern for tyre codes and the reader take the same texts.
func TestSchemaAndParseTyreAgree(t *testing.T) {
	s := compiled(t)
	for _, code := range []string{"225/45R17", "lt265/70r17", "P 235/75 R 15", "245/45zr18", " 225/45R17 ", "225/45 ZR17 (94Y)",
		"225/45-17", "235/65R16C", "295/80R22.5", "", "225", "225/45", "225-45", "31x10.50R15", "9999/45R17",
		"225/45R17; x", "XX225/45R17", "225//45R17", "225/45R17.55", "SLT225/45R17", "LTP225/45R17"} {
		data := []byte(strings.Replace(small, "225/45R17", code, 1))
		_, err := ParseTyre(code)
		if schema := accepts(s, data); (schema == nil) != (err == nil) {
			t.Errorf("%q: schema %v, reader %v", code, schema, err)
		}
	}
}
