package fitment

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// MendOptions says which moves of a part are looked for.
type MendOptions struct {
	Axes    [3]bool // along which body axes it may be moved; none set is all
	LimitMM float64 // how far at most; 0 is [MendLimitMM]
	NoTurns bool    // leave out turns about one axis
}

// MendLimitMM is how far a mend is looked for when nothing is said.
const MendLimitMM = 250.0

// Mend is how a part can be moved so that it keeps all its needs over the whole
// travel at once, and hangs below no rim line at the named heights.
type Mend struct {
	Part string
	// Clear says that it falls short of nothing where it stands.
	Clear bool
	// Moves are the ways, smallest first: the smallest of all, then along one
	// axis, then turns. Empty when there is none within LimitMM.
	Moves   []MendMove
	LimitMM float64
	// Partial says that not every move could be tried: there may be a smaller one.
	Partial bool
	// Blocks are the parts in the way, the one that blocks most first, when there
	// is no move.
	Blocks []string
	// Stays says that a part of its kind goes where the vehicle has it, or that it
	// is locked; Instead are then the parts it falls short of that can be moved.
	Stays   bool
	Locked  bool
	Instead []string
	// With are the parts of its group that do not move against it: they are moved
	// along. Within are those of them that fall short of each other: no move of
	// the group mends that, and none is looked for.
	With   []string
	Within [][2]string
	// Joined are the parts that these are declared joined with: they have to
	// follow, or be joined anew. No move sinks the part deeper into one that stays.
	Joined []string
}

// MendMove is one way: a plain move, or a turn about one axis through the
// part's reference point.
type MendMove struct {
	ByMM scene.Vec // body axes
	// TurnDeg is a right-handed turn about body axis Axis (0 X, 1 Y, 2 Z)
	// through the reference point; 0 for a plain move.
	TurnDeg float64
	Axis    int
	// SizeMM is how far the part goes; with a turn, how far its farthest point.
	SizeMM float64
	// Free says that it is the smallest of all moves, not only along one axis.
	Free bool
	// Tape is the move made larger, to what a tape is marked with (1 mm, or 1/16
	// in; turns to half a degree), where that keeps all needs as well; nil where
	// it does not.
	Tape *TapeMove
	// Keeps are what then stands about as near as it may, nearest first.
	Keeps []Kept
	// Parts are what it takes the part away from although they are joined.
	Parts []Parted
}

// Parted is a part that a move comes away from, and how far at ride.
type Parted struct {
	Part  string
	GapMM float64
}

// TapeMove is a move as one would measure it out.
type TapeMove struct {
	ByMM    scene.Vec
	TurnDeg float64
}

// Kept is a need that a move only just keeps.
type Kept struct {
	Part          string
	Room          bool // a service room of either is meant
	GapMM, NeedMM float64
}

// Mender looks for a part's mend in steps.
type Mender struct {
	s    *study
	out  *Mend
	cons []constraint
	jobs []*mendJob
	next int
	mass map[int]float64 // what each rival has blocked, as volumes of cells
}

// Mend looks for all of a part's moves at once.
func (m *Model) Mend(part string, o MendOptions) (*Mend, error) {
	d, err := m.NewMender(part, o)
	if err != nil {
		return nil, err
	}
	for !d.Advance() {
	}
	return d.Result(), nil
}

// NewMender begins to look for a part's mend. An error says that there is no
// such part, or that the limit is none.
func (m *Model) NewMender(part string, o MendOptions) (*Mender, error) {
	if _, ok := m.index[part]; !ok {
		return nil, fmt.Errorf("there is no part with the id %q", part)
	}
	if o.LimitMM == 0 {
		o.LimitMM = MendLimitMM
	}
	if !(o.LimitMM > 0 && o.LimitMM <= 5000) {
		return nil, fmt.Errorf("a mend is looked for within more than 0 and at most 5000 mm, not %g", o.LimitMM)
	}
	if o.Axes == ([3]bool{}) {
		o.Axes = [3]bool{true, true, true}
	}
	d := &Mender{out: &Mend{Part: part, LimitMM: o.LimitMM}, mass: map[int]float64{}}
	d.s = m.newStudy(part, o.LimitMM)
	for _, p := range m.parts {
		if !slices.Contains(d.s.members, p) && d.s.joinedWith(p.part.ID) {
			d.out.Joined = append(d.out.Joined, p.part.ID)
		}
	}
	d.begin()
	if d.out.Clear {
		return d, nil
	}
	for _, p := range d.s.members {
		d.out.Locked = d.out.Locked || p.part.Locked
		d.out.Stays = d.out.Stays || stays(p)
		if p.part.ID != part {
			d.out.With = append(d.out.With, p.part.ID)
		}
	}
	if d.out.Stays {
		d.out.Instead = d.movable()
		return d, nil
	}
	if len(d.out.Within) == 0 {
		d.jobs = d.s.jobs(&o)
	}
	return d, nil
}

// begin checks the part where it stands.
func (d *Mender) begin() {
	here := d.s.at(geom.Still)
	for i := range d.s.rims {
		d.cons = append(d.cons, constraint{rim: &d.s.rims[i]})
	}
	d.out.Clear = d.check(here) && d.overRims(here)
	for i, a := range d.s.members {
		for _, b := range d.s.members[:i] {
			if d.s.m.shortOfEachOther(b, a) {
				d.out.Within = append(d.out.Within, [2]string{b.part.ID, a.part.ID})
			}
		}
	}
	d.out.Clear = d.out.Clear && len(d.out.Within) == 0
}

// shortOfEachOther says whether two parts fall short of their need, or one is in
// the other's service room.
func (m *Model) shortOfEachOther(a, b *placed) bool {
	short := func(key pairKey) bool {
		ans := m.answer(key)
		return ans.near && ans.gap < key.need-geom.GapTol
	}
	if short(pairKey{a: a, b: b, room: true}) || short(pairKey{a: b, b: a, room: true}) {
		return true
	}
	if m.needs.joined[ordered(a.part.ID, b.part.ID)] {
		return false
	}
	return short(pairKey{a: a, b: b, need: m.needs.between(a.compiled, b.compiled, m.moveApart(a, b)).mm})
}

func (d *Mender) overRims(p *stance) bool {
	for i := range d.s.rims {
		if p.over(&d.s.rims[i]) < -geom.GapTol {
			return false
		}
	}
	return true
}

// check proves that the part keeps all its needs in a place, or adds a
// constraint for each that it does not.
func (d *Mender) check(p *stance) bool {
	clear := true
	for _, w := range d.s.walls {
		if !p.near(w, w.need) {
			continue
		}
		got := p.search(w, w.need, true)
		if got.Bound >= w.need-geom.GapTol {
			continue
		}
		clear = false
		if got.Gap < w.need-geom.GapTol {
			p.search(w, w.need, false) // the worst state is the telling one
			d.cons = append(d.cons, constraint{n: w.seen[len(w.seen)-1]})
			continue
		}
		// Given up: the place may do all the same, and is passed over with what
		// lies within holeMM of it.
		d.cons = append(d.cons, constraint{n: &witness{w: w}, hole: true, at: p.pose})
	}
	return clear
}

// stays says that a part is where the vehicle has it, or locked.
func stays(p *placed) bool {
	k := scene.KindNamed(p.part.Kind)
	return p.part.Locked || k != nil && k.Stays
}

// joinedWith says whether any of the parts that are moved is joined with a part.
func (s *study) joinedWith(id string) bool {
	for _, p := range s.members {
		if s.m.needs.joined[ordered(p.part.ID, id)] {
			return true
		}
	}
	return false
}

// movable are the parts it falls short of that can be moved, in document order.
func (d *Mender) movable() (out []string) {
	seen := map[int]bool{}
	for i := range d.cons {
		if n := d.cons[i].n; n != nil {
			seen[n.w.rival] = true
		}
	}
	for j, p := range d.s.m.parts {
		if seen[j] && !stays(p) {
			out = append(out, p.part.ID)
		}
	}
	return out
}

// Advance does one step: a few hundred places tried, or one of them proven. It
// says whether all is done.
func (d *Mender) Advance() (done bool) {
	if d.next >= len(d.jobs) {
		return true
	}
	j := d.jobs[d.next]
	switch got := j.step(d); got {
	case jobGoesOn:
		return false
	case jobFound:
		d.out.Moves = append(d.out.Moves, j.move(d))
	}
	d.next++
	if d.next == len(d.jobs) {
		d.finish()
	}
	return d.next == len(d.jobs)
}

// Result is what has been found; complete once Advance says so.
func (d *Mender) Result() *Mend { return d.out }

// finish sorts the moves. Where the free search found none that is smaller by
// more than freeSlack, the smallest along an axis is the smallest of all.
func (d *Mender) finish() {
	moves := d.out.Moves
	sort.SliceStable(moves, func(i, j int) bool {
		if (moves[i].TurnDeg != 0) != (moves[j].TurnDeg != 0) {
			return moves[j].TurnDeg != 0
		}
		return moves[i].SizeMM < moves[j].SizeMM
	})
	if len(moves) == 0 {
		d.out.Blocks = d.blocks()
		return
	}
	if len(moves) > 1 && moves[1].TurnDeg == 0 && moves[1].SizeMM <= moves[0].SizeMM*(1+freeSlack)+2*marginMM {
		// The free search came upon a move along one axis: once is enough.
		along := 0
		if moves[0].Free {
			along = 1
		}
		moves = append(moves[along:along+1:along+1], moves[2:]...)
		d.out.Moves = moves
	}
	for i := range moves {
		moves[i].Free = moves[i].Free && !d.out.Partial
	}
	moves[0].Free = moves[0].TurnDeg == 0 && !d.out.Partial
}

// blocks names the parts that ruled out most, at most four.
func (d *Mender) blocks() (out []string) {
	type share struct {
		rival int
		by    float64
	}
	var list []share
	for j := range d.s.m.parts {
		if by := d.mass[j]; by > 0 {
			list = append(list, share{j, by})
		}
	}
	sort.SliceStable(list, func(a, b int) bool { return list[a].by > list[b].by })
	for _, s := range list[:min(4, len(list))] {
		out = append(out, d.s.m.parts[s.rival].part.ID)
	}
	return out
}

// constraint is something a place has to satisfy: a wall in one state, a rim
// line at one height, or, where a search was given up, not to be this place.
type constraint struct {
	n    *witness
	rim  *rimAt
	hole bool
	at   geom.Pose
}

// marginMM is kept over a need in the search, so that a move rounded to roundMM
// still keeps it.
const (
	marginMM = 0.02
	roundMM  = 0.01
	holeMM   = 1.0
	// freeSlack: a move along one axis that is longer by less than this part is
	// as good as the smallest.
	freeSlack = 0.01
)

// slack is by how much a place satisfies a constraint, and the way (in the
// part's axes at ride, unit) that increases it fastest.
func (c *constraint) slack(p *stance) (by float64, way geom.Vec) {
	switch {
	case c.rim != nil:
		return p.over(c.rim) - marginMM, c.rim.n
	case c.hole:
		return p.pose.P.Dist(c.at.P) - holeMM, p.pose.P.Sub(c.at.P).Unit()
	}
	r := c.n.gap(p)
	return r.Gap - c.n.w.need - marginMM, c.n.way(p, r.N.Neg())
}

// way turns a direction of the witness's state back to the part as it is drawn.
func (n *witness) way(p *stance, dir geom.Vec) geom.Vec {
	if p.s.items[n.w.xi].link != nil {
		return dir
	}
	return n.pose.R.ApplyT(dir)
}

// rival is the part that a constraint is about; -1 for none.
func (c *constraint) rival() int {
	if c.n == nil {
		return -1
	}
	return c.n.w.rival
}

// kept lists what a place only just keeps.
func (d *Mender) kept(p *stance) []Kept {
	best := map[[2]int]Kept{}
	for i := range d.cons {
		c := &d.cons[i]
		if c.n == nil || c.hole {
			continue
		}
		r := c.n.gap(p)
		if r.Gap > c.n.w.need+justMM {
			continue
		}
		k := [2]int{c.n.w.rival, 0}
		if c.n.w.room {
			k[1] = 1
		}
		if old, ok := best[k]; !ok || r.Gap < old.GapMM {
			best[k] = Kept{Part: d.s.m.parts[c.n.w.rival].part.ID, Room: c.n.w.room, GapMM: r.Gap, NeedMM: c.n.w.need}
		}
	}
	var out []Kept
	for j := range d.s.m.parts {
		for room := range 2 {
			if k, ok := best[[2]int{j, room}]; ok {
				out = append(out, k)
			}
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].GapMM-out[a].NeedMM < out[b].GapMM-out[b].NeedMM })
	return out
}

// justMM: what is no farther above its need than this is only just kept.
const justMM = 2.0

// roundOut rounds a move to roundMM, a hundredth.
func roundOut(v geom.Vec) geom.Vec {
	r := func(x float64) float64 { return math.Round(x*100)/100 + 0 }
	return geom.V(r(v.X), r(v.Y), r(v.Z))
}
