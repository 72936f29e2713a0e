package main

import (
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The events are the form `go help test2json` describes.
func TestCountTests(t *testing.T) {
	for _, row := range []struct {
		name           string
		events         string
		passed, failed int
		says           string
	}{
		{"a passing test", `{"Action":"pass","Package":"p","Test":"A"}
{"Action":"pass","Package":"p"}`, 1, 0, "ok   p"},
		{"a failing test shows its output", `{"Action":"output","Package":"p","Test":"A","Output":"want 1\n"}
{"Action":"fail","Package":"p","Test":"A"}`, 0, 1, "want 1"},
		{"a skipped test is not a pass", `{"Action":"skip","Package":"p","Test":"A"}`, 0, 1, "SKIP"},
		{"a package without tests is nothing", `{"Action":"skip","Package":"p"}`, 0, 0, ""},
		{"a build that fails", `{"Action":"build-output","ImportPath":"p","Output":"undefined: x\n"}
{"Action":"build-fail","ImportPath":"p"}`, 0, 1, "undefined: x"},
		{"a line that is no event is shown", "panic: oh", 0, 0, "panic: oh"},
	} {
		t.Run(row.name, func(t *testing.T) {
			var said strings.Builder
			p, f := countTests(strings.NewReader(row.events), &said)
			require.Equal(t, row.passed, p)
			require.Equal(t, row.failed, f)
			require.Contains(t, said.String(), row.says)
		})
	}
}

// The lines are the form that verify asks of go list.
func TestSplit(t *testing.T) {
	drawing, plain := split("a testing pgregory.net/rapid\nb testing\nc\n")
	require.Equal(t, []string{"a"}, drawing)
	require.Equal(t, []string{"b", "c"}, plain)
	drawing, plain = split("")
	require.Empty(t, drawing)
	require.Empty(t, plain)
}

// Whole tests that failed are noted by package, subtests and packages are not.
func TestWhichTestsFailed(t *testing.T) {
	names := map[string][]string{}
	countTestsInto(names, strings.NewReader(`{"Action":"fail","Package":"p","Test":"A/x"}
{"Action":"fail","Package":"p","Test":"A"}
{"Action":"pass","Package":"p","Test":"B"}
{"Action":"fail","Package":"p"}`), io.Discard)
	require.Equal(t, map[string][]string{"p": {"A"}}, names)
}
