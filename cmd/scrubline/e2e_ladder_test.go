//go:build e2e

package main

import (
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Both builds print the same ladders, to the byte.
func TestE2EBothBuildsClimbAlike(t *testing.T) {
	builds := buildBoth(t)
	t.Run("ladders", func(t *testing.T) {
		for _, file := range scenes(t, "scenes") {
			t.Run(filepath.Base(file), func(t *testing.T) {
				t.Parallel()
				for _, options := range [][]string{nil, {"-up"}, {"-end", "front"}, {"-end=rear", "-without", "low:muffler", "-without=tail_pipe+spring_rr"}} {
					if len(options) > 2 && filepath.Base(file) != "bakery-van.json" {
						continue // the keys are that scene's
					}
					got := builds.same(t, append(append([]string{"ladder", "-json"}, options...), file)...)
					assert.Contains(t, []int{exitClear, exitShort}, got.status)
					assert.Empty(t, got.stderr)
					assert.Contains(t, got.stdout, `"format": "scrubline-ladder"`)
				}
			})
		}
	})
}
