package fitment

import (
	"fmt"

	"scrubline/scene"
)

// Asked is a figure of the table and where it comes from.
type Asked struct {
	MM       float64
	What     string // the two, in words: "driveshaft and anything"
	Standing string // "common practice, from memory"
	Law      bool   // it is a regulation's
	Own      bool   // it is the scene's own, for two kinds of part
}

// PairNeed is what two parts must keep, to be read and changed.
type PairNeed struct {
	MM       float64
	Table    Asked       // what holds without a figure of the pair's own
	ShieldMM float64     // what the table asks with a heat shield between them; 0: no less
	Set      *scene.Need // the pair's own; nil: none
	Joined   bool        // they are meant to touch, and are not checked
	Lowered  bool        // the user's figures ask for less than the table, which would be TableMM
	TableMM  float64
	Caution  string
}

// Need is what two parts must keep between them, and why.
func (m *Model) Need(a, b string) (PairNeed, error) {
	i, ok := m.index[a]
	k, there := m.index[b]
	if !ok || !there || i == k {
		return PairNeed{}, fmt.Errorf("a need stands between two parts, not between %q and %q", a, b)
	}
	x, y := m.parts[min(i, k)], m.parts[max(i, k)]
	key := ordered(a, b)
	apart := m.moveApart(x, y)
	n := m.needs.between(x.compiled, y.compiled, apart)
	out := m.needs.asked(x.compiled, y.compiled, apart)
	out.MM, out.Lowered, out.TableMM = n.mm, n.lowered, n.table
	out.Set, out.Joined, out.Caution = m.needs.byPair[key], m.needs.joined[key], n.care(x.compiled, y.compiled)
	return out, nil
}

// asked is what the table says of two parts without a figure of their own.
func (b *needBook) asked(x, y *compiled, relative bool) (out PairNeed) {
	n := strictest(b.rules, x, y, relative, false)
	out.MM, out.Caution, out.Table = n.mm, n.caution, n.row.asked()
	if mm := strictest(b.rules, x, y, relative, true).mm; mm < n.mm {
		out.ShieldMM = mm
	}
	return out
}

func (r *rule) asked() Asked {
	return Asked{MM: r.mm, What: r.what, Standing: r.standing, Law: r.law, Own: r.own}
}

// KindNeed is what two kinds of part must keep: two parts that are just this and
// nothing else.
type KindNeed struct {
	A, B     scene.Trait
	MM       float64
	Table    Asked       // the starting table's
	ShieldMM float64     // with a heat shield between them; 0: no less
	Relative bool        // only where the two move against each other
	Set      *scene.Need // the scene's own; nil: none
	Lowered  bool        // which is less than the table's
	Caution  string
}

// KindNeeds lists what every two kinds of part must keep in a document, each
// pair once, in the order of [scene.AllTraits].
func KindNeeds(doc *scene.Document) []KindNeed {
	set := map[[2]string]*scene.Need{}
	for i := range doc.Needs {
		if n := &doc.Needs[i]; n.Parts[0] == "" {
			set[ordered(string(n.Traits[0]), string(n.Traits[1]))] = n
		}
	}
	start := &needBook{rules: startingTable}
	var list []KindNeed
	for i, t := range scene.AllTraits {
		for _, u := range scene.AllTraits[i:] {
			x, y := &compiled{traits: []scene.Trait{t}}, &compiled{traits: []scene.Trait{u}}
			asked := start.asked(x, y, true)
			k := KindNeed{A: t, B: u, MM: asked.MM, Table: asked.Table, ShieldMM: asked.ShieldMM, Caution: asked.Caution,
				Relative: strictest(startingTable, x, y, false, false).mm < asked.MM, Set: set[ordered(string(t), string(u))]}
			if k.Set != nil {
				k.MM, k.Lowered = k.Set.NeedMM, k.Set.NeedMM < asked.MM
			}
			if k.Caution == "" {
				k.Caution = careWith(x.traits, y.traits)
			}
			list = append(list, k)
		}
	}
	return list
}

// careful are the kinds of part whose gaps must not be given up lightly, the
// worst first, with what is to be known then.
var careful = []struct {
	is   scene.Trait
	text string
}{
	{scene.Fuel, "Fuel that leaks can burn the vehicle: keep its tank and lines off heat and off all that moves, keep to local codes, have it checked by a licensed mechanic."},
	{scene.Brake, "A brake line that is rubbed or heated fails: keep to local codes, have it checked by a licensed mechanic."},
	{scene.Exhaust, "Hot exhaust chars, melts and ignites what is near it: shield it, keep to local codes, have it checked by a licensed mechanic."},
	{scene.Battery, "A battery that is heated or struck burns and gases: keep to local codes, have it checked by a licensed mechanic."},
	{scene.Electric, "A wire that chafes through shorts and burns: keep to local codes, have it checked by a licensed mechanic."},
	{scene.Driveshaft, "A driveshaft that touches anything can break it or itself: fit a safety loop where your local code asks for one."},
	{scene.TyreTrait, "A tyre must run free at every height and lock."},
	{scene.Spring, "An air spring that rubs bursts: it must touch nothing at any height."},
	{scene.Air, "Compressed air bursts out of what is heated or rubbed through: keep inside its rating and to local codes."},
}

// care is the need's own caution, or what is to be known of such parts.
func (n *need) care(x, y *compiled) string {
	if n.caution != "" {
		return n.caution
	}
	return careWith(x.traits, y.traits)
}

// careWith is what is to be known of a gap between two parts of these kinds;
// empty for nothing out of the common.
func careWith(x, y []scene.Trait) string {
	for _, c := range careful {
		if has(x, c.is) || has(y, c.is) {
			return c.text
		}
	}
	return ""
}
