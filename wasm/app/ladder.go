package app

import (
	"fmt"

	"scrubline/fitment"
)

// ladders is what the sketcher knows of what happens on the way down and up.
// It is worked out in slices once the check is done and no finger is on the
// canvas. What is struck out belongs to nobody's document: it is a question.
type ladders struct {
	up     bool         // the way the list shows
	ends   fitment.Ends // which ends move on it; empty is both
	struck map[string]bool

	model *fitment.Model // what the ladders below are of; nil: of none yet
	fresh bool           // they answer what is asked now
	plain *fitment.Ladder
	list  *fitment.Ladder    // the same with what is struck out
	staff [2]*fitment.Ladder // both ends together, down and up: what the staff shows
}

// ask is what the list shows.
func (k *ladders) ask() fitment.LadderAsk {
	return fitment.LadderAsk{Up: k.up, Ends: k.ends, Without: k.struck}
}

// ladderSlice does a slice of the ladders of the model on the sheet, and puts
// them together when there is no more to do.
func (a *App) ladderSlice() {
	k, m := &a.ladders, a.model
	if k.fresh && k.model == m {
		return
	}
	asks := []fitment.LadderAsk{k.ask(), {Without: k.struck}, {Up: true, Without: k.struck}}
	from := a.host.NowMS()
	for i := range asks {
		for !m.LadderStep(asks[i]) {
			if a.host.NowMS()-from >= sliceMS {
				a.host.Wake(100)
				return
			}
		}
	}
	plain := k.ask()
	plain.Without = nil
	k.model, k.fresh = m, true
	k.plain, k.list = m.Ladder(plain), m.Ladder(asks[0])
	k.staff = [2]*fitment.Ladder{m.Ladder(asks[1]), m.Ladder(asks[2])}
	a.touch()
}

// known says whether the ladders are those of the findings shown.
func (a *App) laddersKnown() bool {
	return a.ladders.model != nil && a.ladders.model == a.checked && a.hand.mode != dragPart
}

// suppose strikes a cause out of the ladder, or takes it back; without a key,
// all of them are taken back.
func (a *App) suppose(c *Command, _ *Reply) error {
	k := &a.ladders
	now := map[string]bool{}
	for cause := range k.struck {
		now[cause] = c.Key != ""
	}
	if c.Key != "" {
		now[c.Key] = c.On
	}
	for cause, on := range now {
		if !on {
			delete(now, cause)
		}
	}
	k.struck, k.fresh = now, false
	return nil
}

// ladderCommand chooses the way the list shows.
func (a *App) ladderCommand(c *Command, _ *Reply) error {
	ends := fitment.Ends(c.Key)
	if c.Text != "down" && c.Text != "up" || ends != fitment.BothEnds && ends != fitment.FrontOnly && ends != fitment.RearOnly {
		return fmt.Errorf("a way is down or up, of both ends, the front or the rear, not %q of %q", c.Text, c.Key)
	}
	a.ladders.up, a.ladders.ends, a.ladders.fresh = c.Text == "up", ends, false
	return nil
}

// rungCommand goes to a rung of the list.
func (a *App) rungCommand(c *Command, _ *Reply) error {
	if !a.laddersKnown() {
		return nil
	}
	rungs, _ := a.ladders.list.All()
	if c.Row < 0 || c.Row >= len(rungs) {
		return fmt.Errorf("the way has no rung %d", c.Row)
	}
	r := rungs[c.Row]
	a.toRung(a.findingOf(r), r.At.FrontMM, r.At.RearMM)
	return nil
}

// toRung goes to a height and shows the finding that begins there.
func (a *App) toRung(key string, front, rear float64) {
	was, noted := a.stand(), a.left
	if key != "" {
		a.toFinding(key)
	}
	if f, r := a.travel.Pair(a.travel.Coord(front, rear)); !near(f, front) || !near(r, rear) {
		a.apart = true
	}
	a.posed = nil
	a.setHeight(front, rear)
	a.left = noted
	a.leave(was)
}

// findingOf is the key of the finding a rung is about; empty for none.
func (a *App) findingOf(r *fitment.Rung) string {
	switch {
	case r.Finding != nil:
		return r.Finding.Key()
	case r.Limit != nil:
		return limitKey(r.Limit)
	case r.Kind == fitment.RungRimLine || r.Kind == fitment.RungGround:
		for _, h := range hangings(a.checked.Check()) {
			if h.Part == r.Parts[0] {
				return h.key()
			}
		}
	}
	return ""
}

// rungStatus is how a rung is marked.
func rungStatus(r *fitment.Rung) fitment.Status {
	switch r.Kind {
	case fitment.RungContact, fitment.RungGround:
		return fitment.Contact
	case fitment.RungLimit:
		return limitStatus(r.Limit.Kind)
	case fitment.RungEnd:
		return ""
	}
	return fitment.Tight
}
