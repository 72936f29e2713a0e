package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// Drawn is what the scene without any variant is called.
const Drawn = "As drawn"

// compareReachMM is how far beyond its need the least gap of a pair is still
// worked out where it falls short in another variant: further away is far.
const compareReachMM = 250.0

// Comparison is the scene as drawn beside its variants: the answers of each, and
// where they differ.
type Comparison struct {
	Doc     *scene.Document
	Columns []Column // the scene as drawn first, then the variants in their order
	Pairs   []PairRow

	checked int // columns whose answers are complete
	next    int // cell of the pairs to work out
	listed  bool
}

// Column is one of the alternatives.
type Column struct {
	ID      string // empty: as drawn
	Name    string
	Model   *Model
	Totals  scene.Totals
	Differs []scene.Difference // from the scene as drawn
	Low     LowClear
}

// LowClear is how far down the body goes from ride before anything touches that
// did not touch all along.
type LowClear struct {
	At     Level
	AtRide bool     // something touches at ride already
	By     []string // the parts that touch there; empty: nothing down to the end of the travel
}

// PairRow is a pair that falls short in one of the alternatives and differs
// between them.
type PairRow struct {
	A, B, Service string
	Cells         []PairCell // one for each column
}

// PairStatus is how a pair stands in one of the alternatives.
type PairStatus string

const (
	PairContact   PairStatus = "contact"
	PairTight     PairStatus = "tight"
	PairClear     PairStatus = "clear"
	PairFar       PairStatus = "far"       // clear, and the gap is at least GapMM
	PairUndecided PairStatus = "undecided" // nothing is certain
	PairJoined    PairStatus = "joined"    // declared to be meant to touch
	PairAbsent    PairStatus = "absent"    // one of the two is not there
)

// PairCell is the least gap of a pair over the whole travel of one alternative.
type PairCell struct {
	Status                 PairStatus
	GapMM, BoundMM, NeedMM float64
}

// Compare sets a document beside its variants. Answers are worked out by Step.
// known are models of these variants by id, from before; their answers are used
// where they still hold.
func Compare(doc *scene.Document, known map[string]*Model) (*Comparison, error) {
	c := &Comparison{Doc: doc}
	ids := []string{""}
	for i := range doc.Variants {
		ids = append(ids, doc.Variants[i].ID)
	}
	var drawn *scene.Document
	for i, id := range ids {
		made, err := scene.Resolve(doc, id)
		if err != nil {
			return nil, err
		}
		col := Column{ID: id, Name: Drawn, Totals: made.Totals()}
		if i == 0 {
			drawn = made
		} else {
			col.Name = doc.Variants[i-1].Name
			col.Differs = scene.Differences(drawn, made)
		}
		from := known[id]
		if from == nil && i > 0 {
			from = c.Columns[0].Model
		}
		if from == nil {
			col.Model, err = Compile(made)
		} else {
			col.Model, err = from.With(made)
		}
		if err != nil {
			return nil, err
		}
		c.Columns = append(c.Columns, col)
	}
	return c, nil
}

// Step does a part of the work, small enough to fit between two frames; true
// when none is left.
func (c *Comparison) Step() (done bool) {
	if c.checked < len(c.Columns) {
		col := &c.Columns[c.checked]
		if col.Model.LadderStep(LadderAsk{}) {
			col.Low = lowClear(col.Model.Ladder(LadderAsk{}))
			c.checked++
			c.share()
		}
		return false
	}
	if !c.listed {
		c.listed = true
		c.list()
	}
	n := len(c.Columns)
	if c.next < len(c.Pairs)*n {
		row := &c.Pairs[c.next/n]
		row.Cells[c.next%n] = c.Columns[c.next%n].Model.pairCell(row)
		c.next++
		return false
	}
	kept := c.Pairs[:0]
	for _, row := range c.Pairs {
		if row.differs() {
			kept = append(kept, row)
		}
	}
	c.Pairs, c.next = kept, len(kept)*n
	return true
}

// share lets the next alternative use what is known by now of the parts it has
// in common with the scene as drawn.
func (c *Comparison) share() {
	if c.checked == len(c.Columns) {
		return
	}
	m := c.Columns[c.checked].Model
	if m.running != nil || m.report != nil {
		return
	}
	m.elsewhere = c.Columns[0].Model.verdicts
}

// Finish does all that Step has left to do.
func (c *Comparison) Finish() *Comparison {
	for !c.Step() {
	}
	return c
}

// Done is how many of the alternatives are worked out, of how many.
func (c *Comparison) Done() (done, of int) { return c.checked, len(c.Columns) }

// lowClear reads the way down: the first touch that the height has a say in.
func lowClear(l *Ladder) LowClear {
	for i := range l.Rungs {
		if r := &l.Rungs[i]; (r.Kind == RungContact || r.Kind == RungGround) && !r.Still {
			return LowClear{At: r.At, AtRide: r.AtRide, By: r.Parts}
		}
	}
	return LowClear{At: l.Rungs[len(l.Rungs)-1].At}
}

// list collects the pairs that fall short anywhere, in the order they are met.
func (c *Comparison) list() {
	seen := map[PairKey]bool{}
	add := func(a, b, service string) {
		k := PairKey{a, b, service}
		if service == "" {
			pair := ordered(a, b)
			k = PairKey{pair[0], pair[1], ""}
		}
		if !seen[k] {
			seen[k] = true
			c.Pairs = append(c.Pairs, PairRow{A: a, B: b, Service: service, Cells: make([]PairCell, len(c.Columns))})
		}
	}
	for i := range c.Columns {
		r := c.Columns[i].Model.Check()
		for k := range r.Findings {
			f := &r.Findings[k]
			add(f.A, f.B, f.Service)
		}
		for k := range r.Undecided {
			add(r.Undecided[k].A, r.Undecided[k].B, "")
		}
	}
}

// PairKey tells the rows of a comparison apart.
type PairKey struct{ A, B, Service string }

// pairCell is the least gap of a row's pair in this model.
func (m *Model) pairCell(row *PairRow) PairCell {
	i, a := m.index[row.A]
	j, b := m.index[row.B]
	if !a || !b {
		return PairCell{Status: PairAbsent}
	}
	for k := range m.Check().Findings {
		f := &m.report.Findings[k]
		if f.Service == row.Service && ordered(f.A, f.B) == ordered(row.A, row.B) {
			return PairCell{PairStatus(f.Status), f.GapMM, f.BoundMM, f.NeedMM}
		}
	}
	x, y := m.parts[i], m.parts[j]
	room := row.Service != ""
	var n need
	if room {
		if x.roomFor() == "" {
			return PairCell{Status: PairAbsent}
		}
	} else if m.needs.joined[ordered(row.A, row.B)] {
		return PairCell{Status: PairJoined}
	} else {
		n = m.needs.between(x.compiled, y.compiled, m.moveApart(x, y))
	}
	return m.farCell(x, y, room, n.mm)
}

// farCell is the least gap of a pair that keeps its need, as far as it matters.
func (m *Model) farCell(x, y *placed, room bool, need float64) PairCell {
	reach := need + compareReachMM
	ans := &pairAnswer{decided: true}
	for i := range x.items {
		for j := range y.items {
			p, q := &x.items[i], &y.items[j]
			if (p.room != "") == room && q.room == "" {
				m.least(p, q, reach, ans)
			}
		}
	}
	switch {
	case !ans.near || ans.decided && ans.gap >= reach-geom.GapTol:
		return PairCell{PairFar, reach, reach, need}
	case !ans.decided:
		return PairCell{PairUndecided, ans.gap, ans.bound, need}
	}
	m.remeasure(pairKey{a: x, b: y, need: reach, room: room}, ans)
	return PairCell{PairClear, ans.gap, ans.bound, need}
}

// differs says whether a row is worth reading: a gap that is another by more
// than the search is certain of, or another status or need.
func (row *PairRow) differs() bool {
	for i := range row.Cells {
		a, b := &row.Cells[0], &row.Cells[i]
		if a.Status != b.Status || a.NeedMM != b.NeedMM || math.Abs(a.GapMM-b.GapMM) > certainMM {
			return true
		}
	}
	return false
}

// certainMM is within what a least gap over the travel is certain.
const certainMM = 0.1
