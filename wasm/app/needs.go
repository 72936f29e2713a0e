package app

import (
	"fmt"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

// kindsTarget begins what an edit of two kinds' need is aimed at: kinds:A|B.
const kindsTarget = "kinds:"

// NeedsPanel is what two parts must keep because of what they are, with the
// scene's own figures.
type NeedsPanel struct {
	Kinds []FormChoice `json:"kinds"`
	Rows  []NeedRow    `json:"rows"`  // every two kinds of part, once
	Pairs []NeedPair   `json:"pairs"` // parts with a figure of their own
	Note  string       `json:"note"`
}

// NeedRow is what two kinds of part must keep.
type NeedRow struct {
	A      string `json:"a"` // the kinds
	B      string `json:"b"`
	Target string `json:"target"` // for edit, with the fields need (empty text: the table's) and why
	Value  string `json:"value"`
	Unit   string `json:"unit"`
	From   string `json:"from"`  // where the table's figure comes from
	Table  string `json:"table"` // the table's figure, for people
	Set    bool   `json:"set"`   // the scene has its own
	Why    string `json:"why"`
	Warn   string `json:"warn"` // it is less than the table's: what may come of that
}

// NeedPair is two parts with a figure of their own.
type NeedPair struct {
	Target string `json:"target"` // names its form, and is what an edit is aimed at: the field need, with empty text, takes it away
	Names  string `json:"names"`
	Text   string `json:"text"`
	Warn   string `json:"warn"`
}

// kindNouns name what a part is within a sentence.
var kindNouns = map[scene.Trait]string{
	scene.Fixed: "a fixed part", scene.Frame: "frame", scene.Floor: "floor panel", scene.Moving: "suspension, axle, steering",
	scene.Engine: "engine or gearbox", scene.Spring: "air spring", scene.Driveshaft: "driveshaft", scene.TyreTrait: "tyre",
	scene.Exhaust: "exhaust", scene.Fuel: "fuel", scene.Brake: "brake", scene.Electric: "wiring and electric parts",
	scene.Battery: "battery", scene.Air: "compressed air", scene.Burns: "what burns",
}

// needsCommand opens or closes the list of needs.
func (a *App) needsCommand(c *Command, _ *Reply) error {
	a.needsOpen = c.On
	return nil
}

// needsPanel is the open list of needs; nil when it is closed.
func (a *App) needsPanel() *NeedsPanel {
	if !a.needsOpen {
		return nil
	}
	p := &NeedsPanel{Kinds: []FormChoice{}, Rows: []NeedRow{}, Pairs: []NeedPair{}, Note: a.inVariant() + "What two parts must keep between them, from surface to surface, because of what they are. " +
		"Where a part is several things, the largest figure holds. Figures to start from: check them against your local codes."}
	for _, t := range scene.AllTraits {
		p.Kinds = append(p.Kinds, FormChoice{string(t), upper(kindNouns[t])})
	}
	for _, k := range fitment.KindNeeds(a.doc) {
		p.Rows = append(p.Rows, a.needRow(&k))
	}
	w := fitment.NewWords(a.doc)
	for i := range a.doc.Needs {
		n := &a.doc.Needs[i]
		if n.Parts == [2]string{} {
			continue
		}
		if need, err := a.model.Need(n.Parts[0], n.Parts[1]); err == nil {
			p.Pairs = append(p.Pairs, NeedPair{Target: needForm + n.Parts[0] + "|" + n.Parts[1], Names: a.pairName(n.Parts[0], n.Parts[1]),
				Text: sentence(minus(w.Need(&need))), Warn: a.lessWords(need.Lowered, need.TableMM, &need.Table, need.Caution)})
		}
	}
	return p
}

func (a *App) needRow(k *fitment.KindNeed) NeedRow {
	r := NeedRow{A: string(k.A), B: string(k.B), Target: kindsTarget + string(k.A) + "|" + string(k.B), Value: a.length(k.MM), Unit: unit(a.doc.Show),
		From: upper(k.Table.What) + ": " + k.Table.Standing, Table: a.measured(k.Table.MM), Set: k.Set != nil,
		Warn: a.lessWords(k.Lowered, k.Table.MM, &k.Table, k.Caution)}
	if k.ShieldMM > 0 {
		r.From += ". With a heat shield between two parts " + a.measured(k.ShieldMM)
	}
	if k.Relative {
		r.From += ". Only where the two move against each other"
	}
	r.From += "."
	if k.Set != nil {
		r.Why = k.Set.Why
	}
	return r
}

// setKindNeed changes a field of what two kinds of part must keep.
func (a *App) setKindNeed(kinds, field, text string) (*scene.Document, string, error) {
	x, y, _ := strings.Cut(kinds, "|")
	n := scene.Need{Traits: [2]scene.Trait{scene.Trait(x), scene.Trait(y)}}
	own := a.doc.NeedFor(n)
	if own != nil {
		n = *own
	}
	var err error
	switch {
	case field == needMM && strings.TrimSpace(text) == "":
		return scene.DropNeed(a.doc, n)
	case field == needMM:
		if n.NeedMM, err = scene.ParseLength(text, a.doc.Show); err != nil {
			return nil, "", err
		}
	case field == needWhy && own != nil:
		n.Why = text
	default:
		return nil, "", fmt.Errorf("the need of two kinds of part has no field %q", field)
	}
	return scene.SetNeed(a.doc, n)
}
