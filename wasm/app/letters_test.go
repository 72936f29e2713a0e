package app

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// Letters follow the size the reader has set, up to a cap, never below the usual
// size; what is no size changes nothing.
func TestLettersFollowTheReader(t *testing.T) {
	a := van(t)
	a.Resize(828, 746)
	caption := func() (size float64) {
		l := a.Frame()
		require.NotNil(t, l)
		for i := range l.Ops {
			if l.Ops[i].Kind == draw.TextOp && l.Ops[i].Text == a.caption() {
				size = l.Ops[i].Size
			}
		}
		return size
	}
	usual := caption()
	require.NotZero(t, usual)
	for _, row := range []struct {
		text string
		by   float64
	}{{"1.25", 1.25}, {"1.5", 1.5}, {"2", 1.75}, {"5", 1.75}, {"0.8", 1}, {"1", 1}} {
		send(t, a, Command{Do: "letters", Text: row.text})
		assert.InDelta(t, usual*row.by, caption(), 1e-9, row.text)
	}
	send(t, a, Command{Do: "letters", Text: "1.5"})
	for _, text := range []string{"", "large", "0", "-1", "NaN", "1.5 em"} {
		r := try(t, a, Command{Do: "letters", Text: text})
		assert.Equal(t, "The size of letters is a number above 0, 1 for the usual size.", r.Error, text)
	}
	assert.InDelta(t, usual*1.5, caption(), 1e-9)
}

// However narrow the drawing, its caption says whole that something is hidden.
func TestACaptionSaysWholeWhatIsHidden(t *testing.T) {
	a := van(t)
	send(t, a, Command{Do: "show", Key: "exhaust"})
	for _, letters := range []string{"1", "1.75"} {
		send(t, a, Command{Do: "letters", Text: letters})
		for _, wide := range []float64{320, 374, 450, 828} {
			a.Resize(wide, 600)
			for _, v := range []string{"section", "side", "plan", "front"} {
				send(t, a, Command{Do: "view", View: v})
				assert.Regexp(t, "(?i)hidden", a.caption())
				assert.LessOrEqual(t, a.measure(a.caption(), 15, false), a.lay.Main.W-16, "%s %v: %s", letters, wide, a.caption())
			}
			send(t, a, Command{Do: "view", View: "turn"})
			assert.Regexp(t, "(?i)hidden", a.turnSheet().Caption)
		}
	}
}

// The largest letters still lie on nothing they name, and those of the staff and
// the strip on no others and within their cards, on every screen.
func TestLargeLettersOverlapNothing(t *testing.T) {
	a := labelled(t)
	send(t, a, Command{Do: "letters", Text: "2"})
	seen := map[string]int{}
	for _, size := range [][2]float64{{828, 746}, {788, 640}, {374, 580}} {
		a.Resize(size[0], size[1])
		for _, units := range []string{"mm", "in"} {
			send(t, a, Command{Do: "units", Text: units})
			for _, v := range []string{"section", "side", "plan", "front"} {
				send(t, a, Command{Do: "view", View: v})
				for _, h := range a.doc.Heights {
					send(t, a, Command{Do: "named", Key: h.ID})
					for _, id := range []string{"", "air_tank"} {
						send(t, a, Command{Do: "select", Part: id})
						lookForOverlaps(t, a, fmt.Sprintf("%v %s %s %s %q", size, units, v, h.ID, id), seen)
					}
				}
			}
			for _, apart := range []bool{false, true} {
				send(t, a, Command{Do: "apart", On: apart})
				lookAtCard(t, a, fmt.Sprintf("staff %v %s apart %v", size, units, apart), a.lay.Staff, a.staffSheet().Compose)
				lookAtCard(t, a, fmt.Sprintf("strip %v %s", size, units), a.lay.Strip, a.stripSheet().Compose)
			}
		}
	}
	for kind, least := range map[string]int{"text": 200, "mark": 200, "tape": 200, "beside": 5} {
		assert.Greater(t, seen[kind], least, "hardly any %s was looked at", kind)
	}
}

func lookAtCard(t *testing.T, a *App, what string, card view.Rect, compose func(*draw.List)) {
	t.Helper()
	l := &draw.List{Letters: a.letters}
	compose(l)
	texts := textsOf(a, l)
	require.NotEmpty(t, texts, what)
	for i, w := range texts {
		assert.True(t, w.box.Inside(card), "%s: %q is cut off", what, w.op.Text)
		for _, o := range texts[:i] {
			assert.False(t, w.box.Overlaps(o.box), "%s: %q on %q", what, w.op.Text, o.op.Text)
		}
	}
}
