package fitment

import (
	"fmt"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"scrubline/scene"
)

// groupKeys are a report's groups, each as the sorted pairs that are in it.
func groupKeys(fs []Finding, groups []Group) (out []string) {
	for _, g := range groups {
		var keys []string
		for _, i := range g.Findings {
			pair := ordered(fs[i].A, fs[i].B)
			keys = append(keys, pair[0]+"+"+pair[1]+map[bool]string{true: "!", false: ""}[fs[i].Service != ""])
		}
		sort.Strings(keys)
		out = append(out, strings.Join(keys, " "))
	}
	return out
}

// beam is a bar along X with its middle at (0, y, z), 40 square.
func beam(id string, y, z float64) scene.Part {
	return block(id, scene.Body, scene.Vec{0, y, z}, 400, 40, 40)
}

func line(id, kind string, y, z float64) scene.Part {
	p := part(id, kind, scene.Body, scene.Vec{0, y, z}, nil)
	p.Size = beam("x", 0, 0).Size
	return p
}

// What is one thing, and what is not: parts a hand's breadth long, the gaps
// read off their places (derivation: faces are 20 from a beam's middle).
func TestGathering(t *testing.T) {
	five := func(ids ...string) []scene.Part { // a slab on top of beams, 1 above them
		list := []scene.Part{block("slab", scene.Body, scene.Vec{0, 0, 31}, 400, 2000, 20)}
		for i, id := range ids {
			list = append(list, beam(id, float64(100*i), 0))
		}
		return list
	}
	for name, c := range map[string]struct {
		parts []scene.Part
		edit  func(*scene.Document)
		want  []string
	}{
		"strangers stay apart": {five("a", "b"), nil, []string{"a+slab", "b+slab"}},
		"left and right by id": {five("iron_l", "iron_r", "x"), nil, []string{"iron_l+slab iron_r+slab", "slab+x"}},
		"left and right by place": {[]scene.Part{block("slab", scene.Body, scene.Vec{0, 0, 31}, 400, 2000, 20),
			beam("one", -70, 0), beam("two", 70, 0)}, nil, []string{"one+slab slab+two"}},
		"a left that touches is no right that is close": {append(five("iron_l"), beam("iron_r", 100, 3)), nil, []string{"iron_r+slab", "iron_l+slab"}},
		"a group of the document": {five("a", "b", "c"), func(d *scene.Document) {
			d.Groups = []scene.Group{{ID: "g", Name: "g", Parts: []string{"a", "c"}}}
		}, []string{"a+slab c+slab", "b+slab"}},
		"joined into one": {five("tank", "strap"), func(d *scene.Document) {
			d.Joined = []scene.Joined{{A: "strap", B: "tank", Why: "carries it"}}
		}, []string{"slab+strap slab+tank"}},
		"joined, but at the other end": {[]scene.Part{block("slab", scene.Body, scene.Vec{0, 0, 31}, 3000, 2000, 20),
			block("a", scene.Body, scene.Vec{-900, 0, 0}, 40, 40, 40), block("b", scene.Body, scene.Vec{900, 0, 0}, 40, 40, 40)},
			func(d *scene.Document) { d.Joined = []scene.Joined{{A: "a", B: "b", Why: "one frame"}} }, []string{"a+slab", "b+slab"}},
	} {
		t.Run(name, func(t *testing.T) {
			doc := bench(c.parts...)
			if c.edit != nil {
				c.edit(doc)
			}
			m := compile(t, doc)
			got := groupKeys(m.Check().Findings, m.Groups())
			require.ElementsMatch(t, c.want, got)
		})
	}
}

// A hot pipe over three lines side by side is one thing, over two that run a
// metre apart it is two.
func TestGatheringBundles(t *testing.T) {
	fs := []Finding{{A: "pipe", B: "fuel"}, {A: "pipe", B: "brake"}, {A: "loom", B: "pipe"}, {A: "pipe", B: "floor"}}
	doc := bench(block("pipe", scene.Body, scene.Vec{}, 1, 1, 1), block("floor", scene.Body, scene.Vec{}, 1, 1, 1),
		line("fuel", "fuel_line", 0, 0), line("brake", "brake_line", 0, 0), line("loom", "wiring", 0, 0))
	near := func(a, b string) bool { return ordered(a, b) != ordered("fuel", "loom") }
	require.Equal(t, []Group{{[]int{0, 1, 2}}, {[]int{3}}}, gather(doc, fs, near))
	require.Len(t, gather(doc, fs, func(a, b string) bool { return false }), 4)
}

// What is clipped to a rail is one thing with it, unless its caution is another.
func TestGatheringKeepsCautionsApart(t *testing.T) {
	doc := bench(beam("arm", 0, 0), beam("rail", 0, 0), line("line", "air_line", 0, 0))
	doc.Joined = []scene.Joined{{A: "line", B: "rail", Why: "clipped to it"}}
	fs := []Finding{{A: "arm", B: "rail", NeedMM: 25}, {A: "arm", B: "line", NeedMM: 25}}
	never := func(a, b string) bool { return false }
	require.Len(t, gather(doc, fs, never), 1)
	fs[1].Caution = "Fuel burns."
	require.Len(t, gather(doc, fs, never), 2)
}

// The small scenes: testdata/scenes/README.md says what falls short in them.
func TestGatheringScenes(t *testing.T) {
	m := open(t, "mirrored-pair.json")
	r := m.Check()
	require.Equal(t, []string{"spring_left+wall_left spring_right+wall_right"}, groupKeys(r.Findings, m.Groups()))
	more := NewWords(m.Doc).GroupMore(r, m.Groups()[0])
	require.Contains(t, more, "and 1 more like it: ")
	require.Contains(t, more, "4 deep")

	m = open(t, "joined-bracket.json")
	require.Len(t, m.Groups(), 1)

	m = open(t, "nothing-falls-short.json")
	require.Empty(t, m.Groups())
}

// Sentences say what, by how much, when and the need; figures by hand in
// testdata/scenes/README.md.
func TestSentences(t *testing.T) {
	say := func(file string) string {
		m := open(t, file)
		f := &m.Check().Findings[0]
		return NewWords(m.Doc).GroupText(m.Check(), m.Groups()[0], m.Spans(f))
	}
	require.Regexp(t, `^The .* touch as the body airs out: 4 deep aired out, needs 25$`, say("spring-grows.json"))
	require.Regexp(t, `^The .* and the .* are too close.*: 11\.6 apart .*, needs 25$`, say("driveshaft-tunnel.json"))
	require.Regexp(t, `^The .* touch only when .*steered: 4\.3 deep .*steered 30° to the right, needs 15$`, say("wheel-full-lock.json"))
	require.Regexp(t, `^The .* touch: 5 deep at every height, needs 3$`, say("joined-bracket.json"))
	require.Regexp(t, `^No room for lifting the lid \(.*\): the .* reaches 50 into its room at every height$`, say("service-room-blocked.json"))

	at := func(spans ...Span) string {
		return NewWords(bench()).when(&Finding{Status: Tight}, Spans{Short: spans, LevelShort: spans})
	}
	low, ride, high, half := Level{-100, -120}, Level{}, Level{50, 60}, Level{-50, -60}
	require.Equal(t, " at every height", at(Span{low, high}))
	require.Equal(t, " as the body airs out", at(Span{low, half}))
	require.Equal(t, " as the body airs up", at(Span{Level{25, 30}, high}))
	require.Equal(t, " with the rear from 0 up", at(Span{ride, high}))
	require.Equal(t, " with the rear from 0 down", at(Span{low, ride}))
	require.Equal(t, " with the rear from −60 to 0", at(Span{half, ride}))
	require.Equal(t, " with the rear from −60 down and from 0 up", at(Span{low, half}, Span{ride, high}))
	require.Empty(t, at())

	doc := bench(block("seat", scene.Body, scene.Vec{}, 10, 10, 10), block("wall", scene.Body, scene.Vec{}, 10, 10, 10))
	doc.Movements = []scene.Movement{{ID: "track", Name: "On its track", Kind: scene.Slide, From: 0, To: 40}}
	doc.Parts[0].Moves, doc.Parts[0].Name, doc.Parts[1].Name = []string{"track"}, "Seat, front left", "Wall 2"
	f := &Finding{A: "seat", B: "wall", Status: Contact, GapMM: -3, NeedMM: 5}
	f.At.Moves[0] = 40
	whole := []Span{{Level{-100, -120}, Level{50, 60}}}
	what, figures := NewWords(doc).Sentence(f, Spans{Touch: whole, Short: whole})
	require.Equal(t, "The front left seat and wall 2 touch only when the front left seat is slid", what)
	require.Equal(t, "3 deep at ride, front left seat slid +40, needs 5", figures)
}

func TestNamesInSentences(t *testing.T) {
	for name, want := range map[string]string{
		"Rear air spring, right": "the right rear air spring", "Cab floor": "the cab floor", "Compressor 1": "compressor 1",
		"Engine, inline six": "the engine, inline six", "ABS unit": "the ABS unit", "The old tank": "the old tank",
		"Wheel house, inner side, left": "the left wheel house, inner side", "": "", "Ida's box": "ida's box", ", left": "the , left",
	} {
		require.Equal(t, want, The(name), name)
	}
	w := NewWords(&scene.Document{Parts: []scene.Part{{ID: "a", Name: "Frame rail, left"}, {ID: "b", Name: "Engine, inline six"}, {ID: "c"}}})
	require.Equal(t, "Left frame rail and engine, inline six", w.Pair("a", "b"))
	require.Equal(t, "c and left frame rail", w.Pair("c", "a"), "an id stays as it is")
	require.Equal(t, "left frame rail and c", w.list([]string{"a", "c"}))
	require.Equal(t, "left frame rail; engine, inline six; and c", w.list([]string{"a", "b", "c"}), "what belongs to a name is no name")
	for id, want := range map[string]string{"spring_rl": "spring_rr", "seat-left": "seat-right", "mount_2l": "mount_2r", "rail_r": "rail_l",
		"roller": "roller", "fuel_cell": "fuel_cell", "": ""} {
		require.Equal(t, want, acrossID(id), id)
		require.Equal(t, id, acrossID(acrossID(id)))
	}
}

// Whatever the document: each finding is in exactly one group, groups stand in
// the findings' order, and the order and the names of the parts do not matter.
func TestGatheringAnything(t *testing.T) {
	ids := []string{"a_l", "a_r", "b_fl", "b_fr", "c", "d", "e_left", "e_right", "f", "g"}
	kinds := []string{"box", "fuel_line", "wiring"}
	folded := 0
	rapid.Check(t, func(t *rapid.T) {
		doc, joins := bench(), map[[2]string]bool{}
		for _, id := range ids {
			p := part(id, rapid.SampledFrom(kinds).Draw(t, "kind"), scene.Body, scene.Vec{0, float64(rapid.IntRange(-3, 3).Draw(t, "y")) * 50, 0}, nil)
			doc.Parts = append(doc.Parts, p)
		}
		perm := rapid.Permutation(ids).Draw(t, "grouped")
		if n := rapid.IntRange(1, 4).Draw(t, "in a group"); n > 1 {
			doc.Groups = []scene.Group{{ID: "one", Parts: perm[:n]}}
		}
		pick := rapid.SampledFrom(ids)
		for range rapid.IntRange(0, 5).Draw(t, "joins") {
			if a, b := pick.Draw(t, "a"), pick.Draw(t, "b"); a != b && !joins[ordered(a, b)] {
				joins[ordered(a, b)] = true
				doc.Joined = append(doc.Joined, scene.Joined{A: a, B: b})
			}
		}
		var fs []Finding
		seen := map[string]bool{}
		for range rapid.IntRange(0, 12).Draw(t, "findings") {
			f := Finding{A: pick.Draw(t, "a"), B: pick.Draw(t, "b"), Status: rapid.SampledFrom([]Status{Contact, Tight}).Draw(t, "status"),
				NeedMM: float64(rapid.IntRange(1, 2).Draw(t, "need"))}
			f.PointsMM[0][0] = rapid.Float64Range(-900, 900).Draw(t, "place")
			if key := fmt.Sprint(ordered(f.A, f.B)); f.A != f.B && !seen[key] {
				seen[key] = true
				fs = append(fs, f)
			}
		}
		near := func(a, b string) bool { return (len(a)+len(b))%2 == 0 }
		groups := gather(doc, fs, near)
		in, last := map[int]bool{}, -1
		for _, g := range groups {
			require.True(t, slices.IsSorted(g.Findings))
			require.Greater(t, g.Findings[0], last)
			last = g.Findings[0]
			for _, i := range g.Findings {
				require.False(t, in[i], "in two groups")
				in[i] = true
			}
		}
		require.Len(t, in, len(fs))
		folded += len(fs) - len(groups)

		other := *doc
		other.Parts = rapid.Permutation(doc.Parts).Draw(t, "parts")
		for i := range other.Parts {
			other.Parts[i].Name = rapid.SampledFrom([]string{"Left", "Thing, right", ""}).Draw(t, "name")
		}
		turned := rapid.Permutation(fs).Draw(t, "order")
		for i := range turned {
			if rapid.Bool().Draw(t, "turn over") {
				turned[i].A, turned[i].B = turned[i].B, turned[i].A
			}
		}
		require.ElementsMatch(t, groupKeys(fs, groups), groupKeys(turned, gather(&other, turned, near)))
	})
	require.Positive(t, folded, "nothing was ever gathered")
}
