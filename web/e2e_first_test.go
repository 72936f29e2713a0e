//go:build e2e

package web_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"scrubline/web/browser"
)

// standing notes what stands on the page at the moment at which the page says that
// its drawing stands: what the figures of a start count to.
const standing = `Object.defineProperty(window, "drawnAt", {
	configurable: true,
	get: () => undefined,
	set(at) {
		Object.defineProperty(window, "drawnAt", { value: at, writable: true });
		const box = document.getElementById("host").getBoundingClientRect();
		window.stood = {
			file: JSON.parse(scrub.send('{"do":"save"}')).text,
			under: document.elementFromPoint(box.x + box.width / 2, box.y + box.height / 2).id,
			pictures: scrub.frames(),
		};
	},
})`

// A page that says its drawing stands shows what was open, and takes a finger.
func TestE2EWhatStandsFirstIsWhatWasOpen(t *testing.T) {
	x := open(t, browser.Landscape)
	demo := x.file()
	x.placePart("box")
	placed := x.file()
	x.eventually("the work is kept", func() bool { return x.kept("current") == placed })
	x.must(x.Before(standing))
	x.must(x.Reload())
	x.checked()
	assert.Equal(t, placed, eval[string](x, `stood.file`))
	assert.Equal(t, "pad", eval[string](x, `stood.under`), "it takes a finger")
	assert.Positive(t, eval[int](x, `stood.pictures`))

	y := open(t, browser.Landscape)
	y.must(y.Before(standing))
	y.must(y.Reload())
	y.checked()
	assert.Equal(t, demo, eval[string](y, `stood.file`), "where nothing was kept it is the demo")
	assert.Equal(t, "pad", eval[string](y, `stood.under`))
}
