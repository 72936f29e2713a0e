package main

import (
	"os"
	"strconv"
)

// ladderFigures measure what the ladder costs once the check is done.
func ladderFigures() []figure {
	return []figure{{"ladder-wasm-ms", "ms", "<=100", ladderInWasm}}
}

// ladderInWasm is the median for the demo vehicle under Node, after the rounds
// in which WebAssembly becomes fast.
func ladderInWasm() (float64, error) {
	dir, err := os.MkdirTemp("", "figures")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	b, err := buildBoth(dir, "./cmd/figures/ladderbench")
	if err != nil {
		return 0, err
	}
	const warm, counted = 3, 15
	took, err := times(b.wasm("bakery-van.json", strconv.Itoa(warm+counted)))
	if err != nil {
		return 0, err
	}
	return median(took[warm:]), nil
}
