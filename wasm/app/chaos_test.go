package app

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"scrubline/scene"
)

// Whatever fingers and page do, in any order: nothing panics, the document
// stays valid, the body within its travel, the drawing finite; and once all
// fingers are up, what is shown is what is kept.
func TestAnyOrderOfEventsLeavesSense(t *testing.T) {
	start, _ := yard(t)
	text := string(scene.Encode(start.doc))
	rapid.Check(t, func(t *rapid.T) {
		a, err := New(&fakePage{}, start.face)
		if err != nil {
			t.Fatal(err)
		}
		a.Resize(900, 700)
		a.do(Command{Do: "open", Text: text})
		t.Repeat(map[string]func(*rapid.T){
			"pointer": func(t *rapid.T) { anyPointer(t, a) },
			"drag":    func(t *rapid.T) { anyDrag(t, a) },
			"command": func(t *rapid.T) { a.do(anyCommand(t, a)) },
			"key": func(t *rapid.T) {
				keys := []string{"ArrowUp", "ArrowLeft", "Escape", "Delete", "z", "y", "d", "+", "-", "0", "PageDown", "Tab"}
				a.Key(rapid.SampledFrom(keys).Draw(t, "key"), rapid.Bool().Draw(t, "shift"), rapid.Bool().Draw(t, "ctrl"))
			},
			"wheel": func(t *rapid.T) {
				a.Wheel(0, rapid.Float64Range(-1e4, 1e4).Draw(t, "dy"), anyX(t), anyY(t), false)
			},
			"frame": func(*rapid.T) { a.Tick(); a.Frame() },
			"resize": func(t *rapid.T) {
				a.Resize(rapid.Float64Range(1, 1500).Draw(t, "w"), rapid.Float64Range(1, 1500).Draw(t, "h"))
			},
			"": func(t *rapid.T) { makesSense(t, a) },
		})
	})
}

func anyX(t *rapid.T) float64 { return rapid.Float64Range(-50, 1000).Draw(t, "x") }
func anyY(t *rapid.T) float64 { return rapid.Float64Range(-50, 800).Draw(t, "y") }

func anyPointer(t *rapid.T, a *App) {
	event := rapid.SampledFrom([]string{"pointerdown", "pointermove", "pointermove", "pointerup", "pointercancel"}).Draw(t, "event")
	kind := rapid.SampledFrom([]string{"touch", "touch", "mouse", "pen"}).Draw(t, "kind")
	x, y := anyX(t), anyY(t)
	if l := a.Look(); rapid.Bool().Draw(t, "aimed") {
		aims := [][2]float64{l.Saddle, l.SaddleF, l.Flag}
		if p, ok := l.Parts[tank]; ok {
			aims = append(aims, p, p)
		}
		p := rapid.SampledFrom(aims).Draw(t, "aim")
		x, y = p[0], p[1]
	}
	a.Pointer(event, kind, rapid.IntRange(1, 3).Draw(t, "id"), x, y, 0.5)
}

// anyDrag begins a drag of the tank, a saddle or the flag, and may leave the
// finger down.
func anyDrag(t *rapid.T, a *App) {
	if a.partIndex(tank) >= 0 {
		a.do(Command{Do: "select", Part: tank})
	}
	l := a.Look()
	aims := [][2]float64{l.Saddle, l.SaddleF, l.Flag}
	if p, ok := l.Parts[tank]; ok {
		aims = append(aims, p, p, p)
	}
	p := rapid.SampledFrom(aims).Draw(t, "aim")
	a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
	a.Pointer("pointermove", "touch", 1, p[0]+rapid.Float64Range(-200, 200).Draw(t, "dx"), p[1]+20, 0.5)
	if end := rapid.SampledFrom([]string{"pointerup", "pointercancel", ""}).Draw(t, "end"); end != "" {
		a.Pointer(end, "touch", 1, p[0], p[1], 0.5)
	}
}

func anyCommand(t *rapid.T, a *App) Command {
	part := tank
	if len(a.doc.Parts) > 0 {
		part = a.doc.Parts[rapid.IntRange(0, len(a.doc.Parts)-1).Draw(t, "part")].ID
	}
	key := scene.Ride
	if items := a.findingItems(); len(items) > 0 && rapid.Bool().Draw(t, "finding") {
		key = items[rapid.IntRange(0, len(items)-1).Draw(t, "which")].Key
	}
	movement := ""
	if n := len(a.doc.Movements); n > 0 {
		movement = a.doc.Movements[rapid.IntRange(0, n-1).Draw(t, "movement")].ID
	}
	mm := rapid.Float64Range(-1e5, 1e5).Draw(t, "mm")
	axis := rapid.SampledFrom(axisKeys[:]).Draw(t, "axis")
	return rapid.SampledFrom([]Command{
		{Do: "pick", On: true}, {Do: "pick", Part: part, On: true}, {Do: "pick", Part: tank, On: true}, {Do: "pick"}, {Do: "lock", Part: part, On: true}, {Do: "lock", Part: part},
		{Do: "align", Key: axis, Text: "low"}, {Do: "space", Key: axis}, {Do: "turn", Key: axis, Text: "90"}, {Do: "nudge", Key: axis, MM: -1},
		{Do: "group"}, {Do: "ungroup", Key: "air-tank-and-more"}, {Do: "alone", On: true}, {Do: "follow", On: true}, {Do: "follow"},
		{Do: "edit", Target: "part:" + tank, Field: "measured/" + axis + "/from", Text: "part:" + part},
		{Do: "edit", Target: "part:" + part, Field: "measured/z/from", Text: "ground"}, {Do: "edit", Target: "part:" + tank, Field: "measured/" + axis, Text: "100"},
		{Do: "edit", Target: "part:" + tank, Field: "measured/" + axis + "/moves", Text: "always"}, {Do: "letters", Text: "1.6"},
		{Do: "undo"}, {Do: "redo"}, {Do: "save"}, {Do: "fit"}, {Do: "place", Kind: "battery"},
		{Do: "select", Part: part}, {Do: "select"}, {Do: "delete", Part: part}, {Do: "duplicate", Part: part},
		{Do: "mirror", Part: part}, {Do: "finding", Key: key}, {Do: "named", Key: scene.AiredOut},
		{Do: "view", View: "side"}, {Do: "view", View: "plan"}, {Do: "view", View: "section"},
		{Do: "station", MM: mm}, {Do: "height", Front: mm, Rear: -mm}, {Do: "apart", On: true}, {Do: "apart"},
		{Do: "units", Text: "in"}, {Do: "units", Text: "mm"}, {Do: "form", Text: "vehicle"}, {Do: "back"},
		{Do: "ladder", Text: "up", Key: "front"}, {Do: "ladder", Text: "down", Key: "both"}, {Do: "rung", Row: 1}, {Do: "rung"},
		{Do: "suppose", Key: "low:" + tank, On: true}, {Do: "suppose", Key: "suspension:rear", On: true}, {Do: "suppose"},
		{Do: "edit", Target: "part:" + part, Field: "at_z", Text: "55"},
		{Do: "edit", Target: "scene", Field: "height/aired_out/rear_mm", Text: "-90 mm"},
		{Do: "form", Text: "need:" + part + "|" + tank}, {Do: "edit", Target: "need:" + part + "|" + tank, Field: "need", Text: "12 mm"},
		{Do: "edit", Target: "need:" + tank + "|" + part, Field: "need"}, {Do: "edit", Target: "need:" + tank + "|" + part, Field: "shield", Text: "true"},
		{Do: "edit", Target: "kinds:air|driveshaft", Field: "need", Text: "12 mm"}, {Do: "needs", On: mm > 0}, {Do: "form", Text: "heights"},
		{Do: "height_add"}, {Do: "height_drop", Key: "height-4"}, {Do: "named", Key: "height-4"}, {Do: "edit", Target: "heights", Field: "height/height-4/rear", Text: "-150 mm"},
		{Do: "let_move", Part: part, Kind: "hinge"}, {Do: "let_move", Part: part, Kind: "slide"}, {Do: "rest"},
		{Do: "move", Key: movement, MM: mm}, {Do: "stop_move", Key: movement},
		{Do: "measured", Target: "part:" + part}, {Do: "measured", Target: "part:" + part, On: true}, {Do: "form", Text: "unmeasured"},
		{Do: "begin", Text: `{"wheelbase":"3300","rear_hold":"leaf_springs"}`, Row: 2, On: true},
		{Do: "join", A: part, B: tank, On: true, Text: "bracket"},
		{Do: "variant_new", Text: "One"}, {Do: "variant", Key: "one"}, {Do: "variant"}, {Do: "variant_take", Key: "one"},
		{Do: "variant_drop", Key: "one"}, {Do: "variant_set", Key: "one", Field: "note", Text: "here"}, {Do: "compare", On: mm > 0},
		{Do: "shelf", On: mm > 0}, {Do: "shelf_add", Kind: "seat"}, {Do: "shelf_keep", Part: part}, {Do: "shelf_place", Key: "seat"},
		{Do: "shelf_drop", Key: "seat"}, {Do: "form", Text: "shelf:seat"},
	}).Draw(t, "command")
}

func makesSense(t *rapid.T, a *App) {
	if err := a.doc.Validate(); err != nil {
		t.Fatalf("the document is not valid any more: %v", err)
	}
	for i := range a.doc.Parts {
		for k := range a.doc.Parts[i].MeasuredFrom {
			m := &a.doc.Parts[i].MeasuredFrom[k]
			if is, _ := scene.Reading(a.doc, a.doc.Parts[i].ID, m, a.boxes); a.hand.mode != dragPart && math.Abs(is-m.MM) > 1e-5 {
				t.Fatalf("the tape reads %v, the document says %+v", is, m)
			}
		}
	}
	low, high := a.travel.Range()
	for _, v := range []float64{a.front, a.rear} {
		if !(v >= low-1e-9 && v <= high+1e-9) {
			t.Fatalf("the body stands at %v, outside %v to %v", v, low, high)
		}
	}
	for i, at := range a.moves {
		if i < len(a.doc.Movements) && (at < a.doc.Movements[i].From || at > a.doc.Movements[i].To) || i >= len(a.doc.Movements) && at != 0 {
			t.Fatalf("movement %d stands at %v", i, at)
		}
	}
	c := a.camera()
	for _, v := range []float64{c.Centre[0], c.Centre[1], c.PxPerMM, a.station} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Fatalf("camera %v, station %v", *c, a.station)
		}
	}
	if len(a.hand.fingers) == 0 {
		if a.hand.mode != idle {
			t.Fatalf("no finger is down, and yet the hand does %v", a.hand.mode)
		}
		if string(scene.Encode(a.doc)) != string(scene.Encode(a.shownIn(a.hist.Doc(), a.doc.Show))) {
			t.Fatal("what is shown is not what is kept")
		}
	}
}
