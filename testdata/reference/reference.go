// Package reference runs the outside judge of gaps: a small program around a
// library written by others (see fcl/README.md). It builds the program, hands
// it pairs of solids as text, and brings it back to its feet where the library
// ends it.
//
// It imports nothing of the engine, so that the two share no code.
package reference

import (
	_ "embed"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

//go:embed fcl/main.cpp
var source []byte

// Kinds as the program numbers them.
const (
	Ball = iota
	Capsule
	Disc
	Cylinder
	Box
	Hull
)

// Solid is a solid as the program reads it: half lengths H (mm), a turn R by
// rows, and a place P. Capsules lie along X, discs and cylinders about Z. Round
// is meant for balls and capsules only.
type Solid struct {
	Kind   int
	Round  float64
	H      [3]float64
	Points [][3]float64
	R      [9]float64
	P      [3]float64
}

// Shape appends the solid without its pose.
func (s *Solid) Shape(b []byte) []byte {
	b = strconv.AppendInt(b, int64(s.Kind), 10)
	b = numbers(b, s.Round)
	b = numbers(b, s.H[:]...)
	b = numbers(b, float64(len(s.Points)))
	for i := range s.Points {
		b = numbers(b, s.Points[i][:]...)
	}
	return b
}

// Pose appends where the solid stands.
func (s *Solid) Pose(b []byte) []byte {
	b = numbers(b, s.R[:]...)
	return numbers(b, s.P[:]...)
}

// Line is a pair of solids as one line.
func Line(a, b *Solid) string {
	text := b.Pose(b.Shape(append(a.Pose(a.Shape(nil)), ' ')))
	return string(append(text, '\n'))
}

func numbers(b []byte, vs ...float64) []byte {
	for _, v := range vs {
		b = append(b, ' ')
		b = strconv.AppendFloat(b, v, 'g', -1, 64)
	}
	return b
}

// Program is the built judge.
type Program struct{ path string }

// Build compiles the judge into dir. An error has the compiler's own words.
func Build(dir string) (*Program, error) {
	src, out := filepath.Join(dir, "main.cpp"), filepath.Join(dir, "fcl")
	if err := os.WriteFile(src, source, 0o644); err != nil {
		return nil, err
	}
	c := exec.Command("g++", "-std=c++14", "-O2", "-I/usr/include/eigen3", "-o", out, src, "-lfcl", "-lccd")
	if text, err := c.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("the reference program does not build (it needs g++, libfcl-dev, libccd-dev, libeigen3-dev): %w\n%s", err, text)
	}
	return &Program{out}, nil
}

// Distance is the judge's answer to a pair: the signed distance and a point on
// each solid. Skipped says that the library ended the process over it.
type Distance struct {
	MM      float64
	A, B    [3]float64
	Skipped bool
}

// atOnce is how many pairs one process is given: what it is ended over has to be
// handed to the next one again.
const atOnce = 200

// Distances asks for pairs, each a Line. Answers come in their order.
func (p *Program) Distances(pairs []string) ([]Distance, error) {
	out := make([]Distance, 0, len(pairs))
	for len(out) < len(pairs) {
		some := pairs[len(out):min(len(out)+atOnce, len(pairs))]
		got, err := p.distances(some)
		if err != nil {
			return nil, err
		}
		if out = append(out, got...); len(got) < len(some) {
			out = append(out, Distance{Skipped: true})
		}
	}
	return out, nil
}

// distances asks one process, and has fewer answers than pairs when that was
// ended by a signal, as by an assert.
func (p *Program) distances(pairs []string) ([]Distance, error) {
	c := exec.Command(p.path, "distances")
	c.Stdin = strings.NewReader(strings.Join(pairs, ""))
	text, err := c.Output()
	out, bad := readDistances(text)
	if bad != nil {
		return nil, bad
	}
	if code := c.ProcessState.ExitCode(); code > 0 || (err == nil) != (len(out) == len(pairs)) {
		return nil, fmt.Errorf("the reference program answered %d of %d pairs: %v", len(out), len(pairs), err)
	}
	return out, nil
}

func readDistances(text []byte) (out []Distance, err error) {
	for line := range strings.Lines(string(text)) {
		v, err := floats(strings.Fields(line))
		if err != nil || len(v) != 7 {
			return nil, fmt.Errorf("the reference program answered %q; expected seven numbers", line)
		}
		out = append(out, Distance{MM: v[0], A: [3]float64(v[1:4]), B: [3]float64(v[4:7])})
	}
	return out, nil
}

// Timed is how long one group of pairs took: nanoseconds a pair, one value for
// each round, and the mean distance (mm), so that the two can be seen to have
// measured the same.
type Timed struct {
	MeanMM float64
	Nanos  []float64
}

// Time measures groups of pairs, for each round at least about ms. text has a
// line "# name" before the Lines of each group.
func (p *Program) Time(text string, rounds int, ms float64) (map[string]Timed, error) {
	out, err := p.run(text, "time", strconv.Itoa(rounds), strconv.FormatFloat(ms, 'g', -1, 64))
	if err != nil {
		return nil, err
	}
	return ReadTimed(out)
}

// ReadTimed reads lines of: group, mean distance, nanoseconds of each round.
func ReadTimed(text string) (map[string]Timed, error) {
	got := map[string]Timed{}
	for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
		name, rest, _ := strings.Cut(line, " ")
		v, err := floats(strings.Fields(rest))
		if err != nil || len(v) < 2 {
			return nil, fmt.Errorf("%q has no times; expected a name, a mean and times", line)
		}
		got[name] = Timed{v[0], v[1:]}
	}
	return got, nil
}

// Sample measures a sampled travel as main.cpp's readScene reads it: how many
// distances it asks for, and the nanoseconds of each round.
func (p *Program) Sample(text string, rounds int) (queries int, nanos []float64, err error) {
	out, err := p.run(text, "sample", strconv.Itoa(rounds))
	if err != nil {
		return 0, nil, err
	}
	v, err := floats(strings.Fields(out))
	if err != nil || len(v) != rounds+1 {
		return 0, nil, fmt.Errorf("the reference program answered %q; expected a count and %d times", out, rounds)
	}
	return int(v[0]), v[1:], nil
}

func (p *Program) run(stdin string, args ...string) (string, error) {
	c := exec.Command(p.path, args...)
	c.Stdin = strings.NewReader(stdin)
	var stderr strings.Builder
	c.Stderr = &stderr
	out, err := c.Output()
	if err != nil {
		return "", fmt.Errorf("the reference program failed: %w: %s", err, strings.TrimSpace(stderr.String()))
	}
	return string(out), nil
}

func floats(fields []string) ([]float64, error) {
	out := make([]float64, len(fields))
	for i, f := range fields {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return nil, err
		}
		out[i] = v
	}
	return out, nil
}
