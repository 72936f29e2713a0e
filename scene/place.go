package scene

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// PlaceError is what is wrong with a document: where, what was expected there
// and what was found. It prints as one line.
type PlaceError struct {
	Place    string // JSON pointer (RFC 6901); empty for the file as a whole
	Expected string // empty when Got says it all
	Got      string

	// A number out of range also keeps the range, to be shown in another unit.
	inRange     bool
	least, most float64
	inside      error // what is wrong with a variant, as a sentence
}

func (e *PlaceError) Error() string {
	place := e.Place
	if place == "" {
		place = "the file"
	}
	if e.Expected == "" {
		return place + ": " + e.Got
	}
	return place + ": expected " + e.Expected + ", found " + e.Got
}

// below is the pointer to a member or an element under place.
func below(place string, step any) string {
	switch s := step.(type) {
	case int:
		return place + "/" + strconv.Itoa(s)
	case string:
		// A key out of a file may be as long as the file and hold anything.
		s = strings.ReplaceAll(strings.ReplaceAll(s, "~", "~0"), "/", "~1")
		if r := []rune(s); len(r) > 60 {
			s = string(r[:60]) + "…"
		}
		plain := strconv.Quote(s)
		return place + "/" + plain[1:len(plain)-1]
	}
	return place
}

// number shows a number the way the file does.
func number(v float64) string {
	switch {
	case math.IsNaN(v):
		return "no number"
	case math.IsInf(v, 0):
		return "a number too large to store"
	case v == 0:
		return "0"
	}
	if a := math.Abs(v); a < 1e-6 || a >= 1e21 {
		return strconv.FormatFloat(v, 'e', -1, 64)
	}
	return strconv.FormatFloat(v, 'f', -1, 64)
}

// list joins words for people: a, b or c.
func list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	last := len(words) - 1
	return strings.Join(words[:last], ", ") + " or " + words[last]
}

// span says between which numbers one is expected.
func span(least, most float64) string {
	return fmt.Sprintf("a number from %s to %s", number(least), number(most))
}
