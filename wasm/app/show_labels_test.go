package app

import (
	"fmt"
	"math"
	"strings"
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

// A name beside its part leads there by a full line to a dot in the part, clear in
// every theme of what they cross (WCAG 2.2, 1.4.11), and of two parts that come
// close each name stands at its own.
func TestANameLeadsToItsPart(t *testing.T) {
	a := van(t)
	led := 0
	for _, size := range [][2]float64{{828, 746}, {788, 640}, {374, 580}, {374, 620}} {
		a.Resize(size[0], size[1])
		for _, f := range a.findingItems() {
			send(t, a, Command{Do: "finding", Key: f.Key})
			s, l := a.mainSheet(), &draw.List{Letters: a.letters}
			s.Compose(l)
			for i := range s.Outs {
				o, what := &s.Outs[i], fmt.Sprintf("%v %s %s", size, f.Key, a.doc.Parts[s.Outs[i].Part].Name)
				w, ok := nameBeside(a, s, l, o)
				if !ok {
					continue
				}
				led++
				dot, line := pointerTo(l, &w.op.Paint, w.box)
				require.NotNil(t, dot, what)
				assert.True(t, liesOn(s.Proj.World(line.Pts[0]), o.Cut), "%s: the dot lies on it", what)
				for _, pal := range []*draw.Palette{&draw.Light, &draw.Dark, &draw.Sun} {
					assert.GreaterOrEqual(t, contrastOf(line.Paint.Colour(pal), draw.Paint{Tone: draw.Paper}.Colour(pal)), 3.0, what)
				}
				for k := range s.Outs {
					if other := &s.Outs[k]; f.Key == "driveshaft|air_tank|" && a.pairOf(f.Key, o.Part, other.Part) {
						px := s.Proj.M.At(0, 0)
						assert.Less(t, px*distance(s, w.box, o.Cut), px*distance(s, w.box, other.Cut)+2, what)
					}
				}
			}
		}
	}
	assert.Greater(t, led, 60)
}

// pairOf says whether two parts are those of a finding.
func (a *App) pairOf(key string, p, q int) bool {
	return p != q && strings.Contains("|"+key, "|"+a.doc.Parts[p].ID+"|") && strings.Contains("|"+key, "|"+a.doc.Parts[q].ID+"|")
}

// nameBeside is the name of a cut part when it stands beside it.
func nameBeside(a *App, s *draw.Sheet, l *draw.List, o *fitment.Outline) (written, bool) {
	for _, w := range textsOf(a, l) {
		if w.op.Text == a.doc.Parts[o.Part].Name && w.op.Size == 14*a.letters && len(o.Cut) > 0 {
			return w, !liesOn(s.Proj.World(w.box.Middle()), o.Cut)
		}
	}
	return written{}, false
}

// pointerTo is the line of a paint that ends at a box, and the dot it begins with.
func pointerTo(l *draw.List, p *draw.Paint, box view.Rect) (dot, line *draw.Op) {
	box = box.Inset(-9)
	for i := range l.Ops {
		op := &l.Ops[i]
		if op.Kind == draw.LineOp && len(op.Pts) == 2 && op.Paint == *p && op.Width == draw.Narrow && box.Contains(op.Pts[1]) && i+1 < len(l.Ops) {
			if next := &l.Ops[i+1]; next.Kind == draw.FillOp && next.Paint == *p {
				return next, op
			}
		}
	}
	return nil, nil
}

// distance is how far a box on the screen is from what is cut of a part, mm.
func distance(s *draw.Sheet, r view.Rect, pieces [][]fitment.Pt) float64 {
	best := math.Inf(1)
	for x := r.X; x <= r.X+r.W; x += 2 {
		for _, y := range []float64{r.Y, r.Y + r.H/2, r.Y + r.H} {
			for _, q := range pieces {
				best = math.Min(best, view.Distance(s.Proj.World([2]float64{x, y}), q))
			}
		}
	}
	return best
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
