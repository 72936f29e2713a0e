package fitment

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

const scenes = "../testdata/scenes"

func open(t testing.TB, name string) *Model {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(scenes, name))
	require.NoError(t, err)
	doc, err := scene.Decode(data)
	require.NoError(t, err)
	m, err := Compile(doc)
	require.NoError(t, err)
	return m
}

// Every scene against what was worked out by hand for it; the sums are in
// testdata/scenes/README.md. A row is one finding: the pair, whether it is a
// contact, the gap to the digits of the hand calculation.
func TestScenesByHand(t *testing.T) {
	type want struct {
		a, b   string
		status Status
		gap    float64
		digits float64
	}
	for file, rows := range map[string][]want{
		"bakery-van.json": {
			{"spring_rr", "tail_pipe", Contact, -6.183, 0.01},
			{"backrest_l", "rack_front_l", Contact, -55.263, near},
			{"tail_pipe", "fuel_line", Tight, 10.425, near},
			{"exhaust", "battery", Tight, 40.52, 0.01},
			{"booster", "floor", Tight, -30, near},
			{"driveshaft", "air_tank", Tight, 10.446, 0.01},
			{"exhaust", "seat_r", Tight, 35.425, near},
		},
		"bakery-van-mended.json":    {},
		"two-boxes-apart.json":      {},
		"two-boxes-touching.json":   {{"a", "b", Contact, 0, near}},
		"spring-grows.json":         {{"spring", "wall", Contact, -4, near}},
		"driveshaft-tunnel.json":    {{"driveshaft", "floor", Tight, 11.579, near}},
		"muffler-rim-line.json":     {},
		"wheel-full-lock.json":      {{"wheel", "rail", Contact, -4.282, near}},
		"exhaust-shield.json":       {{"pipe", "tank_right", Tight, 40, near}},
		"two-battery-places.json":   {{"pipe", "battery", Tight, 60, near}},
		"joined-bracket.json":       {{"rail", "loose", Contact, -5, near}},
		"service-room-blocked.json": {{"battery", "beam", Tight, -50, near}},
		"mirrored-pair.json": {
			{"spring_left", "wall_left", Contact, -4, near},
			{"spring_right", "wall_right", Contact, -4, near},
		},
		"nothing-falls-short.json": {},
		"starter.json":             {},
	} {
		t.Run(file, func(t *testing.T) {
			r := open(t, file).Check()
			require.Zero(t, r.Summary.Undecided)
			require.Len(t, r.Findings, len(rows))
			for _, w := range rows {
				f := findingOf(r, w.a, w.b)
				require.NotNil(t, f, "%s and %s", w.a, w.b)
				require.Equal(t, w.status, f.Status)
				require.InDelta(t, w.gap, f.GapMM, w.digits)
				require.LessOrEqual(t, f.BoundMM, f.GapMM)
				require.LessOrEqual(t, f.GapMM-f.BoundMM, 0.1+near)
			}
		})
	}
}

func findingOf(r *Report, a, b string) *Finding {
	for i := range r.Findings {
		if f := &r.Findings[i]; ordered(f.A, f.B) == ordered(a, b) {
			return f
		}
	}
	return nil
}

// What hangs below the rims, by hand (testdata/scenes/README.md).
func TestRimLineScenes(t *testing.T) {
	van := open(t, "bakery-van.json").Check()
	require.Equal(t, 1, van.Summary.RimLine)
	out := van.Ground[0]
	require.Equal(t, scene.AiredOut, out.Height)
	require.InDelta(t, 89.25, out.RimLineMM, near)
	require.InDelta(t, 65.37, out.GroundMM, 0.01)
	require.Equal(t, "muffler", out.Below[0].Part)
	require.Zero(t, open(t, "bakery-van-mended.json").Check().Summary.RimLine)

	muffler := open(t, "muffler-rim-line.json").Check()
	require.InDelta(t, 95, muffler.Ground[0].GroundMM, near)
	require.InDelta(t, 115, muffler.Ground[0].RimLineMM, near)
	require.InDelta(t, 215, muffler.Ground[1].GroundMM, near)
}

// What check prints is what report.schema.json promises, for every scene.
func TestReportSchema(t *testing.T) {
	valid := func(data []byte) { held(t, "report.schema.json", data) }
	files, err := filepath.Glob(filepath.Join(scenes, "*.json"))
	require.NoError(t, err)
	require.Greater(t, len(files), 10)
	for _, f := range files {
		m := open(t, filepath.Base(f))
		valid(m.ReportJSON())
		if len(m.Doc.Parts) > 1 {
			g, err := m.GapBetween(m.Doc.Parts[0].ID, m.Doc.Parts[1].ID, StateAt(-50, -60))
			require.NoError(t, err)
			valid(m.GapJSON(&g))
		}
	}
}

// The document's own idea of where a carrier stands, which edits use to keep a
// part in place, agrees with the engine's.
func TestCarrierOrigins(t *testing.T) {
	m := open(t, "bakery-van.json")
	for _, on := range scene.Carriers {
		doc := *m.Doc
		doc.Parts = []scene.Part{block("probe", scene.Body, scene.Vec{100, 50, 20}, 10, 10, 10)}
		moved, _, err := scene.SetField(&doc, "part:probe", "carrier", string(on))
		if on == scene.Body {
			continue // nothing changes
		}
		require.NoError(t, err)
		origin := m.CarrierOrigin(on)
		for i := range origin {
			require.InDelta(t, []float64{100, 50, 20}[i], origin[i]+moved.Parts[0].AtMM[i], near, "%s", on)
		}
	}
}

func BenchmarkCheckBakeryVan(b *testing.B) {
	m := open(b, "bakery-van.json")
	for b.Loop() {
		fresh, err := Compile(m.Doc)
		require.NoError(b, err)
		fresh.Check()
	}
}

func BenchmarkMoveOnePart(b *testing.B) {
	m := open(b, "bakery-van.json")
	m.Check()
	i := m.index["air_tank"]
	for n := 0; b.Loop(); n++ {
		next := *m.Doc
		next.Parts = append([]scene.Part(nil), m.Doc.Parts...)
		next.Parts[i].AtMM[1] += float64(n%7) + 1
		moved, err := m.With(&next)
		require.NoError(b, err)
		moved.Check()
	}
}
