//go:build e2e

package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

// compare, and check of a variant, give the same bytes natively and as
// WebAssembly.
func TestE2EBothBuildsCompareAlike(t *testing.T) {
	builds := buildBoth(t)
	for _, file := range scenes(t, "scenes") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			t.Parallel()
			got := builds.same(t, "compare", "-json", file)
			assert.Contains(t, []int{exitClear, exitShort}, got.status)
			assert.Contains(t, got.stdout, `"format": "scrubline-compare"`)
		})
	}
	file := filepath.Join("..", "..", "testdata", "scenes", "two-battery-places.json")
	assert.Contains(t, builds.same(t, "compare", file).stdout, "Over the axle")
	assert.Equal(t, exitShort, builds.same(t, "check", "-json", "-variant", "over-the-axle", file).status)
	assert.Equal(t, exitBad, builds.same(t, "check", "-variant", "nowhere", file).status)
}
