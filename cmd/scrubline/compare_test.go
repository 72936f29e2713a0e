package main

import (
	"encoding/json"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

// The table of a scene with two variants; the sums are in
// testdata/scenes/README.md.
func TestCompare(t *testing.T) {
	file := filepath.Join(testdata, "scenes", "two-battery-places.json")
	status, out, errs := call("compare", file)
	require.Equal(t, exitShort, status, errs)
	for _, want := range []string{
		"Two places for a battery: as drawn and 2 variants", "Over the axle (over-the-axle)", "A heavier battery, out of the heat.",
		"Battery: 2100 rearward, 50 down; mass 24 kg in place of 20 kg", "Exhaust pipe and Battery: a heat shield between",
		"As drawn: 60 apart, needs 75", "Over the axle: 920 USD; 20 USD over the budget of 900 USD",
	} {
		require.Contains(t, out, want)
	}
	require.Regexp(t, `Touch +none +1 +none\n`, out)
	_, first, _ := call("compare", "-json", file)
	_, second, _ := call("compare", file, "-json")
	require.Equal(t, first, second)
	var c struct {
		Format   string
		Variants []struct {
			ID      string
			Summary struct{ Contact, Tight int }
		}
	}
	require.NoError(t, json.Unmarshal([]byte(first), &c))
	require.Equal(t, "scrubline-compare", c.Format)
	require.Len(t, c.Variants, 3)
	require.Equal(t, "over-the-axle", c.Variants[1].ID)
	require.Equal(t, 1, c.Variants[1].Summary.Contact)

	status, _, _ = call("compare", filepath.Join(testdata, "scenes", "two-boxes-apart.json"))
	require.Equal(t, exitClear, status, "one that has no variants is compared with nothing")
}

// check and gap of one variant: it alone, and it says so.
func TestCheckVariant(t *testing.T) {
	file := filepath.Join(testdata, "scenes", "two-battery-places.json")
	for id, want := range map[string]int{"over-the-axle": exitShort, "behind-a-shield": exitClear} {
		status, out, errs := call("check", "-variant", id, file)
		require.Equal(t, want, status, errs)
		require.Contains(t, out, "Two places for a battery, variant "+id+": ")
		_, out, _ = call("check", "-json", "-variant="+id, file)
		require.Contains(t, out, `"variant": "`+id+`"`)
	}
	_, out, _ := call("check", "-json", file)
	require.NotContains(t, out, `"variant"`)
	status, out, _ := call("gap", file, "battery", "axle", "-variant", "over-the-axle", "-at", "-120,-120,-120,-120")
	require.Equal(t, exitShort, status)
	require.Contains(t, out, "-60.000 mm")
	for _, command := range [][]string{{"check", file}, {"gap", file, "battery", "axle"}} {
		status, out, errs := call(append(command, "-variant", "nowhere")...)
		require.Equal(t, exitBad, status)
		require.Empty(t, out)
		require.Contains(t, errs, `there is no variant "nowhere"; it has over-the-axle, behind-a-shield`)
	}
	status, _, errs := call("compare")
	require.Equal(t, exitBad, status)
	require.Contains(t, errs, "one scene file")
}
