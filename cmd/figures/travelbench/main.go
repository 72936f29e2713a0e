// Command travelbench times the whole-travel check of a generated vehicle, to
// be run natively and as WebAssembly.
//
//	travelbench check PARTS SEED ROUNDS   milliseconds from document to report, each round
//	travelbench move PARTS SEED ROUNDS    milliseconds after one part has moved, each round
package main

import (
	"fmt"
	"os"
	"runtime"
	"slices"
	"strconv"
	"time"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/testdata/vehicles"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "travelbench:", err)
		os.Exit(2)
	}
}

func run(args []string) error {
	if len(args) != 4 {
		return fmt.Errorf("expected check or move, and PARTS SEED ROUNDS")
	}
	var n [3]int
	for i := range n {
		v, err := strconv.Atoi(args[i+1])
		if err != nil {
			return fmt.Errorf("expected a whole number, found %q", args[i+1])
		}
		n[i] = v
	}
	doc := vehicles.Generate(n[0], int64(n[1]))
	if err := doc.Validate(); err != nil {
		return err
	}
	switch args[0] {
	case "check":
		return check(doc, n[2])
	case "move":
		return move(doc, n[2])
	}
	return fmt.Errorf("expected check or move, found %q", args[0])
}

func check(doc *scene.Document, rounds int) error {
	for range rounds + 1 {
		runtime.GC()
		start := time.Now()
		m, err := fitment.Compile(doc)
		if err != nil {
			return err
		}
		m.Check()
		fmt.Println(ms(start))
	}
	return nil
}

// move goes through the parts: each is moved by a few millimetres, and stays
// there. That is what one step of a drag costs the engine.
func move(doc *scene.Document, rounds int) error {
	m, err := fitment.Compile(doc)
	if err != nil {
		return err
	}
	m.Check()
	for r := range rounds + 1 {
		next := *m.Doc
		next.Parts = slices.Clone(m.Doc.Parts)
		p := &next.Parts[r*11%len(next.Parts)]
		p.AtMM[r%3] += 3
		start := time.Now()
		if m, err = m.With(&next); err != nil {
			return err
		}
		m.Check()
		fmt.Println(ms(start))
	}
	return nil
}

func ms(start time.Time) float64 { return float64(time.Since(start).Nanoseconds()) / 1e6 }
