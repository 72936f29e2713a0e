package fitment

import (
	"math"
	"slices"
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
	// spanStep (mm) is how finely the ends of a span are found.
	spanStep = 0.1
	// spanHole (mm): a stretch of clear heights shorter than this between two
	// heights that fall short may be passed over.
	spanHole = 4.0
	// spanLimit is the most gaps measured to prove one stretch clear. A stretch
	// that takes more is passed for short, which is the safe side.
	spanLimit = 300
)

// Spans of a finding of this model's report. They are worked out when first
// asked for and kept.
func (m *Model) Spans(f *Finding) Spans {
	i, j := m.index[f.A], m.index[f.B]
	key := pairKey{a: m.parts[i], b: m.parts[j], need: f.NeedMM, room: f.Service != ""}
	ans := m.pairs[key]
	if ans == nil {
		return Spans{}
	}
	if ans.spans == nil {
		path := m.heightPath()
		var s Spans
		s.Short, s.LevelShort = m.spansBelow(path, key, f.NeedMM-geom.GapTol)
		if f.Status == Contact {
			s.Touch, s.LevelTouch = m.spansBelow(path, key, geom.GapTol)
		}
		ans.spans = &s
	}
	return *ans.spans
}

// heightPath is the document's heights as points of the state box, lowest
// first: the way the body goes when front and rear move together.
func (m *Model) heightPath() []whole {
	path := append([]whole(nil), m.box.seeds...)
	sort.SliceStable(path, func(i, j int) bool {
		return path[i][frontHeave]+path[i][rearHeave] < path[j][frontHeave]+path[j][rearHeave]
	})
	return path
}

// stretch is a range of one segment of the path: 0 its lower end, 1 its upper.
type stretch struct{ lo, hi float64 }

// spansBelow finds the heights at which the pair's gap is below a level,
// whatever the other movements, and with all of them at rest.
func (m *Model) spansBelow(path []whole, key pairKey, level float64) (any, atRest []Span) {
	pairs := m.closePairs(key, level)
	pairs = slices.DeleteFunc(pairs, func(p *solidPair) bool { return p.keeps(level) })
	any = spansOn(path, pairs, level, false)
	for _, p := range pairs {
		for _, param := range p.params {
			if param > rearHeave {
				return any, spansOn(path, pairs, level, true)
			}
		}
	}
	return any, any
}

func spansOn(path []whole, pairs []*solidPair, level float64, atRest bool) []Span {
	var out []Span
	for i := 0; i+1 < len(path); i++ {
		seg := segment{from: path[i], to: path[i+1], atRest: atRest}
		var found []stretch
		for _, p := range pairs {
			seg.find(p, level, stretch{0, 1}, &found)
		}
		for _, s := range merged(found) {
			out = appendSpan(out, Span{seg.level(s.lo), seg.level(s.hi)})
		}
	}
	return out
}

// appendSpan joins spans that meet where two segments do.
func appendSpan(out []Span, s Span) []Span {
	if n := len(out); n > 0 && out[n-1].To == s.From {
		out[n-1].To = s.To
		return out
	}
	return append(out, s)
}

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
						out = append(out, m.newSolidPair(x, y, k, l, params, &a, &b))
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

// heaves says whether body height moves the pair at all.
func (p *solidPair) heaves() bool {
	for _, param := range p.params {
		if param <= rearHeave {
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

// find collects the stretches in which a pair of solids is not proven to keep
// the level. A stretch that is not clear is halved: while it is longer than a
// hole that matters, and at its ends down to the step.
func (s *segment) find(p *solidPair, level float64, r stretch, out *[]stretch) {
	if s.clear(p, level, r) {
		return
	}
	if !p.heaves() { // the same at every height
		*out = append(*out, r)
		return
	}
	long := (r.hi - r.lo) * s.length()
	if long <= spanStep || long <= spanHole && !s.clear(p, level, stretch{r.lo, r.lo}) && !s.clear(p, level, stretch{r.hi, r.hi}) {
		*out = append(*out, r)
		return
	}
	mid := (r.lo + r.hi) / 2
	s.find(p, level, stretch{r.lo, mid}, out)
	s.find(p, level, stretch{mid, r.hi}, out)
}

// clear proves that a pair keeps the level over a stretch of heights, whatever
// the other movements. The heights are one parameter of the search in place of
// the two ends' heaves.
func (s *segment) clear(p *solidPair, level float64, r stretch) bool {
	pr := travel.Problem{Enough: level, Refute: true, Limit: spanLimit, Floor: p.floor()}
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
