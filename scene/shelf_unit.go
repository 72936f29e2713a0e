package scene

import (
	"errors"
	"math"
	"strconv"
	"strings"
)

// kgPerPound is exact by definition (international yard and pound agreement,
// 1959); an ounce is a sixteenth of it.
const kgPerPound = 0.45359237

// ParseMass reads a mass and returns kilograms: 12, 12.5 kg, 26 lb, 8 oz,
// 400 g. A bare number is in pounds where lengths are shown in inches.
func ParseMass(text string, show Units) (float64, error) {
	bad := errors.New("type a mass such as 12.5 kg or 27 lb")
	s := strings.ToLower(strings.TrimSpace(text))
	at := strings.IndexFunc(s, func(r rune) bool { return (r < '0' || r > '9') && r != '.' && r != ',' })
	unit := ""
	if at >= 0 {
		s, unit = s[:at], strings.TrimSuffix(strings.TrimSpace(s[at:]), ".")
	}
	v, err := decimal(strings.TrimSpace(s))
	if err != nil {
		return 0, bad
	}
	if unit == "" {
		unit = MassUnit(show)
	}
	factor, ok := map[string]float64{"kg": 1, "g": 0.001, "lb": kgPerPound, "lbs": kgPerPound, "oz": kgPerPound / 16}[unit]
	if !ok {
		return 0, bad
	}
	return math.Round(v*factor*1e6)/1e6 + 0, nil
}

// MassUnit is the unit masses are shown in beside lengths in show.
func MassUnit(show Units) string {
	if show == Inches {
		return "lb"
	}
	return "kg"
}

// FormatMass writes a mass to a hundredth of the shown unit, without it.
func FormatMass(kg float64, show Units) string {
	if show == Inches {
		kg /= kgPerPound
	}
	return strconv.FormatFloat(math.Round(kg*100)/100+0, 'f', -1, 64)
}

// ParseMoney reads an amount: 1250, 1250.50, 1,250.50, USD 1250.
func ParseMoney(text, currency string) (float64, error) {
	s := strings.TrimSpace(text)
	if currency != "" {
		s = strings.TrimSpace(strings.TrimSuffix(strings.TrimPrefix(s, currency), currency))
	}
	s = strings.TrimSpace(strings.Trim(s, "$€£¥ "))
	dot, comma := strings.LastIndexByte(s, '.'), strings.LastIndexByte(s, ',')
	if dot >= 0 && comma >= 0 { // the earlier of the two parts the thousands
		thousands := ","
		if dot < comma {
			thousands = "."
		}
		s = strings.ReplaceAll(s, thousands, "")
	}
	v, err := decimal(s)
	if err != nil {
		if strings.Contains(err.Error(), "two ways") {
			return 0, err
		}
		return 0, errors.New("type an amount such as 1250 or 89.90")
	}
	return cents(v), nil
}

// FormatMoney writes an amount: whole, or with two decimals.
func FormatMoney(v float64) string {
	if v == math.Trunc(v) {
		return strconv.FormatFloat(v+0, 'f', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', 2, 64)
}

// Money is an amount with the document's currency.
func (doc *Document) Money(v float64) string {
	if doc.Currency == "" {
		return FormatMoney(v)
	}
	return FormatMoney(v) + " " + doc.Currency
}
