package app

import (
	"fmt"

	"scrubline/fitment"
)

// MendPanel is how the parts of the open finding can be moved.
type MendPanel struct {
	Key   string    `json:"key"`  // the finding's
	Busy  bool      `json:"busy"` // still being looked for
	Says  []string  `json:"says"` // what is to be known of parts without a move
	Ways  []MendWay `json:"ways"`
	Axes  [3]bool   `json:"axes"`  // along, sideways, up and down: where moves are looked for
	Note  string    `json:"note"`  // what is not certain; empty for nothing
	Shown int       `json:"shown"` // the way whose ghost is shown; -1 for none
}

// MendWay is one move, for a button.
type MendWay struct {
	Row     int    `json:"row"`   // to send back with mend_take
	Text    string `json:"text"`  // "Move battery 38 to the right"
	Keeps   string `json:"keeps"` // "then 75 from exhaust"
	Follows string `json:"follows"`
}

// mendPanel is what the page shows of the moves; nil when none are asked for.
func (a *App) mendPanel() *MendPanel {
	if !a.mendKnown() {
		return nil
	}
	k := &a.mends
	p := &MendPanel{Key: k.key, Busy: !k.done, Says: []string{}, Ways: []MendWay{}, Axes: k.axes, Shown: -1}
	if p.Axes == ([3]bool{}) {
		p.Axes = [3]bool{true, true, true}
	}
	if !k.done {
		return p
	}
	w := fitment.NewWords(a.checked.Doc)
	for _, d := range k.jobs {
		m := d.Result()
		if len(m.Moves) == 0 && !m.Clear {
			p.Says = append(p.Says, w.MendTitle(m)+".")
		}
		if m.Partial {
			p.Note = "Not every move could be tried: there may be a smaller one."
		}
	}
	for i, way := range a.mendWays() {
		it := MendWay{Row: i, Text: fmt.Sprintf("Move %s %s", a.plain(way.mend.Part), w.MendMove(way.move)),
			Keeps: upper(w.MendKeeps(way.move)), Follows: w.MendFollows(way.mend, way.move)}
		if way.move.TurnDeg != 0 {
			it.Text = fitment.BeginName(upper(a.name(way.mend.Part))) + " " + w.MendMove(way.move)
		}
		p.Ways = append(p.Ways, it)
	}
	if g := k.ghost; g != nil {
		p.Shown = g.row
	}
	return p
}
