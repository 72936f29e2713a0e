// Command ladderbench times the ladder of a demo scene from a finished check, to
// be run natively and as WebAssembly: the way down and up, front and rear
// together.
//
//	ladderbench SCENE ROUNDS   milliseconds, each round on a model of its own
package main

import (
	"fmt"
	"os"
	"runtime"
	"strconv"
	"time"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/testdata"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "ladderbench:", err)
		os.Exit(2)
	}
}

func run(args []string) error {
	if len(args) != 2 {
		return fmt.Errorf("expected SCENE ROUNDS")
	}
	rounds, err := strconv.Atoi(args[1])
	if err != nil {
		return fmt.Errorf("expected a whole number, found %q", args[1])
	}
	data, err := testdata.Scenes.ReadFile("scenes/" + args[0])
	if err != nil {
		return err
	}
	doc, err := scene.Decode(data)
	if err != nil {
		return err
	}
	for range rounds {
		m, err := fitment.Compile(doc)
		if err != nil {
			return err
		}
		m.Check()
		runtime.GC()
		start := time.Now()
		m.Ladder(fitment.LadderAsk{})
		m.Ladder(fitment.LadderAsk{Up: true})
		fmt.Println(float64(time.Since(start).Nanoseconds()) / 1e6)
	}
	return nil
}
