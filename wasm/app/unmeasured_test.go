package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

func fieldNamed(t testing.TB, f *Form, name string) FormField {
	t.Helper()
	require.NotNil(t, f)
	for _, x := range f.Fields {
		if x.Field == name {
			return x
		}
	}
	t.Fatalf("no field %s", name)
	return FormField{}
}

// A placed part's dimensions say that they are not measured; typed, marked and
// marked again they say so, and each is one step back.
func TestFieldsSayWhetherTheyAreMeasured(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "place", Kind: "battery"})
	target := a.theForm().Target
	frame(a)
	n := page.last(t).Unmeasured
	require.Equal(t, "no", fieldNamed(t, a.theForm(), "lid_mm").Measured)
	require.Equal(t, "yes", fieldNamed(t, a.theForm(), "at_x").Measured)
	require.Empty(t, fieldNamed(t, a.theForm(), "name").Measured)
	require.Equal(t, "yes", fieldNamed(t, a.theForm(), "length_mm").Measured, "a standard case has its own")
	send(t, a, Command{Do: "edit", Target: target, Field: "lid_mm", Text: "90"})
	require.Equal(t, "yes", fieldNamed(t, a.theForm(), "lid_mm").Measured)
	frame(a)
	require.Equal(t, n-1, page.last(t).Unmeasured)
	send(t, a, Command{Do: "measured", Target: target, Field: "at_x"})
	require.Equal(t, "no", fieldNamed(t, a.theForm(), "at_x").Measured)
	send(t, a, Command{Do: "measured", Target: target, On: true})
	require.Zero(t, a.theForm().Unmeasured)
	for range 3 {
		send(t, a, Command{Do: "undo"})
	}
	frame(a)
	require.Equal(t, n, page.last(t).Unmeasured)
}

// The list has every value with what it is now; each line goes to the form and
// the field where it is typed.
func TestTheListGoesToEachValue(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "let_move", Part: tank, Kind: "hinge"})
	for _, m := range [][2]string{{"vehicle", "rear_track"}, {"vehicle", "front_tyre"}, {"scene", "height/aired_up/rear"}, {"part:" + tank, "turn_z"}, {"part:" + tank, "movement/" + a.doc.Movements[0].ID + "/to"}} {
		send(t, a, Command{Do: "measured", Target: m[0], Field: m[1]})
	}
	send(t, a, Command{Do: "form", Text: "unmeasured"})
	list := a.theForm()
	require.Equal(t, notMeasuredWords(len(list.Fields)), list.Title)
	require.Equal(t, "Rear track: 1460 mm", fieldNamed(t, list, "vehicle/rear/track_mm").Label)
	require.Equal(t, "Front tyre size: 225/45R17", fieldNamed(t, list, "vehicle/front/tyre").Label)
	require.Equal(t, "Aired up, rear: +70 mm", fieldNamed(t, list, "height:aired_up/rear_mm").Label)
	require.Greater(t, len(list.Fields), 7)
	for _, x := range list.Fields {
		require.Equal(t, "action", x.Type)
		send(t, a, *x.Action)
		f := a.theForm()
		require.NotEqual(t, "unmeasured", f.Target)
		require.Equal(t, "no", fieldNamed(t, f, f.Focus).Measured, x.Field)
		require.Equal(t, x.Field, a.doc.Key(measureOf(f.Target, f.Focus)))
		send(t, a, Command{Do: "form", Text: "unmeasured"})
		require.Empty(t, a.theForm().Focus)
	}
	require.NotEmpty(t, try(t, a, Command{Do: "unmeasured", Key: "vehicle/wheelbase_mm"}).Error)
}

// A finding says what of it is not measured, and stops saying so.
func TestFindingsSayWhatIsNotMeasured(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-100"})
	frame(a)
	of := func() (list []string) {
		for _, f := range page.last(t).Findings {
			if f.A == tank || f.B == tank {
				list = append(list, f.Unmeasured)
			}
		}
		return list
	}
	require.NotEmpty(t, of())
	require.True(t, strings.HasPrefix(of()[0], "Not measured: "), of()[0])
	require.Contains(t, of()[0], "Air tank: ")
	send(t, a, Command{Do: "measured", Target: "part:" + tank, On: true})
	frame(a)
	require.NotContains(t, of()[0], "Air tank")
	require.Equal(t, 0, len(scene.New().Unmeasured))
}
