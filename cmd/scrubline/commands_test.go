package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

const testdata = "../../testdata"

func call(args ...string) (status int, out, errs string) {
	var o, e bytes.Buffer
	status = run(args, &o, &e)
	return status, o.String(), e.String()
}

// Exit statuses: 0 nothing falls short, 1 something does, 2 bad input.
func TestCheckStatus(t *testing.T) {
	for file, want := range map[string]int{
		"bakery-van.json": exitShort, "bakery-van-mended.json": exitClear,
		"muffler-rim-line.json": exitShort, "two-boxes-apart.json": exitClear,
	} {
		status, out, errs := call("check", filepath.Join(testdata, "scenes", file))
		require.Equal(t, want, status, file)
		require.Empty(t, errs)
		require.Contains(t, out, "pairs checked over the whole travel")
	}
}

// The planted conflicts of the demo, in the readable form.
func TestCheckSays(t *testing.T) {
	_, out, _ := call("check", filepath.Join(testdata, "scenes", "bakery-van.json"))
	for _, want := range []string{
		"Right rear air spring and tail pipe touch", "6.2 deep at front 0, rear −115, rear leaning 30 to the left",
		"Exhaust pipe close to battery", "10.4 apart at every height, needs 50",
		"Muffler below the rim line", "California Vehicle Code 24008",
		"Quebec C-24.2 r.32 s.92", "Caution:",
	} {
		require.Contains(t, out, want)
	}
}

// The JSON is the same bytes twice, and has what a reader of it needs.
func TestCheckJSON(t *testing.T) {
	file := filepath.Join(testdata, "scenes", "bakery-van.json")
	_, first, _ := call("check", "-json", file)
	_, second, _ := call("check", file, "-json")
	require.Equal(t, first, second)
	var r struct {
		Findings []struct {
			A, B, Status string
			Gap          float64 `json:"gap_mm"`
		}
		Summary struct{ Pairs, Contact, Tight, Clear, Undecided int }
	}
	require.NoError(t, json.Unmarshal([]byte(first), &r))
	require.Equal(t, "contact", r.Findings[0].Status)
	require.Equal(t, r.Summary.Pairs, r.Summary.Clear+r.Summary.Contact+r.Summary.Tight)
	require.Zero(t, r.Summary.Undecided)
}

// Every broken file: status 2, nothing on the standard output, one line that
// names the file and a place in it.
func TestBrokenFiles(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(testdata, "broken", "*.json"))
	require.NoError(t, err)
	require.GreaterOrEqual(t, len(files), 10)
	for _, file := range files {
		for _, command := range [][]string{{"check", file}, {"gap", file, "a", "b"}} {
			status, out, errs := call(command...)
			require.Equal(t, exitBad, status, file)
			require.Empty(t, out, file)
			require.Equal(t, 1, strings.Count(errs, "\n"), errs)
			require.Contains(t, errs, filepath.Base(file))
			require.Regexp(t, "expected|reads up to", errs)
		}
	}
}

// The tape measure against the hand calculation of two-boxes-apart (10 mm) and
// the driveshaft over its tunnel (11.579 mm at full drop;
// testdata/scenes/README.md).
func TestGap(t *testing.T) {
	boxes := filepath.Join(testdata, "scenes", "two-boxes-apart.json")
	status, out, _ := call("gap", boxes, "a", "b")
	require.Equal(t, exitClear, status)
	require.Contains(t, out, "10.000 mm")

	shaft := filepath.Join(testdata, "scenes", "driveshaft-tunnel.json")
	status, out, _ = call("gap", shaft, "driveshaft", "floor", "-at", "0,0,-120,-120", "-json")
	require.Equal(t, exitShort, status)
	var g struct {
		Gap float64 `json:"gap_mm"`
		At  struct {
			RL float64 `json:"rl_mm"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &g))
	require.InDelta(t, 11.579, g.Gap, 0.001)
	require.Equal(t, -120.0, g.At.RL)
}

// A mend of a block under a slab is what the hand says, and a file with the move
// taken is clear: two-boxes-touching has them face to face, and they need 3.
func TestMend(t *testing.T) {
	file := filepath.Join(testdata, "scenes", "two-boxes-touching.json")
	status, out, _ := call("mend", file, "a")
	require.Equal(t, exitClear, status)
	require.Contains(t, out, "The smallest move of")
	status, out, _ = call("mend", "-json", file, "a")
	require.Equal(t, exitClear, status)
	var d struct {
		Moves []struct {
			Size     float64   `json:"size_mm"`
			Smallest bool      `json:"smallest"`
			Tape     []float64 `json:"tape_mm"`
		} `json:"moves"`
	}
	require.NoError(t, json.Unmarshal([]byte(out), &d))
	require.InDelta(t, 3, d.Moves[0].Size, 0.035, "3 and what is kept to spare")
	require.True(t, d.Moves[0].Smallest)

	status, out, _ = call("mend", filepath.Join(testdata, "scenes", "bakery-van.json"), "floor")
	require.Equal(t, exitShort, status)
	require.Contains(t, out, "stays where the vehicle has it")
}

// A room says by its status whether the part may be where it stands.
func TestRoom(t *testing.T) {
	file := filepath.Join(testdata, "scenes", "two-boxes-apart.json")
	status, out, _ := call("room", "-view", "section", file, "a")
	require.Equal(t, exitClear, status)
	require.Contains(t, out, "keeps all its needs where it stands")
	status, out, _ = call("room", "-view", "plan", "-svg", filepath.Join(testdata, "scenes", "two-boxes-touching.json"), "a")
	require.Equal(t, exitShort, status)
	require.Contains(t, out, "</svg>")
	status, out, _ = call("room", "-view", "side", "-json", "-reach", "50", file, "a")
	require.Equal(t, exitClear, status)
	require.Contains(t, out, `"stands_in_it": true`)
}

// Bad arguments: one sentence, status 2.
func TestBadArguments(t *testing.T) {
	van := filepath.Join(testdata, "scenes", "bakery-van.json")
	for _, row := range []struct {
		args []string
		says string
	}{
		{nil, "scrubline check"},
		{[]string{"weld"}, "unknown command"},
		{[]string{"check"}, "one scene file"},
		{[]string{"check", "-loud", van}, "unknown option -loud"},
		{[]string{"check", "nowhere.json"}, "nowhere.json: cannot be read"},
		{[]string{"gap", van, "exhaust"}, "two part ids"},
		{[]string{"gap", van, "exhaust", "nothing"}, `no part with the id "nothing"`},
		{[]string{"gap", van, "exhaust", "battery", "-at", "1,2,3"}, "four corner heights"},
		{[]string{"gap", van, "exhaust", "battery", "-at", "0,0,0,NaN"}, "four corner heights"},
		{[]string{"gap", van, "exhaust", "battery", "-at"}, "-at needs a value"},
		{[]string{"new"}, "name of the file"},
		{[]string{"mend", van}, "the id of one part"},
		{[]string{"mend", van, "nothing"}, `no part with the id "nothing"`},
		{[]string{"mend", "-along", "up", van, "battery"}, "-along takes x, y and z"},
		{[]string{"mend", "-within", "-3", van, "battery"}, "-within takes millimetres"},
		{[]string{"room", van, "battery"}, "-view takes section, side or plan"},
		{[]string{"room", "-view", "plan", van}, "the id of one part"},
		{[]string{"room", "-view", "plan", "-cell", "0", van, "battery"}, "-cell takes millimetres"},
		{[]string{"room", "-view", "plan", "-json", "-svg", van, "battery"}, "not both"},
		{[]string{"room", "-view", "plan", van, "nothing"}, `no part with the id "nothing"`},
	} {
		status, out, errs := call(row.args...)
		require.Equal(t, exitBad, status, row.args)
		require.Empty(t, out, row.args)
		require.Contains(t, errs, row.says)
	}
}

// new writes a scene that opens and never writes over a file.
func TestNew(t *testing.T) {
	file := filepath.Join(t.TempDir(), "mine.json")
	status, out, _ := call("new", file)
	require.Equal(t, exitClear, status)
	require.Contains(t, out, "assumptions")
	data, err := os.ReadFile(file)
	require.NoError(t, err)
	_, err = scene.Decode(data)
	require.NoError(t, err)
	status, _, errs := call("new", file)
	require.Equal(t, exitBad, status)
	require.Contains(t, errs, "exists")
	after, err := os.ReadFile(file)
	require.NoError(t, err)
	require.Equal(t, data, after)
}

// A movement on the command line: a hinge 300 below a plate's upper edge turns
// it by 30°, which carries the edge 150 rearward (300·sin 30°).
func TestGapMove(t *testing.T) {
	file := filepath.Join(t.TempDir(), "moves.json")
	doc := scene.New()
	doc.Movements = []scene.Movement{{ID: "tilt", Name: "Tilt", Kind: scene.Hinge, Carrier: scene.Body,
		AtMM: scene.Vec{1000, 0, 500}, Axis: scene.Vec{0, 1, 0}, To: 30}}
	plate := func(id string, x float64, moves ...string) scene.Part {
		size := scene.KindNamed("box").DefaultSize()
		size["length_mm"], size["width_mm"], size["height_mm"] = scene.Value{Num: 1}, scene.Value{Num: 100}, scene.Value{Num: 300}
		return scene.Part{ID: id, Name: id, Kind: "box", Carrier: scene.Body, AtMM: scene.Vec{x, 0, 650}, Size: size, Moves: moves}
	}
	doc.Parts = append(doc.Parts, plate("flap", 1000, "tilt"), plate("wall", 1401))
	require.NoError(t, os.WriteFile(file, scene.Encode(doc), 0o600))
	status, out, errs := call("gap", file, "flap", "wall", "-move", "tilt=30", "-json")
	require.Equal(t, exitClear, status, errs)
	var g struct {
		Gap float64 `json:"gap_mm"`
		At  struct {
			Movements []struct {
				ID string
				By float64
			}
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &g))
	require.InDelta(t, 401-0.5-(300*0.5+0.5*0.8660254), g.Gap, 0.001)
	require.Equal(t, "tilt", g.At.Movements[0].ID)
	status, _, errs = call("gap", file, "flap", "wall", "-move", "tilt=31")
	require.Equal(t, exitBad, status)
	require.Contains(t, errs, "tilt goes from 0 to 30")
}
