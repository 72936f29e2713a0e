package scene

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// in is 25.4 mm exactly (international yard and pound agreement, 1959).
const in = 25.4

// spellings are lengths as people write them and what they mean, mm; NaN is
// for what must be refused.
var spellings = []struct {
	text string
	show Units
	mm   float64
}{
	{"12 3/8", Inches, 12.375 * in},
	{"12-3/8", Inches, 12.375 * in},
	{"12.375", Inches, 12.375 * in},
	{"12,375 in", Inches, math.NaN()}, // a thousands separator?
	{"12,5", Inches, 12.5 * in},
	{`12 3/8"`, Inches, 12.375 * in},
	{`12 3/8"`, Millimetres, 12.375 * in},
	{"12 3/8 in", Millimetres, 12.375 * in},
	{"12 3/8in", Millimetres, 12.375 * in},
	{"12 3/8 in.", Millimetres, 12.375 * in},
	{"12 inches", Millimetres, 12 * in},
	{"1 inch", Millimetres, in},
	{"12 3/8IN", Millimetres, 12.375 * in},
	{"12.375″", Millimetres, 12.375 * in},
	{"12,5 in", Millimetres, 12.5 * in},
	{"12⅜", Inches, 12.375 * in},
	{"12⅜″", Millimetres, 12.375 * in},
	{"12 11/16", Inches, 12.6875 * in},
	{"12 3 / 8", Inches, 12.375 * in},
	{"12 6/16", Inches, 12.375 * in},
	{"⅞ in", Millimetres, 0.875 * in},
	{"1 ft 3/8 in", Millimetres, 12.375 * in},
	{"1 ft 3/8", Millimetres, 12.375 * in},
	{"1'⅜", Inches, 12.375 * in},
	{"12 mm.", Inches, 12},
	{"0,5", Millimetres, 0.5},
	{"12,75 cm", Inches, 127.5},
	{"12 ⅜", Inches, 12.375 * in},
	{"12-⅜", Inches, 12.375 * in},
	{"½", Inches, 0.5 * in},
	{"½ in", Millimetres, 0.5 * in},
	{"3/8", Inches, 0.375 * in},
	{"9/8", Inches, 1.125 * in},
	{"3⁄8", Inches, 0.375 * in},
	{"  7  ", Inches, 7 * in},
	{"7", Millimetres, 7},
	{"0", Inches, 0},
	{"-0", Inches, 0},
	{".5", Inches, 0.5 * in},
	{"5.", Inches, 5 * in},
	{"+5", Inches, 5 * in},
	{"-2 1/4", Inches, -2.25 * in},
	{"- 2 1/4", Inches, -2.25 * in},
	{"−2 1/4", Inches, -2.25 * in},
	{"−2¼", Inches, -2.25 * in},
	{"-1/16", Inches, -in / 16},
	{"1'", Inches, 12 * in},
	{"1'", Millimetres, 12 * in},
	{`1' 3/8"`, Inches, 12.375 * in},
	{`1' 3/8`, Millimetres, 12.375 * in},
	{`1'6"`, Inches, 18 * in},
	{`1' 6`, Inches, 18 * in},
	{`1'-6 1/2"`, Inches, 18.5 * in},
	{`1' - 6 1/2"`, Inches, 18.5 * in},
	{`1’ 6½”`, Inches, 18.5 * in},
	{`1′ 6½″`, Millimetres, 18.5 * in},
	{`-1' 6"`, Inches, -18 * in},
	{"5 ft 2 in", Millimetres, 62 * in},
	{"5ft2in", Millimetres, 62 * in},
	{"5 feet 2 inches", Inches, 62 * in},
	{"1.5 ft", Millimetres, 18 * in},
	{"1 1/2 ft", Inches, 18 * in},
	{"6''", Millimetres, 6 * in},
	{"314 mm", Inches, 314},
	{"314mm", Inches, 314},
	{"314.5 MM", Inches, 314.5},
	{"314,5 mm", Inches, 314.5},
	{"-314 mm", Inches, -314},
	{"3.5 cm", Inches, 35},
	{"3.5cm", Millimetres, 35},
	{"1.2 m", Inches, 1200},
	{"2 metres", Inches, math.NaN()},
	{"12 millimetres", Inches, 12},
	{"\u00a012 mm", Inches, 12},

	{"12 3/8 mm", Millimetres, math.NaN()},
	{"12 in 3/8", Inches, math.NaN()}, // the fraction comes before the mark
	{"12 ⅜ ⅜", Inches, math.NaN()},
	{"12 3/8 4", Inches, math.NaN()},
	{"3/8 12", Inches, math.NaN()},
	{"12:3", Inches, math.NaN()},
	{"12 mm 3/8 in", Inches, math.NaN()},
	{"1 ft 2 ft", Inches, math.NaN()},
	{"1' 11.5 mm", Inches, math.NaN()},
	{"∞", Inches, math.NaN()},
	{"twelve", Inches, math.NaN()},
	{"12 3/-8", Inches, math.NaN()},
	{"", Inches, math.NaN()},
	{"   ", Inches, math.NaN()},
	{"-", Inches, math.NaN()},
	{"abc", Inches, math.NaN()},
	{"12 3", Inches, math.NaN()},
	{"12 3/", Inches, math.NaN()},
	{"/8", Inches, math.NaN()},
	{"12 3/0", Inches, math.NaN()},
	{"12 9/8", Inches, math.NaN()},
	{"12.5 3/8", Inches, math.NaN()},
	{"1.5/2", Inches, math.NaN()},
	{"12 - 3/8", Inches, math.NaN()}, // a subtraction, or a mixed number?
	{"12 3/8", Millimetres, math.NaN()},
	{"½", Millimetres, math.NaN()},
	{"1/2 mm", Inches, math.NaN()},
	{"1' 14\"", Inches, math.NaN()},
	{"1' 5 mm", Inches, math.NaN()},
	{`6" 1'`, Inches, math.NaN()},
	{"5 mm 3", Inches, math.NaN()},
	{"--5", Inches, math.NaN()},
	{"5-", Inches, math.NaN()},
	{"1e3", Inches, math.NaN()},
	{"NaN", Inches, math.NaN()},
	{"Inf", Inches, math.NaN()},
	{"1.2.3", Inches, math.NaN()},
	{"1,000", Millimetres, math.NaN()},
	{"1'000", Millimetres, math.NaN()}, // a thousand to some, a foot to others
	{".", Inches, math.NaN()},
	{"5 furlongs", Inches, math.NaN()},
	{"5 $", Inches, math.NaN()},
	{"99999999", Millimetres, math.NaN()},
	{"0x10", Millimetres, math.NaN()},
	{"½½", Inches, math.NaN()},
	{"1/2/3", Inches, math.NaN()},
}

func TestParseLengthReadsWhatPeopleWrite(t *testing.T) {
	good, bad := 0, 0
	for _, c := range spellings {
		if math.IsNaN(c.mm) {
			bad++
		} else {
			good++
		}
		mm, err := ParseLength(c.text, c.show)
		if math.IsNaN(c.mm) {
			if err == nil {
				t.Errorf("%q with %s shown was read as %v mm", c.text, c.show, mm)
			}
			continue
		}
		if err != nil || math.Abs(mm-c.mm) > 1e-6 || math.Signbit(mm) && mm == 0 {
			t.Errorf("%q with %s shown: %v, %v; want %v", c.text, c.show, mm, err, c.mm)
		}
	}
	if good < 60 || bad < 30 {
		t.Errorf("only %d good and %d bad spellings", good, bad)
	}
}

func TestFormatLength(t *testing.T) {
	for _, c := range []struct {
		mm   float64
		show Units
		want string
	}{
		{12.375 * in, Inches, "12 3/8"},
		{-2.25 * in, Inches, "-2 1/4"},
		{in / 2, Inches, "1/2"},
		{-in / 16, Inches, "-1/16"},
		{12 * in, Inches, "12"},
		{0, Inches, "0"},
		{-0.3, Inches, "0"},
		{0.3, Inches, "0"},
		{in * 15.99 / 16, Inches, "1"},
		{in * 11.95, Inches, "11 15/16"},
		{314, Millimetres, "314"},
		{314.5, Millimetres, "314.5"},
		{314.26, Millimetres, "314.3"},
		{-0.04, Millimetres, "0"},
		{-12.5, Millimetres, "-12.5"},
		{1e6, Millimetres, "1000000"},
	} {
		if got := FormatLength(c.mm, c.show); got != c.want {
			t.Errorf("%v mm in %s: %q, want %q", c.mm, c.show, got, c.want)
		}
	}
}

// What is shown can be typed back: it is off by at most half a sixteenth or
// half a tenth of a millimetre, and shown again it reads the same.
func TestShownLengthsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := rapid.Float64Range(-20000, 20000).Draw(t, "mm")
		show := rapid.SampledFrom([]Units{Inches, Millimetres}).Draw(t, "show")
		text := FormatLength(mm, show)
		back, err := ParseLength(text, show)
		most := 0.05
		if show == Inches {
			most = 25.4 / 32
		}
		if err != nil || math.Abs(back-mm) > most+1e-6 || FormatLength(back, show) != text {
			t.Fatalf("%v mm shows as %q and reads back as %v, %v", mm, text, back, err)
		}
	})
}

// No text makes the reader panic or give what is no number.
func TestParseLengthTakesAnyText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.StringOf(rapid.SampledFrom([]rune("0123456789 ./-+'\"½⅜−infmcst,°×\n"))).Draw(t, "text")
		for _, show := range []Units{Inches, Millimetres} {
			if mm, err := ParseLength(text, show); err == nil && !(math.Abs(mm) <= 1e6) {
				t.Fatalf("%q is %v mm", text, mm)
			}
		}
	})
}

func TestParseAngle(t *testing.T) {
	for text, want := range map[string]float64{"3": 3, "-3.5°": -3.5, " − 3,5 ° ": -3.5, "+12": 12, "0": 0, "-0": 0} {
		if got, err := ParseAngle(text); err != nil || got != want || math.Signbit(got) && got == 0 {
			t.Errorf("%q: %v, %v", text, got, err)
		}
	}
	for _, text := range []string{"", "x", "--3", "3 3", "1e2", "°", "+-3", "NaN"} {
		if got, err := ParseAngle(text); err == nil {
			t.Errorf("%q was read as %v", text, got)
		}
	}
}
