package fitment

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

func vanModel(t *testing.T) *Model {
	t.Helper()
	text, err := os.ReadFile("../testdata/scenes/bakery-van.json")
	require.NoError(t, err)
	doc, err := scene.Decode(text)
	require.NoError(t, err)
	return compile(t, doc)
}

// Mends and rooms are in their schemas, and the same bytes twice.
func TestMendAndRoomJSON(t *testing.T) {
	m, again := vanModel(t), vanModel(t)
	for _, part := range []string{"battery", "air_tank", "exhaust", "floor", "backrest_l", "bed_front"} {
		d, err := m.Mend(part, MendOptions{})
		require.NoError(t, err)
		e, err := again.Mend(part, MendOptions{})
		require.NoError(t, err)
		held(t, "mend.schema.json", m.MendJSON(d))
		require.Equal(t, string(m.MendJSON(d)), string(again.MendJSON(e)))
		require.NotEmpty(t, NewWords(m.Doc).MendTitle(d))
	}
	for v := range viewNames {
		if v == FrontView {
			continue
		}
		r, err := m.RoomWithin("battery", v, 100, 5)
		require.NoError(t, err)
		held(t, "room.schema.json", m.RoomJSON(r))
		svg := m.RoomSVG(r)
		require.True(t, bytes.HasPrefix(svg, []byte("<svg ")) && bytes.HasSuffix(svg, []byte("</svg>\n")))
		require.Contains(t, string(svg), "Exhaust")
	}
}

// The runs of a row fill it, and the borders named are those between the runs.
func TestRoomRowsAndBorders(t *testing.T) {
	m := vanModel(t)
	r, err := m.RoomWithin("battery", SectionView, 150, 5)
	require.NoError(t, err)
	var out struct {
		Rows []struct {
			Runs []struct {
				From float64 `json:"from_mm"`
				To   float64 `json:"to_mm"`
				By   string  `json:"by"`
			} `json:"runs"`
		} `json:"rows"`
		Low   [2]float64 `json:"low_mm"`
		Cells [2]int     `json:"cells"`
	}
	require.NoError(t, json.Unmarshal(m.RoomJSON(r), &out))
	require.Len(t, out.Rows, out.Cells[1])
	named := map[string]bool{}
	for _, b := range r.Borders() {
		named[b.By] = true
		require.Positive(t, b.LengthMM)
	}
	for _, row := range out.Rows {
		at, before := out.Low[0], "?"
		for _, run := range row.Runs {
			require.InDelta(t, at, run.From, 1e-3)
			require.NotEqual(t, before, run.By)
			if before == "" {
				require.True(t, named[run.By], run.By)
			}
			at, before = run.To, run.By
		}
		require.InDelta(t, out.Low[0]+5*float64(out.Cells[0]), at, 1e-3)
	}
	total := 0.0
	for _, s := range r.Sides() {
		total += math.Abs(s.ToMM[0]-s.FromMM[0]) + math.Abs(s.ToMM[1]-s.FromMM[1])
	}
	for _, b := range r.Borders() {
		total -= b.LengthMM
	}
	require.InDelta(t, 0, total, 1e-6, "the sides are the borders")
}

// What is meant to be measured out is on the tape's marks, no smaller than the
// move, and keeps all needs as well.
func TestTapedMovesKeepTheNeedsToo(t *testing.T) {
	for _, show := range []scene.Units{scene.Millimetres, scene.Inches} {
		m := vanModel(t)
		doc := *m.Doc
		doc.Show = show
		m = compile(t, &doc)
		d, err := m.Mend("battery", MendOptions{})
		require.NoError(t, err)
		require.NotEmpty(t, d.Moves)
		taped := 0
		for i := range d.Moves {
			mv := &d.Moves[i]
			if mv.Tape == nil || mv.TurnDeg != 0 {
				continue
			}
			taped++
			for k := range mv.ByMM {
				require.GreaterOrEqual(t, math.Abs(mv.Tape.ByMM[k]), math.Abs(mv.ByMM[k])-1e-9)
				require.Less(t, math.Abs(mv.Tape.ByMM[k])-math.Abs(mv.ByMM[k]), tapeMark(show)+1e-9)
				n := mv.Tape.ByMM[k] / tapeMark(show)
				require.InDelta(t, float64(int(n+0.5*sign(n))), n, 1e-6)
			}
			moved, _, err := scene.CarryParts(&doc, []string{"battery"}, mv.Tape.ByMM)
			require.NoError(t, err)
			require.Empty(t, shortOf(compile(t, moved), "battery"))
		}
		require.Positive(t, taped)
	}
}

func sign(x float64) float64 {
	if x < 0 {
		return -1
	}
	return 1
}

func TestWaysInWords(t *testing.T) {
	doc := bench()
	doc.Show = scene.Millimetres
	w := NewWords(doc)
	for _, row := range []struct {
		by   scene.Vec
		want string
	}{
		{scene.Vec{0, 37, 0}, "37 to the right"},
		{scene.Vec{-4, 31, 16}, "4 to the front, 31 to the right and 16 up"},
		{scene.Vec{0, -2.25, -1}, "2.25 to the left and 1 down"},
		{scene.Vec{}, "not at all"},
	} {
		require.Equal(t, row.want, w.Way(row.by))
	}
	require.Equal(t, "turned by 12.5°, its rear to the left", w.MendMove(&MendMove{Axis: 2, TurnDeg: -12.3, Tape: &TapeMove{TurnDeg: -12.5}}))
	doc.Show = scene.Inches
	require.True(t, strings.HasPrefix(NewWords(doc).Way(scene.Vec{0, 25.4 * 1.5, 0}), "1 1/2"))
}
