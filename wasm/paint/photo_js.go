//go:build js && wasm

package paint

import (
	"image"

	"github.com/hajimehoshi/ebiten/v2"

	"scrubline/wasm/draw"
)

// photoStore keeps the pictures of photos on the graphics processor, by key.
type photoStore map[string]*ebiten.Image

// On paper a photo darkens what is painted, d·(1 − o + o·p), so that dark lines
// stay dark; on the dark sheet it lightens it, 1 − (1 − d)(1 − o·p), so that
// light lines stay light. Colours come multiplied by the opacity.
var (
	darken = ebiten.Blend{
		BlendFactorSourceRGB: ebiten.BlendFactorDestinationColor, BlendFactorDestinationRGB: ebiten.BlendFactorOneMinusSourceAlpha,
		BlendFactorSourceAlpha: ebiten.BlendFactorZero, BlendFactorDestinationAlpha: ebiten.BlendFactorOne,
		BlendOperationRGB: ebiten.BlendOperationAdd, BlendOperationAlpha: ebiten.BlendOperationAdd,
	}
	lighten = ebiten.Blend{
		BlendFactorSourceRGB: ebiten.BlendFactorOneMinusDestinationColor, BlendFactorDestinationRGB: ebiten.BlendFactorOne,
		BlendFactorSourceAlpha: ebiten.BlendFactorZero, BlendFactorDestinationAlpha: ebiten.BlendFactorOne,
		BlendOperationRGB: ebiten.BlendOperationAdd, BlendOperationAlpha: ebiten.BlendOperationAdd,
	}
)

// photo paints a photo over what stands there.
func (g *game) photo(target *ebiten.Image, p *draw.Photo, pal *draw.Palette) {
	img := g.picture(p.Key)
	if img == nil || len(p.Mesh.Index) == 0 {
		return
	}
	o := float32(p.Opacity)
	verts := make([]ebiten.Vertex, len(p.Mesh.To))
	for i, to := range p.Mesh.To {
		from := p.Mesh.From[i]
		verts[i] = ebiten.Vertex{DstX: float32(to[0] * g.scale), DstY: float32(to[1] * g.scale),
			SrcX: float32(from[0]), SrcY: float32(from[1]), ColorR: o, ColorG: o, ColorB: o, ColorA: o}
	}
	blend := darken
	if pal[draw.Paper].R < 0.5 {
		blend = lighten
	}
	target.DrawTriangles(verts, p.Mesh.Index, img, &ebiten.DrawTrianglesOptions{
		ColorScaleMode: ebiten.ColorScaleModePremultipliedAlpha, Filter: ebiten.FilterLinear, Blend: blend})
}

// picture is a picture on the graphics processor; nil while the page has not
// handed it over. Pictures the document has no more are given back.
func (g *game) picture(key string) *ebiten.Image {
	for k, img := range g.photos {
		if !g.app.KeepPicture(k) {
			img.Deallocate()
			delete(g.photos, k)
		}
	}
	if pix, ok := g.app.TakePixels(key); ok {
		if g.photos == nil {
			g.photos = photoStore{}
		}
		img := ebiten.NewImageWithOptions(image.Rect(0, 0, pix.W, pix.H), &ebiten.NewImageOptions{Unmanaged: true})
		img.WritePixels(pix.RGBA) // opaque: a photo has no alpha to multiply by
		g.photos[key] = img
	}
	return g.photos[key]
}
