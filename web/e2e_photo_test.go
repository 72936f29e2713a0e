//go:build e2e

package web_test

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// The drawn sheet that is photographed: a white rectangle of known size on
// grey, with two round marks of invented places (mm from its lower left corner).
const sheetWide, sheetHigh = 600.0, 400.0

var (
	redMark   = [2]float64{450, 310}
	greenMark = [2]float64{150, 110}
)

// shot is a pinhole camera over the sheet's plane: 26 mm on 35 mm film, leaning
// by 25° to one side. Its picture is larger than what is kept.
type shot struct {
	wide, high, focal, far, lean float64
}

var shopShot = shot{2000, 1500, 26 / 43.27 * 2500, 900, 25 * math.Pi / 180}

// px is where a point of the plane is seen: the camera looks at the sheet's
// middle and is turned about the upright axis.
func (s shot) px(mm [2]float64) [2]float64 {
	x, y := mm[0]-sheetWide/2, mm[1]-sheetHigh/2
	sin, cos := math.Sincos(s.lean)
	depth := s.far + x*sin
	return [2]float64{s.wide/2 + s.focal*x*cos/depth, s.high/2 - s.focal*y/depth}
}

// mm is the point of the plane under a point of the picture, [shot.px] undone.
func (s shot) mm(px [2]float64) [2]float64 {
	sin, cos := math.Sincos(s.lean)
	a, b := (px[0]-s.wide/2)/s.focal, (s.high/2-px[1])/s.focal
	x := a * s.far / (cos - a*sin)
	return [2]float64{x + sheetWide/2, b*(s.far+x*sin) + sheetHigh/2}
}

// picture draws what the camera sees, as a PNG file.
func (s shot) picture(t *testing.T) string {
	t.Helper()
	img := image.NewNRGBA(image.Rect(0, 0, int(s.wide), int(s.high)))
	near := func(p, q [2]float64) bool { return math.Hypot(p[0]-q[0], p[1]-q[1]) < 22 }
	for j := range int(s.high) {
		for i := range int(s.wide) {
			p := s.mm([2]float64{float64(i) + 0.5, float64(j) + 0.5})
			c := color.NRGBA{150, 156, 150, 255}
			switch {
			case near(p, redMark):
				c = color.NRGBA{255, 0, 200, 255}
			case near(p, greenMark):
				c = color.NRGBA{0, 190, 60, 255}
			case p[0] >= 0 && p[0] <= sheetWide && p[1] >= 0 && p[1] <= sheetHigh:
				c = color.NRGBA{246, 246, 240, 255}
			case int(math.Floor(p[0]/50)+math.Floor(p[1]/50))%2 == 0:
				c = color.NRGBA{120, 126, 124, 255}
			}
			img.SetNRGBA(i, j, c)
		}
	}
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, img))
	path := filepath.Join(t.TempDir(), "sheet.png")
	require.NoError(t, os.WriteFile(path, b.Bytes(), 0o644))
	return path
}

// kept is how many of the camera's pixels one of the kept picture is.
func (s shot) kept() float64 { return 1600 / s.wide }

// A photo goes the whole way by finger: chosen, shrunk, its corners named
// roughly and then exactly, made true, checked against a known length, put
// behind the side view; what was photographed then lies where it is.
func TestE2EPhotoIsTrueToScale(t *testing.T) {
	for name, size := range map[string]browser.Size{"landscape": browser.Landscape, "portrait": browser.Portrait, "phone": browser.Phone} {
		t.Run(name, func(t *testing.T) {
			x := open(t, size)
			x.newVehicle()
			x.checked()
			x.photoIn(shopShot.picture(t))
			x.whole("the page of a photo, empty", ".photo-edit")
			x.nameCorners(shopShot)
			x.photoField("Width", "600")
			x.photoField("Height", "400")
			x.judged()
			x.knownLength(shopShot)
			x.whole("the page of a photo, filled", ".photo-edit")
			x.tap(".photo-edit .choice button", "Side")
			x.photoField("Behind the front axle", "1000")
			x.photoField("Above the frame", "300")
			x.tap(".photo-put")
			x.wait(`!document.querySelector(".photo-edit").open`)
			x.raise()
			x.whole("the list of photos", "#panel")
			x.lowered()
			x.liesRight()
			x.undoneAndKept()
		})
	}
}

// photoIn chooses a picture from the list of photos.
func (x *tab) photoIn(path string) {
	x.t.Helper()
	x.tap(".menu-top")
	// What was open before is offered a moment later, and moves the rest down.
	x.wait(`[...document.querySelectorAll("#menu-list button")].some((e) => e.checkVisibility() && e.textContent.includes("Back to bakery-van"))`)
	x.tap("#menu-list button", "Photos behind the drawing")
	x.wait(shown(".photo-sources"))
	assert.Equal(x.t, []string{"image/*", "environment"}, eval[[]string](x, `(() => { const i = document.querySelector(".photo-source input[capture]"); return [i.accept, i.getAttribute("capture")]; })()`))
	x.must(x.Choose(path, func() error {
		x.tap(".photo-source button", "Choose a picture")
		return nil
	}))
	x.wait(`document.querySelector(".photo-edit").open && document.querySelector(".pick-canvas").width > 10`)
	x.eventually("the first corner is asked for", func() bool { return x.text(".pick-words") == "Tap the picture: lower left corner" })
}

// onPicture is where a point of the kept picture stands on the screen, while
// the whole picture is shown.
func (x *tab) onPicture(px [2]float64) browser.Point {
	x.t.Helper()
	r := eval[[]float64](x, `(() => { const r = document.querySelector(".pick-canvas").getBoundingClientRect(); return [r.left, r.top, r.width, r.height]; })()`)
	k := math.Min(r[2]/1600, r[3]/1200)
	return browser.Point{X: r[0] + (r[2]-1600*k)/2 + k*px[0], Y: r[1] + (r[3]-1200*k)/2 + k*px[1]}
}

var across = regexp.MustCompile(`: ([0-9.]+) across, ([0-9.]+) down`)

// inHand is where the point in hand stands, as it is read on the screen.
func (x *tab) inHand() [2]float64 {
	x.t.Helper()
	m := across.FindStringSubmatch(x.text(".pick-words"))
	require.Len(x.t, m, 3, x.text(".pick-words"))
	a, _ := strconv.ParseFloat(m[1], 64)
	b, _ := strconv.ParseFloat(m[2], 64)
	return [2]float64{a, b}
}

// nameCorners taps the four corners beside where they are, then drags each
// nearer and nudges it to the pixel.
func (x *tab) nameCorners(s shot) {
	x.t.Helper()
	names := []string{"Lower left corner", "Lower right corner", "Upper right corner", "Upper left corner"}
	corners := [4][2]float64{{0, 0}, {sheetWide, 0}, {sheetWide, sheetHigh}, {0, sheetHigh}}
	for i, mm := range corners {
		px := s.px(mm)
		p := x.onPicture([2]float64{px[0] * s.kept(), px[1] * s.kept()})
		x.must(x.Tap(browser.Point{X: p.X + 17, Y: p.Y - 11}))
		x.eventually(names[i]+" is named", func() bool {
			return eval[int](x, `[...document.querySelectorAll(".photo-group .chip-state")].slice(0, 4).filter((e) => !e.textContent).length`) == i+1
		})
	}
	for i, mm := range corners {
		px := s.px(mm)
		x.toPixel(names[i], [2]float64{px[0] * s.kept(), px[1] * s.kept()}, 17, -11)
	}
}

// toPixel takes a named point in hand, drags it back by what it is off, and
// nudges it until no pixel is nearer.
func (x *tab) toPixel(name string, px [2]float64, offX, offY float64) {
	x.t.Helper()
	x.tap(".photo-chip", name)
	x.eventually(name+" is in hand", func() bool {
		return across.MatchString(x.text(".pick-words")) && len(name) > 0 && x.text(".pick-words")[:len(name)] == name
	})
	at := x.inHand()
	from := x.onPicture(at)
	x.must(x.Drag(from, browser.Point{X: from.X - offX, Y: from.Y - offY}, 6))
	x.eventually(name+" was dragged all the way", func() bool {
		q := x.inHand()
		p := x.onPicture(q)
		return math.Hypot(p.X-(from.X-offX), p.Y-(from.Y-offY)) < 1.5
	})
	assert.True(x.t, eval[bool](x, shown(".pick-glass")), "a glass shows what the finger hides")
	for axis, keys := range [2][2]string{{"One pixel left", "One pixel right"}, {"One pixel up", "One pixel down"}} {
		for n := 0; ; n++ {
			was := x.inHand()
			d := px[axis] - was[axis]
			if math.Abs(d) <= 0.5 {
				break
			}
			require.Less(x.t, n, 12, "%s: nudged from %v towards %v without end", name, was, px)
			key := keys[0]
			if d > 0 {
				key = keys[1]
			}
			x.tap(`.pick-key[aria-label="` + key + `"]`)
			x.eventually(name+" was nudged", func() bool { return x.inHand() != was })
		}
	}
}

// photoField types into the field of the photo's page that has such a label.
func (x *tab) photoField(label, text string) {
	x.t.Helper()
	at := eval[[]float64](x, `(() => {
	  const line = [...document.querySelectorAll(".photo-edit .photo-line")].find((e) => e.checkVisibility() && e.querySelector("label span").textContent === `+quote(label)+`);
	  const input = line.querySelector("input");
	  input.scrollIntoView({ block: "center" });
	  const r = input.getBoundingClientRect();
	  return [r.left + r.width / 2, r.top + r.height / 2];
	})()`)
	x.must(x.Tap(browser.Point{X: at[0], Y: at[1]}))
	x.wait(`document.activeElement.matches(".photo-line input")`)
	eval[string](x, `document.activeElement.select(), ""`)
	x.must(x.Type(text))
}

// judged expects the answer on a rectangle that was named well.
func (x *tab) judged() {
	x.t.Helper()
	x.wait(`document.querySelector(".photo-missing").hidden && document.querySelector(".photo-lines").children.length > 3`)
	said := x.text(".photo-edit .photo-lines")
	lean := regexp.MustCompile(`leaned by (\d+)°`).FindStringSubmatch(said)
	require.NotNil(x.t, lean, said)
	deg, _ := strconv.ParseFloat(lean[1], 64)
	assert.InDelta(x.t, 25, deg, 2, said)
	assert.Empty(x.t, x.text(".photo-edit .photo-warnings"), "a good photo is not warned of")
	// Exchanged sides are seen, though four corners leave no residual.
	x.photoField("Width", "400")
	x.photoField("Height", "600")
	x.wait(`document.querySelector(".photo-edit .photo-warnings").textContent.includes("exchanged")`)
	x.photoField("Width", "600")
	x.photoField("Height", "400")
	x.wait(`document.querySelector(".photo-edit .photo-warnings").children.length === 0`)
}

// knownLength lays a known length between the two marks, typed 10 mm long.
func (x *tab) knownLength(s shot) {
	x.t.Helper()
	x.tap(".photo-add", "Add a known length")
	for i, mark := range [][2]float64{redMark, greenMark} {
		if i > 0 {
			x.tap(".photo-chip", "other end")
		}
		px := s.px(mark)
		x.must(x.Tap(x.onPicture([2]float64{px[0] * s.kept(), px[1] * s.kept()})))
		x.eventually("an end is named", func() bool { return across.MatchString(x.text(".pick-words")) })
	}
	long := math.Hypot(redMark[0]-greenMark[0], redMark[1]-greenMark[1])
	x.photoField("Known length 1", fmt.Sprintf("%.1f", long+10))
	x.wait(`document.querySelector(".photo-said").textContent.includes("too short")`)
	m := regexp.MustCompile(`([0-9.]+) mm too short`).FindStringSubmatch(x.text(".photo-said"))
	require.NotNil(x.t, m, x.text(".photo-said"))
	off, _ := strconv.ParseFloat(m[1], 64)
	assert.InDelta(x.t, 10, off, 3, "two taps and four corners are not worth more")
	x.wait(`document.querySelector(".photo-edit .photo-warnings").textContent.includes("out by")`)
}

// liesRight finds the red mark on the screen and asks where that is.
func (x *tab) liesRight() {
	x.t.Helper()
	want := [2]float64{1000 + redMark[0], 300 + redMark[1]}
	x.eventually("the mark is drawn", func() bool { _, n := x.red(); return n > 4 })
	// Nearer, so that a pixel is less than a millimetre.
	p := x.onCanvas(x.onPlane(want))
	before := x.look().PxPerMM
	x.must(x.Pinch(browser.Point{X: p.X - 20, Y: p.Y}, browser.Point{X: p.X + 20, Y: p.Y}, browser.Point{X: p.X - 80, Y: p.Y}, browser.Point{X: p.X + 80, Y: p.Y}, 10))
	x.eventually("it is nearer", func() bool { return x.look().PxPerMM > 2*before })
	var at [2]float64
	x.eventually("the mark is drawn larger", func() bool {
		var n int
		at, n = x.red()
		l := x.look()
		return float64(n) > 0.7*math.Pi*22*22*l.PxPerMM*l.PxPerMM
	})
	got := x.fromScreen(at)
	assert.InDelta(x.t, want[0], got[0], 2, "rearward, mm")
	assert.InDelta(x.t, want[1], got[1], 2, "up, mm")
}

// onPlane is where a point of the view's plane stands on the canvas.
func (x *tab) onPlane(mm [2]float64) [2]float64 {
	x.t.Helper()
	m := x.look().Plane
	return [2]float64{m[0]*mm[0] + m[1]*mm[1] + m[2], m[3]*mm[0] + m[4]*mm[1] + m[5]}
}

// fromScreen is the point of the view's plane under a point of the screen.
func (x *tab) fromScreen(at [2]float64) [2]float64 {
	x.t.Helper()
	o := x.onCanvas([2]float64{0, 0})
	m := x.look().Plane
	u, v := at[0]-o.X-m[2], at[1]-o.Y-m[5]
	det := m[0]*m[4] - m[1]*m[3]
	return [2]float64{(u*m[4] - v*m[1]) / det, (v*m[0] - u*m[3]) / det}
}

// red is the middle of what is as red on the screen as nothing but the mark,
// and how many pixels that is.
func (x *tab) red() (at [2]float64, n int) {
	x.t.Helper()
	img := x.picture()
	b := img.Bounds()
	for j := b.Min.Y; j < b.Max.Y; j++ {
		for i := b.Min.X; i < b.Max.X; i++ {
			r, g, bl, _ := img.At(i, j).RGBA()
			if r > 0xC000 && bl > 0x9000 && g < 0x9000 {
				at[0] += float64(i) + 0.5
				at[1] += float64(j) + 0.5
				n++
			}
		}
	}
	return [2]float64{at[0] / float64(n), at[1] / float64(n)}, n
}

// undoneAndKept: one step back takes the photo away, one forth brings it back,
// hidden it is not seen, and a reload keeps all of it.
func (x *tab) undoneAndKept() {
	x.t.Helper()
	with := x.file()
	assert.Contains(x.t, with, `"photos"`)
	assert.Less(x.t, len(with), 500_000)
	x.tap(".step-undo")
	x.eventually("it is gone", func() bool { _, n := x.red(); return n == 0 })
	assert.NotContains(x.t, x.file(), `"photos"`)
	x.tap(".step-redo")
	x.eventually("it is back", func() bool { _, n := x.red(); return n > 4 })
	assert.Equal(x.t, with, x.file())
	x.raise()
	x.tap(".photo-acts button", "Hide")
	x.wait(`document.querySelector(".photo-acts button").textContent === "Show"`)
	x.lowered()
	x.eventually("it is hidden", func() bool { _, n := x.red(); return n == 0 })
	x.raise()
	x.tap(".photo-acts button", "Show")
	x.lowered()
	x.eventually("it is shown", func() bool { _, n := x.red(); return n > 4 })
	x.moveByFinger()
	moved := x.file()
	x.eventually("the work is kept", func() bool { return x.kept("current") == moved })
	x.must(x.Reload())
	x.checked()
	assert.Equal(x.t, moved, x.file())
	x.tap(".menu-top")
	x.wait(`[...document.querySelectorAll("#menu-list button")].some((e) => e.checkVisibility() && e.textContent.includes("Back to "))`)
	x.tap("#menu-list button", "Photos behind the drawing")
	x.wait(shown(".photo .list-row"))
	x.tap(".photo .list-row")
	x.eventually("it is drawn again", func() bool { _, n := x.red(); return n > 4 })
}

// moveByFinger drags the photo on the drawing; one step takes all of it back.
func (x *tab) moveByFinger() {
	x.t.Helper()
	before := x.file()
	x.raise()
	x.tap(".photo-acts button", "Move by finger")
	x.wait(`document.querySelector(".photo-acts [aria-pressed=true]") !== null`)
	x.lowered()
	at, _ := x.red()
	was := x.fromScreen(at)
	p := browser.Point{X: at[0] + 25, Y: at[1] + 5}
	x.must(x.Drag(p, browser.Point{X: p.X - 60, Y: p.Y + 30}, 10))
	x.eventually("it was moved", func() bool { return x.file() != before })
	var now [2]float64
	x.eventually("it is drawn there", func() bool {
		at, _ := x.red()
		now = x.fromScreen(at)
		return math.Abs(now[0]-was[0]+60/x.look().PxPerMM) < 4 && math.Abs(now[1]-was[1]+30/x.look().PxPerMM) < 4
	})
	moved := x.file()
	x.tap(".step-undo")
	x.eventually("the whole drag is taken back", func() bool { return x.file() == before })
	x.tap(".step-redo")
	x.eventually("and done again", func() bool { return x.file() == moved })
}

// lowered puts a phone's sheet down, so that the drawing is in sight.
func (x *tab) lowered() {
	x.t.Helper()
	if eval[bool](x, `document.getElementById("panel").dataset.sheet !== "low" && `+shown("#grip")) {
		x.tap("#grip")
		x.wait(`document.getElementById("panel").dataset.sheet === "low"`)
	}
}
