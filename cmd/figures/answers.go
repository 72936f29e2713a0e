package main

import (
	"os"
	"slices"
)

// answerFigures measure mends and rooms in WebAssembly under Node: medians over
// parts, and the slowest mend.
func answerFigures() []figure {
	mend := func() ([]float64, error) { return answered("mend", "bakery-van.json") }
	return []figure{
		{"mend-wasm-ms", "ms", "<=150", func() (float64, error) { return over(mend, median) }},
		{"mend-slowest-wasm-ms", "ms", "-", func() (float64, error) { return over(mend, slices.Max[[]float64]) }},
		{"room-rough-wasm-ms", "ms", "<=150", func() (float64, error) {
			return over(func() ([]float64, error) { return answered("rough", "150", "1") }, median)
		}},
		{"room-full-wasm-ms", "ms", "<=800", func() (float64, error) {
			return over(func() ([]float64, error) { return answered("full", "150", "1") }, median)
		}},
	}
}

func over(measure func() ([]float64, error), of func([]float64) float64) (float64, error) {
	v, err := measure()
	if err != nil {
		return 0, err
	}
	return of(v), nil
}

// answered runs the bench as WebAssembly and returns what it prints.
func answered(args ...string) ([]float64, error) {
	dir, err := os.MkdirTemp("", "figures")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(dir)
	b, err := buildBoth(dir, "./cmd/figures/answersbench")
	if err != nil {
		return nil, err
	}
	return times(b.wasm(args...))
}
