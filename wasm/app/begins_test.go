package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/wasm/draw"
)

// A rung stands where a finding begins on the way down, and the findings say
// so in the staff's figures: going to a rung's height and one millimetre above
// it changes what the pair measures from too close to clear.
func TestRungsStandWhereFindingsBegin(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-190"})
	frame(a)
	rungs := a.rungs()
	require.NotEmpty(t, rungs)
	holds := func(mm float64, r draw.Rung) bool {
		a.setHeight(a.travel.Pair(mm))
		for _, rd := range a.readings() {
			if rd.Key == r.Key && (r.Status == fitment.Tight || rd.Status == fitment.Contact) {
				return true
			}
		}
		for _, b := range a.here().lowest.Below {
			if rimKey+b.Part == r.Key {
				return true
			}
		}
		return false
	}
	for _, r := range rungs {
		require.True(t, holds(r.MM-0.2, r))
		require.False(t, holds(r.MM+0.2, r))
	}
	said := 0
	for _, f := range page.last(t).Findings {
		if f.Key == rungs[1].Key {
			said++
			require.Contains(t, f.Where, "from rear "+a.level(rungs[1].MM)+" (front ")
		}
	}
	require.Equal(t, 1, said)
}

// A shock pulled past its longest is a finding with its heights, and tapping it
// goes to the worst.
func TestLimitsAreFindings(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "place", Kind: "shock"})
	send(t, a, Command{Do: "edit", Target: a.theForm().Target, Field: "shortest_mm", Text: "10"})
	send(t, a, Command{Do: "edit", Target: a.theForm().Target, Field: "longest_mm", Text: "20"})
	frame(a)
	for _, f := range page.last(t).Findings {
		if strings.HasPrefix(f.Key, "limit|") {
			require.Contains(t, f.Title, "pulled past its longest")
			require.NotEmpty(t, f.Where)
			send(t, a, Command{Do: "finding", Key: f.Key})
			require.Equal(t, f.Key, a.finding)
			return
		}
	}
	t.Fatal("no finding for the limit")
}
