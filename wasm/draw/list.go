package draw

import (
	"github.com/go-gl/mathgl/mgl64"

	"scrubline/wasm/view"
)

// Line widths, CSS pixels: ISO 128-2 has each width twice the next. What is
// cut is wide, what is seen narrow.
const (
	Wide   = 2.4
	Narrow = 1.2
	Fine   = 0.9
)

// Dashes, CSS pixels, on and off in turn: long dashed dotted for centrelines
// and the rim line, dashed for what is hidden (ISO 128-2 line types 04 and 02).
var (
	DashDot = []float64{18, 4, 3, 4}
	Dashed  = []float64{7, 4}
)

// Kind says what an operation does.
type Kind uint8

const (
	FillOp  Kind = iota // a convex polygon
	LineOp              // a polyline
	TextOp              // a line of text
	ClipOp              // from here on, nothing outside Clip is drawn
	PhotoOp             // a photo shines through what is painted
	// Up to the end what follows is painted, onto nothing, into the layer Layer, as
	// large as Clip; it is kept for as long as pictures come Over the last one.
	BeginLayerOp
	EndLayerOp
	LayerOp // the layer as it was painted last
)

// Align is where a text's position lies on it.
type Align uint8

const (
	Left Align = iota
	Centre
	Right
)

// Op is one operation. Which members hold depends on Kind.
type Op struct {
	Kind   Kind
	Pts    []mgl64.Vec2 // polygon or polyline; text: its position on the baseline
	Closed bool
	Width  float64
	Dash   []float64
	Paint  Paint
	Grow   float64 // FillOp: solid this far beyond the polygon, to close seams
	Text   string
	Size   float64
	Bold   bool
	Align  Align
	Clip   view.Rect
	Photo  *Photo
	Layer  LayerID
}

// List is a picture, painted in order.
type List struct {
	Ops []Op
	// Over says that it is painted over the last picture, of which the rest stays.
	Over bool
	// Letters is how large the reader wants letters, against the usual size; 0
	// stands for 1. What measures texts for the picture measures them so large.
	Letters float64
}

// em is a length that grows with the letters: a line's height, a text's size.
func (l *List) em(px float64) float64 {
	if l.Letters > 0 {
		return px * l.Letters
	}
	return px
}

// Fill paints a convex polygon.
func (l *List) Fill(p Paint, grow float64, pts ...mgl64.Vec2) {
	l.Ops = append(l.Ops, Op{Kind: FillOp, Pts: pts, Paint: p, Grow: grow})
}

// FillRect paints a rectangle.
func (l *List) FillRect(p Paint, r view.Rect) { l.Fill(p, 0, corners(r)...) }

func corners(r view.Rect) []mgl64.Vec2 {
	return []mgl64.Vec2{{r.X, r.Y}, {r.X + r.W, r.Y}, {r.X + r.W, r.Y + r.H}, {r.X, r.Y + r.H}}
}

// Stroke draws an open polyline; dash nil is a full line.
func (l *List) Stroke(p Paint, width float64, dash []float64, pts ...mgl64.Vec2) {
	l.Ops = append(l.Ops, Op{Kind: LineOp, Pts: pts, Width: width, Dash: dash, Paint: p})
}

// Loop draws a closed polyline.
func (l *List) Loop(p Paint, width float64, dash []float64, pts ...mgl64.Vec2) {
	l.Ops = append(l.Ops, Op{Kind: LineOp, Pts: pts, Width: width, Dash: dash, Paint: p, Closed: true})
}

// Text writes one line with its baseline at (x, y), as large as the reader wants
// a size to be.
func (l *List) Text(p Paint, size float64, bold bool, a Align, x, y float64, s string) {
	l.Ops = append(l.Ops, Op{Kind: TextOp, Pts: []mgl64.Vec2{{x, y}}, Paint: p, Size: l.em(size), Bold: bold, Align: a, Text: s})
}

// Clip keeps what follows inside r.
func (l *List) Clip(r view.Rect) { l.Ops = append(l.Ops, Op{Kind: ClipOp, Clip: r}) }

// Measure tells how wide a text is, CSS pixels.
type Measure func(s string, size float64, bold bool) float64

// RoughWidth is a measure for when no face is at hand: a little more than a
// usual text face takes.
func RoughWidth(s string, size float64, bold bool) float64 {
	n := 0
	for range s {
		n++
	}
	w := 0.56
	if bold {
		w = 0.6
	}
	return float64(n) * size * w
}
