package fitment

import "scrubline/scene"

// rule is one row of the starting table: the gap two parts must keep because
// of what they are.
type rule struct {
	a, b     []scene.Trait // either way round; nil is anything
	mm       float64
	shielded float64 // with a heat shield between; 0: a shield changes nothing
	source   string
	relative bool // holds only between parts that move relative to each other
	caution  string
	off      bool // wholly replaced by the user's figures
	own      bool // the user's figure for two traits
}

const heatCaution = "Heat beside fuel, brakes, current or pressure: shield it, keep to local codes, have it checked by a licensed mechanic."

// startingTable is read top to bottom; where several rows apply the largest
// need holds and is named. The user's own needs change it.
var startingTable = []rule{
	{mm: 3, source: "two fixed parts: 3 (common practice, no source)"},
	{a: []scene.Trait{scene.Moving}, mm: 25, relative: true,
		source: "suspension, axle or steering and anything else: 25 (common practice, from memory)"},
	{a: []scene.Trait{scene.Engine}, mm: 12,
		source: "engine, gearbox, steering shaft and anything: 12 (street-rod inspectors' note: 10 to 15)"},
	{a: []scene.Trait{scene.Spring}, mm: 25,
		source: "air spring at its largest and anything: 25 (it must not touch anything: trade article; the figure from memory)"},
	{a: []scene.Trait{scene.Driveshaft}, mm: 25,
		source: "driveshaft and anything: 25 (common practice, from memory)"},
	{a: []scene.Trait{scene.TyreTrait}, mm: 15,
		source: "tyre and anything: 15 (common practice, from memory)"},
	{a: []scene.Trait{scene.Exhaust}, b: []scene.Trait{scene.Floor, scene.Frame}, mm: 15,
		source: "exhaust and floor or frame: 15 (common practice, from memory)"},
	{a: []scene.Trait{scene.Exhaust}, b: []scene.Trait{scene.Fuel, scene.Brake, scene.Electric, scene.Burns}, mm: 50,
		source:  "exhaust and fuel, brake, wiring, what burns: 50 (Quebec C-24.2 r.32 s.92)",
		caution: heatCaution},
	{a: []scene.Trait{scene.Exhaust}, b: []scene.Trait{scene.Battery, scene.Air, scene.Spring}, mm: 75, shielded: 25,
		source:  "exhaust and battery, air tank, air line, spring: 75, with a shield 25 (common practice, from memory)",
		caution: heatCaution},
}

// need is what one pair must keep.
type need struct {
	mm      float64
	source  string
	caution string
	lowered bool    // the user's figure for this pair is less than the table's
	table   float64 // which would be this
}

// needBook answers what a pair must keep, from the starting table and the
// user's changes.
type needBook struct {
	rules  []rule
	byPair map[[2]string]*scene.Need
	joined map[[2]string]bool
	most   float64 // no pair needs more than this
}

func newNeedBook(doc *scene.Document) *needBook {
	b := &needBook{byPair: map[[2]string]*scene.Need{}, joined: map[[2]string]bool{}}
	b.rules = append(b.rules, startingTable...)
	for i := range doc.Needs {
		n := &doc.Needs[i]
		if n.Parts[0] != "" {
			b.byPair[ordered(n.Parts[0], n.Parts[1])] = n
			b.most = max(b.most, n.NeedMM)
			continue
		}
		b.override(n)
	}
	for _, j := range doc.Joined {
		b.joined[ordered(j.A, j.B)] = true
	}
	for i := range b.rules {
		b.most = max(b.most, b.rules[i].mm)
	}
	return b
}

// override lets the user's figure for two traits take the place of every row
// of the table that names just these two.
func (b *needBook) override(n *scene.Need) {
	source := "set for " + string(n.Traits[0]) + " and " + string(n.Traits[1])
	if n.Why != "" {
		source += ": " + n.Why
	}
	one := func(t scene.Trait) []scene.Trait { return []scene.Trait{t} }
	own := rule{a: one(n.Traits[0]), b: one(n.Traits[1]), mm: n.NeedMM, source: source, own: true}
	for i := range b.rules {
		r := &b.rules[i]
		if r.b == nil {
			continue
		}
		ab := has(r.a, n.Traits[0]) && has(r.b, n.Traits[1])
		ba := has(r.a, n.Traits[1]) && has(r.b, n.Traits[0])
		if ab || ba {
			own.caution = r.caution
			replaced := n.Traits[0]
			if ab {
				replaced = n.Traits[1]
			}
			r.b = without(r.b, replaced)
			r.off = len(r.b) == 0
		}
	}
	b.rules = append(b.rules, own)
}

// between is the need of two parts. relative says that they move against each
// other somewhere in the travel.
func (b *needBook) between(x, y *compiled, relative bool) need {
	own := b.byPair[ordered(x.part.ID, y.part.ID)]
	best := need{mm: -1}
	if r := b.ownTraits(x, y); r != nil {
		best = need{mm: r.mm, source: r.source, caution: r.caution}
	}
	for i := range b.rules {
		r := &b.rules[i]
		if r.off || r.relative && !relative || !r.applies(x, y) {
			continue
		}
		if best.mm >= 0 && len(r.b) == 0 && b.ownTraits(x, y) != nil {
			continue // a figure for these two traits outranks one for one trait and anything
		}
		mm, source := r.mm, r.source
		if own != nil && own.Shielded && r.shielded > 0 {
			mm, source = r.shielded, r.source+", shield stated"
		}
		if mm > best.mm {
			best = need{mm: mm, source: source, caution: r.caution}
		}
	}
	if own != nil && (!own.Shielded || own.NeedMM > best.mm) {
		if best.lowered = own.NeedMM < best.mm; best.lowered {
			best.table = best.mm
		}
		best.mm, best.source = own.NeedMM, "set for this pair"
		if own.Why != "" {
			best.source += ": " + own.Why
		}
	}
	return best
}

// ownTraits is the user's largest figure for two traits that a pair has; nil
// when there is none.
func (b *needBook) ownTraits(x, y *compiled) (best *rule) {
	for i := range b.rules {
		if r := &b.rules[i]; r.own && r.applies(x, y) && (best == nil || r.mm > best.mm) {
			best = r
		}
	}
	return best
}

func (r *rule) applies(x, y *compiled) bool {
	return any1(r.a, x) && any1(r.b, y) || any1(r.a, y) && any1(r.b, x)
}

// any1 says whether a part has one of the traits; no traits is anything.
func any1(ts []scene.Trait, c *compiled) bool {
	if len(ts) == 0 {
		return true
	}
	for _, t := range ts {
		if has(c.traits, t) {
			return true
		}
	}
	return false
}

func has(ts []scene.Trait, t scene.Trait) bool {
	for _, u := range ts {
		if u == t {
			return true
		}
	}
	return false
}

func without(ts []scene.Trait, t scene.Trait) []scene.Trait {
	var kept []scene.Trait
	for _, u := range ts {
		if u != t {
			kept = append(kept, u)
		}
	}
	return kept
}

func ordered(a, b string) [2]string {
	if b < a {
		a, b = b, a
	}
	return [2]string{a, b}
}
