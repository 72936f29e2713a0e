package app

import (
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/fitment"
	"scrubline/scene"
)

// A spring pushed past its shortest is marked as a touch and dimensioned on the
// part at the heights where it is; its form says how long it is here.
func TestASpringPushedSolidIsMarkedAndDimensioned(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "station", MM: 2950})
	send(t, a, Command{Do: "place", Kind: "air_spring"})
	p := placed(a)
	id := p.ID
	long := p.AtMM[2] - a.model.CarrierOrigin(scene.RearAxle)[2] - p.Size.Num("lower_z_mm") // upright
	send(t, a, Command{Do: "edit", Target: "part:" + id, Field: "shortest_mm", Text: a.length(long - 50)})
	frame(a)
	key := "limit|" + id + "|" + string(fitment.TooShort)
	shown := func() (m, f bool) {
		frame(a)
		for _, x := range a.marks() {
			if x.Key == key {
				require.Equal(t, fitment.Contact, x.Status)
				require.True(t, x.Dimension)
				require.Equal(t, a.measured(long+a.rear)+", at least "+a.measured(long-50), x.Text)
				m = true
			}
		}
		for _, x := range page.last(t).Findings {
			if x.Key == key {
				require.Equal(t, "touch", x.Mark)
				f = x.Here != ""
			}
		}
		return m, f
	}
	send(t, a, Command{Do: "height", Front: -40, Rear: -48})
	m, f := shown()
	require.False(t, m || f, "49 mm down it is not yet there")
	require.Contains(t, reachLine(t, a), a.measured(long+a.rear)+" mm, may be "+a.measured(long-50))
	send(t, a, Command{Do: "height", Front: -60, Rear: -70})
	m, f = shown()
	require.True(t, m && f)
	require.Contains(t, page.last(t).Headline, "1 spring past its limit")
	rung := false
	for _, r := range a.rungs() {
		rung = rung || r.Key == key && r.Status == fitment.Contact
	}
	require.True(t, rung)
}

// reachLine is the read-only line of the form in sight.
func reachLine(t *testing.T, a *App) string {
	t.Helper()
	for _, f := range a.theForm().Fields {
		if f.Type == "shown" {
			return f.Value
		}
	}
	t.Fatal("the form does not say how long it is")
	return ""
}
