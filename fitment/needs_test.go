package fitment

import (
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// The starting table, row by row, and which row wins where several apply.
// The figures' standing is in their source text.
func TestStartingTable(t *testing.T) {
	none := []scene.Trait{scene.Fixed}
	one := func(ts ...scene.Trait) []scene.Trait { return ts }
	for _, row := range []struct {
		name   string
		a, b   []scene.Trait
		moving bool
		mm     float64
		source string
	}{
		{"two fixed parts", none, none, false, 3, "two fixed parts"},
		{"a fixed part and an axle", none, one(scene.Moving), true, 25, "suspension, axle or steering"},
		{"two parts of one axle", one(scene.Moving), one(scene.Moving), false, 3, "two fixed parts"},
		{"gearbox and floor", one(scene.Engine), one(scene.Floor), false, 12, "engine, gearbox"},
		{"air spring and rail", one(scene.Spring), one(scene.Frame), true, 25, "air spring"},
		{"driveshaft and tank", one(scene.Driveshaft), one(scene.Air), true, 25, "driveshaft"},
		{"tyre and rail", one(scene.TyreTrait), one(scene.Frame), true, 15, "tyre"},
		{"exhaust and floor", one(scene.Exhaust), one(scene.Floor), false, 15, "floor or frame"},
		{"exhaust and fuel line", one(scene.Exhaust), one(scene.Fuel), false, 50, "C-24.2 r.32 s.92"},
		{"brake line and exhaust", one(scene.Brake), one(scene.Exhaust), false, 50, "C-24.2 r.32 s.92"},
		{"exhaust and battery", one(scene.Exhaust), one(scene.Battery, scene.Electric), false, 75, "battery, air tank"},
		{"exhaust and air spring: the largest holds", one(scene.Exhaust), one(scene.Spring), true, 75, "battery, air tank"},
		{"exhaust and axle", one(scene.Exhaust), one(scene.Moving), true, 25, "suspension, axle or steering"},
		{"tyre and moving link: the largest holds", one(scene.TyreTrait), one(scene.Moving), true, 25, "suspension"},
	} {
		t.Run(row.name, func(t *testing.T) {
			book := newNeedBook(bench())
			a := &compiled{part: scene.Part{ID: "a"}, traits: row.a}
			b := &compiled{part: scene.Part{ID: "b"}, traits: row.b}
			n := book.between(a, b, row.moving)
			require.Equal(t, row.mm, n.mm)
			require.Contains(t, n.source, row.source)
			require.Equal(t, n, book.between(b, a, row.moving), "either way round")
		})
	}
}

// The user's figures: for a pair, for two traits, and a stated shield.
func TestOwnNeeds(t *testing.T) {
	pipe := &compiled{part: scene.Part{ID: "pipe"}, traits: []scene.Trait{scene.Exhaust}}
	line := &compiled{part: scene.Part{ID: "line"}, traits: []scene.Trait{scene.Fuel}}
	hose := &compiled{part: scene.Part{ID: "hose"}, traits: []scene.Trait{scene.Brake}}
	tank := &compiled{part: scene.Part{ID: "tank"}, traits: []scene.Trait{scene.Air}}
	doc := bench()
	doc.Needs = []scene.Need{
		{Traits: [2]scene.Trait{scene.Fuel, scene.Exhaust}, NeedMM: 300, Why: "school-bus rules of Illinois and Maryland"},
		{Parts: [2]string{"tank", "pipe"}, Shielded: true, Why: "steel sheet between"},
		{Parts: [2]string{"hose", "pipe"}, NeedMM: 10, Why: "braided, inspector agreed"},
	}
	book := newNeedBook(doc)
	require.Equal(t, 300.0, book.between(pipe, line, false).mm)
	require.Contains(t, book.between(pipe, line, false).source, "Illinois")
	require.Equal(t, 25.0, book.between(pipe, tank, false).mm, "with a shield 25")
	require.Equal(t, 10.0, book.between(pipe, hose, false).mm)
	require.Equal(t, 300.0, book.most)

	wires := &compiled{part: scene.Part{ID: "wires"}, traits: []scene.Trait{scene.Electric}}
	require.Equal(t, 50.0, book.between(pipe, wires, false).mm, "the rest of the row the user changed still holds")

	doc.Needs = append(doc.Needs, scene.Need{Traits: [2]scene.Trait{scene.TyreTrait, scene.Fixed}, NeedMM: 5, Why: "measured at full lock"},
		scene.Need{Parts: [2]string{"line", "pipe"}, Shielded: true, NeedMM: 320, Why: "more than the table, shield or not"})
	book = newNeedBook(doc)
	tyre := &compiled{part: scene.Part{ID: "tyre"}, traits: []scene.Trait{scene.TyreTrait}}
	sill := &compiled{part: scene.Part{ID: "sill"}, traits: []scene.Trait{scene.Fixed}}
	require.Equal(t, 5.0, book.between(tyre, sill, true).mm, "two traits outrank one trait and anything")
	require.Equal(t, 25.0, book.between(tyre, &compiled{part: scene.Part{ID: "arm"}, traits: []scene.Trait{scene.Moving}}, true).mm)
	require.Equal(t, 320.0, book.between(line, pipe, false).mm, "a larger need of one's own holds behind a shield too")
	require.True(t, book.between(hose, pipe, false).lowered)
	require.Equal(t, 50.0, book.between(hose, pipe, false).table)
	doc.Needs = doc.Needs[:3]

	doc.Needs[0].NeedMM = 20 // a smaller figure takes the row's place too
	require.Equal(t, 20.0, newNeedBook(doc).between(pipe, line, false).mm)
}

// What a figure of one's own takes the place of is said, and that it is less
// than the table asks; a figure for two kinds of part counts as one's own too.
func TestLoweredNeeds(t *testing.T) {
	part := func(id string, ts ...scene.Trait) *compiled {
		return &compiled{part: scene.Part{ID: id}, traits: ts}
	}
	pipe, line, shaft, rail := part("pipe", scene.Exhaust), part("line", scene.Fuel), part("shaft", scene.Driveshaft), part("rail", scene.Frame)
	pair := func(a, b string, mm float64, shield bool) scene.Need {
		return scene.Need{Parts: [2]string{a, b}, NeedMM: mm, Shielded: shield, Why: "tried"}
	}
	kinds := func(a, b scene.Trait, mm float64) scene.Need {
		return scene.Need{Traits: [2]scene.Trait{a, b}, NeedMM: mm}
	}
	for _, row := range []struct {
		name    string
		needs   []scene.Need
		x, y    *compiled
		mm      float64
		lowered float64 // what the table would ask; 0: it is not lowered
		source  string
		caution string
	}{
		{"as the table has it", nil, pipe, line, 50, 0, "Quebec", heatCaution},
		{"less for a pair", []scene.Need{pair("line", "pipe", 10, false)}, pipe, line, 10, 50, "set for this pair, the table asks 50: tried", heatCaution},
		{"more for a pair", []scene.Need{pair("line", "pipe", 60, false)}, pipe, line, 60, 0, "set for this pair, the table asks 50: tried", heatCaution},
		{"a shield where none helps", []scene.Need{pair("line", "pipe", 0, true)}, pipe, line, 50, 0, "Quebec", heatCaution},
		{"less for two kinds", []scene.Need{kinds(scene.Fuel, scene.Exhaust, 20)}, pipe, line, 20, 50, "set for fuel and exhaust", heatCaution},
		{"less for two kinds, a little more for the pair", []scene.Need{kinds(scene.Fuel, scene.Exhaust, 20), pair("line", "pipe", 30, false)}, pipe, line, 30, 50, "the table asks 50", heatCaution},
		{"more for two kinds, less for the pair", []scene.Need{kinds(scene.Fuel, scene.Exhaust, 80), pair("line", "pipe", 60, false)}, pipe, line, 60, 80, "the table asks 80", heatCaution},
		{"of one kind and anything", []scene.Need{kinds(scene.Frame, scene.Driveshaft, 12)}, shaft, rail, 12, 25, "set for frame and driveshaft", ""},
	} {
		t.Run(row.name, func(t *testing.T) {
			doc := bench()
			doc.Needs = row.needs
			n := newNeedBook(doc).between(row.x, row.y, true)
			require.Equal(t, row.mm, n.mm)
			require.Equal(t, row.lowered, n.table)
			require.Equal(t, row.lowered > 0, n.lowered)
			require.Contains(t, n.source, row.source)
			require.Equal(t, row.caution, n.caution)
		})
	}
}

// Every two kinds of part stand in the list once, with the starting table's
// figure (TestStartingTable has it row by row) and the scene's own beside it.
func TestNeedsOfKinds(t *testing.T) {
	doc := bench()
	doc.Needs = []scene.Need{{Traits: [2]scene.Trait{scene.Fuel, scene.Exhaust}, NeedMM: 20, Why: "tried"}}
	list := KindNeeds(doc)
	n := len(scene.AllTraits)
	require.Len(t, list, n*(n+1)/2)
	find := func(a, b scene.Trait) KindNeed {
		var found []KindNeed
		for _, k := range list {
			if k.A == a && k.B == b || k.A == b && k.B == a {
				found = append(found, k)
			}
		}
		require.Len(t, found, 1)
		return found[0]
	}
	fuel := find(scene.Exhaust, scene.Fuel)
	require.Equal(t, 20.0, fuel.MM)
	require.Equal(t, Asked{MM: 50, What: "exhaust and fuel, brake, wiring, what burns", Standing: "Quebec C-24.2 r.32 s.92", Law: true}, fuel.Table)
	require.True(t, fuel.Lowered)
	require.Equal(t, "tried", fuel.Set.Why)
	require.Equal(t, heatCaution, fuel.Caution)

	battery := find(scene.Battery, scene.Exhaust)
	require.Equal(t, 75.0, battery.MM)
	require.Equal(t, 25.0, battery.ShieldMM)
	require.Nil(t, battery.Set)
	require.True(t, find(scene.Moving, scene.Frame).Relative)
	require.Equal(t, 25.0, find(scene.Moving, scene.Frame).MM)
	require.False(t, find(scene.Driveshaft, scene.Moving).Relative, "a driveshaft keeps 25 from what it goes along with too")
	require.Contains(t, find(scene.Fuel, scene.Moving).Caution, "Fuel")
	require.Empty(t, find(scene.Fixed, scene.Frame).Caution)
}

// A pair as it is read and changed, in a scene with a stated shield.
func TestNeedOfAPair(t *testing.T) {
	doc := sceneFile(t, "exhaust-shield.json")
	m, err := Compile(doc)
	require.NoError(t, err)
	n, err := m.Need("tank_left", "pipe")
	require.NoError(t, err)
	require.Equal(t, 25.0, n.MM)
	require.Equal(t, 75.0, n.Table.MM)
	require.Equal(t, 25.0, n.ShieldMM)
	require.True(t, n.Set.Shielded)
	require.False(t, n.Lowered, "it is what the table asks with a shield")
	require.Equal(t, []Lowered{{A: "pipe", B: "tank_left", NeedMM: 25, TableMM: 75, Shielded: true, Caution: heatCaution}}, m.Check().Lowered)
	require.Equal(t, "Exhaust pipe and left air tank need 25 with the heat shield that is stated between them, 75 without", NewWords(doc).Lowered(&m.Check().Lowered[0]))
	require.NotEmpty(t, n.Caution)
	require.Equal(t, "A heat shield is stated between them; the table asks 75 (exhaust and battery, air tank, air line, spring: common practice, from memory). Why: "+doc.Needs[0].Why,
		NewWords(doc).Need(&n))

	doc.Needs = []scene.Need{{Parts: [2]string{"pipe", "tank_left"}, NeedMM: 40}}
	m, err = Compile(doc)
	require.NoError(t, err)
	require.Equal(t, []Lowered{{A: "pipe", B: "tank_left", NeedMM: 40, TableMM: 75, Caution: heatCaution}}, m.Check().Lowered)
	n, err = m.Need("pipe", "tank_left")
	require.NoError(t, err)
	require.True(t, n.Lowered)
	require.Equal(t, "Your figure: 40; the table asks 75 (exhaust and battery, air tank, air line, spring: common practice, from memory)", NewWords(doc).Need(&n))
	for _, pair := range [][2]string{{"pipe", "pipe"}, {"pipe", "nothing"}, {"", "pipe"}} {
		_, err = m.Need(pair[0], pair[1])
		require.Error(t, err, pair)
	}
}

// A height of the user's own where a standing one is does not take its name.
func TestTheStandingHeightIsNamedFirst(t *testing.T) {
	doc := bench()
	low := doc.Heights[0]
	require.Equal(t, scene.AiredOut, low.ID)
	doc.Heights = append(doc.Heights, scene.Height{ID: "own", Name: "Loading", FrontMM: low.FrontMM, RearMM: low.RearMM})
	require.Equal(t, "aired out", NewWords(doc).State(StateAt(low.FrontMM, low.RearMM)))
}
