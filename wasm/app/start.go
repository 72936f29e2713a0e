package app

import (
	"encoding/json"
	"errors"
	"fmt"

	"scrubline/fitment"
	"scrubline/scene"
)

// StartPage is one step of the questions a new vehicle begins with, as the page
// shows it. It comes as JSON in the text of a Reply; web/panels/start.js has its
// twin.
type StartPage struct {
	Step      int             `json:"step"` // from 0
	Steps     int             `json:"steps"`
	Title     string          `json:"title"`
	Ask       string          `json:"ask"` // one sentence: what to do with the tape
	Questions []StartQuestion `json:"questions"`
	Sketch    *Sketch         `json:"sketch"`
	Units     string          `json:"units"`
}

// StartQuestion is one question of a step.
type StartQuestion struct {
	Name    string       `json:"name"`
	Label   string       `json:"label"`
	Help    string       `json:"help"`
	Type    string       `json:"type"`    // length, tyre or choice
	Value   string       `json:"value"`   // as typed; of a choice the one that holds
	Default string       `json:"default"` // what holds when nothing is typed, as shown
	Unit    string       `json:"unit"`
	Given   bool         `json:"given"` // answered; otherwise it is a default, not measured
	Error   string       `json:"error"` // what is wrong with it, one sentence
	Choices []FormChoice `json:"choices,omitempty"`
}

// startStep is a step by its questions.
type startStep struct {
	title, ask string
	asks       []startAsk
	sketch     func(*sketcher)
}

type startAsk struct{ name, label, help, kind string }

// startSteps are in the order in which one measures.
var startSteps = []startStep{
	{"Wheelbase", "From the middle of the front axle to the middle of the rear axle, along the ground.",
		[]startAsk{{scene.AskWheelbase, "Wheelbase", "Chalk both axle centres onto the floor and measure between the marks. Left and right should agree.", "length"}}, (*sketcher).wheelbase},
	{"Tyres", "The size on the sidewall, such as 225/45R17, or the plain diameter by the tape: an old size such as 6.50-16 does not name it.",
		[]startAsk{
			{scene.AskFrontTyre, "Front tyre", "Free of load. A plain diameter leaves width and rim assumed.", "tyre"},
			{scene.AskRearSame, "Rear tyre", "", "choice"},
			{scene.AskRearTyre, "Rear tyre’s size", "Free of load. A plain diameter leaves width and rim assumed.", "tyre"}}, (*sketcher).tyres},
	{"Frame height at ride", "From the ground up to the underside of the straight run of the rails, carried on to each axle.",
		[]startAsk{
			{scene.AskFrontFrame, "At the front axle", "Not the rail over the axle: hold a straight edge or a string along the straight run’s underside, carry it on to the axle’s centre, and measure there.", "length"},
			{scene.AskRearFrame, "At the rear axle", "Carried on in the same way.", "length"}}, (*sketcher).frameHeights},
	{"Frame rails", "At the straight run, between the axles.",
		[]startAsk{
			{scene.AskRailOver, "Over both rails", "Outside face to outside face.", "length"},
			{scene.AskRailDepth, "Rail depth", "Underside to top, square to the rail.", "length"}}, (*sketcher).railSection},
	{"Front axle", "What joins the two front wheels, if anything, and what holds them. A live axle drives; independent wheels have none.",
		[]startAsk{{scene.AskFrontAxle, "Axle", "", "choice"}, {scene.AskFrontHold, "Held by", "", "choice"}}, (*sketcher).frontAxle},
	{"Rear axle", "What joins the two rear wheels, if anything, and what holds them. A live axle drives; independent wheels have none.",
		[]startAsk{{scene.AskRearAxle, "Axle", "", "choice"}, {scene.AskRearHold, "Held by", "", "choice"}}, (*sketcher).rearAxle},
	{"How far down and up", "How far the body moves from ride, over each axle: aired out and aired up.",
		[]startAsk{
			{scene.AskFrontDown, "Front, down", "From ride to aired out.", "length"},
			{scene.AskRearDown, "Rear, down", "From ride to aired out.", "length"},
			{scene.AskFrontUp, "Front, up", "From ride to aired up.", "length"},
			{scene.AskRearUp, "Rear, up", "From ride to aired up.", "length"}}, (*sketcher).travel},
}

// guideWords are what the plain guide is called among the answers.
const guideWords = "Not measured yet: plain guide"

// startChoices are a question's answers for people, the default first.
func startChoices(ask string, b *scene.Begun) []FormChoice {
	axles := map[string]string{scene.AxleBeam: "Beam axle", scene.AxleLive: "Live axle", scene.AxleNone: "Independent"}
	switch ask {
	case scene.AskRearSame:
		return []FormChoice{{scene.SameTyre, "Same as the front"}, {scene.OtherTyre, "Another size"}}
	case scene.AskFrontAxle:
		return []FormChoice{{scene.AxleBeam, axles[scene.AxleBeam]}, {scene.AxleLive, axles[scene.AxleLive]}, {scene.AxleNone, axles[scene.AxleNone]}}
	case scene.AskRearAxle:
		return []FormChoice{{scene.AxleLive, axles[scene.AxleLive]}, {scene.AxleBeam, axles[scene.AxleBeam]}, {scene.AxleNone, axles[scene.AxleNone]}}
	}
	axle := scene.AskFrontAxle
	if ask == scene.AskRearHold {
		axle = scene.AskRearAxle
	}
	var list []FormChoice
	for _, name := range scene.HoldsFor(b.Chosen[axle]) {
		c := FormChoice{name, scene.SuspensionKindNamed(name).Label}
		if name == scene.Guide {
			c.Label = guideWords
		}
		list = append(list, c)
	}
	return list
}

// beginLabel is what making a vehicle from the questions is called in the
// history.
const beginLabel = "began a new vehicle"

// beginCommand shows a step of the questions for the answers so far, or, with
// On, makes the vehicle. With an answer that cannot be used it makes nothing
// and shows the step where that stands.
func (a *App) beginCommand(c *Command, r *Reply) error {
	answers := scene.Answers{}
	if c.Text != "" && json.Unmarshal([]byte(c.Text), &answers) != nil {
		return errors.New("the answers cannot be read")
	}
	if c.Row < 0 || c.Row >= len(startSteps) {
		return fmt.Errorf("there is no step %d", c.Row+1)
	}
	b := scene.Begin(answers, a.doc.Show)
	step := c.Row
	if c.On {
		wrong, said := firstFault(b)
		if said == "" {
			return a.beginWith(b.Doc)
		}
		step, r.Error = wrong, said
	}
	page := a.startPage(step, answers, b, c.Field)
	text, err := json.Marshal(page)
	r.Text = string(text)
	return err
}

// firstFault is the step of the first answer that cannot be used, and what is
// wrong with it.
func firstFault(b *scene.Begun) (step int, said string) {
	for i := range startSteps {
		for _, ask := range startSteps[i].asks {
			if text := b.Faults[ask.name]; text != "" {
				return i, text
			}
		}
	}
	return 0, ""
}

// beginWith puts a new vehicle on the sheet, seen from above, as a step that
// undo takes back.
func (a *App) beginWith(doc *scene.Document) error {
	hist := a.hist
	if err := a.begin(doc); err != nil {
		return err
	}
	hist.Do(doc, beginLabel)
	a.hist = hist
	a.view = fitment.PlanView
	a.wait = 2
	a.live = upper(beginLabel) + ". " + notMeasuredWords(len(a.notMeasured()))
	a.save()
	return nil
}

// startPage is a step as the page shows it. focus is the question at hand.
func (a *App) startPage(step int, answers scene.Answers, b *scene.Begun, focus string) *StartPage {
	s := &startSteps[step]
	p := &StartPage{Step: step, Steps: len(startSteps), Title: s.title, Ask: s.ask, Units: unit(a.doc.Show)}
	for _, ask := range s.asks {
		if ask.name == scene.AskRearTyre && b.Chosen[scene.AskRearSame] == scene.SameTyre {
			continue
		}
		p.Questions = append(p.Questions, a.startQuestion(ask, answers, b))
	}
	k := &sketcher{app: a, b: b, focus: focus, Sketch: &Sketch{Lines: []SketchLine{}, Dims: []SketchDim{}}}
	s.sketch(k)
	p.Sketch = k.Sketch
	return p
}

func (a *App) startQuestion(ask startAsk, answers scene.Answers, b *scene.Begun) StartQuestion {
	q := StartQuestion{Name: ask.name, Label: ask.label, Help: ask.help, Type: ask.kind,
		Value: answers[ask.name], Given: b.Given[ask.name], Error: b.Faults[ask.name]}
	switch ask.kind {
	case "choice":
		q.Choices = startChoices(ask.name, b)
		q.Value = b.Chosen[ask.name]
		// A guide is no answer, whoever chose it.
		if q.Value == scene.Guide {
			q.Given = false
		}
	case "tyre":
		q.Default = scene.New().Vehicle.Front.Tyre.Code
	default:
		q.Unit = unit(a.doc.Show)
		q.Default = a.length(scene.Begin(without(answers, ask.name), a.doc.Show).MM[ask.name])
	}
	return q
}

// without is the answers but one: what they make of it is its default.
func without(answers scene.Answers, ask string) scene.Answers {
	rest := scene.Answers{}
	for k, v := range answers {
		if k != ask {
			rest[k] = v
		}
	}
	return rest
}
