package fitment

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// A box of 100 below a slab, beside a post, both fixed: by hand its middle keeps
// 3 from the slab's underside at Z 400 up to 400 − 50 − 3 = 347, and 3 from the
// post's side at Y 200 up to 200 − 50 − 3 = 147. The slab ends at Y 100; beyond,
// the box passes it at the corner: a quarter circle of 3 about (100, 400).
func TestRoomByHand(t *testing.T) {
	doc := bench(
		block("p", scene.Body, scene.Vec{1500, 0, 250}, 100, 100, 100),
		block("slab", scene.Body, scene.Vec{1500, 0, 420}, 400, 200, 40),
		block("post", scene.Body, scene.Vec{1500, 220, 300}, 40, 40, 400))
	m := compile(t, doc)
	r, err := m.RoomOf("p", RoomOptions{View: SectionView, LoMM: [2]float64{-100, 200}, HiMM: [2]float64{260, 500}, CellMM: 1})
	require.NoError(t, err)
	for _, row := range []struct {
		y, z float64
		by   string
	}{
		{0, 345, ""}, {0, 349, "slab"}, {-100, 345, ""}, {0, 250, ""},
		{145, 250, ""}, {149, 250, "post"}, {145, 345, ""}, {145, 349, "slab"},
		{255, 400, "post"}, // beyond the post the map ends before the box passes it
	} {
		by, ok := r.At(row.y, row.z)
		require.True(t, ok)
		require.Equal(t, row.by, by, "%v", row)
	}
	_, ok := r.At(-200, 300)
	require.False(t, ok)
}

// The same box under a slab on the rear axle, whose underside is 400 over the
// axle's line. With the body aired up by 60 the axle hangs 60 lower in it: the box
// keeps 25 (it moves against the axle) up to 400 − 60 − 50 − 25 = 265.
func TestRoomOverTheWholeTravel(t *testing.T) {
	doc := bench(
		block("p", scene.Body, scene.Vec{3000, 0, 100}, 100, 100, 100),
		block("slab", scene.RearAxle, scene.Vec{0, 0, 420}, 400, 200, 40))
	m := compile(t, doc)
	r, err := m.RoomOf("p", RoomOptions{View: SideView, LoMM: [2]float64{2900, 100}, HiMM: [2]float64{3100, 400}, CellMM: 1})
	require.NoError(t, err)
	up := m.ch.Origin(carrierOf[scene.RearAxle]).Z
	for _, z := range []float64{up + 263, up + 267} {
		by, ok := r.At(3000, z)
		require.True(t, ok)
		want := ""
		if z > up+265 {
			want = "slab"
		}
		require.Equal(t, want, by, "%v", z)
	}
}

// The rim line bounds a room from below: wheel centres 300 over the ground, rims
// of 400, so 100; aired out by 100 and 120 the frame over the front axle stands
// 200 over the ground. A box of 100 under the front axle's line may have its
// middle no lower than 100 − 200 + 50 = −50.
func TestRoomOverTheRimLine(t *testing.T) {
	doc := bench(block("p", scene.Body, scene.Vec{0, 0, 100}, 1, 100, 100))
	m := compile(t, doc)
	r, err := m.RoomOf("p", RoomOptions{LoMM: [2]float64{-50, -200}, HiMM: [2]float64{50, 200}, CellMM: 1})
	require.NoError(t, err)
	for z, want := range map[float64]string{-48: "", -52: RimLineName, 100: ""} {
		by, _ := r.At(0, z)
		require.Equal(t, want, by, "%v", z)
	}
}

// Cutting a room into steps changes nothing, and its coarse picture comes first.
func TestRoomInSteps(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 5))
	for range 10 {
		m := compile(t, mendScene(r))
		whole, err := m.RoomOf("p", RoomOptions{})
		require.NoError(t, err)
		steps, err := m.NewRoom("p", RoomOptions{})
		require.NoError(t, err)
		require.True(t, steps.Rough())
		for !steps.Advance(7) {
		}
		require.False(t, steps.Rough())
		require.Equal(t, whole.blocked, steps.blocked)
	}
}

func TestRoomRefusesWhatMakesNoSense(t *testing.T) {
	m := compile(t, bench(block("p", scene.Body, scene.Vec{}, 10, 10, 10)))
	for _, o := range []RoomOptions{
		{CellMM: -1}, {CellMM: math.NaN()}, {LoMM: [2]float64{5, 5}, HiMM: [2]float64{0, 10}},
		{LoMM: [2]float64{-1e4, -1e4}, HiMM: [2]float64{1e4, 1e4}, CellMM: 0.1},
	} {
		_, err := m.NewRoom("p", o)
		require.Error(t, err, "%+v", o)
	}
	_, err := m.NewRoom("nobody", RoomOptions{})
	require.Error(t, err)
}

// rooms holds the rooms of random parts against sampled places: outside a band of
// one cell along the border each place is on the right side of it. What is thinner
// than a cell the map may miss, but only where the cell's middle is not of it.
func rooms(t *testing.T, parts, places int) {
	free, all, tried, proven, slivers := 0.0, 0, 0, 0, 0
	for seed := range uint64(parts) {
		r := rand.New(rand.NewPCG(17, seed))
		doc := mendScene(r)
		m := compile(t, doc)
		p := m.parts[m.index["p"]]
		half := 160.0
		o := RoomOptions{View: View(r.IntN(3))}
		u, w := o.View.axes()
		ref := p.part.AtMM
		o.LoMM, o.HiMM = [2]float64{ref[u] - half, ref[w] - half}, [2]float64{ref[u] + half, ref[w] + half}
		room, err := m.RoomOf("p", o)
		require.NoError(t, err)
		free += room.FreeShare()
		all++
		states := everyState(m, 8)
		for range places {
			to := ref
			to[u], to[w] = ref[u]+(2*r.Float64()-1)*(half-10), ref[w]+(2*r.Float64()-1)*(half-10)
			by, sharp := room.clearOfBorder(to[u], to[w])
			if !sharp {
				continue
			}
			tried++
			if shiftedShort(m, p, vec(to).Sub(vec(ref)), states) {
				if by == "" { // thinner than a cell: then the middle of its cell is free
					slivers++
					require.True(t, keepsAll(compile(t, movedTo(t, doc, room.middleOf(to, u, w))), "p"), "seed %d: %v falls short", seed, to)
				}
				continue
			}
			if by == "" && r.IntN(40) > 0 || by != "" && r.IntN(8) > 0 {
				continue
			}
			proven++
			mm := compile(t, movedTo(t, doc, to))
			if by == "" {
				require.Empty(t, shortOf(mm, "p"), "seed %d: %v", seed, to)
			} else if keepsAll(mm, "p") {
				slivers++
				require.False(t, keepsAll(compile(t, movedTo(t, doc, room.middleOf(to, u, w))), "p"), "seed %d: %v is free, the map says %s", seed, to, by)
			}
		}
	}
	free /= float64(all)
	t.Logf("%d rooms, %.0f %% free, %d places, %d of them checked whole, %d in pieces thinner than a cell", all, 100*free, tried, proven, slivers)
	require.LessOrEqual(t, slivers*1000, tried)
	require.Greater(t, free, 0.1)
	require.Less(t, free, 0.9)
	require.Greater(t, tried, parts*places/2)
}

// movedTo is a document with the part p elsewhere.
func movedTo(t *testing.T, doc *scene.Document, to scene.Vec) *scene.Document {
	t.Helper()
	moved, _, err := scene.MovePart(doc, "p", to)
	require.NoError(t, err)
	return moved
}

// middleOf is a place put into the middle of its cell.
func (r *Room) middleOf(to scene.Vec, u, w int) scene.Vec {
	for k, axis := range [2]int{u, w} {
		n := math.Floor((to[axis] - r.LoMM[k]) / r.CellMM)
		to[axis] = r.LoMM[k] + (n+0.5)*r.CellMM
	}
	return to
}

// clearOfBorder is what the map says of a place, and whether all cells beside it
// say the same of being free.
func (r *Room) clearOfBorder(u, w float64) (by string, sharp bool) {
	by, ok := r.At(u, w)
	if !ok {
		return by, false
	}
	for _, d := range [8]geom.Vec{{X: 1}, {X: -1}, {Y: 1}, {Y: -1}, {X: 1, Y: 1}, {X: -1, Y: -1}, {X: 1, Y: -1}, {X: -1, Y: 1}} {
		other, ok := r.At(u+d.X*r.CellMM, w+d.Y*r.CellMM)
		if !ok || (other == "") != (by == "") {
			return by, false
		}
	}
	return by, true
}

func TestRoomsAgainstSampledPlaces(t *testing.T) { rooms(t, 20, 400) }
