package scene

import (
	"fmt"
	"sort"
	"strings"
)

// What is not measured yet is a list of keys in [Document.Unmeasured]: values
// that are defaults or guesses. Typing a value takes its key off the list; so
// does [MarkMeasured]. The numbers themselves are used like any other.

// maxUnmeasured is the most keys a document may list.
const maxUnmeasured = 200000

// Unmeasured is one value that is not measured yet.
type Unmeasured struct {
	Key    string
	Target string // as SetField takes it
	Field  string
	Part   string // the part's name; empty for the vehicle, a height, a movement
	Label  string // "diameter", "front track", "Aired out, front"
}

// Words name the value by itself: "Air tank: diameter".
func (u *Unmeasured) Words() string {
	if u.Part != "" {
		return u.Part + ": " + u.Label
	}
	return strings.ToUpper(u.Label[:1]) + u.Label[1:]
}

// listed says whether a key is on the list, which is sorted.
func (doc *Document) listed(key string) bool {
	i := sort.SearchStrings(doc.Unmeasured, key)
	return i < len(doc.Unmeasured) && doc.Unmeasured[i] == key
}

// IsMeasured says of a field, named as for [SetField], whether its value is
// measured or means nothing as the document stands, and whether it is one of
// those that are measured at all.
func (doc *Document) IsMeasured(target, field string) (is, can bool) {
	key, whole := doc.keyOf(target, field)
	if key == "" || !whole {
		return true, false
	}
	return !doc.listed(key) || !doc.matters(key, doc.partIndex()), true
}

// NotMeasured lists what is not measured and means something as the document
// stands, in the document's order: a plain beam's housing is not asked for.
func (doc *Document) NotMeasured() []Unmeasured {
	return doc.describe(doc.inOrder(doc.that(func(string) bool { return true })))
}

// that is the keys of the list that matter and that keep says yes to.
func (doc *Document) that(keep func(key string) bool) []string {
	var keys []string
	var parts map[string]int
	for _, key := range doc.Unmeasured {
		if !keep(key) {
			continue
		}
		if parts == nil {
			parts = doc.partIndex()
		}
		if _, ok := doc.rank(key, parts); ok && doc.matters(key, parts) {
			keys = append(keys, key)
		}
	}
	return keys
}

// matters says whether a value means something as the document stands.
func (doc *Document) matters(key string, parts map[string]int) bool {
	target, field := keyTarget(key)
	steps := strings.Split(field, "/")
	if id, ok := strings.CutPrefix(target, "part:"); ok && steps[0] == "size" {
		p := &doc.Parts[parts[id]]
		f := KindNamed(p.Kind).field(steps[1])
		return f.When == nil || f.When(p.Size)
	}
	if target != "vehicle" || len(steps) < 3 && steps[len(steps)-1] != "tyre" {
		return true
	}
	e := &doc.Vehicle.Front
	if steps[0] == "rear" {
		e = &doc.Vehicle.Rear
	}
	switch strings.Join(steps[1:], "/") {
	case "tyre":
		return e.Tyre.Code != ""
	case "tyre/diameter_mm", "tyre/width_mm", "tyre/rim_mm":
		return e.Tyre.Code == ""
	case "suspension/bars":
		return e.Suspension != nil
	case "suspension/crank":
		return e.Suspension != nil && e.Suspension.Crank != ""
	}
	return true
}

func (doc *Document) describe(keys []string) []Unmeasured {
	parts := doc.partIndex()
	list := make([]Unmeasured, len(keys))
	for i, key := range keys {
		u := &list[i]
		u.Key = key
		u.Target, u.Field = keyTarget(key)
		what, id, _ := strings.Cut(u.Target, ":")
		switch what {
		case "part":
			p := &doc.Parts[parts[id]]
			if u.Part = p.Name; u.Part == "" {
				u.Part = p.ID
			}
			u.Label = doc.keyLabel(p, key)
		case "height":
			u.Label = heightCalled(doc, id) + ", " + bare(u.Field)
		case "movement":
			u.Label = doc.MovementNamed(id).Name + ": " + doc.keyLabel(nil, key)
		default:
			u.Label = doc.keyLabel(nil, key)
		}
		if u.Label == "" {
			u.Label = u.Field
		}
	}
	return list
}

func heightCalled(doc *Document, id string) string {
	for _, h := range doc.Heights {
		if h.ID == id && h.Name != "" {
			return h.Name
		}
	}
	return id
}

// withKeys is a changed copy of the list: some keys off, some on.
func (doc *Document) withKeys(off func(key string) bool, on ...string) []string {
	have := map[string]bool{}
	var keys []string
	for _, k := range append(append([]string(nil), doc.Unmeasured...), on...) {
		if !have[k] && (off == nil || !off(k) || contains(on, k)) {
			have[k] = true
			keys = append(keys, k)
		}
	}
	sort.Strings(keys)
	return keys
}

func isKey(keys ...string) func(string) bool {
	return func(k string) bool { return contains(keys, k) }
}

// MarkMeasured says of a value that it is measured as it stands, or that it is
// not. An empty field means all of the target's values that can be measured.
func MarkMeasured(doc *Document, target, field string, on bool) (*Document, string, error) {
	var keys []string
	label := ""
	if field == "" {
		keys = doc.keysOf(target)
		if len(keys) == 0 {
			return nil, "", fmt.Errorf("there is nothing called %s to measure", quote(target))
		}
	} else {
		key, whole := doc.keyOf(target, field)
		if _, ok := doc.rank(key, doc.partIndex()); key == "" || !whole || !ok {
			return nil, "", errNoField(field)
		}
		keys = []string{key}
		u := doc.describe(keys)[0]
		label = ": " + u.Label
	}
	c := *doc
	if on {
		c.Unmeasured = doc.withKeys(isKey(keys...))
	} else {
		c.Unmeasured = doc.withKeys(nil, keys...)
		if len(c.Unmeasured) > maxUnmeasured {
			return nil, "", fmt.Errorf("at most %d values can be marked not measured", maxUnmeasured)
		}
	}
	return &c, map[bool]string{true: "measured", false: "not measured"}[on] + label, nil
}

// keysOf are all keys of a target: of a part the numbers of its size, of the
// vehicle and a height everything.
func (doc *Document) keysOf(target string) []string {
	what, id, _ := strings.Cut(target, ":")
	switch {
	case target == "vehicle":
		keys := []string{"vehicle/wheelbase_mm"}
		for _, end := range [2]string{"front", "rear"} {
			for _, v := range endValues {
				keys = append(keys, "vehicle/"+end+"/"+v.field)
			}
		}
		return keys
	case what == "height":
		for _, h := range doc.Heights {
			if h.ID == id && id != Ride {
				return []string{target + "/front_mm", target + "/rear_mm"}
			}
		}
	case what == "part":
		if i, err := doc.partAt(id); err == nil {
			return append(sizeKeys(&doc.Parts[i]), placeKeys(&doc.Parts[i])...)
		}
	}
	return nil
}

// sizeKeys are the keys of a part's dimensions: its numbers and tables. What is
// only chosen or ticked is seen, not measured.
func sizeKeys(p *Part) []string {
	var keys []string
	for _, f := range KindNamed(p.Kind).Fields {
		if f.Type != Choice && f.Type != Flag {
			keys = append(keys, "part:"+p.ID+"/size/"+f.Name)
		}
	}
	return keys
}

func placeKeys(p *Part) []string {
	var keys []string
	for _, axis := range [3]string{"0", "1", "2"} {
		keys = append(keys, "part:"+p.ID+"/at_mm/"+axis)
	}
	return keys
}

// markNew puts the dimensions of a part that was just added at its defaults on
// the list. Where it stands is not: that is where the user put it.
func (doc *Document) markNew(p *Part) { doc.Unmeasured = doc.withKeys(nil, sizeKeys(p)...) }

// copyMarks gives a part the marks of the one it was copied from.
func (doc *Document) copyMarks(from, to string) {
	var keys []string
	for _, k := range doc.Unmeasured {
		if rest, ok := strings.CutPrefix(k, "part:"+from+"/"); ok {
			keys = append(keys, "part:"+to+"/"+rest)
		}
	}
	if len(keys) > 0 {
		doc.Unmeasured = doc.withKeys(nil, keys...)
	}
}

// typed takes off the list what was just typed, and puts on it what came along
// as a default: the points of another kind of suspension, and the width and the
// rim of a tyre of which only the diameter is known.
func (doc *Document) typed(was *Document, target, field, text string) {
	key, whole := was.keyOf(target, field)
	if key == "" || !whole {
		return
	}
	off, on := []string{key}, []string{}
	end, rest, _ := strings.Cut(strings.TrimPrefix(key, "vehicle/"), "/")
	end = "vehicle/" + end + "/"
	sizes := []string{end + "tyre/diameter_mm", end + "tyre/width_mm", end + "tyre/rim_mm"}
	now, before := &doc.Vehicle.Front, &was.Vehicle.Front
	if strings.HasPrefix(key, "vehicle/rear/") {
		now, before = &doc.Vehicle.Rear, &was.Vehicle.Rear
	}
	switch {
	case target != "vehicle":
	case rest == "tyre" && now.Tyre.Code != "":
		off = append(off, sizes...)
	case (rest == "tyre" || contains(sizes, key)) && was.listed(end+"tyre"):
		off = append(off, end+"tyre")
		on = sizes
		if rest == "tyre" {
			key = sizes[0]
		}
		if strings.TrimSpace(text) != "" {
			on = without(sizes, key)
		}
		off = append(off, sizes[0])
	case rest == "tyre":
		if strings.TrimSpace(text) != "" {
			off = append(off, sizes[0])
		}
	case rest == "suspension/kind" || rest == "independent":
		if now.Suspension == nil {
			off = append(off, end+"suspension/bars", end+"suspension/crank")
		} else if before.Form() != now.Form() {
			on = append(on, end+"suspension/bars")
		}
	}
	if len(on) == 0 && len(doc.Unmeasured) == 0 {
		return
	}
	doc.Unmeasured = doc.withKeys(isKey(off...), on...)
}

func without(words []string, w string) (rest []string) {
	for _, x := range words {
		if x != w {
			rest = append(rest, x)
		}
	}
	return rest
}

// Pruned is the document without the keys of what is no longer there.
func (doc *Document) Pruned() *Document {
	parts := doc.partIndex()
	gone := func(key string) bool {
		_, ok := doc.rank(key, parts)
		return !ok
	}
	for _, k := range doc.Unmeasured {
		if gone(k) {
			c := *doc
			c.Unmeasured = doc.withKeys(gone)
			return &c
		}
	}
	return doc
}

// Key is the key under which a value is listed when it is not measured, empty
// for what is not measured at all. The field is named as for [SetField].
func (doc *Document) Key(target, field string) string {
	key, whole := doc.keyOf(target, field)
	if !whole {
		return ""
	}
	return key
}
