// Command verify runs every test of the project: format, vet, the native
// tests, the pure packages again as WebAssembly under Node, the fuzz targets,
// and the browser tests in real Chromium. What is missing on the machine and
// can be had as a Debian package it installs, saying so; what cannot run is a
// failure, never a skip.
//
// Browser tests that fail are run once more, by themselves; which passed only then
// is said.
//
// It ends with one line, "verify: N passed, N failed", where every test and
// subtest counts, and so does every step that is not a test.
package main

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"
)

// step is one thing that has to hold. It reports how many checks passed and
// failed in it.
type step struct {
	name string
	run  func() (passed, failed int)
}

func main() {
	only := flag.String("only", "", "run only the steps whose name contains this")
	flag.Parse()
	if err := enterModule(); err != nil {
		fmt.Fprintln(os.Stderr, "verify:", err)
		os.Exit(2)
	}
	passed, failed := 0, 0
	for _, s := range steps() {
		if !strings.Contains(s.name, *only) {
			continue
		}
		fmt.Printf("== %s\n", s.name)
		from := time.Now()
		p, f := s.run()
		passed, failed = passed+p, failed+f
		fmt.Printf("   %d passed, %d failed, %.0f s\n", p, f, time.Since(from).Seconds())
	}
	fmt.Printf("verify: %d passed, %d failed\n", passed, failed)
	if failed > 0 || passed == 0 {
		os.Exit(1)
	}
}

// enterModule moves to the module's root, wherever in it the command was started.
func enterModule() error {
	out, err := exec.Command("go", "env", "GOMOD").Output()
	mod := strings.TrimSpace(string(out))
	if err != nil || mod == "" || mod == os.DevNull {
		return fmt.Errorf("start this inside the project's folder, where go.mod is")
	}
	return os.Chdir(filepath.Dir(mod))
}

// pure lists the packages that run as WebAssembly under Node: all that import
// neither the browser nor an operating system.
var pure = []string{"./scene/...", "./fitment/...", "./wasm/app/...", "./wasm/draw/...", "./wasm/trace/...", "./wasm/view/..."}

// forWasm lists what is built as WebAssembly for any purpose. What drives a
// browser from outside, and so cannot be, is left out.
var forWasm = []string{"./scene/...", "./fitment/...", "./wasm/...", "./web",
	"./cmd/scrubline", "./cmd/figures/emptypage", "./cmd/figures/travelbench", "./cmd/figures/ladderbench", "./cmd/figures/answersbench"}

func steps() []step {
	return []step{
		{"tools", tools},
		{"format", func() (int, int) { return quiet("gofmt", "-l", ".") }},
		{"vet, native", func() (int, int) { return command(nil, "go", "vet", "-tags", "e2e", "./...") }},
		{"vet, WebAssembly", func() (int, int) { return command(wasmEnv, "go", append([]string{"vet"}, forWasm...)...) }},
		{"tests, native", func() (int, int) { return seeded(nil, "./...") }},
		{"tests with the race detector", func() (int, int) {
			return goTest([]string{"CGO_ENABLED=1"}, "-race", "./web/...", "./cmd/scrubline/...")
		}},
		{"tests, WebAssembly under Node", func() (int, int) {
			return seeded(wasmEnv, append([]string{"-exec=" + wasmExec()}, pure...)...)
		}},
		{"fuzzing", fuzz},
		{"the engine against sampling and another library", func() (int, int) {
			return goTest(nil, "-tags", "e2e", "-run", "E2E", "-timeout", "20m", "./fitment/...")
		}},
		{"tests in Node and Chromium", func() (int, int) { // one package after the other: a browser wants the machine for itself
			return twice(nil, "-tags", "e2e", "-run", "E2E", "-p", "1", "-timeout", "40m", "./cmd/...", "./web/...")
		}},
	}
}

var wasmEnv = []string{"GOOS=js", "GOARCH=wasm"}

// wasmExec is the script that ships with Go and runs a WebAssembly test in Node.
func wasmExec() string {
	out, _ := exec.Command("go", "env", "GOROOT").Output()
	return filepath.Join(strings.TrimSpace(string(out)), "lib", "wasm", "go_js_wasm_exec")
}

// command is a check that passes when a command exits 0; its output is shown.
func command(env []string, name string, args ...string) (passed, failed int) {
	c := exec.Command(name, args...)
	c.Env = append(os.Environ(), env...)
	c.Stdout, c.Stderr = os.Stdout, os.Stderr
	if err := c.Run(); err != nil {
		fmt.Printf("   FAILED: %s %s: %v\n", name, strings.Join(args, " "), err)
		return 0, 1
	}
	return 1, 0
}

// quiet is a check that passes when a command exits 0 and prints nothing.
func quiet(name string, args ...string) (passed, failed int) {
	out, err := exec.Command(name, args...).CombinedOutput()
	if err != nil || len(out) > 0 {
		fmt.Printf("   FAILED: %s %s: %v\n%s", name, strings.Join(args, " "), err, out)
		return 0, 1
	}
	return 1, 0
}
