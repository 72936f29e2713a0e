package draw

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/wasm/view"
)

// coverage is the area of all triangles, weighted with their mean alpha: what
// the painted ink weighs.
func coverage(m *Mesh) float64 {
	sum := 0.0
	for i := 0; i+2 < len(m.I); i += 3 {
		a, b, c := m.V[m.I[i]], m.V[m.I[i+1]], m.V[m.I[i+2]]
		area := math.Abs(float64((b.X-a.X)*(c.Y-a.Y)-(b.Y-a.Y)*(c.X-a.X))) / 2
		sum += area * float64(a.A+b.A+c.A) / 3
	}
	return sum
}

func TestFillWeighsItsArea(t *testing.T) {
	for _, scale := range []float64{1, 2} {
		m := &Mesh{Scale: scale}
		op := Op{Kind: FillOp, Pts: []mgl64.Vec2{{0, 0}, {100, 0}, {100, 50}, {0, 50}}}
		require.False(t, m.Add(&op, &Light))
		require.InEpsilon(t, 5000*scale*scale, coverage(m), 0.01)
		m.Reset()
		op.Pts = []mgl64.Vec2{{0, 0}, {0, 50}, {100, 50}, {100, 0}}
		m.Add(&op, &Light)
		require.InEpsilon(t, 5000*scale*scale, coverage(m), 0.01, "turning the other way")
	}
}

func TestLineWeighsLengthTimesWidth(t *testing.T) {
	for _, width := range []float64{0.5, 1.2, 2.4} {
		m := &Mesh{Scale: 2}
		m.Add(&Op{Kind: LineOp, Width: width, Pts: []mgl64.Vec2{{0, 0}, {60, 80}}}, &Light)
		require.InEpsilon(t, 100*width*4, coverage(m), 0.01, "width %v", width)
	}
	m := &Mesh{Scale: 1}
	m.Add(&Op{Kind: LineOp, Width: 2, Closed: true, Pts: []mgl64.Vec2{{0, 0}, {100, 0}, {100, 100}, {0, 100}}}, &Light)
	require.InEpsilon(t, 800, coverage(m), 0.01, "mitred corners neither double nor gape")
}

func TestMeshLeavesOutWhatDoesNotShow(t *testing.T) {
	m := &Mesh{Scale: 1, Clip: view.Rect{X: 0, Y: 0, W: 100, H: 100}}
	m.Add(&Op{Kind: LineOp, Width: 2, Pts: []mgl64.Vec2{{150, 0}, {150, 90}}}, &Light)
	require.Empty(t, m.V)
	m.Add(&Op{Kind: LineOp, Width: 2, Pts: []mgl64.Vec2{{-50, 50}, {150, 50}}}, &Light)
	require.NotEmpty(t, m.V, "it runs through")
}

func TestMeshStaysWithinSixteenBits(t *testing.T) {
	m := &Mesh{Scale: 1}
	var pts []mgl64.Vec2
	for i := range 3000 {
		pts = append(pts, mgl64.Vec2{float64(i), float64(i % 7)})
	}
	op := Op{Kind: LineOp, Width: 2, Pts: pts}
	added := 0
	for !m.Add(&op, &Light) {
		added++
		require.LessOrEqual(t, len(m.V), MaxVertices)
		require.Less(t, added, 100, "never said it was full")
	}
	require.Positive(t, added)
	m.Reset()
	require.False(t, m.Add(&op, &Light), "fits again once handed on")
}

// What is on in a dashed line is the pattern's share of its length.
func TestDashesShareOfTheLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pts := []mgl64.Vec2{{0, 0}}
		length := 0.0
		for range rapid.IntRange(1, 6).Draw(t, "n") {
			d := mgl64.Vec2{rapid.Float64Range(-300, 300).Draw(t, "dx"), rapid.Float64Range(1, 300).Draw(t, "dy")}
			pts = append(pts, pts[len(pts)-1].Add(d))
			length += d.Len()
		}
		on := 0.0
		for _, d := range Dashes(pts, false, Dashed) {
			for i := 1; i < len(d); i++ {
				on += d[i].Sub(d[i-1]).Len()
			}
		}
		period := Dashed[0] + Dashed[1]
		want := math.Floor(length/period)*Dashed[0] + math.Min(math.Mod(length, period), Dashed[0])
		if math.Abs(on-want) > 0.01 {
			t.Fatalf("%v on, want %v of %v", on, want, length)
		}
	})
}

// Text and marks must be read in sunlight and in the dark. The ratio of
// luminances and its limits are those of WCAG 2.1, success criteria 1.4.3
// (text, 4.5) and 1.4.11 (graphics, 3).
func TestContrast(t *testing.T) {
	for name, pal := range map[string]*Palette{"light": &Light, "dark": &Dark} {
		for tone, least := range map[Tone]float64{Ink: 7, Soft: 4.5, Hand: 4.5, Touch: 4.5, Tight: 4.5, Room: 4.5, Line: 3} {
			require.GreaterOrEqual(t, contrast(pal[tone], pal[Paper]), least, "%s, tone %d on paper", name, tone)
		}
		require.GreaterOrEqual(t, contrast(Paint{Tone: Soft, Fade: tickFade}.Colour(pal), pal[Paper]), 4.5, "%s, the staff's ticks", name)
		require.GreaterOrEqual(t, contrast(pal[OnHand], pal[Hand]), 4.5, "%s: text on the saddle", name)
		require.GreaterOrEqual(t, contrast(pal[Hand], pal[HandWash]), 4.5, "%s: the selected part's name", name)
	}
}

func contrast(a, b RGBA) float64 {
	l := func(c RGBA) float64 {
		f := func(v float32) float64 {
			if v <= 0.03928 {
				return float64(v) / 12.92
			}
			return math.Pow((float64(v)+0.055)/1.055, 2.4)
		}
		return 0.2126*f(c.R) + 0.7152*f(c.G) + 0.0722*f(c.B)
	}
	x, y := l(a), l(b)
	if x < y {
		x, y = y, x
	}
	return (x + 0.05) / (y + 0.05)
}

func TestFadeMixesTowardsThePaper(t *testing.T) {
	require.Equal(t, Light[Ink], Paint{Tone: Ink}.Colour(&Light))
	p := Paint{Tone: Ink, Fade: 1}.Colour(&Light)
	require.InDelta(t, float64(Light[Paper].R), float64(p.R), 1e-6)
}
