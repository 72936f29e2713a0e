package app

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"scrubline/scene"
)

// ask is a step of the questions for some answers, with one question at hand.
func ask(t testing.TB, a *App, step int, focus string, answers scene.Answers) StartPage {
	t.Helper()
	text, err := json.Marshal(answers)
	require.NoError(t, err)
	r := send(t, a, Command{Do: "begin", Text: string(text), Row: step, Field: focus})
	var p StartPage
	require.NoError(t, json.Unmarshal([]byte(r.Text), &p))
	return p
}

// Every step has its questions in the order of the tape, each with a default
// that is said to be one, and asks for nothing twice.
func TestStartAsksInOrder(t *testing.T) {
	a, _ := yard(t)
	seen := map[string]bool{}
	var titles []string
	for step := range startSteps {
		p := ask(t, a, step, "", nil)
		require.Equal(t, len(startSteps), p.Steps)
		titles = append(titles, p.Title)
		for _, q := range p.Questions {
			require.False(t, seen[q.Name], q.Name)
			seen[q.Name] = true
			require.False(t, q.Given, q.Name)
			require.Empty(t, q.Error)
			if q.Type == "choice" {
				require.Equal(t, q.Choices[0].Value, q.Value, "the first is the default")
			} else {
				require.NotEmpty(t, q.Default, q.Name)
			}
		}
	}
	require.Equal(t, []string{"Wheelbase", "Tyres", "Frame height at ride", "Frame rails", "Front axle", "Rear axle", "How far down and up"}, titles)
	require.False(t, seen[scene.AskRearTyre], "asked only where it is another")
	p := ask(t, a, 1, "", scene.Answers{scene.AskRearSame: scene.OtherTyre})
	require.Equal(t, scene.AskRearTyre, p.Questions[2].Name)
	p = ask(t, a, 4, "", scene.Answers{scene.AskFrontAxle: scene.AxleNone})
	for _, c := range p.Questions[1].Choices {
		k := scene.SuspensionKindNamed(c.Value)
		require.True(t, k.Name == scene.Guide && c.Label == guideWords || k.Alone, c.Value)
	}
}

// The drawing shows the distance that is meant: each length question has one
// dimension whose two ends are that far apart along its way, and the one at
// hand stands out.
func TestSketchesShowTheDistanceAsked(t *testing.T) {
	a, _ := yard(t)
	answers := scene.Answers{scene.AskWheelbase: "3105", scene.AskFrontTyre: "701", scene.AskRearSame: scene.OtherTyre, scene.AskRearTyre: "733",
		scene.AskFrontFrame: "231", scene.AskRearFrame: "247", scene.AskRailOver: "864", scene.AskRailDepth: "123",
		scene.AskFrontDown: "81", scene.AskRearDown: "92", scene.AskFrontUp: "43", scene.AskRearUp: "54"}
	want := map[string]float64{scene.AskWheelbase: 3105, scene.AskFrontTyre: 701, scene.AskRearTyre: 733, scene.AskFrontFrame: 231, scene.AskRearFrame: 247,
		scene.AskRailOver: 864, scene.AskRailDepth: 123, scene.AskFrontDown: 81, scene.AskRearDown: 92, scene.AskFrontUp: 43, scene.AskRearUp: 54}
	for step := range startSteps {
		for _, q := range ask(t, a, step, "", answers).Questions {
			p := ask(t, a, step, q.Name, answers)
			require.NotEmpty(t, p.Sketch.Words)
			finite(t, p.Sketch)
			if q.Type == "choice" {
				continue
			}
			found := 0
			for _, d := range p.Sketch.Dims {
				require.Equal(t, d.Ask == q.Name, d.On, "%s of %s", d.Ask, q.Name)
				if d.Ask != q.Name {
					continue
				}
				found++
				axis := map[string]int{"h": 0, "v": 1}[d.Way]
				require.InDelta(t, want[q.Name], d.To[axis]-d.From[axis], 1e-9, q.Name)
				require.Contains(t, d.Text, a.measured(want[q.Name]))
			}
			require.Equal(t, 1, found, q.Name)
			delete(want, q.Name)
		}
	}
	require.Empty(t, want, "every length is drawn")
}

func finite(t *testing.T, s *Sketch) {
	t.Helper()
	for _, l := range s.Lines {
		for _, p := range l.Pts {
			require.False(t, math.IsNaN(p[0]+p[1]) || math.IsInf(p[0]+p[1], 0))
		}
	}
}

// The bars drawn are those of the suspension: as many, both sides of wheels
// that move by themselves.
func TestSketchesShowWhatHoldsTheAxle(t *testing.T) {
	a, _ := yard(t)
	for _, axle := range []string{scene.AxleLive, scene.AxleBeam, scene.AxleNone} {
		for _, hold := range scene.HoldsFor(axle) {
			p := ask(t, a, 5, scene.AskRearHold, scene.Answers{scene.AskRearAxle: axle, scene.AskRearHold: hold})
			bars := 0
			for _, l := range p.Sketch.Lines {
				if l.Kind == "bar" {
					require.True(t, l.On)
					bars++
				}
			}
			want := len(scene.SuspensionKindNamed(hold).Bars)
			if axle == scene.AxleNone {
				want *= 2
			}
			require.Equal(t, want, bars, "%s %s", axle, hold)
		}
	}
}

// Made, the vehicle is on the sheet and kept, what was open comes back by one
// undo, and it comes again by one redo.
func TestBeginMakesTheVehicleAndUndoTakesItBack(t *testing.T) {
	a, page := yard(t)
	before := string(scene.Encode(a.doc))
	saves := len(page.saved)
	answers, err := json.Marshal(scene.Answers{scene.AskWheelbase: "3105", scene.AskRearHold: scene.LeafSprings})
	require.NoError(t, err)
	send(t, a, Command{Do: "begin", Text: string(answers), Row: 6, On: true})
	for range 8 {
		frame(a)
	}
	require.Equal(t, 3105.0, a.doc.Vehicle.WheelbaseMM)
	require.Equal(t, scene.LeafSprings, a.doc.Vehicle.Rear.Form().Name)
	p := page.last(t)
	require.Equal(t, beginLabel, p.Undo)
	require.Equal(t, "plan", p.View)
	require.Equal(t, len(a.doc.NotMeasured()), p.Unmeasured)
	require.Positive(t, p.Unmeasured)
	require.Len(t, page.saved, saves+1)
	made := string(scene.Encode(a.doc))
	send(t, a, Command{Do: "undo"})
	frame(a)
	require.Equal(t, before, string(scene.Encode(a.doc)))
	send(t, a, Command{Do: "redo"})
	frame(a)
	require.Equal(t, made, string(scene.Encode(a.doc)))
}

// A wrong answer makes nothing; the step where it stands comes back with one
// message.
func TestBeginRefusesAWrongAnswer(t *testing.T) {
	a, _ := yard(t)
	doc := a.doc
	r := try(t, a, Command{Do: "begin", Text: `{"rail_depth":"deep"}`, Row: 6, On: true})
	require.Contains(t, r.Error, "Type a length such as")
	var p StartPage
	require.NoError(t, json.Unmarshal([]byte(r.Text), &p))
	require.Equal(t, 3, p.Step)
	require.Equal(t, r.Error, p.Questions[1].Error)
	require.Equal(t, doc, a.doc)
	for _, c := range []Command{{Do: "begin", Row: 7}, {Do: "begin", Row: -1}, {Do: "begin", Text: "[1]"}} {
		require.NotEmpty(t, try(t, a, c).Error)
	}
}

// Skipping the questions gives the starter; all of it is not measured.
func TestSkippedQuestionsAreAllNotMeasured(t *testing.T) {
	a, _ := yard(t)
	send(t, a, Command{Do: "starter"})
	want := scene.New()
	want.Show, want.Unmeasured = a.doc.Show, scene.Unanswered().Unmeasured
	require.Equal(t, string(scene.Encode(want)), string(scene.Encode(a.doc)))
	for _, key := range []string{"vehicle/wheelbase_mm", "vehicle/front/tyre", "part:rear-axle/size/tube_mm", "height:aired_out/rear_mm"} {
		require.Contains(t, strings.Join(a.doc.Unmeasured, " "), key)
	}
}
