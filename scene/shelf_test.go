package scene

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

func money(v float64) *float64 { return &v }

// Sums by hand: placed 12.5 + 3 kg, one of three without; 180 + 95.5 placed and
// 40 ordered on the shelf, the 300 that is only wished for left out.
func TestTotalsByHand(t *testing.T) {
	doc := set(t, New(), "scene", "show", "mm")
	doc.Parts, doc.Joined = nil, nil
	for _, kind := range []string{"battery", "air_tank", "box"} {
		doc = add(t, doc, kind, Vec{})
	}
	for _, e := range [][3]string{
		{"scene", "currency", "USD"}, {"scene", "budget", "USD 300"},
		{"part:battery", "mass_kg", "12.5"}, {"part:battery", "price", "180"}, {"part:battery", "state", "to_order"},
		{"part:air-tank", "mass_kg", "3 kg"}, {"part:air-tank", "price", "95.5"}, {"part:air-tank", "state", "on_hand"},
	} {
		doc = set(t, doc, e[0], e[1], e[2])
	}
	for _, kind := range []string{"compressor", "seat", "booster"} {
		doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return AddToShelf(d, kind) })
	}
	for _, e := range [][3]string{
		{"shelf:compressor", "price", "40"}, {"shelf:compressor", "state", "ordered"}, {"shelf:compressor", "name", "Small pump"},
		{"shelf:seat", "price", "300"}, {"shelf:" + doc.Shelf[2].ID, "state", "to_order"},
	} {
		doc = set(t, doc, e[0], e[1], e[2])
	}
	fixedPoint(t, doc)
	s := doc.Totals()
	if s.Parts != 3 || s.MassKG != 15.5 || s.NoMass != 1 || s.Cost != 315.5 || s.NoPrice != 1 || s.OnShelf != 3 {
		t.Errorf("%+v", s)
	}
	if s.OrderSum != 180 || s.NoOrder != 1 || len(s.Order) != 2 || !s.Order[1].Shelf {
		t.Errorf("%+v", s)
	}
	want := "Still to order: New vehicle\n- Battery: 180 USD\n- " + doc.Shelf[2].Name + ": no price\nTogether: 180 USD, 1 without a price\n"
	if got := doc.OrderText(); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

// Off the shelf into the scene and back: it is one thing all the way, as it was
// last known.
func TestFromTheShelfAndBack(t *testing.T) {
	doc, label := edited(t, New(), func(d *Document) (*Document, string, error) { return AddToShelf(d, "battery") })
	if label != "put Battery on the shelf" || len(doc.OnShelf()) != 1 {
		t.Error(label, doc.Shelf)
	}
	doc = set(t, doc, "shelf:battery", "case", "bci_27")
	doc, label = edited(t, doc, func(d *Document) (*Document, string, error) { return PlaceFromShelf(d, "battery", Vec{600, 0, 100}) })
	if label != "placed Battery from the shelf" || newest(doc).ID != "battery" || newest(doc).Size.Text("case") != "bci_27" {
		t.Error(label, newest(doc))
	}
	if doc.OnShelf() != nil {
		t.Error("it still lies on the shelf")
	}
	if _, _, err := PlaceFromShelf(doc, "battery", Vec{}); err == nil || !strings.Contains(err.Error(), "placed already") {
		t.Error(err)
	}
	doc = add(t, doc, "battery", Vec{})
	if id := newest(doc).ID; id != "battery-2" {
		t.Errorf("a new one took the id %s", id)
	}
	doc = set(t, set(t, doc, "part:battery", "price", "99"), "part:battery", "state", "fitted")
	doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return RemovePart(d, "battery") })
	back := doc.OnShelf()
	if len(back) != 1 || *back[0].Price != 99 || back[0].State != OnHand || back[0].AtMM != (Vec{}) {
		t.Errorf("%+v", back)
	}
	fixedPoint(t, doc)
	doc, _ = edited(t, doc, func(d *Document) (*Document, string, error) { return RemoveFromShelf(d, "battery") })
	if len(doc.Shelf) != 0 {
		t.Error(doc.Shelf)
	}
}

// A copy on the shelf is a thing of its own: nobody has said that it is there.
func TestACopyOnTheShelf(t *testing.T) {
	doc := add(t, New(), "air_spring", Vec{2800, 300, 300})
	doc = set(t, set(t, doc, "part:air-spring", "state", "fitted"), "part:air-spring", "mass_kg", "3.5 kg")
	doc, label := edited(t, doc, func(d *Document) (*Document, string, error) { return KeepOnShelf(d, "air-spring") })
	if label != "kept a copy of Air spring on the shelf" {
		t.Error(label)
	}
	on := doc.OnShelf()
	if len(on) != 1 || on[0].ID == "air-spring" || on[0].State != "" || *on[0].MassKG != 3.5 {
		t.Fatalf("%+v", on)
	}
	twice, _ := edited(t, doc, func(d *Document) (*Document, string, error) { return DuplicatePart(d, "air-spring") })
	if newest(twice).State != ToOrder {
		t.Errorf("a second one has to be got: %q", newest(twice).State)
	}
}

func TestMassAsPeopleWriteIt(t *testing.T) {
	for _, row := range []struct {
		text string
		show Units
		kg   float64
		back string
	}{
		// 1 lb = 0.45359237 kg, 1 oz = lb/16 (international yard and pound agreement, 1959)
		{"12.5", Millimetres, 12.5, "12.5"}, {"27", Inches, 12.246994, "27"}, {"27 lb", Millimetres, 12.246994, "12.25"},
		{"8 oz", Inches, 0.226796, "0.5"}, {"400 g", Millimetres, 0.4, "0.4"}, {"1,5 kg", Inches, 1.5, "3.31"},
	} {
		kg, err := ParseMass(row.text, row.show)
		if err != nil || math.Abs(kg-row.kg) > 5e-7 || FormatMass(kg, row.show) != row.back {
			t.Errorf("%s: %v %v, shown as %s", row.text, kg, err, FormatMass(kg, row.show))
		}
	}
	for _, bad := range []string{"heavy", "-3", "3 stone", "1.2.3", "kg"} {
		if kg, err := ParseMass(bad, Millimetres); err == nil {
			t.Errorf("%q is %v kg", bad, kg)
		}
	}
}

func TestMoneyAsPeopleWriteIt(t *testing.T) {
	for text, want := range map[string]float64{
		"1250": 1250, "1250.5": 1250.5, "1,250.50": 1250.5, "1.250,50": 1250.5, "USD 89.9": 89.9, "89,90 USD": 89.9, "$12": 12, "0.005": 0.01,
	} {
		if v, err := ParseMoney(text, "USD"); err != nil || v != want {
			t.Errorf("%s: %v %v", text, v, err)
		}
	}
	for _, bad := range []string{"1,250", "a lot", "-5", "", "1.2.3"} {
		if v, err := ParseMoney(bad, "USD"); err == nil {
			t.Errorf("%q is %v", bad, v)
		}
	}
	if got := FormatMoney(12.5) + " " + FormatMoney(12); got != "12.50 12" {
		t.Error(got)
	}
}

func TestStockIsRefusedInOneSentence(t *testing.T) {
	doc := add(t, New(), "battery", Vec{})
	for field, text := range map[string]string{"state": "lost", "mass_kg": "30000 kg", "price": "cheap"} {
		if _, _, err := SetField(doc, "part:battery", field, text); err == nil || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", field, err)
		}
	}
	doc.Parts[len(doc.Parts)-1].Price = money(-1)
	expectPlace(t, Encode(doc), fmt.Sprintf("/parts/%d/price", len(doc.Parts)-1), "-1")
}
