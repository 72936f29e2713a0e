package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"fmt"
	"io"
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
)

// event is one line of go test -json.
type event struct {
	Action  string
	Package string
	Test    string
	Output  string
	Elapsed float64
}

// goTest runs go test and counts its tests. A skipped test counts as failed:
// nothing here may pass by not running.
func goTest(env []string, args ...string) (passed, failed int) {
	passed, failed, _ = goTestNamed(env, args...)
	return passed, failed
}

// goTestNamed also says which tests failed, by package.
func goTestNamed(env []string, args ...string) (passed, failed int, names map[string][]string) {
	names = map[string][]string{}
	c := exec.Command("go", append([]string{"test", "-json"}, args...)...)
	c.Env = append(os.Environ(), env...)
	var stderr bytes.Buffer
	c.Stderr = &stderr
	out, err := c.StdoutPipe()
	if err == nil {
		err = c.Start()
	}
	if err != nil {
		fmt.Printf("   FAILED: go test cannot start: %v\n", err)
		return 0, 1, nil
	}
	passed, failed = countTestsInto(names, out, os.Stdout)
	if err := c.Wait(); err != nil && failed == 0 {
		failed++
	}
	if failed > 0 {
		fmt.Print(stderr.String())
	}
	if passed+failed == 0 {
		fmt.Println("   FAILED: no test ran")
		failed = 1
	}
	return passed, failed, names
}

// twice is goTest for tests that drive a real browser: those that fail are run
// once more, by themselves, and it is said which passed only then. A browser on a
// busy machine is late now and then; what is wrong is wrong twice.
func twice(env []string, args ...string) (passed, failed int) {
	passed, failed, names := goTestNamed(env, args...)
	known := 0
	for _, tests := range names {
		known += len(tests)
	}
	if failed == 0 || known == 0 {
		return passed, failed
	}
	var options []string
	for i := 0; i < len(args); i++ {
		switch {
		case args[i] == "-run":
			i++
		case strings.HasPrefix(args[i], "./"):
		default:
			options = append(options, args[i])
		}
	}
	again, ran := 0, 0
	for pkg, tests := range names {
		fmt.Printf("   once more: %s %s\n", pkg, strings.Join(tests, " "))
		p, f := goTest(env, append(append([]string{}, options...), "-count=1", "-run", "^("+strings.Join(tests, "|")+")$", pkg)...)
		ran, again = ran+p, again+f
		if f == 0 {
			fmt.Printf("   passed when run once more: %s\n", strings.Join(tests, " "))
		}
	}
	if again == 0 {
		return passed + ran, 0
	}
	return passed, failed
}

// rapidSeed is where the property tests begin to draw here, so that the same
// sources give the same outcome; started by hand they draw anew every time.
const rapidSeed = "1955"

// seeded is goTest with the property tests drawing from one seed. Only packages
// that have such tests know the option.
func seeded(env []string, args ...string) (passed, failed int) {
	var options, patterns []string
	for _, a := range args {
		if strings.HasPrefix(a, "-") {
			options = append(options, a)
		} else {
			patterns = append(patterns, a)
		}
	}
	list := exec.Command("go", append([]string{"list", "-f", "{{.ImportPath}}{{range .TestImports}} {{.}}{{end}}{{range .XTestImports}} {{.}}{{end}}"}, patterns...)...)
	list.Env = append(os.Environ(), env...)
	out, err := list.Output()
	if err != nil {
		fmt.Println("   FAILED: go list:", err)
		return 0, 1
	}
	drawing, plain := split(string(out))
	for _, run := range [][]string{append(drawing, "-rapid.seed="+rapidSeed), plain} {
		if len(run) > 0 && !strings.HasPrefix(run[0], "-") {
			p, f := goTest(env, append(append([]string(nil), options...), run...)...)
			passed, failed = passed+p, failed+f
		}
	}
	return passed, failed
}

// split parts the lines of packages with what their tests import into those that
// draw and the others.
func split(list string) (drawing, plain []string) {
	for _, line := range strings.Split(strings.TrimSpace(list), "\n") {
		words := strings.Fields(line)
		switch {
		case len(words) == 0:
		case slices.Contains(words[1:], "pgregory.net/rapid"):
			drawing = append(drawing, words[0])
		default:
			plain = append(plain, words[0])
		}
	}
	return drawing, plain
}

// countTests reads go test's events and prints a line for each package, and
// the whole output of each test that failed or was skipped.
func countTests(r io.Reader, w io.Writer) (passed, failed int) {
	return countTestsInto(map[string][]string{}, r, w)
}

// countTestsInto also notes each whole test that failed, by package.
func countTestsInto(names map[string][]string, r io.Reader, w io.Writer) (passed, failed int) {
	said, bad := map[string][]string{}, map[string]bool{}
	lines := bufio.NewScanner(r)
	lines.Buffer(nil, 16<<20)
	for lines.Scan() {
		var e event
		if json.Unmarshal(lines.Bytes(), &e) != nil {
			fmt.Fprintln(w, "  ", lines.Text())
			continue
		}
		key := e.Package + " " + e.Test
		switch e.Action {
		case "output", "build-output":
			said[key] = append(said[key], e.Output)
		case "pass":
			if e.Test != "" {
				passed++
			} else {
				fmt.Fprintf(w, "ok   %s %.1fs\n", e.Package, e.Elapsed)
			}
			delete(said, key)
		case "fail", "skip":
			if e.Test == "" && e.Action == "skip" { // a package without tests
				continue
			}
			if e.Test != "" || !bad[e.Package] { // a package fails with its tests; count those
				failed++
			}
			bad[e.Package] = true
			if e.Test != "" && !strings.Contains(e.Test, "/") && e.Action == "fail" {
				names[e.Package] = append(names[e.Package], e.Test)
			}
			fmt.Fprintf(w, "%s %s\n%s", strings.ToUpper(e.Action), key, strings.Join(said[key], ""))
		case "build-fail":
			failed++
			fmt.Fprintf(w, "BUILD FAILED %s\n", e.Package)
			for k, v := range said {
				if strings.HasPrefix(k, " ") {
					fmt.Fprint(w, strings.Join(v, ""))
				}
			}
		}
	}
	return passed, failed
}

var fuzzName = regexp.MustCompile(`(?m)^(Fuzz\w+)$`)

// fuzz runs every fuzz target on some ten thousands of inputs from its kept
// seeds: counted, because a run ended by the clock may be reported as failed.
func fuzz() (passed, failed int) {
	out, err := exec.Command("go", "list", "./...").Output()
	if err != nil {
		fmt.Println("   FAILED: go list:", err)
		return 0, 1
	}
	for _, pkg := range strings.Fields(string(out)) {
		list, _ := exec.Command("go", "test", "-list", "^Fuzz", pkg).Output()
		for _, name := range fuzzName.FindAllString(string(list), -1) {
			p, f := command(nil, "go", "test", "-run", "^$", "-fuzz", "^"+name+"$", "-fuzztime", "40000x", "-fuzzminimizetime", "20x", pkg)
			passed, failed = passed+p, failed+f
		}
	}
	return passed, failed
}
