package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// The readable form counts what is not measured, and says at each finding what
// it rests on; a scene that lists nothing says nothing of it.
func TestCheckSaysWhatIsNotMeasured(t *testing.T) {
	data, err := os.ReadFile(filepath.Join(testdata, "scenes", "bakery-van.json"))
	require.NoError(t, err)
	doc, err := scene.Decode(data)
	require.NoError(t, err)
	for _, v := range [][2]string{{"part:exhaust", "tube_mm"}, {"vehicle", "rear/track_mm"}} {
		doc, _, err = scene.MarkMeasured(doc, v[0], v[1], false)
		require.NoError(t, err)
	}
	file := filepath.Join(t.TempDir(), "van.json")
	require.NoError(t, os.WriteFile(file, scene.Encode(doc), 0o644))
	status, out, _ := call("check", file)
	require.Equal(t, exitShort, status)
	require.Contains(t, out, "2 values are not measured yet")
	require.Contains(t, out, "         not measured: Exhaust pipe: ")
	_, out, _ = call("check", "-json", file)
	require.Contains(t, out, `"part:exhaust/size/tube_mm"`)
	_, out, _ = call("check", filepath.Join(testdata, "scenes", "bakery-van.json"))
	require.NotContains(t, out, "not measured")
}
