package app

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// Every kind that an end can have stands in the form with its help, and its
// points can be sent back as they are shown.
func TestTheVehicleFormShowsEveryKindOfSuspension(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "form", Text: "vehicle"})
	guide := fieldOf(t, a.theForm(), "rear/suspension/kind")
	require.Equal(t, scene.Guide, guide.Value)
	require.Len(t, guide.Choices, len(scene.SuspensionKinds()))
	for _, end := range []string{"front", "rear"} {
		for _, k := range scene.SuspensionKinds() {
			send(t, a, Command{Do: "edit", Target: "vehicle", Field: end + "/suspension/kind", Text: k.Name})
			f := a.theForm()
			readBack(t, a, f)
			kind := fieldOf(t, f, end+"/suspension/kind")
			require.Equal(t, k.Name, kind.Value)
			require.Contains(t, kind.Help, k.About)
			if k.Name == scene.Guide {
				continue
			}
			bars := fieldOf(t, f, end+"/suspension/bars")
			require.Equal(t, k.Bars, bars.RowNames)
			require.Len(t, bars.Rows, len(k.Bars))
			require.Len(t, bars.Columns, 6)
			require.Equal(t, []int{len(k.Bars), len(k.Bars)}, []int{bars.MinRows, bars.MaxRows}, "no row is added or taken")
			says := fieldOf(t, f, end+"/suspension/says").Value
			require.Equal(t, k.Approximate, strings.Contains(says, "approximation"), says)
		}
	}
	bars := fieldOf(t, a.theForm(), "front/suspension/bars")
	send(t, a, Command{Do: "edit", Target: "vehicle", Field: bars.Field + "/1/" + bars.Columns[4].Field, Text: "81"})
	require.Equal(t, 81.0, a.doc.Vehicle.Front.Suspension.Bars[1].CarriedMM[1])
	send(t, a, Command{Do: "undo"})
	require.NotEqual(t, 81.0, a.doc.Vehicle.Front.Suspension.Bars[1].CarriedMM[1])
}

// The switch puts an end's bars among the parts, joined with what holds them,
// and takes them out again; either is one step to undo.
func TestTheBarsAreCheckedWhenAskedFor(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "edit", Target: "vehicle", Field: "rear/suspension/kind", Text: scene.FourLinkPanhard})
	bars := func() (n int) {
		for i := range a.doc.Parts {
			if a.doc.Parts[i].Kind == "suspension_bar" {
				n++
			}
		}
		return n
	}
	bar := a.doc.Vehicle.Rear.Suspension.Bars[0]
	doc, id, err := scene.AddPart(a.doc, "box", bar.BodyMM)
	require.NoError(t, err)
	require.NoError(t, a.commit(doc, "placed "+id))
	bracket := doc.Parts[len(doc.Parts)-1].ID
	before := scene.Encode(a.doc)

	flip := func(on string) {
		send(t, a, Command{Do: "edit", Target: "vehicle", Field: "rear/suspension/as_parts", Text: on})
		frame(a)
	}
	flip("true")
	require.Equal(t, 5, bars())
	require.Equal(t, "true", fieldOf(t, vehicleForm(t, a), "rear/suspension/as_parts").Value)
	joined := false
	for _, j := range a.doc.Joined {
		joined = joined || j.A == bracket || j.B == bracket
	}
	require.True(t, joined, "the bracket at its end holds the lower left link")
	send(t, a, Command{Do: "undo"})
	require.Equal(t, string(before), string(scene.Encode(a.doc)))
	send(t, a, Command{Do: "redo"})
	flip("false")
	require.Equal(t, 0, bars())
	require.Equal(t, "false", fieldOf(t, vehicleForm(t, a), "rear/suspension/as_parts").Value)
	r := try(t, a, Command{Do: "edit", Target: "vehicle", Field: "rear/suspension/as_parts", Text: "false"})
	require.NotEmpty(t, r.Error)
}

func vehicleForm(t *testing.T, a *App) *Form {
	t.Helper()
	send(t, a, Command{Do: "form", Text: "vehicle"})
	return a.theForm()
}

// locked gives the yard's rear a Panhard bar that is far too short: its axle end
// moves up by 120 over a bar of 60.
func locked(t testing.TB) (*App, *fakePage) {
	t.Helper()
	a, page := yard(t)
	edit := func(field, text string) {
		send(t, a, Command{Do: "edit", Target: "vehicle", Field: "rear/suspension/" + field, Text: text})
	}
	edit("kind", scene.FourLinkPanhard)
	bar := a.doc.Vehicle.Rear.Suspension.Bars[4]
	edit("bars/4/body_mm/1", plainNumber(bar.CarriedMM[1]+60))
	frame(a)
	return a, page
}

// A suspension that locks within the travel is told before everything else, and
// its line opens the vehicle's form, which says the same.
func TestASuspensionThatLocksStandsFirst(t *testing.T) {
	a, page := locked(t)
	r := a.checked.Check()
	require.True(t, r.Suspension[1].Cut)
	p := page.last(t)
	first := p.Findings[0]
	require.Equal(t, "suspension|rear", first.Key)
	require.Equal(t, "tight", first.Mark)
	require.Equal(t, "vehicle", first.Opens)
	require.Contains(t, first.Figures, "It locks with the body")
	require.Contains(t, p.Headline, "suspension that locks")
	send(t, a, Command{Do: "finding", Key: first.Key})
	f := a.theForm()
	require.Equal(t, "vehicle", f.Target)
	require.Equal(t, upper(minus(fitment.SuspensionWords(&r.Suspension[1])))+".", fieldOf(t, f, "rear/suspension/says").Value)
	send(t, a, Command{Do: "named", Key: scene.AiredOut}) // beyond where it locks: still a picture
	send(t, a, Command{Do: "view", View: "side"})
	require.Len(t, a.mainSheet().Links, 5)
	for _, k := range a.mainSheet().Links {
		require.False(t, math.IsNaN(k.P[0]+k.P[1]+k.Q[0]+k.Q[1]))
	}
	send(t, a, Command{Do: "edit", Target: "vehicle", Field: "rear/suspension/kind", Text: scene.Guide})
	frame(a)
	require.NotEqual(t, "suspension|rear", page.last(t).Findings[0].Key)
	require.NotEmpty(t, try(t, a, Command{Do: "finding", Key: first.Key}).Error, "it no longer locks")
}
