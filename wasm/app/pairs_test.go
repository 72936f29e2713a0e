package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

func containsAll(text string, parts ...string) bool {
	for _, p := range parts {
		if !strings.Contains(text, p) {
			return false
		}
	}
	return true
}

// What is joined stays in sight with what it hides, and is separated again.
func TestJoinedPairsAreShownAndSeparated(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-100"})
	frame(a)
	var f FindingItem
	for _, x := range page.last(t).Findings {
		if x.A == "driveshaft" && x.B == tank {
			f = x
		}
	}
	require.Contains(t, f.JoinWarning, "driveshaft")
	require.Contains(t, f.JoinWarning, "overlap by")
	require.True(t, strings.HasSuffix(f.JoinWarning, "Joining hides that."))
	was := len(page.last(t).Joined)
	send(t, a, Command{Do: "join", A: f.A, B: f.B, On: true, Text: "a trial"})
	send(t, a, Command{Do: "select", Part: tank})
	frame(a)
	p := page.last(t)
	require.Len(t, p.Joined, was+1)
	j := p.Joined[was]
	g, err := a.model.GapBetween(f.A, f.B, a.state())
	require.NoError(t, err)
	require.Negative(t, g.GapMM)
	require.Equal(t, JoinedItem{A: f.A, B: f.B, Names: "Driveshaft and air tank", Why: "a trial",
		Here: "overlap by " + a.measured(-g.GapMM) + " at this height"}, j)
	require.Equal(t, []JoinedItem{j}, p.Form.Joined)
	send(t, a, Command{Do: "join", A: f.A, B: f.B})
	frame(a)
	require.Len(t, page.last(t).Joined, was)
	require.True(t, func() bool {
		for _, x := range page.last(t).Findings {
			if x.Key == f.Key {
				return true
			}
		}
		return false
	}(), "it is found again")
}

// Two fixed parts that just touch are joined without a warning.
func TestAnOrdinaryJoinIsNotWarnedOf(t *testing.T) {
	a, _ := yard(t)
	a.doc.Parts = append(a.doc.Parts, scene.Part{ID: "x", Kind: "box"}, scene.Part{ID: "y", Kind: "box"})
	over := 2 * a.doc.ToleranceMM
	require.Empty(t, a.joinWarning(&fitment.Finding{A: "x", B: "y", GapMM: -over}))
	require.NotEmpty(t, a.joinWarning(&fitment.Finding{A: "x", B: "y", GapMM: -over - 0.1}))
}

// The nearest parts of a form are the engine's, nearest first, and the view
// goes to one without moving the body.
func TestNearestPartsAndTheirPlace(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "height", Front: -20, Rear: -25})
	send(t, a, Command{Do: "select", Part: tank})
	frame(a)
	near := page.last(t).Form.Near
	want := a.model.Nearest(tank, a.state(), nearestShown)
	require.Len(t, near, len(want))
	for i, r := range want {
		require.Equal(t, [2]string{r.A, r.B}, [2]string{near[i].A, near[i].B})
		require.Equal(t, a.gapWords(r.GapMM), near[i].Gap)
		require.Equal(t, "needs "+a.measured(r.NeedMM), near[i].Need)
	}
	front, rear := a.front, a.rear
	send(t, a, Command{Do: "near", A: near[0].A, B: near[0].B})
	require.Equal(t, [2]float64{front, rear}, [2]float64{a.front, a.rear})
	require.Equal(t, tank, a.selected)
	found := false
	proj := a.projection()
	for _, m := range a.marks() {
		found = found || m.Selected && a.lay.Main.Contains(m.At(&proj))
	}
	require.True(t, found, "its place is marked and in sight")
	require.NotEmpty(t, try(t, a, Command{Do: "near", A: tank, B: "nobody"}).Error)
}

// A finding that moves the body offers the way back, until the user goes on.
func TestBackFromAFinding(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-100"})
	send(t, a, Command{Do: "apart", On: true})
	send(t, a, Command{Do: "height", Front: -74, Rear: -30})
	frame(a)
	require.Empty(t, page.last(t).Back)
	for _, f := range page.last(t).Findings {
		send(t, a, Command{Do: "finding", Key: f.Key})
	}
	frame(a)
	require.NotEqual(t, [2]float64{-74, -30}, [2]float64{a.front, a.rear})
	require.Equal(t, "Back to −74/−30", page.last(t).Back)
	send(t, a, Command{Do: "back"})
	frame(a)
	require.Equal(t, [2]float64{-74, -30}, [2]float64{a.front, a.rear})
	require.Empty(t, page.last(t).Back)
	send(t, a, Command{Do: "finding", Key: page.last(t).Findings[0].Key})
	send(t, a, Command{Do: "named", Key: scene.AiredUp})
	frame(a)
	require.Empty(t, page.last(t).Back, "the user went on")
}

// What a part is is ticked; what its kind says anyway is stored as nothing.
func TestTraitsAreTicks(t *testing.T) {
	a, _ := yard(t)
	p := func() *scene.Part { q, err := a.part(tank); require.NoError(t, err); return q }
	kind := scene.TraitsOf(p())
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "trait/burns", Text: "true"})
	require.True(t, hasTrait(p().Traits, scene.Burns))
	for _, k := range kind {
		require.True(t, hasTrait(p().Traits, k))
	}
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "trait/burns", Text: "false"})
	require.Empty(t, p().Traits)
	for i, k := range kind {
		r := try(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "trait/" + string(k), Text: "false"})
		require.Equal(t, i == len(kind)-1, r.Error != "", "the last one stays")
	}
	for _, tr := range scene.AllTraits {
		require.NotEmpty(t, traitWords[tr][0])
		require.NotEmpty(t, traitWords[tr][1])
	}
	for _, k := range scene.Kinds() {
		require.True(t, briefs[k.Name] != "" || k.Group == "Plain shapes", k.Name)
	}
}

// A new vehicle is in the unit the user reads, says that its numbers are
// assumed until they are changed; a unit is nothing to undo.
func TestANewVehicleAndItsUnit(t *testing.T) {
	for _, u := range []string{"mm", "in"} {
		a, page := yard(t)
		send(t, a, Command{Do: "units", Text: u})
		frame(a)
		require.Empty(t, page.last(t).Undo, "the unit is no step")
		send(t, a, Command{Do: "starter"})
		frame(a)
		require.Equal(t, u, page.last(t).Units)
		require.True(t, page.last(t).Assumed)
		send(t, a, Command{Do: "edit", Target: "vehicle", Field: "wheelbase", Text: "3000 mm"})
		frame(a)
		require.False(t, page.last(t).Assumed)
		other := map[string]string{"mm": "in", "in": "mm"}[u]
		send(t, a, Command{Do: "units", Text: other})
		send(t, a, Command{Do: "undo"})
		frame(a)
		require.Equal(t, other, page.last(t).Units, "undo leaves the unit alone")
		require.True(t, page.last(t).Assumed)
	}
}

// Another size of the canvas and back shows what was seen before; what nobody
// chose fills its sheet at every size.
func TestAnotherSizeAndBack(t *testing.T) {
	a, _ := yard(t)
	for _, all := range []bool{false, true} {
		if all {
			send(t, a, Command{Do: "fit"})
		}
		first := *a.camera()
		a.Resize(390, 500)
		small := *a.camera()
		require.NotEqual(t, first, small)
		require.Equal(t, small, func() any { a.fitted[a.view] = false; return *a.camera() }(), "it fills the small sheet")
		a.Resize(700, 900)
		a.Resize(1000, 800)
		require.Equal(t, first, *a.camera())
	}
	a.Wheel(0, -300, 300, 200, false)
	chosen := *a.camera()
	a.Resize(390, 500)
	a.Resize(700, 900)
	a.Resize(1000, 800)
	require.InDelta(t, chosen.PxPerMM, a.camera().PxPerMM, 1e-12)
	require.Equal(t, chosen.Centre, a.camera().Centre)
}
