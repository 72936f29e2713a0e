package fitment

import (
	"cmp"
	"math"
	"slices"
	"sort"

	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// Check is the whole answer over the whole travel. The first call computes
// what [Model.Advance] has left to do; later calls return the same report.
func (m *Model) Check() *Report {
	for m.report == nil {
		m.Advance(math.MaxInt)
	}
	return m.report
}

// checking is a check under way.
type checking struct {
	report   *Report
	verdicts map[[2]*placed]*verdict
	pairs    [][2]int // candidates
	next     int
}

// verdict is what a check says of a pair, for the report; it holds in the next
// model too while neither part has changed, nor what pairs need.
type verdict struct {
	needs     *needBook
	keys      []pairKey
	answers   []*pairAnswer
	findings  []Finding
	lowered   []Lowered
	undecided []Undecided
}

// Advance does a part of the check: the next n pairs of those that come close.
// It returns how many are done, of how many; a check is finished when the two
// are equal, and stopped by not calling Advance again. The report is the same
// however it was cut.
func (m *Model) Advance(n int) (done, of int) {
	if m.report != nil {
		return 1, 1
	}
	c := m.running
	if c == nil {
		c = &checking{report: &Report{}, pairs: m.candidates()}
		c.verdicts = make(map[[2]*placed]*verdict, len(c.pairs))
		c.report.Summary.Pairs = m.countPairs()
		m.running = c
	}
	for ; n > 0 && c.next < len(c.pairs); n-- {
		c.add(m.verdict(m.parts[c.pairs[c.next][0]], m.parts[c.pairs[c.next][1]], c))
		c.next++
	}
	if c.next < len(c.pairs) {
		return c.next, len(c.pairs)
	}
	m.verdicts, m.elsewhere, m.running = c.verdicts, nil, nil // what no longer exists is forgotten here
	m.finish(c.report)
	return 1, 1
}

// finish sorts the findings and adds what is not about pairs.
func (m *Model) finish(r *Report) {
	sort.SliceStable(r.Findings, func(i, j int) bool { return worse(&r.Findings[i], &r.Findings[j]) })
	r.Limits = m.limits()
	r.Summary.Limits = len(r.Limits)
	for _, h := range m.Doc.Heights {
		c := m.Clearance(StateAt(h.FrontMM, h.RearMM))
		c.Height = h.ID
		r.Ground = append(r.Ground, c)
	}
	r.Summary.RimLine = countBelow(r.Ground)
	r.Suspension = m.Suspension()
	for i := range r.Suspension {
		if r.Suspension[i].Cut {
			r.Summary.Locked++
		}
	}
	r.Summary.Undecided = len(r.Undecided)
	r.Summary.Clear = r.Summary.Pairs - m.pairsNotClear(r)
	m.report = r
}

// worse orders findings: contact before tight, then by what is missing.
func worse(a, b *Finding) bool {
	if (a.Status == Contact) != (b.Status == Contact) {
		return a.Status == Contact
	}
	return a.NeedMM-a.GapMM > b.NeedMM-b.GapMM
}

// countPairs counts the pairs of parts that are looked at: all that are not
// declared joined.
func (m *Model) countPairs() int {
	n := len(m.parts)
	joined := 0
	for key := range m.needs.joined {
		_, a := m.index[key[0]]
		_, b := m.index[key[1]]
		if a && b && key[0] != key[1] {
			joined++
		}
	}
	return n*(n-1)/2 - joined
}

// pairsNotClear counts the pairs that are short or undecided; a pair whose room
// and solids are both short counts once, and a joined pair not at all: it is not
// among those that are checked.
func (m *Model) pairsNotClear(r *Report) int {
	seen := map[[2]string]bool{}
	note := func(a, b string) {
		if pair := ordered(a, b); !m.needs.joined[pair] {
			seen[pair] = true
		}
	}
	for i := range r.Findings {
		note(r.Findings[i].A, r.Findings[i].B)
	}
	for i := range r.Undecided {
		note(r.Undecided[i].A, r.Undecided[i].B)
	}
	return len(seen)
}

func countBelow(cs []Clearance) int {
	seen := map[string]bool{}
	for i := range cs {
		for _, h := range cs[i].Below {
			seen[h.Part] = true
		}
	}
	return len(seen)
}

// candidates lists the pairs whose swept boxes come closer than any need, in
// document order: sorted along X, only neighbours are compared.
func (m *Model) candidates() [][2]int {
	order := make([]int, len(m.parts))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(i, j int) int {
		return cmp.Or(cmp.Compare(m.parts[i].swept.lo.X, m.parts[j].swept.lo.X), i-j)
	})
	out := make([][2]int, 0, len(m.verdicts)+64)
	for i, a := range order {
		p := &m.parts[a].swept
		for _, b := range order[i+1:] {
			q := &m.parts[b].swept
			if q.lo.X-p.hi.X > m.needs.most {
				break
			}
			if p.closer(q, m.needs.most+boxSlack) {
				out = append(out, [2]int{min(a, b), max(a, b)})
			}
		}
	}
	slices.SortFunc(out, func(a, b [2]int) int { return cmp.Or(a[0]-b[0], a[1]-b[1]) })
	return out
}

// verdict is what is said of two parts, as it was said before when nothing it
// comes from has changed.
func (m *Model) verdict(x, y *placed, c *checking) *verdict {
	pair := [2]*placed{x, y}
	v := m.verdicts[pair]
	if v == nil || v.needs != m.needs {
		v = m.judge(x, y)
	}
	c.verdicts[pair] = v
	return v
}

// add puts a verdict into the report.
func (c *checking) add(v *verdict) {
	r := c.report
	for i := range v.findings {
		if v.findings[i].Status == Contact {
			r.Summary.Contact++
		} else {
			r.Summary.Tight++
		}
	}
	r.Findings = append(r.Findings, v.findings...)
	r.Lowered = append(r.Lowered, v.lowered...)
	r.Undecided = append(r.Undecided, v.undecided...)
}

// judge checks two parts against each other and each one's service rooms
// against the other.
func (m *Model) judge(x, y *placed) *verdict {
	v := &verdict{needs: m.needs}
	if !m.needs.joined[ordered(x.part.ID, y.part.ID)] {
		n := m.needs.between(x.compiled, y.compiled, m.moveApart(x, y))
		ans := m.asked(v, pairKey{a: x, b: y, need: n.mm})
		v.keep(m, x, y, n, ans, "")
		if c := n.care(x.compiled, y.compiled); (n.lowered || n.shield) && c != "" {
			v.lowered = append(v.lowered, Lowered{A: x.part.ID, B: y.part.ID, NeedMM: n.mm, TableMM: n.table, Shielded: n.shield, Caution: c})
		}
	} else if n := m.needs.between(x.compiled, y.compiled, false); n.caution != "" {
		v.lowered = append(v.lowered, Lowered{A: x.part.ID, B: y.part.ID, TableMM: n.mm, Joined: true, Caution: n.caution})
	}
	for _, k := range [2][2]*placed{{x, y}, {y, x}} {
		owner, other := k[0], k[1]
		room := owner.roomFor()
		if room == "" {
			continue
		}
		n := need{source: "service room must stay free (by definition)"}
		v.keep(m, owner, other, n, m.asked(v, pairKey{a: owner, b: other, room: true}), room)
	}
	return v
}

// asked is an answer that a verdict rests on.
func (m *Model) asked(v *verdict, key pairKey) *pairAnswer {
	ans := m.answer(key)
	v.keys, v.answers = append(v.keys, key), append(v.answers, ans)
	return ans
}

// answer searches a pair, or takes what was found for it before.
func (m *Model) answer(key pairKey) *pairAnswer {
	ans := m.known(key)
	if ans == nil {
		ans = &pairAnswer{decided: true}
		for i := range key.a.items {
			for j := range key.b.items {
				x, y := &key.a.items[i], &key.b.items[j]
				if (x.room != "") == key.room && y.room == "" {
					m.least(x, y, key.need, ans)
				}
			}
		}
		m.remeasure(key, ans)
	}
	return ans
}

// known is what was found for a pair before; nil for nothing. What is asked of a
// room is kept with the pair as it stands in the document.
func (m *Model) known(key pairKey) *pairAnswer {
	for _, pair := range [2][2]*placed{{key.a, key.b}, {key.b, key.a}} {
		for _, from := range [2]map[[2]*placed]*verdict{m.verdicts, m.elsewhere} {
			if v := from[pair]; v != nil {
				for i := range v.keys {
					if v.keys[i] == key {
						return v.answers[i]
					}
				}
			}
		}
	}
	return nil
}

// remeasure lays the tape on a pair that falls short, in its worst state: a
// search only goes on until it is within the tolerance of a bound, so that two
// solids it had done with may be a little nearer there than those it found.
func (m *Model) remeasure(key pairKey, ans *pairAnswer) {
	if !ans.near || ans.gap >= key.need {
		return
	}
	if g, ok := m.gapIn(key.a, key.b, key.room, ans.at); ok && g.Gap < ans.gap {
		ans.gap, ans.points = g.Gap, [2]geom.Vec{g.A, g.B}
		ans.bound = min(ans.bound, ans.gap)
	}
}

// keep notes a finding when the pair falls short, and the pair among the undecided
// when the search was given up before it knew, or before its bound was as tight as
// promised. room says what the first part's service room is for, when it is that
// which was asked about.
func (v *verdict) keep(m *Model, x, y *placed, n need, ans *pairAnswer, room string) {
	if !ans.near {
		return
	}
	short := ans.gap < n.mm-geom.GapTol
	if !ans.decided {
		v.undecided = append(v.undecided, Undecided{A: x.part.ID, B: y.part.ID, GapMM: ans.gap, BoundMM: ans.bound, Short: short})
	}
	if !short {
		return
	}
	f := m.finding(x, y, n, ans, room != "")
	if room != "" {
		f.Service, f.For = x.part.ID, room
	}
	f.AtHeights = make([]float64, len(m.Doc.Heights))
	for i, h := range m.Doc.Heights {
		g, _ := m.gapIn(x, y, room != "", StateAt(h.FrontMM, h.RearMM))
		f.AtHeights[i] = g.Gap
	}
	v.findings = append(v.findings, f)
}

// finding is what the answer about a pair that falls short says. Parts
// touch when nothing is left between them; a service room can only be blocked.
func (m *Model) finding(x, y *placed, n need, ans *pairAnswer, room bool) Finding {
	f := Finding{A: x.part.ID, B: y.part.ID, Status: Tight,
		GapMM: ans.gap, BoundMM: ans.bound, NeedMM: n.mm, NeedSource: n.source, At: ans.at,
		PointsMM: [2]scene.Vec{unvec(ans.points[0]), unvec(ans.points[1])},
		Caution:  caution(n, x, y), Still: !m.moveApart(x, y)}
	f.Sure = n.mm-ans.gap > x.tolMM+y.tolMM
	if !room && ans.gap < geom.GapTol {
		f.Status = Contact
	}
	return f
}

// caution is the caution to show with a pair: the need's own, or that of the
// first part that has one.
func caution(n need, x, y *placed) string {
	if n.caution != "" {
		return n.caution
	}
	for _, p := range [2]*placed{x, y} {
		if k := scene.KindNamed(p.part.Kind); k != nil && k.Caution != "" {
			return k.Caution
		}
	}
	return ""
}

// roomFor says what a part's service room is for; empty when it has none.
func (p *placed) roomFor() string {
	for i := range p.items {
		if p.items[i].room != "" {
			return p.items[i].room
		}
	}
	return ""
}

// Readings lists the pairs that fall short in this one state, worst first.
// Only pairs with a finding can: the others are proven clear over the whole
// travel.
func (m *Model) Readings(st State) []Reading {
	var out []Reading
	for i := range m.Check().Findings {
		f := &m.Check().Findings[i]
		g, _ := m.gapIn(m.parts[m.index[f.A]], m.parts[m.index[f.B]], f.Service != "", st)
		if g.Gap >= f.NeedMM-geom.GapTol {
			continue
		}
		rd := Reading{Key: f.Key(), A: f.A, B: f.B, Service: f.Service, Status: Tight,
			GapMM: g.Gap, NeedMM: f.NeedMM, PointsMM: [2]scene.Vec{unvec(g.A), unvec(g.B)}}
		if f.Service == "" && g.Gap < geom.GapTol {
			rd.Status = Contact
		}
		out = append(out, rd)
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].NeedMM-out[i].GapMM > out[j].NeedMM-out[j].GapMM })
	return out
}

// Reading is what a pair measures in one state.
type Reading struct {
	Key      string // as Finding.Key
	A, B     string
	Service  string
	Status   Status
	GapMM    float64
	NeedMM   float64
	PointsMM [2]scene.Vec
}

// Nearest lists the n parts nearest to one in this state, nearest first, with
// the need of each pair; joined parts are left out.
func (m *Model) Nearest(id string, st State, n int) []Reading {
	i, ok := m.index[id]
	if !ok {
		return nil
	}
	var out []Reading
	for j := range m.parts {
		x, y := m.parts[min(i, j)], m.parts[max(i, j)]
		if i == j || m.needs.joined[ordered(x.part.ID, y.part.ID)] {
			continue
		}
		g, found := m.gapIn(x, y, false, st)
		if !found {
			continue
		}
		need := m.needs.between(x.compiled, y.compiled, m.moveApart(x, y)).mm
		rd := Reading{A: x.part.ID, B: y.part.ID, GapMM: g.Gap, NeedMM: need, PointsMM: [2]scene.Vec{unvec(g.A), unvec(g.B)}}
		rd.Key = (&Finding{A: rd.A, B: rd.B}).Key()
		switch {
		case g.Gap < geom.GapTol:
			rd.Status = Contact
		case g.Gap < need-geom.GapTol:
			rd.Status = Tight
		}
		out = append(out, rd)
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].GapMM < out[b].GapMM })
	return out[:min(n, len(out))]
}
