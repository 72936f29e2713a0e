package app

import (
	"os"
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
