package app

import (
	"errors"
	"fmt"
	"sort"

	"scrubline/fitment"
	"scrubline/scene"
)

// mends is what is known of how parts can be moved out of what they fall short
// of. It is looked for in slices, for the parts of the finding that is open,
// while no finger is on the canvas.
type mends struct {
	axes  [3]bool        // along which axes moves are looked for; none set is all
	model *fitment.Model // what the rest is of
	key   string         // the finding it is for
	jobs  []*fitment.Mender
	done  bool
	ghost *ghost
}

// ghost is a part shown where a move would put it.
type ghost struct {
	part  string
	row   int
	model *fitment.Model // of the document with the move taken
}

// mendWay is one move of one part.
type mendWay struct {
	mend *fitment.Mend
	move *fitment.MendMove
}

// mendFor are the parts whose moves are looked for now: of the finding that is
// open both, or what hangs below the rim line.
func (a *App) mendFor() (key string, parts []string) {
	if a.finding == "" || a.checked == nil {
		return "", nil
	}
	r := a.checked.Check()
	for i := range r.Findings {
		if f := &r.Findings[i]; f.Key() == a.finding {
			return a.finding, []string{f.A, f.B}
		}
	}
	for _, h := range hangings(r) {
		if h.key() == a.finding {
			return a.finding, []string{h.Part}
		}
	}
	return "", nil
}

// mendSlice looks on for the moves that are wanted.
func (a *App) mendSlice() {
	k := &a.mends
	key, parts := a.mendFor()
	if key != k.key || a.model != k.model {
		axes := k.axes
		*k = mends{axes: axes, model: a.model, key: key}
		for _, id := range parts {
			if d, err := a.model.NewMender(id, fitment.MendOptions{Axes: axes}); err == nil {
				k.jobs = append(k.jobs, d)
			}
		}
		a.touch()
	}
	if k.done || len(k.jobs) == 0 {
		return
	}
	from := a.host.NowMS()
	for a.host.NowMS()-from < mendMS {
		if !a.mendStep() {
			k.done = true
			a.touch()
			return
		}
	}
	a.host.Wake(100)
}

// mendMS is how long a slice may take: less than a check's, for frames are to be
// kept while one looks on.
const mendMS = 6.0

// mendStep does one step of the first part that is not done; false when all are.
func (a *App) mendStep() bool {
	for _, d := range a.mends.jobs {
		if !d.Advance() {
			return true
		}
	}
	return false
}

// mendKnown says whether the moves found are those of what is shown.
func (a *App) mendKnown() bool {
	key, _ := a.mendFor()
	return a.mends.model == a.model && a.checked == a.model && a.mends.key == key && key != "" && a.hand.mode != dragPart
}

// mendWays are the moves found, plain ones before turns, smaller ones first.
func (a *App) mendWays() (ways []mendWay) {
	for _, d := range a.mends.jobs {
		m := d.Result()
		for i := range m.Moves {
			ways = append(ways, mendWay{m, &m.Moves[i]})
		}
	}
	sort.SliceStable(ways, func(i, j int) bool {
		x, y := ways[i].move, ways[j].move
		if (x.TurnDeg != 0) != (y.TurnDeg != 0) {
			return y.TurnDeg != 0
		}
		return x.SizeMM < y.SizeMM
	})
	return ways
}

// mendCommand chooses along which axes moves are looked for.
func (a *App) mendCommand(c *Command, _ *Reply) error {
	k := &a.mends
	for axis, name := range [3]string{"x", "y", "z"} {
		if name != c.Key {
			continue
		}
		if k.axes == ([3]bool{}) {
			k.axes = [3]bool{true, true, true}
		}
		axes := k.axes
		if axes[axis] = c.On; axes == ([3]bool{}) {
			return errors.New("leave at least one way open")
		}
		k.axes, k.model = axes, nil
		return nil
	}
	return fmt.Errorf("a move is along x, y or z, not %q", c.Key)
}

// wayAt is the way of that row.
func (a *App) wayAt(row int) (mendWay, error) {
	if !a.mendKnown() || !a.mends.done {
		return mendWay{}, errors.New("the moves are still being looked for")
	}
	if ways := a.mendWays(); row >= 0 && row < len(ways) {
		return ways[row], nil
	}
	return mendWay{}, fmt.Errorf("there is no move %d", row)
}

// takeMend moves the part, with its group, as one step to undo.
func (a *App) takeMend(c *Command, _ *Reply) error {
	w, err := a.wayAt(c.Row)
	if err != nil {
		return err
	}
	doc, label, err := a.mended(w)
	if err != nil {
		return err
	}
	text := fmt.Sprintf("Moved %s %s.", a.plain(w.mend.Part), fitment.NewWords(a.doc).MendMove(w.move))
	if w.move.TurnDeg != 0 {
		text = fitment.BeginName(upper(a.name(w.mend.Part))) + " " + fitment.NewWords(a.doc).MendMove(w.move) + "."
	}
	if err := a.commit(doc, label); err != nil {
		return err
	}
	a.live = text // the page says it where it offers to take it back
	return nil
}

// mended is the document with a way taken: as a tape marks it, where that will do.
func (a *App) mended(w mendWay) (*scene.Document, string, error) {
	by, deg := w.move.ByMM, w.move.TurnDeg
	if t := w.move.Tape; t != nil {
		by, deg = t.ByMM, t.TurnDeg
	}
	parts := append([]string{w.mend.Part}, w.mend.With...)
	if deg != 0 {
		return scene.TurnParts(a.doc, parts, w.move.Axis, deg)
	}
	return scene.CarryParts(a.doc, parts, by)
}

// ghostCommand shows where a way would put the part, or no longer.
func (a *App) ghostCommand(c *Command, _ *Reply) error {
	if !c.On {
		a.mends.ghost = nil
		return nil
	}
	w, err := a.wayAt(c.Row)
	if err != nil {
		return err
	}
	doc, _, err := a.mended(w)
	if err != nil {
		return err
	}
	m := a.modelOf(doc)
	if m == nil {
		return errors.New("the part cannot be shown there")
	}
	a.mends.ghost = &ghost{part: w.mend.Part, row: c.Row, model: m}
	return nil
}

// ghostHere is the shown ghost in the main view, its group's mates left out.
func (a *App) ghostHere() [][]fitment.Pt {
	g := a.mends.ghost
	if g == nil || a.selected != "" || !a.mendKnown() {
		return nil
	}
	i := a.partIndex(g.part)
	if i < 0 {
		return nil
	}
	// From far behind, so that the section shows all of it.
	return g.model.Outlines(a.view, farBehind, a.state())[i].Seen
}

const farBehind = 1e6 // mm
