package fitment

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

func sceneFile(t testing.TB, name string) *scene.Document {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(scenes, name))
	require.NoError(t, err)
	doc, err := scene.Decode(data)
	require.NoError(t, err)
	return doc
}

func compared(t testing.TB, doc *scene.Document, known map[string]*Model) *Comparison {
	t.Helper()
	c, err := Compare(doc, known)
	require.NoError(t, err)
	return c.Finish()
}

// The sums are in testdata/scenes/README.md.
func TestCompareByHand(t *testing.T) {
	c := compared(t, sceneFile(t, "two-battery-places.json"), nil)
	require.Len(t, c.Columns, 3)
	for i, want := range []struct {
		name           string
		contact, tight int
		low            float64
		by             []string
		mass, cost     float64
		order          int
	}{
		{Drawn, 0, 1, -120, nil, 110, 850, 0},
		{"Over the axle", 1, 0, -60, []string{"battery", "axle"}, 114, 920, 1},
		{"Behind a shield", 0, 0, -120, nil, 110, 850, 0},
	} {
		col := &c.Columns[i]
		s := col.Model.Check().Summary
		require.Equal(t, want.name, col.Name)
		require.Equal(t, [3]int{want.contact, want.tight, 0}, [3]int{s.Contact, s.Tight, s.Undecided}, want.name)
		require.InDelta(t, want.low, col.Low.At.RearMM, 0.1, want.name)
		require.Equal(t, want.by, col.Low.By, want.name)
		require.False(t, col.Low.AtRide)
		require.Equal(t, want.mass, col.Totals.MassKG)
		require.Equal(t, want.cost, col.Totals.Cost)
		require.Len(t, col.Totals.Order, want.order)
	}
	require.Len(t, c.Pairs, 2)
	for i, want := range [2]struct {
		a, b  string
		cells [3]PairCell
	}{
		{"pipe", "battery", [3]PairCell{{PairTight, 60, 60, 75}, {PairFar, 325, 325, 75}, {PairClear, 60, 60, 25}}},
		{"battery", "axle", [3]PairCell{{PairFar, 275, 275, 25}, {PairContact, -60, -60, 25}, {PairFar, 275, 275, 25}}},
	} {
		row := &c.Pairs[i]
		require.Equal(t, ordered(want.a, want.b), ordered(row.A, row.B))
		for k, cell := range want.cells {
			require.Equal(t, cell.Status, row.Cells[k].Status)
			require.InDelta(t, cell.GapMM, row.Cells[k].GapMM, near)
			require.InDelta(t, cell.BoundMM, row.Cells[k].BoundMM, 0.1+near)
			require.LessOrEqual(t, row.Cells[k].BoundMM, row.Cells[k].GapMM)
			require.Equal(t, cell.NeedMM, row.Cells[k].NeedMM)
		}
	}
}

// What is compared is what check says of each variant by itself.
func TestCompareAgreesWithCheck(t *testing.T) {
	doc := sceneFile(t, "bakery-van.json")
	doc = withVariant(t, doc, "Battery forward", func(d *scene.Document) (*scene.Document, string, error) {
		return scene.MovePart(d, "battery", scene.Vec{500, 380, 200})
	})
	doc = withVariant(t, doc, "Smaller tyres", func(d *scene.Document) (*scene.Document, string, error) {
		return scene.SetField(d, "vehicle", "rear/tyre", "205/55R16")
	})
	c := compared(t, doc, nil)
	known := map[string]*Model{}
	for i := range c.Columns {
		col := &c.Columns[i]
		known[col.ID] = col.Model
		made, err := scene.Resolve(doc, col.ID)
		require.NoError(t, err)
		alone, err := Compile(made)
		require.NoError(t, err)
		require.Equal(t, string(alone.ReportJSON()), string(col.Model.ReportJSON()), col.Name)
	}
	require.NotEqual(t, c.Columns[0].Model.Check().Summary, c.Columns[2].Model.Check().Summary)
	require.Equal(t, string(c.JSON()), string(compared(t, doc, known).JSON()), "with answers from before")
}

func withVariant(t testing.TB, doc *scene.Document, name string, edit func(*scene.Document) (*scene.Document, string, error)) *scene.Document {
	t.Helper()
	base := *doc
	base.Shown = ""
	doc, _, err := scene.AddVariant(&base, name)
	require.NoError(t, err)
	made, err := scene.Resolve(doc, doc.Shown)
	require.NoError(t, err)
	made, _, err = edit(made)
	require.NoError(t, err)
	doc, err = scene.Keep(doc, doc.Shown, made)
	require.NoError(t, err)
	require.NoError(t, doc.Validate())
	return doc
}

// A part that one variant lacks, a pair that another has joined, and the room
// of a part that is another thing there.
func TestComparePairsThatAreNotThere(t *testing.T) {
	doc := sceneFile(t, "service-room-blocked.json")
	doc = withVariant(t, doc, "No beam", func(d *scene.Document) (*scene.Document, string, error) { return scene.RemovePart(d, "beam") })
	doc = withVariant(t, doc, "No lid", func(d *scene.Document) (*scene.Document, string, error) {
		return scene.SetField(d, "part:battery", "lid_mm", "0")
	})
	c := compared(t, doc, nil)
	require.Len(t, c.Pairs, 1)
	require.Equal(t, "battery", c.Pairs[0].Service)
	var got []PairStatus
	for _, cell := range c.Pairs[0].Cells {
		got = append(got, cell.Status)
	}
	require.Equal(t, []PairStatus{PairTight, PairAbsent, PairAbsent}, got)

	doc = withVariant(t, sceneFile(t, "two-boxes-touching.json"), "Welded", func(d *scene.Document) (*scene.Document, string, error) {
		return scene.SetJoined(d, "a", "b", true, "welded")
	})
	c = compared(t, doc, nil)
	require.Equal(t, []PairCell{{PairContact, c.Pairs[0].Cells[0].GapMM, c.Pairs[0].Cells[0].BoundMM, 3}, {Status: PairJoined}}, c.Pairs[0].Cells)
	require.True(t, len(c.Columns[1].Low.By) == 0)
}

func TestCompareSchema(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(scenes, "*.json"))
	require.NoError(t, err)
	for _, f := range files {
		doc := sceneFile(t, filepath.Base(f))
		data := compared(t, doc, nil).JSON()
		held(t, "compare.schema.json", data)
		require.Equal(t, string(data), string(compared(t, doc, nil).JSON()), "twice")
	}
}

// The report of a variant says whose it is, as its schema allows.
func TestReportOfAVariant(t *testing.T) {
	made, err := scene.Resolve(sceneFile(t, "two-battery-places.json"), "over-the-axle")
	require.NoError(t, err)
	m, err := Compile(made)
	require.NoError(t, err)
	m.Variant = "over-the-axle"
	held(t, "report.schema.json", m.ReportJSON())
	require.Contains(t, string(m.ReportJSON()), `"variant": "over-the-axle"`)
}

// The table as people read it.
func TestCompareWords(t *testing.T) {
	table := compared(t, sceneFile(t, "two-battery-places.json"), nil).Table()
	require.Equal(t, []string{Drawn, "Over the axle", "Behind a shield"}, table.Heads)
	said := map[string]string{}
	for _, r := range table.Rows {
		said[r.Label] = strings.Join(r.Cells, " | ")
		require.Equal(t, r.Differs, r.Cells[0] != r.Cells[1] || r.Cells[0] != r.Cells[2], r.Label)
	}
	for label, want := range map[string]string{
		"Touch": "none | 1 | none", "Tight": "1 | none | none", "Below the rim line": "none | none | none",
		"Mass":                           "110 kg, 1 part without a mass | 114 kg, 1 part without a mass | 110 kg, 1 part without a mass",
		"Cost":                           "850 USD; 50 USD below the budget of 900 USD | 920 USD; 20 USD over the budget of 900 USD | 850 USD; 50 USD below the budget of 900 USD",
		"Still to order":                 "nothing | 1 part, 220 USD | nothing",
		"Exhaust pipe and battery":       "60 apart, needs 75 | 325 or more, needs 75 | 60 apart, needs 25",
		"Battery and axle tube, need 25": "275 or more | 60 deep | 275 or more",
	} {
		require.Equal(t, want, said[label], label)
	}
	for _, c := range []struct {
		t    scene.Totals
		want string
	}{
		{scene.Totals{}, "nothing"},
		{scene.Totals{Parts: 1, NoState: 1}, "nothing said; 1 part has no state"},
		{scene.Totals{Parts: 12, OnShelf: 1, NoState: 13}, "nothing said; 13 parts have no state"},
		{scene.Totals{Parts: 12, OnShelf: 1, NoState: 12}, "nothing"},
	} {
		require.Equal(t, c.want, OrderWords(scene.New(), &c.t))
	}
	none := scene.Totals{Parts: 2, NoMass: 2, NoPrice: 2}
	require.Equal(t, "not known, not known", MassWords(scene.New(), &none)+", "+CostWords(scene.New(), &none))
}

func BenchmarkCompareVan(b *testing.B) {
	doc := sceneFile(b, "bakery-van.json")
	doc = withVariant(b, doc, "Battery forward", func(d *scene.Document) (*scene.Document, string, error) {
		return scene.MovePart(d, "battery", scene.Vec{500, 380, 200})
	})
	for b.Loop() {
		compared(b, doc, nil)
	}
}
