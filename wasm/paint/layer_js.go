//go:build js && wasm

package paint

import (
	"image"

	"github.com/hajimehoshi/ebiten/v2"

	"scrubline/wasm/draw"
)

// layerStore keeps the layers of the pictures that are painted over each other.
type layerStore map[draw.LayerID]*ebiten.Image

// begin is an empty layer as large as r.
func (s *layerStore) begin(id draw.LayerID, r image.Rectangle) *ebiten.Image {
	if *s == nil {
		*s = layerStore{}
	}
	img := (*s)[id]
	switch {
	case img == nil || img.Bounds() != r:
		if img != nil {
			img.Deallocate()
		}
		// Not among the small pictures that the library puts together on one.
		img = ebiten.NewImageWithOptions(r, &ebiten.NewImageOptions{Unmanaged: true})
		(*s)[id] = img
	default:
		img.Clear()
	}
	return img
}

// show paints a layer where it belongs.
func (s *layerStore) show(target *ebiten.Image, id draw.LayerID) {
	if img := (*s)[id]; img != nil {
		opts := &ebiten.DrawImageOptions{}
		opts.GeoM.Translate(float64(img.Bounds().Min.X), float64(img.Bounds().Min.Y))
		target.DrawImage(img, opts)
	}
}

// forget gives back what the layers took.
func (s *layerStore) forget() {
	for _, img := range *s {
		img.Deallocate()
	}
	clear(*s)
}
