package app

import (
	"encoding/json"
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/scene"
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

func TestPanelsAreStable(t *testing.T) {
	var first []string
	for range 3 {
		a, page := yard(t)
		send(t, a, Command{Do: "select", Part: tank})
		send(t, a, Command{Do: "named", Key: scene.AiredOut})
		frame(a)
		if first == nil {
			first = page.panels
		}
		require.Equal(t, first, page.panels, "the same steps give the same bytes")
	}
}

func TestPanelsComeOnlyWhenTheyChanged(t *testing.T) {
	a, page := yard(t)
	n := len(page.panels)
	frame(a)
	a.touch()
	frame(a)
	require.Len(t, page.panels, n, "nothing changed")
	send(t, a, Command{Do: "height", Front: -20, Rear: -20})
	send(t, a, Command{Do: "height", Front: -30, Rear: -30})
	frame(a)
	require.Len(t, page.panels, n+1, "once for a frame")
	require.Contains(t, page.last(t).Height, "rear −30")
}

func TestKindsAreSentOnce(t *testing.T) {
	_, page := yard(t)
	with, kinds := 0, 0
	for _, k := range scene.Kinds() {
		if !k.Derived {
			kinds++
		}
	}
	for _, p := range page.panels {
		var out Panels
		require.NoError(t, json.Unmarshal([]byte(p), &out))
		if len(out.Kinds) > 0 {
			with++
			require.Len(t, out.Kinds, kinds)
		}
	}
	require.Equal(t, 1, with)
}

func TestCutPartsAreHatched(t *testing.T) {
	a, _ := yard(t)
	s := a.mainSheet()
	cut := 0
	for i := range s.Outs {
		if o := &s.Outs[i]; len(o.Cut) > 0 {
			cut++
			require.NotEmpty(t, draw.Hatch(o.Cut, o.Bore, 0.7, 5), s.Parts[o.Part].Name)
		}
	}
	require.GreaterOrEqual(t, cut, 4, "two rails, the driveshaft, the tank")
	lines := func() (thin, wide int) {
		a.touch()
		for _, op := range a.Frame().Ops {
			switch {
			case op.Kind == draw.LineOp && op.Width == draw.Wide:
				wide++
			case op.Kind == draw.LineOp && op.Width == draw.Fine && op.Dash == nil:
				thin++
			}
		}
		return thin, wide
	}
	thin, wide := lines()
	require.GreaterOrEqual(t, wide, cut)
	send(t, a, Command{Do: "view", View: "side"})
	thin2, wide2 := lines()
	require.Less(t, thin2, thin, "nothing is hatched where nothing is cut")
	require.Less(t, wide2, wide)
}

func TestPictureIsDrawnOnlyWhenItChanged(t *testing.T) {
	a, _ := yard(t)
	frame(a)
	require.Nil(t, a.Frame())
	a.Pointer("pointermove", "mouse", 1, 100, 100, 0)
	require.Nil(t, a.Frame(), "a hovering mouse changes nothing")
	send(t, a, Command{Do: "theme", Text: "dark"})
	require.NotNil(t, a.Frame())
	require.Equal(t, &draw.Dark, a.Palette())
}

func TestEditsAndTheirUndo(t *testing.T) {
	a, page := yard(t)
	n := len(a.doc.Parts)
	send(t, a, Command{Do: "place", Kind: "battery"})
	require.Len(t, a.doc.Parts, n+1)
	placed := a.selected
	require.Equal(t, "battery", a.doc.Parts[a.partIndex(placed)].Kind)
	proj := a.projection()
	mid := view.Drop(a.view, atMM(t, a, placed))
	require.Less(t, proj.Screen(mid).Sub(a.lay.Main.Middle()).Len(), 12.0, "in the middle of the view")
	send(t, a, Command{Do: "edit", Target: "part:" + placed, Field: "name", Text: "Starter battery"})
	send(t, a, Command{Do: "mirror", Part: placed})
	require.Len(t, a.doc.Parts, n+2)
	require.NotEqual(t, placed, a.selected, "the new one is selected")
	send(t, a, Command{Do: "duplicate", Part: placed})
	send(t, a, Command{Do: "select", Part: placed})
	require.Equal(t, "part:"+placed, a.panels().Form.Target)
	send(t, a, Command{Do: "delete", Part: placed})
	require.Equal(t, -1, a.partIndex(placed))
	require.Nil(t, a.panels().Form)
	require.Len(t, page.saved, 1+5, "kept after opening and after every edit")
	for range 5 {
		send(t, a, Command{Do: "undo"})
	}
	require.Len(t, a.doc.Parts, n)
	require.Empty(t, a.panels().Undo)
	doc, err := scene.Decode([]byte(page.saved[len(page.saved)-1]))
	require.NoError(t, err)
	require.Len(t, doc.Parts, n, "what is undone is kept too")
}

func TestRefusalsChangeNothing(t *testing.T) {
	a, page := yard(t)
	doc, saves := a.doc, len(page.saved)
	for _, c := range []Command{
		{Do: "nonsense"}, {Do: "open", Text: "{", Name: "torn.json"}, {Do: "place", Kind: "anvil"},
		{Do: "select", Part: "nobody"}, {Do: "delete", Part: "nobody"}, {Do: "mirror", Part: "nobody"},
		{Do: "edit", Target: "part:" + tank, Field: "diameter_mm", Text: "wide"},
		{Do: "edit", Target: "part:" + tank, Field: "diameter_mm", Text: "-3"},
		{Do: "edit", Target: "vehicle", Field: "wheelbase", Text: "0"},
		{Do: "row", Target: "part:" + tank, Field: "profile", Add: true},
		{Do: "join", A: tank, B: tank, On: true},
		{Do: "finding", Key: "x|y|"}, {Do: "view", View: "inside"}, {Do: "named", Key: "sunk"},
		{Do: "units", Text: "cubits"}, {Do: "theme", Text: "pink"}, {Do: "form", Text: "tax"},
	} {
		r := try(t, a, c)
		require.NotEmpty(t, r.Error, "%+v", c)
		require.True(t, strings.HasSuffix(r.Error, "."), "a sentence: %q", r.Error)
		require.Equal(t, doc, a.doc, "%+v", c)
	}
	require.Len(t, page.saved, saves)
	require.Contains(t, a.Send("nonsense"), "error")
}

func TestSaveAnswersWhatCanBeOpened(t *testing.T) {
	a, _ := yard(t)
	r := send(t, a, Command{Do: "save"})
	require.Equal(t, "new-vehicle.json", r.Name)
	doc, err := scene.Decode([]byte(r.Text))
	require.NoError(t, err)
	require.Equal(t, scene.Encode(a.doc), scene.Encode(doc))
}

// Every field a form shows can be sent back as it stands: its name is known,
// and its text is read as the value it shows.
func TestFormsReadBack(t *testing.T) {
	a, _ := yard(t)
	for _, k := range scene.Kinds() {
		send(t, a, Command{Do: "place", Kind: k.Name})
		f := a.theForm()
		require.NotNil(t, f, k.Name)
		readBack(t, a, f)
		id := strings.TrimPrefix(f.Target, "part:")
		for _, kind := range []string{"hinge", "slide"} {
			send(t, a, Command{Do: "let_move", Part: id, Kind: kind})
			readBack(t, a, a.theForm())
			send(t, a, Command{Do: "undo"})
		}
		send(t, a, Command{Do: "undo"})
	}
	for _, which := range []string{"vehicle", "scene"} {
		send(t, a, Command{Do: "form", Text: which})
		readBack(t, a, a.theForm())
	}
}

func readBack(t *testing.T, a *App, f *Form) {
	t.Helper()
	for _, x := range f.Fields {
		if x.Type == "shown" || x.Type == "action" {
			continue // only to be read, or pressed
		}
		if _, ok := barsEnd(f.Target, x.Field); ok {
			continue // what it switches has a test of its own
		}
		if strings.HasPrefix(x.Field, traitPrefix) {
			doc, _, err := a.setTrait(f.Target, scene.Trait(strings.TrimPrefix(x.Field, traitPrefix)), x.Value)
			require.NoError(t, err)
			require.Equal(t, scene.Encode(a.doc), scene.Encode(doc), "%s %s", f.Title, x.Field)
			continue
		}
		if field, ok := strings.CutPrefix(x.Field, measuredPrefix); ok {
			doc, _, err := a.setMeasured(f.Target, field, x.Value)
			require.NoError(t, err, "%s %s", f.Title, x.Field)
			require.Equal(t, scene.Encode(a.doc), scene.Encode(doc), "%s %s", f.Title, x.Field)
			continue
		}
		if field, ok := strings.CutPrefix(x.Field, movePrefix); ok {
			doc, _, err := a.setMovement(f.Target, field, x.Value)
			require.NoError(t, err, "%s %s", f.Title, x.Field)
			require.Equal(t, scene.Encode(a.doc), scene.Encode(doc), "%s %s", f.Title, x.Field)
			continue
		}
		if x.Type == "table" {
			for i, row := range x.Rows {
				for j, cell := range row {
					_, _, err := scene.SetField(a.doc, f.Target, x.Field+"/"+itoa(i)+"/"+x.Columns[j].Field, cell)
					require.NoError(t, err, "%s %s", f.Title, x.Field)
				}
			}
			continue
		}
		if x.Field == "front_tyre" || x.Field == "rear_tyre" {
			require.NotEmpty(t, x.Value)
		}
		doc, _, err := scene.SetField(a.doc, f.Target, x.Field, x.Value)
		require.NoError(t, err, "%s, field %s, value %q", f.Title, x.Field, x.Value)
		if x.Type == "choice" || x.Type == "flag" {
			require.Equal(t, scene.Encode(a.doc), scene.Encode(doc), "%s %s", f.Title, x.Field)
		}
	}
}

func itoa(i int) string {
	b, _ := json.Marshal(i)
	return string(b)
}

func TestUnitsChangeWhatIsShownNotWhatIs(t *testing.T) {
	a, page := yard(t)
	at := atMM(t, a, tank)
	send(t, a, Command{Do: "units", Text: "in"})
	send(t, a, Command{Do: "select", Part: tank})
	frame(a)
	p := page.last(t)
	require.Equal(t, "in", p.Units)
	require.Equal(t, at, atMM(t, a, tank))
	for _, f := range p.Form.Fields {
		if f.Field == "diameter_mm" {
			require.Equal(t, "7 7/8", f.Value) // 200 mm is 7.874 in
			require.Equal(t, "in", f.Unit)
			return
		}
	}
	t.Fatal("the form has no diameter")
}

func TestLookPointsPickTheirParts(t *testing.T) {
	a, _ := yard(t)
	for _, v := range []string{"section", "side", "plan"} {
		send(t, a, Command{Do: "view", View: v})
		send(t, a, Command{Do: "fit"})
		l := a.Look()
		require.NotEmpty(t, l.Parts, v)
		for id, p := range l.Parts {
			send(t, a, Command{Do: "select"})
			tapAt(a, mgl64.Vec2(p))
			require.Equal(t, id, a.selected, "%s view", v)
		}
	}
	require.NotEqual(t, "{}", a.LookJSON())
}

func TestSelectRevealsThePart(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "station", MM: 300})
	send(t, a, Command{Do: "select", Part: tank})
	s := a.mainSheet()
	for i := range s.Outs {
		if s.Outs[i].Part == a.partIndex(tank) {
			require.NotEmpty(t, s.Outs[i].Cut, "the section goes through it")
			return
		}
	}
	t.Fatal("the selected part is not in the view")
}

func TestCommandDuringADragTakesTheDragBack(t *testing.T) {
	a, _ := yard(t)
	p := grip(t, a, tank)
	tapAt(a, p)
	before := atMM(t, a, tank)
	press(a, "touch", p, mgl64.Vec2{60, 0})
	send(t, a, Command{Do: "view", View: "side"})
	require.Equal(t, before, atMM(t, a, tank))
	a.Pointer("pointermove", "touch", 1, 400, 400, 0.5)
	a.Pointer("pointerup", "touch", 1, 400, 400, 0)
	require.Equal(t, before, atMM(t, a, tank))
}
