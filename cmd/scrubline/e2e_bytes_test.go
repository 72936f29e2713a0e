//go:build e2e

package main

import (
	"bytes"
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// answer is all that a command leaves behind.
type answer struct {
	stdout, stderr string
	status         int
}

// twoBuilds is the command as it runs on this machine and as WebAssembly.
type twoBuilds struct{ native, wasm []string }

// buildBoth builds the command twice into a folder of the test.
func buildBoth(t *testing.T) twoBuilds {
	t.Helper()
	dir := t.TempDir()
	native, wasm := filepath.Join(dir, "scrubline"), filepath.Join(dir, "scrubline.wasm")
	goTool(t, nil, "build", "-o", native, ".")
	goTool(t, []string{"GOOS=js", "GOARCH=wasm"}, "build", "-o", wasm, ".")
	root := strings.TrimSpace(goTool(t, nil, "env", "GOROOT"))
	// The script that ships with Go runs a program for the browser in Node.
	return twoBuilds{[]string{native}, []string{filepath.Join(root, "lib", "wasm", "go_js_wasm_exec"), wasm}}
}

func goTool(t *testing.T, env []string, args ...string) string {
	t.Helper()
	c := exec.Command("go", args...)
	c.Env = append(os.Environ(), env...)
	var complaint bytes.Buffer
	c.Stderr = &complaint
	out, err := c.Output()
	require.NoError(t, err, complaint.String())
	return string(out)
}

func ask(t *testing.T, program []string, args ...string) answer {
	t.Helper()
	c := exec.Command(program[0], append(program[1:len(program):len(program)], args...)...)
	var out, complaint bytes.Buffer
	c.Stdout, c.Stderr = &out, &complaint
	err := c.Run()
	var ended *exec.ExitError
	if err != nil && !errors.As(err, &ended) {
		require.NoError(t, err)
	}
	return answer{out.String(), complaint.String(), c.ProcessState.ExitCode()}
}

// same runs a command in both builds, expects the same of both, and returns it.
func (b twoBuilds) same(t *testing.T, args ...string) answer {
	t.Helper()
	native, wasm := ask(t, b.native, args...), ask(t, b.wasm, args...)
	require.Equal(t, native.status, wasm.status, "exit status: native, WebAssembly (%s)", wasm.stderr)
	require.Equal(t, native.stderr, wasm.stderr, "what is said on standard error")
	if native.stdout != wasm.stdout { // the first line that differs tells more than both outputs
		n, w := strings.Split(native.stdout, "\n"), strings.Split(wasm.stdout, "\n")
		for i := range min(len(n), len(w)) {
			require.Equal(t, n[i], w[i], "line %d", i+1)
		}
		require.Equal(t, len(n), len(w), "number of lines")
	}
	return native
}

// scenes lists the files of a folder of testdata; there have to be some.
func scenes(t *testing.T, folder string) []string {
	t.Helper()
	files, err := filepath.Glob(filepath.Join("..", "..", "testdata", folder, "*.json"))
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return files
}

// The command gives the same bytes and the same exit status natively and as
// WebAssembly, so that the screen and the command line cannot disagree.
func TestE2EBothBuildsAnswerAlike(t *testing.T) {
	builds := buildBoth(t)
	t.Run("check", builds.checkScenes)
	t.Run("gap", builds.measureGaps)
	t.Run("answers", builds.answer)
	t.Run("broken", builds.refuseBroken)
	t.Run("arguments", builds.refuseArguments)
}

// tally counts what parallel subtests saw.
type tally[K comparable] struct {
	mu   sync.Mutex
	seen map[K]int
}

func (c *tally[K]) add(k K) {
	c.mu.Lock()
	defer c.mu.Unlock()
	if c.seen == nil {
		c.seen = map[K]int{}
	}
	c.seen[k]++
}

func (b twoBuilds) checkScenes(t *testing.T) {
	var statuses tally[int]
	t.Run("scenes", func(t *testing.T) {
		for _, file := range scenes(t, "scenes") {
			t.Run(filepath.Base(file), func(t *testing.T) {
				t.Parallel()
				got := b.same(t, "check", "-json", file)
				assert.Contains(t, []int{exitClear, exitShort}, got.status)
				assert.Empty(t, got.stderr)
				assert.Contains(t, got.stdout, `"format": "scrubline-report"`)
				statuses.add(got.status)
			})
		}
	})
	assert.NotZero(t, statuses.seen[exitClear], "no scene is clear")
	assert.NotZero(t, statuses.seen[exitShort], "no scene falls short")
}

func (b twoBuilds) measureGaps(t *testing.T) {
	van := filepath.Join("..", "..", "testdata", "scenes", "bakery-van.json")
	// A spring that grows and an arc, a shaft that follows the axle, a tyre that
	// steers, bent tubes, parts of one carrier.
	pairs := [][2]string{
		{"spring_rr", "tail_pipe"}, {"driveshaft", "air_tank"}, {"wheel_fl", "rail_l"},
		{"tail_pipe", "axle_rear"}, {"brake_line_axle", "tail_pipe"}, {"tie_rod", "engine"}, {"tail_pipe", "fuel_line"}, {"link_upper_r", "driveshaft"},
	}
	states := []string{"0,0,0,0", "-110,-110,-130,-130", "-37.5,-37.5,-81.25,-51.25,28", "60,60,55,70,-17.3"}
	var said tally[string]
	t.Run("pairs", func(t *testing.T) {
		for _, pair := range pairs {
			for _, at := range states {
				t.Run(pair[0]+" "+pair[1]+" "+at, func(t *testing.T) {
					t.Parallel()
					got := b.same(t, "gap", "-json", van, pair[0], pair[1], "-at", at)
					assert.Contains(t, []int{exitClear, exitShort}, got.status)
					assert.Empty(t, got.stderr)
					said.add(got.stdout)
				})
			}
		}
	})
	assert.Len(t, said.seen, len(pairs)*len(states), "every pair and state has its own answer")
}

// answer asks for ladders, mends and rooms of the van.
func (b twoBuilds) answer(t *testing.T) {
	van := filepath.Join("..", "..", "testdata", "scenes", "bakery-van.json")
	for _, args := range [][]string{
		{"ladder", "-json", van}, {"ladder", "-json", "-up", "-end", "rear", van},
		{"mend", "-json", van, "battery"}, {"mend", "-json", van, "air_tank"}, {"mend", "-json", van, "spring_rr"},
		{"mend", "-json", van, "backrest_l"}, {"mend", "-json", "-along", "yz", "-within", "60", van, "fuel_line"},
		{"room", "-json", "-view", "section", van, "battery"}, {"room", "-svg", "-view", "plan", van, "air_tank"},
		{"room", "-json", "-view", "side", "-reach", "150", van, "backrest_l"},
	} {
		t.Run(strings.Join(args[:len(args)-1], " "), func(t *testing.T) {
			t.Parallel()
			got := b.same(t, args...)
			assert.Contains(t, []int{exitClear, exitShort}, got.status)
			assert.Empty(t, got.stderr)
		})
	}
}

// refuseBroken expects one line for a bad file: which file, where in it (an
// RFC 6901 pointer, or the file as a whole), what was expected.
func (b twoBuilds) refuseBroken(t *testing.T) {
	for _, file := range scenes(t, "broken") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			line := regexp.MustCompile(`^scrubline: ` + regexp.QuoteMeta(file) + `: (/\S+|the file): \S[^\n]*\n$`)
			for _, got := range []answer{b.same(t, "check", "-json", file), ask(t, b.native, "gap", file, "a", "b")} {
				assert.Equal(t, exitBad, got.status)
				assert.Empty(t, got.stdout)
				assert.Regexp(t, line, got.stderr)
			}
		})
	}
}

func (b twoBuilds) refuseArguments(t *testing.T) {
	van := filepath.Join("..", "..", "testdata", "scenes", "bakery-van.json")
	oneLine := func(t *testing.T, got answer) {
		assert.Equal(t, exitBad, got.status)
		assert.Empty(t, got.stdout)
		assert.Regexp(t, `^scrubline: [^\n]+\n$`, got.stderr)
	}
	for name, args := range map[string][]string{
		"no file": {"check"}, "unknown option": {"check", "-yaml", van}, "unknown command": {"weigh", van},
		"unknown part": {"gap", van, "exhaust", "nobody"}, "no -at value": {"gap", van, "exhaust", "floor", "-at"},
		"too few corners": {"gap", van, "exhaust", "floor", "-at", "0,0"}, "no numbers": {"gap", van, "exhaust", "floor", "-at", "a,b,c,d"},
	} {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			oneLine(t, b.same(t, args...))
		})
	}
	// Why a file cannot be read the system says, in words of its own.
	for _, program := range [][]string{b.native, b.wasm} {
		got := ask(t, program, "check", "no-such-file.json")
		oneLine(t, got)
		assert.Contains(t, got.stderr, "no-such-file.json: cannot be read")
	}
}
