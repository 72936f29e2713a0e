package app

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
)

// withUndecided is the yard whose answer has one pair given up; the engine
// gives up so seldom that the answer is written here.
func withUndecided(t testing.TB, u fitment.Undecided) (*App, *fakePage) {
	t.Helper()
	a, page := yard(t)
	r := a.checked.Check()
	r.Undecided = append(r.Undecided, u)
	r.Summary.Undecided++
	a.touch()
	frame(a)
	return a, page
}

func findingOf(t testing.TB, p Panels, key string) FindingItem {
	t.Helper()
	for _, f := range p.Findings {
		if f.Key == key {
			return f
		}
	}
	t.Fatalf("no finding %s", key)
	return FindingItem{}
}

func TestAnUndecidedPairHasALineOfItsOwn(t *testing.T) {
	a, page := withUndecided(t, fitment.Undecided{A: "driveshaft", B: tank, GapMM: 12, BoundMM: 9})
	const key = "undecided|driveshaft|" + tank
	p := page.last(t)
	f := findingOf(t, p, key)
	require.Equal(t, "not decided: least gap found 12, proven no less than 9: look at it by hand", f.Figures)
	require.Equal(t, "tight", f.Mark)
	require.Contains(t, p.Headline, "1 undecided")
	for _, x := range p.Parts {
		if x.ID == tank {
			require.NotEmpty(t, x.Mark, "the part is marked in the list")
		}
	}
	front, rear := a.front, a.rear
	send(t, a, Command{Do: "finding", Key: key})
	frame(a)
	require.True(t, findingOf(t, page.last(t), key).Selected)
	require.Equal(t, [2]float64{front, rear}, [2]float64{a.front, a.rear}, "the height stays: the worst is not known")
	g, err := a.model.GapBetween("driveshaft", tank, a.state())
	require.NoError(t, err)
	require.InDelta(t, (g.PointsMM[0][0]+g.PointsMM[1][0])/2, a.station, 0.01)
	marked := false
	for _, m := range a.marks() {
		marked = marked || m.Selected && m.Text != ""
	}
	require.True(t, marked, "its closest place is marked")
	send(t, a, Command{Do: "finding"})
	for _, m := range a.marks() {
		require.False(t, m.Selected)
	}
}

func TestAnUndecidedPairOfWhichNothingIsProven(t *testing.T) {
	_, page := withUndecided(t, fitment.Undecided{A: "driveshaft", B: tank, GapMM: -3.5, BoundMM: math.Inf(-1)})
	f := findingOf(t, page.last(t), "undecided|driveshaft|"+tank)
	require.Equal(t, "not decided: least gap found −3.5, nothing proven: look at it by hand", f.Figures)
}

// What the table warns of and is joined all the same stands in a list of its
// own with the caution.
func TestWhatIsLookedAtLessStrictlyIsListed(t *testing.T) {
	a, page := yard(t)
	require.Empty(t, page.last(t).Lowered)
	for _, kind := range []string{"fuel_cell", "exhaust_run"} {
		send(t, a, Command{Do: "place", Kind: kind})
		id := a.selected
		for _, at := range [][2]string{{"at_x", "2600"}, {"at_y", "0"}, {"at_z", "300"}} {
			send(t, a, Command{Do: "edit", Target: "part:" + id, Field: at[0], Text: at[1]})
		}
	}
	ids := [2]string{a.doc.Parts[len(a.doc.Parts)-2].ID, a.doc.Parts[len(a.doc.Parts)-1].ID}
	send(t, a, Command{Do: "join", A: ids[0], B: ids[1], On: true, Text: "a trial"})
	frame(a)
	p := page.last(t)
	require.NotEmpty(t, p.Lowered)
	want := a.checked.Check().Lowered
	require.Len(t, p.Lowered, len(want))
	for i, l := range p.Lowered {
		require.Equal(t, want[i].Caution, l.Caution)
		require.NotEmpty(t, l.Caution)
	}
	require.Contains(t, p.Lowered[0].Text, "are declared joined; the table would ask")
}

// A lock is counted in the headline also where only a limit stands beside it.
func TestTheHeadlineCountsALockBesideALimit(t *testing.T) {
	a, _ := yard(t)
	r := &fitment.Report{Limits: []fitment.Limit{{Part: "driveshaft", Kind: fitment.TooLong}},
		Summary: fitment.Summary{Limits: 1, Locked: 1}}
	head := a.headline(r)
	require.True(t, strings.Contains(head, "suspension that locks") && strings.Contains(head, "past its limit"), head)
}
