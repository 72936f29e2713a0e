package app

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
)

// shown opens a scene of testdata and lets its check end.
func shown(t *testing.T, file string) (*App, *fakePage) {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("../../testdata/scenes", file))
	require.NoError(t, err)
	a, page := yard(t)
	send(t, a, Command{Do: "open", Text: string(text), Name: file})
	settled(t, a)
	return a, page
}

// Every pair that falls short, tapped in the list, stands on the canvas at its
// worst, and is drawn in its card: both parts, the two points in sight, the
// figure in words.
func TestAFindingIsShownAtItsWorst(t *testing.T) {
	for _, file := range []string{"bakery-van.json", "spring-grows.json", "driveshaft-tunnel.json", "wheel-full-lock.json",
		"service-room-blocked.json", "mirrored-pair.json", "joined-bracket.json"} {
		a, page := shown(t, file)
		fs := a.checked.Check().Findings
		require.NotEmpty(t, fs, file)
		for i := range fs {
			f := &fs[i]
			send(t, a, Command{Do: "finding", Key: f.Key()})
			frame(a)
			if got := gapNow(a, f.Key()); file != "bakery-van.json" || !f.Still {
				require.InDelta(t, f.GapMM, got, 0.01, "%s %s", file, f.Key())
			}
			d := page.last(t).Gap
			require.NotNil(t, d, f.Key())
			require.Equal(t, f.Key(), d.Key)
			for _, path := range []string{d.A.Path, d.B.Path} {
				require.True(t, strings.HasPrefix(path, "M") && strings.HasSuffix(path, "Z"), "%s: %q", f.Key(), path)
			}
			for _, p := range [][2]float64{d.P, d.Q} {
				require.True(t, p[0] > d.Box[0] && p[0] < d.Box[0]+d.Box[2] && p[1] > d.Box[1] && p[1] < d.Box[1]+d.Box[3], f.Key())
			}
			require.Contains(t, d.Alt, d.Figure)
			require.Equal(t, f.Service != "", strings.HasPrefix(d.A.Name, "Room for "), d.A.Name)
		}
		send(t, a, Command{Do: "finding"})
		frame(a)
		require.Nil(t, page.last(t).Gap)
	}
}

// gapNow is what the open finding's pair measures where the body stands.
func gapNow(a *App, key string) float64 {
	for _, r := range a.checked.Readings(a.state()) {
		if r.Key == key {
			return r.GapMM
		}
	}
	return 1e9
}

// The view is the one whose plane has most of the gap.
func TestTheViewThatShowsTheGap(t *testing.T) {
	for axes, want := range map[[3]float64]fitment.View{
		{0, 30, 4}: fitment.SectionView, {0, 0, 0}: fitment.SectionView, {30, 0, 9}: fitment.SideView, {30, 9, 0}: fitment.PlanView,
	} {
		f := &fitment.Finding{}
		f.PointsMM[1] = axes
		require.Equal(t, want, bestView(f), "%v", axes)
	}
}

// What is one thing stands together: the folded ones right behind the one that
// says how many there are.
func TestFindingsAreGathered(t *testing.T) {
	_, page := shown(t, "mirrored-pair.json")
	list := page.last(t).Findings
	require.Len(t, list, 2)
	require.Empty(t, list[0].Under)
	require.Contains(t, list[0].More, "and 1 more like it: ")
	require.Equal(t, list[0].Key, list[1].Under)
	require.Empty(t, list[1].More)
	require.Contains(t, page.last(t).Headline, "2 touch", "counts stay the engine's")

	_, page = shown(t, "bakery-van.json")
	last := ""
	for _, f := range page.last(t).Findings {
		if f.Under == "" {
			last = f.Key
		}
		require.True(t, f.Under == "" || f.Under == last, f.Key)
	}
}
