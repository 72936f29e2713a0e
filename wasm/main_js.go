//go:build js && wasm

// The sketcher: the canvas in the page. Package app decides, package draw
// composes, package paint hands triangles to the graphics library, package
// bridge talks to the page.
package main

import (
	"fmt"
	"os"
	"runtime/debug"

	"scrubline/wasm/app"
	"scrubline/wasm/bridge"
	"scrubline/wasm/paint"
)

func main() {
	// A browser tab never gives memory back: collect early rather than grow. Well
	// below that limit a frame's time is worth more than its memory.
	debug.SetMemoryLimit(256 << 20)
	debug.SetGCPercent(300)
	fonts, err := paint.LoadFonts(bridge.Fonts())
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	a, err := app.New(bridge.Host{}, fonts.Measure)
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
	bridge.Serve(a)
	if err := paint.Run(a, fonts); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}
