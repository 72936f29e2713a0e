package scene

import (
	"os"
	"path/filepath"
	"testing"
)

// brokenPlaces says for every file in testdata/broken where its one fault is
// and which word the message must have. schemaSees tells that a JSON Schema
// can express the fault.
var brokenPlaces = map[string]struct {
	place, says string
	schemaSees  bool
}{
	"newer-version":           {"/version", "this one reads up to 1", true},
	"wrong-format":            {"/format", "scrubline-scene", true},
	"missing-vehicle":         {"/vehicle", "nothing", true},
	"unknown-field":           {"/colour", "known field", true},
	"unknown-kind":            {"/parts/0/kind", "air_balloon", true},
	"unknown-carrier":         {"/parts/0/carrier", "trailer", true},
	"unknown-choice":          {"/parts/0/size/lies", "askew", true},
	"unknown-trait":           {"/parts/0/traits/1", "shiny", true},
	"key-twice":               {"/parts/0/size/diameter_mm", "second time", false},
	"id-missing":              {"/parts/0/id", "nothing", true},
	"id-twice":                {"/parts/1/id", "/parts/0", false},
	"text-for-a-number":       {"/parts/0/size/diameter_mm", `"8 in"`, true},
	"number-overflows":        {"/parts/0/at_mm/0", "1e999", true},
	"negative-size":           {"/parts/0/size/diameter_mm", "-200", true},
	"out-of-reach":            {"/parts/0/at_mm/2", "150000", true},
	"tank-fields-disagree":    {"/parts/0/size/length_mm", "250", false},
	"bends-do-not-fit":        {"/parts/1/size/vertices/1/bend_mm", "1900", false},
	"muffler-beyond-the-end":  {"/parts/1/size/mufflers/0/start_mm", "1200", false},
	"row-field-unknown":       {"/parts/1/size/vertices/2/side_mm", "known field", true},
	"need-of-nobody":          {"/needs/0/parts/1", "battery", false},
	"joined-to-nobody":        {"/joined/0/a", "bracket", false},
	"group-of-nobody":         {"/groups/0/parts/1", "bracket", false},
	"measured-in-a-circle":    {"/parts/0/measured_from/0/part", "Air tank from Exhaust run from Air tank", false},
	"height-missing":          {"/heights", "ride", true},
	"ride-moved":              {"/heights/1/front_mm", "5", true},
	"tyre-code-unreadable":    {"/vehicle/front/tyre/code", "wide ones", true},
	"after-the-end":           {"", "more after the document", false},
	"photo-without-a-picture": {"/photos/0/base64", "found other bytes", false},
	"cut-off":                 {"/joined/0", "the end of the file", false},
	"bar-too-short":           {"/vehicle/rear/suspension/bars/4", "20 mm apart", false},
	"bar-missing":             {"/vehicle/rear/suspension/bars", "5 bars", true},
	"wishbones-on-an-axle":    {"/vehicle/front/suspension/kind", "double_wishbone", true},
	"tape-to-nobody":          {"/tapes/0/to/part", "rail", false},
	"tape-end-twice":          {"/tapes/0/from", "datum", true},
	"checked-on-no-day":       {"/checked/0/on", "25.11.2026", true},
	"unmeasured-nothing":      {"/unmeasured/1", "volume_l", false},
	"variant-does-not-hold":   {"/variants/1", "frame_height_mm", false},
	"variant-shown-of-nobody": {"/shown", "two", false},
	"shelf-state-unknown":     {"/shelf/0/state", "lost", true},
	"too-deep":                {"/joined/0/0/0/0/0/0/0/0/0/0/0", "levels", true},
}

func TestEveryBrokenFileGivesItsPlace(t *testing.T) {
	entries, err := os.ReadDir(filepath.Join("..", "testdata", "broken"))
	if err != nil {
		t.Fatal(err)
	}
	if len(entries) != len(brokenPlaces) {
		t.Errorf("%d files, %d expectations", len(entries), len(brokenPlaces))
	}
	for _, e := range entries {
		name := e.Name()[:len(e.Name())-len(filepath.Ext(e.Name()))]
		t.Run(name, func(t *testing.T) {
			want, ok := brokenPlaces[name]
			if !ok {
				t.Fatal("no expectation for this file")
			}
			expectPlace(t, read(t, "broken", e.Name()), want.place, want.says)
		})
	}
}
