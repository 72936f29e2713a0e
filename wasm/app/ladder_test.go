package app

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// ladderYard is the yard with the tank far enough from the shaft.
func ladderYard(t *testing.T) (*App, *fakePage) {
	a, page := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-190"})
	frame(a)
	return a, page
}

// The list reads as the engine's ladder: where it goes, what stops it, what
// comes with that struck out, and the staff draws that rung struck through.
func TestLadderListAndStriking(t *testing.T) {
	a, page := ladderYard(t)
	l := page.last(t).Ladder
	require.True(t, l.Known)
	require.Equal(t, "Goes down to rear −52.4 (front −44.3) now", l.Goes)
	require.Equal(t, "Air tank passes below the rim line", l.Stops)
	require.Empty(t, l.Then)
	require.True(t, l.Rungs[len(l.Rungs)-1].End)
	require.Equal(t, "low:air-tank", l.Rungs[0].Cause)
	require.Equal(t, "Rear 49.5, front 41.8 lower when mended", l.Rungs[0].Further)

	send(t, a, Command{Do: "suppose", Key: "low:air-tank", On: true})
	frame(a)
	l = page.last(t).Ladder
	require.Equal(t, "Goes down to rear −52.4 (front −44.3) now", l.Goes)
	require.Equal(t, "to rear −101.8 (front −86.2) with the struck ones mended", l.Then)
	require.True(t, l.Rungs[0].Struck, "it stays in its place, struck out")
	require.True(t, a.rungs()[0].Struck)
	require.NotContains(t, page.saved[len(page.saved)-1], "suppose")
	saved := len(page.saved)

	send(t, a, Command{Do: "suppose", Key: "low:air-tank"})
	frame(a)
	require.Empty(t, page.last(t).Ladder.Then)
	send(t, a, Command{Do: "suppose", Key: "low:air-tank", On: true})
	send(t, a, Command{Do: "suppose"})
	frame(a)
	require.Empty(t, page.last(t).Ladder.Then)
	require.Len(t, page.saved, saved, "a question is no edit")
}

// A rung takes the body to its height and shows its finding; from there one
// gets back. One end alone takes the ends apart.
func TestGoingToARung(t *testing.T) {
	a, page := ladderYard(t)
	rungs := page.last(t).Ladder.Rungs
	k := 1
	send(t, a, Command{Do: "rung", Row: rungs[k].Row})
	require.Equal(t, rungs[k].At, upper(a.levelWords(a.ladders.list.Rungs[k].At)))
	require.InDelta(t, a.ladders.list.Rungs[k].At.RearMM, a.rear, 1e-9)
	require.Equal(t, a.ladders.list.Rungs[k].Finding.Key(), a.finding)
	frame(a)
	require.True(t, page.last(t).Ladder.Rungs[k].Here)
	require.NotEmpty(t, page.last(t).Back)
	require.False(t, a.apart)

	send(t, a, Command{Do: "ladder", Text: "down", Key: "rear"})
	frame(a)
	l := page.last(t).Ladder
	require.Equal(t, "rear", l.Ends)
	require.True(t, strings.HasPrefix(l.Goes, "Goes down to rear −"), l.Goes)
	require.NotContains(t, l.Goes, "front")
	send(t, a, Command{Do: "rung", Row: l.Rungs[0].Row})
	require.True(t, a.apart)
	require.Zero(t, a.front)

	send(t, a, Command{Do: "ladder", Text: "up", Key: "both"})
	frame(a)
	require.True(t, strings.HasPrefix(page.last(t).Ladder.Goes, "Goes up to "))
	require.NotEmpty(t, try(t, a, Command{Do: "ladder", Text: "sideways", Key: "both"}).Error)
	require.NotEmpty(t, try(t, a, Command{Do: "rung", Row: 99}).Error)
}

// While a finger is on the canvas nothing is worked out; the ladder waits until
// it is lifted, and goes in slices that leave room for frames.
func TestLadderWaitsForTheFinger(t *testing.T) {
	a, page := ladderYard(t)
	send(t, a, Command{Do: "select", Part: tank})
	p := grip(t, a, tank)
	press(a, "touch", p, [2]float64{60, 0})
	page.now += panelsEveryMS
	frame(a)
	require.Equal(t, dragPart, a.hand.mode)
	require.False(t, page.last(t).Ladder.Known)
	require.Empty(t, a.rungs())
	a.Pointer("pointerup", "touch", 1, p[0]+60, p[1], 0)
	page.step = 3 // every look at the clock takes 3 ms: a slice is a few pieces
	slices := 0
	for !a.laddersKnown() || !a.ladders.fresh {
		a.Tick()
		slices++
		require.Less(t, slices, 10000)
	}
	require.Greater(t, slices, 3)
	a.Tick()
	require.True(t, page.last(t).Ladder.Known)
}

// What stops the body at the end of its travel reads on behind a colon.
func TestTheEndOfTheTravelIsNoSecondColon(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "ladder", Text: "up", Key: "both"})
	frame(a)
	for _, r := range page.last(t).Ladder.Rungs {
		if !r.End {
			send(t, a, Command{Do: "suppose", Key: r.Cause, On: true})
		}
	}
	frame(a)
	l := page.last(t).Ladder
	require.True(t, l.Known)
	require.Equal(t, "end of the travel, aired up", l.Stops)
	require.Equal(t, "End of the travel: aired up", l.Rungs[len(l.Rungs)-1].Title, "its own row says it as before")
}
