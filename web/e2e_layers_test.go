//go:build e2e

package web_test

import (
	"image"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/wasm/app"
	"scrubline/web/browser"
)

// While a part is dragged the drawing is put together from pictures kept of what
// stands still. It has to be the one that is painted anew: another width and the first
// one again make the sketcher paint all of it, the finger still being down.
func TestE2EAPictureOfLayersIsTheWholePicture(t *testing.T) {
	for _, c := range []struct {
		view, part string
		most       int // pixels that may differ: where dashed lines of two colours cross, either may lie on top
	}{{"section", "air_tank", 0}, {"plan", "battery", 600}} {
		t.Run(c.view, func(t *testing.T) {
			x := open(t, browser.Landscape)
			x.sectionTo(2000)
			_, err := x.Send(app.Command{Do: "view", View: c.view})
			x.must(err)
			_, err = x.Send(app.Command{Do: "select", Part: c.part})
			x.must(err)
			x.eventually("it can be taken hold of", func() bool { _, ok := x.look().Parts[c.part]; return ok })
			x.checked()
			x.narrowerAndBack() // and fitted to what is shown
			at, err := x.OnCanvas(x.look().Parts[c.part])
			x.must(err)
			before := x.look().Parts[c.part]
			x.must(x.Hold(at, browser.Point{X: at.X + 40, Y: at.Y + 10}, 12))
			x.still(time.Second)
			where := x.look().Parts[c.part]
			require.NotEqual(t, before, where, "the part follows the finger")
			layered := x.canvasShot()
			frames := x.look().Frames
			x.narrowerAndBack()
			require.Greater(t, x.look().Frames, frames, "it is painted anew")
			require.Equal(t, where, x.look().Parts[c.part], "the finger still holds it")
			whole := x.canvasShot()
			x.must(x.Lift())

			require.Equal(t, whole.Bounds(), layered.Bounds())
			differ, ink := 0, 0
			b := whole.Bounds()
			paper := whole.At(b.Max.X-12, b.Min.Y+60)
			for y := b.Min.Y; y < b.Max.Y; y++ {
				for px := b.Min.X; px < b.Max.X; px++ {
					if far(whole.At(px, y), layered.At(px, y)) > 6<<8 {
						differ++
					}
					if far(whole.At(px, y), paper) > 60<<8 {
						ink++
					}
				}
			}
			assert.Greater(t, ink, 5000, "there is a drawing")
			assert.LessOrEqual(t, differ, c.most, "pixels that are not those of a picture painted anew")
		})
	}
}

// narrowerAndBack has the canvas painted anew.
func (x *tab) narrowerAndBack() {
	x.t.Helper()
	for _, margin := range []string{"40px", "0px"} {
		eval[string](x, `document.getElementById("host").style.marginRight = `+quote(margin))
		x.eventually("the canvas has its size", x.canvasFits)
		x.still(time.Second)
	}
}

// far is how far two colours are apart, in the channel where they are farthest.
func far(a, b interface{ RGBA() (r, g, b, a uint32) }) uint32 {
	r, g, u, _ := a.RGBA()
	s, h, v, _ := b.RGBA()
	apart := func(p, q uint32) uint32 { return max(p, q) - min(p, q) }
	return max(apart(r, s), apart(g, h), apart(u, v))
}

// canvasShot is a picture of the drawings.
func (x *tab) canvasShot() image.Image {
	x.t.Helper()
	r := eval[[]int](x, `(() => { const r = document.getElementById("host").getBoundingClientRect(); return [r.left, r.top, r.right, r.bottom].map(Math.round); })()`)
	return x.picture().(interface {
		SubImage(image.Rectangle) image.Image
	}).SubImage(image.Rect(r[0], r[1], r[2], r[3]))
}
