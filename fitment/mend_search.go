package fitment

import (
	"container/heap"
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// mendJob looks for the smallest move of one kind: along a ray, in a plane or
// free, or a turn about an axis.
//
// It is a search over the moves, smallest first. What is known of the needs is a
// growing list of constraints, each a need in one state; a box of moves is ruled
// out when a constraint is missed in its middle by more than the box reaches.
// The first move that satisfies all constraints is tried over the whole travel:
// either it is proven, and no smaller one can be, or it brings a new constraint.
type mendJob struct {
	dirs    []geom.Vec // unit directions of a plain move's parameters
	oneWay  bool       // the only parameter begins at nought
	about   int        // axis of a turn; -1 for a plain move
	per     float64    // how far a unit of a parameter moves the part's points at most
	limit   float64    // of a parameter
	useless float64    // a move of this size is known along an axis: only smaller ones matter
	free    bool
	ref     geom.Vec
	began   bool
	cells   cellHeap
	best    [3]float64
	dist    float64 // of best; infinite for none
	tried   int
	sure    int // constraints that best is known to satisfy
	answer  [3]float64
}

type jobState int

const (
	jobGoesOn jobState = iota
	jobFound
	jobNone
)

// mendCell is a box of moves not yet ruled out.
type mendCell struct {
	mid, half [3]float64
	near      float64 // least move in it
	active    []int   // constraints that can still matter in it ...
	since     int     // ... of the first this many; all later ones can
}

type cellHeap []*mendCell

func (h cellHeap) Len() int           { return len(h) }
func (h cellHeap) Less(i, j int) bool { return h[i].near < h[j].near }
func (h cellHeap) Swap(i, j int)      { h[i], h[j] = h[j], h[i] }
func (h *cellHeap) Push(x any)        { *h = append(*h, x.(*mendCell)) }
func (h *cellHeap) Pop() any {
	old := *h
	c := old[len(old)-1]
	*h = old[:len(old)-1]
	return c
}

const (
	// A move within this part, or this many mm, of the smallest is taken for it.
	mendShare = 0.01
	mendFine  = 0.02
	// roomShare: room that is thinner than this part of the move is passed over.
	roomShare = 0.002
	// cellsPerStep bounds one step's work; cellsMost that of a whole job.
	cellsPerStep = 400
	cellsMost    = 30000
)

// jobs lists what is looked for: along each axis either way, free, turns.
func (s *study) jobs(o *MendOptions) (out []*mendJob) {
	var free []geom.Vec
	for k, d := range [3]geom.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		if !o.Axes[k] {
			continue
		}
		free = append(free, d)
		for _, side := range [2]float64{1, -1} {
			out = append(out, &mendJob{dirs: []geom.Vec{d.Scale(side)}, oneWay: true, about: -1, per: s.lean, limit: o.LimitMM})
		}
	}
	if len(free) > 1 {
		out = append(out, &mendJob{dirs: free, about: -1, per: s.lean, limit: o.LimitMM, free: true})
	} else if len(out) > 0 {
		for _, j := range out {
			j.free = true
		}
	}
	if o.NoTurns || s.hangs() {
		return out
	}
	for k, axis := range [3]geom.Vec{{X: 1}, {Y: 1}, {Z: 1}} {
		if reach := s.fromAxis(axis); reach > 0 {
			most := min(turnMost, o.LimitMM/reach)
			out = append(out, &mendJob{about: k, per: reach, limit: most, ref: s.ref})
		}
	}
	return out
}

// turnMost (radians): a part is not turned farther than upside down.
const turnMost = math.Pi

// hangs says that a part hangs between two carriers, and so does not turn.
func (s *study) hangs() bool {
	for _, it := range s.items {
		if it.link != nil {
			return true
		}
	}
	return false
}

// pose is the place of a job's parameters.
func (j *mendJob) pose(u *[3]float64) geom.Pose {
	if j.about < 0 {
		var by geom.Vec
		for k, d := range j.dirs {
			by = by.AddScaled(d, u[k])
		}
		return shifted(by)
	}
	var turn [3]float64
	turn[j.about] = u[0]
	r := geom.Turn(turn[0], turn[1], turn[2])
	return geom.Pose{R: r, P: j.ref.Sub(r.Apply(j.ref))}
}

func (j *mendJob) dims() int { return max(1, len(j.dirs)) }

func (j *mendJob) begin(d *Mender) {
	j.began, j.dist, j.useless = true, math.Inf(1), math.Inf(1)
	if j.free {
		for i := range d.out.Moves {
			j.useless = min(j.useless, d.out.Moves[i].SizeMM*(1-freeSlack))
		}
	}
	root := &mendCell{}
	for k := range j.dims() {
		root.half[k] = j.limit
		if j.oneWay {
			root.mid[k], root.half[k] = j.limit/2, j.limit/2
		}
	}
	heap.Push(&j.cells, root)
}

// step tries places until one has to be proven, or for a while.
func (j *mendJob) step(d *Mender) jobState {
	if !j.began {
		j.begin(d)
	}
	if j.dist < math.Inf(1) && j.sure < len(d.cons) && !j.holds(d, &j.best, j.sure) {
		j.dist = math.Inf(1)
	}
	j.sure = len(d.cons)
	for range cellsPerStep {
		if len(j.cells) == 0 || j.cells[0].near > min(j.limit, j.useless) || j.tried > cellsMost {
			d.out.Partial = d.out.Partial || j.free && j.tried > cellsMost
			if j.dist > min(j.limit, j.useless) {
				return jobNone
			}
			return j.prove(d, j.best)
		}
		if j.cells[0].near >= j.dist-max(mendShare*j.dist, mendFine/j.per) {
			return j.prove(d, j.best)
		}
		c := heap.Pop(&j.cells).(*mendCell)
		j.tried++
		if u, ok := j.look(d, c); ok {
			return j.prove(d, u)
		}
	}
	return jobGoesOn
}

// prove checks a place over the whole travel, rounded as it will be written.
func (j *mendJob) prove(d *Mender, u [3]float64) jobState {
	for k := range u {
		u[k] = j.rounded(u[k])
	}
	n := len(d.cons)
	p := d.s.at(j.pose(&u))
	if d.check(p) && d.overRims(p) {
		j.answer = u
		return jobFound
	}
	if n == len(d.cons) { // a rim line missed by the rounding
		d.cons = append(d.cons, constraint{n: &witness{w: &wall{rival: -1}}, hole: true, at: p.pose})
	}
	return jobGoesOn
}

// rounded is a parameter as it will be written: to roundMM, turns to roundDeg.
func (j *mendJob) rounded(v float64) float64 {
	if j.about < 0 {
		return math.Round(v/roundMM)*roundMM + 0
	}
	return (math.Round(v/degree/roundDeg)*roundDeg + 0) * degree
}

const roundDeg = 0.001

// look rules a cell out, splits it, or finds in it a place to prove.
func (j *mendJob) look(d *Mender, c *mendCell) (u [3]float64, found bool) {
	p := d.s.at(j.pose(&c.mid))
	reach := j.reach(&c.half)
	var active []int
	all := true
	test := func(k int) bool {
		s, _ := d.cons[k].slack(p)
		if s < -reach {
			if r := d.cons[k].rival(); r >= 0 {
				d.mass[r] += reach * reach * reach
			}
			return false
		}
		if s < reach {
			active = append(active, k)
		}
		all = all && s >= 0
		return true
	}
	for _, k := range c.active {
		if !test(k) {
			return u, false
		}
	}
	for k := c.since; k < len(d.cons); k++ {
		if !test(k) {
			return u, false
		}
	}
	c.active, c.since = active, len(d.cons)
	if len(active) == 0 { // all of it satisfies everything known
		near := j.nearest(c)
		heap.Push(&j.cells, c)
		j.take(near)
		return near, true
	}
	if all {
		j.pull(d, c.mid)
	} else if j.tried < 32 || j.tried&63 == 0 {
		j.slide(d, c.mid)
	}
	if reach < max(mendFine/4, roomShare*c.near*j.per) { // room thinner than can be built to is none
		return u, false
	}
	j.split(c)
	return u, false
}

// reach is how far a point of the part may be moved between a cell's middle and
// its corners.
func (j *mendJob) reach(half *[3]float64) float64 {
	sum := 0.0
	for k := range j.dims() {
		sum += float64(half[k] * half[k])
	}
	return math.Sqrt(sum) * j.per
}

// nearest is the least move in a cell.
func (j *mendJob) nearest(c *mendCell) (u [3]float64) {
	for k := range j.dims() {
		u[k] = max(c.mid[k]-c.half[k], min(c.mid[k]+c.half[k], 0))
	}
	return u
}

func size(u *[3]float64) float64 {
	return math.Sqrt(float64(u[0]*u[0]) + float64(u[1]*u[1]) + float64(u[2]*u[2]))
}

// take notes a place that satisfies every constraint, if it is the least yet.
func (j *mendJob) take(u [3]float64) {
	if n := size(&u); n < j.dist && n <= j.limit {
		j.best, j.dist = u, n
	}
}

// holds says whether a place satisfies every constraint from the given one on.
func (j *mendJob) holds(d *Mender, u *[3]float64, from int) bool {
	p := d.s.at(j.pose(u))
	for k := len(d.cons) - 1; k >= from; k-- {
		if s, _ := d.cons[k].slack(p); s < 0 {
			return false
		}
	}
	return true
}

// pull draws a good place towards where the part stands, as far as it stays
// good.
func (j *mendJob) pull(d *Mender, u [3]float64) {
	if size(&u) > j.limit || !j.holds(d, &u, 0) {
		return
	}
	lo, hi := 0.0, 1.0
	at := func(t float64) [3]float64 { return [3]float64{t * u[0], t * u[1], t * u[2]} }
	for range 14 {
		mid := (lo + hi) / 2
		if v := at(mid); j.holds(d, &v, 0) {
			hi = mid
		} else {
			lo = mid
		}
	}
	j.take(at(hi))
}

// slide moves a place out of the constraint it misses most, again and again.
func (j *mendJob) slide(d *Mender, u [3]float64) {
	if j.about >= 0 {
		return
	}
	for range 8 {
		p := d.s.at(j.pose(&u))
		worst, way := 0.0, geom.Vec{}
		for k := range d.cons {
			if s, w := d.cons[k].slack(p); s < worst {
				worst, way = s, w
			}
		}
		if worst == 0 {
			j.pull(d, u)
			return
		}
		moved := 0.0
		for _, dir := range j.dirs {
			moved += float64(way.Dot(dir) * way.Dot(dir))
		}
		if moved < 0.05 {
			return
		}
		for k, dir := range j.dirs {
			u[k] -= float64(worst / moved * way.Dot(dir))
			if u[k] > j.limit || u[k] < -j.limit || j.oneWay && u[k] < 0 {
				return
			}
		}
	}
}

// split cuts a cell across its longest side.
func (j *mendJob) split(c *mendCell) {
	axis := 0
	for k := 1; k < j.dims(); k++ {
		if c.half[k] > c.half[axis] {
			axis = k
		}
	}
	h := c.half[axis] / 2
	for _, side := range [2]float64{-h, h} {
		k := *c
		k.half[axis] = h
		k.mid[axis] = c.mid[axis] + side
		near := j.nearest(&k)
		k.near = size(&near)
		heap.Push(&j.cells, &k)
	}
}

// move is the answer of a job.
func (j *mendJob) move(d *Mender) MendMove {
	pose := j.pose(&j.answer)
	out := MendMove{Free: j.free, Keeps: d.kept(d.s.at(pose)), Parts: d.parted(d.s.at(pose))}
	out.Tape = j.taped(d)
	if j.about < 0 {
		by := roundOut(pose.P)
		out.ByMM = unvec(by)
		out.SizeMM = by.Len()
		return out
	}
	out.Axis, out.TurnDeg = j.about, math.Round(j.answer[0]/degree/roundDeg)*roundDeg
	out.SizeMM = math.Abs(j.answer[0]) * j.per
	return out
}

// tapeMark (mm) is what a tape in a unit is marked with.
func tapeMark(show scene.Units) float64 {
	if show == scene.Inches {
		return 25.4 / 16
	}
	return 1
}

// taped is the answer made larger, to the marks of a tape, when that is proven
// to keep all needs too.
func (j *mendJob) taped(d *Mender) *TapeMove {
	mark := tapeMark(d.s.m.Doc.Show)
	if j.about >= 0 {
		mark = 0.5 * degree
	}
	u := j.answer
	for k := range u {
		u[k] = math.Copysign(math.Ceil(math.Abs(u[k])/mark-1e-9)*mark, u[k]) + 0
	}
	pose := j.pose(&u)
	if p := d.s.at(pose); !d.check(p) || !d.overRims(p) {
		return nil
	}
	if j.about >= 0 {
		return &TapeMove{TurnDeg: math.Round(u[0]/degree*2) / 2}
	}
	return &TapeMove{ByMM: unvec(pose.P)}
}
