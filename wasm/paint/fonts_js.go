//go:build js && wasm

// Package paint is the only importer of the graphics library: it hands the
// triangles of package draw on, and writes text with the page's faces.
package paint

import (
	"fmt"

	"github.com/hajimehoshi/ebiten/v2/text/v2"
	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
)

// Fonts are the two faces, at every size that was asked for.
type Fonts struct {
	fonts [2]*opentype.Font
	faces map[faceKey]*text.GoXFace
}

type faceKey struct {
	size float64
	bold bool
}

// LoadFonts reads the page's faces.
func LoadFonts(regular, bold []byte) (*Fonts, error) {
	f := &Fonts{faces: map[faceKey]*text.GoXFace{}}
	for i, b := range [2][]byte{regular, bold} {
		face, err := opentype.Parse(b)
		if err != nil {
			return nil, fmt.Errorf("window.scrubFonts.%s: expected a TrueType or OpenType font: %w", [2]string{"regular", "bold"}[i], err)
		}
		f.fonts[i] = face
	}
	return f, nil
}

// face is the face at a size in device pixels.
func (f *Fonts) face(size float64, bold bool) *text.GoXFace {
	key := faceKey{size, bold}
	if x := f.faces[key]; x != nil {
		return x
	}
	k := 0
	if bold {
		k = 1
	}
	face, err := opentype.NewFace(f.fonts[k], &opentype.FaceOptions{Size: size, DPI: 72, Hinting: font.HintingNone})
	if err != nil {
		return nil
	}
	x := text.NewGoXFace(face)
	f.faces[key] = x
	return x
}

// Measure is the width of a text at a size, in the size's unit.
func (f *Fonts) Measure(s string, size float64, bold bool) float64 {
	x := f.face(size, bold)
	if x == nil {
		return 0
	}
	return text.Advance(s, x)
}
