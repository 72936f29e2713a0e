// Command answersbench times mends and rooms, to be run natively and as
// WebAssembly. Milliseconds, one for each part that is asked for.
//
//	answersbench mend SCENE        every part of a scene's findings that can be moved
//	answersbench rough PARTS SEED  rooms of a generated vehicle's parts, to the first whole picture
//	answersbench full PARTS SEED   to full detail
package main

import (
	"fmt"
	"os"
	"strconv"
	"time"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/testdata"
	"scrubline/testdata/vehicles"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "answersbench:", err)
		os.Exit(2)
	}
}

func run(args []string) error {
	switch {
	case len(args) == 2 && args[0] == "mend":
		return mends(args[1])
	case len(args) == 3 && (args[0] == "rough" || args[0] == "full"):
		parts, err := strconv.Atoi(args[1])
		if err != nil {
			return err
		}
		seed, err := strconv.ParseInt(args[2], 10, 64)
		if err != nil {
			return err
		}
		return rooms(vehicles.Generate(parts, seed), args[0] == "full")
	}
	return fmt.Errorf("expected mend SCENE, or rough or full and PARTS SEED")
}

// warm is how often everything is done before it counts: WebAssembly becomes
// fast while it runs.
const warm = 2

func mends(file string) error {
	text, err := testdata.Scenes.ReadFile("scenes/" + file)
	if err != nil {
		return err
	}
	doc, err := scene.Decode(text)
	if err != nil {
		return err
	}
	m, err := fitment.Compile(doc)
	if err != nil {
		return err
	}
	asked := map[string]bool{}
	var parts []string
	for _, f := range m.Check().Findings {
		for _, id := range []string{f.A, f.B} {
			if !asked[id] {
				asked[id] = true
				parts = append(parts, id)
			}
		}
	}
	for round := range warm + 1 {
		for _, id := range parts {
			start := time.Now()
			d, err := m.Mend(id, fitment.MendOptions{})
			if err != nil {
				return err
			}
			if took := ms(start); round == warm && !d.Stays {
				fmt.Println(took)
			}
		}
	}
	return nil
}

// every and most choose which of a vehicle's parts are asked for.
const (
	every = 11
	most  = 12
)

func rooms(doc *scene.Document, full bool) error {
	m, err := fitment.Compile(doc)
	if err != nil {
		return err
	}
	m.Check()
	for round := range warm + 1 {
		for k := range most {
			id := doc.Parts[k*every%len(doc.Parts)].ID
			start := time.Now()
			r, err := m.NewRoomWithin(id, fitment.View(k%3), fitment.RoomReachMM, fitment.RoomCellMM)
			if err != nil {
				return err
			}
			for r.Rough() {
				r.Advance(1)
			}
			for full && !r.Advance(100) {
			}
			if took := ms(start); round == warm {
				fmt.Println(took)
			}
		}
	}
	return nil
}

func ms(start time.Time) float64 { return float64(time.Since(start).Nanoseconds()) / 1e6 }
