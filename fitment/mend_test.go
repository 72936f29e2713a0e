package fitment

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// mendScene is a random part among a few others, some of them on the rear axle,
// which heaves and rolls.
func mendScene(r *rand.Rand) *scene.Document {
	doc := bench()
	doc.Vehicle.Rear.CrossMM = 30
	num := func(lo, hi float64) float64 { return math.Round((lo+r.Float64()*(hi-lo))*10) / 10 }
	one := func(id string, on scene.Carrier, spread float64) scene.Part {
		at := scene.Vec{num(-spread, spread), num(-spread, spread), num(-spread, spread)}
		if on == scene.Body {
			at[0] += 3000
		}
		var p scene.Part
		switch r.IntN(3) {
		case 0:
			p = block(id, on, at, num(30, 200), num(30, 200), num(30, 200))
		case 1:
			p = part(id, "cylinder", on, at, map[string]float64{"length_mm": num(40, 260), "diameter_mm": num(20, 120)})
		default:
			p = part(id, "tube", on, at, map[string]float64{"length_mm": num(100, 400), "diameter_mm": num(15, 60)})
		}
		p.TurnDeg = scene.Vec{num(-180, 180), num(-90, 90), num(-180, 180)}
		if r.IntN(2) == 0 {
			p.TurnDeg = scene.Vec{}
		}
		return p
	}
	doc.Parts = append(doc.Parts, one("p", scene.Body, 20))
	for i := range 2 + r.IntN(4) {
		on := scene.Body
		if r.IntN(3) == 0 {
			on = scene.RearAxle
		}
		doc.Parts = append(doc.Parts, one(string(rune('a'+i)), on, 160))
	}
	return doc
}

// shortOf lists what a part falls short of: other parts by id, and the rim line.
func shortOf(m *Model, id string) (out []string) {
	r := m.Check()
	for _, f := range r.Findings {
		if f.A == id || f.B == id {
			out = append(out, f.A+" "+f.B)
		}
	}
	for _, g := range r.Ground {
		for _, b := range g.Below {
			if b.Part == id {
				out = append(out, "rim line")
			}
		}
	}
	return out
}

// applied is a document with a move taken.
func applied(t testing.TB, doc *scene.Document, id string, mv *MendMove) *scene.Document {
	t.Helper()
	out, _, err := scene.CarryParts(doc, doc.Together([]string{id}), mv.ByMM)
	if mv.TurnDeg != 0 {
		out, _, err = scene.TurnParts(doc, []string{id}, mv.Axis, mv.TurnDeg)
	}
	require.NoError(t, err)
	return out
}

// mends holds mends of random conflicts against what they promise: the moved
// part passes the check, and no sampled move that is shorter by more than two
// hundredths does.
func mends(t *testing.T, conflicts, tries int) {
	seen, moved, none, turns, partial, all := 0, 0, 0, 0, 0, tries
	for seed := uint64(0); seen < conflicts; seed++ {
		r := rand.New(rand.NewPCG(11, seed))
		doc := mendScene(r)
		m, tries := compile(t, doc), all
		got, err := m.Mend("p", MendOptions{})
		require.NoError(t, err)
		if got.Clear {
			require.Empty(t, shortOf(m, "p"))
			continue
		}
		require.NotEmpty(t, shortOf(m, "p"))
		seen++
		if got.Partial { // said, and promises nothing of what is smallest
			partial++
			tries = 0
		}
		if len(got.Moves) == 0 {
			none++
			require.NotEmpty(t, got.Blocks)
			sampledNone(t, seed, r, m, doc, got.LimitMM, tries)
			continue
		}
		moved++
		for i := range got.Moves {
			mv := &got.Moves[i]
			require.Empty(t, shortOf(compile(t, applied(t, doc, "p", mv)), "p"), "seed %d, move %d: %+v", seed, i, mv)
			if mv.TurnDeg != 0 {
				turns++
			}
		}
		if best := &got.Moves[0]; best.TurnDeg == 0 {
			require.Equal(t, !got.Partial, best.Free)
			sampledNone(t, seed, r, m, doc, best.SizeMM*0.98-2*roundMM, tries)
		}
	}
	t.Logf("%d conflicts: %d mended, %d turns, %d with no move, %d not tried to the end", seen, moved, turns, none, partial)
	require.LessOrEqual(t, partial*200, conflicts)
	require.Greater(t, moved*10, seen*6)
	require.Greater(t, turns, seen/10)
}

// sampledNone tries random moves up to a length: each must fall short.
func sampledNone(t *testing.T, seed uint64, r *rand.Rand, m *Model, doc *scene.Document, limit float64, tries int) {
	t.Helper()
	if limit <= 0 {
		return
	}
	states := everyState(m, 24)
	p := m.parts[m.index["p"]]
	for range tries {
		d := geom.V(r.NormFloat64(), r.NormFloat64(), r.NormFloat64()).Unit()
		by := d.Scale(limit * math.Cbrt(r.Float64()))
		if r.IntN(3) == 0 {
			by = d.Scale(limit * 0.999)
		}
		if shiftedShort(m, p, by, states) {
			continue
		}
		moved, _, err := scene.MovePart(doc, "p", unvec(vec(p.part.AtMM).Add(by)))
		require.NoError(t, err)
		require.False(t, keepsAll(compile(t, moved), "p"), "seed %d: a move of %v, %.3f long, is free", seed, by, by.Len())
	}
}

// keepsAll says whether a part is proven to keep all its needs, with the margin
// that a mend keeps to spare. The check itself passes a pair whose least gap
// found is enough although its bound is a tenth of a millimetre less.
func keepsAll(m *Model, id string) bool {
	if len(shortOf(m, id)) > 0 {
		return false
	}
	s := m.newStudy(id, 1)
	here := s.at(geom.Still)
	for _, w := range s.walls {
		if here.near(w, w.need+marginMM) && here.search(w, w.need+marginMM, true).Bound < w.need+marginMM {
			return false
		}
	}
	return true
}

// shiftedShort says whether a part moved by a way falls short in one of some
// states.
func shiftedShort(m *Model, p *placed, by geom.Vec, states []State) bool {
	for j, o := range m.parts {
		if o == p {
			continue
		}
		first, second := p, o
		if j < m.index[p.part.ID] {
			first, second = o, p
		}
		need := m.needs.between(first.compiled, second.compiled, m.moveApart(first, second)).mm
		at := geom.Pose{R: geom.Identity, P: by}
		for _, st := range states {
			for i := range p.items[0].solids {
				x := p.items[0].solids[i].Moved(&at)
				y := m.solidAt(&o.items[0], 0, st)
				if gap.Between(&x, &y).Gap < need-0.001 {
					return true
				}
			}
		}
	}
	return false
}

func TestMendsAreSmallestAndPass(t *testing.T) { mends(t, 60, 60) }

// Parts that move together and fall short of each other are said; a mate on
// another carrier stays where it is and is kept clear of.
func TestMendsOfGroups(t *testing.T) {
	doc := bench(
		block("p", scene.Body, scene.Vec{1500, 0, 300}, 100, 100, 100),
		block("q", scene.Body, scene.Vec{1500, 90, 300}, 100, 100, 100))
	doc.Groups = []scene.Group{{ID: "g", Name: "g", Parts: []string{"p", "q"}}}
	m := compile(t, doc)
	d, err := m.Mend("p", MendOptions{})
	require.NoError(t, err)
	require.False(t, d.Clear)
	require.Empty(t, d.Moves)
	require.Equal(t, [][2]string{{"p", "q"}}, d.Within)
	require.Contains(t, NewWords(doc).MendTitle(d), "take their group apart")

	doc.Parts[1] = block("q", scene.RearAxle, scene.Vec{-1500, 90, 300}, 100, 100, 100)
	m = compile(t, doc)
	d, err = m.Mend("p", MendOptions{NoTurns: true})
	require.NoError(t, err)
	require.Empty(t, d.With)
	require.NotEmpty(t, d.Moves)
	for i := range d.Moves {
		moved, _, err := scene.CarryParts(doc, []string{"p"}, d.Moves[i].ByMM)
		require.NoError(t, err)
		require.Empty(t, shortOf(compile(t, moved), "p"))
	}
}

// A mate that a movement of the group's own moves against the part goes along:
// a battery that is lifted out takes its tray with it.
func TestAMendTakesTheTrayAlong(t *testing.T) {
	d, err := vanModel(t).Mend("battery", MendOptions{})
	require.NoError(t, err)
	require.Equal(t, []string{"tray_battery"}, d.With)
	require.NotEmpty(t, d.Moves)
}

// A move says which joints it takes apart, and how far: the tail pipe's flange
// goes 169 to the right of the muffler's, less what both are wide.
func TestAMendSaysWhichJointsComeApart(t *testing.T) {
	m := open(t, "bakery-van.json")
	d, err := m.Mend("tail_pipe", MendOptions{Axes: [3]bool{false, true, false}, NoTurns: true})
	require.NoError(t, err)
	require.NotEmpty(t, d.Moves)
	w := NewWords(m.Doc)
	for i := range d.Moves {
		mv := &d.Moves[i]
		require.NotEmpty(t, mv.Parts)
		moved := compile(t, applied(t, m.Doc, "tail_pipe", mv))
		for _, p := range mv.Parts {
			g, err := moved.GapBetween("tail_pipe", p.Part, State{})
			require.NoError(t, err)
			require.InDelta(t, g.GapMM, p.GapMM, near, p.Part)
			require.Contains(t, d.Joined, p.Part)
		}
		require.Contains(t, w.MendFollows(d, mv), "It comes away from ")
		require.Contains(t, w.MendFollows(d, mv), "make that anew")
		held(t, "mend.schema.json", m.MendJSON(d))
	}

	// A tank goes with its straps: they are no joint that comes apart.
	d, err = m.Mend("air_tank", MendOptions{})
	require.NoError(t, err)
	for _, p := range d.Moves[0].Parts {
		require.NotContains(t, p.Part, "strap")
	}
}
