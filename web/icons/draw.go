//go:build ignore

// Draws the page's icons: a measuring staff with its saddle and the two marks.
// Run in this folder: go run draw.go
package main

import (
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"log"
	"os"

	"golang.org/x/image/vector"
)

var (
	paper = color.RGBA{0xFA, 0xF9, 0xF5, 255}
	ink   = color.RGBA{0x17, 0x25, 0x2D, 255}
	hand  = color.RGBA{0x0B, 0x5C, 0xAD, 255}
	touch = color.RGBA{0xB8, 0x29, 0x0F, 255}
	tight = color.RGBA{0x85, 0x58, 0x00, 255}
)

type point struct{ x, y float32 }

// sheet is a picture in units of 100 by 100, drawn about its middle at a scale.
type sheet struct {
	img   *image.RGBA
	size  float32
	inner float32
}

// shape fills a polygon.
func (s *sheet) shape(c color.Color, pts ...point) {
	r := vector.NewRasterizer(int(s.size), int(s.size))
	k := s.size / 100
	for i, p := range pts {
		x, y := (50+(p.x-50)*s.inner)*k, (50+(p.y-50)*s.inner)*k
		if i == 0 {
			r.MoveTo(x, y)
		} else {
			r.LineTo(x, y)
		}
	}
	r.ClosePath()
	r.Draw(s.img, s.img.Bounds(), image.NewUniform(c), image.Point{})
}

func (s *sheet) box(c color.Color, x, y, w, h float32) {
	s.shape(c, point{x, y}, point{x + w, y}, point{x + w, y + h}, point{x, y + h})
}

// icon draws one of size pixels; inner shrinks the picture to leave a rim that
// a device may cut away (W3C manifest: the inner 80 % of a maskable icon stays).
func icon(name string, size int, inner float32) {
	s := &sheet{image.NewRGBA(image.Rect(0, 0, size, size)), float32(size), inner}
	draw.Draw(s.img, s.img.Bounds(), image.NewUniform(paper), image.Point{}, draw.Src)
	s.box(ink, 34, 8, 5, 84)
	for i := range 8 {
		y, w := float32(12+i*10), float32(11)
		if i%2 == 0 {
			w = 20
		}
		s.box(ink, 39, y, w, 3.4)
	}
	s.box(ink, 8, 88, 84, 5)
	s.box(hand, 20, 41, 62, 18)
	s.shape(touch, point{74, 62}, point{86, 74}, point{74, 86}, point{62, 74})
	s.shape(tight, point{74, 13}, point{87, 35}, point{61, 35})
	s.shape(paper, point{74, 20.5}, point{80.2, 31.2}, point{67.8, 31.2})
	f, err := os.Create(name)
	if err != nil {
		log.Fatal(err)
	}
	if err := png.Encode(f, s.img); err != nil {
		log.Fatal(err)
	}
	if err := f.Close(); err != nil {
		log.Fatal(err)
	}
}

func main() {
	icon("icon-192.png", 192, 1)
	icon("icon-512.png", 512, 1)
	icon("maskable-192.png", 192, 0.66)
	icon("maskable-512.png", 512, 0.66)
}
