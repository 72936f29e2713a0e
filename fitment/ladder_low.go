package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
)

// lowSearch finds where on a way parts hang below the rim line and where they
// meet the ground, the wheels level and straight: at samples of the way, one
// after the other, then by halving.
type lowSearch struct {
	m       *Model
	w       *way
	parts   []*placed
	samples []lowSample
	heights [][]float64 // by part and sample, over the ground; infinite when surely above the rim line
	rims    []float64   // by sample, the rim line's
	next    int
}

// lowSample is one place on a way, within one of its segments.
type lowSample struct {
	place float64
	last  bool // of its segment
}

func (m *Model) searchLow(w *way) *lowSearch {
	s := &lowSearch{m: m, w: w}
	for _, p := range m.parts {
		if !m.standsOnGround(p) {
			s.parts = append(s.parts, p)
		}
	}
	for i := 0; i+1 < len(w.points); i++ {
		seg := segment{from: w.points[i], to: w.points[i+1]}
		n := math.Max(1, math.Ceil(seg.length()/limitStep))
		for k := 0.0; k <= n; k++ {
			s.samples = append(s.samples, lowSample{float64(i) + k/n, k == n})
		}
	}
	s.heights = make([][]float64, len(s.parts))
	return s
}

// step takes one sample; true when all are taken.
func (s *lowSearch) step() (done bool) {
	if s.next == len(s.samples) {
		return true
	}
	st := s.state(s.samples[s.next].place)
	g := s.m.groundAt(st)
	for i, p := range s.parts {
		h := math.Inf(1)
		if s.m.lowBound(p, st, g.n)+g.c < g.rim {
			h, _, _ = s.m.findLowest(p, st, g.n, g.c)
		}
		s.heights[i] = append(s.heights[i], h)
	}
	s.rims = append(s.rims, g.rim)
	s.next++
	return false
}

func (s *lowSearch) state(place float64) State {
	p := s.w.at(place)
	return s.m.box.state(&p)
}

// ground is where the ground and the rim line lie in a level state: the plane
// n·p + c = 0, and the height of the lowest rim over it.
type ground struct {
	n      geom.Vec
	c, rim float64
}

func (m *Model) groundAt(st State) ground {
	n, c := m.ch.GroundPlane(st.motion())
	return ground{n, c, m.rimLine(st.motion(), n, c)}
}

// lowBound is a height along n that no point of a part lies below, from the boxes
// of its solids. A link's is not known without measuring.
func (m *Model) lowBound(p *placed, st State, n geom.Vec) float64 {
	low := math.Inf(1)
	for i := range p.items {
		it := &p.items[i]
		switch {
		case it.room != "":
			continue
		case it.link != nil:
			return math.Inf(-1)
		}
		pose := m.pose(it.item, st)
		turned := pose.R.X.Scale(n.X).AddScaled(pose.R.Y, n.Y).AddScaled(pose.R.Z, n.Z)
		for k := range it.still {
			low = min(low, it.still[k].reach(turned)+n.Dot(pose.P))
		}
	}
	return low
}

// reach is how far down along a direction a box goes.
func (b *box) reach(n geom.Vec) float64 {
	far := func(k, lo, hi float64) float64 { return math.Min(float64(k*lo), float64(k*hi)) }
	return far(n.X, b.lo.X, b.hi.X) + far(n.Y, b.lo.Y, b.hi.Y) + far(n.Z, b.lo.Z, b.hi.Z)
}

// events are the parts that pass below the rim line and that meet the ground.
func (s *lowSearch) events() (out []event) {
	for i, p := range s.parts {
		for _, k := range [2]RungKind{RungGround, RungRimLine} {
			if low := s.holds(p, s.heights[i], k); low != nil {
				out = append(out, event{Rung{Kind: k, Cause: LowCause(p.part.ID), Parts: []string{p.part.ID}}, low})
			}
		}
	}
	return out
}

// holds is where on the way a part hangs too low; nil for nowhere.
func (s *lowSearch) holds(p *placed, heights []float64, k RungKind) *holds {
	over := func(place float64) bool { return s.hangs(p, place, k) }
	at := func(i int) bool { return heights[i] < lowest(k, s.rims[i]) }
	var found []stretch
	for i, from := range s.samples {
		switch {
		case from.last:
		case at(i) && at(i+1):
			found = append(found, stretch{from.place, s.samples[i+1].place})
		case at(i) || at(i+1):
			r, _ := crossing(over, from.place, s.samples[i+1].place)
			found = append(found, r)
		}
	}
	if found = merged(found); len(found) == 0 {
		return nil
	}
	ride := over(s.w.ride)
	return &holds{any: found, level: found, anyAtRide: ride, levelAtRide: ride, still: !s.sinks(p)}
}

// hangs says whether a part hangs below the rim line, or reaches the ground, at
// a place on the way.
func (s *lowSearch) hangs(p *placed, place float64, k RungKind) bool {
	st := s.state(place)
	g := s.m.groundAt(st)
	h, _, ok := s.m.findLowest(p, st, g.n, g.c)
	return ok && h < lowest(k, g.rim)
}

// lowest is how low a part may hang over the ground.
func lowest(k RungKind, rim float64) float64 {
	if k == RungGround {
		return geom.GapTol
	}
	return rim - geom.GapTol
}

// sinks says whether a part's height over the ground changes along the way; that
// of what rides on an axle does not while the body stays level.
func (s *lowSearch) sinks(p *placed) bool {
	lo, hi := math.Inf(1), math.Inf(-1)
	for t := 0.0; t <= s.w.top(); t += 0.5 {
		st := s.state(t)
		n, c := s.m.ch.GroundPlane(st.motion())
		h, _, _ := s.m.findLowest(p, st, n, c)
		lo, hi = min(lo, h), max(hi, h)
	}
	return hi-lo > geom.GapTol
}
