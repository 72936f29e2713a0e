package fitment

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// vanMoves is the way from the bakery van's conflicts to none as the table in
// testdata/scenes/README.md has it: each part with its group, by whole
// millimetres along one body axis. Left is how many findings and parts below the
// rim line there are after it.
var vanMoves = []struct {
	part string
	by   scene.Vec
	left int
}{
	{"air_tank", scene.Vec{0, -15, 0}, 7},
	{"battery", scene.Vec{0, 38, 0}, 6},
	{"seat_r", scene.Vec{0, 0, 15}, 5},
	{"rack_front_l", scene.Vec{59, 0, 0}, 4},
	{"booster", scene.Vec{0, 0, -31}, 3},
	{"muffler", scene.Vec{0, 0, 24}, 2},
	{"tail_pipe", scene.Vec{0, 170, 0}, 0},
}

// The moves of the table empty the list, one after the other, and bring nothing
// new with them.
func TestMovesTakeTheVanFromItsConflictsToNone(t *testing.T) {
	m := open(t, "bakery-van.json")
	shorts := func(r *Report) int { return len(r.Findings) + r.Summary.RimLine }
	require.Equal(t, 8, shorts(m.Check()))
	for _, s := range vanMoves {
		doc, _, err := scene.CarryParts(m.Doc, m.Doc.Together([]string{s.part}), s.by)
		require.NoError(t, err, s.part)
		m, err = m.With(doc)
		require.NoError(t, err, s.part)
		r := m.Check()
		require.Zero(t, r.Summary.Undecided)
		require.Equal(t, s.left, shorts(r), s.part)
	}
	fresh := compile(t, m.Doc).Check() // without what earlier checks have kept
	require.False(t, fresh.Short())
}

// Each move of the table is one that the mender offers: along that axis, no
// longer than the table has it and at most two millimetres shorter, the table's
// being whole ones.
func TestTheVansMovesAreItsMends(t *testing.T) {
	m := open(t, "bakery-van.json")
	for _, s := range vanMoves {
		d, err := m.Mend(s.part, MendOptions{NoTurns: true})
		require.NoError(t, err)
		require.False(t, d.Partial, s.part)
		offered := false
		for i := range d.Moves {
			got := d.Moves[i].ByMM
			over := 0.0 // by how much the table's move is longer
			along := true
			for k := range got {
				along = along && (s.by[k] == 0) == (got[k] == 0) && got[k]*s.by[k] >= 0
				over += math.Abs(s.by[k]) - math.Abs(got[k])
			}
			offered = offered || along && over >= 0 && over <= 2
		}
		require.True(t, offered, "%s: %v", s.part, d.Moves)
	}
}

// The same places can be found by dropping the part: they are free in its room,
// in a view that shows the move, within what the map reaches.
func TestTheVansMovesEndInRooms(t *testing.T) {
	m := open(t, "bakery-van.json")
	for _, s := range vanMoves {
		view := SectionView
		if s.by[0] != 0 {
			view = PlanView
		}
		r, err := m.RoomWithin(s.part, view, RoomReachMM, RoomCellMM)
		require.NoError(t, err)
		require.False(t, r.StandsFree(), s.part)
		u, w := view.axes()
		past := func(k int) float64 { // a cell farther: the border's cells are rounded
			return r.AtMM[map[int]int{u: 0, w: 1}[k]] + s.by[k] + math.Copysign(r.CellMM, s.by[k])*math.Min(1, math.Abs(s.by[k]))
		}
		by, ok := r.At(past(u), past(w))
		require.True(t, ok, s.part)
		require.Empty(t, by, s.part)
	}
}
