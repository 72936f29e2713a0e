package fitment

import (
	"math"
	"slices"

	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
	"scrubline/fitment/internal/travel"
	"scrubline/scene"
)

// study is one part, with those grouped with it, and everything they must keep
// clear of, for asking what other places of it would do. A place is a pose that
// carries the part, as it is drawn at ride, to where it would be drawn.
//
// Two things make many places cheap. The least gap to anything changes by no
// more than the part is moved, so that a gap measured in one place says much
// about those around it. And a state in which the part fell short in one place
// (a witness) most often rules out the next one too, for the price of one gap.
//
// What is declared joined may touch, and does not count when gaps are checked.
// Brackets and lines have to follow. But where the part is joined with something
// that stays (a rail, the floor), another place may sink it no deeper into that
// than where it stands: a fuel line is not to be mended into its rail.
type study struct {
	m       *Model
	ref     geom.Vec // the part's reference point at ride, body axes
	members []*placed
	items   []*placedItem // of all members
	follow  []bool        // movements that carry nothing but members: they go along
	walls   []*wall
	rims    []rimAt
	// roams bounds how far a place may put any point of the part from where it
	// is; mobilities are worked out once for all of them.
	roams float64
	moves []mobility // of each item within roams; unused for links
	lean  float64    // how much faster than the place a link's points may move; see leans
	gaps  int        // measured so far
}

// wall is a solid of the part and one of another, and what they have to keep.
type wall struct {
	xi    int // item of the part
	i, j  int // solids
	y     *placedItem
	rival int // the other part in the document
	room  bool
	need  float64
	seen  []*witness
	// for rigid items, whose mobility is the same in every place
	params []int
	a, b   mobility
	known  bool
}

// witness is a state in which a wall fell short in some place.
type witness struct {
	w    *wall
	st   State
	pose geom.Pose // carries the part's item in that state; unused for links
	// follows: the item rides on a movement that goes along with the place
	follows bool
	y       solid.Solid // where the other stands in it
}

// rimAt is a named height with its ground and its rim line.
type rimAt struct {
	st   State
	n    geom.Vec
	c    float64
	line float64
}

// newStudy gathers what a part and its group have to keep clear of, up to roams
// away.
func (m *Model) newStudy(id string, roams float64) *study {
	first := m.parts[m.index[id]]
	s := &study{m: m, roams: roams, lean: 1}
	s.ref = m.ch.Origin(carrierOf[first.part.Carrier]).Add(vec(first.part.AtMM))
	in := map[int]bool{}
	mates := m.Doc.Together([]string{id})
	for _, k := range mates {
		if mate := m.parts[m.index[k]]; mate == first || m.goAlong(first, mate, mates) {
			in[m.index[k]] = true
		}
	}
	for k, p := range m.parts {
		if in[k] {
			s.members = append(s.members, p)
			for i := range p.items {
				s.items = append(s.items, &p.items[i])
			}
		}
	}
	s.followers()
	for _, it := range s.items {
		s.moves = append(s.moves, s.mobilityOf(it))
	}
	for j, other := range m.parts {
		if !in[j] {
			for k := range s.items {
				s.rival(j, k, other)
			}
		}
	}
	for _, h := range m.Doc.Heights {
		st := StateAt(h.FrontMM, h.RearMM)
		n, c := m.ch.GroundPlane(st.motion())
		s.rims = append(s.rims, rimAt{st, n, c, m.rimLine(st.motion(), n, c)})
	}
	return s
}

// goAlong says whether two parts of a group keep their place to each other when
// the group is moved or turned: they ride on one carrier, hang between none that
// move apart, and what moves one of them against the other carries nothing but the
// group, and so goes along. Any other mate stays, and is kept clear of like
// anything else.
func (m *Model) goAlong(a, b *placed, group []string) bool {
	if a.part.Carrier != b.part.Carrier {
		return false
	}
	for _, p := range [2]*placed{a, b} {
		for i := range p.items {
			if p.items[i].link != nil {
				return !m.moveApart(a, b)
			}
		}
	}
	own, other := apart(movesOf(m.Doc, &a.part), movesOf(m.Doc, &b.part))
	for _, k := range append(slices.Clone(own), other...) {
		for _, p := range m.parts {
			if slices.Contains(p.part.Moves, m.Doc.Movements[k].ID) && !slices.Contains(group, p.part.ID) {
				return false
			}
		}
	}
	return true
}

// followers notes the movements that go along with the part: those that carry
// members and nothing else.
func (s *study) followers() {
	s.follow = make([]bool, len(s.m.moves))
	for k := range s.follow {
		own, others := false, false
		for _, p := range s.m.parts {
			for i := range p.items {
				if slices.Contains(p.items[i].moves, k) {
					member := slices.Contains(s.members, p)
					own, others = own || member, others || !member
				}
			}
		}
		s.follow[k] = own && !others
	}
}

// rival adds the walls of one item to another part: solid against solid, the
// rooms of either against the solids of the other.
func (s *study) rival(j, xi int, other *placed) {
	x := s.items[xi]
	first, second := x.part, other
	if s.m.index[other.part.ID] < s.m.index[x.part.part.ID] {
		first, second = other, x.part
	}
	joined := s.m.needs.joined[ordered(first.part.ID, second.part.ID)]
	need := s.m.needs.between(first.compiled, second.compiled, s.m.moveApart(first, second)).mm
	for yi := range other.items {
		y := &other.items[yi]
		room := x.room != "" || y.room != ""
		if x.room != "" && y.room != "" {
			continue
		}
		if joined && !room && !stays(other) {
			continue
		}
		w := wall{xi: xi, y: y, rival: j, room: room, need: need}
		if room {
			w.need = 0
		}
		s.solids(w, x, y, joined && !room)
	}
}

// solids adds a wall for each pair of solids that can come close at all. To
// what it is joined with, a solid keeps what it has now, if that is less than
// nothing, and must not touch it otherwise.
func (s *study) solids(w wall, x, y *placedItem, joined bool) {
	for w.i = range x.solids {
		for w.j = range y.solids {
			if !x.each[w.i].closer(&y.each[w.j], w.need+s.roams*s.lean+boxSlack) {
				continue
			}
			one := w
			if joined {
				one.need = min(0, s.leastNow(x, y, w.i, w.j))
			}
			s.walls = append(s.walls, &one)
		}
	}
}

// leastNow is the proven least gap of two solids as they stand.
func (s *study) leastNow(x, y *placedItem, i, j int) float64 {
	params, a, b := s.m.relative(x, y)
	got := s.m.newSolidPair(x, y, i, j, params, a, b).search(0)
	return got.Bound
}

// mobilityOf is an item's mobility in every place within roams: that of the item
// put there in six directions, far enough that all places lie between them.
func (s *study) mobilityOf(it *placedItem) mobility {
	if it.link != nil {
		s.lean = max(s.lean, s.m.leans(it.link))
		return it.move
	}
	far := s.roams * math.Sqrt(3)
	var all []solid.Solid
	for i := range it.solids {
		for _, d := range [6]geom.Vec{{X: far}, {X: -far}, {Y: far}, {Y: -far}, {Z: far}, {Z: -far}} {
			by := geom.Pose{R: geom.Identity, P: d}
			all = append(all, it.solids[i].Moved(&by))
		}
	}
	return s.m.rigid(it.on, all, it.moves).unaimed(it.moves, s.follow)
}

// unaimed is the mobility with the ways of slides that go along left open: a
// turn of the part turns them too.
func (m mobility) unaimed(moves []int, follow []bool) mobility {
	for _, k := range moves {
		if i := firstMove + k; follow[k] {
			m.any[i], m.by[i] = m.rate(i), geom.Vec{}
		}
	}
	return m
}

// fromAxis is how far the part's points get from an axis through its reference
// point: movements that go along are turned with it, and so is all they reach.
func (s *study) fromAxis(axis geom.Vec) (far float64) {
	for _, it := range s.items {
		swings := 0.0
		if slices.ContainsFunc(it.moves, func(k int) bool { return s.follow[k] }) {
			var unused mobility
			swings = s.m.roam(&unused, it.solids, it.moves)
		}
		for n := range it.solids {
			far = max(far, it.solids[n].MaxDistToAxis(s.ref, axis)+swings)
		}
	}
	return far
}

// leans bounds how fast the points of a link move with its place: its anchors
// move as the place does, each turned as its carrier has turned, and the link
// leans by the difference. Carriers turn by less than tiltMost against the body,
// steered wheels by the steer besides.
func (v *mover) leans(k *link) float64 {
	tilt := tiltMost
	if k.onB == motion.WheelFL || k.onB == motion.WheelFR {
		tilt += v.box.hi[steer] * degree
	}
	slope, _ := k.slopes()
	length := max(k.limits.ShortestMM, shortestLink, k.a.Dist(k.b)/4)
	return 1 + tilt*(k.most()/length+slope)
}

// tiltMost (radians) is more than any axle rolls or a knuckle leans.
const tiltMost = 0.3

// stance is the part in one place.
type stance struct {
	s     *study
	pose  geom.Pose
	v     *mover // with the movements that go along in this place
	items []placedItem
	made  []bool
	links []*link
}

func (s *study) at(pose geom.Pose) *stance { return &stance{s: s, pose: pose} }

// shifted is the pose of a plain move.
func shifted(by geom.Vec) geom.Pose { return geom.Pose{R: geom.Identity, P: by} }

// mover is the model's, with the movements that go along moved.
func (p *stance) mover() *mover {
	if p.v == nil {
		p.v = &p.s.m.mover
		if slices.Contains(p.s.follow, true) {
			own := p.s.m.mover
			own.moves = slices.Clone(own.moves)
			for k := range own.moves {
				if p.s.follow[k] {
					own.moves[k].at, own.moves[k].axis = p.pose.Apply(own.moves[k].at), p.pose.R.Apply(own.moves[k].axis)
				}
			}
			p.v = &own
		}
	}
	return p.v
}

// item is one of the part's items in the place.
func (p *stance) item(i int) *placedItem {
	if p.items == nil {
		n := len(p.s.items)
		p.items, p.made = make([]placedItem, n), make([]bool, n)
	}
	it := &p.items[i]
	if p.made[i] {
		return it
	}
	p.made[i] = true
	from := p.s.items[i]
	own := *from.item
	own.solids = make([]solid.Solid, len(from.solids))
	*it = placedItem{item: &own, part: from.part, move: p.s.moves[i]}
	if from.link != nil {
		own.link = p.link(i)
		own.solids[0] = own.link.atRide()
		it.move = p.s.m.hung(own.link)
	} else {
		for n := range own.solids {
			own.solids[n] = from.solids[n].Moved(&p.pose)
		}
	}
	middle := p.s.m.box.middle()
	p.mover().sweep(it, p.s.m.box.state(&middle))
	return it
}

// link is an item's link in the place, on its stop.
func (p *stance) link(i int) *link {
	if p.links == nil {
		p.links = make([]*link, len(p.s.items))
	}
	if p.links[i] == nil {
		k := *p.s.items[i].link
		k.a, k.b = p.pose.Apply(k.a), p.pose.Apply(k.b)
		p.s.m.settle(&k)
		p.links[i] = &k
	}
	return p.links[i]
}

// near says whether a wall's boxes come within d in the place.
func (p *stance) near(w *wall, d float64) bool {
	it := p.item(w.xi)
	p.params(w, it)
	bx, by := &it.each[w.i], &w.y.each[w.j]
	if len(w.params) == 0 {
		bx, by = &it.still[w.i], &w.y.still[w.j]
	}
	return bx.closer(by, max(d, boxSlack))
}

// params are the wall's parameters and bounds: for rigid items once, for links
// anew in every place.
func (p *stance) params(w *wall, it *placedItem) {
	if !w.known || it.link != nil {
		params, a, b := p.s.m.relative(it, w.y)
		w.params, w.a, w.b = params, *a, *b
		w.known = true
	}
}

// search looks for a state in which a wall's gap is below enough. With refute it
// stops at the first; else it goes on to the worst.
func (p *stance) search(w *wall, enough float64, refute bool) travel.Answer {
	it := p.item(w.xi)
	p.params(w, it)
	sp := p.mover().newSolidPair(it, w.y, w.i, w.j, w.params, &w.a, &w.b)
	pr := sp.problem()
	pr.Enough, pr.Refute, pr.Limit, pr.Floor, pr.Tol = enough, refute, studyLimit, sp.floor(), geom.GapTol
	if it.on == motion.Ground || w.y.on == motion.Ground {
		pr.Limit = sampleLimit
	}
	if !refute {
		pr.Tol = geom.BoundTol
	}
	pr.Measure, pr.Slab, pr.Guesses = sp.measure, sp.slab, sp.guesses()
	got := travel.Search(&pr)
	p.s.gaps += got.Samples
	if got.Samples > 0 && got.Gap < enough {
		p.s.remember(w, *sp.state(&got.At))
	}
	return got
}

// studyLimit is the most gaps measured to settle one wall in one place. What
// takes more is passed for falling short, which is the safe side. What stands on
// the ground sees every parameter, and is given as many as in a check.
const studyLimit = 3000

// keptWitnesses is how many states a wall remembers: the last ones are the most
// telling.
const keptWitnesses = 6

// remember notes a state in which a wall fell short.
func (s *study) remember(w *wall, st State) {
	n := &witness{w: w, st: st, y: s.m.solidAt(w.y, w.j, st)}
	if it := s.items[w.xi]; it.link == nil {
		n.pose = s.m.pose(it.item, st)
		for _, k := range it.moves {
			n.follows = n.follows || s.follow[k]
		}
	}
	if len(w.seen) >= keptWitnesses {
		w.seen = append(w.seen[:0], w.seen[1:]...)
	}
	w.seen = append(w.seen, n)
}

// gap is the wall's gap in the witness's state, with the part in another place.
func (n *witness) gap(p *stance) gap.Result {
	p.s.gaps++
	it := p.s.items[n.w.xi]
	if it.link != nil {
		x := p.linkAt(n.w.xi, &n.st)
		return gap.Between(&x, &n.y)
	}
	pose := n.pose
	if n.follows {
		pose = p.mover().pose(it.item, n.st)
	}
	to := p.pose.Then(&pose)
	x := it.solids[n.w.i].Moved(&to)
	return gap.Between(&x, &n.y)
}

// over is how far the part in this place lies over the rim line at a height;
// infinite where that does not apply to it.
func (p *stance) over(r *rimAt) float64 {
	least := math.Inf(1)
	for i, it := range p.s.items {
		if it.room != "" || it.part.part.Carrier == scene.Ground || it.part.part.Kind == wheelKind {
			continue
		}
		for n := range it.solids {
			x := p.solid(i, n, r.st)
			_, h := x.Lowest(r.n)
			least = min(least, h+r.c-r.line)
		}
	}
	return least
}

// linkAt is one of the part's links in the place and a state.
func (p *stance) linkAt(i int, st *State) (s solid.Solid) {
	ms := st.corners()
	p.s.m.hungAt(p.link(i), &ms, &s)
	return s
}

// solid is one of the part's solids in the place and a state.
func (p *stance) solid(i, n int, st State) solid.Solid {
	it := p.s.items[i]
	if it.link != nil {
		return p.linkAt(i, &st)
	}
	pose := p.mover().pose(it.item, st)
	to := p.pose.Then(&pose)
	return it.solids[n].Moved(&to)
}
