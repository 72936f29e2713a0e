//go:build e2e

package web_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// findingRow selects a finding of the list.
func findingRow(key string) string { return `.finding[data-key="` + key + `"]` }

// Findings under a finger, on the three screens: what is one thing is folded
// behind its worst, and an open finding is drawn, whatever the theme.
func TestE2EFindingsAreReadAndSeen(t *testing.T) {
	x := open(t, browser.Landscape)
	for name, size := range map[string]browser.Size{"tablet": browser.Landscape, "tablet upright": browser.Portrait, "phone": browser.Phone} {
		t.Run(name, func(t *testing.T) {
			x := x.in(t)
			x.must(x.Resize(size))
			x.startAnew()
			x.drawsEveryPair()
			x.unfoldsTheOtherSide()
		})
	}
}

// drawsEveryPair opens each pair of the demo and looks at its drawing.
func (x *tab) drawsEveryPair() {
	x.t.Helper()
	x.raise()
	last := ""
	for key, r := range x.rows() {
		if len(strings.Split(key, "|")) != 3 {
			continue // a part below the rim line, a limit: no pair
		}
		last = key
		x.tap(findingRow(key) + " .finding-top")
		drawn := findingRow(key) + " .gap-svg"
		x.wait(shown(drawn))
		alt := eval[string](x, `document.querySelector(`+quote(drawn)+`).getAttribute("aria-label")`)
		figure := x.text(findingRow(key) + " .gap-text")
		assert.Contains(x.t, alt, figure, key)
		assert.Contains(x.t, r.Figures, strings.Fields(figure)[0], "the drawing has the figure of the list")
		assert.True(x.t, eval[bool](x, `(() => {
		  const svg = document.querySelector(`+quote(drawn)+`), r = svg.getBoundingClientRect(), in_ = (e) => {
		    const q = e.getBoundingClientRect();
		    return q.left >= r.left - 1 && q.right <= r.right + 1 && q.top >= r.top - 1 && q.bottom <= r.bottom + 1;
		  };
		  return r.width > 150 && in_(svg.querySelector(".gap-text")) && in_(svg.querySelector(".gap-measure"));
		})()`), "%s: figure and measure lie within the drawing", key)
		x.raise()
		x.whole("with the drawing of "+key, "#app")
		x.tap(findingRow(key) + " .finding-top") // what is open grows while moves are looked for, and shifts the rows below it
		x.wait(`!` + shown(drawn))
		x.raise()
	}
	require.NotEmpty(x.t, last)
	x.tap(findingRow(last) + " .finding-top")
	x.wait(shown(findingRow(last) + " .gap-svg"))
	for _, theme := range []string{"light", "dark", "sun"} {
		eval[string](x, `(document.documentElement.dataset.theme = `+quote(theme)+`, "")`)
		assert.GreaterOrEqual(x.t, eval[float64](x, contrastOfDrawing), 3.0, "WCAG 2.2, 1.4.11, in the theme "+theme)
	}
}

// contrastOfDrawing is the least contrast of the drawing's border, measure and
// figure against its paper (relative luminance after WCAG 2.2).
const contrastOfDrawing = `(() => {
  const lum = (text) => {
    const [r, g, b] = text.match(/[\d.]+/g).slice(0, 3).map((v) => v / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const svg = [...document.querySelectorAll(".gap-svg")].find((e) => e.checkVisibility());
  const paper = lum(getComputedStyle(svg).backgroundColor);
  return Math.min(...[[".gap-border", "stroke"], [".gap-measure", "stroke"], [".gap-text", "fill"]].map(([s, p]) => {
    const v = lum(getComputedStyle(svg.querySelector(s))[p]);
    return (Math.max(v, paper) + 0.05) / (Math.min(v, paper) + 0.05);
  }));
})()`

// unfoldsTheOtherSide opens the scene whose two sides fall short alike
// (testdata/scenes/README.md).
func (x *tab) unfoldsTheOtherSide() {
	x.t.Helper()
	const first, second = "spring_left|wall_left|", "spring_right|wall_right|"
	x.openFile("../testdata/scenes/mirrored-pair.json")
	x.wait(`document.querySelectorAll(".finding").length === 2`)
	x.checked()
	x.raise()
	seen := func(key string) bool {
		return eval[bool](x, `document.querySelector(`+quote(findingRow(key))+`).checkVisibility()`)
	}
	worst, other := first, second
	if !seen(first) {
		worst, other = second, first
	}
	require.True(x.t, seen(worst))
	require.False(x.t, seen(other), "the other side is folded")
	fold := findingRow(worst) + " .finding-fold"
	assert.Contains(x.t, x.text(fold), "and 1 more like it: ")
	assert.Contains(x.t, x.text(".headline"), "2 touch", "it still counts")
	assert.GreaterOrEqual(x.t, eval[float64](x, `document.querySelector(`+quote(fold)+`).getBoundingClientRect().height`), 44.0)
	x.tap(fold)
	x.eventually("the other side is listed", func() bool { return seen(other) })
	x.whole("unfolded", "#app")
	x.tap(findingRow(other) + " .finding-top")
	x.wait(shown(findingRow(other) + " .gap-svg"))
	assert.Equal(x.t, -120.0, x.look().RearMM, "the body stands where they touch")
	x.raise()
	x.tap(fold)
	assert.True(x.t, seen(other), "what is open is not folded away")
	x.raise()
	x.tap(findingRow(other) + " .finding-top")
	x.eventually("closed, it is folded again", func() bool { return !seen(other) })
}
