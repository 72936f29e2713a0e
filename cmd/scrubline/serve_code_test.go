package main

import (
	"encoding/json"
	"encoding/xml"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const example = "http://192.0.2.7:8765/" // RFC 5737: an address for examples

// finder is the pattern in three corners of every code, with the light rows
// that part it from the rest (ISO/IEC 18004, 6.3.3 and 6.3.4).
var finder = []string{
	"#######.",
	"#.....#.",
	"#.###.#.",
	"#.###.#.",
	"#.###.#.",
	"#.....#.",
	"#######.",
	"........",
}

// looksLikeACode expects what every code has: a light margin of four modules,
// a side of 17 + 4 × version, three finders and the two rows of timing.
func looksLikeACode(t *testing.T, dark func(x, y int) bool, side int) {
	t.Helper()
	n := side - 8
	assert.Zero(t, (n-17)%4, "side %d", n)
	for i := range side {
		for m := range 4 {
			assert.False(t, dark(i, m) || dark(m, i) || dark(i, side-1-m) || dark(side-1-m, i), "the margin is light")
		}
	}
	for y, row := range finder {
		for x, want := range row {
			assert.Equal(t, want == '#', dark(4+x, 4+y), "left top %d %d", x, y)
			assert.Equal(t, want == '#', dark(side-5-x, 4+y), "right top %d %d", x, y)
			assert.Equal(t, want == '#', dark(4+x, side-5-y), "left bottom %d %d", x, y)
		}
	}
	for i := 8; i < n-8; i++ {
		assert.Equal(t, i%2 == 0, dark(4+i, 4+6), "timing along x at %d", i)
		assert.Equal(t, i%2 == 0, dark(4+6, 4+i), "timing along y at %d", i)
	}
}

func TestTheCodeInATerminalIsBlackOnWhite(t *testing.T) {
	text, err := codeText(example)
	require.NoError(t, err)
	var rows [][]rune
	for _, line := range strings.Split(strings.TrimSuffix(text, "\n"), "\n") {
		line, ok := strings.CutPrefix(line, "\x1b[30;107m")
		require.True(t, ok)
		line, ok = strings.CutSuffix(line, "\x1b[0m")
		require.True(t, ok)
		rows = append(rows, []rune(line))
	}
	side := len(rows[0])
	assert.Len(t, rows, (side+1)/2)
	looksLikeACode(t, func(x, y int) bool {
		c := rows[y/2][x]
		return c == '█' || c == '▀' && y%2 == 0 || c == '▄' && y%2 == 1
	}, side)
}

// run is one run of dark modules in the picture's path.
var darkRun = regexp.MustCompile(`M(\d+) (\d+)h(\d+)v1H(\d+)z`)

func TestTheCodeAsAPicture(t *testing.T) {
	picture, err := codeSVG(example)
	require.NoError(t, err)
	require.NoError(t, xml.Unmarshal(picture, new(struct{ XMLName xml.Name })))
	var side int
	_, err = fmt.Sscanf(string(picture[strings.Index(string(picture), "viewBox"):]), `viewBox="0 0 %d`, &side)
	require.NoError(t, err)
	at := map[[2]int]bool{}
	for _, m := range darkRun.FindAllStringSubmatch(string(picture), -1) {
		x, _ := strconv.Atoi(m[1])
		y, _ := strconv.Atoi(m[2])
		n, _ := strconv.Atoi(m[3])
		for i := range n {
			at[[2]int{x + i, y}] = true
		}
	}
	looksLikeACode(t, func(x, y int) bool { return at[[2]int{x, y}] }, side)

	other, err := codeSVG(example + "x")
	require.NoError(t, err)
	assert.NotEqual(t, picture, other)
	_, err = codeSVG(strings.Repeat("x", 3000)) // ISO/IEC 18004, table 7: at most 2331 bytes at level M
	assert.Error(t, err)
}

func TestThePageIsToldHowOthersReachIt(t *testing.T) {
	files, err := reachFiles(8765, []string{example, "http://198.51.100.3:8765/"})
	require.NoError(t, err)
	require.Len(t, files, 3)
	var r reach
	require.NoError(t, json.Unmarshal(files[2].Data, &r))
	assert.Equal(t, "reach.json", files[2].Name)
	assert.Equal(t, []reachAddress{{example, "reach-1.svg"}, {"http://198.51.100.3:8765/", "reach-2.svg"}}, r.Addresses)
	assert.Equal(t, "reach-1.svg", files[0].Name)

	files, err = reachFiles(8765, nil)
	require.NoError(t, err)
	require.Len(t, files, 1)
	assert.JSONEq(t, `{"addresses":[],"listen":"scrubline serve -listen :8765"}`, string(files[0].Data))
}
