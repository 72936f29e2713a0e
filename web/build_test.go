package web

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// smallTree is a source tree with a sketcher of one line.
func smallTree(t *testing.T) string {
	t.Helper()
	root := t.TempDir()
	put(t, root, "go.mod", "module scrubline\n\ngo 1.26\n")
	put(t, root, "go.sum", "")
	put(t, root, "wasm/main.go", "package main\n\nfunc main() {}\n")
	return root
}

func put(t *testing.T, root, name, text string) {
	t.Helper()
	file := filepath.Join(root, filepath.FromSlash(name))
	require.NoError(t, os.MkdirAll(filepath.Dir(file), 0o755))
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
}

func TestTheSourceTreeIsFoundFromWithin(t *testing.T) {
	root := smallTree(t)
	found, err := sourceRoot(filepath.Join(root, "wasm"))
	require.NoError(t, err)
	assert.Equal(t, root, found)

	other := t.TempDir()
	put(t, other, "go.mod", "module another\n")
	_, err = sourceRoot(other)
	assert.ErrorIs(t, err, ErrNoSources)
}

func TestTheSumFollowsTheSourcesOnly(t *testing.T) {
	root, ctx := smallTree(t), context.Background()
	sum := func() string {
		s, err := sourceSum(ctx, root)
		require.NoError(t, err)
		return s
	}
	first := sum()
	put(t, root, "wasm/main_test.go", "package main\n")
	put(t, root, "web/app.css", "p {}\n")
	assert.Equal(t, first, sum(), "tests and the page are no part of the sketcher")
	put(t, root, "wasm/more.go", "package main\n\nvar more int\n")
	assert.NotEqual(t, first, sum())
}

func TestABuildIsMadeOnceForEachState(t *testing.T) {
	root, ctx := smallTree(t), context.Background()
	var said bytes.Buffer
	dir, err := buildIn(ctx, root, &said)
	require.NoError(t, err)
	assert.Contains(t, said.String(), "Building")
	for _, name := range []string{wasmFile, wasmFile + ".br", wasmFile + ".gz", execFile} {
		assert.FileExists(t, filepath.Join(dir, name))
	}
	raw, err := os.ReadFile(filepath.Join(dir, wasmFile))
	require.NoError(t, err)
	// WebAssembly Core 1.0, 5.5.16.
	assert.True(t, bytes.HasPrefix(raw, []byte("\x00asm\x01\x00\x00\x00")))
	packed, err := os.ReadFile(filepath.Join(dir, wasmFile+".br"))
	require.NoError(t, err)
	assert.Equal(t, raw, unpack(t, "br", packed))

	said.Reset()
	_, err = buildIn(ctx, root, &said)
	require.NoError(t, err)
	assert.Empty(t, said.String(), "nothing changed, nothing is built")

	require.NoError(t, os.Remove(filepath.Join(dir, wasmFile+".gz")))
	_, err = buildIn(ctx, root, &said)
	require.NoError(t, err)
	assert.FileExists(t, filepath.Join(dir, wasmFile+".gz"), "half a build is not taken for whole")
}

func TestWhatDoesNotCompileIsTold(t *testing.T) {
	root := smallTree(t)
	put(t, root, "wasm/main.go", "package main\n\nfunc main() { undefinedName() }\n")
	_, err := buildIn(context.Background(), root, &bytes.Buffer{})
	assert.ErrorContains(t, err, "undefinedName")
	assert.NoFileExists(t, filepath.Join(root, "web", "built", stampFile))
}

func TestWithoutACompilerThatIsSaid(t *testing.T) {
	root := smallTree(t)
	t.Setenv("PATH", t.TempDir())
	_, err := buildIn(context.Background(), root, &bytes.Buffer{})
	assert.ErrorContains(t, err, "the go command builds the sketcher")
}

func TestABuildCanBeStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	_, err := buildIn(ctx, smallTree(t), &bytes.Buffer{})
	assert.ErrorIs(t, err, context.Canceled)
	assert.ErrorIs(t, packInto(ctx, &discard{}, []byte("x")), context.Canceled)
}

type discard struct{}

func (*discard) Write(p []byte) (int, error) { return len(p), nil }
func (*discard) Close() error                { return nil }
