package app

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"scrubline/fitment"
	"scrubline/scene"
)

// length writes a length in the shown unit, without the unit's name, with a
// true minus sign.
func (a *App) length(mm float64) string {
	return strings.ReplaceAll(scene.FormatLength(mm, a.doc.Show), "-", "−")
}

// minus gives negative numbers in a sentence their true sign; hyphens in names
// stay.
func minus(s string) string {
	b := []rune(s)
	for i, r := range b {
		if r == '-' && i+1 < len(b) && unicode.IsDigit(b[i+1]) && (i == 0 || b[i-1] == ' ') {
			b[i] = '−'
		}
	}
	return string(b)
}

// measured writes a measured length: a tenth of a millimetre is as much as any
// tape tells.
func (a *App) measured(mm float64) string {
	if a.doc.Show != scene.Inches {
		mm = math.Round(mm*10) / 10
	}
	if mm == 0 {
		mm = 0 // not −0
	}
	return a.length(mm)
}

// level writes a height from ride with its sign: "+70", "0", "−50".
func (a *App) level(mm float64) string {
	s := a.measured(mm)
	if mm > 0 && s != "0" {
		return "+" + s
	}
	return s
}

// name is a part's name by id.
func (a *App) name(id string) string {
	if i := a.partIndex(id); i >= 0 {
		return a.doc.Parts[i].Name
	}
	return id
}

// plain is a part's name as it stands within a sentence.
func (a *App) plain(id string) string { return fitment.PlainName(a.name(id)) }

// pairName names two parts in one line.
func (a *App) pairName(x, y string) string {
	return fitment.BeginName(a.name(x)) + " and " + a.plain(y)
}

// lower is a name as it stands within a sentence; an abbreviation keeps its
// capitals.
func lower(name string) string {
	r, n := utf8.DecodeRuneInString(name)
	if second, _ := utf8.DecodeRuneInString(name[n:]); unicode.IsUpper(second) || unicode.IsDigit(second) {
		return name
	}
	return string(unicode.ToLower(r)) + name[n:]
}

// upper is a sentence with a capital first.
func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// gapWords is a signed gap in words. What is smaller than the unit shows is
// not rounded to a touch.
func (a *App) gapWords(gap float64) string {
	switch {
	case gap >= 0.001 && a.measured(gap) == "0":
		return "under " + a.length(a.finest()) + " apart"
	case gap >= 0.001:
		return a.measured(gap) + " apart"
	case a.measured(gap) == "0":
		return "touching"
	}
	return a.measured(-gap) + " deep"
}

// finest is the smallest length that is shown.
func (a *App) finest() float64 {
	if a.doc.Show == scene.Inches {
		return 25.4 / 16
	}
	return 0.1
}

// varies says whether a gap depends on the height by more than a tape tells.
func varies(gaps []float64) bool {
	if len(gaps) == 0 {
		return false
	}
	lo, hi := math.Inf(1), math.Inf(-1)
	for _, g := range gaps {
		lo, hi = math.Min(lo, g), math.Max(hi, g)
	}
	return hi-lo > 0.5
}

// heightWords is where the body stands now.
func (a *App) heightWords() string {
	one := func(mm float64) string {
		switch {
		case a.measured(mm) == "0":
			return "at ride"
		case mm < 0:
			return a.measured(-mm) + " below ride"
		}
		return a.measured(mm) + " above ride"
	}
	f, r := one(a.front), one(a.rear)
	if f == r {
		return upper(f)
	}
	return "Front " + a.level(a.front) + ", rear " + a.level(a.rear)
}

// count writes "1 pair", "2 pairs".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + many
}
