package geom_test

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every tolerance is in tol.go: no other source of the kernels, tests apart,
// has a number like 1e-9 of its own.
func TestTolerancesAreInOneFile(t *testing.T) {
	bare := regexp.MustCompile(`\b[0-9.]+[eE]-[0-9]+`)
	looked := 0
	for _, dir := range []string{".", "../solid", "../gap"} {
		files, err := filepath.Glob(filepath.Join(dir, "*.go"))
		require.NoError(t, err)
		for _, f := range files {
			if strings.HasSuffix(f, "_test.go") {
				continue
			}
			text, err := os.ReadFile(f)
			require.NoError(t, err)
			looked++
			for i, line := range strings.Split(string(text), "\n") {
				code, _, _ := strings.Cut(line, "//")
				if name := filepath.Base(f); name != "tol.go" && name != "det.go" { // det.go has a series' coefficients
					assert.NotRegexp(t, bare, code, "%s:%d", f, i+1)
				}
			}
		}
	}
	assert.Greater(t, looked, 10)
	assert.Regexp(t, bare, "x < 1e-9", "the pattern finds what it is for")
}
