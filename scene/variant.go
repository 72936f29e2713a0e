package scene

import (
	"bytes"
	"fmt"
	"reflect"
	"sort"
)

// Variant is one of a scene's alternatives: what differs from the scene as
// drawn. Whatever it does not name is the scene's own, and follows it.
type Variant struct {
	ID, Name, Note string
	Parts          []Part   // in place of the part of the same id, or added after the others
	Without        []string // parts that are not there
	Vehicle        VehicleChange
	Heights        []Height // in place of all; nil: the scene's
	Movements      []Movement
	// WithoutMovements, WithoutNeeds and Parted name what of the scene does not
	// hold here. Of the needs only the pair counts.
	WithoutMovements []string
	Needs            []Need
	WithoutNeeds     []Need
	Joined           []Joined
	Parted           [][2]string
	// Groups, Tapes and Checked stand in place of the scene's; nil: they are the
	// scene's, as far as their parts are here.
	Groups  []Group
	Tapes   []Tape
	Checked []Check
	// Unmeasured are keys that are not measured yet only here, Measured those that
	// are measured only here.
	Unmeasured, Measured []string
}

// MaxVariants is the most variants of a document.
const MaxVariants = 12

// VehicleChange is what a variant has otherwise in the vehicle; nil is as drawn.
type VehicleChange struct {
	WheelbaseMM *float64
	Front, Rear EndChange
}

// EndChange is what a variant has otherwise at one end.
type EndChange struct {
	TrackMM, FrameHeightMM, SteerDeg, CrossMM *float64

	Tyre *Tyre
	Hung *Hung
}

// Hung is how an end's wheels are joined and what holds them: the two belong
// together.
type Hung struct {
	Independent bool
	Suspension  *Suspension
}

// VariantNamed is the variant of that id, or nil.
func (doc *Document) VariantNamed(id string) *Variant {
	for i := range doc.Variants {
		if doc.Variants[i].ID == id {
			return &doc.Variants[i]
		}
	}
	return nil
}

// Resolve is the whole document of a variant, by itself: it has no variants.
// For the empty id it is the scene as drawn. What a variant says of things that
// are no longer there is passed over.
func Resolve(doc *Document, id string) (*Document, error) {
	c := *doc
	c.Variants, c.Shown, c.whole = nil, "", nil
	if id == "" {
		return &c, nil
	}
	v := doc.VariantNamed(id)
	if v == nil {
		return nil, fmt.Errorf("there is no variant %s", quote(id))
	}
	v.apply(&c)
	c.dropLost()
	return c.Pruned(), nil
}

func (v *Variant) apply(c *Document) {
	v.Vehicle.apply(&c.Vehicle)
	if v.Heights != nil {
		c.Heights = v.Heights
	}
	c.Parts = merged(c.Parts, v.Parts, v.Without, partKey)
	c.Movements = merged(c.Movements, v.Movements, v.WithoutMovements, movementKey)
	c.Needs = merged(c.Needs, v.Needs, keysOf(v.WithoutNeeds, needKey), needKey)
	var parted []string
	for _, pair := range v.Parted {
		parted = append(parted, pairKey(pair[0], pair[1]))
	}
	c.Joined = merged(c.Joined, v.Joined, parted, joinedKey)
	if v.Groups != nil {
		c.Groups = v.Groups
	}
	if v.Tapes != nil {
		c.Tapes = v.Tapes
	}
	if v.Checked != nil {
		c.Checked = v.Checked
	}
	if len(v.Unmeasured)+len(v.Measured) > 0 {
		c.Unmeasured = append([]string(nil), merged(c.Unmeasured, v.Unmeasured, v.Measured, wordKey)...)
		sort.Strings(c.Unmeasured)
	}
}

// Diff is the variant that makes edited out of base: Resolve gives edited
// again, but for the order of its lists. Its id, name and note are empty.
func Diff(base, edited *Document) Variant {
	var v Variant
	v.Vehicle = vehicleChange(&base.Vehicle, &edited.Vehicle)
	if !reflect.DeepEqual(base.Heights, edited.Heights) {
		v.Heights = edited.Heights
	}
	v.Parts, v.Without = changes(base.Parts, edited.Parts, partKey, sameEntry)
	v.Movements, v.WithoutMovements = changes(base.Movements, edited.Movements, movementKey, same[Movement])
	// What goes with a part that is gone need not be said.
	bare := *base
	bare.Parts, bare.Movements = edited.Parts, edited.Movements
	bare.dropLost()
	bare = *bare.Pruned()
	var needs, parted []string
	v.Needs, needs = changes(bare.Needs, edited.Needs, needKey, same[Need])
	for _, n := range bare.Needs {
		if contains(needs, needKey(&n)) {
			v.WithoutNeeds = append(v.WithoutNeeds, Need{Parts: n.Parts, Traits: n.Traits})
		}
	}
	v.Joined, parted = changes(bare.Joined, edited.Joined, joinedKey, same[Joined])
	for _, j := range bare.Joined {
		if contains(parted, joinedKey(&j)) {
			v.Parted = append(v.Parted, [2]string{j.A, j.B})
		}
	}
	v.Groups = instead(bare.Groups, edited.Groups)
	v.Tapes = instead(bare.Tapes, edited.Tapes)
	v.Checked = instead(bare.Checked, edited.Checked)
	v.Unmeasured, v.Measured = changes(bare.Unmeasured, edited.Unmeasured, wordKey, same[string])
	return v
}

// instead is a whole list where it differs; nil where it does not.
func instead[T any](base, edited []T) []T {
	if len(base) == len(edited) && (len(base) == 0 || reflect.DeepEqual(base, edited)) {
		return nil
	}
	return append([]T{}, edited...)
}

// Keys by which the elements of a list are told apart.
func wordKey(w *string) string       { return *w }
func partKey(p *Part) string         { return p.ID }
func movementKey(m *Movement) string { return m.ID }
func joinedKey(j *Joined) string     { return pairKey(j.A, j.B) }

// needKey keeps pairs of traits apart from pairs of parts: no id has a space.
func needKey(n *Need) string {
	if n.Parts == [2]string{} {
		return " " + pairKey(string(n.Traits[0]), string(n.Traits[1]))
	}
	return pairKey(n.Parts[0], n.Parts[1])
}

func pairKey(a, b string) string {
	if b < a {
		a, b = b, a
	}
	return a + " " + b
}

func keysOf[T any](list []T, key func(*T) string) (keys []string) {
	for i := range list {
		keys = append(keys, key(&list[i]))
	}
	return keys
}

// merged is a list with some elements replaced, some left out, and what is new
// at its end.
func merged[T any](base, changed []T, without []string, key func(*T) string) []T {
	if len(changed) == 0 && len(without) == 0 {
		return base
	}
	now, gone := map[string]*T{}, map[string]bool{}
	for i := range changed {
		now[key(&changed[i])] = &changed[i]
	}
	for _, k := range without {
		gone[k] = true
	}
	var out []T
	had := map[string]bool{}
	for i := range base {
		k := key(&base[i])
		had[k] = true
		switch {
		case now[k] != nil:
			out = append(out, *now[k])
		case !gone[k]:
			out = append(out, base[i])
		}
	}
	for i := range changed {
		if !had[key(&changed[i])] {
			out = append(out, changed[i])
		}
	}
	return out
}

// changes is what merged needs to make edited out of base.
func changes[T any](base, edited []T, key func(*T) string, same func(a, b *T) bool) (changed []T, without []string) {
	was := map[string]*T{}
	for i := range base {
		was[key(&base[i])] = &base[i]
	}
	stays := map[string]bool{}
	for i := range edited {
		k := key(&edited[i])
		stays[k] = true
		if old := was[k]; old == nil || !same(old, &edited[i]) {
			changed = append(changed, edited[i])
		}
	}
	for i := range base {
		if k := key(&base[i]); !stays[k] {
			without = append(without, k)
		}
	}
	return changed, without
}

func same[T any](a, b *T) bool { return reflect.DeepEqual(a, b) }

// sameEntry compares parts as a file would have them: an empty list is none.
func sameEntry(a, b *Part) bool {
	return reflect.DeepEqual(a, b) || bytes.Equal(partText(a), partText(b))
}

func partText(p *Part) []byte {
	w := &writer{}
	w.part(p)
	return w.buf.Bytes()
}

// dropLost takes away what names parts or movements that are not there.
func (doc *Document) dropLost() {
	there := make(map[string]bool, len(doc.Parts))
	for i := range doc.Parts {
		there[doc.Parts[i].ID] = true
	}
	doc.Needs = kept(doc.Needs, func(n *Need) bool {
		return n.Parts == [2]string{} || there[n.Parts[0]] && there[n.Parts[1]]
	})
	doc.Joined = kept(doc.Joined, func(j *Joined) bool { return there[j.A] && there[j.B] })
	doc.dropLostMoves()
	doc.dropLostMarks(there)
}

// kept is a list without the elements that are not good; the same list where
// all are.
func kept[T any](list []T, good func(*T) bool) []T {
	for i := range list {
		if good(&list[i]) {
			continue
		}
		var out []T
		for k := range list {
			if good(&list[k]) {
				out = append(out, list[k])
			}
		}
		return out
	}
	return list
}

// dropLostMoves frees parts from movements that are not there or are fixed to
// another carrier.
func (doc *Document) dropLostMoves() {
	good := func(p *Part) func(*string) bool {
		return func(id *string) bool {
			m := doc.MovementNamed(*id)
			return m != nil && m.Carrier == p.Carrier
		}
	}
	own := false
	for i := range doc.Parts {
		p := &doc.Parts[i]
		if left := kept(p.Moves, good(p)); len(left) != len(p.Moves) {
			if !own {
				doc.Parts, own = append([]Part(nil), doc.Parts...), true
			}
			doc.Parts[i].Moves = left
		}
	}
}

func (e *EndChange) none() bool { return *e == EndChange{} }

func (c *VehicleChange) none() bool {
	return c.WheelbaseMM == nil && c.Front.none() && c.Rear.none()
}

func (c *VehicleChange) apply(v *Vehicle) {
	put(&v.WheelbaseMM, c.WheelbaseMM)
	c.Front.apply(&v.Front)
	c.Rear.apply(&v.Rear)
}

func (c *EndChange) apply(e *End) {
	put(&e.TrackMM, c.TrackMM)
	put(&e.FrameHeightMM, c.FrameHeightMM)
	put(&e.SteerDeg, c.SteerDeg)
	put(&e.CrossMM, c.CrossMM)
	put(&e.Tyre, c.Tyre)
	if c.Hung != nil {
		e.Independent, e.Suspension = c.Hung.Independent, c.Hung.Suspension
	}
}

func put[T any](into, from *T) {
	if from != nil {
		*into = *from
	}
}

// other is the second of two values where they differ, else nil.
func other[T comparable](a, b T) *T {
	if a == b {
		return nil
	}
	return &b
}

func vehicleChange(a, b *Vehicle) VehicleChange {
	return VehicleChange{other(a.WheelbaseMM, b.WheelbaseMM), endChange(&a.Front, &b.Front), endChange(&a.Rear, &b.Rear)}
}

func endChange(a, b *End) EndChange {
	c := EndChange{other(a.TrackMM, b.TrackMM), other(a.FrameHeightMM, b.FrameHeightMM), other(a.SteerDeg, b.SteerDeg),
		other(a.CrossMM, b.CrossMM), other(a.Tyre, b.Tyre), nil}
	if a.Independent != b.Independent || !reflect.DeepEqual(a.Suspension, b.Suspension) {
		c.Hung = &Hung{b.Independent, b.Suspension}
	}
	return c
}
