package scene

import (
	"slices"
	"strings"
)

// Lacking knows what of a document is not measured, for questions about many
// pairs of parts. It is of the document as it was when it was made.
type Lacking struct {
	doc   *Document
	index map[string]int
	parts map[string][]lack // by the part's id
	other []lack            // of the vehicle and its heights
}

// lack is one value that is not measured, with what decides whom it concerns.
type lack struct {
	Unmeasured
	rank keyRank
}

// Lacking looks through the list of what is not measured, once.
func (doc *Document) Lacking() *Lacking {
	l := &Lacking{doc: doc, index: doc.partIndex(), parts: map[string][]lack{}}
	keys := doc.that(func(string) bool { return true })
	for _, u := range doc.describe(doc.inOrder(keys)) {
		rank, _ := doc.rank(u.Key, l.index)
		if id, ok := strings.CutPrefix(u.Target, "part:"); ok {
			l.parts[id] = append(l.parts[id], lack{u, rank})
		} else {
			l.other = append(l.other, lack{u, rank})
		}
	}
	return l
}

// Between lists what is not measured and concerns these parts together, in the
// document's order: their own dimensions and places, and, where they ride on
// different carriers, what of the vehicle lies between those. moves adds how far
// the body goes up and down.
func (l *Lacking) Between(moves bool, ids ...string) []Unmeasured {
	if len(l.doc.Unmeasured) == 0 {
		return nil
	}
	between := l.carriers(ids)
	var found []lack
	for i := range l.other {
		if between.concerns(&l.other[i].Unmeasured, moves) {
			found = append(found, l.other[i])
		}
	}
	for i, id := range ids {
		if !contains(ids[:i], id) {
			found = append(found, l.parts[id]...)
		}
	}
	slices.SortStableFunc(found, func(a, b lack) int {
		switch {
		case a.rank.before(b.rank):
			return -1
		case b.rank.before(a.rank):
			return 1
		}
		return 0
	})
	var list []Unmeasured
	for i := range found {
		list = append(list, found[i].Unmeasured)
	}
	return list
}

// carriers are what these parts ride on or reach to.
func (l *Lacking) carriers(ids []string) carriersOf {
	on := carriersOf{}
	for _, id := range ids {
		i, ok := l.index[id]
		if !ok {
			continue
		}
		p := &l.doc.Parts[i]
		on[p.Carrier] = true
		for _, f := range KindNamed(p.Kind).Fields {
			if f.Type != Choice {
				continue
			}
			if c := Carrier(p.Size.Text(f.Name)); contains(Carriers, c) {
				on[c] = true
			}
		}
	}
	return on
}

type carriersOf map[Carrier]bool

func (on carriersOf) has(cs ...Carrier) bool {
	return slices.ContainsFunc(cs, func(c Carrier) bool { return on[c] })
}

// concerns says whether a value of the vehicle or of a height lies between
// parts on these carriers.
func (on carriersOf) concerns(u *Unmeasured, moves bool) bool {
	apart := len(on) > 1
	wheels := map[string]bool{"front": on.has(WheelFL, WheelFR), "rear": on.has(WheelRL, WheelRR)}
	ends := map[string]bool{
		"front": wheels["front"] || apart && on.has(FrontAxle, Ground),
		"rear":  wheels["rear"] || apart && on.has(RearAxle, Ground),
	}
	switch {
	case strings.HasPrefix(u.Target, "height:"):
		return moves && apart
	case u.Target != "vehicle":
		return false
	case u.Field == "wheelbase_mm":
		return ends["rear"]
	}
	end, rest, _ := strings.Cut(u.Field, "/")
	switch rest {
	case "steer_deg", "track_mm":
		return wheels[end]
	}
	return ends[end]
}

// UnmeasuredBetween is [Lacking.Between] for one question, as keys.
func (doc *Document) UnmeasuredBetween(moves bool, ids ...string) []string {
	if len(doc.Unmeasured) == 0 {
		return nil
	}
	return Keys(doc.Lacking().Between(moves, ids...))
}

// Keys are the keys of values.
func Keys(list []Unmeasured) []string {
	var keys []string
	for i := range list {
		keys = append(keys, list[i].Key)
	}
	return keys
}
