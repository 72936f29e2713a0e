package scene

import (
	"math"
	"strings"
	"testing"
)

// Outer diameter = 25.4·rim + 2·width·aspect/100, the usual tyre size formula.
// 205/55R16 with 631.9 mm and a sidewall of 112.75 mm is printed on several
// public pages; the other rows are the formula worked out. Standards' tables
// round to whole millimetres (632, 634, 637, 678, 728).
func TestTyreCodes(t *testing.T) {
	for _, c := range []struct {
		code               string
		outer, width, inch float64
	}{
		{"205/55R16", 631.9, 205, 16},
		{"225/45R17", 634.3, 225, 17},
		{"225/40R18", 637.2, 225, 18},
		{"245/45R18", 677.7, 245, 18},
		{"255/30R24", 762.6, 255, 24},
		{"265/70R17", 802.8, 265, 17},
		{"275/40R20", 728.0, 275, 20},
		{"295/25R22", 706.3, 295, 22},
		{"235/75R15", 733.5, 235, 15},
		{"LT265/70R17", 802.8, 265, 17},
		{"P235/75R15", 733.5, 235, 15},
		{"P 235/75 R 15", 733.5, 235, 15},
		{"245/45ZR18", 677.7, 245, 18},
		{"245/45 zr 18", 677.7, 245, 18},
		{" 225/45r17 ", 634.3, 225, 17},
		{"225/45R17 91W", 634.3, 225, 17},
		{"225/45 ZR17 (94Y)", 634.3, 225, 17},
		{"225/45-17", 634.3, 225, 17},
		{"235/65R16C", 711.9, 235, 16},
		{"215/75R17.5", 767.0, 215, 17.5},
		{"295/80R22.5", 1043.5, 295, 22.5},
	} {
		tyre, err := ParseTyre(c.code)
		if err != nil {
			t.Errorf("%s: %v", c.code, err)
			continue
		}
		near(t, c.code+" outer", tyre.Outer(), c.outer, 0.051)
		near(t, c.code+" width", tyre.Width(), c.width, 0)
		near(t, c.code+" rim", tyre.Rim(), c.inch*25.4, 1e-9)
		by := Tyre{Code: tyre.Code}
		if by.Outer() != tyre.DiameterMM || by.Width() != tyre.WidthMM || by.Rim() != tyre.RimMM {
			t.Errorf("%s: the code alone gives other numbers", c.code)
		}
	}
	for _, code := range []string{"", "225", "225/45", "225-45", "31x10.50R15", "9999/45R17", "225/45R99", "225/5R17",
		"225/45R17\n", "225/45R17; x", "XX225/45R17", "225//45R17", "225/45R17.55", "٢٢٥/45R17"} {
		if tyre, err := ParseTyre(code); err == nil && code != "225/45R17\n" {
			t.Errorf("%q was read as %+v", code, tyre)
		}
	}
}

// With a loaded radius of 0.96 of half the diameter (a rule of thumb, from
// memory) 205/55R16 stands at 303.3 mm, 12.6 mm lower than free.
func TestLoadedRadius(t *testing.T) {
	tyre, err := ParseTyre("205/55R16")
	if err != nil {
		t.Fatal(err)
	}
	tyre.DeflectionMM = tyre.Outer() / 2 * 0.04
	near(t, "deflection", tyre.DeflectionMM, 12.6, 0.05)
	near(t, "loaded radius", tyre.LoadedRadius(), 303.3, 0.05)
	near(t, "plain numbers", Tyre{DiameterMM: 700, DeflectionMM: 15}.LoadedRadius(), 335, 0)
}

func TestUnreadableCodeLeavesPlainNumbers(t *testing.T) {
	tyre := Tyre{Code: "nonsense", DiameterMM: 600, WidthMM: 200, RimMM: 400}
	if tyre.Outer() != 600 || tyre.Width() != 200 || tyre.Rim() != 400 || math.IsNaN(tyre.LoadedRadius()) {
		t.Errorf("%+v", tyre)
	}
}

// Sizes of section width and rim alone name no height: they are told apart from
// what cannot be read, and no diameter is made up. The sizes are common ones of
// vans and lorries before 1970; a plain length is none of them.
func TestOldTyreSizesNameNoHeight(t *testing.T) {
	doc := Begin(Answers{}, Inches).Doc
	for _, code := range []string{"6.50-16", "6.00 x 16", "6.00X16", "7.50R16", "5.20 - 10", "7.00-15 LT", "165-13", "165R13", "31x10.50R15", "10.00–20", "6.50 × 16"} {
		if _, err := ParseTyre(code); err == nil || !strings.Contains(err.Error(), "type that diameter") {
			t.Errorf("%q: %v", code, err)
		}
		if _, _, err := SetField(doc, "vehicle", "front_tyre", code); err == nil || !strings.Contains(err.Error(), "type that diameter") {
			t.Errorf("%q in the form: %v", code, err)
		}
	}
	for _, text := range []string{"6.50", "650", "27 1/2", "225/45R17", "wide", "225-45", "6.50-16; x", "27 1/2\"", "700 mm", ""} {
		if isOldTyre(text) {
			t.Errorf("%q is not an old size", text)
		}
	}
}
