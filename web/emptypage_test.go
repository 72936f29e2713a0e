package web

import (
	"net/http"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestTheEmptyPageIsSentAsTheSketcherIs(t *testing.T) {
	wasm := filepath.Join(t.TempDir(), "any.wasm")
	require.NoError(t, os.WriteFile(wasm, wasmBytes, 0o644))
	h, err := EmptyPage(wasm)
	require.NoError(t, err)
	for _, path := range []string{"/", "/main.js", "/wasm_exec.js", "/app.wasm"} {
		mine := get(h, path, "Accept-Encoding", "br")
		theirs := get(Handler(builtFolder(t)), path, "Accept-Encoding", "br")
		require.Equal(t, http.StatusOK, mine.StatusCode, path)
		for _, name := range []string{"Content-Type", "Cache-Control", "Content-Security-Policy"} {
			assert.Equal(t, theirs.Header.Get(name), mine.Header.Get(name), path)
		}
	}
	assert.Equal(t, wasmBytes, unpack(t, "br", body(t, get(h, "/app.wasm", "Accept-Encoding", "br"))))
	_, err = EmptyPage(wasm + "x")
	assert.Error(t, err)
}
