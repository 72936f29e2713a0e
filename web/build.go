package web

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"time"
)

// The files Build leaves in its folder.
const (
	wasmFile  = "app.wasm"
	execFile  = "wasm_exec.js" // Go's own loader, of the same release as the compiler
	stampFile = "sources.sha256"
)

// sketcher is the package that is compiled for the browser, and goFlags how:
// the same sources give the same bytes on every machine.
const sketcher = "./wasm"

var goFlags = []string{"-trimpath", "-buildvcs=false", "-ldflags=-s -w"}

// Build compiles the sketcher for the browser into web/built of the source
// tree around the current folder, with compressed copies beside it, and
// returns that folder. When what lies there was built from the same sources
// it is left alone. progress gets a line for each step that takes time.
//
// It fails outside the source tree, and when the compiler does.
func Build(ctx context.Context, progress io.Writer) (dir string, err error) {
	root, err := sourceRoot(".")
	if err != nil {
		return "", err
	}
	return buildIn(ctx, root, progress)
}

func buildIn(ctx context.Context, root string, progress io.Writer) (string, error) {
	dir := filepath.Join(root, "web", "built")
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return "", fmt.Errorf("no place to build the sketcher: %w", err)
	}
	sum, err := sourceSum(ctx, root)
	if err != nil {
		return "", err
	}
	if built(dir, sum) {
		return dir, nil
	}
	start := time.Now()
	fmt.Fprintln(progress, "Building the sketcher for the browser ...")
	if err := compile(ctx, root, dir); err != nil {
		return "", err
	}
	fmt.Fprintln(progress, "Compressing it (once for each change of its sources) ...")
	if err := compress(ctx, dir); err != nil {
		return "", err
	}
	// The stamp is written last: a build that was cut short is not taken for whole.
	if err := writeFile(filepath.Join(dir, stampFile), []byte(sum)); err != nil {
		return "", err
	}
	fmt.Fprintf(progress, "Built in %.0f s.\n", time.Since(start).Seconds())
	return dir, nil
}

// built says whether dir holds a whole build of the sources of that sum.
func built(dir, sum string) bool {
	old, err := os.ReadFile(filepath.Join(dir, stampFile))
	if err != nil || string(old) != sum {
		return false
	}
	for _, name := range []string{wasmFile, wasmFile + ".br", wasmFile + ".gz", execFile} {
		if info, err := os.Stat(filepath.Join(dir, name)); err != nil || info.Size() == 0 {
			return false
		}
	}
	return true
}

// compile makes app.wasm and copies Go's loader beside it.
func compile(ctx context.Context, root, dir string) error {
	// Two builds may run at once (tests do); each has its own unfinished file.
	fresh := filepath.Join(dir, fmt.Sprintf("%s.%d.part", wasmFile, os.Getpid()))
	defer os.Remove(fresh)
	lean, err := leanFlags(ctx, root, dir)
	if err != nil {
		return err
	}
	args := append(append([]string{"build"}, goFlags...), lean...)
	if _, err := goTool(ctx, root, append(args, "-o", fresh, sketcher)...); err != nil {
		return fmt.Errorf("the sketcher does not compile: %w", err)
	}
	if err := os.Rename(fresh, filepath.Join(dir, wasmFile)); err != nil {
		return err
	}
	goroot, err := goTool(ctx, root, "env", "GOROOT")
	if err != nil {
		return err
	}
	loader, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(goroot)), "lib", "wasm", execFile))
	if err != nil {
		return fmt.Errorf("this Go has no loader for the browser: %w", err)
	}
	return writeFile(filepath.Join(dir, execFile), loader)
}

// compress writes app.wasm.br and app.wasm.gz, the two at once.
func compress(ctx context.Context, dir string) error {
	raw, err := os.ReadFile(filepath.Join(dir, wasmFile))
	if err != nil {
		return err
	}
	var (
		all  sync.WaitGroup
		errs [2]error
	)
	for i, enc := range encodings {
		all.Add(1)
		go func() {
			defer all.Done()
			var packed bytes.Buffer
			if errs[i] = enc.pack(ctx, &packed, raw); errs[i] == nil {
				errs[i] = writeFile(filepath.Join(dir, wasmFile+enc.suffix), packed.Bytes())
			}
		}()
	}
	all.Wait()
	for _, err := range errs {
		if err != nil {
			return fmt.Errorf("compressing the sketcher: %w", err)
		}
	}
	return nil
}

// goTool runs the go command for the browser in root and returns what it
// printed; its complaints become the error.
func goTool(ctx context.Context, root string, args ...string) ([]byte, error) {
	cmd := exec.CommandContext(ctx, "go", args...)
	cmd.Dir = root
	cmd.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
	var complaint bytes.Buffer
	cmd.Stderr = &complaint
	out, err := cmd.Output()
	if errors.Is(err, exec.ErrNotFound) {
		return nil, errors.New("the go command builds the sketcher, and it is not on this computer's path")
	}
	if err != nil {
		return nil, fmt.Errorf("go %s: %w\n%s", args[0], err, strings.TrimSpace(complaint.String()))
	}
	return out, nil
}

// writeFile replaces a file in one step, so that no reader meets half of it.
func writeFile(name string, data []byte) error {
	part := fmt.Sprintf("%s.%d.part", name, os.Getpid())
	if err := os.WriteFile(part, data, 0o644); err != nil {
		return err
	}
	return os.Rename(part, name)
}
