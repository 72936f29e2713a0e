package scene

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// fixedPoint asserts what holds for every document that was read: it
// validates, and saved, opened and saved again it is the same bytes.
func fixedPoint(t rapidOrTest, doc *Document) {
	t.Helper()
	if err := doc.Validate(); err != nil {
		t.Fatalf("it was read, yet: %v", err)
	}
	once := Encode(doc)
	again, err := Decode(once)
	if err != nil {
		t.Fatalf("saved, it does not open: %v\n%s", err, once)
	}
	if twice := Encode(again); !bytes.Equal(once, twice) {
		t.Fatalf("saved twice it differs:\n%s\n%s", once, twice)
	}
}

// FuzzDecode: any bytes give a PlaceError of one line, or a document that
// holds, whose parts can be built.
func FuzzDecode(f *testing.F) {
	for _, folder := range []string{"scenes", "broken"} {
		paths, err := filepath.Glob(filepath.Join("..", "testdata", folder, "*.json"))
		if err != nil || len(paths) == 0 {
			f.Fatalf("no seeds in testdata/%s", folder)
		}
		for _, path := range paths {
			data, err := os.ReadFile(path)
			if err != nil {
				f.Fatal(err)
			}
			f.Add(data)
		}
	}
	f.Add([]byte(small))
	f.Add(Encode(withTape(f)))
	f.Add(Encode(Unanswered()))
	f.Add(Encode(withPhotos(f)))
	for _, k := range SuspensionKinds() {
		f.Add(Encode(onSuspension(f, k.Name, "front")))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := Decode(data)
		if err != nil {
			var e *PlaceError
			if !errors.As(err, &e) || strings.ContainsAny(err.Error(), "\n\r") {
				t.Fatalf("not one line with a place: %q", err)
			}
			return
		}
		fixedPoint(t, doc)
		for i := range doc.Parts {
			p := &doc.Parts[i]
			k := KindNamed(p.Kind)
			if shapes := k.Form(p.Size, &doc.Vehicle, p.Carrier); len(shapes) > 0 || !k.Derived {
				sound(t, p.ID, shapes)
			}
		}
	})
}

// TestSaveOpenSave on documents with drawn sizes and after random edits.
func TestSaveOpenSave(t *testing.T) {
	parts := 0
	photos := somePhotos(t)
	rapid.Check(t, func(t *rapid.T) {
		doc := New()
		doc.Photos = append([]Photo(nil), photos[:rapid.IntRange(0, 2).Draw(t, "photos")]...)
		for range rapid.IntRange(0, 6).Draw(t, "parts") {
			k := rapid.SampledFrom(Kinds()).Draw(t, "kind")
			s := drawSize(t, k)
			if k.Check != nil && k.Check(s) != nil {
				continue
			}
			tol := rapid.Float64Range(0, 100).Draw(t, "tolerance")
			p := Part{ID: doc.freeID(k.Label), Name: rapid.StringMatching(`[ -~äß漢]{0,20}`).Draw(t, "name"), Kind: k.Name,
				Carrier: k.Carriers[0], Size: s, ToleranceMM: &tol, Traits: []Trait{Fuel},
				AtMM: Vec{rapid.Float64Range(-20000, 20000).Draw(t, "x"), 0, 1e-9}}
			doc.Parts = append(doc.Parts, p)
			parts++
		}
		fixedPoint(t, doc)
		again, err := Decode(Encode(doc))
		if err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(doc, again) {
			t.Fatal("opened, it is another document")
		}
		for range rapid.IntRange(0, 5).Draw(t, "edits") {
			if next, _, err := randomEdit(t, doc); err == nil {
				doc = next
			}
		}
		fixedPoint(t, doc)
	})
	if parts < 50 {
		t.Errorf("only %d parts were drawn", parts)
	}
}
