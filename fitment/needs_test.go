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
