package app

import (
	"fmt"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/wasm/draw"
)

// painter keeps layers as whoever paints does.
type painter map[draw.LayerID][]draw.Op

// whole is what a picture shows with its layers put in.
func (p *painter) whole(l *draw.List) (ops []draw.Op, bakes int) {
	if !l.Over || *p == nil {
		*p = painter{}
	}
	var into *draw.LayerID
	for _, op := range l.Ops {
		switch op.Kind {
		case draw.BeginLayerOp:
			into = &op.Layer
			(*p)[op.Layer] = nil
			bakes++
		case draw.EndLayerOp:
			into = nil
		case draw.LayerOp:
			ops = append(ops, (*p)[op.Layer]...)
		default:
			if into != nil {
				(*p)[*into] = append((*p)[*into], op)
				continue
			}
			ops = append(ops, op)
		}
	}
	return ops, bakes
}

// apartFromHidden takes the hidden lines, which are all of one ink and may come in
// any order, out of a picture.
func apartFromHidden(ops []draw.Op) (rest []draw.Op, hidden []string) {
	for _, op := range ops {
		if op.Kind == draw.LineOp && len(op.Dash) > 0 && &op.Dash[0] == &draw.Dashed[0] {
			hidden = append(hidden, fmt.Sprint(op.Paint, op.Pts))
			continue
		}
		rest = append(rest, op)
	}
	return rest, hidden
}

// What a drag shows, put together from layers, is what would be painted anew,
// operation by operation; and most pictures need no layer anew.
func TestLayersShowWhatIsThere(t *testing.T) {
	for _, c := range []struct{ view, part string }{
		{"section", "air_tank"}, {"side", "air_tank"}, {"plan", "battery"}, {"front", "radiator"},
	} {
		t.Run(c.view, func(t *testing.T) {
			a, _ := shown(t, "bakery-van.json")
			a.Resize(828, 746)
			send(t, a, Command{Do: "view", View: c.view})
			send(t, a, Command{Do: "select", Part: c.part})
			i := a.partIndex(c.part)
			send(t, a, Command{Do: "station", MM: a.boxes3()[i].lo[0] + 20})
			frame(a)
			p := grip(t, a, c.part)
			press(a, "touch", p, [2]float64{20, 0})
			require.Equal(t, dragPart, a.hand.mode)
			var has painter
			bakes, pictures := 0, 0
			for step := range 40 {
				a.Pointer("pointermove", "touch", 1, p[0]+20+2*float64(step), p[1]-float64(step), 0.5)
				a.Tick()
				l := a.Frame()
				if l == nil {
					continue
				}
				pictures++
				ops, n := has.whole(l)
				bakes += n
				plain := &draw.List{Letters: l.Letters}
				s := a.mainSheet()
				s.Layers = nil
				if s.Hidden != nil {
					require.Equal(t, draw.Hidden(s.Outs, a.view, nil), s.Hidden, "what is hidden now, step %d", step)
				}
				plain.Clip(a.lay.Canvas)
				s.Compose(plain)
				require.GreaterOrEqual(t, len(ops), len(plain.Ops))
				want, wantDashed := apartFromHidden(plain.Ops)
				got, gotDashed := apartFromHidden(ops[:len(plain.Ops)])
				slices.Sort(wantDashed)
				slices.Sort(gotDashed)
				require.Equal(t, wantDashed, gotDashed)
				require.Equal(t, len(want), len(got))
				for k := range want {
					require.Equal(t, want[k], got[k], "step %d, operation %d of %d", step, k, len(want))
				}
			}
			require.Greater(t, pictures, 20)
			require.Less(t, bakes, pictures, "of the layers most are shown again: there are six")
		})
	}
}
