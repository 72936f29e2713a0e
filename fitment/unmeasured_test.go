package fitment

import (
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// A finding lists what it rests on, in the report and in words, and only that.
func TestFindingsSayWhatIsNotMeasured(t *testing.T) {
	doc := open(t, "two-boxes-touching.json").Doc
	mark := func(target, field string) {
		t.Helper()
		next, _, err := scene.MarkMeasured(doc, target, field, false)
		require.NoError(t, err)
		doc = next
	}
	mark("part:b", "size/length_mm")
	mark("part:b", "at_y")
	mark("vehicle", "rear_track")
	m, err := Compile(doc)
	require.NoError(t, err)
	r := m.Check()
	require.Len(t, r.Findings, 1)
	require.Equal(t, "not measured: "+partNamed(doc, "b").Name+": position right, length", m.Unmeasured(&r.Findings[0]))
	var out struct {
		Findings []struct{ Unmeasured []string }
	}
	data := m.ReportJSON()
	require.NoError(t, json.Unmarshal(data, &out))
	require.Equal(t, []string{"part:b/at_mm/1", "part:b/size/length_mm"}, out.Findings[0].Unmeasured)
	held(t, "report.schema.json", data)
	require.NotContains(t, string(open(t, "two-boxes-touching.json").ReportJSON()), "unmeasured")
}

func partNamed(doc *scene.Document, id string) *scene.Part {
	for i := range doc.Parts {
		if doc.Parts[i].ID == id {
			return &doc.Parts[i]
		}
	}
	return nil
}

// Vehicles from the questions: nothing measured falls out of the engine, and
// aired out no axle touches its rail, which is what the kick-ups are drawn for.
func TestBegunVehiclesAreChecked(t *testing.T) {
	for _, a := range []scene.Answers{
		{},
		{scene.AskFrontAxle: scene.AxleLive, scene.AskFrontDown: "140", scene.AskFrontFrame: "150"},
		{scene.AskRearHold: scene.FourLinkPanhard, scene.AskFrontHold: scene.LeafSprings, scene.AskWheelbase: "3300"},
		{scene.AskFrontAxle: scene.AxleNone, scene.AskFrontHold: scene.DoubleWishbone, scene.AskRearDown: "160"},
		{scene.AskRailDepth: "160", scene.AskRailOver: "800", scene.AskFrontTyre: "700"},
	} {
		b := scene.Begin(a, scene.Millimetres)
		require.Empty(t, b.Faults, "%v", a)
		m, err := Compile(b.Doc)
		require.NoError(t, err)
		held(t, "report.schema.json", m.ReportJSON())
		for _, f := range m.Check().Findings {
			for _, rail := range [2]string{"left-frame-rail", "right-frame-rail"} {
				for _, axle := range [2]string{"front-axle", "rear-axle"} {
					require.False(t, f.Status == Contact && (f.A == rail && f.B == axle || f.A == axle && f.B == rail), "%v: %s %s %v", a, f.A, f.B, f.GapMM)
				}
			}
		}
	}
}
