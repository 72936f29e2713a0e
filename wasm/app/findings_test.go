package app

import (
	"strings"
	"testing"

	"github.com/go-gl/mathgl/mgl64"
	"github.com/stretchr/testify/require"
)

func TestFindingsSpeak(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-100"})
	frame(a)
	p := page.last(t)
	require.NotEmpty(t, p.Findings)
	var f *FindingItem
	for i := range p.Findings {
		if strings.Contains(p.Findings[i].Key, "driveshaft") && strings.Contains(p.Findings[i].Key, tank) {
			f = &p.Findings[i]
		}
	}
	require.NotNil(t, f, "a tank of 200 that reaches to the centreline meets the driveshaft there")
	require.Equal(t, "touch", f.Mark)
	require.Contains(t, f.Title, "touch")
	require.Contains(t, f.Figures, "needs 25")
	require.Contains(t, f.Why, "common practice")
	require.NotEmpty(t, f.Caution)

	send(t, a, Command{Do: "finding", Key: f.Key})
	require.Equal(t, f.Key, a.finding)
	at := a.projection()
	for _, m := range a.marks() {
		if m.Key == f.Key {
			require.True(t, a.lay.Main.Contains(m.At(&at)), "its mark is in sight")
			require.NotEmpty(t, m.Text)
			require.Equal(t, f.Key, a.markAt(m.At(&at)), "and can be tapped")
			send(t, a, Command{Do: "select"})
			tapAt(a, m.At(&at))
			require.Equal(t, f.Key, a.finding)
			return
		}
	}
	t.Fatal("the finding has no mark in its own view")
}

// A mark that is tapped while a part's form is open closes the form, and the
// list is told to show the finding; so does one on the staff.
func TestATappedMarkOpensItsFinding(t *testing.T) {
	a, page := yard(t)
	marks := a.marks()
	require.NotEmpty(t, marks)
	m := marks[0]
	at := a.projection()
	send(t, a, Command{Do: "select", Part: tank})
	frame(a)
	before := page.last(t)
	require.NotNil(t, before.Form)
	tapAt(a, m.At(&at))
	frame(a)
	p := page.last(t)
	require.Nil(t, p.Form)
	require.Equal(t, before.Opened+1, p.Opened)
	selected := 0
	for _, f := range p.Findings {
		if f.Selected {
			selected++
			require.Equal(t, m.Key, f.Key)
		}
	}
	require.Equal(t, 1, selected)
	st := a.staff()
	tapAt(a, mgl64.Vec2{st.LineX - 18, st.Y(a.rungs()[0].MM)})
	frame(a)
	require.Equal(t, p.Opened+1, page.last(t).Opened, "a mark on the staff")
	send(t, a, Command{Do: "finding", Key: m.Key})
	frame(a)
	require.Equal(t, p.Opened+1, page.last(t).Opened, "what is opened in the list is read there already")
}

// The panels say what the engine says: every finding of the report is there,
// and what "here" says is the reading in the state shown.
func TestPanelsAgreeWithTheEngine(t *testing.T) {
	a, page := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-100"})
	for _, h := range a.doc.Heights {
		send(t, a, Command{Do: "named", Key: h.ID})
		frame(a)
		p := page.last(t)
		r := a.model.Check()
		require.Equal(t, a.headline(r), p.Headline)
		seen := map[string]*FindingItem{}
		for i := range p.Findings {
			seen[p.Findings[i].Key] = &p.Findings[i]
		}
		require.NotEmpty(t, r.Findings)
		for i := range r.Findings {
			require.Contains(t, seen, r.Findings[i].Key())
		}
		for _, rd := range a.model.Readings(a.state()) {
			if it := seen[rd.Key]; it.Here != "" {
				require.Equal(t, "here: "+a.gapWords(rd.GapMM), it.Here)
			}
		}
	}
}

func TestGroundFindingIsMarkedWhereItHangs(t *testing.T) {
	a, page := yard(t)
	frame(a)
	var key string
	for _, f := range page.last(t).Findings {
		if f.Key == rimKey+tank {
			key = f.Key
			require.Contains(t, f.Title, "below the rim line")
			require.Contains(t, f.Why, "24008") // California Vehicle Code 24008
			require.Empty(t, f.A, "nothing to join")
		}
	}
	require.NotEmpty(t, key, "a tank of 200 with its middle 40 above the frame hangs below the rims aired out")
	for _, m := range a.marks() {
		require.NotEqual(t, key, m.Key, "not here, at ride")
	}
	send(t, a, Command{Do: "finding", Key: key})
	frame(a)
	require.Equal(t, -130.0, a.rear)
	proj := a.projection()
	m := a.marks()[0]
	require.Equal(t, key, m.Key)
	require.True(t, m.Selected)
	require.True(t, a.lay.Main.Contains(m.At(&proj)))
	require.Contains(t, m.Text, "below the rim line")
}

func TestServiceRoomIsShownWithItsFinding(t *testing.T) {
	a, page := yard(t)
	// The tank's drain needs 40 below it; a plate 20 below the tank takes that.
	send(t, a, Command{Do: "place", Kind: "plate"})
	plate := a.selected
	for field, text := range map[string]string{"at_x": "2100", "at_y": "-150", "at_z": "-85"} {
		send(t, a, Command{Do: "edit", Target: "part:" + plate, Field: field, Text: text})
	}
	send(t, a, Command{Do: "select"})
	frame(a)
	for _, f := range page.last(t).Findings {
		if !strings.HasSuffix(f.Key, "|"+tank) {
			continue
		}
		require.Contains(t, f.Title, "opening the drain")
		require.Empty(t, f.A, "a service room is not given up by joining")
		require.False(t, a.mainSheet().Parts[a.partIndex(tank)].Room)
		send(t, a, Command{Do: "finding", Key: f.Key})
		require.True(t, a.mainSheet().Parts[a.partIndex(tank)].Room)
		return
	}
	t.Fatal("the blocked drain is no finding")
}

func TestCheckingIsSaidUntilItIsDone(t *testing.T) {
	a, page := yard(t)
	r := send(t, a, Command{Do: "save"})
	page.panels = nil
	send(t, a, Command{Do: "open", Text: r.Text})
	a.Tick()
	p := page.last(t)
	require.Contains(t, p.Headline, "Checking")
	require.Empty(t, p.Findings)
	frame(a)
	p = page.last(t)
	require.NotContains(t, p.Headline, "Checking")
	require.NotEmpty(t, p.Findings)
}

// During a drag that is too fast for the engine, what the moved part measured
// before is not shown as if it were still so.
func TestStaleReadingsAreNotShown(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "edit", Target: "part:" + tank, Field: "at_y", Text: "-100"})
	frame(a)
	tapAt(a, grip(t, a, tank))
	require.NotEmpty(t, a.marks())
	a.checkMS = 10 * slowMS
	press(a, "touch", grip(t, a, tank), mgl64.Vec2{-60, 0})
	a.Tick()
	require.NotEqual(t, a.checked, a.model, "the check waits for the finger to rest")
	for _, m := range a.marks() {
		require.NotContains(t, m.Key, tank)
	}
	a.host.(*fakePage).now += 2 * pauseMS
	a.Tick()
	require.Equal(t, a.checked, a.model, "and is made once it does")
}

// Where a finding is worst with the body leaning, the end that does not matter
// stands where the staff has it, so that all that is said of the height agrees;
// and an edit elsewhere leaves the body as it stands.
func TestALeaningBodyStandsWhereTheStaffSays(t *testing.T) {
	a, page := shown(t, "bakery-van.json")
	send(t, a, Command{Do: "finding", Key: "spring_rr|tail_pipe|"})
	frame(a)
	st := a.state()
	require.NotEqual(t, st.RL, st.RR, "it leans")
	require.InDelta(t, a.front, (st.FL+st.FR)/2, 1e-9)
	require.InDelta(t, a.rear, (st.RL+st.RR)/2, 1e-9)
	require.Negative(t, a.front)
	require.Contains(t, page.last(t).Lowest[0], "rear leaning 30 to the left")

	send(t, a, Command{Do: "edit", Target: "part:spare", Field: "at_z", Text: "900"})
	settled(t, a)
	require.Equal(t, st, a.state(), "an edit elsewhere moves nothing")
	send(t, a, Command{Do: "height", Front: -20, Rear: -20})
	require.Equal(t, a.state().RL, a.state().RR, "a height is level")
}
