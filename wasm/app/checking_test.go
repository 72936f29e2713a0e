package app

import (
	"os"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// opened is a sketcher with a document put before it and nothing checked yet,
// on a page whose clock goes on by step with every look at it.
func opened(t testing.TB, step float64) (*App, *fakePage, *scene.Document) {
	t.Helper()
	text, err := os.ReadFile("../../testdata/scenes/starter.json")
	require.NoError(t, err)
	a, page := yard(t)
	send(t, a, Command{Do: "open", Text: string(text)})
	a.wait = 0
	page.step = step
	return a, page, a.doc
}

// pairsDone is how many pairs of the model on the sheet are answered.
func pairsDone(a *App) (done, of int) { return a.model.Advance(0) }

// A clock that goes on by 3 ms with every look lets a slice of 8 ms have three
// pairs: it is looked at once before the first and once after each.
func TestACheckGoesInSlicesAndAnswersTheSame(t *testing.T) {
	a, page, doc := opened(t, 3)
	whole, err := fitment.Compile(doc)
	require.NoError(t, err)
	want := whole.Check()
	_, of := pairsDone(a)
	require.Greater(t, of, 9, "pairs enough for several slices")
	said := map[string]bool{}
	ticks := 0
	for done := 0; a.checked == nil; ticks++ {
		a.Tick()
		a.Frame()
		now, all := pairsDone(a)
		if a.checked != nil {
			now, all = of, of // a finished check says one of one
		}
		require.Equal(t, of, all)
		require.LessOrEqual(t, now-done, 3)
		require.Greater(t, now, done)
		done = now
		said[page.last(t).Subline] = true
	}
	require.Equal(t, (of+2)/3, ticks)
	require.True(t, said["Checking, 50 %"], "%v", said)
	require.Equal(t, want, a.checked.Check())
	require.Equal(t, fitment.Headline(&want.Summary), fitment.Headline(&a.checked.Check().Summary))
	require.NotContains(t, page.last(t).Subline, "Checking")
}

// On a clock that has leapt past the slice at the first look, one pair is done
// all the same.
func TestACheckEndsOnAnyClock(t *testing.T) {
	a, _, _ := opened(t, 1e6)
	_, of := pairsDone(a)
	for i := 1; i <= of; i++ {
		require.Nil(t, a.checked)
		a.Tick()
	}
	require.Same(t, a.model, a.checked)
}

// A changed vehicle changes every pair: the answers before it stay in sight,
// and the panel says whose they are.
func TestAChangedVehicleIsCheckedInSlices(t *testing.T) {
	a, page := yard(t)
	before := a.checked
	page.step = 3
	send(t, a, Command{Do: "edit", Target: "vehicle", Field: "rear_track", Text: plainNumber(a.doc.Vehicle.Rear.TrackMM + 10)})
	a.Tick()
	a.Frame()
	require.Same(t, before, a.checked)
	require.Regexp(t, `^As it was before this change\. Checking, \d+ %$`, page.last(t).Subline)
	for range 1000 {
		a.Tick()
	}
	require.Same(t, a.model, a.checked)
	whole, err := fitment.Compile(a.doc)
	require.NoError(t, err)
	require.Equal(t, whole.Check(), a.checked.Check())
}

// While a finger drags a part its pairs are answered in one tick, whatever the
// slice; once the last check took long, when the finger rests.
func TestADraggedPartIsAnsweredInOneTick(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "select", Part: tank})
	press(a, "touch", grip(t, a, tank), mgl64.Vec2{30, 0})
	page.step = 5
	require.Equal(t, dragPart, a.hand.mode)
	require.NotSame(t, a.model, a.checked)
	a.Tick()
	require.Same(t, a.model, a.checked)
}
