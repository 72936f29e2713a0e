// Command figures measures whatever the project claims and prints a line for
// each figure: name, value, unit, aim. An aim is "<=0.5", ">=60" or "-".
//
//	go run ./cmd/figures [-only PATTERN]
//
// PATTERN is a regular expression on the names. Ratios are measured side by
// side in one run, as medians.
package main

import (
	"flag"
	"fmt"
	"os"
	"regexp"
	"slices"
	"sort"
)

// figure is one measured claim. measure returns the value in unit.
type figure struct {
	name, unit, aim string
	measure         func() (float64, error)
}

func main() {
	only := flag.String("only", "", "measure only the figures whose name matches this pattern")
	flag.Parse()
	pattern, err := regexp.Compile(*only)
	if err != nil {
		fmt.Fprintln(os.Stderr, "figures: -only takes a regular expression:", err)
		os.Exit(2)
	}
	failed := false
	for _, f := range all() {
		if !pattern.MatchString(f.name) {
			continue
		}
		v, err := f.measure()
		if err != nil {
			fmt.Fprintf(os.Stderr, "figures: %s: %v\n", f.name, err)
			failed = true
			continue
		}
		fmt.Printf("%s %.4g %s %s\n", f.name, v, f.unit, f.aim)
	}
	if failed {
		os.Exit(1)
	}
}

func all() []figure {
	return slices.Concat(pageFigures(), startFigures(), gapFigures(), travelFigures(), ladderFigures(), answerFigures(),
		dragFigures(), memoryFigures(), historyFigures())
}

// median of at least one value.
func median(v []float64) float64 {
	s := append([]float64(nil), v...)
	sort.Float64s(s)
	if n := len(s); n%2 == 0 {
		return (s[n/2-1] + s[n/2]) / 2
	}
	return s[len(s)/2]
}
