package web

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/wasm/draw"
)

// The page's colours are the drawing's, theme by theme.
func TestThePageHasTheDrawingsColours(t *testing.T) {
	text, err := page.ReadFile("tokens.css")
	require.NoError(t, err)
	blocks := regexp.MustCompile(`(?s):root(?:\[data-theme="(\w+)"\])? \{(.*?)\n\}`).FindAllStringSubmatch(string(text), -1)
	themes := map[string]*draw.Palette{"": &draw.Light, "dark": &draw.Dark, "sun": &draw.Sun}
	found := 0
	for _, b := range blocks {
		pal := themes[b[1]]
		require.NotNil(t, pal, b[1])
		found++
		colour := map[string]string{}
		for _, m := range regexp.MustCompile(`--([\w-]+): (#[0-9A-F]{6})`).FindAllStringSubmatch(b[2], -1) {
			colour[m[1]] = m[2]
		}
		for name, tone := range map[string]draw.Tone{"desk": draw.Desk, "paper": draw.Paper, "ink": draw.Ink, "soft": draw.Soft,
			"edge": draw.Edge, "hand": draw.Hand, "on-hand": draw.OnHand, "hand-wash": draw.HandWash, "touch": draw.Touch,
			"tight": draw.Tight, "room": draw.Room} {
			c := pal[tone]
			want := fmt.Sprintf("#%02X%02X%02X", int(c.R*255+.5), int(c.G*255+.5), int(c.B*255+.5))
			assert.Equal(t, want, colour[name], "%q %s", b[1], name)
		}
	}
	assert.Equal(t, len(themes), found)
}
