package scene

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"
)

// errLength is what to type instead of what is no length.
var errLength = errors.New(`type a length such as 12 3/8, 1' 6", 314 mm or 3.5 cm`)

// ParseLength reads a length as people write it and returns millimetres:
//
//	12.375   12 3/8   12-3/8   12⅜   3/8      in the shown unit
//	12 3/8"  1' 3/8"  1'-6 1/2"  5 ft 2 in    inches and feet
//	314 mm   3.5 cm   1.2 m                   metric
//
// A sign may stand before it. A bare number is in the shown unit; a fraction
// without a unit is refused while millimetres are shown, because it was almost
// certainly meant in inches.
func ParseLength(text string, show Units) (float64, error) {
	toks, err := lengthTokens(text)
	if err != nil {
		return 0, err
	}
	p := lengthParser{toks: toks}
	sign := 1.0
	if p.take('-') {
		sign = -1
	} else {
		p.take('+')
	}
	mm, ok := p.length(show)
	switch {
	case p.err != nil:
		return 0, p.err
	case !ok || p.at < len(p.toks):
		return 0, errLength
	case mm > 1e6:
		return 0, errors.New("that is longer than a kilometre")
	}
	return math.Round(sign*mm*1e6)/1e6 + 0, nil
}

// token of a length: a number 'n', a vulgar fraction 'f', a unit 'u', or one
// of / - +. gap says that white space stands before it.
type lengthToken struct {
	kind  rune
	value float64
	text  string
	gap   bool
}

// vulgar are the fractions that are single characters.
var vulgar = map[rune]float64{
	'½': 1.0 / 2, '⅓': 1.0 / 3, '⅔': 2.0 / 3, '¼': 1.0 / 4, '¾': 3.0 / 4, '⅛': 1.0 / 8, '⅜': 3.0 / 8, '⅝': 5.0 / 8, '⅞': 7.0 / 8,
}

// units of length as they are written, to the one way they are handled.
var unitWords = map[string]string{
	"mm": "mm", "cm": "cm", "m": "m", "millimetre": "mm", "millimetres": "mm", "millimeter": "mm", "millimeters": "mm",
	`"`: "in", "in": "in", "inch": "in", "inches": "in", "'": "ft", "ft": "ft", "foot": "ft", "feet": "ft",
}

// alike gives typographic characters their plain form.
var alike = strings.NewReplacer("\u2212", "-", "\u2013", "-", "\u2010", "-", "\u2011", "-", "\u2044", "/", "\u2215", "/",
	"\u2032", "'", "\u2019", "'", "\u2018", "'", "\u2033", `"`, "\u201d", `"`, "\u201c", `"`, "''", `"`)

func lengthTokens(text string) ([]lengthToken, error) {
	if len(text) > 100 {
		return nil, errLength
	}
	r := []rune(strings.ToLower(alike.Replace(alike.Replace(text))))
	var toks []lengthToken
	gap := false
	for i := 0; i < len(r); {
		c, start := r[i], i
		tok := lengthToken{kind: c, gap: gap}
		switch {
		case unicode.IsSpace(c):
			gap = true
			i++
			continue
		case c >= '0' && c <= '9' || c == '.' || c == ',':
			for i < len(r) && (r[i] >= '0' && r[i] <= '9' || r[i] == '.' || r[i] == ',') {
				i++
			}
			v, err := decimal(string(r[start:i]))
			if err != nil {
				return nil, err
			}
			tok.kind, tok.value, tok.text = 'n', v, string(r[start:i])
		case vulgar[c] > 0:
			i++
			tok.kind, tok.value = 'f', vulgar[c]
		case c == '/' || c == '-' || c == '+':
			i++
		default:
			i++
			for unicode.IsLetter(c) && i < len(r) && unicode.IsLetter(r[i]) {
				i++
			}
			word := unitWords[string(r[start:i])]
			if word == "" {
				return nil, errLength
			}
			if i < len(r) && r[i] == '.' && unicode.IsLetter(c) && (i+1 == len(r) || !unicode.IsDigit(r[i+1])) {
				i++ // "in." is an abbreviation
			}
			tok.kind, tok.text = 'u', word
		}
		toks = append(toks, tok)
		gap = false
	}
	return toks, nil
}

// decimal reads digits with one decimal point or comma. A comma before three
// digits might be a thousands separator, and is refused.
func decimal(s string) (float64, error) {
	marks := strings.Count(s, ".") + strings.Count(s, ",")
	if marks > 1 || len(s) == marks || strings.Trim(s, "0123456789.,") != "" {
		return 0, errLength
	}
	if i := strings.IndexByte(s, ','); i >= 0 && len(s)-i == 4 {
		return 0, fmt.Errorf("%s could be read two ways: write a point for the decimals and nothing for the thousands", quote(s))
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil {
		return 0, errLength
	}
	return v, nil
}

// lengthParser walks over the tokens.
type lengthParser struct {
	toks []lengthToken
	at   int
	err  error
}

func (p *lengthParser) peek(ahead int) lengthToken {
	if p.at+ahead < len(p.toks) {
		return p.toks[p.at+ahead]
	}
	return lengthToken{}
}

func (p *lengthParser) take(kind rune) bool {
	if p.peek(0).kind != kind {
		return false
	}
	p.at++
	return true
}

// unit takes a unit, or gives "".
func (p *lengthParser) unit() string {
	t := p.peek(0)
	if t.kind != 'u' {
		return ""
	}
	p.at++
	return t.text
}

// length reads feet and inches, or one number with or without a unit.
func (p *lengthParser) length(show Units) (mm float64, ok bool) {
	v, fraction, ok := p.mixed()
	if !ok {
		return 0, false
	}
	switch u := p.unit(); u {
	case "mm", "cm", "m":
		if fraction {
			p.err = errors.New("write metric lengths with a decimal point: fractions are for inches and feet")
		}
		return v * map[string]float64{"mm": 1, "cm": 10, "m": 1000}[u], true
	case "in":
		return v * millimetresPerInch, true
	case "ft":
		in, ok := p.inchesAfterFeet()
		return (float64(v*12) + in) * millimetresPerInch, ok
	}
	if show == Inches {
		return v * millimetresPerInch, true
	}
	if fraction {
		p.err = errors.New(`a fraction needs its unit here: write 12 3/8" or 12 3/8 in`)
	}
	return v, true
}

// inchesAfterFeet reads what may follow feet: inches with or without their mark.
func (p *lengthParser) inchesAfterFeet() (in float64, ok bool) {
	if p.at == len(p.toks) {
		return 0, true
	}
	p.take('-')
	if t := p.peek(0); t.kind == 'n' && len(t.text) > 2 && !strings.ContainsAny(t.text, ".,") {
		p.err = errors.New("after feet, the inches must be less than 12") // 1'000 is a thousand to some
		return 0, false
	}
	in, _, ok = p.mixed()
	if u := p.unit(); u != "" && u != "in" {
		return 0, false
	}
	if in >= 12 {
		p.err = errors.New("after feet, the inches must be less than 12")
	}
	return in, ok
}

// mixed reads a decimal, a fraction, or a whole number and a fraction.
func (p *lengthParser) mixed() (v float64, fraction, ok bool) {
	first := p.peek(0)
	if first.kind == 'f' || first.kind == 'n' && p.peek(1).kind == '/' {
		v, ok = p.fraction()
		return v, true, ok
	}
	if !p.take('n') {
		return 0, false, false
	}
	next, mark := p.peek(0), p.at
	if next.kind == '-' && !next.gap && !p.peek(1).gap {
		p.at++
		next = p.peek(0)
	}
	if next.kind == 'f' || next.kind == 'n' && p.peek(1).kind == '/' {
		part, ok := p.fraction()
		whole := !strings.ContainsAny(first.text, ".,")
		return first.value + part, true, ok && whole && part < 1
	}
	p.at = mark
	return first.value, false, true
}

// fraction reads 3/8 or ⅜.
func (p *lengthParser) fraction() (v float64, ok bool) {
	top := p.peek(0)
	p.at++
	if top.kind == 'f' {
		return top.value, true
	}
	p.at++ // the stroke
	bottom := p.peek(0)
	if !p.take('n') || strings.ContainsAny(top.text+bottom.text, ".,") || bottom.value == 0 {
		return 0, false
	}
	return top.value / bottom.value, true
}

// FormatLength shows millimetres in a unit, without its mark: inches to the
// nearest sixteenth (12 3/8), millimetres to the nearest tenth (314.5).
func FormatLength(mm float64, show Units) string {
	if show != Inches {
		return strconv.FormatFloat(math.Round(mm*10)/10+0, 'f', -1, 64)
	}
	n := math.Round(math.Abs(mm) / millimetresPerInch * 16)
	sign := ""
	if mm < 0 && n > 0 {
		sign = "-"
	}
	whole, rest, below := math.Floor(n/16), int(math.Mod(n, 16)), 16
	for rest > 0 && rest%2 == 0 {
		rest, below = rest/2, below/2
	}
	switch {
	case rest == 0:
		return sign + strconv.FormatFloat(whole, 'f', -1, 64)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, rest, below)
	}
	return fmt.Sprintf("%s%s %d/%d", sign, strconv.FormatFloat(whole, 'f', -1, 64), rest, below)
}

// ParseAngle reads degrees: -3.5, 3,5 or 12°.
func ParseAngle(text string) (float64, error) {
	s := strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(alike.Replace(text)), "°"))
	neg := strings.HasPrefix(s, "-")
	v, err := decimal(strings.TrimSpace(strings.TrimLeft(s, "+-")))
	if err != nil || strings.Count(s, "-")+strings.Count(s, "+") > 1 {
		return 0, errors.New("type degrees such as 12.5")
	}
	if neg {
		v = -v
	}
	return v + 0, nil
}
