package fitment

import (
	"math"
	"sort"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/travel"
)

// Span is a range of body heights, front and rear moving together along the
// document's heights: from the lower end to the higher one, mm over ride.
type Span struct{ From, To Level }

// Level is one body height.
type Level struct{ FrontMM, RearMM float64 }

// Spans are the body heights at which a pair touches, and those at which it is
// closer than it needs: whatever the wheels' roll and steer, and with the wheels
// level and straight. Every height outside is proven clear; a span's ends lie
// within spanStep of the true ones.
type Spans struct {
	Touch, Short           []Span
	LevelTouch, LevelShort []Span
}

const (
	// spanStep (mm) is how finely the ends of a span are found, and spanCell the
	// pieces that takes: next to one that falls short another may be beyond proof.
	spanStep = 0.1
	spanCell = spanStep / 2
	// spanHole (mm): a stretch of clear heights shorter than this between two
	// heights that fall short may be passed over.
	spanHole = 4.0
	// spanLimit is the most gaps measured to prove one stretch clear. A stretch
	// that takes more is passed for short, which is the safe side.
	spanLimit = 300
	// spanFine is the same for a stretch no longer than a few steps, whose answer
	// says where a span ends.
	spanFine = 3000
)

// Spans of a finding of this model's report. They are worked out when first
// asked for and kept.
func (m *Model) Spans(f *Finding) Spans {
	key, ans := m.answerOf(f)
	if ans == nil {
		return Spans{}
	}
	if ans.spans == nil {
		w := m.way(BothEnds)
		short, touch := m.shortOn(w, BothEnds, key, ans), m.touchOn(w, BothEnds, key, ans)
		ans.spans = &Spans{Short: w.spans(short.any), LevelShort: w.spans(short.level),
			Touch: w.spans(touch.any), LevelTouch: w.spans(touch.level)}
	}
	return *ans.spans
}

// SpansKnown says whether the spans of a finding have been worked out, so that
// asking for them costs nothing. The steps of a ladder of both ends do that.
func (m *Model) SpansKnown(f *Finding) bool {
	_, ans := m.answerOf(f)
	return ans == nil || ans.spans != nil || ans.short[0] != nil && (ans.touch[0] != nil || f.Status != Contact)
}

// answerOf is what a finding was made from.
func (m *Model) answerOf(f *Finding) (pairKey, *pairAnswer) {
	i, j := m.index[f.A], m.index[f.B]
	key := pairKey{a: m.parts[i], b: m.parts[j], need: f.NeedMM, room: f.Service != ""}
	return key, m.known(key)
}

// holds is where on a way something holds: whatever the roll, the steer and the
// movements, and with all of them at rest.
type holds struct {
	any, level []stretch
	// anyAtRide and levelAtRide say so of ride itself, which a stretch may only
	// just reach.
	anyAtRide, levelAtRide bool
	still                  bool // the way does not matter
}

// shortOn is where on a way a pair is closer than it needs.
func (m *Model) shortOn(w *way, ends Ends, key pairKey, ans *pairAnswer) *holds {
	return ans.kept(&ans.short[ends.index()], func() *holdsSearch { return m.searchShort(w, key) })
}

// touchOn is where on a way a pair touches; nowhere for a service room.
func (m *Model) touchOn(w *way, ends Ends, key pairKey, ans *pairAnswer) *holds {
	return ans.kept(&ans.touch[ends.index()], func() *holdsSearch { return m.searchTouch(w, key, ans) })
}

func (m *Model) searchShort(w *way, key pairKey) *holdsSearch {
	return &holdsSearch{m: m, w: w, key: key, level: key.need - geom.GapTol}
}

func (m *Model) searchTouch(w *way, key pairKey, ans *pairAnswer) *holdsSearch {
	return &holdsSearch{m: m, w: w, key: key, level: geom.GapTol, never: key.room || ans.gap >= geom.GapTol}
}

// kept is an answer about the pair, searched for when first asked.
func (ans *pairAnswer) kept(at **holds, search func() *holdsSearch) *holds {
	if *at == nil {
		s := search()
		for !s.step() {
		}
		*at = &s.found
	}
	return *at
}

// stretch is a range of places on a way, or of one segment of it: 0 its lower
// end, 1 its upper.
type stretch struct{ lo, hi float64 }

// merged sorts stretches and joins those that overlap or meet.
func merged(in []stretch) []stretch {
	sort.Slice(in, func(i, j int) bool { return in[i].lo < in[j].lo })
	var out []stretch
	for _, s := range in {
		if n := len(out); n > 0 && s.lo <= out[n-1].hi {
			out[n-1].hi = max(out[n-1].hi, s.hi)
			continue
		}
		out = append(out, s)
	}
	return out
}

// closePairs lists the pairs of solids whose swept boxes come within a level.
func (m *Model) closePairs(key pairKey, level float64) []*solidPair {
	var out []*solidPair
	for i := range key.a.items {
		for j := range key.b.items {
			x, y := &key.a.items[i], &key.b.items[j]
			if (x.room != "") != key.room || y.room != "" {
				continue
			}
			params, a, b := m.relative(x, y)
			for k := range x.solids {
				for l := range y.solids {
					if x.each[k].closer(&y.each[l], max(level, boxSlack)) {
						out = append(out, m.newSolidPair(x, y, k, l, params, a, b))
					}
				}
			}
		}
	}
	return out
}

// keeps proves that a pair of solids keeps a level over the whole travel.
func (p *solidPair) keeps(level float64) bool {
	pr := p.problem()
	pr.Enough, pr.Refute, pr.Limit, pr.Floor = level, true, spanLimit, p.floor()
	pr.Measure, pr.Slab, pr.Guesses = p.measure, p.slab, p.guesses()
	got := travel.Search(&pr)
	return got.Bound >= level
}

// moves says whether a segment's heights move the pair at all.
func (s *segment) moves(p *solidPair) bool {
	for _, param := range p.params {
		if param <= rearHeave && s.from[param] != s.to[param] {
			return true
		}
	}
	return false
}

// moves says whether any of a way's heights move the pair.
func (w *way) moves(p *solidPair) bool {
	for i := 0; i+1 < len(w.points); i++ {
		seg := segment{from: w.points[i], to: w.points[i+1]}
		if seg.moves(p) {
			return true
		}
	}
	return false
}

// segment is one straight piece of the way between two heights, with every
// other movement anywhere, or at rest.
type segment struct {
	from, to whole
	atRest   bool
}

func (s *segment) at(u float64) (p whole) {
	for i := range p {
		p[i] = s.from[i] + u*(s.to[i]-s.from[i])
	}
	return p
}

func (s *segment) level(u float64) Level {
	p := s.at(u)
	return Level{FrontMM: p[frontHeave], RearMM: p[rearHeave]}
}

// length is how far the body goes, at the end that goes further.
func (s *segment) length() float64 {
	return max(math.Abs(s.to[frontHeave]-s.from[frontHeave]), math.Abs(s.to[rearHeave]-s.from[rearHeave]))
}

// clear proves that a pair keeps the level over a stretch of heights, whatever
// the other movements. The heights are one parameter of the search in place of
// the two ends' heaves.
func (s *segment) clear(p *solidPair, level float64, r stretch) bool {
	pr := travel.Problem{Enough: level, Refute: true, Limit: spanLimit, Floor: p.floor()}
	if (r.hi-r.lo)*s.length() <= 2*spanCell {
		pr.Limit, pr.Tol = spanFine, geom.GapTol
	}
	way := s.problem(p, r, &pr)
	pr.Measure = func(q *travel.Point) (float64, geom.Vec) {
		full := way(q)
		return p.measure(&full)
	}
	pr.Slab = func(q *travel.Point, n geom.Vec) float64 {
		full := way(q)
		return p.slab(&full, n)
	}
	got := travel.Search(&pr)
	return got.Bound >= level
}

// problem fills in the parameters of a stretch and returns the way from them
// to the pair's own. The body's part of the motion is straight in the height,
// so a second derivative grows with the square of what the height moves an end.
func (s *segment) problem(p *solidPair, r stretch, pr *travel.Problem) func(*travel.Point) travel.Point {
	full := p.problem()
	heave := [2]float64{s.to[frontHeave] - s.from[frontHeave], s.to[rearHeave] - s.from[rearHeave]}
	pr.N, pr.Lo[0], pr.Hi[0] = 1, r.lo, r.hi
	const height, rest = 0, -1
	place := [travel.MaxParams]int{} // where each of the pair's parameters comes from
	for k := 0; k < p.n; k++ {
		if k < len(p.params) && p.params[k] <= rearHeave {
			d := heave[p.params[k]]
			pr.Rate[0] += full.Rate[k] * math.Abs(d)
			pr.Curve[0] += full.Curve[k] * d * d
			pr.Kink[0] += full.Kink[k] * math.Abs(d)
			continue
		}
		if s.atRest && k < len(p.params) {
			place[k] = rest
			continue
		}
		place[k] = pr.N
		pr.Lo[pr.N], pr.Hi[pr.N] = full.Lo[k], full.Hi[k]
		pr.Rate[pr.N], pr.Curve[pr.N], pr.Kink[pr.N] = full.Rate[k], full.Curve[k], full.Kink[k]
		pr.N++
	}
	for _, b := range full.Bands {
		pr.Bands = append(pr.Bands, s.band(p, b, &place))
	}
	return func(q *travel.Point) (out travel.Point) {
		at := s.at(q[0])
		for k := 0; k < p.n; k++ {
			switch place[k] {
			case height:
				out[k] = at[p.params[k]]
			case rest:
			default:
				out[k] = q[place[k]]
			}
		}
		return out
	}
}

// band turns a band of an end's heave into one of the stretch's height.
func (s *segment) band(p *solidPair, b travel.Band, place *[travel.MaxParams]int) travel.Band {
	param := p.params[b.Param]
	d := s.to[param] - s.from[param]
	out := travel.Band{Lo: math.Inf(-1), Hi: math.Inf(1)} // an end that stands still may stand in the band
	if d != 0 {
		u, v := (b.Lo-s.from[param])/d, (b.Hi-s.from[param])/d
		out.Lo, out.Hi = min(u, v), max(u, v)
	}
	for k := range p.params {
		switch {
		case place[k] > 0:
			out.Slopes[place[k]] += b.Slopes[k]
		case place[k] == 0:
			out.Slopes[0] += b.Slopes[k] * math.Abs(s.to[p.params[k]]-s.from[p.params[k]])
		}
	}
	return out
}
