package app

import (
	"errors"
	"math"
	"strconv"

	"scrubline/fitment"
	"scrubline/scene"
)

// TapeItem is a tape in the list.
type TapeItem struct {
	ID       string `json:"id"`
	Name     string `json:"name"`
	Ends     string `json:"ends"`   // what it is held to: "Air tank, rear end – ground"
	Length   string `json:"length"` // at this height: "312.5 mm"
	Along    string `json:"along"`  // "300 back, 86 up"; empty when it lies along one axis
	Lost     string `json:"lost"`   // why it cannot be measured any more; empty when it can
	Check    string `json:"check"`  // "Checked with the tape on 2026-11-25: read 312, 0.5 less than drawn"
	Stale    string `json:"stale"`  // "drawing changed since: 320 now"; empty when not
	Selected bool   `json:"selected"`
}

// TapingItem is the laying of a tape as it stands.
type TapingItem struct {
	On    bool   `json:"on"`
	Words string `json:"words"` // what to do next, or what was just laid
	First bool   `json:"first"` // the first end is held
	More  bool   `json:"more"`  // there is something else under the finger
}

// tapingItem says how far the laying of a tape is.
func (a *App) tapingItem() TapingItem {
	t := &a.tape
	it := TapingItem{On: t.on, First: t.from != nil, More: len(t.picks) > 1 && (t.from != nil || t.laid != "")}
	switch laid := a.doc.TapeNamed(t.laid); {
	case !t.on:
	case t.from != nil:
		it.Words = "From " + a.model.EndWords(*t.from) + ". Tap the other end."
	case laid != nil:
		k := a.tapeItem(laid)
		it.Words = k.Length + ": " + k.Ends
		if k.Along != "" {
			it.Words += " (" + k.Along + ")"
		}
	default:
		it.Words = "Tap a corner, an edge, an end or a centre."
	}
	return it
}

func (a *App) tapeItems() []TapeItem {
	list := []TapeItem{}
	for i := range a.doc.Tapes {
		list = append(list, a.tapeItem(&a.doc.Tapes[i]))
	}
	return list
}

func (a *App) tapeItem(t *scene.Tape) TapeItem {
	it := TapeItem{ID: t.ID, Name: t.Name, Selected: t.ID == a.tape.shown,
		Ends: a.model.EndWords(t.From) + " – " + a.model.EndWords(t.To)}
	r, err := a.model.Tape(t.From, t.To, a.state())
	if err != nil {
		it.Lost = sentence(err.Error())
	} else {
		it.Length = a.measured(r.LengthMM) + " " + unit(a.doc.Show)
		if !straight(r.AlongMM, r.LengthMM) {
			it.Along = a.alongWords(r.AlongMM)
		}
	}
	if k := a.doc.CheckOfTape(t.ID); k != nil {
		it.Check = a.tickWords(k)
		it.Stale = a.tapeStale(t, k)
	}
	return it
}

// tickWords say when a tape was checked, what it read, and how that compares
// with the drawing of then.
func (a *App) tickWords(k *scene.Check) string {
	s := checkedOn(k) + ": read " + a.measured(k.MeasuredMM)
	switch off := a.measured(math.Abs(k.OffMM)); {
	case off == "0":
		s += ", as drawn"
	case k.OffMM > 0:
		s += ", " + off + " more than drawn"
	default:
		s += ", " + off + " less than drawn"
	}
	if k.FrontMM != 0 || k.RearMM != 0 {
		s += ", body at " + a.standWords(k.FrontMM, k.RearMM)
	}
	return s
}

func checkedOn(k *scene.Check) string { return "Checked with the tape on " + k.On }

// standWords is a height of the body: a named one by its name.
func (a *App) standWords(front, rear float64) string {
	for _, h := range a.doc.Heights {
		if near(h.FrontMM, front) && near(h.RearMM, rear) {
			return lower(h.Name)
		}
	}
	if f, r := a.level(front), a.level(rear); f != r {
		return f + "/" + r
	}
	return a.level(front)
}

// staleMM is how much a drawn length may change and a check of it still hold:
// as much as is shown.
const staleMM = 0.05

// tapeStale says that the drawing has another length now where it was checked,
// at the height at which it was checked; empty when it has not.
func (a *App) tapeStale(t *scene.Tape, k *scene.Check) string {
	r, err := a.model.Tape(t.From, t.To, fitment.StateAt(k.FrontMM, k.RearMM))
	if err != nil {
		return "Drawing changed since: this can no longer be measured in it"
	}
	if math.Abs(r.LengthMM-(k.MeasuredMM-k.OffMM)) > staleMM {
		return "Drawing changed since: " + a.measured(r.LengthMM) + " now"
	}
	return ""
}

// partCheck says when a part was checked, and whether its numbers changed since.
func (a *App) partCheck(p *scene.Part) (words string, stale bool) {
	k := a.doc.CheckOfPart(p.ID)
	if k == nil {
		return "", false
	}
	if k.Drawn != scene.Numbers(p) {
		return checkedOn(k) + ". Drawing changed since", true
	}
	return checkedOn(k), false
}

// CheckedItem counts what was checked with the tape.
type CheckedItem struct {
	Words string `json:"words"`
	Stale bool   `json:"stale"`
}

// checkedItem says how much of the drawing was held against the real vehicle.
func (a *App) checkedItem(tapes []TapeItem) CheckedItem {
	parts, held, stale := 0, 0, 0
	for i := range a.doc.Parts {
		if w, old := a.partCheck(&a.doc.Parts[i]); w != "" {
			parts++
			if old {
				stale++
			}
		}
	}
	for i := range tapes {
		if tapes[i].Check != "" {
			held++
			if tapes[i].Stale != "" {
				stale++
			}
		}
	}
	if parts+held == 0 {
		return CheckedItem{}
	}
	s := "Checked with the tape: " + strconv.Itoa(parts) + " of " + count(len(a.doc.Parts), "part", "parts")
	if len(tapes) > 0 {
		s += ", " + strconv.Itoa(held) + " of " + count(len(tapes), "measure", "measures")
	}
	if stale > 0 {
		s += ". Drawing changed since: " + strconv.Itoa(stale)
	}
	return CheckedItem{s + ".", stale > 0}
}

// checkCommand ticks off a tape, with what it read, or a part; without On it
// takes that back. Name is the day.
func (a *App) checkCommand(c *Command, _ *Reply) error {
	if !c.On {
		return a.committed(scene.Untick(a.doc, c.Key, c.Part))
	}
	if c.Part != "" {
		return a.committed(scene.TickPart(a.doc, c.Part, c.Name))
	}
	t := a.doc.TapeNamed(c.Key)
	if t == nil {
		return errors.New("the tape is gone")
	}
	if a.posed != nil || a.moves != (moves{}) {
		return errors.New("put the movements to rest and the wheels straight first, on the truck too")
	}
	r, err := a.model.Tape(t.From, t.To, a.state())
	if err != nil {
		return err
	}
	read, err := scene.ParseLength(c.Text, a.doc.Show)
	if err != nil {
		return err
	}
	return a.committed(scene.TickTape(a.doc, c.Key, c.Name, read, r.LengthMM, a.front, a.rear))
}

// checkFields let a part be ticked off at the truck, and say when it was.
func (a *App) checkFields(p *scene.Part) []FormField {
	words, stale := a.partCheck(p)
	tick := FormField{Field: "check", Type: "action", Label: "Tick off: checked with the tape today",
		Help:   "Notes that its place and its measures at the truck are as drawn here. Changing its numbers later shows.",
		Action: &Command{Do: "check", Part: p.ID, On: true}}
	if words == "" {
		return []FormField{tick}
	}
	shown := FormField{Field: "checked", Type: "shown", Label: "At the truck", Value: words}
	if stale {
		return []FormField{shown, tick}
	}
	return []FormField{shown, {Field: "uncheck", Type: "action", Label: "Take the check back", Action: &Command{Do: "check", Part: p.ID}}}
}
