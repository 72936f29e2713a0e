package app

import (
	"os"
	"strconv"
	"testing"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
)

// van is the demo vehicle, the largest scene at hand.
func van(b testing.TB) *App {
	text, err := os.ReadFile("../../testdata/scenes/bakery-van.json")
	if err != nil {
		b.Fatal(err)
	}
	doc, err := scene.Decode(text)
	if err != nil {
		b.Fatal(err)
	}
	a, err := New(&fakePage{}, draw.RoughWidth)
	if err != nil {
		b.Fatal(err)
	}
	a.Resize(828, 746)
	if err := a.begin(doc); err != nil {
		b.Fatal(err)
	}
	frame(a)
	return a
}

func BenchmarkFirstCheck(b *testing.B) {
	a := van(b)
	for b.Loop() {
		m, err := fitment.Compile(a.doc)
		if err != nil {
			b.Fatal(err)
		}
		m.Check()
	}
}

// One step of a drag: the engine's answer about the moved part, and the panels.
func BenchmarkDragStep(b *testing.B) {
	a := van(b)
	a.selectPart("air_tank")
	p := mgl64.Vec2(a.Look().Parts["air_tank"])
	a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
	x := 10.0
	for b.Loop() {
		x = 50 - x
		a.Pointer("pointermove", "touch", 1, p[0]+x, p[1], 0.5)
		a.Tick()
	}
}

func BenchmarkLowerStep(b *testing.B) {
	a := van(b)
	mm := 0.0
	for b.Loop() {
		mm -= 1
		if mm < -100 {
			mm = 0
		}
		a.setHeight(mm, mm)
		a.Tick()
		a.Frame()
	}
}

func BenchmarkComposeSection(b *testing.B) { benchmarkCompose(b, "section") }
func BenchmarkComposePlan(b *testing.B)    { benchmarkCompose(b, "plan") }

func benchmarkCompose(b *testing.B, v string) {
	a := van(b)
	a.do(Command{Do: "view", View: v})
	for b.Loop() {
		a.dirty = true
		a.Frame()
	}
}

func BenchmarkMesh(b *testing.B) {
	a := van(b)
	a.dirty = true
	l := a.Frame()
	m := draw.Mesh{Scale: 2}
	for b.Loop() {
		m.Reset()
		for i := range l.Ops {
			if m.Add(&l.Ops[i], &draw.Light) {
				m.Reset()
				m.Add(&l.Ops[i], &draw.Light)
			}
		}
	}
}

// One step of the height by a button, a part being selected: the joined pairs
// and the neighbours are measured anew.
func BenchmarkHeightStep(b *testing.B) {
	a := van(b)
	a.selectPart("air_tank")
	mm := 0.0
	for b.Loop() {
		mm = -1 - mm
		a.setHeight(mm, mm)
		a.Tick()
	}
}

// A frame of a drag through 150 parts: boxes stand three abreast on the load
// floor, the section goes through the last of them, and that one moves.
func BenchmarkDragCrowded(b *testing.B) {
	for _, v := range []string{"section", "plan", "front"} {
		b.Run(v, func(b *testing.B) { dragCrowded(b, v) })
	}
}

func dragCrowded(b *testing.B, v string) {
	a := crowded(b)
	id := a.selected
	a.do(Command{Do: "view", View: v})
	frame(a)
	at, ok := a.Look().Parts[id]
	if !ok {
		b.Fatal("the part to drag is not in the view")
	}
	p := mgl64.Vec2(at)
	a.Pointer("pointerdown", "touch", 1, p[0], p[1], 0.5)
	m := draw.Mesh{Scale: 1}
	step, ops, corners := 0, 0, 0
	for b.Loop() {
		step = (step + 1) % 200
		k := float64(min(step, 200-step)) / 100
		a.Pointer("pointermove", "touch", 1, p[0]+100*k, p[1]-60*k, 0.5)
		a.Tick()
		l := a.Frame()
		if l == nil {
			continue
		}
		m.Reset()
		ops, corners = len(l.Ops), 0
		for i := range l.Ops {
			if l.Ops[i].Kind == draw.ClipOp {
				m.Clip = l.Ops[i].Clip
			}
			if m.Add(&l.Ops[i], &draw.Light) {
				m.Reset()
				m.Add(&l.Ops[i], &draw.Light)
			}
		}
		corners = len(m.V)
	}
	b.ReportMetric(float64(ops), "ops")
	b.ReportMetric(float64(corners), "corners")
}

// crowded is the demo vehicle with boxes up to 150 parts.
func crowded(b testing.TB) *App {
	a := van(b)
	for i := 0; len(a.doc.Parts) < 150; i++ {
		a.do(Command{Do: "place", Kind: "box"})
		x := 4050 - 350*(i/3)
		for k, mm := range [3]int{x, -300 + 300*(i%3), 1000} {
			if r := a.do(Command{Do: "edit", Target: "part:" + a.selected, Field: [3]string{"at_x", "at_y", "at_z"}[k], Text: strconv.Itoa(mm)}); r.Error != "" {
				b.Fatal(r.Error)
			}
		}
		a.do(Command{Do: "station", MM: float64(x)})
	}
	for a.checked != a.model {
		a.Tick()
	}
	frame(a)
	return a
}
