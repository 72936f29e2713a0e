package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

const shaftAndTank = "need:driveshaft|air_tank"

// A finding's need is changed in a form of the two: the finding follows, says
// what the table asks, is gone when it no longer falls short, and is back with
// the table's figure.
func TestAPairsNeedIsChanged(t *testing.T) {
	a, page := shown(t, "bakery-van.json")
	key := "driveshaft|air_tank|"
	item := func() *FindingItem {
		settled(t, a)
		for _, f := range page.last(t).Findings {
			if f.Key == key {
				return &f
			}
		}
		return nil
	}
	require.Equal(t, "Driveshaft and anything: 25 (common practice, from memory)", item().Why)
	send(t, a, Command{Do: "finding", Key: key})
	send(t, a, Command{Do: "form", Text: shaftAndTank})
	require.Equal(t, key, a.finding, "the finding stays open")
	f := a.theForm()
	require.Equal(t, "Driveshaft and air tank", f.Title)
	require.Empty(t, f.Warn)
	require.Equal(t, "25", fieldNamed(t, f, "need").Value)
	require.Len(t, f.Fields, 1, "no shield helps a driveshaft, and there is nothing to take back")

	send(t, a, Command{Do: "edit", Target: shaftAndTank, Field: "need", Text: "1 3/8 in"})
	require.Equal(t, "changed the need of Driveshaft and Air tank", a.hist.UndoLabel())
	send(t, a, Command{Do: "edit", Target: shaftAndTank, Field: "why", Text: "the shaft whips"})
	it := item()
	require.Equal(t, "Your figure: 34.9; the table asks 25 (driveshaft and anything: common practice, from memory). Why: the shaft whips", it.Why)
	require.Contains(t, it.Figures, "needs 34.9")
	require.Empty(t, a.theForm().Warn, "it is more than the table asks")

	send(t, a, Command{Do: "edit", Target: shaftAndTank, Field: "need", Text: "5"})
	require.Nil(t, item())
	require.Contains(t, a.theForm().Warn, "Less than the 25 of the table. A driveshaft that touches anything can break it or itself: fit a safety loop where your local code asks for one.")
	require.Contains(t, a.theForm().Warn, "Local codes and licensed practice decide, not this figure.")
	found := false
	for _, l := range page.last(t).Lowered {
		found = found || l.A == "driveshaft" && l.B == "air_tank" && l.Caution != ""
	}
	require.True(t, found, "it is listed as looked at less strictly")

	back := fieldNamed(t, a.theForm(), "drop")
	require.Equal(t, "Back to the table’s 25", back.Label)
	send(t, a, *back.Action)
	require.NotNil(t, item())
	send(t, a, Command{Do: "undo"})
	require.Nil(t, item())
}

// What is typed wrongly is told in one sentence, and nothing changes.
func TestNeedsThatAreRefused(t *testing.T) {
	a, _ := shown(t, "exhaust-shield.json")
	const pair = "need:tank_left|pipe"
	before := string(scene.Encode(a.doc))
	for _, c := range []struct{ target, field, text, says string }{
		{pair, "need", "wide", "Type a length such as"},
		{pair, "need", "9000", "Need must be from 0 to 2000 mm."},
		{"need:pipe|tank_right", "need", "-3", "Need must be from 0 to 2000 mm."},
		{pair, "need", "10", "With the shield the table asks 25: untick the shield to set less than that."},
		{pair, "why", strings.Repeat("x", 201), "at most 200 characters"},
		{pair, "colour", "red", "no field"},
		{"need:pipe|tank_right", "why", "because", "type a figure first"},
		{"need:pipe|tank_right", "need", "", "the table's figure holds for these two already"},
		{"need:pipe|ghost", "need", "5", "no longer there"},
		{"need:pipe|pipe", "need", "5", "no longer there"},
		{"need:pipe", "need", "5", "no longer there"},
		{"kinds:exhaust|shiny", "need", "5", "one of fixed"},
		{"kinds:exhaust|fuel", "need", "wide", "Type a length such as"},
		{"kinds:exhaust|fuel", "why", "because", "no field"},
		{"kinds:", "need", "5", "must be"},
	} {
		text := try(t, a, Command{Do: "edit", Target: c.target, Field: c.field, Text: c.text}).Error
		require.Contains(t, strings.ToLower(text), strings.ToLower(c.says), "%+v", c)
		require.Equal(t, before, string(scene.Encode(a.doc)))
	}
	require.NotEmpty(t, try(t, a, Command{Do: "form", Text: "need:pipe|ghost"}).Error)
}

// The shield is offered where the table has a figure for one; a figure below
// what it allows gives way to it, a larger one stays.
func TestAShieldIsStated(t *testing.T) {
	a, _ := shown(t, "exhaust-shield.json")
	const pair = "need:tank_right|pipe"
	parts := scene.Need{Parts: [2]string{"tank_right", "pipe"}}
	tick := func(on string) { send(t, a, Command{Do: "edit", Target: pair, Field: "shield", Text: on}) }
	send(t, a, Command{Do: "form", Text: pair})
	require.Contains(t, fieldNamed(t, a.theForm(), "shield").Help, "25 instead of 75")
	send(t, a, Command{Do: "edit", Target: pair, Field: "need", Text: "10"})
	require.Contains(t, a.theForm().Warn, "Less than the 75 of the table.")
	tick("true")
	require.Equal(t, &scene.Need{Parts: parts.Parts, Shielded: true}, a.doc.NeedFor(parts))
	require.Equal(t, "25", fieldNamed(t, a.theForm(), "need").Value)
	require.Contains(t, a.theForm().Sub, "A heat shield is stated between them; the table asks 75")
	tick("false")
	require.Nil(t, a.doc.NeedFor(parts), "nothing of its own is left")
	send(t, a, Command{Do: "edit", Target: pair, Field: "need", Text: "60"})
	tick("true")
	require.Equal(t, "60", fieldNamed(t, a.theForm(), "need").Value, "a larger figure holds behind a shield too")
	send(t, a, Command{Do: "delete", Part: "tank_right"})
	require.Nil(t, a.theForm(), "one of the two is gone")
}

// The form of a neighbour's need leads back to the part it was opened from.
func TestANeedLeadsBackToItsPart(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "select", Part: tank})
	frame(a)
	n := page.last(t).Form.Near[0]
	send(t, a, Command{Do: "form", Text: "need:" + n.A + "|" + n.B})
	require.Equal(t, "Air tank", a.theForm().Back)
	send(t, a, Command{Do: "form"})
	require.Equal(t, tank, a.selected)
	send(t, a, Command{Do: "select"})
	send(t, a, Command{Do: "form", Text: "need:" + n.A + "|" + n.B})
	require.Empty(t, a.theForm().Back)
	send(t, a, Command{Do: "form"})
	require.Nil(t, a.theForm())
}

// The list of needs: every two kinds once, changed for the whole scene and taken
// back, in the shown unit, and the pairs that have a figure of their own.
func TestTheListOfNeeds(t *testing.T) {
	a, page := shown(t, "exhaust-shield.json")
	require.Nil(t, page.last(t).Needs)
	send(t, a, Command{Do: "needs", On: true})
	settled(t, a)
	row := func(x, y scene.Trait) NeedRow {
		settled(t, a)
		var found []NeedRow
		for _, r := range page.last(t).Needs.Rows {
			if r.Target == kindsTarget+string(x)+"|"+string(y) {
				found = append(found, r)
			}
		}
		require.Len(t, found, 1)
		return found[0]
	}
	require.Len(t, page.last(t).Needs.Kinds, len(scene.AllTraits))
	for _, k := range page.last(t).Needs.Kinds {
		require.NotEmpty(t, k.Label, k.Value)
	}
	fuel := row(scene.Exhaust, scene.Fuel)
	require.Equal(t, "50", fuel.Value)
	require.Equal(t, "Exhaust and fuel, brake, wiring, what burns: Quebec C-24.2 r.32 s.92.", fuel.From)
	require.Contains(t, row(scene.Exhaust, scene.Battery).From, "With a heat shield between two parts 25.")

	send(t, a, Command{Do: "edit", Target: fuel.Target, Field: "need", Text: "20"})
	require.Equal(t, "changed the need of exhaust and fuel", a.hist.UndoLabel())
	send(t, a, Command{Do: "edit", Target: fuel.Target, Field: "why", Text: "tried"})
	fuel = row(scene.Exhaust, scene.Fuel)
	require.True(t, fuel.Set)
	require.Equal(t, [3]string{"20", "50", "tried"}, [3]string{fuel.Value, fuel.Table, fuel.Why})
	require.Contains(t, fuel.Warn, "Less than the 50 of the table, which is a regulation’s (Quebec C-24.2 r.32 s.92). Heat beside fuel")
	send(t, a, Command{Do: "edit", Target: fuel.Target, Field: "need", Text: ""})
	require.False(t, row(scene.Exhaust, scene.Fuel).Set)
	send(t, a, Command{Do: "units", Text: "in"})
	require.Equal(t, [2]string{"1 15/16", "in"}, [2]string{row(scene.Exhaust, scene.Fuel).Value, row(scene.Exhaust, scene.Fuel).Unit})

	pairs := page.last(t).Needs.Pairs
	require.Len(t, pairs, 1)
	require.Contains(t, pairs[0].Text, "A heat shield is stated")
	send(t, a, Command{Do: "edit", Target: pairs[0].Target, Field: "need", Text: ""})
	settled(t, a)
	require.Empty(t, page.last(t).Needs.Pairs)
	send(t, a, Command{Do: "needs"})
	settled(t, a)
	require.Nil(t, page.last(t).Needs)
}
