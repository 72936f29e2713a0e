package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// stuck is the yard with a box that overlaps the air tank, its finding open and
// its moves found.
func stuck(t testing.TB) (*App, *fakePage) {
	t.Helper()
	a, page := yard(t)
	doc, _, err := scene.AddPart(a.doc, "box", scene.Vec{2100, -60, 40})
	require.NoError(t, err)
	require.NoError(t, a.commit(doc, "placed a box"))
	settled(t, a)
	open := ""
	for _, f := range page.last(t).Findings {
		if strings.Contains(f.Key, tank) && f.Mark == "touch" {
			open = f.Key
		}
	}
	require.NotEmpty(t, open)
	send(t, a, Command{Do: "finding", Key: open})
	lookOn(t, a)
	return a, page
}

// lookOn lets frames pass until the moves are found.
func lookOn(t testing.TB, a *App) {
	t.Helper()
	for range 5000 {
		frame(a)
		if a.mends.done && a.checked == a.model && a.mends.model == a.model {
			frame(a)
			return
		}
	}
	t.Fatal("the moves are never found")
}

// The open finding offers moves, smallest first; taking one mends the finding in
// one step, and one step takes it back.
func TestTakingAMendMendsTheFinding(t *testing.T) {
	a, page := stuck(t)
	m := page.last(t).Mend
	require.NotNil(t, m)
	require.False(t, m.Busy)
	require.NotEmpty(t, m.Ways)
	require.True(t, strings.HasPrefix(m.Ways[0].Text, "Move "), m.Ways[0].Text)
	before, key := string(scene.Encode(a.doc)), m.Key

	send(t, a, Command{Do: "mend_take", Row: 0})
	settled(t, a)
	for _, f := range page.last(t).Findings {
		require.NotEqual(t, key, f.Key)
	}
	require.Nil(t, page.last(t).Mend, "what was open is mended")
	send(t, a, Command{Do: "undo"})
	require.Equal(t, before, string(scene.Encode(a.doc)))
}

// Ways of both parts stand in one list, plain moves before turns.
func TestMendWaysOfBothParts(t *testing.T) {
	a, _ := stuck(t)
	parts, turned := map[string]bool{}, false
	size := 0.0
	for _, w := range a.mendWays() {
		parts[w.mend.Part] = true
		require.False(t, turned && w.move.TurnDeg == 0)
		if turned = w.move.TurnDeg != 0; !turned {
			require.GreaterOrEqual(t, w.move.SizeMM, size)
			size = w.move.SizeMM
		}
	}
	require.Len(t, parts, 2)
}

// Only the axes that are left open are used; the last stays open.
func TestMendAlongChosenAxes(t *testing.T) {
	a, page := stuck(t)
	send(t, a, Command{Do: "mend", Key: "y"})
	send(t, a, Command{Do: "mend", Key: "x"})
	lookOn(t, a)
	require.Equal(t, [3]bool{false, false, true}, page.last(t).Mend.Axes)
	for _, w := range a.mendWays() {
		require.Zero(t, w.move.ByMM[0])
		require.Zero(t, w.move.ByMM[1])
	}
	r := try(t, a, Command{Do: "mend", Key: "z"})
	require.NotEmpty(t, r.Error)
	require.NotEmpty(t, try(t, a, Command{Do: "mend", Key: "w", On: true}).Error)
}

// Where a way would put the part is drawn until it is asked no more, and goes
// with what it is of.
func TestTheGhostStandsWhereTheMoveGoes(t *testing.T) {
	a, page := stuck(t)
	require.Empty(t, a.ghostHere())
	send(t, a, Command{Do: "mend_show", Row: 0, On: true})
	w := a.mendWays()[0]
	ghost := a.ghostHere()
	require.NotEmpty(t, ghost)
	now := a.model.Outlines(a.view, farBehind, a.state())[a.partIndex(w.mend.Part)].Seen
	by := w.move.ByMM
	if w.move.Tape != nil {
		by = w.move.Tape.ByMM
	}
	require.InDelta(t, now[0][0][0]+by[1], ghost[0][0][0], 1e-6, "the section's first axis is Y")
	frame(a)
	require.Equal(t, 0, page.last(t).Mend.Shown)
	send(t, a, Command{Do: "mend_show", Row: 0})
	require.Empty(t, a.ghostHere())
	send(t, a, Command{Do: "mend_show", Row: 0, On: true})
	send(t, a, Command{Do: "finding"})
	frame(a)
	require.Empty(t, a.ghostHere())
	require.Nil(t, page.last(t).Mend)
	require.NotEmpty(t, try(t, a, Command{Do: "mend_take", Row: 0}).Error)
}

// Nothing is looked for while a finger is down, nor without an open finding.
func TestMendsWaitForTheFinger(t *testing.T) {
	a, _ := yard(t)
	frame(a)
	require.Empty(t, a.mends.jobs)
	require.False(t, a.mendKnown())
}
