package scene

import (
	"bytes"
	"encoding/base64"
	"encoding/binary"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// jpegOf is the head of a JPEG of a size, and filling: what is read of a
// picture. An APP0 segment, a quantization table and the frame header follow
// each other (ITU-T T.81, B.2).
func jpegOf(wide, high, filling int) string {
	var b bytes.Buffer
	b.Write([]byte{0xFF, 0xD8})
	b.Write([]byte{0xFF, 0xE0, 0, 16, 'J', 'F', 'I', 'F', 0, 1, 1, 0, 0, 1, 0, 1, 0, 0})
	b.Write([]byte{0xFF, 0xDB, 0, 67, 0})
	b.Write(make([]byte, 64))
	b.Write([]byte{0xFF, 0xFF, 0xC2, 0, 17, 8}) // a fill byte, a progressive frame
	b.Write(binary.BigEndian.AppendUint16(nil, uint16(high)))
	b.Write(binary.BigEndian.AppendUint16(nil, uint16(wide)))
	b.Write([]byte{3, 1, 0x22, 0, 2, 0x11, 1, 3, 0x11, 1})
	b.Write(bytes.Repeat([]byte{0x5A}, filling))
	return base64.StdEncoding.EncodeToString(b.Bytes())
}

// webpOf is a WebP's head of one of the three kinds of first chunk (RFC 9649).
func webpOf(chunk string, wide, high int) string {
	data := make([]byte, 40)
	copy(data, "RIFF....WEBP"+chunk)
	le := binary.LittleEndian
	switch chunk {
	case "VP8 ":
		copy(data[23:], []byte{0x9D, 0x01, 0x2A})
		le.PutUint16(data[26:], uint16(wide))
		le.PutUint16(data[28:], uint16(high))
	case "VP8L":
		data[20] = 0x2F
		le.PutUint32(data[21:], uint32(wide-1)|uint32(high-1)<<14)
	case "VP8X":
		copy(data[24:], []byte{byte(wide - 1), byte((wide - 1) >> 8), 0, byte(high - 1), byte((high - 1) >> 8), 0})
	}
	return base64.StdEncoding.EncodeToString(data)
}

func pictureOf(t testing.TB, kind, text string) *Picture {
	t.Helper()
	p, err := NewPicture(kind, text)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func TestPicturesTellTheirSize(t *testing.T) {
	for _, c := range []struct{ name, kind, text string }{
		{"JPEG", JPEG, jpegOf(1600, 1200, 100)},
		{"WebP, lossy", WebP, webpOf("VP8 ", 1600, 1200)},
		{"WebP, lossless", WebP, webpOf("VP8L", 1600, 1200)},
		{"WebP, extended", WebP, webpOf("VP8X", 1600, 1200)},
	} {
		p := pictureOf(t, c.kind, c.text)
		if w, h := p.Size(); w != 1600 || h != 1200 || p.Kind() != c.kind || p.Base64() != c.text {
			t.Errorf("%s: %d by %d", c.name, w, h)
		}
	}
	a, b := pictureOf(t, JPEG, jpegOf(1600, 1200, 100)), pictureOf(t, JPEG, jpegOf(1600, 1200, 101))
	if a.Key() == b.Key() || a.Key() != pictureOf(t, JPEG, jpegOf(1600, 1200, 100)).Key() {
		t.Error("keys do not tell pictures apart, or not only those")
	}
}

func TestWhatIsNoPictureIsRefused(t *testing.T) {
	good := jpegOf(1600, 1200, 100)
	raw, err := base64.StdEncoding.DecodeString(good)
	if err != nil {
		t.Fatal(err)
	}
	encoded := base64.StdEncoding.EncodeToString
	for _, c := range []struct{ name, kind, text, says string }{
		{"another type", "image/png", good, `image/jpeg or image/webp, found "image/png"`},
		{"a type that is not so", WebP, good, "a picture of type image/webp"},
		{"a page", JPEG, encoded([]byte(strings.Repeat("<script>", 9))), "a picture of type image/jpeg"},
		{"no base64", JPEG, good[:40] + "*" + good[41:], "base64 text"},
		{"a line break", JPEG, good[:40] + "\n" + good[40:], "base64 text"},
		{"cut off before the frame", JPEG, encoded(raw[:60]), "a picture of type image/jpeg"},
		{"nothing", JPEG, "", "a picture of type image/jpeg"},
		{"too many bytes", JPEG, jpegOf(1600, 1200, MaxPictureBytes), "at most 300 kB"},
		{"too many pixels", JPEG, jpegOf(40000, 30000, 10), "found 40000 by 30000"},
		{"no pixels", JPEG, jpegOf(0, 1200, 10), "found 0 by 1200"},
		{"a moving picture", WebP, func() string {
			d, _ := base64.StdEncoding.DecodeString(webpOf("VP8X", 100, 100))
			d[20] = 2
			return encoded(d)
		}(), "a picture of type image/webp"},
	} {
		if _, err := NewPicture(c.kind, c.text); err == nil || !strings.Contains(err.Error(), c.says) || strings.Contains(err.Error(), "\n") {
			t.Errorf("%s: %v", c.name, err)
		}
	}
	// Any bytes are answered, and none makes it read beyond their end.
	rapid.Check(t, func(t *rapid.T) {
		head := rapid.SampledFrom([][]byte{raw[:rapid.IntRange(0, 100).Draw(t, "cut")], []byte("RIFF\x00\x00\x00\x00WEBPVP8X"), {}}).Draw(t, "head")
		data := append(append([]byte{}, head...), rapid.SliceOfN(rapid.Byte(), 0, 60).Draw(t, "rest")...)
		for _, kind := range []string{JPEG, WebP} {
			if p, err := NewPicture(kind, encoded(data)); err == nil && p.wide*p.high == 0 {
				t.Fatalf("a picture of %d by %d", p.wide, p.high)
			}
		}
	})
}

// somePhotos are a photo made true by a rectangle and one by two ends.
func somePhotos(t testing.TB) []Photo {
	pic := pictureOf(t, JPEG, jpegOf(1600, 1200, 300))
	return []Photo{
		{ID: "photo-1", Name: "Left rail", View: PhotoSection, StationMM: 2100, Picture: pic,
			Corners: [4]Spot{{100.5, 900}, {1200, 880}, {1190, 300}, {110, 310}}, WideMM: 600, HighMM: 400,
			Known:  []PhotoPoint{{Spot{650, 890}, Spot{300, 0}}},
			Checks: []PhotoCheck{{Spot{100, 900}, Spot{1190, 300}, 721}},
			AtPX:   Spot{100.5, 900}, AtMM: Spot{-350, 20}, TurnDeg: 1.5, Mirrored: true, Opacity: 0.6},
		{ID: "photo-2", Name: "Side", View: PhotoSide, Picture: pic, Ends: [2]Spot{{0, 600}, {1600, 600}}, LengthMM: 2950,
			AtPX: Spot{0, 600}, AtMM: Spot{0, 0}, Opacity: 1, Hidden: true},
	}
}

func withPhotos(t testing.TB) *Document {
	doc := New()
	doc.Photos = somePhotos(t)
	if err := doc.Validate(); err != nil {
		t.Fatal(err)
	}
	return doc
}

func TestPhotosSurviveSaving(t *testing.T) {
	doc := withPhotos(t)
	fixedPoint(t, doc)
	again, err := Decode(Encode(doc))
	if err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(doc.Photos, again.Photos) {
		t.Errorf("opened, they are other photos:\n%+v\n%+v", doc.Photos, again.Photos)
	}
	if err := accepts(compiled(t), Encode(doc)); err != nil {
		t.Error(err)
	}
	if strings.Contains(string(Encode(New())), "photos") {
		t.Error("a scene without photos speaks of them")
	}
}

// Each fault of a photo in a file is told with its place.
func TestBrokenPhotosGiveTheirPlace(t *testing.T) {
	good := string(Encode(withPhotos(t)))
	if _, err := Decode([]byte(good)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		old, new, place, says string
		schemaSees            bool
	}{
		{`"size_px": [1600, 1200]`, `"size_px": [1600, 1199]`, "/photos/0/size_px", "1600 by 1200", false},
		{`"view": "side"`, `"view": "top"`, "/photos/1/view", "section, side or plan", true},
		{`"type": "image/jpeg"`, `"type": "image/gif"`, "/photos/0/base64", "image/gif", true},
		{`"corners_px": [[100.5, 900], `, `"corners_px": [`, "/photos/0/corners_px", "4 points", true},
		{`"corners_px": [[100.5, 900]`, `"corners_px": [[1600.5, 900]`, "/photos/0/corners_px/0/0", "1600.5", false},
		{`"corners_px": [[100.5, 900]`, `"corners_px": [[100.5]`, "/photos/0/corners_px/0", "two numbers", true},
		{`"wide_mm": 600`, `"wide_mm": 0`, "/photos/0/wide_mm", "0", true},
		{`"length_mm": 2950`, `"length_mm": 0`, "/photos/1/length_mm", "0", true},
		{`"length_mm": 2950`, `"length_mm": 2950, "wide_mm": 4`, "/photos/1/wide_mm", "two ends", true},
		{`"ends_px": [[0, 600], [1600, 600]],`, ``, "/photos/1/ends_px", "this field", true},
		{`"opacity": 0.6`, `"opacity": 0`, "/photos/0/opacity", "0", true},
		{`"hidden": true`, `"hidden": "yes"`, "/photos/1/hidden", "true or false", true},
		{`"id": "photo-2"`, `"id": "photo-1"`, "/photos/1/id", "an id of its own", false},
		{`"at_px": [0, 600],`, `"at_px": [0, 600], "frame": 3,`, "/photos/1/frame", "known field", true},
		{`"at_px": [0, 600],`, `"at_px": [0, 600], "station_mm": 3,`, "/photos/1/station_mm", "3", false},
		{`"mm": [300, 0]`, `"mm": [300, 90000]`, "/photos/0/known/0/mm/1", "90000", true},
	} {
		if strings.Count(good, c.old) == 0 {
			t.Fatalf("%s is not in the file", c.old)
		}
		bad := []byte(strings.Replace(good, c.old, c.new, 1))
		_, err := Decode(bad)
		if err == nil {
			t.Errorf("%s is taken", c.new)
			continue
		}
		expectPlace(t, bad, c.place, c.says)
		if sees := accepts(compiled(t), bad) != nil; sees != c.schemaSees {
			t.Errorf("%s: the schema sees it: %v", c.new, sees)
		}
	}
	many := withPhotos(t)
	for i := range MaxPhotos {
		p := many.Photos[0]
		p.ID = fmt.Sprintf("p%d", i)
		many.Photos = append(many.Photos, p)
	}
	if err := many.Validate(); err == nil || !strings.Contains(err.Error(), "at most 8 photos") {
		t.Error(err)
	}
}

func TestPhotoEdits(t *testing.T) {
	doc := withPhotos(t)
	edit := func(f func(*Document) (*Document, string, error), label string) *Document {
		t.Helper()
		next, said := edited(t, doc, f)
		if said != label {
			t.Errorf("%q, want %q", said, label)
		}
		return next
	}
	change := func(field, text, label string) *Photo {
		t.Helper()
		next := edit(func(d *Document) (*Document, string, error) { return ChangePhoto(d, "photo-1", field, text) }, label)
		return next.PhotoNamed("photo-1")
	}
	if p := change("opacity", "0.35", "set the strength of the photo Left rail"); p.Opacity != 0.35 {
		t.Error(p.Opacity)
	}
	if p := change("hidden", "true", "hid the photo Left rail"); !p.Hidden {
		t.Error("still shown")
	}
	if p := change("at_mm/1", "2 in", "moved the photo Left rail"); p.AtMM != (Spot{-350, 50.8}) {
		t.Error(p.AtMM)
	}
	if p := change("turn_deg", "-3°", "turned the photo Left rail"); p.TurnDeg != -3 {
		t.Error(p.TurnDeg)
	}
	if p := change("name", " Rail ", "changed the photo Rail"); p.Name != "Rail" {
		t.Error(p.Name)
	}
	gone := edit(func(d *Document) (*Document, string, error) { return RemovePhoto(d, "photo-1") }, "removed the photo Left rail")
	if len(gone.Photos) != 1 || gone.Photos[0].ID != "photo-2" {
		t.Error(gone.Photos)
	}
	added := edit(func(d *Document) (*Document, string, error) {
		p := d.Photos[0]
		p.ID, p.Name = "", ""
		return PutPhoto(d, p)
	}, "put in the photo Photo 3")
	if len(added.Photos) != 3 || added.Photos[2].ID != "photo-3" {
		t.Error(added.Photos)
	}
	for _, bad := range [][2]string{{"opacity", "3"}, {"opacity", "much"}, {"at_mm/0", "x"}, {"turn_deg", "900"}, {"name", " "}, {"base64", ""}} {
		if _, _, err := ChangePhoto(doc, "photo-1", bad[0], bad[1]); err == nil {
			t.Errorf("%v is taken", bad)
		}
	}
	for _, f := range []func() error{
		func() error { _, _, err := ChangePhoto(doc, "nobody", "name", "x"); return err },
		func() error { _, _, err := RemovePhoto(doc, "nobody"); return err },
		func() error { _, _, err := MovePhoto(doc, "nobody", Spot{}); return err },
	} {
		if f() == nil {
			t.Error("a photo that is not there is changed")
		}
	}
}

// A thousand steps share one picture: what a step costs does not depend on it.
func TestStepsShareThePicture(t *testing.T) {
	doc := withPhotos(t)
	h := NewHistory(doc)
	for i := range MaxSteps {
		next, label, err := MovePhoto(h.Doc(), "photo-1", Spot{float64(i), 0})
		if err != nil {
			t.Fatal(err)
		}
		h.Do(next, label)
	}
	for range MaxSteps {
		if h.Doc().Photos[0].Picture != doc.Photos[0].Picture {
			t.Fatal("a step has a picture of its own")
		}
		h.Undo()
	}
	small := testing.AllocsPerRun(20, func() { MovePhoto(doc, "photo-1", Spot{1, 2}) })
	big := *doc
	big.Photos = append([]Photo(nil), doc.Photos...)
	big.Photos[0].Picture = pictureOf(t, JPEG, jpegOf(1600, 1200, 290_000))
	if large := testing.AllocsPerRun(20, func() { MovePhoto(&big, "photo-1", Spot{1, 2}) }); large != small {
		t.Errorf("a step with a large picture takes %v allocations, with a small one %v", large, small)
	}
}

func BenchmarkOpenEightPhotos(b *testing.B) {
	doc := withPhotos(b)
	pic := pictureOf(b, JPEG, jpegOf(1600, 1200, 290_000))
	for i := range MaxPhotos {
		p := doc.Photos[0]
		p.ID, p.Picture = fmt.Sprintf("p%d", i), pic
		doc.Photos = append(doc.Photos[:i:i], p)
	}
	data := Encode(doc)
	b.Run("open", func(b *testing.B) {
		for b.Loop() {
			if _, err := Decode(data); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("save", func(b *testing.B) {
		for b.Loop() {
			Encode(doc)
		}
	})
	b.Run("validate", func(b *testing.B) {
		for b.Loop() {
			if err := doc.Validate(); err != nil {
				b.Fatal(err)
			}
		}
	})
}
