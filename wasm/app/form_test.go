package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// fieldsOf are the fields of the open form by their names.
func fieldsOf(t *testing.T, a *App) map[string]FormField {
	t.Helper()
	f := a.theForm()
	require.NotNil(t, f)
	list := map[string]FormField{}
	for _, x := range f.Fields {
		list[x.Field] = x
	}
	return list
}

// Where 0 stands for "no limit" or "none" the field is empty and says so; typing
// nothing puts it back to 0. A 0 that is a measure stays a 0.
func TestZeroThatIsNoMeasureIsShownAsWhatItIs(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "place", Kind: "driveshaft"})
	target := "part:" + a.selected
	size := func(name string) float64 {
		p, err := a.part(a.selected)
		require.NoError(t, err)
		return p.Size.Num(name)
	}
	for _, name := range []string{"shortest_mm", "longest_mm", "joint_max_deg"} {
		f := fieldsOf(t, a)[name]
		require.Empty(t, f.Value, name)
		require.Equal(t, "no limit", f.ZeroIs, name)
		require.Contains(t, f.Help, "Empty: no limit.")
		typed := map[string]string{"shortest_mm": "900", "longest_mm": "1100", "joint_max_deg": "20"}[name]
		send(t, a, Command{Do: "edit", Target: target, Field: name, Text: typed})
		require.Equal(t, typed, fieldsOf(t, a)[name].Value)
	}
	for _, nothing := range []string{"", " ", "0"} {
		send(t, a, Command{Do: "edit", Target: target, Field: "longest_mm", Text: nothing})
		require.Zero(t, size("longest_mm"), "%q", nothing)
		require.Empty(t, fieldsOf(t, a)["longest_mm"].Value)
		send(t, a, Command{Do: "edit", Target: target, Field: "longest_mm", Text: "1100"})
	}
	require.Equal(t, "0", fieldsOf(t, a)["rear_y_mm"].Value, "a measure of 0 is one")
	require.NotEmpty(t, try(t, a, Command{Do: "edit", Target: target, Field: "rear_y_mm", Text: ""}).Error)
}

// Only numbers that may be below 0 are offered a sign.
func TestSignsAreForWhatMayBeNegative(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "place", Kind: "driveshaft"})
	part := fieldsOf(t, a)
	for name, unsigned := range map[string]bool{
		"at_x": false, "at_z": false, "turn_x": false, "rear_x_mm": false, "front_falls_deg": false,
		"diameter_mm": true, "shortest_mm": true, "joint_max_deg": true, "tolerance": true,
	} {
		require.Contains(t, part, name)
		require.Equal(t, unsigned, part[name].Unsigned, name)
	}
	send(t, a, Command{Do: "select"})
	send(t, a, Command{Do: "form", Text: "vehicle"})
	for name, f := range fieldsOf(t, a) {
		if f.Type != "number" {
			continue
		}
		refused := try(t, a, Command{Do: "edit", Target: "vehicle", Field: name, Text: "-5"}).Error != ""
		require.Equal(t, refused, f.Unsigned, "%s of the vehicle", name)
	}
	// What the sketcher says of a kind's dimension is what the document takes.
	for _, k := range scene.Kinds() {
		for i := range k.Fields {
			if f := &k.Fields[i]; f.ZeroIs != "" {
				require.True(t, f.Min == 0 && f.Type != scene.Table, "%s %s: 0 is allowed", k.Name, f.Name)
			}
		}
	}
}

// A form says what kind its part is once: not again where the name or what
// follows says it.
func TestAFormNamesItsKindOnce(t *testing.T) {
	for _, k := range scene.Kinds() {
		for _, name := range []string{k.Label, k.Label + " 2", "Mine"} {
			said := aboutKind(k, name)
			require.False(t, strings.HasPrefix(said, k.Label+". "+k.Label+" "), said)
			require.True(t, name == k.Label || strings.HasPrefix(said, k.Label), "%s is no longer told of %q: %s", k.Label, name, said)
		}
	}
}
