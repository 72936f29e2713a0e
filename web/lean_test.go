package web

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestOneFileOfTheLibraryIsReplaced(t *testing.T) {
	root, err := sourceRoot(".")
	require.NoError(t, err)
	ctx, dir := context.Background(), t.TempDir()
	flags, err := leanFlags(ctx, root, dir)
	require.NoError(t, err)

	text, err := os.ReadFile(filepath.Join(dir, "lean.json"))
	require.NoError(t, err)
	var overlay struct{ Replace map[string]string }
	require.NoError(t, json.Unmarshal(text, &overlay))
	var ours []string
	for _, from := range overlay.Replace {
		if strings.HasPrefix(from, root+string(filepath.Separator)) {
			ours = append(ours, from)
		}
	}
	assert.Equal(t, []string{filepath.Join(root, filepath.FromSlash(leanSource))}, ours)

	// What links every exported method is not among what is compiled.
	list := func(flags []string) []string {
		out, err := goTool(ctx, root, append(append([]string{"list", "-deps"}, flags...), sketcher)...)
		require.NoError(t, err)
		return strings.Fields(string(out))
	}
	assert.Contains(t, list(nil), "text/template")
	assert.NotContains(t, list(flags), "text/template")
}

func TestATreeWithoutTheLibraryIsBuiltAsItIs(t *testing.T) {
	flags, err := leanFlags(context.Background(), smallTree(t), t.TempDir())
	require.NoError(t, err)
	assert.Empty(t, flags)
}

func TestALibraryWithoutThatFileIsRefused(t *testing.T) {
	_, err := leanOverlay(t.TempDir(), t.TempDir(), t.TempDir())
	assert.ErrorContains(t, err, leanFile)
}
