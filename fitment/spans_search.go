package fitment

// holdsSearch finds where on a way the gap of two parts is below a level, a
// piece at a time.
type holdsSearch struct {
	m     *Model
	w     *way
	key   pairKey
	level float64
	never bool // known to hold nowhere

	found  holds
	listed bool
	close  []*solidPair // of solids not yet looked at
	pairs  []*solidPair // of solids that do not keep the level over the whole travel
	more   bool         // something else than height moves them
	atRest bool         // searching with everything else at rest
	seg    int
	pair   int
	todo   []stretch        // of this pair, the lowest last
	ends   map[float64]bool // whether this pair is clear at a place
	here   []stretch        // of this segment
	all    []stretch        // of the segments before
}

// step does a piece, a stretch for one pair of solids; true when all is done.
func (s *holdsSearch) step() (done bool) {
	switch {
	case s.never:
		return true
	case !s.listed:
		s.listed, s.found.still = true, true
		s.close = s.m.closePairs(s.key, s.level)
	case len(s.close) > 0:
		s.list(s.close[0])
		s.close = s.close[1:]
	case s.seg+1 == len(s.w.points):
		return s.finish()
	case s.pair == len(s.pairs):
		for _, k := range s.here {
			s.all = append(s.all, stretch{float64(s.seg) + k.lo, float64(s.seg) + k.hi})
		}
		s.here, s.pair = nil, 0
		s.seg++
	case s.todo == nil:
		s.todo, s.ends = []stretch{{0, 1}}, map[float64]bool{}
	default:
		s.lookNext()
	}
	return false
}

// lookNext looks at the lowest stretch left of a pair of solids on a segment.
func (s *holdsSearch) lookNext() {
	n := len(s.todo) - 1
	r := s.todo[n]
	s.todo = s.todo[:n]
	seg := segment{from: s.w.points[s.seg], to: s.w.points[s.seg+1], atRest: s.atRest}
	holds, halve := s.look(&seg, s.pairs[s.pair], r)
	if holds {
		s.here = append(s.here, r)
	}
	if halve {
		mid := (r.lo + r.hi) / 2
		s.todo = append(s.todo, stretch{mid, r.hi}, stretch{r.lo, mid})
	}
	if len(s.todo) == 0 {
		s.todo = nil
		s.pair++
	}
}

// list takes a pair of solids in, unless it keeps the level over the whole
// travel.
func (s *holdsSearch) list(p *solidPair) {
	if p.keeps(s.level) {
		return
	}
	s.pairs = append(s.pairs, p)
	s.found.still = s.found.still && !s.w.moves(p)
	for _, param := range p.params {
		s.more = s.more || param > rearHeave
	}
}

// finish puts together what was found, whatever the other movements or with
// them at rest; true when nothing is left to search.
func (s *holdsSearch) finish() (done bool) {
	all := merged(s.all)
	if s.atRest {
		s.found.level, s.found.levelAtRide = all, s.atRide(all)
		return true
	}
	s.found.any, s.found.anyAtRide = all, s.atRide(all)
	s.found.level, s.found.levelAtRide = s.found.any, s.found.anyAtRide
	s.all, s.seg, s.atRest = nil, 0, true
	return !s.more
}

// atRide says whether ride itself is within stretches found, of which one may
// only just reach it.
func (s *holdsSearch) atRide(found []stretch) bool {
	seg := segment{atRest: s.atRest}
	for _, k := range found {
		for _, p := range s.pairs {
			if k.lo <= s.w.ride && s.w.ride <= k.hi && !seg.clear(p, s.level, stretch{0, 0}) {
				return true
			}
		}
	}
	return false
}

// look looks at a stretch of the segment: it holds, keeps the level, or has to
// be halved. One that is not clear is halved while it is longer than a hole that
// matters, and at its ends down to the step.
func (s *holdsSearch) look(seg *segment, p *solidPair, r stretch) (holds, halve bool) {
	if covered(s.here, r) || seg.clear(p, s.level, r) {
		return false, false
	}
	if !seg.moves(p) { // the same at every height
		return true, false
	}
	long := (r.hi - r.lo) * seg.length()
	if long <= spanCell || long <= spanHole && !s.clearAt(seg, p, r.lo) && !s.clearAt(seg, p, r.hi) {
		return true, false
	}
	return false, true
}

// clearAt is clear of one place; neighbours ask for the same.
func (s *holdsSearch) clearAt(seg *segment, p *solidPair, u float64) bool {
	clear, known := s.ends[u]
	if !known {
		clear = seg.clear(p, s.level, stretch{u, u})
		s.ends[u] = clear
	}
	return clear
}

// covered says whether a stretch lies within one found already.
func covered(found []stretch, r stretch) bool {
	for _, s := range found {
		if s.lo <= r.lo && r.hi <= s.hi {
			return true
		}
	}
	return false
}
