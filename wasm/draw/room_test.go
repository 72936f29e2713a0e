package draw

import (
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/wasm/view"
)

// A room's names lie in the frame and on nothing else that has been placed; more
// than roomNamesMost are not written.
func TestRoomNamesKeepClear(t *testing.T) {
	rect := view.Rect{X: 0, Y: 0, W: 600, H: 500}
	s := &Sheet{Rect: rect, Measure: RoughWidth, Proj: view.Project(fitment.SectionView, 0, [3]float64{0, 0, 1}, 300, view.Fit(rect, [2]float64{-300, 0}, [2]float64{300, 500}, 10), rect)}
	s.Room = &RoomMap{Free: [][]fitment.Pt{{{-50, 0}, {50, 0}, {50, 100}, {-50, 100}}}, Sides: [][]fitment.Pt{{{-50, 0}, {50, 0}}}, Fits: true}
	for i := range 9 { // spread along the border, as borders are
		s.Room.Names = append(s.Room.Names, RoomName{At: fitment.Pt{-200 + 50*float64(i), 20}, Text: "Exhaust"})
	}
	l, labels := &List{}, &Placer{Frame: rect}
	s.roomGround(l)
	s.roomBorder(l)
	s.roomNames(l, labels)
	texts := 0
	for i := range l.Ops {
		if l.Ops[i].Kind == TextOp {
			texts++
		}
	}
	require.Equal(t, roomNamesMost, texts)
	for i, a := range labels.taken {
		require.True(t, a.Inside(rect))
		for _, b := range labels.taken[:i] {
			require.False(t, a.Overlaps(b))
		}
	}
	s.Room = nil
	was := len(l.Ops)
	s.roomGround(l)
	s.roomBorder(l)
	s.roomNames(l, labels)
	require.Len(t, l.Ops, was)
}
