//go:build js && wasm

package paint

import (
	"image"
	"image/color"
	"math"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"

	"scrubline/wasm/app"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// Run shows the application until the page is closed.
func Run(a *app.App, fonts *Fonts) error {
	ebiten.SetTPS(ebiten.SyncWithFPS)
	ebiten.SetScreenClearedEveryFrame(false)
	g := &game{app: a, fonts: fonts, white: whiteImage()}
	return ebiten.RunGameWithOptions(g, &ebiten.RunGameOptions{InitUnfocused: true, DisableHiDPI: true})
}

type game struct {
	app    *app.App
	fonts  *Fonts
	white  *ebiten.Image
	mesh   draw.Mesh
	verts  []ebiten.Vertex
	photos photoStore
	layers layerStore
	drawn  bool    // the first picture is there
	scale  float64 // device pixels per CSS pixel
	w, h   int
}

// whiteImage is the middle of a white square: sampling never reaches its rim.
func whiteImage() *ebiten.Image {
	img := ebiten.NewImage(3, 3)
	img.Fill(color.White)
	return img.SubImage(image.Rect(1, 1, 2, 2)).(*ebiten.Image)
}

// Layout takes device pixels (the page reports them as the size of the
// canvas's host) and tells the application its size in CSS pixels.
func (g *game) Layout(w, h int) (int, int) {
	if s := hostScale(w); w != g.w || h != g.h || s != g.scale {
		g.w, g.h, g.scale = w, h, s
		g.app.Resize(float64(w)/s, float64(h)/s)
	}
	return w, h
}

// hostScale is device pixels per CSS pixel: the width the page reports against
// the canvas's width on the page.
func hostScale(w int) float64 {
	c := js.Global().Get("document").Call("querySelector", "canvas")
	if !c.Truthy() {
		return 1
	}
	css := c.Call("getBoundingClientRect").Get("width").Float()
	if css <= 0 || w <= 0 {
		return 1
	}
	// A fraction of a percent is rounding of the width, not a scale.
	return math.Round(float64(w)/css*100) / 100
}

// Update lets the application do what waits for the next frame; the first picture
// comes before all of it.
func (g *game) Update() error {
	if g.drawn {
		g.app.Tick()
	}
	return nil
}

// Draw repaints when something changed; otherwise the last picture stays.
func (g *game) Draw(screen *ebiten.Image) {
	list := g.app.Frame()
	if list == nil {
		return
	}
	g.drawn = true
	pal := g.app.Palette()
	if !list.Over {
		g.layers.forget()
		screen.Fill(rgba(draw.Paint{Tone: draw.Desk}.Colour(pal)))
	}
	target, beneath := screen, screen
	g.mesh.Reset()
	g.mesh.Scale = g.scale
	for i := range list.Ops {
		op := &list.Ops[i]
		switch op.Kind {
		case draw.ClipOp:
			g.flush(target)
			target = screen.SubImage(g.device(op.Clip)).(*ebiten.Image)
			g.mesh.Clip = op.Clip
		case draw.BeginLayerOp:
			g.flush(target)
			beneath, target = target, g.layers.begin(op.Layer, g.device(op.Clip))
		case draw.EndLayerOp:
			g.flush(target)
			target = beneath
		case draw.LayerOp:
			g.flush(target)
			g.layers.show(target, op.Layer)
		case draw.PhotoOp:
			g.flush(target)
			g.photo(target, op.Photo, pal)
		case draw.TextOp:
			g.flush(target)
			g.text(target, op, pal)
		default:
			if g.mesh.Add(op, pal) {
				g.flush(target)
				g.mesh.Add(op, pal)
			}
		}
	}
	g.flush(target)
}

func (g *game) device(r view.Rect) image.Rectangle {
	s := g.scale
	return image.Rect(int(math.Floor(r.X*s)), int(math.Floor(r.Y*s)), int(math.Ceil((r.X+r.W)*s)), int(math.Ceil((r.Y+r.H)*s)))
}

// flush hands the mesh on and empties it.
func (g *game) flush(target *ebiten.Image) {
	if len(g.mesh.I) == 0 {
		return
	}
	g.verts = g.verts[:0]
	for _, v := range g.mesh.V {
		g.verts = append(g.verts, ebiten.Vertex{DstX: v.X, DstY: v.Y, SrcX: 1, SrcY: 1,
			ColorR: v.R, ColorG: v.G, ColorB: v.B, ColorA: v.A})
	}
	opts := &ebiten.DrawTrianglesOptions{ColorScaleMode: ebiten.ColorScaleModePremultipliedAlpha}
	target.DrawTriangles(g.verts, g.mesh.I, g.white, opts)
	g.mesh.Reset()
}

// text writes a line; the operation's position is on the baseline.
func (g *game) text(target *ebiten.Image, op *draw.Op, pal *draw.Palette) {
	face := g.fonts.face(op.Size*g.scale, op.Bold)
	if face == nil {
		return
	}
	x, y := op.Pts[0][0]*g.scale, op.Pts[0][1]*g.scale
	switch op.Align {
	case draw.Centre:
		x -= face.width(op.Text) / 2
	case draw.Right:
		x -= face.width(op.Text)
	}
	var tint ebiten.ColorScale
	tint.ScaleWithColor(rgba(op.Paint.Colour(pal)))
	face.draw(target, op.Text, x, y, tint)
}

func rgba(c draw.RGBA) color.RGBA {
	b := func(v float32) uint8 { return uint8(v*255 + 0.5) }
	return color.RGBA{b(c.R), b(c.G), b(c.B), 255}
}
