package scene

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A part is measured from each kind of datum; the numbers are worked out from
// the vehicle by hand: wheelbase 3000, frame 200 and 260 over the ground, tyres
// of 640 that stand 8 lower under load.
func TestReadingsFromEveryDatum(t *testing.T) {
	doc := blocks(t, Vec{2100, -150, 90}, Vec{1500, -400, 60})
	v := &doc.Vehicle
	v.WheelbaseMM = 3000
	v.Front.Tyre, v.Rear.Tyre = Tyre{DiameterMM: 640, WidthMM: 225, RimMM: 440, DeflectionMM: 8}, Tyre{DiameterMM: 640, WidthMM: 225, RimMM: 440, DeflectionMM: 8}
	v.Front.FrameHeightMM, v.Rear.FrameHeightMM = 200, 260
	upright := math.Sqrt(1 - 0.02*0.02) // the frame rises by 60 in 3000
	wheel := 312.0                      // 640/2 − 8 over the ground
	for _, c := range []struct {
		m    Measured
		want float64
	}{
		{Measured{Axis: 0, Datum: FromFrontAxle, To: Point}, 2100},
		{Measured{Axis: 0, Datum: FromRearAxle, To: Point}, -900},
		{Measured{Axis: 0, Datum: FromRearAxle, To: High}, -850},
		{Measured{Axis: 1, Datum: FromCentre, To: Low}, -180},
		{Measured{Axis: 2, Datum: FromFrame, To: Low}, 70},
		{Measured{Axis: 2, Datum: FromGround, To: Low}, 200 + 0.02*2100 + upright*70},
		{Measured{Axis: 2, Datum: FromFrontAxle, To: Point}, 90 - (wheel-200)/upright},
		{Measured{Axis: 2, Datum: FromRearAxle, To: Point}, 90 - (wheel-260)/upright},
		{Measured{Axis: 0, Part: "b", Face: High, To: Low}, 2050 - 1550},
		{Measured{Axis: 1, Part: "b", Face: High, To: Low}, -180 - -370},
		{Measured{Axis: 2, Part: "b", Face: Point, To: Point}, 30},
	} {
		got, label, err := MeasureFrom(doc, "a", c.m, squareBoxes)
		require.NoError(t, err, "%+v", c.m)
		require.True(t, strings.HasPrefix(label, "measured Block A from "))
		m := got.Parts[0].MeasuredAlong(c.m.Axis)
		assert.InDelta(t, c.want, m.MM, 1e-6, "%+v", c.m)
		assert.Equal(t, doc.Parts[0].AtMM, got.Parts[0].AtMM, "it stays")
		// Typed again, it goes to where that number is read.
		way, err := MeasuredWay(got, "a", c.m.Axis, c.want+33, squareBoxes)
		require.NoError(t, err)
		moved := must(t)(MoveParts(got, []string{"a"}, way))
		settled, err := Settle(got, moved, squareBoxes, false)
		require.NoError(t, err)
		assert.InDelta(t, c.want+33, settled.Parts[0].MeasuredAlong(c.m.Axis).MM, 1e-5)
	}
}

// The tank was measured from the rail; the rail moves. Followed, the number
// stays and the tank goes along; left, the tank stays and the number is new.
func TestFollowingAndLeaving(t *testing.T) {
	doc := blocks(t, Vec{0, -400, 0}, Vec{0, -200, 0}, Vec{0, -100, 0}, Vec{500, 0, 0})
	doc = must(t)(MeasureFrom(doc, "b", Measured{Axis: 1, Part: "a", Face: High, To: Low}, squareBoxes))
	doc = must(t)(MeasureFrom(doc, "c", Measured{Axis: 1, Part: "b", Face: High, To: Low}, squareBoxes))
	require.Equal(t, 140.0, doc.Parts[1].MeasuredFrom[0].MM, "−230 less −370")
	moved := must(t)(MovePart(doc, "a", Vec{0, -425, 0}))
	f := Followers(doc, moved, squareBoxes)
	assert.Equal(t, Following{Parts: []string{"b"}, From: []string{"Block A"}}, f, "what hangs on the second is found as it follows")

	yes, err := Settle(doc, moved, squareBoxes, true)
	require.NoError(t, err)
	assert.Equal(t, []Vec{{0, -425, 0}, {0, -225, 0}, {0, -125, 0}, {500, 0, 0}}, ats(yes))
	assert.Equal(t, doc.Parts[1].MeasuredFrom, yes.Parts[1].MeasuredFrom)
	assert.Equal(t, doc.Parts[2].MeasuredFrom, yes.Parts[2].MeasuredFrom)

	no, err := Settle(doc, moved, squareBoxes, false)
	require.NoError(t, err)
	assert.Equal(t, ats(moved), ats(no))
	assert.Equal(t, 165.0, no.Parts[1].MeasuredFrom[0].MM)
	assert.Equal(t, doc.Parts[2].MeasuredFrom, no.Parts[2].MeasuredFrom)

	// The rail grows instead: its face goes out by 10.
	wide := set(t, doc, "part:a", "width_mm", "80")
	yes, err = Settle(doc, wide, squareBoxes, true)
	require.NoError(t, err)
	assert.Equal(t, -190.0, yes.Parts[1].AtMM[1])

	// Both were moved by hand: nothing follows, and the number holds anyway.
	both := must(t)(MoveParts(doc, []string{"a", "b"}, Vec{0, -25, 0}))
	assert.Equal(t, []string{"c"}, Followers(doc, both, squareBoxes).Parts)
	gone := must(t)(RemovePart(doc, "a"))
	assert.Empty(t, gone.Parts[0].MeasuredFrom)
}

func TestALockedPartDoesNotFollow(t *testing.T) {
	doc := blocks(t, Vec{0, -400, 0}, Vec{0, -200, 0}, Vec{0, 100, 50}, Vec{9, 9, 9})
	doc = must(t)(MeasureFrom(doc, "b", Measured{Axis: 1, Part: "a", Face: High, To: Low}, squareBoxes))
	grouped := must(t)(MakeGroup(doc, []string{"b", "c"}, "Set"))
	moved := must(t)(MovePart(grouped, "a", Vec{0, -425, 0}))
	yes, err := Settle(grouped, moved, squareBoxes, true)
	require.NoError(t, err)
	assert.Equal(t, []Vec{{0, -425, 0}, {0, -225, 0}, {0, 75, 50}, {9, 9, 9}}, ats(yes), "its group goes along")

	locked := must(t)(SetLocked(grouped, "c", true))
	moved = must(t)(MovePart(locked, "a", Vec{0, -425, 0}))
	assert.Equal(t, Following{Locked: []string{"b"}, From: []string{"Block A"}}, Followers(locked, moved, squareBoxes))
	yes, err = Settle(locked, moved, squareBoxes, true)
	require.NoError(t, err)
	assert.Equal(t, ats(moved), ats(yes))
	assert.Equal(t, 165.0, yes.Parts[1].MeasuredFrom[0].MM)
}

// The whole vehicle is a reference too: a longer wheelbase takes along what
// was measured from the rear axle.
func TestFollowingTheVehicle(t *testing.T) {
	doc := blocks(t, Vec{2000, 0, 0})
	doc = must(t)(MeasureFrom(doc, "a", Measured{Axis: 0, Datum: FromRearAxle, To: Point}, squareBoxes))
	doc = must(t)(MeasureFrom(doc, "a", Measured{Axis: 2, Datum: FromGround, To: Low}, squareBoxes))
	was := doc.Parts[0].MeasuredFrom
	longer := set(t, doc, "vehicle", "wheelbase", number(doc.Vehicle.WheelbaseMM+100)+" mm")
	assert.Contains(t, Followers(doc, longer, squareBoxes).From, "the rear axle’s centreline")
	yes, err := Settle(doc, longer, squareBoxes, true)
	require.NoError(t, err)
	assert.InDelta(t, 2100, yes.Parts[0].AtMM[0], 1e-6)
	for k := range was {
		mm, err := Reading(yes, "a", &was[k], squareBoxes)
		require.NoError(t, err)
		assert.InDelta(t, was[k].MM, mm, 1e-5)
	}
}

func TestMeasurementsGoInNoCircle(t *testing.T) {
	doc := blocks(t, Vec{}, Vec{200, 0, 0}, Vec{400, 0, 0})
	x := func(from string) Measured { return Measured{Axis: 0, Part: from, Face: High, To: Low} }
	doc = must(t)(MeasureFrom(doc, "b", x("a"), squareBoxes))
	doc = must(t)(MeasureFrom(doc, "c", x("b"), squareBoxes))
	_, _, err := MeasureFrom(doc, "a", x("c"), squareBoxes)
	require.EqualError(t, err, "this would go in a circle: Block A from Block C from Block B from Block A. Measure one of them from something else first")
	must(t)(MeasureFrom(doc, "a", Measured{Axis: 1, Part: "c", Face: High, To: Low}, squareBoxes)) // another axis is another matter
	_, _, err = MeasureFrom(doc, "a", x("a"), squareBoxes)
	require.Error(t, err)
	_, _, err = MeasureFrom(doc, "a", x("nobody"), squareBoxes)
	require.Error(t, err)
	free := must(t)(ForgetFrom(doc, "b", 0))
	must(t)(MeasureFrom(free, "a", x("c"), squareBoxes))
}

func TestBrokenReferencesAndGroups(t *testing.T) {
	doc := blocks(t, Vec{}, Vec{200, 0, 0})
	doc = must(t)(MeasureFrom(doc, "b", Measured{Axis: 0, Part: "a", Face: High, To: Low}, squareBoxes))
	doc = must(t)(MeasureFrom(doc, "b", Measured{Axis: 2, Datum: FromGround, To: Point}, squareBoxes))
	doc = must(t)(MakeGroup(doc, []string{"a", "b"}, "Set"))
	good := string(Encode(doc))
	again, err := Decode([]byte(good))
	require.NoError(t, err)
	require.Equal(t, doc, again)
	for _, row := range []struct{ old, new, place, expected string }{
		{`"axis": "x"`, `"axis": "w"`, "/parts/1/measured_from/0/axis", "x, y or z"},
		{`"axis": "x"`, `"axis": "z"`, "/parts/1/measured_from/1/axis", "each axis once"},
		{`"part": "a", "face"`, `"part": "nobody", "face"`, "/parts/1/measured_from/0/part", "the id of a part"},
		{`"part": "a", "face"`, `"part": "b", "face"`, "/parts/1/measured_from/0/part", "another part"},
		{`"face": "high"`, `"face": "top"`, "/parts/1/measured_from/0/face", "point, low or high"},
		{`"datum": "ground"`, `"datum": "centre"`, "/parts/1/measured_from/1/datum", "along z"},
		{`"datum": "ground"`, `"datum": "ground", "part": "a"`, "/parts/1/measured_from/1", "either a datum or a part"},
		{`"datum": "ground", `, ``, "/parts/1/measured_from/1", "either a datum or a part"},
		{`"parts": ["a", "b"]`, `"parts": ["a"]`, "/groups/0/parts", "two parts or more"},
		{`"parts": ["a", "b"]`, `"parts": ["a", "c"]`, "/groups/0/parts/1", "the id of a part"},
		{`"parts": ["a", "b"]`, `"parts": ["a", "a"]`, "/groups/0/parts/1", "no other group"},
		{`"id": "set"`, `"id": "s t"`, "/groups/0/id", "an id"},
	} {
		require.Contains(t, good, row.old)
		_, err := Decode([]byte(strings.Replace(good, row.old, row.new, 1)))
		require.ErrorContains(t, err, row.place)
		require.ErrorContains(t, err, row.expected)
	}
}

// Whatever the reference does, following keeps what the tape reads, and the
// undone step is the bytes it was.
func TestFollowingKeepsTheNumber(t *testing.T) {
	followed, start := 0, blocks(t, Vec{}, Vec{}, Vec{})
	rapid.Check(t, func(t *rapid.T) {
		at := func(n string) Vec {
			c := func(k string) float64 { return float64(rapid.IntRange(-200000, 300000).Draw(t, n+k)) / 100 }
			return Vec{c("x"), c("y"), c("z")}
		}
		doc, err := start, error(nil)
		for _, id := range []string{"a", "b", "c"} {
			if doc, _, err = MovePart(doc, id, at(id)); err != nil {
				t.Fatal(err)
			}
		}
		for i, from := range []string{"", "a", "b"} {
			for axis := range 3 {
				m := Measured{Axis: axis, Part: from, Face: rapid.SampledFrom(Faces).Draw(t, "face"), To: rapid.SampledFrom(Faces).Draw(t, "to")}
				if rapid.IntRange(0, 2).Draw(t, "datum") == 0 || from == "" {
					m.Part, m.Face, m.Datum = "", "", rapid.SampledFrom(DatumsAlong(axis)).Draw(t, "which")
				}
				next, _, err := MeasureFrom(doc, doc.Parts[i].ID, m, squareBoxes)
				if err != nil {
					t.Fatal(err)
				}
				doc = next
			}
		}
		h := NewHistory(doc)
		before := string(Encode(doc))
		next, label, err := MovePart(doc, "a", at("to"))
		if err != nil {
			t.Fatal(err)
		}
		settled, err := Settle(doc, next, squareBoxes, true)
		if err != nil {
			t.Fatal(err)
		}
		h.Do(settled, label)
		for i := 1; i < 3; i++ {
			for _, m := range settled.Parts[i].MeasuredFrom {
				is, _ := Reading(settled, settled.Parts[i].ID, &m, squareBoxes)
				if was := doc.Parts[i].MeasuredAlong(m.Axis); math.Abs(is-was.MM) > 1e-5 || m.MM != was.MM {
					t.Fatalf("%+v: the tape reads %v, the number was %v", m, is, was.MM)
				}
			}
			if settled.Parts[i].AtMM != doc.Parts[i].AtMM {
				followed++
			}
		}
		if back, _ := h.Undo(); string(Encode(back)) != before {
			t.Fatal("undone, it is another document")
		}
	})
	require.Greater(t, followed, 50)
}
