package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"scrubline/testdata/reference"
)

// gapKinds are the kinds of solid that both the engine and the outside library
// have.
var gapKinds = []string{"ball", "capsule", "cylinder", "box", "hull"}

const (
	gapTurns  = 5  // how often the three programs take turns
	gapRounds = 25 // rounds of each in a turn
	gapMS     = 1  // about how long a round of one pair of kinds lasts: less than a busy machine's time slice
)

// gapFigures compare the time of one gap, both points and poses included, with
// that of the outside library on the same pairs: 128 of each two kinds, sharp,
// 1 to 80 mm apart. The library runs at its own default tolerance, a looser one
// than it needs to be exact.
func gapFigures() []figure {
	times := sync.OnceValues(gapTimes)
	ratio := func(side int, pair string) func() (float64, error) {
		return func() (float64, error) {
			t, err := times()
			if err != nil {
				return 0, err
			}
			return median(t[side][pair]) / median(t[2][pair]), nil
		}
	}
	var out []figure
	for side, name := range [2]string{"native", "wasm"} {
		for i := range gapKinds {
			for j := range gapKinds[:i+1] {
				pair := gapKinds[j] + "-" + gapKinds[i]
				out = append(out, figure{"gap-over-reference-" + name + "-" + pair, "ratio", [2]string{"<=0.5", "<=1"}[side], ratio(side, pair)})
			}
		}
	}
	return append(out, figure{"gap-allocations", "per-gap", "<=0", gapAllocations})
}

// gapTimes are nanoseconds a gap by pair of kinds: natively, as WebAssembly,
// and by the library, the three taking turns.
func gapTimes() (all [3]map[string][]float64, err error) {
	dir, err := os.MkdirTemp("", "figures")
	if err != nil {
		return all, err
	}
	defer os.RemoveAll(dir)
	program, err := reference.Build(dir)
	if err != nil {
		return all, err
	}
	ours, err := buildBoth(dir, "./fitment/internal/gap/sidebyside/gaptime")
	if err != nil {
		return all, err
	}
	pairs, err := ours.native("pairs")
	if err != nil {
		return all, err
	}
	for side := range all {
		all[side] = map[string][]float64{}
	}
	args := []string{"time", strconv.Itoa(gapRounds), strconv.Itoa(gapMS)}
	for range gapTurns {
		var mean [3]map[string]reference.Timed
		for side, run := range [2]func(...string) (string, error){ours.native, ours.wasm} {
			text, err := run(args...)
			if err != nil {
				return all, err
			}
			if mean[side], err = reference.ReadTimed(text); err != nil {
				return all, err
			}
		}
		if mean[2], err = program.Time(pairs, gapRounds, gapMS); err != nil {
			return all, err
		}
		for pair, theirs := range mean[2] {
			for side := range mean {
				t := mean[side][pair]
				if d := t.MeanMM - theirs.MeanMM; len(t.Nanos) == 0 || d > 0.01 || d < -0.01 {
					return all, fmt.Errorf("%s: the mean gap is %g mm, the library's %g: not the same pairs", pair, t.MeanMM, theirs.MeanMM)
				}
				all[side][pair] = append(all[side][pair], t.Nanos...)
			}
		}
	}
	return all, nil
}

func gapAllocations() (float64, error) {
	dir, err := os.MkdirTemp("", "figures")
	if err != nil {
		return 0, err
	}
	defer os.RemoveAll(dir)
	ours, err := buildBoth(dir, "./fitment/internal/gap/sidebyside/gaptime")
	if err != nil {
		return 0, err
	}
	text, err := ours.native("allocations")
	if err != nil {
		return 0, err
	}
	return strconv.ParseFloat(strings.TrimSpace(text), 64)
}

// both is a program of ours built natively and as WebAssembly.
type both struct{ path, wasmPath, exec string }

func buildBoth(dir, pkg string) (*both, error) {
	b := &both{path: filepath.Join(dir, "ours"), wasmPath: filepath.Join(dir, "ours.wasm")}
	root, err := output(nil, "go", "env", "GOROOT")
	if err != nil {
		return nil, err
	}
	b.exec = filepath.Join(strings.TrimSpace(root), "lib", "wasm", "go_js_wasm_exec")
	if _, err := output(nil, "go", "build", "-o", b.path, pkg); err != nil {
		return nil, err
	}
	_, err = output([]string{"GOOS=js", "GOARCH=wasm"}, "go", "build", "-o", b.wasmPath, pkg)
	return b, err
}

func (b *both) native(args ...string) (string, error) { return output(nil, b.path, args...) }

// wasm runs under Node, as Go's own tests for WebAssembly do.
func (b *both) wasm(args ...string) (string, error) {
	return output(nil, b.exec, append([]string{b.wasmPath}, args...)...)
}
