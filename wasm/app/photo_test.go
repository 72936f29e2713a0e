package app

import (
	"encoding/base64"
	"encoding/binary"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
)

// headOf is the head of a lossy WebP of a size (RFC 6386, 9.1), told apart by n.
func headOf(wide, high int, n byte) string {
	data := make([]byte, 40)
	copy(data, "RIFF....WEBPVP8 ")
	copy(data[23:], []byte{0x9D, 0x01, 0x2A})
	binary.LittleEndian.PutUint16(data[26:], uint16(wide))
	binary.LittleEndian.PutUint16(data[28:], uint16(high))
	data[39] = n
	return base64.StdEncoding.EncodeToString(data)
}

// taken is the draft of a photo of 160 by 120 px in which a rectangle of 600 by
// 400 mm stands straight: 5 mm to a pixel, its lower left corner at (20, 100).
func taken(t testing.TB, a *App) PhotoDraft {
	t.Helper()
	r := send(t, a, Command{Do: "photo_take", Kind: scene.WebP, Text: headOf(160, 120, 1)})
	var d PhotoDraft
	require.NoError(t, json.Unmarshal([]byte(r.Text), &d))
	d.Points = [][2]float64{{20, 100}, {140, 100}, {140, 20}, {20, 20}}
	d.Wide, d.High, d.AtPX, d.View, d.At = "600", "400", [2]float64{20, 100}, "side", [2]string{"1000", "300"}
	return d
}

func draftText(t testing.TB, d PhotoDraft) string {
	t.Helper()
	text, err := json.Marshal(d)
	require.NoError(t, err)
	return string(text)
}

// photographed is the yard with that photo in it, its picture handed over.
func photographed(t testing.TB) (*App, *fakePage) {
	t.Helper()
	a, page := yard(t)
	send(t, a, Command{Do: "photo_put", Text: draftText(t, taken(t, a))})
	frame(a)
	item := page.last(t).Photos[0]
	require.True(t, item.Wanted)
	require.NoError(t, a.GivePicture(item.Key, 160, 120, make([]byte, 4*160*120)))
	frame(a)
	return a, page
}

// photoOps are the photos of a picture, with what was painted before them.
func photoOps(l *draw.List) (list []*draw.Photo) {
	for i := range l.Ops {
		if l.Ops[i].Kind == draw.PhotoOp {
			list = append(list, l.Ops[i].Photo)
		}
	}
	return list
}

func drawn(t testing.TB, a *App) *draw.List {
	t.Helper()
	a.touch()
	l := a.Frame()
	require.NotNil(t, l)
	return l
}

// A photo put in stands where it was said, to the last corner: the straight
// rectangle's corners in the picture are those of 600 by 400 mm in the view.
func TestPhotoStandsWhereItWasPut(t *testing.T) {
	a, _ := photographed(t)
	ops := photoOps(drawn(t, a))
	require.Len(t, ops, 1)
	assert.Equal(t, fitment.SideView, a.view, "the view goes to the photo")
	proj := a.projection()
	found := 0
	for i, px := range ops[0].Mesh.From {
		// 5 mm to a pixel; (20, 100) lies at 1000 behind the axle, 300 up.
		want := proj.Screen(fitment.Pt{1000 + 5*(px[0]-20), 300 + 5*(100-px[1])})
		got := mgl64.Vec2(ops[0].Mesh.To[i])
		if got.Sub(want).Len() < 1e-6 {
			found++
		}
	}
	assert.Equal(t, len(ops[0].Mesh.From), found)
	assert.GreaterOrEqual(t, found, 4)
}

// A photo that would be a speck, or is off the sheet, is shown large.
func TestPhotoIsBroughtIntoSight(t *testing.T) {
	a, _ := photographed(t)
	for name, cam := range map[string][3]float64{"a speck": {1300, 300, 0.02}, "off the sheet": {90000, 0, 1}} {
		a.camera().Centre, a.camera().PxPerMM = mgl64.Vec2{cam[0], cam[1]}, cam[2]
		send(t, a, Command{Do: "photo_show", Key: "photo-1"})
		proj := a.projection()
		mid, k := proj.Screen(fitment.Pt{1300, 500}), a.camera().PxPerMM // the rectangle's middle
		assert.InDelta(t, 0, mid.Sub(a.lay.Main.Middle()).Len(), 1, name)
		assert.Greater(t, 600*k, 100.0, name)
	}
	a.camera().PxPerMM = 1.2
	send(t, a, Command{Do: "photo_show", Key: "photo-1"})
	assert.Equal(t, 1.2, a.camera().PxPerMM, "what is in sight stays as it is")
}

// A photo from the other side is mirrored, a turned one turned about its point.
func TestPhotoIsMirroredAndTurned(t *testing.T) {
	a, _ := yard(t)
	d := taken(t, a)
	d.Mirrored, d.Turn = true, "90"
	send(t, a, Command{Do: "photo_put", Text: draftText(t, d)})
	h, ok := a.photoFits()[0].placed()
	require.True(t, ok)
	for _, c := range [][2][2]float64{
		{{20, 100}, {1000, 300}},   // the point itself
		{{140, 100}, {1000, -300}}, // 600 right of it: mirrored to the left, turned down
		{{20, 20}, {600, 300}},     // 400 above it: turned to the left
	} {
		p, _ := h.At(c[0])
		assert.InDelta(t, c[1][0], p[0], 1e-9)
		assert.InDelta(t, c[1][1], p[1], 1e-9)
	}
}

// Drawn again without a change, the photo is not laid out anew; a still page
// draws nothing at all.
func TestStillPhotoCostsNothing(t *testing.T) {
	a, _ := photographed(t)
	mesh := photoOps(drawn(t, a))[0].Mesh
	assert.Same(t, mesh, photoOps(drawn(t, a))[0].Mesh)
	assert.Nil(t, a.Frame())
	a.Wheel(0, -100, a.lay.Main.X+50, a.lay.Main.Y+50, true)
	assert.NotSame(t, mesh, photoOps(drawn(t, a))[0].Mesh, "zoomed, it lies elsewhere")
}

// What is hidden, of another view or not decoded yet is not drawn, nor asked for.
func TestPhotoIsDrawnWhereItBelongs(t *testing.T) {
	a, page := photographed(t)
	count := func() int { frame(a); return len(photoOps(drawn(t, a))) }
	send(t, a, Command{Do: "view", View: "plan"})
	assert.Equal(t, 0, count())
	assert.False(t, page.last(t).Photos[0].Here)
	send(t, a, Command{Do: "photo_show", Key: "photo-1"})
	assert.Equal(t, 1, count())
	send(t, a, Command{Do: "photo_set", Key: "photo-1", Field: "hidden", Text: "true"})
	assert.Equal(t, 0, count())
	send(t, a, Command{Do: "undo"})
	assert.Equal(t, 1, count())

	d := taken(t, a)
	d.View, d.Station, d.At = "section", "2100", [2]string{"-300", "0"}
	send(t, a, Command{Do: "photo_put", Text: draftText(t, d)})
	frame(a)
	assert.Equal(t, 1, count(), "the same picture need not be handed over twice")
	send(t, a, Command{Do: "station", MM: 2100 + photoWithin - 1})
	assert.Equal(t, 1, count())
	send(t, a, Command{Do: "station", MM: 2100 + photoWithin + 1})
	assert.Equal(t, 0, count(), "a hand further on it is another section")
}

// Taken back and done again a photo is there without its picture being sent
// again; once the painter has dropped it, it is asked for.
func TestPhotoPictureComesOnce(t *testing.T) {
	a, page := photographed(t)
	key := page.last(t).Photos[0].Key
	pix, ok := a.TakePixels(key)
	assert.True(t, ok)
	assert.Equal(t, 160*120*4, len(pix.RGBA))
	_, ok = a.TakePixels(key)
	assert.False(t, ok, "the pixels are handed on once and not kept")
	assert.True(t, strings.HasPrefix(a.PictureURL(key), "data:image/webp;base64,UklGR"))
	send(t, a, Command{Do: "undo"})
	frame(a)
	assert.Empty(t, page.last(t).Photos)
	assert.Empty(t, a.PictureURL(key))
	assert.False(t, a.KeepPicture(key))
	send(t, a, Command{Do: "redo"})
	frame(a)
	assert.True(t, page.last(t).Photos[0].Wanted)
	assert.ErrorContains(t, a.GivePicture(key, 120, 160, make([]byte, 4*160*120)), "120 by 160")
	assert.NoError(t, a.GivePicture("gone", 1, 1, nil))
}

// A held photo follows the finger, and nothing else does; the whole drag is one
// step, and one that breaks off is none.
func TestHeldPhotoFollowsTheFinger(t *testing.T) {
	a, page := photographed(t)
	at := func() scene.Spot { return a.doc.Photos[0].AtMM }
	p := mgl64.Vec2(a.lay.Main.Middle())
	press(a, "touch", p, mgl64.Vec2{40, 0})
	a.Pointer("pointerup", "touch", 1, p[0]+40, p[1], 0)
	assert.Equal(t, scene.Spot{1000, 300}, at(), "not held, it stays")
	send(t, a, Command{Do: "photo_hold", Key: "photo-1", On: true})
	saved := len(page.saved)
	press(a, "touch", p, mgl64.Vec2{40, -30})
	a.Pointer("pointerup", "touch", 1, p[0]+40, p[1]-30, 0)
	k := a.camera().PxPerMM
	assert.InDelta(t, 1000+40/k, at()[0], 0.1)
	assert.InDelta(t, 300+30/k, at()[1], 0.1)
	assert.Len(t, page.saved, saved+1)
	send(t, a, Command{Do: "undo"})
	assert.Equal(t, scene.Spot{1000, 300}, at(), "one step")
	press(a, "touch", p, mgl64.Vec2{40, -30})
	a.Pointer("pointercancel", "touch", 1, 0, 0, 0)
	assert.Equal(t, scene.Spot{1000, 300}, at(), "a drag that breaks off moves nothing")
	send(t, a, Command{Do: "select", Part: a.doc.Parts[0].ID})
	frame(a)
	assert.False(t, page.last(t).Photos[0].Held, "a part that is selected takes its place")
	send(t, a, Command{Do: "select"})
	press(a, "touch", p, mgl64.Vec2{40, -30})
	a.Pointer("pointerup", "touch", 1, p[0]+40, p[1]-30, 0)
	assert.Equal(t, scene.Spot{1000, 300}, at())
	send(t, a, Command{Do: "photo_hold", Key: "photo-1", On: true})
	send(t, a, Command{Do: "photo_remove", Key: "photo-1"})
	press(a, "touch", p, mgl64.Vec2{40, -30})
	a.Pointer("pointerup", "touch", 1, p[0]+40, p[1]-30, 0)
	assert.Empty(t, a.doc.Photos)
}

// The moves of the strength slider are one step.
func TestStrengthIsOneStep(t *testing.T) {
	a, _ := photographed(t)
	checked := a.checked
	require.Same(t, checked, a.model)
	for _, v := range []string{"0.5", "0.45", "0.4", "0.35"} {
		send(t, a, Command{Do: "photo_set", Key: "photo-1", Field: "opacity", Text: v})
	}
	assert.Equal(t, 0.35, a.doc.Photos[0].Opacity)
	assert.Same(t, checked, a.checked, "nothing is measured anew for a photo")
	assert.Same(t, checked, a.model)
	send(t, a, Command{Do: "undo"})
	assert.Equal(t, startOpacity, a.doc.Photos[0].Opacity)
}

// What is said of a photo before it is put in.
func TestPhotoIsJudged(t *testing.T) {
	a, _ := yard(t)
	judge := func(change func(*PhotoDraft)) PhotoReport {
		t.Helper()
		d := taken(t, a)
		change(&d)
		var r PhotoReport
		require.NoError(t, json.Unmarshal([]byte(send(t, a, Command{Do: "photo_try", Text: draftText(t, d)}).Text), &r))
		return r
	}
	has := func(list []string, words string) {
		t.Helper()
		assert.Contains(t, strings.Join(list, "\n"), words)
	}
	undo := a.hist.UndoLabel()
	good := judge(func(*PhotoDraft) {})
	has(good.Lines, "leaned by 0°")
	has(good.Lines, "Held against a real camera, the rectangle is out by 0 mm")
	has(judge(func(d *PhotoDraft) { d.Wide, d.High = d.High, d.Wide }).Warnings, "exchanged")
	has(judge(func(d *PhotoDraft) { // a fifteenth of the picture
		d.Points = [][2]float64{{60, 80}, {90, 80}, {90, 40}, {60, 40}}
		d.Wide, d.High = "300", "400"
	}).Warnings, "covers 6 % of the picture")
	r := judge(func(d *PhotoDraft) {
		d.Checks = []PhotoDraftCheck{{[2]float64{20, 100}, [2]float64{140, 100}, "590"}, {[2]float64{20, 100}, [2]float64{20, 20}, "400"}}
	})
	assert.Equal(t, []string{"Measures 600 in the photo, 10 mm too long.", "Measures 400 in the photo, as it should."}, r.Checks)
	has(r.Warnings, "The known length of 590 mm is out by 10 mm")
	r = judge(func(d *PhotoDraft) {
		d.Known = []PhotoDraftPoint{{[2]float64{80, 60}, "300", "200"}, {[2]float64{80, 100}, "300", "160"}}
	})
	has(r.Lines, "The known points miss their places by")
	has(r.Warnings, "Look at further point 2 first")
	r = judge(func(d *PhotoDraft) {
		d.By, d.Points, d.Length = "length", [][2]float64{{20, 100}, {140, 88}}, "603"
	})
	assert.InDelta(t, math.Atan2(12, 120)*180/math.Pi, r.LeanDeg, 0.01)
	has(r.Warnings, "on trust")
	// A camera of 26 mm on 35 mm film, 900 mm before the rectangle's middle, turned
	// about the upright axis by 40°.
	r = judge(func(d *PhotoDraft) {
		var fresh PhotoDraft
		require.NoError(t, json.Unmarshal([]byte(send(t, a, Command{Do: "photo_take", Kind: scene.WebP, Text: headOf(1600, 1200, 2)}).Text), &fresh))
		d.Key = fresh.Key
		sin, cos := math.Sincos(40 * math.Pi / 180)
		for i, mm := range [4][2]float64{{-300, -200}, {300, -200}, {300, 200}, {-300, 200}} {
			f, depth := 26/43.27*2000, 900+mm[0]*sin
			d.Points[i] = [2]float64{800 + f*mm[0]*cos/depth, 600 - f*mm[1]/depth}
		}
	})
	has(r.Warnings, "The camera leaned by 40°")
	assert.Len(t, r.Warnings, 1, r.Warnings)
	assert.Equal(t, undo, a.hist.UndoLabel(), "judging changes nothing")
}

// What is missing or impossible is told in one sentence, and nothing is changed.
func TestBadPhotosAreRefused(t *testing.T) {
	a, _ := yard(t)
	for name, c := range map[string]struct {
		spoil func(*PhotoDraft)
		says  string
	}{
		"no width":        {func(d *PhotoDraft) { d.Wide = " " }, "Type the rectangle's width."},
		"width in words":  {func(d *PhotoDraft) { d.Wide = "wide" }, "The rectangle's width: "},
		"no height":       {func(d *PhotoDraft) { d.High = "0" }, "The rectangle's height must be above 0."},
		"three corners":   {func(d *PhotoDraft) { d.Points = d.Points[:3] }, "Name all 4 points in the picture first."},
		"crossed":         {func(d *PhotoDraft) { d.Points[2], d.Points[3] = d.Points[3], d.Points[2] }, "The sides cross: two neighbouring corners are exchanged."},
		"in a line":       {func(d *PhotoDraft) { d.Points[1] = [2]float64{20, 60} }, "Three corners stand in a line"},
		"no station":      {func(d *PhotoDraft) { d.View, d.Station = "section", "" }, "Type the station it is of."},
		"no place":        {func(d *PhotoDraft) { d.At[1] = "" }, "Type where its point lies, above the frame."},
		"another picture": {func(d *PhotoDraft) { d.Key = "x" }, "The picture is not there any more; take or choose it again."},
		"far away":        {func(d *PhotoDraft) { d.At[0] = "90000" }, "must be from -20000 to 20000"},
	} {
		d := taken(t, a)
		c.spoil(&d)
		r := try(t, a, Command{Do: "photo_put", Text: draftText(t, d)})
		assert.Contains(t, r.Error, c.says, name)
	}
	assert.Empty(t, a.doc.Photos)
	for text, says := range map[string]string{"UklGR": "base64", base64.StdEncoding.EncodeToString(make([]byte, 400_000)): "at most 300 kB"} {
		assert.Contains(t, try(t, a, Command{Do: "photo_take", Kind: scene.WebP, Text: text}).Error, says)
	}
	assert.NotEmpty(t, try(t, a, Command{Do: "photo_put", Text: "{"}).Error)
	for _, do := range []string{"photo_get", "photo_show", "photo_remove"} {
		assert.NotEmpty(t, try(t, a, Command{Do: do, Key: "photo-9"}).Error, do)
	}
}

// A fault of an entry names it, so that it can be said where it was typed.
func TestFaultOfAPhotoNamesItsEntry(t *testing.T) {
	a, _ := yard(t)
	for name, c := range map[string]struct {
		spoil func(*PhotoDraft)
		field string
		says  string
	}{
		"width":  {func(d *PhotoDraft) { d.Wide = "" }, "wide", "Type the rectangle's width."},
		"height": {func(d *PhotoDraft) { d.High = "-3" }, "high", "The rectangle's height must be above 0."},
		"place":  {func(d *PhotoDraft) { d.At[1] = "19 in in" }, "at/1", "Where its point lies, above the frame: type a length"},
		"turn":   {func(d *PhotoDraft) { d.Turn = "level" }, "turn", "How far it is turned: type degrees such as 12.5."},
		"station": {func(d *PhotoDraft) { d.View, d.Station = "section", "rear" }, "station",
			"The station it is of: type a length"},
		"further point": {func(d *PhotoDraft) { d.Known = []PhotoDraftPoint{{PX: [2]float64{30, 30}, Right: "4", Up: "up"}} }, "known/0/up",
			"How far up further point 1 lies: "},
		"known length": {func(d *PhotoDraft) {
			d.Checks = []PhotoDraftCheck{{From: [2]float64{20, 20}, To: [2]float64{40, 20}, Length: "long"}}
		}, "checks/0", "Known length 1: "},
		"the picture's points": {func(d *PhotoDraft) { d.Points = nil }, "", "Name all 4 points"},
	} {
		d := taken(t, a)
		c.spoil(&d)
		for _, do := range []string{"photo_try", "photo_put"} {
			r := try(t, a, Command{Do: do, Text: draftText(t, d)})
			assert.Equal(t, c.field, r.Field, name)
			assert.Contains(t, r.Error, c.says, name)
		}
	}
}

// A photo comes back for changing as it was put in, in the unit shown.
func TestPhotoIsChanged(t *testing.T) {
	a, _ := photographed(t)
	send(t, a, Command{Do: "units", Text: "in"})
	var d PhotoDraft
	require.NoError(t, json.Unmarshal([]byte(send(t, a, Command{Do: "photo_get", Key: "photo-1"}).Text), &d))
	assert.Equal(t, "23 5/8", d.Wide)
	send(t, a, Command{Do: "photo_put", Text: draftText(t, d)})
	assert.Equal(t, 600.0, a.doc.Photos[0].WideMM, "what was not typed is not rounded to sixteenths")
	assert.Equal(t, scene.Spot{1000, 300}, a.doc.Photos[0].AtMM)
	d.Name, d.Wide, d.High = "Left rail", "24", "16"
	send(t, a, Command{Do: "photo_put", Text: draftText(t, d)})
	require.Len(t, a.doc.Photos, 1)
	assert.Equal(t, "Left rail", a.doc.Photos[0].Name)
	assert.Equal(t, 609.6, a.doc.Photos[0].WideMM)
	assert.Equal(t, "changed the photo Left rail", a.hist.UndoLabel())
	// Saved, opened: a scene with a photo that cannot be made true still opens,
	// and says what is wrong with it.
	text := send(t, a, Command{Do: "save"}).Text
	bad := strings.Replace(text, "[140, 100]", "[20, 60]", 1)
	require.NotEqual(t, text, bad)
	send(t, a, Command{Do: "open", Text: bad, Name: "bad.json"})
	send(t, a, Command{Do: "view", View: "side"})
	assert.Contains(t, a.photoItems()[0].Warnings[0], "Three corners stand in a line")
	assert.Empty(t, photoOps(drawn(t, a)))
}

func BenchmarkPhotoFrame(b *testing.B) {
	a, _ := photographed(b)
	for b.Loop() {
		a.photosHere()
	}
}
