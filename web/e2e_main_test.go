//go:build e2e

package web_test

import (
	"encoding/json"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"scrubline/web/browser"
)

// The whole job on a tablet, with fingers only: find out that the air tank
// cannot go beside the driveshaft, lower the body, go back, save, and have the
// command line say the same of the saved file.
func TestE2ETheJobFromPickingUpToTheSavedFile(t *testing.T) {
	x := open(t, browser.Landscape)
	folder := t.TempDir()
	x.must(x.Downloads(folder))
	const tank, spring, hangs = "driveshaft|air_tank|", "spring_rr|tail_pipe|", "rim|muffler"
	before := x.rows()
	require.Equal(t, "tight", before[tank].Mark)

	// The section goes to where the tank is cut, by its flag.
	x.sectionTo(2000)
	require.Contains(t, x.look().Parts, "driveshaft")

	// Touching it selects it; a second touch moves it. 51 mm towards the shaft.
	at := x.pickUp("air_tank")
	x.drag(at, 51*x.look().PxPerMM, 0)
	x.tap(".side-form .back")
	x.eventually("the tank touches the shaft", func() bool { return x.rows()[tank].Mark == "touch" })
	moved := x.rows()[tank]
	assert.Contains(t, moved.Title, "touch")
	assert.Regexp(t, `^\d+(\.\d)? deep`, moved.Figures)
	assert.NotEqual(t, before[tank], moved)
	assert.Equal(t, before[spring].Figures, x.rows()[spring].Figures, "a pair that was not touched stays as it was")

	// The saddle of the staff takes the body down to the stop.
	l := x.look()
	assert.Empty(t, x.rows()[hangs].Here, "at ride nothing hangs below the rims")
	atRide := x.rows()[spring].Here
	x.drag(l.Saddle, 0, l.Staff[1]+l.Staff[3]-l.Saddle[1])
	x.eventually("the body is down", func() bool { k := x.look(); return k.FrontMM == -110 && k.RearMM == -130 })
	x.eventually("what hangs below the rims is told here", func() bool { return strings.HasPrefix(x.rows()[hangs].Here, "here: 65.4") })
	assert.NotEqual(t, atRide, x.rows()[spring].Here)
	// The spring's README sum: 5.82 deep at the rear's full drop.
	assert.Equal(t, "here: 5.8 deep", x.rows()[spring].Here)

	// Undo takes the move back, and redo makes it again.
	x.tap(".step-undo")
	x.eventually("the tank is back", func() bool { return x.rows()[tank].Mark == "tight" })
	assert.Equal(t, before[tank].Figures, x.rows()[tank].Figures)
	x.tap(".step-redo")
	x.eventually("the tank is moved again", func() bool { return x.rows()[tank].Figures == moved.Figures })

	x.fileMenu("Save a file")
	saved := x.download(folder)
	assert.Equal(t, x.file(), string(saved))
	name := filepath.Join(folder, "saved.json")
	require.NoError(t, os.WriteFile(name, saved, 0o644))
	compareWithCommandLine(t, x.rows(), name)
}

// download waits for the one file in a folder of downloads.
func (x *tab) download(folder string) []byte {
	x.t.Helper()
	var data []byte
	x.eventually("the file is saved", func() bool {
		files, err := filepath.Glob(filepath.Join(folder, "*.json"))
		x.must(err)
		if len(files) == 1 {
			data, err = os.ReadFile(files[0])
			x.must(err)
		}
		return len(data) > 0 && json.Valid(data)
	})
	return data
}

// report is as much of the command line's report as the list shows.
type report struct {
	Findings []struct {
		A, B, Service, Status string
		GapMM                 float64 `json:"gap_mm"`
		NeedMM                float64 `json:"need_mm"`
	}
	Ground []struct {
		RimLineMM float64 `json:"rim_line_mm"`
		Below     []struct {
			Part     string
			GroundMM float64 `json:"ground_mm"`
		} `json:"below_rim_line"`
	}
}

// compareWithCommandLine expects of `scrubline check -json` the findings that
// the list shows: the same pairs, marks and figures.
func compareWithCommandLine(t *testing.T, rows map[string]row, file string) {
	t.Helper()
	program := filepath.Join(t.TempDir(), "scrubline")
	said, err := exec.Command("go", "build", "-o", program, "../cmd/scrubline").CombinedOutput()
	require.NoError(t, err, string(said))
	out, err := exec.Command(program, "check", "-json", file).Output()
	var ended *exec.ExitError
	require.ErrorAs(t, err, &ended)
	require.Equal(t, 1, ended.ExitCode(), "something falls short")
	var r report
	require.NoError(t, json.Unmarshal(out, &r))
	want := map[string]row{}
	for _, f := range r.Findings {
		k := row{Key: f.A + "|" + f.B + "|" + f.Service, Mark: map[string]string{"contact": "touch", "tight": "tight"}[f.Status]}
		want[k.Key] = k
		pattern := `^([\d.]+) apart .*needs ([\d.]+)`
		switch {
		case f.Service != "":
			pattern = `reaches ([\d.]+) into its room`
		case f.GapMM < 0:
			pattern = `^([\d.]+) deep .*needs ([\d.]+)`
		}
		showsNumbers(t, rows[k.Key].Figures, pattern, math.Abs(f.GapMM), f.NeedMM)
	}
	for _, c := range r.Ground {
		for _, h := range c.Below {
			k := row{Key: "rim|" + h.Part, Mark: "tight"}
			want[k.Key] = k
			showsNumbers(t, rows[k.Key].Figures, `^([\d.]+) over the ground .*rim line is at ([\d.]+)`, h.GroundMM, c.RimLineMM)
		}
	}
	shown := map[string]row{}
	for key, got := range rows {
		shown[key] = row{Key: got.Key, Mark: got.Mark}
	}
	assert.Equal(t, want, shown)
	assert.NotEmpty(t, want)
}

// showsNumbers expects the numbers of a line, as its pattern finds them, to be
// the wanted ones to the tenth of a millimetre that is shown.
func showsNumbers(t *testing.T, line, pattern string, want ...float64) {
	t.Helper()
	found := regexp.MustCompile(pattern).FindStringSubmatch(line)
	require.NotNil(t, found, "%q does not read as %s", line, pattern)
	for i, text := range found[1:] {
		v, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		assert.InDelta(t, want[i], v, 0.0501, line)
	}
}
