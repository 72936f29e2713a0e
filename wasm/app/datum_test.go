package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/scene"
)

// formField is a field of the form shown.
func formField(t testing.TB, a *App, name string) FormField {
	t.Helper()
	for _, f := range a.theForm().Fields {
		if f.Field == name {
			return f
		}
	}
	require.FailNow(t, "the form has no field "+name)
	return FormField{}
}

func partNow(t testing.TB, a *App, id string) scene.Part {
	t.Helper()
	i := a.partIndex(id)
	require.GreaterOrEqual(t, i, 0)
	return a.doc.Parts[i]
}

// railOf is the id of the left frame rail, whose inner face stands at −370.
func railOf(t testing.TB, a *App) string {
	t.Helper()
	for i := range a.doc.Parts {
		if p := &a.doc.Parts[i]; p.Kind == "frame_rail" {
			if lo, hi, ok := a.model.Extent(p.ID); ok && lo[1] < 0 {
				require.InDelta(t, -370, hi[1], 0.01)
				return p.ID
			}
		}
	}
	require.FailNow(t, "there is no left rail")
	return ""
}

func TestMeasuringFromARail(t *testing.T) {
	a, _ := yard(t)
	rail := railOf(t, a)
	send(t, a, Command{Do: "select", Part: tank})
	target := "part:" + tank
	was := atMM(t, a, tank)
	send(t, a, Command{Do: "edit", Target: target, Field: "measured/y/from", Text: "part:" + rail})
	require.Equal(t, was, atMM(t, a, tank), "it stays")
	f := formField(t, a, "measured/y")
	assert.Equal(t, "Left side from the right side of the left frame rail", f.Label)
	assert.Equal(t, "120", f.Value, "−250 less −370: between the faces that look at each other")
	send(t, a, Command{Do: "edit", Target: target, Field: "measured/y", Text: "2 in"})
	assert.InDelta(t, -370+50.8+100, atMM(t, a, tank)[1], 1e-6)
	assert.Equal(t, "moved Air tank", a.hist.UndoLabel())
	// Another way of moving it reads the number anew.
	send(t, a, Command{Do: "nudge", Key: "y", MM: 2})
	assert.Equal(t, "52.8", formField(t, a, "measured/y").Value)

	send(t, a, Command{Do: "edit", Target: target, Field: "measured/y/to", Text: "point"})
	assert.Equal(t, "152.8", formField(t, a, "measured/y").Value)
	send(t, a, Command{Do: "edit", Target: target, Field: "measured/z/from", Text: "ground"})
	assert.Equal(t, "Underside from the ground at ride", formField(t, a, "measured/z").Label)
	r := try(t, a, Command{Do: "edit", Target: "part:" + rail, Field: "measured/y/from", Text: target})
	assert.Contains(t, r.Error, "circle")
	send(t, a, Command{Do: "edit", Target: target, Field: "measured/y/from", Text: ""})
	require.Len(t, partNow(t, a, tank).MeasuredFrom, 1)
}

func TestTheRailMovesAndAsks(t *testing.T) {
	a, _ := yard(t)
	rail := railOf(t, a)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "measured/y/from", Text: "part:" + rail})
	before := scene.Encode(a.doc)
	tankAt, railAt := atMM(t, a, tank), atMM(t, a, rail)
	send(t, a, Command{Do: "select", Part: rail})
	for range 3 {
		a.Key("ArrowLeft", false, false)
	}
	ask := a.panels().Ask
	require.NotNil(t, ask)
	assert.Equal(t, "Air tank was measured from the left frame rail, which has moved. Move it too?", ask.Text)
	assert.Equal(t, tankAt, atMM(t, a, tank), "until it is answered it stays")
	assert.Equal(t, 123.0, partNow(t, a, tank).MeasuredFrom[0].MM)
	send(t, a, Command{Do: "follow", On: true})
	assert.Nil(t, a.panels().Ask)
	assert.Equal(t, tankAt[1]-3, atMM(t, a, tank)[1], "by all the rail has gone since it was asked")
	assert.Equal(t, 120.0, partNow(t, a, tank).MeasuredFrom[0].MM)
	assert.Equal(t, "moved Left frame rail, and air tank with it", a.hist.UndoLabel())
	for range 3 {
		send(t, a, Command{Do: "undo"})
	}
	require.Equal(t, string(before), string(scene.Encode(a.doc)))
	require.Equal(t, railAt, atMM(t, a, rail))

	// Left where it is.
	send(t, a, Command{Do: "nudge", Key: "y", MM: -10})
	send(t, a, Command{Do: "follow"})
	assert.Nil(t, a.panels().Ask)
	assert.Equal(t, tankAt, atMM(t, a, tank))
	assert.Equal(t, 130.0, partNow(t, a, tank).MeasuredFrom[0].MM)
	require.NotEmpty(t, try(t, a, Command{Do: "follow", On: true}).Error)

	// An undo takes the question with it; a locked part is not asked for.
	send(t, a, Command{Do: "nudge", Key: "y", MM: -10})
	require.NotNil(t, a.panels().Ask)
	send(t, a, Command{Do: "undo"})
	require.Nil(t, a.panels().Ask)
	send(t, a, Command{Do: "lock", Part: tank, On: true})
	send(t, a, Command{Do: "nudge", Key: "y", MM: -10})
	p := a.panels()
	require.Nil(t, p.Ask)
	require.Equal(t, "Air tank is locked and stays. What it measures is read anew.", p.Message)
}

// Decided beforehand, nothing is asked: the tank goes along in the rail's own
// step, or stays; by hand it is moved all the same.
func TestTheRailMovesAndTheTankAlwaysFollows(t *testing.T) {
	a, _ := yard(t)
	rail, target := railOf(t, a), "part:"+tank
	send(t, a, Command{Do: "select", Part: tank})
	r := try(t, a, Command{Do: "edit", Target: target, Field: "measured/y/moves", Text: "always"})
	require.Equal(t, "Choose first what it is measured from.", r.Error)
	send(t, a, Command{Do: "edit", Target: target, Field: "measured/y/from", Text: "part:" + rail})
	require.Equal(t, "ask", formField(t, a, "measured/y/moves").Value)
	send(t, a, Command{Do: "edit", Target: target, Field: "measured/y/moves", Text: "always"})
	require.Equal(t, "always", formField(t, a, "measured/y/moves").Value)
	assert.Equal(t, "let Air tank go along with Left frame rail", a.hist.UndoLabel())
	before, was := string(scene.Encode(a.doc)), atMM(t, a, tank)

	send(t, a, Command{Do: "select", Part: rail})
	send(t, a, Command{Do: "nudge", Key: "y", MM: -10})
	assert.Nil(t, a.panels().Ask)
	assert.Equal(t, was[1]-10, atMM(t, a, tank)[1])
	assert.Equal(t, 120.0, partNow(t, a, tank).MeasuredFrom[0].MM)
	assert.Contains(t, a.hist.UndoLabel(), ", and air tank with it")
	send(t, a, Command{Do: "undo"})
	require.Equal(t, before, string(scene.Encode(a.doc)), "one step took both along")

	send(t, a, Command{Do: "select", Part: tank})
	send(t, a, Command{Do: "nudge", Key: "y", MM: 5})
	assert.Equal(t, 125.0, partNow(t, a, tank).MeasuredFrom[0].MM)
	send(t, a, Command{Do: "edit", Target: target, Field: "measured/y/to", Text: "point"})
	require.Equal(t, "always", formField(t, a, "measured/y/moves").Value, "another face is the same reference")
	send(t, a, Command{Do: "edit", Target: target, Field: "measured/y/moves", Text: "never"})
	was = atMM(t, a, tank)
	send(t, a, Command{Do: "select", Part: rail})
	send(t, a, Command{Do: "nudge", Key: "y", MM: -10})
	assert.Nil(t, a.panels().Ask)
	assert.Equal(t, was, atMM(t, a, tank))
}

// What a file says of a distance gives way to where the parts stand.
func TestAnOldNumberIsNotShown(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "measured/x/from", Text: "rear_axle"})
	text := string(scene.Encode(a.doc))
	require.Contains(t, text, `"mm": -850}`)
	send(t, a, Command{Do: "open", Text: strings.Replace(text, `"mm": -850}`, `"mm": 40}`, 1)})
	send(t, a, Command{Do: "select", Part: tank})
	require.Equal(t, "−850", formField(t, a, "measured/x").Value)
	send(t, a, Command{Do: "nudge", Key: "y", MM: 1})
	require.Contains(t, string(scene.Encode(a.doc)), `"mm": -850}`, "the next edit mends it")
}

// A vehicle's number is a reference too.
func TestALongerWheelbaseAsks(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "measured/x/from", Text: "rear_axle"})
	send(t, a, Command{Do: "edit", Target: "vehicle", Field: "wheelbase", Text: "3000 mm"})
	ask := a.panels().Ask
	require.NotNil(t, ask)
	assert.Contains(t, ask.Text, "the rear axle’s centreline")
	was := partNow(t, a, tank)
	send(t, a, Command{Do: "follow", On: true})
	assert.InDelta(t, was.AtMM[0]+50, atMM(t, a, tank)[0], 1e-6, "the starter's wheelbase is 2950")
}

// Whatever moves a reference: followed, every number stays what it was, in one
// step, and undone the document is the bytes it was.
func TestFollowingKeepsTheNumberOnTheSheet(t *testing.T) {
	start, _ := yard(t)
	rail := railOf(t, start)
	text := string(scene.Encode(start.doc))
	followed := 0
	rapid.Check(t, func(t *rapid.T) {
		a, err := New(&fakePage{}, start.face)
		if err != nil {
			t.Fatal(err)
		}
		do := func(c Command) {
			if r := a.do(c); r.Error != "" {
				t.Fatalf("%+v: %s", c, r.Error)
			}
		}
		do(Command{Do: "open", Text: text})
		for axis, key := range axisKeys {
			from := "part:" + rail
			if rapid.IntRange(0, 3).Draw(t, "datum") == 0 {
				from = string(rapid.SampledFrom(scene.DatumsAlong(axis)).Draw(t, "which"))
			}
			do(Command{Do: "edit", Target: "part:" + tank, Field: "measured/" + key + "/from", Text: from})
			do(Command{Do: "edit", Target: "part:" + tank, Field: "measured/" + key + "/to", Text: string(rapid.SampledFrom(scene.Faces).Draw(t, "to"))})
		}
		before, was := string(scene.Encode(a.doc)), a.doc.Parts[a.partIndex(tank)]
		switch rapid.IntRange(0, 2).Draw(t, "edit") {
		case 0:
			do(Command{Do: "edit", Target: "vehicle", Field: "rear_frame_height", Text: rapid.SampledFrom([]string{"150", "203.7", "260"}).Draw(t, "height")})
		case 1:
			do(Command{Do: "edit", Target: "part:" + rail, Field: "turn_z", Text: rapid.SampledFrom([]string{"1", "-2.5"}).Draw(t, "yaw")})
		default:
			do(Command{Do: "select", Part: rail})
			do(Command{Do: "nudge", Key: rapid.SampledFrom(axisKeys[:]).Draw(t, "axis"), MM: float64(rapid.IntRange(-200, 200).Draw(t, "steps"))})
		}
		if a.ask() == nil {
			return
		}
		do(Command{Do: "follow", On: true})
		followed++
		for _, m := range a.doc.Parts[a.partIndex(tank)].MeasuredFrom {
			is, err := scene.Reading(a.doc, tank, &m, a.boxes)
			old := was.MeasuredAlong(m.Axis).MM
			if err != nil || m.MM != old || is-old > 1e-5 || old-is > 1e-5 {
				t.Fatalf("%+v: the tape reads %v, it was %v: %v", m, is, old, err)
			}
		}
		do(Command{Do: "undo"})
		if string(scene.Encode(a.doc)) != before {
			t.Fatal("undone, it is another document")
		}
	})
	require.Greater(t, followed, 10)
}
