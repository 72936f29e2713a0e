package scene

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// squareBoxes measures parts that are not turned, by the extents of their
// shapes: what the engine does for every part.
func squareBoxes(doc *Document, id string) (lo, hi Vec, ok bool) {
	i, err := doc.partAt(id)
	if err != nil {
		return lo, hi, false
	}
	p := &doc.Parts[i]
	m := newMeasure()
	for _, s := range KindNamed(p.Kind).Form(p.Size, &doc.Vehicle, p.Carrier) {
		if _, room := s.(Room); !room {
			m.reach(nil, s)
		}
	}
	at := p.AtMM.add(doc.Vehicle.origin(p.Carrier))
	return m.lo.add(at), m.hi.add(at), m.hi[0] >= m.lo[0]
}

// blocks is a vehicle with nothing on it but boxes of 100 × 60 × 40 mm, called
// a, b, c …
func blocks(t testing.TB, at ...Vec) *Document {
	t.Helper()
	doc := New()
	doc.Show = Millimetres
	doc.Parts, doc.Joined, doc.Needs, doc.Groups, doc.Movements = nil, nil, nil, nil, nil
	for i, v := range at {
		doc = add(t, doc, "box", v)
		p := newest(doc)
		p.ID, p.Name = string(rune('a'+i)), "Block "+string(rune('A'+i))
		p.Size["length_mm"], p.Size["width_mm"], p.Size["height_mm"] = Value{Num: 100}, Value{Num: 60}, Value{Num: 40}
	}
	doc.Unmeasured = nil
	require.NoError(t, doc.Validate())
	return doc
}

// must is a document after an edit that goes through.
func must(t testing.TB) func(doc *Document, label string, err error) *Document {
	return func(doc *Document, _ string, err error) *Document {
		t.Helper()
		require.NoError(t, err)
		require.NoError(t, doc.Validate())
		return doc
	}
}

func ats(doc *Document) (list []Vec) {
	for i := range doc.Parts {
		list = append(list, doc.Parts[i].AtMM)
	}
	return list
}

func TestLiningUp(t *testing.T) {
	doc := blocks(t, Vec{0, 0, 0}, Vec{300, 50, 20}, Vec{900, -70, 10})
	doc.Parts[1].Size["width_mm"] = Value{Num: 100}
	for _, c := range []struct {
		line Line
		y    float64 // of b: its half width is 50, a's is 30
	}{{LowEdges, -30 + 50}, {Middles, 0}, {HighEdges, 30 - 50}} {
		got, label, err := AlignParts(doc, []string{"a", "b"}, 1, c.line, squareBoxes)
		require.NoError(t, err)
		assert.Equal(t, "lined up 2 parts", label)
		assert.Equal(t, []Vec{{0, 0, 0}, {300, c.y, 20}, {900, -70, 10}}, ats(got), "%s: the first stays, and so does what is not picked", c.line)
	}
	_, _, err := AlignParts(doc, []string{"a"}, 1, Middles, squareBoxes)
	require.ErrorContains(t, err, "two parts or more")
}

func TestSpacingEvenly(t *testing.T) {
	// Blocks of 100 with outer faces at −50 and 1050: three gaps of (1100 − 400)/3.
	doc := blocks(t, Vec{1000, 0, 0}, Vec{120, 0, 0}, Vec{0, 0, 0}, Vec{130, 9, 0})
	got := must(t)(SpaceParts(doc, []string{"a", "b", "c", "d"}, 0, squareBoxes))
	gap := (1100.0 - 400) / 3
	want := []float64{1000, 100 + gap, 0, 200 + 2*gap}
	for i, p := range got.Parts {
		assert.InDelta(t, want[i], p.AtMM[0], 1e-6)
	}
	assert.Equal(t, 9.0, got.Parts[3].AtMM[1], "only along the one axis")
	_, _, err := SpaceParts(blocks(t, Vec{0, 0, 0}, Vec{50, 0, 0}, Vec{150, 0, 0}), []string{"a", "b", "c"}, 0, squareBoxes)
	require.EqualError(t, err, "they are 50 mm too long together to stand side by side there")
	_, _, err = SpaceParts(doc, []string{"a", "b"}, 0, squareBoxes)
	require.ErrorContains(t, err, "three parts or more")
}

func TestAGroupIsTakenAlong(t *testing.T) {
	doc := blocks(t, Vec{0, 0, 0}, Vec{300, 50, 0}, Vec{400, 60, 0}, Vec{700, 0, 0})
	doc = must(t)(MakeGroup(doc, []string{"b", "c"}, ""))
	assert.Equal(t, "Block B and more", doc.GroupOf("c").Name)
	assert.Equal(t, []string{"c", "b"}, doc.Together([]string{"c"}))
	got := must(t)(AlignParts(doc, []string{"a", "b"}, 1, Middles, squareBoxes))
	assert.Equal(t, []Vec{{0, 0, 0}, {300, 0, 0}, {400, 10, 0}, {700, 0, 0}}, ats(got))
	_, label, err := MoveParts(doc, doc.Together([]string{"b"}), Vec{0, 0, 5})
	require.NoError(t, err)
	assert.Equal(t, "moved Block B and more", label)
}

func TestGroupsComeAndGo(t *testing.T) {
	doc := blocks(t, Vec{}, Vec{200, 0, 0}, Vec{400, 0, 0}, Vec{600, 0, 0})
	doc = must(t)(MakeGroup(doc, []string{"a", "b", "c"}, "Air set"))
	doc = must(t)(RenameGroup(doc, "air-set", "Rear air set"))
	two := must(t)(MakeGroup(doc, []string{"c", "d"}, "Air set"))
	assert.Equal(t, []Group{{"air-set", "Rear air set", []string{"a", "b"}}, {"air-set-2", "Air set", []string{"c", "d"}}}, two.Groups)
	again, err := Decode(Encode(two))
	require.NoError(t, err)
	assert.Equal(t, two, again)
	less := must(t)(RemovePart(two, "d"))
	assert.Equal(t, two.Groups[:1], less.Groups, "one part is no group")
	assert.Empty(t, must(t)(Ungroup(doc, "air-set")).Groups)
	_, _, err = MakeGroup(doc, []string{"a", "a"}, "")
	require.ErrorContains(t, err, "two parts or more")
	assert.NotContains(t, string(Encode(blocks(t, Vec{}))), "groups")
}

func TestALockedPartStays(t *testing.T) {
	doc := blocks(t, Vec{0, 0, 0}, Vec{300, 0, 0})
	doc = must(t)(SetLocked(doc, "a", true))
	again, err := Decode(Encode(doc))
	require.NoError(t, err)
	assert.Equal(t, doc, again)
	for name, edit := range map[string]func() (*Document, string, error){
		"move":     func() (*Document, string, error) { return MovePart(doc, "a", Vec{1, 0, 0}) },
		"moveAll":  func() (*Document, string, error) { return MoveParts(doc, []string{"b", "a"}, Vec{1, 0, 0}) },
		"position": func() (*Document, string, error) { return SetField(doc, "part:a", "at_x", "1") },
		"turn":     func() (*Document, string, error) { return SetField(doc, "part:a", "turn_z", "1") },
		"turn90":   func() (*Document, string, error) { return TurnParts(doc, []string{"a"}, 2, 90) },
		"ride":     func() (*Document, string, error) { return SetField(doc, "part:a", "carrier", "rear_axle") },
		"align":    func() (*Document, string, error) { return AlignParts(doc, []string{"b", "a"}, 0, Middles, squareBoxes) },
		"delete":   func() (*Document, string, error) { return RemovePart(doc, "a") },
	} {
		_, _, err := edit()
		assert.EqualError(t, err, "Block A is locked in its place: unlock it first", name)
	}
	must(t)(SetField(doc, "part:a", "length_mm", "90"))
	assert.Equal(t, []Vec{{300, 0, 0}, {300, 0, 0}}, ats(must(t)(AlignParts(blocks(t, Vec{300, 0, 0}, Vec{}), []string{"a", "b"}, 0, Middles, squareBoxes))))
	free := must(t)(SetLocked(doc, "a", false))
	must(t)(MovePart(free, "a", Vec{1, 0, 0}))
	assert.False(t, newest(must(t)(DuplicatePart(doc, "a"))).Locked)
	assert.False(t, newest(must(t)(MirrorPart(doc, "a"))).Locked)
}

func TestQuarterTurnsAreExact(t *testing.T) {
	doc := blocks(t, Vec{100, 200, 300}, Vec{400, 200, 300})
	// About the upright axis, right-handed: what lies behind goes to the right.
	got := must(t)(TurnParts(doc, []string{"a", "b"}, 2, 90))
	assert.Equal(t, []Vec{{100, 200, 300}, {100, 500, 300}}, ats(got))
	assert.Equal(t, Vec{0, 0, 90}, got.Parts[1].TurnDeg)
	back := got
	for range 3 {
		back = must(t)(TurnParts(back, []string{"a", "b"}, 2, 90))
	}
	assert.Equal(t, string(Encode(doc)), string(Encode(back)), "four quarters are none")
}

// A turn about a body axis of a part that is turned already is the product of
// the two rotations, R' = R(axis)·Rz·Ry·Rx (from the definition of TurnDeg).
func TestTurnsMultiply(t *testing.T) {
	worst := 0.0
	rapid.Check(t, func(t *rapid.T) {
		deg := func(n string) float64 {
			return rapid.OneOf(rapid.Float64Range(-180, 180), rapid.SampledFrom([]float64{0, 90, -90, 180, 45})).Draw(t, n)
		}
		was, axis, by := Vec{deg("roll"), deg("pitch"), deg("yaw")}, rapid.IntRange(0, 2).Draw(t, "axis"), deg("by")
		a, b := about(axis, by), turnOf(was)
		want, got := a.times(&b), turnOf(turned(was, axis, by))
		for i := range want {
			worst = math.Max(worst, want[i].sub(got[i]).len())
			if want[i].sub(got[i]).len() > 1e-7 { // a millionth of a degree is 1.7e-8
				t.Fatalf("%v turned by %v about %d is %v", was, by, axis, turned(was, axis, by))
			}
		}
	})
	require.Positive(t, worst)
}

// A hinge's point lies on the part it carries: it goes where that goes, unless
// the movement carries something else that stays.
func TestAHingeGoesWithItsPart(t *testing.T) {
	doc := blocks(t, Vec{100, 200, 300}, Vec{400, 0, 0})
	doc = must(t)(AddMovement(doc, "a", Hinge))
	doc = set(t, doc, "movement:block-a-swings", "at_mm/2", "320")
	for name, edit := range map[string]func(*Document) (*Document, string, error){
		"move":     func(d *Document) (*Document, string, error) { return MovePart(d, "a", Vec{150, 190, 305}) },
		"moveAll":  func(d *Document) (*Document, string, error) { return MoveParts(d, []string{"a", "b"}, Vec{50, -10, 5}) },
		"position": func(d *Document) (*Document, string, error) { return SetField(d, "part:a", "at_x", "150") },
	} {
		got := must(t)(edit(doc))
		way := got.Parts[0].AtMM.sub(doc.Parts[0].AtMM)
		assert.Equal(t, doc.Movements[0].AtMM.add(way), got.Movements[0].AtMM, name)
		assert.Equal(t, Vec{100, 200, 320}, doc.Movements[0].AtMM, "the document before is untouched")
	}
	quarter := must(t)(TurnParts(doc, []string{"a"}, 2, 90))
	assert.Equal(t, Vec{100, 200, 320}, quarter.Movements[0].AtMM)
	assert.Equal(t, Vec{-1, 0, 0}, quarter.Movements[0].Axis, "an axis across turns to the front")

	shared := set(t, doc, "part:b", "moves", "block-a-swings")
	stays := must(t)(MovePart(shared, "a", Vec{150, 190, 305}))
	assert.Equal(t, doc.Movements, stays.Movements, "it carries another part that stays")
	both := must(t)(MoveParts(shared, []string{"a", "b"}, Vec{50, -10, 5}))
	assert.Equal(t, Vec{150, 190, 325}, both.Movements[0].AtMM)
}

func TestCopiesOfSeveral(t *testing.T) {
	doc := blocks(t, Vec{0, 100, 0}, Vec{300, 200, 0})
	got, label, err := MirrorParts(doc, []string{"a", "b"})
	require.NoError(t, err)
	assert.Equal(t, "mirrored 2 parts", label)
	assert.Equal(t, []Vec{{0, 100, 0}, {300, 200, 0}, {0, -100, 0}, {300, -200, 0}}, ats(got))
	got = must(t)(DuplicateParts(doc, []string{"a", "b"}))
	assert.Equal(t, []Vec{{0, 100, 0}, {300, 200, 0}, {100, 100, 0}, {400, 200, 0}}, ats(got))
}

// Whatever is grouped, measured, moved and deleted: the document is valid, and
// opened it is the same. Every number is what the tape reads.
func TestAnyOrderOfArrangingLeavesSense(t *testing.T) {
	done := 0
	rapid.Check(t, func(t *rapid.T) {
		doc := New()
		for range rapid.IntRange(1, 8).Draw(t, "edits") {
			next, _, err := randomArranging(t, doc)
			if err != nil {
				continue
			}
			follow := rapid.Bool().Draw(t, "follow")
			if settled, err := Settle(doc, next, squareBoxes, follow); err == nil {
				next = settled
				done++
			}
			doc = next
			fixedPoint(t, doc)
		}
		for i := range doc.Parts {
			for _, m := range doc.Parts[i].MeasuredFrom {
				if mm, _ := Reading(doc, doc.Parts[i].ID, &m, squareBoxes); math.Abs(mm-m.MM) > 1e-5 {
					t.Fatalf("%s says %v from %s, and the tape reads %v", doc.Parts[i].Name, m.MM, doc.fromWords(&m), mm)
				}
			}
		}
		again, err := Decode(Encode(doc))
		if err != nil || !bytes.Equal(Encode(again), Encode(doc)) {
			t.Fatalf("opened, it is another document: %v", err)
		}
	})
	require.Greater(t, done, 100)
}

// randomArranging is one edit of groups, locks, references and places.
func randomArranging(t *rapid.T, doc *Document) (*Document, string, error) {
	if len(doc.Parts) < 3 {
		return AddPart(doc, "box", Vec{})
	}
	some := func(label string) string {
		return doc.Parts[rapid.IntRange(0, len(doc.Parts)-1).Draw(t, label)].ID
	}
	p, q := some("part"), some("other")
	axis := rapid.IntRange(0, 2).Draw(t, "axis")
	switch rapid.IntRange(0, 9).Draw(t, "arranging") {
	case 0:
		return MakeGroup(doc, []string{p, q, some("third")}, rapid.String().Draw(t, "name"))
	case 1:
		return SetLocked(doc, p, rapid.Bool().Draw(t, "on"))
	case 2, 3:
		m := Measured{Axis: axis, Part: q, Face: rapid.SampledFrom(Faces).Draw(t, "face"), To: rapid.SampledFrom(Faces).Draw(t, "to")}
		if rapid.Bool().Draw(t, "datum") {
			m.Part, m.Face, m.Datum = "", "", rapid.SampledFrom(DatumsAlong(axis)).Draw(t, "which")
		}
		return MeasureFrom(doc, p, m, squareBoxes)
	case 4:
		return RemovePart(doc, p)
	case 5:
		return SetField(doc, "vehicle", "rear/frame_height", fmt.Sprint(rapid.IntRange(100, 400).Draw(t, "height")))
	case 6:
		return MirrorPart(doc, p)
	case 7:
		return DuplicatePart(doc, p)
	}
	return MoveParts(doc, doc.Together([]string{p}), Vec{rapid.Float64Range(-300, 300).Draw(t, "x"), 0, rapid.Float64Range(-50, 50).Draw(t, "z")})
}

// A hinge that carries a whole group goes along with its turn whatever the angle:
// the images its parts give of it differ by their rounding alone.
func TestAHingeGoesAlongWithATurnedGroup(t *testing.T) {
	doc := add(t, add(t, New(), "box", Vec{1000, 300, 400}), "box", Vec{1100, 333.3, 411.1})
	a, b := doc.Parts[len(doc.Parts)-2].ID, doc.Parts[len(doc.Parts)-1].ID
	doc, _, err := AddMovement(doc, a, Hinge)
	if err != nil {
		t.Fatal(err)
	}
	c := *doc
	c.Parts = append([]Part(nil), doc.Parts...)
	c.Parts[len(c.Parts)-1].Moves = append([]string(nil), c.Parts[len(c.Parts)-2].Moves...)
	for axis := range 3 {
		for deg := 0.7; deg < 180; deg += 7.123 {
			turned, _, err := TurnParts(&c, []string{a, b}, axis, deg)
			if err != nil {
				t.Fatal(err)
			}
			was, is := &c.Movements[0], &turned.Movements[0]
			m := about(axis, deg)
			want := m.apply(was.Axis)
			for k := range want {
				if d := is.Axis[k] - want[k]; d > 1e-5 || d < -1e-5 {
					t.Fatalf("axis %d by %g: the hinge points along %v, want %v", axis, deg, is.Axis, want)
				}
			}
		}
	}
}
