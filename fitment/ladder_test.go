package fitment

import (
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// rung is what a test wants of a rung: kind, key, and the rear's height.
type rung struct {
	kind RungKind
	key  string
	rear float64
}

// wantRungs compares a ladder with rows worked out by hand, to the tenth that
// is promised; the end of the travel is the last row.
func wantRungs(t *testing.T, l *Ladder, rows ...rung) {
	t.Helper()
	var got []rung
	for i := range l.Rungs {
		got = append(got, rung{l.Rungs[i].Kind, l.Rungs[i].Cause, l.Rungs[i].At.RearMM})
	}
	require.Len(t, got, len(rows), "%v", got)
	for i, w := range rows {
		require.Equal(t, w.kind, got[i].kind, "%v", got)
		require.Equal(t, w.key, got[i].key)
		require.InDelta(t, w.rear, got[i].rear, spanStep+near, "%s %s", w.kind, w.key)
	}
}

// housing is a housing on the rear axle under a floor that is room above it at
// ride: it needs 25, so it is tight from a rear of −(room−25) down and touches
// from −room down.
func housing(id string, y, room float64) []scene.Part {
	return []scene.Part{
		traits(block("floor_"+id, scene.Body, scene.Vec{3000, y, room + 50}, 200, 200, 50), scene.Floor),
		traits(block("axle_"+id, scene.RearAxle, scene.Vec{0, y, 0}, 100, 100, 50), scene.Moving)}
}

// Tight, then touching, then the end: front and rear in the document's
// proportion, 100 to 120, and the way further counted to what is another cause.
func TestLadderTightThenContact(t *testing.T) {
	m := compile(t, bench(housing("a", 0, 110)...))
	l := m.Ladder(LadderAsk{})
	wantRungs(t, l, rung{RungTight, "floor_a+axle_a", -85}, rung{RungContact, "floor_a+axle_a", -110}, rung{RungEnd, "", -120})
	for i := range l.Rungs {
		require.InDelta(t, l.Rungs[i].At.RearMM*100/120, l.Rungs[i].At.FrontMM, near)
		require.Equal(t, l.Rungs[i].At, *l.Rungs[i].LevelAt)
		require.False(t, l.Rungs[i].AtRide)
	}
	require.InDelta(t, 35, l.Rungs[0].Further.RearMM, spanStep+near)
	require.InDelta(t, 35*100/120.0, l.Rungs[0].Further.FrontMM, spanStep+near)
	require.InDelta(t, 10, l.Rungs[1].Further.RearMM, spanStep+near)
	require.Equal(t, l.Rungs[0].At, l.GoesTo())
	require.Equal(t, scene.AiredOut, l.Rungs[2].Height)
	require.Empty(t, l.Rungs[2].Locked)

	mended := m.Ladder(LadderAsk{Without: map[string]bool{"floor_a+axle_a": true}})
	wantRungs(t, mended, rung{RungEnd, "", -120})
	require.Equal(t, Level{-100, -120}, mended.GoesTo())
	require.Len(t, mended.Struck, 2)
}

// A second cause between the two events of the first: without the first the
// body goes to the second, not to the first one's contact.
func TestLadderFurtherIsToAnotherCause(t *testing.T) {
	m := compile(t, bench(append(housing("a", -300, 110), housing("b", 300, 120)...)...))
	l := m.Ladder(LadderAsk{})
	wantRungs(t, l, rung{RungTight, "floor_a+axle_a", -85}, rung{RungTight, "floor_b+axle_b", -95},
		rung{RungContact, "floor_a+axle_a", -110}, rung{RungContact, "floor_b+axle_b", -120}, rung{RungEnd, "", -120})
	require.InDelta(t, 10, l.Rungs[0].Further.RearMM, 2*spanStep)
	require.InDelta(t, 15, l.Rungs[1].Further.RearMM, 2*spanStep)
}

// Two that tie keep the document's order, and mending one of them gains
// nothing.
func TestLadderTies(t *testing.T) {
	m := compile(t, bench(append(housing("a", -300, 100), housing("b", 300, 100)...)...))
	l := m.Ladder(LadderAsk{})
	wantRungs(t, l, rung{RungTight, "floor_a+axle_a", -75}, rung{RungTight, "floor_b+axle_b", -75},
		rung{RungContact, "floor_a+axle_a", -100}, rung{RungContact, "floor_b+axle_b", -100}, rung{RungEnd, "", -120})
	require.Equal(t, Level{}, l.Rungs[0].Further)
	require.InDelta(t, 25, l.Rungs[1].Further.RearMM, spanStep, "on to the other one's contact")
}

// Nothing happens: the end of the travel is the only rung.
func TestLadderOfNothing(t *testing.T) {
	for _, up := range []bool{false, true} {
		m := compile(t, bench())
		l := m.Ladder(LadderAsk{Up: up})
		require.Len(t, l.Rungs, 1)
		require.Equal(t, l.Rungs[0].At, l.GoesTo())
		require.Equal(t, map[bool]string{false: scene.AiredOut, true: scene.AiredUp}[up], l.Rungs[0].Height)
	}
	still := bench()
	for i := range still.Heights {
		still.Heights[i].FrontMM, still.Heights[i].RearMM = 0, 0
	}
	require.Equal(t, Level{}, compile(t, still).Ladder(LadderAsk{}).GoesTo(), "no travel at all")
}

// What holds at ride says so, and from where above: 15 of room is less than 25
// up to a rear of +10. With 0 of room the two touch at ride, to the very height.
func TestLadderHoldsAtRide(t *testing.T) {
	l := compile(t, bench(housing("a", 0, 15)...)).Ladder(LadderAsk{})
	wantRungs(t, l, rung{RungTight, "floor_a+axle_a", 0}, rung{RungContact, "floor_a+axle_a", -15}, rung{RungEnd, "", -120})
	require.True(t, l.Rungs[0].AtRide)
	require.InDelta(t, 10, l.Rungs[0].Began.RearMM, spanStep+near)
	require.InDelta(t, 10*50/60.0, l.Rungs[0].Began.FrontMM, spanStep+near)
	require.Equal(t, Level{}, l.GoesTo())
	require.InDelta(t, 120, l.Rungs[0].Further.RearMM, near)

	l = compile(t, bench(housing("a", 0, -5)...)).Ladder(LadderAsk{})
	wantRungs(t, l, rung{RungContact, "floor_a+axle_a", 0}, rung{RungTight, "floor_a+axle_a", 0}, rung{RungEnd, "", -120})
	require.InDelta(t, 5, l.Rungs[0].Began.RearMM, spanStep+near)

	up := compile(t, bench(housing("a", 0, 15)...)).Ladder(LadderAsk{Up: true})
	wantRungs(t, up, rung{RungTight, "floor_a+axle_a", 0}, rung{RungEnd, "", 60})
	require.InDelta(t, -15, compile(t, bench(housing("a", 0, 40)...)).Ladder(LadderAsk{}).Rungs[0].At.RearMM, spanStep+near)
}

// What ends at ride is no rung on the way that leads away from it: 25 and a
// hundredth of room are enough at ride, and going up only adds to it.
func TestLadderBeginsBeyondRide(t *testing.T) {
	m := compile(t, bench(housing("a", 0, 25.5)...))
	wantRungs(t, m.Ladder(LadderAsk{Up: true}), rung{RungEnd, "", 60})
	l := m.Ladder(LadderAsk{})
	require.False(t, l.Rungs[0].AtRide)
	require.InDelta(t, -0.5, l.Rungs[0].At.RearMM, spanStep+near)
}

// What does not move against each other is the same at every height: a rung at
// ride that the body goes past.
func TestLadderPassesWhatIsStill(t *testing.T) {
	parts := append(housing("a", 300, 110), block("x", scene.Body, scene.Vec{0, 0, 600}, 10, 10, 10), block("y", scene.Body, scene.Vec{11, 0, 600}, 10, 10, 10))
	l := compile(t, bench(parts...)).Ladder(LadderAsk{})
	wantRungs(t, l, rung{RungTight, "x+y", 0}, rung{RungTight, "floor_a+axle_a", -85}, rung{RungContact, "floor_a+axle_a", -110}, rung{RungEnd, "", -120})
	require.True(t, l.Rungs[0].Still)
	require.Equal(t, Level{}, l.Rungs[0].Further)
	require.Equal(t, 1, l.Stop)
}

// One end alone: the rear axle's housing does not see the front come down, and
// with the rear alone it goes as it does together.
func TestLadderOfOneEnd(t *testing.T) {
	m := compile(t, bench(housing("a", 0, 110)...))
	front := m.Ladder(LadderAsk{Ends: FrontOnly})
	require.Len(t, front.Rungs, 1)
	require.Equal(t, Level{FrontMM: -100}, front.GoesTo())
	rear := m.Ladder(LadderAsk{Ends: RearOnly})
	wantRungs(t, rear, rung{RungTight, "floor_a+axle_a", -85}, rung{RungContact, "floor_a+axle_a", -110}, rung{RungEnd, "", -120})
	for i := range rear.Rungs {
		require.Zero(t, rear.Rungs[i].At.FrontMM)
	}
	require.Equal(t, Level{RearMM: 60}, m.Ladder(LadderAsk{Ends: RearOnly, Up: true}).GoesTo())
}

// The rims' lowest point is 300 − 200 = 100 over the ground. A block whose
// underside is 180 over it at ride passes the rim line 80 down and would meet
// the ground 180 down; front and rear alike, so that the ground stays level.
func TestLadderRimLineAndGround(t *testing.T) {
	doc := levelled(bench(block("box", scene.Body, scene.Vec{1500, 0, -70}, 100, 100, 100)), -200, 60)
	l := compile(t, doc).Ladder(LadderAsk{})
	wantRungs(t, l, rung{RungRimLine, "low:box", -80}, rung{RungGround, "low:box", -180}, rung{RungEnd, "", -200})
	require.InDelta(t, -80, l.Rungs[0].At.RearMM, 2*near)
	require.InDelta(t, 120, l.Rungs[0].Further.RearMM, 2*near)
	l = compile(t, doc).Ladder(LadderAsk{Without: map[string]bool{"low:box": true}})
	wantRungs(t, l, rung{RungEnd, "", -200})
}

// levelled puts both ends' heights at the same figures.
func levelled(doc *scene.Document, low, high float64) *scene.Document {
	for i, mm := range []float64{low, 0, high} {
		doc.Heights[i].FrontMM, doc.Heights[i].RearMM = mm, mm
	}
	return doc
}

// What hangs from an axle keeps its height over the ground while the body stays
// level.
func TestLadderLowOnTheAxleIsStill(t *testing.T) {
	l := compile(t, levelled(bench(block("bowl", scene.RearAxle, scene.Vec{0, 0, -200}, 100, 100, 50)), -120, 60)).Ladder(LadderAsk{})
	require.Equal(t, RungRimLine, l.Rungs[0].Kind)
	require.True(t, l.Rungs[0].Still)
	require.Equal(t, Level{-120, -120}, l.GoesTo())
}

// An upright spring 260 long at ride is on its stop of 150 from −110 down, and
// pulled past 305 from +45 up; rolled by 40 (20 at each wheel, 400/750 of that at
// the spring) sooner.
func TestLadderOfLimits(t *testing.T) {
	spring := part("spring", "air_spring", scene.Body, scene.Vec{3000, 400, 260}, map[string]float64{
		"lower_x_mm": 0, "lower_y_mm": 400, "lower_z_mm": 0, "shortest_mm": 150, "longest_mm": 305})
	m := compile(t, bench(spring))
	wantRungs(t, m.Ladder(LadderAsk{}), rung{RungLimit, "limit:spring:too_short", -110}, rung{RungEnd, "", -120})
	wantRungs(t, m.Ladder(LadderAsk{Up: true}), rung{RungLimit, "limit:spring:too_long", 45}, rung{RungEnd, "", 60})
	doc := bench(spring)
	doc.Vehicle.Rear.CrossMM = 10
	l := compile(t, doc).Ladder(LadderAsk{})
	require.Equal(t, RungLimit, l.Rungs[0].Kind)
	require.InDelta(t, -110, l.Rungs[0].LevelAt.RearMM, 0.02)
	require.InDelta(t, -110+5*400/750.0, l.Rungs[0].At.RearMM, 0.1)
}

// A service room is a cause of its own, beside its part's pair.
func TestLadderOfARoom(t *testing.T) {
	m := open(t, "service-room-blocked.json")
	l := m.Ladder(LadderAsk{})
	require.Equal(t, "room:battery+beam", l.Rungs[0].Cause)
	require.True(t, l.Rungs[0].Still)
	require.Len(t, m.Ladder(LadderAsk{Without: map[string]bool{"room:battery+beam": true}}).Rungs, 1)
	require.Len(t, m.Ladder(LadderAsk{Without: map[string]bool{"battery+beam": true}}).Rungs, 2)
}

// Every scene's ladders are as their schema says, and the same twice.
func TestLadderSchema(t *testing.T) {
	files, err := filepath.Glob(filepath.Join(scenes, "*.json"))
	require.NoError(t, err)
	rungs := 0
	for _, f := range files {
		m := open(t, filepath.Base(f))
		for _, ask := range []LadderAsk{{}, {Up: true}, {Ends: FrontOnly}, {Ends: RearOnly, Up: true}} {
			l := m.Ladder(ask)
			rungs += len(l.Rungs) - 1
			if len(l.Rungs) > 1 {
				ask.Without = map[string]bool{l.Rungs[0].Cause: true, l.Rungs[len(l.Rungs)-2].Cause: true}
			}
			data := m.LadderJSON(m.Ladder(ask))
			held(t, "ladder.schema.json", data)
			require.Equal(t, string(data), string(open(t, filepath.Base(f)).LadderJSON(m.Ladder(ask))))
		}
	}
	require.Greater(t, rungs, 20)
}

// The sentences of a ladder name what happens, where, and what mending gains.
func TestLadderWords(t *testing.T) {
	m := compile(t, bench(housing("a", 0, 110)...))
	l, w := m.Ladder(LadderAsk{}), NewWords(m.Doc)
	require.Equal(t, "floor_a closer than 25 to axle_a", w.RungTitle(&l.Rungs[0]))
	require.True(t, strings.HasPrefix(w.RungFurther(&l.Rungs[0], l.Ask), "front 29.2, rear 35"), w.RungFurther(&l.Rungs[0], l.Ask))
	require.Equal(t, "End of the travel: aired out", w.RungTitle(&l.Rungs[2]))
	require.Contains(t, l.GoesToWords(w), "Goes down to −70.8 front, ")
	require.Equal(t, RungTight, l.Rungs[l.Stop].Kind)
	require.Equal(t, RungContact, l.Rungs[l.Meets].Kind, "lost room lets it go on, a contact does not")
	require.Equal(t, "Nothing more touches or runs out before −91.7 front, −110 rear: floor_a and axle_a touch", l.MeetsWords(w))

	l = m.Ladder(LadderAsk{Without: map[string]bool{l.Rungs[0].Cause: true}})
	require.Equal(t, l.Stop, l.Meets)
	require.Empty(t, l.MeetsWords(w), "said already")
}

// What holds at ride already does not hide where the next contact comes.
func TestWhatIsMetOnTheWay(t *testing.T) {
	m := open(t, "bakery-van.json")
	l := m.Ladder(LadderAsk{})
	require.True(t, l.Rungs[l.Stop].AtRide)
	r := l.Rungs[l.Meets]
	require.Equal(t, RungContact, r.Kind)
	require.Equal(t, "spring_rr+tail_pipe", r.Cause)
	for i := range l.Rungs[:l.Meets] {
		b := &l.Rungs[i]
		require.True(t, b.Still || b.AtRide || b.Kind == RungTight || b.Kind == RungRimLine, b.Cause)
	}
}
