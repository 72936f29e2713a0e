package draw

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/view"
)

// Words are dropped before a number is cut, on every width of the staff and in
// both units.
func TestARungKeepsItsNumber(t *testing.T) {
	for _, number := range []string{"−57.2", "−2 15/16", "+70"} {
		for _, wide := range []float64{160, 124} {
			tr := view.TravelOf([]scene.Height{{ID: scene.AiredOut, FrontMM: -130, RearMM: -130}, {ID: scene.Ride}, {ID: scene.AiredUp, FrontMM: 70, RearMM: 70}})
			s := &StaffSheet{Staff: view.NewStaff(view.Rect{W: wide, H: 600}, &tr), Units: scene.Millimetres, Measure: RoughWidth,
				Format: func(float64) string { return "" },
				Named:  []Rung{{MM: -130, Number: number, Words: []string{"aired out", "out"}, First: true}},
				Rungs:  []Rung{{MM: -57, Number: number, Words: []string{"spring/exhaust", "spring"}, Status: fitment.Contact}}}
			l := &List{}
			s.Compose(l)
			numbers, words := 0, 0
			for _, o := range l.Ops {
				if o.Kind == FillOp && o.Paint.Tone == Touch {
					for _, at := range o.Pts {
						require.GreaterOrEqual(t, at[0], staffRim, "the mark stands at the staff's border")
					}
				}
				if o.Kind != TextOp {
					continue
				}
				require.NotContains(t, o.Text, "…")
				require.LessOrEqual(t, o.Pts[0][0]+RoughWidth(o.Text, o.Size, o.Bold), wide-staffRim, "%q stands at the staff's border", o.Text)
				if strings.Contains(o.Text, number) {
					numbers++
				}
				if strings.Contains(o.Text, "spring") || strings.Contains(o.Text, "out") {
					words++
				}
			}
			require.Equal(t, 2, numbers)
			require.Equal(t, 2, words)
		}
	}
}

// Words are never read as those of another mark: where a saddle covers a mark,
// its words stand clear of every mark that can be seen, or are left out. On a
// phone with its sheet up the whole travel has 110 pixels.
func TestWordsOfACoveredMarkStandBesideNoOther(t *testing.T) {
	tr := view.TravelOf([]scene.Height{{ID: scene.AiredOut, FrontMM: -130, RearMM: -130}, {ID: scene.Ride}, {ID: scene.AiredUp, FrontMM: 70, RearMM: 70}})
	said := 0
	for _, tall := range []float64{130, 175, 300, 600} {
		for at := -130.0; at <= 70; at += 5 {
			s := &StaffSheet{Staff: view.NewStaff(view.Rect{W: 116, H: tall}, &tr), Units: scene.Millimetres, Measure: RoughWidth, At: at,
				Format: func(float64) string { return "" },
				Named:  []Rung{{MM: -130, Number: "−130", Words: []string{"aired out"}}, {MM: 0, Number: "0", Words: []string{"ride"}}, {MM: 70, Number: "+70", Words: []string{"aired up"}}},
				Rungs: []Rung{{MM: -27.5, Number: "−27.5", Words: []string{"shaft/tank"}, Status: fitment.Tight},
					{MM: -62.5, Number: "−62.5", Words: []string{"spring/exhaust"}, Status: fitment.Contact}, {MM: -104.4, Number: "−104.4", Words: []string{"exhaust"}, Status: fitment.Tight}}}
			l := &List{}
			s.Compose(l)
			saddle := s.Staff.Saddle(at)
			under := func(n Rung) bool { y := s.Staff.Y(n.MM); return y >= saddle.Y && y <= saddle.Y+saddle.H }
			all := append(s.Named, s.Rungs...)
			for _, n := range all {
				if !under(n) {
					continue
				}
				for _, o := range l.Ops {
					if o.Kind != TextOp || !strings.Contains(o.Text, n.Number) || n.Number == "0" && o.Text != "0 ride" {
						continue
					}
					said++
					for _, m := range all {
						y := s.Staff.Y(m.MM)
						require.False(t, !under(m) && y > o.Pts[0][1]-14 && y < o.Pts[0][1]+4, "%q beside %q, %v high, at %v", o.Text, m.Number, tall, at)
					}
				}
			}
		}
	}
	require.NotZero(t, said, "on a tall staff they stand clear")
}
