package fitment

import (
	"fmt"

	"scrubline/scene"
)

// rule is one row of the starting table: the gap two parts must keep because
// of what they are.
type rule struct {
	a, b     []scene.Trait // either way round; nil is anything
	what     string        // the two, in words
	mm       float64
	shielded float64 // with a heat shield between; 0: a shield changes nothing
	standing string  // where the figure comes from
	law      bool    // it is a regulation's
	source   string  // what, figures and standing, for people
	relative bool    // holds only between parts that move relative to each other
	caution  string
	off      bool // wholly replaced by the user's figures
	own      bool // the user's figure for two traits
}

const heatCaution = "Heat beside fuel, brakes, current or pressure: shield it, keep to local codes, have it checked by a licensed mechanic."

// startingTable is read top to bottom; where several rows apply the largest
// need holds and is named. The user's own needs change it.
var startingTable = sourced([]rule{
	{what: "two fixed parts", mm: 3, standing: "common practice, no source"},
	{a: []scene.Trait{scene.Moving}, what: "suspension, axle or steering and anything", mm: 25, relative: true,
		standing: "common practice, from memory"},
	{a: []scene.Trait{scene.Engine}, what: "engine, gearbox, steering shaft and anything", mm: 12,
		standing: "street-rod inspectors' note: 10 to 15"},
	{a: []scene.Trait{scene.Spring}, what: "air spring at its largest and anything", mm: 25,
		standing: "it must not touch anything: trade article; the figure from memory"},
	{a: []scene.Trait{scene.Driveshaft}, what: "driveshaft and anything", mm: 25,
		standing: "common practice, from memory"},
	{a: []scene.Trait{scene.TyreTrait}, what: "tyre and anything", mm: 15,
		standing: "common practice, from memory"},
	{a: []scene.Trait{scene.Exhaust}, b: []scene.Trait{scene.Floor, scene.Frame}, what: "exhaust and floor or frame", mm: 15,
		standing: "common practice, from memory"},
	{a: []scene.Trait{scene.Exhaust}, b: []scene.Trait{scene.Fuel, scene.Brake, scene.Electric, scene.Burns},
		what: "exhaust and fuel, brake, wiring, what burns", mm: 50, standing: "Quebec C-24.2 r.32 s.92", law: true, caution: heatCaution},
	{a: []scene.Trait{scene.Exhaust}, b: []scene.Trait{scene.Battery, scene.Air, scene.Spring},
		what: "exhaust and battery, air tank, air line, spring", mm: 75, shielded: 25,
		standing: "common practice, from memory", caution: heatCaution},
})

// sourced writes each row's source.
func sourced(rules []rule) []rule {
	for i := range rules {
		r := &rules[i]
		r.source = fmt.Sprintf("%s: %v", r.what, r.mm)
		if r.shielded > 0 {
			r.source += fmt.Sprintf(", with a shield %v", r.shielded)
		}
		r.source += " (" + r.standing + ")"
	}
	return rules
}

// need is what one pair must keep.
type need struct {
	mm      float64
	source  string
	caution string
	row     *rule   // what asks for it when the pair has no figure of its own
	lowered bool    // the user's figures ask for less than the table
	table   float64 // which would be this
	shield  bool    // it is a stated shield that makes it less
}

// needBook answers what a pair must keep, from the starting table and the
// user's changes.
type needBook struct {
	rules  []rule
	byPair map[[2]string]*scene.Need
	joined map[[2]string]bool
	kinds  bool    // the user has figures for two traits
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
	one := func(t scene.Trait) []scene.Trait { return []scene.Trait{t} }
	own := rule{a: one(n.Traits[0]), b: one(n.Traits[1]), mm: n.NeedMM, own: true, standing: n.Why,
		what: "set for " + string(n.Traits[0]) + " and " + string(n.Traits[1])}
	own.source = own.what
	if n.Why != "" {
		own.source += ": " + n.Why
	}
	b.kinds = true
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
	shield := own != nil && own.Shielded
	n := strictest(b.rules, x, y, relative, shield)
	if own == nil && !b.kinds {
		return n
	}
	asked := strictest(startingTable, x, y, relative, shield)
	if n.mm > asked.mm {
		asked.mm = n.mm
	}
	pairs := own != nil && (!shield || own.NeedMM > n.mm)
	if pairs {
		n.mm, n.source = own.NeedMM, "set for this pair"
	}
	if n.lowered = n.mm < asked.mm; n.lowered {
		n.table = asked.mm
		if n.caution == "" {
			n.caution = asked.caution
		}
	}
	if bare := strictest(b.rules, x, y, relative, false).mm; shield && !n.lowered && n.mm < bare {
		n.shield, n.table = true, bare
	}
	if pairs {
		n.source += fmt.Sprintf(", the table asks %v", asked.mm)
		if own.Why != "" {
			n.source += ": " + own.Why
		}
	}
	return n
}

// strictest is the largest need that rows of a table ask of two parts.
func strictest(rules []rule, x, y *compiled, relative, shield bool) need {
	best := need{mm: -1}
	own := ownTraits(rules, x, y)
	if own != nil {
		best = need{mm: own.mm, source: own.source, caution: own.caution, row: own}
	}
	for i := range rules {
		r := &rules[i]
		if r.off || r.relative && !relative || !r.applies(x, y) {
			continue
		}
		if own != nil && len(r.b) == 0 {
			continue // a figure for these two traits outranks one for one trait and anything
		}
		mm, source := r.mm, r.source
		if shield && r.shielded > 0 {
			mm, source = r.shielded, r.source+", shield stated"
		}
		if mm > best.mm {
			best = need{mm: mm, source: source, caution: r.caution, row: r}
		}
	}
	return best
}

// ownTraits is the user's largest figure for two traits that a pair has; nil
// when there is none.
func ownTraits(rules []rule, x, y *compiled) (best *rule) {
	for i := range rules {
		if r := &rules[i]; r.own && r.applies(x, y) && (best == nil || r.mm > best.mm) {
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
