package main

import (
	"encoding/json"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The readable ladder has a line for each rung, and supposing what comes first
// mended takes it to the next; a pair is named in either order.
func TestLadderSays(t *testing.T) {
	van := filepath.Join(testdata, "scenes", "bakery-van.json")
	status, out, errs := call("ladder", van)
	require.Equal(t, exitShort, status)
	require.Empty(t, errs)
	for _, want := range []string{"from ride down, front and rear together", "spring_rr+tail_pipe", "driveshaft+air_tank", "End of the travel: aired out", "the same at every height", "holds at ride", "Caution: Heat beside fuel"} {
		require.Contains(t, out, want)
	}
	_, mended, _ := call("ladder", "-without", "tail_pipe+spring_rr", van)
	require.Contains(t, mended, "Goes down to ")
	require.Contains(t, mended, "\nSupposed mended\n")
	_, other, _ := call("ladder", "-without=spring_rr+tail_pipe", van)
	require.Equal(t, mended, other)

	status, out, _ = call("ladder", "-json", filepath.Join(testdata, "scenes", "nothing-falls-short.json"))
	require.Equal(t, exitClear, status)
	var l struct {
		Rungs []struct{ Kind, Height string } `json:"rungs"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &l))
	require.Len(t, l.Rungs, 1)
	require.Equal(t, "end", l.Rungs[0].Kind)
}

func TestLadderRefuses(t *testing.T) {
	van := filepath.Join(testdata, "scenes", "bakery-van.json")
	for _, args := range [][]string{
		{"ladder"}, {"ladder", van, van}, {"ladder", "-end", "left", van}, {"ladder", "-without"}, {"ladder", "-without", "nonsense", van},
		{"ladder", "-without", "exhaust+nobody", van}, {"ladder", "-without", "limit:exhaust:too_wide", van}, {"ladder", "-sideways", van},
	} {
		status, out, errs := call(args...)
		require.Equal(t, exitBad, status, args)
		require.Empty(t, out)
		require.Equal(t, 1, strings.Count(errs, "\n"), errs)
	}
}
