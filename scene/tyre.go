package scene

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// millimetresPerInch is exact by definition.
const millimetresPerInch = 25.4

// tyreCode reads width (mm), aspect (%), and rim (in): 225/45R17, LT265/70R17,
// P235/75 R15, 245/45ZR18, 295/25R22.5, 225/45-17. Load and speed marks may follow.
var tyreCode = regexp.MustCompile(`^(?:P|LT|ST|T)?\s*([0-9]{2,3})\s*/\s*([0-9]{2,3})\s*(?:Z?R|B|D|-)?\s*F?\s*([0-9]{1,2}(?:\.[0-9])?)(?:LT|C)?(?:\s+[0-9A-Z/() ]*)?$`)

// oldTyre is a size of section width and rim alone, in inches or with the width
// in millimetres: 6.50-16, 6.00 x 16, 7.50R16, 165-13. So are sizes that name a
// nominal diameter first, 31x10.50R15, which a tyre may miss by an inch.
var oldTyre = regexp.MustCompile(`^(?:P|LT|ST|T)?\s*(?:[0-9]{2}(?:\.[0-9]{1,2})?\s*X\s*)?(?:[0-9]{1,2}\.[0-9]{1,2}|1[0-9][05])\s*(?:[-X×–−]|R)\s*(?:[89]|[1-3][0-9])(?:\.[0-9])?(?:LT|C)?(?:\s+[0-9A-Z/() ]*)?$`)

// isOldTyre says whether a text is such a size.
func isOldTyre(code string) bool { return len(code) <= 40 && oldTyre.MatchString(cleanTyre(code)) }

// cleanTyre is a code in capitals, with single spaces.
func cleanTyre(code string) string {
	return strings.ToUpper(strings.Join(strings.Fields(code), " "))
}

// errOldTyre says what to do with such a size.
func errOldTyre(code string) error {
	return fmt.Errorf("%s does not say how high the tyre stands: measure it across, standing free of load, and type that diameter", code)
}

// ParseTyre reads a metric tyre size code and works out its free dimensions:
//
//	outer diameter = 25.4·rim + 2·width·aspect/100
//
// The code is stored in capitals, with single spaces.
func ParseTyre(code string) (Tyre, error) {
	clean := cleanTyre(code)
	if isOldTyre(code) {
		return Tyre{}, errOldTyre(clean)
	}
	m := tyreCode.FindStringSubmatch(clean)
	if m == nil || len(clean) > 40 {
		return Tyre{}, fmt.Errorf("a tyre size looks like 225/45R17, not %s", quote(code))
	}
	width, _ := strconv.ParseFloat(m[1], 64)
	aspect, _ := strconv.ParseFloat(m[2], 64)
	rim, _ := strconv.ParseFloat(m[3], 64)
	if width < 75 || width > 500 || aspect < 15 || aspect > 100 || rim < 8 || rim > 40 {
		return Tyre{}, fmt.Errorf("a tyre size has a width of 75 to 500 mm, an aspect of 15 to 100 and a rim of 8 to 40 in, not %s", quote(code))
	}
	rim *= millimetresPerInch
	return Tyre{
		Code:       clean,
		WidthMM:    width,
		RimMM:      thousandths(rim),
		DiameterMM: thousandths(rim + float64(2*width*aspect)/100),
	}, nil
}

// thousandths drops what binary fractions add: a rim of 17 in is 431.8 mm.
func thousandths(v float64) float64 { return math.Round(v*1000) / 1000 }

// quote shows what was found, cut short where it is long.
func quote(text string) string {
	r := []rune(text)
	if len(r) > 40 {
		return strconv.Quote(string(r[:40]) + "…")
	}
	return strconv.Quote(text)
}

// numbers is t with its code, when it has one, worked out. A code that cannot
// be read leaves the plain numbers.
func (t Tyre) numbers() Tyre {
	if t.Code == "" {
		return t
	}
	read, err := ParseTyre(t.Code)
	if err != nil {
		return t
	}
	read.DeflectionMM = t.DeflectionMM
	return read
}

// Outer is the free outer diameter, mm.
func (t Tyre) Outer() float64 { return t.numbers().DiameterMM }

// Width is the nominal section width, mm.
func (t Tyre) Width() float64 { return t.numbers().WidthMM }

// Rim is the rim's nominal diameter, mm.
func (t Tyre) Rim() float64 { return t.numbers().RimMM }

// LoadedRadius is the height of the wheel centre over the ground, mm: half the
// free diameter less the deflection under load.
func (t Tyre) LoadedRadius() float64 { return t.Outer()/2 - t.DeflectionMM }
