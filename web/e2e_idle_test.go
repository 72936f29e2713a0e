//go:build e2e

package web_test

import (
	"testing"
	"time"

	"github.com/stretchr/testify/assert"

	"scrubline/web/browser"
)

// A still picture is not drawn again; a finger on it is answered. Here time
// itself is what is asked about, so that the test has to let it pass.
func TestE2EAStillPageDrawsNothing(t *testing.T) {
	x := open(t, browser.Landscape)
	x.checked() // on a slow machine a check draws nothing for seconds, and then what it found
	x.still(2 * time.Second)
	frames := x.look().Frames
	time.Sleep(time.Second)
	assert.Equal(t, frames, x.look().Frames, "frames were drawn of a still picture")

	x.pickUp("air_tank")
	x.eventually("a tap draws", func() bool { return x.look().Frames > frames })
	x.still(2 * time.Second)
	frames = x.look().Frames
	time.Sleep(time.Second)
	assert.Equal(t, frames, x.look().Frames, "something selected keeps it drawing")

	eval[bool](x, `(() => {
		const real = Go.prototype._resume;
		window.runs = 0;
		Go.prototype._resume = function (...a) { window.runs += 1; return real.apply(this, a); };
		return true;
	})()`)
	time.Sleep(time.Second)
	assert.Zero(t, eval[int](x, `window.runs`), "the sketcher runs though nothing asks it")
	assert.False(t, eval[bool](x, `navigator.getGamepads.toString().includes("native code")`), "the browser polls for game pads")
	before := eval[int](x, `window.runs`)
	x.look()
	assert.Greater(t, eval[int](x, `window.runs`), before, "runs are counted")
}

// still waits until no frame was drawn for as long.
func (x *tab) still(d time.Duration) {
	x.t.Helper()
	frames, since := x.look().Frames, time.Now()
	x.eventually("the picture is still", func() bool {
		if n := x.look().Frames; n != frames {
			frames, since = n, time.Now()
		}
		return time.Since(since) >= d
	})
}
