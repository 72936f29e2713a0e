package main

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"sync"
	"time"

	"scrubline/fitment"
	"scrubline/testdata/reference"
	"scrubline/testdata/vehicles"
)

// travelFigures measure the check of a whole generated vehicle over its whole
// travel, from the document to the report.
func travelFigures() []figure {
	programs := sync.OnceValues(travelPrograms)
	return []figure{
		{"travel-check-over-sampling", "ratio", "<=0.5", travelOverSampling},
		{"travel-gaps-per-surviving-pair", "gaps", "<=12", travelGapsPerPair},
		{"travel-growth-exponent", "exponent", "<=1.2", travelGrowth},
		{"travel-wasm-over-native", "ratio", "<=2.5", func() (float64, error) {
			p, err := programs()
			if err != nil {
				return 0, err
			}
			return p.wasmOverNative()
		}},
		{"travel-one-part-moved-wasm-ms", "ms", "<=4", func() (float64, error) {
			p, err := programs()
			if err != nil {
				return 0, err
			}
			return p.oneMoved()
		}},
	}
}

// travelSeeds are the vehicles that figures about more than one are medians of.
var travelSeeds = []int64{1, 2, 3, 4, 5, 6, 7}

// checkTimes are the milliseconds of checks of one vehicle.
func checkTimes(parts int, seed int64, rounds int) (took []float64, err error) {
	doc := vehicles.Generate(parts, seed)
	if err := doc.Validate(); err != nil {
		return nil, err
	}
	for range rounds {
		start := time.Now()
		m, err := fitment.Compile(doc)
		if err != nil {
			return nil, err
		}
		m.Check()
		took = append(took, float64(time.Since(start).Nanoseconds())/1e6)
	}
	return took, nil
}

const sampledParts = 100

// travelOverSampling compares the proof over the whole travel with looking at
// 64 heights of it with the outside library. Each vehicle has a ratio of its own;
// the median is given.
func travelOverSampling() (float64, error) {
	dir, err := os.MkdirTemp("", "figures")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	program, err := reference.Build(dir)
	if err != nil {
		return 0, err
	}
	var ratios []float64
	for _, seed := range travelSeeds {
		r, err := overSampling(program, seed)
		if err != nil {
			return 0, err
		}
		ratios = append(ratios, r)
	}
	return median(ratios), nil
}

// overSampling is the ratio for one vehicle, the two taking turns.
func overSampling(program *reference.Program, seed int64) (float64, error) {
	text, err := sampledScene(vehicles.Generate(sampledParts, seed))
	if err != nil {
		return 0, err
	}
	var ours, theirs []float64
	queries := 0
	for range 5 {
		ms, err := checkTimes(sampledParts, seed, 5)
		if err != nil {
			return 0, err
		}
		n, nanos, err := program.Sample(text, 3)
		if err != nil {
			return 0, err
		}
		queries, ours, theirs = n, append(ours, ms...), append(theirs, nanos...)
	}
	check, sampling := median(ours), median(theirs)/1e6
	fmt.Fprintf(os.Stderr, "figures: vehicle %d: check %.2f ms; 64 heights, %d distances, %.2f ms\n", seed, check, queries, sampling)
	return check / sampling, nil
}

// travelGapsPerPair is over all the vehicles together.
func travelGapsPerPair() (float64, error) {
	gaps, pairs := 0, 0
	for _, seed := range travelSeeds {
		m, err := fitment.Compile(vehicles.Generate(sampledParts, seed))
		if err != nil {
			return 0, err
		}
		e := m.Effort()
		gaps, pairs = gaps+e.Gaps, pairs+e.Solids
	}
	return float64(gaps) / float64(pairs), nil
}

// travelGrowth is k where the time grows as the number of parts to the power k:
// the least-squares slope of log time over log parts.
func travelGrowth() (float64, error) {
	var xs, ys []float64
	for _, parts := range []int{25, 50, 100, 200, 400} {
		var took []float64
		for _, seed := range travelSeeds {
			ms, err := checkTimes(parts, seed, 9)
			if err != nil {
				return 0, err
			}
			took = append(took, median(ms))
		}
		fmt.Fprintf(os.Stderr, "figures: %d parts: %.2f ms\n", parts, median(took))
		xs, ys = append(xs, math.Log(float64(parts))), append(ys, math.Log(median(took)))
	}
	return slope(xs, ys), nil
}

func slope(xs, ys []float64) float64 {
	var mx, my, up, down float64
	for i := range xs {
		mx, my = mx+xs[i]/float64(len(xs)), my+ys[i]/float64(len(ys))
	}
	for i := range xs {
		up += (xs[i] - mx) * (ys[i] - my)
		down += (xs[i] - mx) * (xs[i] - mx)
	}
	return up / down
}

// benches is travelbench, both ways. It is left in the system's temporary
// folder's care when the figures end early.
type benches struct{ *both }

func travelPrograms() (*benches, error) {
	dir, err := os.MkdirTemp("", "figures")
	if err != nil {
		return nil, err
	}
	b, err := buildBoth(dir, "./cmd/figures/travelbench")
	return &benches{b}, err
}

// warmRounds are not counted: WebAssembly is compiled anew while it runs, until
// it is fast.
const warmRounds = 20

func (b *benches) wasmOverNative() (float64, error) {
	var ratios []float64
	for _, seed := range travelSeeds {
		args := []string{"check", strconv.Itoa(sampledParts), strconv.FormatInt(seed, 10), "50"}
		var took [2][]float64
		for range 3 {
			for side, run := range [2]func(...string) (string, error){b.native, b.wasm} {
				ms, err := times(run(args...))
				if err != nil {
					return 0, err
				}
				took[side] = append(took[side], ms[warmRounds:]...)
			}
		}
		ratios = append(ratios, median(took[1])/median(took[0]))
	}
	return median(ratios), nil
}

// oneMoved is the median over the parts of several vehicles.
func (b *benches) oneMoved() (float64, error) {
	const parts = 150
	var all []float64
	for _, seed := range travelSeeds[:3] {
		took, err := times(b.wasm("move", strconv.Itoa(parts), strconv.FormatInt(seed, 10), strconv.Itoa(parts)))
		if err != nil {
			return 0, err
		}
		all = append(all, took[1:]...)
	}
	return median(all), nil
}

// times reads a number from each line.
func times(text string, err error) ([]float64, error) {
	if err != nil {
		return nil, err
	}
	var out []float64
	for _, f := range strings.Fields(text) {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return nil, err
		}
		out = append(out, v)
	}
	if len(out) < 2 {
		return nil, fmt.Errorf("%q has no times", text)
	}
	return out, nil
}

// output runs a program and returns what it prints; an error has what it said.
func output(env []string, name string, args ...string) (string, error) {
	c := exec.Command(name, args...)
	c.Env = append(os.Environ(), env...)
	var said strings.Builder
	c.Stderr = &said
	out, err := c.Output()
	if err != nil {
		return "", fmt.Errorf("%s %s: %w: %s", name, strings.Join(args, " "), err, strings.TrimSpace(said.String()))
	}
	return string(out), nil
}
