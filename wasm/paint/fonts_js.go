//go:build js && wasm

// Package paint is the only importer of the graphics library: it hands the
// triangles of package draw on, and writes text with the page's faces.
package paint

import (
	"fmt"
	"image"
	"math"

	"github.com/hajimehoshi/ebiten/v2"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
)

// Fonts are the two faces, at every size that was asked for. Ebiten's own text
// package would bring a shaping engine along, three megabytes of it, that labels
// in Latin letters do not need.
type Fonts struct {
	fonts [2]*opentype.Font
	faces map[faceKey]*face
}

type faceKey struct {
	size float64
	bold bool
}

// face is one typeface at one size, with the glyphs drawn and the lines set so far.
type face struct {
	font.Face
	glyphs map[glyphKey]*glyph
	lines  map[string]*line
}

// line is a line of text as it is set: looking up how letters are paired takes
// longer than to draw them, and most of what a picture says the next one says again.
type line struct {
	runes []rune
	at    []float64 // where each begins, from the pen
	width float64
}

// linesMost is how many lines a face keeps; then it begins anew.
const linesMost = 2000

type glyphKey struct {
	r   rune
	sub int // quarter of a pixel that it begins at
}

// glyph is a drawn letter; image is nil for a space.
type glyph struct {
	image  *ebiten.Image
	dx, dy float64 // from the pen to the image's corner
}

// quarters is how finely letters are placed along a line.
const quarters = 4

// LoadFonts reads the page's faces.
func LoadFonts(regular, bold []byte) (*Fonts, error) {
	f := &Fonts{faces: map[faceKey]*face{}}
	for i, b := range [2][]byte{regular, bold} {
		parsed, err := opentype.Parse(b)
		if err != nil {
			return nil, fmt.Errorf("window.scrubFonts.%s: expected a TrueType or OpenType font: %w", [2]string{"regular", "bold"}[i], err)
		}
		f.fonts[i] = parsed
	}
	return f, nil
}

// face is the face at a size in device pixels.
func (f *Fonts) face(size float64, bold bool) *face {
	key := faceKey{size, bold}
	if x := f.faces[key]; x != nil {
		return x
	}
	k := 0
	if bold {
		k = 1
	}
	drawn, err := opentype.NewFace(f.fonts[k], &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		return nil
	}
	x := &face{Face: drawn, glyphs: map[glyphKey]*glyph{}, lines: map[string]*line{}}
	f.faces[key] = x
	return x
}

// Measure is the width of a text at a size, in the size's unit.
func (f *Fonts) Measure(s string, size float64, bold bool) float64 {
	x := f.face(size, bold)
	if x == nil {
		return 0
	}
	return x.width(s)
}

func (x *face) width(s string) float64 { return x.line(s).width }

// line sets a line of text.
func (x *face) line(s string) *line {
	if k := x.lines[s]; k != nil {
		return k
	}
	if len(x.lines) >= linesMost {
		clear(x.lines)
	}
	k, at, before := &line{}, fixed.Int26_6(0), rune(-1)
	for _, r := range s {
		if before >= 0 {
			at += x.Kern(before, r)
		}
		k.runes, k.at = append(k.runes, r), append(k.at, pixels(at))
		if adv, ok := x.GlyphAdvance(r); ok {
			at += adv
		}
		before = r
	}
	k.width = pixels(at)
	x.lines[s] = k
	return k
}

func pixels(v fixed.Int26_6) float64 { return float64(v) / 64 }

// draw writes a line with its pen starting at (at, base), each letter at the
// nearest quarter of a pixel.
func (x *face) draw(target *ebiten.Image, s string, at, base float64, tint ebiten.ColorScale) {
	k := x.line(s)
	for i, r := range k.runes {
		step := math.Round((at + k.at[i]) * quarters)
		whole := math.Floor(step / quarters)
		if g := x.glyph(r, int(step-whole*quarters)); g != nil && g.image != nil {
			opts := &ebiten.DrawImageOptions{ColorScale: tint}
			opts.GeoM.Translate(whole+g.dx, math.Round(base)+g.dy)
			target.DrawImage(g.image, opts)
		}
	}
}

// glyph draws a letter once for each quarter of a pixel it is asked for at.
func (x *face) glyph(r rune, sub int) *glyph {
	key := glyphKey{r, sub}
	if g, ok := x.glyphs[key]; ok {
		return g
	}
	box, mask, at, _, ok := x.Glyph(fixed.Point26_6{X: fixed.Int26_6(sub * 64 / quarters)}, r)
	if !ok {
		x.glyphs[key] = nil
		return nil
	}
	g := &glyph{dx: float64(box.Min.X), dy: float64(box.Min.Y)}
	if !box.Empty() {
		g.image = whiteThrough(box, mask, at)
	}
	x.glyphs[key] = g
	return g
}

// whiteThrough is white seen through a mask, alpha multiplied in.
func whiteThrough(box image.Rectangle, mask image.Image, at image.Point) *ebiten.Image {
	out := image.NewRGBA(image.Rect(0, 0, box.Dx(), box.Dy()))
	for y := 0; y < box.Dy(); y++ {
		for x := 0; x < box.Dx(); x++ {
			_, _, _, a := mask.At(at.X+x, at.Y+y).RGBA()
			v, o := byte(a>>8), out.PixOffset(x, y)
			out.Pix[o], out.Pix[o+1], out.Pix[o+2], out.Pix[o+3] = v, v, v, v
		}
	}
	return ebiten.NewImageFromImage(out)
}
