package scene

import (
	"bytes"
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// onSuspension is the new vehicle with one end on the template of a kind.
func onSuspension(t testing.TB, kind, end string) *Document {
	t.Helper()
	return set(t, New(), "vehicle", end+"/suspension/kind", kind)
}

// Every kind's template is valid at both ends of vehicles of every size, has a
// bar for each of the kind's, reads back as it was written, and is taken by the
// schema.
func TestSuspensionTemplates(t *testing.T) {
	s := compiled(t)
	rapid.Check(t, func(t *rapid.T) {
		doc := New()
		v := &doc.Vehicle
		v.WheelbaseMM = rapid.Float64Range(1800, 6000).Draw(t, "wheelbase")
		v.Front.TrackMM = rapid.Float64Range(900, 2200).Draw(t, "front track")
		v.Rear.TrackMM = rapid.Float64Range(900, 2200).Draw(t, "rear track")
		for _, k := range SuspensionKinds() {
			for _, end := range []string{"front", "rear"} {
				d, label, err := SetField(doc, "vehicle", end+"/suspension/kind", k.Name)
				if err != nil || label != "changed the vehicle" {
					t.Fatalf("%s %s: %v", end, k.Name, err)
				}
				e := d.Vehicle.Front
				if end == "rear" {
					e = d.Vehicle.Rear
				}
				if e.Form() != k || k.Name != Guide && (e.Independent != k.Alone || len(e.Suspension.Bars) != len(k.Bars)) {
					t.Fatalf("%s %s: %+v", end, k.Name, e)
				}
				again, err := Decode(Encode(d))
				if err != nil || !reflect.DeepEqual(again, d) {
					t.Fatalf("%s %s is read as another document: %v", end, k.Name, err)
				}
				if err := accepts(s, Encode(d)); err != nil {
					t.Fatal(err)
				}
			}
		}
	})
}

// Templates lie the same way round on both sides: every bar of an axle's kind
// but what crosses the vehicle has its mirror image among the others.
func TestTemplatesAreTwoSided(t *testing.T) {
	for _, k := range SuspensionKinds() {
		s := SuspensionTemplate(k.Name, &New().Vehicle, "rear")
		if s == nil || k.Alone {
			continue
		}
		lone := 0
		for _, b := range s.Bars {
			m := b
			m.BodyMM[1], m.CarriedMM[1] = -m.BodyMM[1]+0, -m.CarriedMM[1]+0
			found := false
			for _, o := range s.Bars {
				found = found || o.BodyMM == m.BodyMM && o.CarriedMM == m.CarriedMM
			}
			if !found {
				lone++
			}
		}
		want := map[string]int{FourLinkPanhard: 1, BeamAxle: 1, TrailingArms: 1, FourLinkWatts: 2}[k.Name]
		if lone != want {
			t.Errorf("%s: %d bars without a mirror image, want %d", k.Name, lone, want)
		}
	}
	if SuspensionTemplate("sledge", &New().Vehicle, "rear") != nil || SuspensionTemplate(Guide, &New().Vehicle, "rear") != nil {
		t.Error("a template of nothing")
	}
}

// A file without suspensions is written as it ever was, and one that says
// "guide" is such a file.
func TestAPlainGuideIsNotWritten(t *testing.T) {
	doc := New()
	if bytes.Contains(Encode(doc), []byte("suspension")) {
		t.Error("a guide is in the file")
	}
	file := strings.Replace(string(Encode(doc)), `"cross_mm": 0`, `"cross_mm": 0, "suspension": {"kind": "guide", "bars": []}`, 1)
	again, err := Decode([]byte(file))
	if err != nil || !bytes.Equal(Encode(again), Encode(doc)) {
		t.Errorf("%v", err)
	}
	if again.Vehicle.Front.Form().Name != Guide {
		t.Error("it is no guide")
	}
}

func TestSuspensionFieldsAreSet(t *testing.T) {
	doc := onSuspension(t, FourLinkWatts, "rear")
	bar := func(d *Document, i int) SuspensionBar { return d.Vehicle.Rear.Suspension.Bars[i] }
	before := bar(doc, 0)
	d := set(t, doc, "vehicle", "rear/suspension/bars/0/body_mm/1", "-15 1/2")
	if got := bar(d, 0).BodyMM[1]; math.Abs(got+393.7) > 1e-9 {
		t.Error(got)
	}
	if bar(doc, 0) != before {
		t.Error("the document before the edit was changed")
	}
	d = set(t, d, "vehicle", "rear/suspension/bars/2/carried_z", "4")
	d = set(t, d, "vehicle", "rear/suspension/bars/2/name", " Top left ")
	if b := bar(d, 2); math.Abs(b.CarriedMM[2]-101.6) > 1e-9 || b.Name != "Top left" {
		t.Errorf("%+v", b)
	}
	d = set(t, d, "vehicle", "rear/suspension/kind", FourLinkWatts)
	if bar(d, 2).Name != "Top left" {
		t.Error("choosing the kind it has put the template back")
	}
	if d = set(t, d, "vehicle", "rear/suspension/kind", DoubleWishbone); !d.Vehicle.Rear.Independent {
		t.Error("wishbones left the wheels joined")
	}
	if d = set(t, d, "vehicle", "rear/independent", "no"); d.Vehicle.Rear.Suspension != nil {
		t.Error("wishbones stayed on an axle")
	}
	d = set(t, set(t, d, "vehicle", "rear/suspension/kind", LeafSprings), "vehicle", "rear/suspension/kind", Guide)
	if d.Vehicle.Rear.Suspension != nil || d.Vehicle.Rear.Independent {
		t.Errorf("%+v", d.Vehicle.Rear)
	}
}

func TestSuspensionFieldsAreRefusedInOneSentence(t *testing.T) {
	doc := onSuspension(t, FourLinkWatts, "rear")
	b := doc.Vehicle.Rear.Suspension.Bars[0]
	for _, c := range []struct{ field, text, says string }{
		{"rear/suspension/kind", "sledge", "Rear suspension kind must be one of guide, four_link_panhard"},
		{"rear/suspension/crank", "roof", "Rear suspension crank must be axle or body."},
		{"rear/suspension/crank", "body", "ends of the crank"}, // the template's body ends are far apart: taken, see below
		{"rear/suspension/bars/0/body_mm/1", "900'", "Rear bar 1, body Y must be from"},
		{"rear/suspension/bars/5/carried_mm/2", "wide", "type a length"},
		{"rear/suspension/bars/6/body_mm/1", "5", "no field"},
		{"rear/suspension/bars/0/body_mm/3", "5", "no field"},
		{"rear/suspension/bars/0/colour", "5", "no field"},
		{"rear/suspension/bars", "5", "no field"},
		{"rear/suspension", "5", "no field"},
		{"front/suspension/bars/0/body_mm/1", "5", "no field"},
	} {
		out, _, err := SetField(doc, "vehicle", c.field, c.text)
		if c.text == "body" {
			if err != nil {
				t.Error(err)
			}
			continue
		}
		if err == nil || out != nil || strings.Contains(err.Error(), "\n") || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s %q: %v; want … %s", c.field, c.text, err, c.says)
		}
	}
	// One bar put onto another.
	d := doc
	for i := range b.BodyMM {
		d = set(t, d, "vehicle", fmt.Sprintf("rear/suspension/bars/1/body_mm/%d", i), fmt.Sprintf("%g mm", b.BodyMM[i]))
	}
	var err error
	for i := range b.CarriedMM {
		if err == nil {
			var next *Document
			if next, _, err = SetField(d, "vehicle", fmt.Sprintf("rear/suspension/bars/1/carried_mm/%d", i), fmt.Sprintf("%g mm", b.CarriedMM[i])); err == nil {
				d = next
			}
		}
	}
	if err == nil || err.Error() != "Rear bar 2 must be a bar of its own." {
		t.Error(err)
	}
}

// Decode tells the place of what a suspension may not be.
func TestSuspensionPlaces(t *testing.T) {
	rear := `"frame_height_mm":210`
	bars := func(n int) string {
		var rows []string
		for i := range n {
			rows = append(rows, fmt.Sprintf(`{"body_mm":[2400,%d,0],"carried_mm":[0,%d,0]}`, 100*i, 100*i))
		}
		return "[" + strings.Join(rows, ",") + "]"
	}
	for _, c := range []struct{ suspension, place, says string }{
		{`3`, "", "an object"},
		{`{}`, "/kind", "nothing"},
		{`{"kind":"sledge"}`, "/kind", "sledge"},
		{`{"kind":"strut","bars":` + bars(4) + `}`, "/kind", "triangulated_four_link"},
		{`{"kind":"four_link_panhard"}`, "/bars", "5 bars"},
		{`{"kind":"guide","bars":` + bars(1) + `}`, "/bars", "0 bars"},
		{`{"kind":"triangulated_four_link","crank":"axle","bars":` + bars(4) + `}`, "/crank", "no crank"},
		{`{"kind":"four_link_watts","crank":"roof","bars":` + bars(6) + `}`, "/crank", "axle or body"},
		{`{"kind":"triangulated_four_link","bars":[{"body_mm":[0,0,0]}]}`, "/bars/0/carried_mm", "nothing"},
		{`{"kind":"triangulated_four_link","bars":[{"body_mm":[0,0],"carried_mm":[0,0,0]}]}`, "/bars/0/body_mm", "three numbers"},
		{`{"kind":"triangulated_four_link","spring":1}`, "/spring", "known field"},
		{strings.Replace(`{"kind":"triangulated_four_link","bars":`+bars(4)+`}`, "[0,300,0]", "[0,9000,0]", 1), "/bars/3/carried_mm/1", "9000"},
		{strings.Replace(`{"kind":"triangulated_four_link","bars":`+bars(4)+`}`, "100", "0", 2), "/bars/1", "same as bar 1"},
	} {
		expectPlace(t, []byte(with(t, rear, rear+`,"suspension":`+c.suspension)), "/vehicle/rear/suspension"+c.place, c.says)
	}
	doc, err := Decode([]byte(with(t, rear, rear+`,"suspension":{"kind":"four_link_watts","bars":`+
		strings.Replace(bars(6), `"carried_mm":[0,500,0]`, `"carried_mm":[0,500,90]`, 1)+`}`)))
	if err != nil {
		t.Fatal(err)
	}
	if s := doc.Vehicle.Rear.Suspension; s.Crank != CrankOnAxle || s.Bars[4].Name != "Watt's link, left bar" {
		t.Errorf("%+v", s)
	}
}
