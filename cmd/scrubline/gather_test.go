package main

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// One sentence for what is one thing, and below it every finding with its
// figures (testdata/scenes/README.md: both sides 4 deep).
func TestCheckGathers(t *testing.T) {
	_, out, _ := call("check", filepath.Join(testdata, "scenes", "mirrored-pair.json"))
	require.Equal(t, 1, strings.Count(out, "touch as the body airs out: 4 deep"))
	require.Equal(t, 1, strings.Count(out, "and 1 more like it: "))
	require.Equal(t, 2, strings.Count(out, "\ncontact "))
	for _, parts := range []string{"parts: spring_left, wall_left", "parts: spring_right, wall_right"} {
		require.Contains(t, out, parts)
	}
}
