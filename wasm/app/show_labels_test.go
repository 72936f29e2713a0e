package app

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// written is a text of the drawing and the rectangle its letters stand in.
type written struct {
	op  *draw.Op
	box view.Rect
}

func textsOf(a *App, l *draw.List) []written {
	var out []written
	for i := range l.Ops {
		op := &l.Ops[i]
		if op.Kind == draw.TextOp {
			w := a.face(op.Text, op.Size, op.Bold)
			out = append(out, written{op, view.Rect{X: op.Pts[0][0] - w*float64(op.Align)/2, Y: op.Pts[0][1] - 0.74*op.Size, W: w, H: 0.92 * op.Size}})
		}
	}
	return out
}

// labelled is the demo van with tapes laid across it.
func labelled(t *testing.T) *App {
	t.Helper()
	a := van(t)
	lay := func(from, to scene.TapeEnd) {
		doc, label, err := scene.AddTape(a.doc, "Tape", from, to)
		require.NoError(t, err)
		require.NoError(t, a.commit(doc, label))
	}
	wheel := func(c scene.Carrier) scene.TapeEnd { return scene.TapeEnd{Datum: string(c)} }
	part := func(id string) scene.TapeEnd {
		return scene.TapeEnd{Part: id, Feature: a.model.Features(a.partIndex(id), a.state())[0].Name}
	}
	lay(wheel(scene.WheelFL), wheel(scene.WheelRR))
	lay(part("air_tank"), part("driveshaft"))
	lay(part("air_tank"), scene.TapeEnd{Datum: scene.GroundDatum})
	lay(part("battery"), part("air_tank"))
	frame(a)
	return a
}

// At every height, in every drawing, on every screen: no words on words, none on
// a mark they or others measure, none across a tape, and a part's name lies
// wholly within it or wholly beside it.
func TestLabelsOverlapNothingTheyName(t *testing.T) {
	a := labelled(t)
	seen := map[string]int{}
	for _, size := range [][2]float64{{828, 746}, {788, 640}, {374, 580}} {
		a.Resize(size[0], size[1])
		for _, v := range []string{"section", "side", "plan", "front"} {
			send(t, a, Command{Do: "view", View: v})
			for _, h := range a.doc.Heights {
				send(t, a, Command{Do: "named", Key: h.ID})
				for _, station := range []float64{800, 2300, 2950} {
					if v != "section" && station != 2300 {
						continue
					}
					send(t, a, Command{Do: "station", MM: station})
					for _, id := range []string{"", "air_tank"} {
						send(t, a, Command{Do: "select", Part: id})
						what := fmt.Sprintf("%v %s %s %v %q", size, v, h.ID, station, id)
						lookForOverlaps(t, a, what, seen)
					}
				}
			}
		}
	}
	for _, kind := range []string{"text", "mark", "tape", "beside"} {
		assert.Greater(t, seen[kind], 20, "hardly any %s was looked at", kind)
	}
	assert.NotZero(t, seen["within"])
}

// Where a finding leads, names stand at their own parts, and what the page lays
// over the drawing hides no words: the way back after a finding moved the body,
// and the variant that is shown.
func TestNamesWhereAFindingLeads(t *testing.T) {
	a := van(t)
	doc, label, err := scene.AddVariant(a.doc, "Rear bay")
	require.NoError(t, err)
	require.NoError(t, a.commit(doc, label))
	frame(a)
	looked := 0
	for _, size := range [][2]float64{{828, 746}, {788, 640}, {374, 580}, {374, 280}, {240, 280}} {
		a.Resize(size[0], size[1])
		send(t, a, Command{Do: "named", Key: scene.Ride})
		for _, f := range a.findingItems() {
			send(t, a, Command{Do: "finding", Key: f.Key})
			s, l := a.mainSheet(), &draw.List{Letters: a.letters}
			assert.LessOrEqual(t, s.Measure(s.Caption, 15, false)+16, s.Rect.W, "%v: %q is whole", size, s.Caption)
			s.Compose(l)
			for _, w := range textsOf(a, l) {
				for _, chip := range a.chips() {
					looked++
					assert.False(t, w.op.Text != s.Caption && w.box.Overlaps(chip), "%v: %q below a chip", size, w.op.Text)
				}
				namesBesideOrWithin(t, a, s, fmt.Sprintf("%v %s", size, f.Key), &w, map[string]int{})
			}
		}
	}
	assert.Greater(t, looked, 100)
}

func lookForOverlaps(t *testing.T, a *App, what string, seen map[string]int) {
	t.Helper()
	s, l := a.mainSheet(), &draw.List{Letters: a.letters}
	s.Compose(l)
	texts := textsOf(a, l)
	for i, w := range texts {
		seen["text"]++
		for _, o := range texts[:i] {
			assert.False(t, w.box.Overlaps(o.box), "%s: %q on %q", what, w.op.Text, o.op.Text)
		}
		if w.op.Text == s.Caption {
			continue // stands on clean paper of its own, over all
		}
		for k := range s.Marks {
			seen["mark"]++
			at := s.Marks[k].At(&s.Proj)
			assert.False(t, w.box.Overlaps(view.Rect{X: at[0] - 8, Y: at[1] - 8, W: 16, H: 16}), "%s: %q on a mark", what, w.op.Text)
		}
		for k := range s.Tapes {
			seen["tape"]++
			assert.False(t, crossed(&s.Tapes[k], w.box), "%s: %q across a tape", what, w.op.Text)
		}
		namesBesideOrWithin(t, a, s, what, &w, seen)
	}
}

// crossed samples a tape's line: does it run through a rectangle?
func crossed(k *draw.TapeLine, r view.Rect) bool {
	n := int(k.Q.Sub(k.P).Len()) + 1
	for i := range n + 1 {
		if r.Contains(k.P.Add(k.Q.Sub(k.P).Mul(float64(i) / float64(n)))) {
			return true
		}
	}
	return false
}

// namesBesideOrWithin samples a name's rectangle: all of it on its part, whose
// hatching is left out there (ISO 128-50), or none.
func namesBesideOrWithin(t *testing.T, a *App, s *draw.Sheet, what string, w *written, seen map[string]int) {
	t.Helper()
	for i := range s.Outs {
		o := &s.Outs[i]
		if a.doc.Parts[o.Part].Name != w.op.Text || w.op.Size != 14*a.letters {
			continue
		}
		pieces := o.Cut
		if len(pieces) == 0 {
			pieces = o.Seen
		}
		on, off := 0, 0
		r := w.box.Inset(1)
		for x := r.X; x <= r.X+r.W; x += 3 {
			for y := r.Y; y <= r.Y+r.H; y += 3 {
				if liesOn(s.Proj.World([2]float64{x, y}), pieces) {
					on++
				} else {
					off++
				}
			}
		}
		assert.True(t, on == 0 || off == 0, "%s: %q covers %d of %d of its part's border", what, w.op.Text, on, on+off)
		if on == 0 {
			seen["beside"]++
			namesNoOther(t, s, o, what, w)
		} else {
			seen["within"]++
		}
	}
}

// namesNoOther expects the middle of a name beside its part on nothing else that is
// cut: there it would be read as that part's.
func namesNoOther(t *testing.T, s *draw.Sheet, o *fitment.Outline, what string, w *written) {
	t.Helper()
	for i := range s.Outs {
		if other := &s.Outs[i]; other.Part != o.Part {
			assert.False(t, liesOn(s.Proj.World(w.box.Middle()), other.Cut), "%s: %q stands on part %d", what, w.op.Text, other.Part)
		}
	}
}

func liesOn(p fitment.Pt, pieces [][]fitment.Pt) bool {
	for _, q := range pieces {
		if len(q) > 2 && view.Distance(p, q) == 0 {
			return true
		}
	}
	return false
}

// Every text of every drawing, as it is painted in the sun, stands out from
// what is behind it by 7 : 1 (WCAG 2.2, 1.4.6).
func TestEveryTextIsReadableInTheSun(t *testing.T) {
	a := labelled(t)
	a.Resize(828, 746)
	send(t, a, Command{Do: "theme", Text: "sun"})
	send(t, a, Command{Do: "select", Part: "air_tank"})
	texts := 0
	for _, v := range []string{"section", "side", "plan", "front", "four", "turn"} {
		send(t, a, Command{Do: "view", View: v})
		a.touch()
		for _, w := range textsOf(a, a.Frame()) {
			texts++
			behind := draw.Paint{Tone: draw.Paper}
			if w.op.Paint.Tone == draw.OnHand {
				behind.Tone = draw.Hand
			}
			got := contrastOf(w.op.Paint.Colour(a.Palette()), behind.Colour(a.Palette()))
			assert.GreaterOrEqual(t, got, 7.0, "%s: %q", v, w.op.Text)
		}
	}
	assert.Greater(t, texts, 60)
}

// contrastOf is WCAG 2.2's contrast ratio.
func contrastOf(x, y draw.RGBA) float64 {
	bright := func(c draw.RGBA) float64 {
		sum := 0.0
		for i, v := range [3]float32{c.R, c.G, c.B} {
			f := math.Pow((float64(v)+0.055)/1.055, 2.4)
			if v <= 0.04045 {
				f = float64(v) / 12.92
			}
			sum += f * [3]float64{0.2126, 0.7152, 0.0722}[i]
		}
		return sum
	}
	p, q := bright(x), bright(y)
	return (math.Max(p, q) + 0.05) / (math.Min(p, q) + 0.05)
}
