package draw

import (
	"math"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// textBoxes are the rectangles of the texts of a picture.
func textBoxes(l *List) []view.Rect {
	var out []view.Rect
	for i := range l.Ops {
		op := &l.Ops[i]
		if op.Kind != TextOp {
			continue
		}
		w := RoughWidth(op.Text, op.Size, op.Bold)
		x := op.Pts[0][0] - w*float64(op.Align)/2
		out = append(out, view.Rect{X: x, Y: op.Pts[0][1] - 0.75*op.Size, W: w, H: 0.95 * op.Size})
	}
	return out
}

// Whatever tapes are laid, no word covers a tape, an end of one, or another word.
func TestTapeLabelsCoverNoTape(t *testing.T) {
	written, silent := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		s := tapeSheet{rect: view.Rect{W: 500, H: 400}, measure: RoughWidth}
		at := func() mgl64.Vec2 {
			return mgl64.Vec2{rapid.Float64Range(10, 490).Draw(t, "x"), rapid.Float64Range(10, 390).Draw(t, "y")}
		}
		for range rapid.IntRange(1, 9).Draw(t, "tapes") {
			s.tapes = append(s.tapes, TapeLine{P: at(), Q: at(), Text: "1234.5", More: "300 back, 86 up", Selected: rapid.Bool().Draw(t, "selected")})
		}
		l := &List{}
		p := &Placer{Frame: s.rect.Inset(6)}
		keepTapesClear(p, s.tapes)
		s.compose(l, p)
		boxes := textBoxes(l)
		silent += len(s.tapes)
		for i, r := range boxes {
			written++
			for k := range s.tapes {
				if (Leader{s.tapes[k].P, s.tapes[k].Q}).crosses(r) {
					t.Fatalf("%v lies on tape %v", r, s.tapes[k])
				}
			}
			for _, q := range boxes[:i] {
				if r.Overlaps(q) {
					t.Fatalf("%v lies on %v", r, q)
				}
			}
		}
		for i := range l.Ops {
			if l.Ops[i].Kind == TextOp && l.Ops[i].Bold {
				silent--
			}
		}
	})
	require.NotZero(t, written)
	require.NotZero(t, silent, "every tape was labelled: the test is too easy")
}

// A tape seen on its end is a ring, not a line without length.
func TestATapeSeenOnItsEnd(t *testing.T) {
	s := tapeSheet{rect: view.Rect{W: 500, H: 400}, measure: RoughWidth, tapes: []TapeLine{{P: mgl64.Vec2{200, 200}, Q: mgl64.Vec2{202, 200}, Text: "300"}}}
	l := &List{}
	s.compose(l, &Placer{Frame: s.rect})
	closed := 0
	for i := range l.Ops {
		if l.Ops[i].Closed {
			closed++
		}
	}
	assert.Equal(t, 1, closed)
	require.Len(t, textBoxes(l), 1)
}

// What two squares of 10 share when one is moved by (4, 3): 6 × 7 (by hand); a
// square inside another is itself; apart they share nothing.
func TestWhatTwoPolygonsShare(t *testing.T) {
	a := rect(0, 0, 10, 10)
	assert.InDelta(t, 42, view.Area(common(a, rect(4, 3, 14, 13))), 1e-12)
	assert.InDelta(t, 4, view.Area(common(a, rect(4, 3, 6, 5))), 1e-12)
	assert.InDelta(t, 4, view.Area(common(rect(4, 3, 6, 5), a)), 1e-12)
	assert.Empty(t, common(a, rect(20, 0, 30, 10)))
	// A square and the same turned by 45° about its middle: a regular octagon,
	// 2(√2 − 1) of the square's area.
	r := 5 * math.Sqrt2
	diamond := []fitment.Pt{{5 + r, 5}, {5, 5 + r}, {5 - r, 5}, {5, 5 - r}}
	assert.InDelta(t, 200*(math.Sqrt2-1), view.Area(common(a, diamond)), 1e-9)
}

// A contact is filled where the section cuts both: in the colour of touch.
func TestAContactIsDrawnWhereItHappens(t *testing.T) {
	s := section(-1)
	s.Outs = []fitment.Outline{{Part: 0, Cut: [][]fitment.Pt{rect(0, 0, 100, 100)}}, {Part: 1, Cut: [][]fitment.Pt{rect(60, 20, 200, 80)}}}
	s.Parts = make([]PartLook, 2)
	filled := func() (area float64) {
		l := &List{}
		s.contacts(l)
		for i := range l.Ops {
			require.Equal(t, Touch, l.Ops[i].Paint.Tone)
			var pts []fitment.Pt
			for _, p := range l.Ops[i].Pts {
				pts = append(pts, s.Proj.World(p))
			}
			area += math.Abs(view.Area(pts))
		}
		return area
	}
	assert.Zero(t, filled())
	s.Contacts = [][2]int{{0, 1}}
	assert.InDelta(t, 40*60, filled(), 1e-6)
}

// The outline of a round bar is a radius beside its line, however it lies; on
// its end it is a circle alone.
func TestOutlineOfARoundBar(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a := mgl64.Vec2{rapid.Float64Range(0, 500).Draw(t, "x"), rapid.Float64Range(0, 500).Draw(t, "y")}
		b := a.Add(mgl64.Vec2{rapid.Float64Range(2, 90).Draw(t, "dx"), rapid.Float64Range(-90, 90).Draw(t, "dy")})
		for _, line := range beside([]mgl64.Vec2{a, b}, 7, false) {
			for i, end := range [2]mgl64.Vec2{a, b} {
				if math.Abs(line[i].Sub(end).Len()-7) > 1e-9 || math.Abs(line[i].Sub(end).Dot(b.Sub(a))) > 1e-6 {
					t.Fatalf("%v is not square to the bar at %v", line[i], end)
				}
			}
		}
	})
	assert.Len(t, beside([]mgl64.Vec2{{5, 5}, {5.1, 5}}, 7, true), 2)
	assert.Len(t, beside([]mgl64.Vec2{{5, 5}}, 7, true), 1)
}

// A short gap has its arrows outside, a long one between (ISO 129-1); one that
// is seen on its end has none.
func TestGapLines(t *testing.T) {
	ends := func(gap float64, plain bool) (strokes int, reach float64) {
		l := &List{}
		gapLine(l, Paint{Tone: Tight}, mgl64.Vec2{100, 50}, mgl64.Vec2{100 + gap, 50}, plain)
		for i := range l.Ops {
			for _, p := range l.Ops[i].Pts {
				reach = math.Max(reach, math.Max(100-p[0], p[0]-100-gap))
			}
		}
		return len(l.Ops), reach
	}
	n, reach := ends(80, false)
	assert.Equal(t, 3, n)
	assert.LessOrEqual(t, reach, 0.0, "within the two points")
	_, reach = ends(6, false)
	assert.Greater(t, reach, markSize, "beyond the mark between them")
	n, reach = ends(6, true)
	assert.Equal(t, 1, n)
	assert.LessOrEqual(t, reach, 0.0)
	n, _ = ends(0.5, false)
	assert.Zero(t, n)
}
