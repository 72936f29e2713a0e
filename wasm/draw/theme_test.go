package draw

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Black on white is 21 : 1, and #777777 on white 4.48 : 1 (the standard's best
// known near miss).
func TestContrastIsThatOfTheStandard(t *testing.T) {
	assert.InDelta(t, 21, contrast(hex(0), hex(0xFFFFFF)), 1e-9)
	assert.InDelta(t, 4.48, contrast(hex(0x777777), hex(0xFFFFFF)), 0.005)
}

// Texts on what they stand on: 4.5 : 1 by day and by night (WCAG 2.2, 1.4.3),
// 7 : 1 in the sun (1.4.6). Lines that must be seen: 3 : 1 (1.4.11), in the sun
// also where depth fades them most.
func TestColoursAreReadable(t *testing.T) {
	for _, theme := range []struct {
		name  string
		pal   *Palette
		least float64
	}{{"light", &Light, 4.5}, {"dark", &Dark, 4.5}, {"sun", &Sun, 7}} {
		for _, pair := range [][2]Tone{
			{Ink, Paper}, {Soft, Paper}, {Hand, Paper}, {Touch, Paper}, {Tight, Paper}, {Room, Paper},
			{Ink, Desk}, {Ink, HandWash}, {Hand, HandWash}, {OnHand, Hand}} {
			got := contrast(theme.pal[pair[0]], theme.pal[pair[1]])
			assert.GreaterOrEqual(t, got, theme.least, "%s: tones %d on %d", theme.name, pair[0], pair[1])
		}
		assert.GreaterOrEqual(t, contrast(theme.pal[Line], theme.pal[Paper]), 3.0, theme.name)
	}
	faintest := Paint{Tone: Ink, Fade: 0.78}.Colour(&Sun)
	assert.GreaterOrEqual(t, contrast(faintest, Sun[Paper]), 3.0, "what lies farthest, in the sun")
}
