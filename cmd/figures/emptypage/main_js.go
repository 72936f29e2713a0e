//go:build js && wasm

// Command emptypage is the smallest Ebiten program with vector drawing: what
// starting the sketcher is compared with.
package main

import (
	"image/color"
	"log"
	"syscall/js"

	"github.com/hajimehoshi/ebiten/v2"
	"github.com/hajimehoshi/ebiten/v2/vector"
)

type empty struct{ drawn bool }

func (e *empty) Update() error { return nil }

func (e *empty) Draw(screen *ebiten.Image) {
	vector.StrokeLine(screen, 10, 10, 200, 200, 2, color.White, true)
	if !e.drawn {
		e.drawn = true
		js.Global().Set("drawnAt", js.Global().Get("performance").Call("now"))
	}
}

func (e *empty) Layout(w, h int) (int, int) { return w, h }

func main() {
	if err := ebiten.RunGame(&empty{}); err != nil {
		log.Fatal(err)
	}
}
