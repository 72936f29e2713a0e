package scene

import (
	"sort"
	"strconv"
	"strings"
)

// A value's key is what [SetField] calls it, target and field joined by a
// stroke, the field as the file spells it:
//
//	vehicle/wheelbase_mm                vehicle/front/tyre
//	vehicle/rear/suspension/bars        height:aired_out/front_mm
//	part:air-tank/at_mm/0               part:air-tank/size/diameter_mm
//	movement:lid/from
//
// A table, and the bars of a suspension, are one value: it is measured when all
// of it is.

// endValues are what is measured at one end of the vehicle, in the order of the
// form: the key below the end, and what people call it. A tyre by its code is
// one value, a tyre by plain numbers three.
var endValues = [...]struct{ field, label string }{
	{"track_mm", "track"}, {"tyre", "tyre size"},
	{"tyre/diameter_mm", "tyre diameter"}, {"tyre/width_mm", "tyre width"}, {"tyre/rim_mm", "rim diameter"},
	{"tyre/deflection_mm", "tyre squash"}, {"frame_height_mm", "frame height"},
	{"independent", "wheels joined or not"}, {"steer_deg", "steer"}, {"cross_mm", "left and right apart"},
	{"suspension/kind", "kind of suspension"}, {"suspension/crank", "crank"}, {"suspension/bars", "suspension's points"},
}

// axisWords name the three parts of a position, a turn and a direction.
var axisWords = map[string][3]string{
	"at_mm":    {"position back", "position right", "position up"},
	"turn_deg": {"roll", "pitch", "yaw"},
	"axis":     {"axis back", "axis right", "axis up"},
}

// keyOf is the key of what [SetField] would change, empty for what is not
// measured at all, such as a name. whole is false for one cell of a table.
func (doc *Document) keyOf(target, field string) (key string, whole bool) {
	what, id, _ := strings.Cut(target, ":")
	steps := fieldSteps(field)
	name := ""
	whole = true
	switch {
	case target == "vehicle":
		name, whole = vehicleField(steps)
	case target == "scene" && steps[0] == "height" && len(steps) == 3:
		return doc.keyOf("height:"+strings.SplitN(field, "/", 3)[1], steps[2])
	case what == "height" && id != Ride && (steps[0] == "front" || steps[0] == "rear"):
		name = steps[0] + "_mm"
	case what == "movement":
		name = movementField(steps)
	case what == "part":
		if i, err := doc.partAt(id); err == nil {
			name, whole = partField(KindNamed(doc.Parts[i].Kind), field, steps)
		}
	}
	if name == "" {
		return "", false
	}
	return target + "/" + name, whole
}

// vehicleField spells a field of the vehicle as its key does.
func vehicleField(steps []string) (name string, whole bool) {
	flat := strings.ReplaceAll(strings.Join(steps, "_"), "_tyre_", "_")
	if flat == "wheelbase" {
		return "wheelbase_mm", true
	}
	end, rest, _ := strings.Cut(flat, "_")
	if end != "front" && end != "rear" {
		return "", false
	}
	if bars, ok := strings.CutPrefix(rest, "suspension_bars"); ok {
		return end + "/suspension/bars", bars == ""
	}
	for _, v := range endValues {
		if strings.ReplaceAll(strings.TrimPrefix(bare(v.field), "tyre/"), "/", "_") == rest {
			return end + "/" + v.field, true
		}
	}
	return "", false
}

func movementField(steps []string) string {
	for _, name := range [2]string{"at", "axis"} {
		if axis, ok := axisOf(steps, name); ok {
			return map[string]string{"at": "at_mm/", "axis": "axis/"}[name] + strconv.Itoa(axis)
		}
	}
	if len(steps) == 1 && (steps[0] == "from" || steps[0] == "to") {
		return steps[0]
	}
	return ""
}

// partField spells a field of a part of a kind as its key does.
func partField(k *Kind, field string, steps []string) (name string, whole bool) {
	if axis, ok := axisOf(steps, "at"); ok {
		return "at_mm/" + strconv.Itoa(axis), true
	}
	if axis, ok := axisOf(steps, "turn"); ok {
		return "turn_deg/" + strconv.Itoa(axis), true
	}
	if k == nil {
		return "", false
	}
	first, rest, _ := strings.Cut(strings.TrimPrefix(strings.ReplaceAll(field, ".", "/"), "size/"), "/")
	f := fieldOf(k.Fields, first)
	if f == nil {
		return "", false
	}
	return "size/" + f.Name, rest == ""
}

// keyTarget splits a key into what [SetField] takes.
func keyTarget(key string) (target, field string) {
	target, field, _ = strings.Cut(key, "/")
	return target, field
}

// keyLabel is what people call a key's value, without its part's name.
func (doc *Document) keyLabel(p *Part, key string) string {
	target, field := keyTarget(key)
	steps := strings.Split(field, "/")
	if words, ok := axisWords[steps[0]]; ok && len(steps) == 2 {
		if i, err := strconv.Atoi(steps[1]); err == nil && i >= 0 && i < 3 {
			return words[i]
		}
	}
	switch {
	case p != nil && len(steps) == 2:
		if f := KindNamed(p.Kind).field(steps[1]); f != nil {
			return strings.ToLower(f.Label[:1]) + f.Label[1:]
		}
	case target == "vehicle" && field == "wheelbase_mm":
		return "wheelbase"
	case target == "vehicle":
		for _, v := range endValues {
			if steps[0]+"/"+v.field == field {
				return steps[0] + " " + v.label
			}
		}
	}
	return strings.ReplaceAll(bare(field), "/", " ")
}

// keyRank orders keys as the document and its forms do.
type keyRank struct{ group, item, field int }

func (r keyRank) before(o keyRank) bool {
	switch {
	case r.group != o.group:
		return r.group < o.group
	case r.item != o.item:
		return r.item < o.item
	}
	return r.field < o.field
}

// rank is a key's place in that order; false when the document has no such
// value. parts is the index of each part by id.
func (doc *Document) rank(key string, parts map[string]int) (r keyRank, ok bool) {
	target, field := keyTarget(key)
	what, id, _ := strings.Cut(target, ":")
	steps := strings.Split(field, "/")
	switch {
	case target == "vehicle":
		r.group = 0
		r.field, ok = vehicleRank(field)
	case what == "height":
		for i, h := range doc.Heights {
			if h.ID == id && id != Ride && (field == "front_mm" || field == "rear_mm") {
				r, ok = keyRank{1, i, 0}, true
				if field == "rear_mm" {
					r.field = 1
				}
			}
		}
	case what == "part":
		i, known := parts[id]
		if !known {
			return r, false
		}
		r = keyRank{group: 2, item: i}
		r.field, ok = partRank(KindNamed(doc.Parts[i].Kind), steps)
	case what == "movement":
		for i := range doc.Movements {
			if doc.Movements[i].ID == id && movementField(fieldSteps(field)) == field {
				r, ok = keyRank{3, i, movementRank(steps)}, true
			}
		}
	}
	return r, ok
}

func vehicleRank(field string) (int, bool) {
	if field == "wheelbase_mm" {
		return 0, true
	}
	for e, end := range [2]string{"front/", "rear/"} {
		for i, v := range endValues {
			if end+v.field == field {
				return 1 + e*len(endValues) + i, true
			}
		}
	}
	return 0, false
}

func partRank(k *Kind, steps []string) (int, bool) {
	if len(steps) != 2 || k == nil {
		return 0, false
	}
	if steps[0] == "size" {
		for i := range k.Fields {
			if k.Fields[i].Name == steps[1] {
				return 3 + i, true
			}
		}
		return 0, false
	}
	axis, err := strconv.Atoi(steps[1])
	if err != nil || axis < 0 || axis > 2 || strconv.Itoa(axis) != steps[1] {
		return 0, false
	}
	switch steps[0] {
	case "at_mm":
		return axis, true
	case "turn_deg":
		return 3 + len(k.Fields) + axis, true
	}
	return 0, false
}

func movementRank(steps []string) int {
	n := map[string]int{"at_mm": 0, "axis": 3, "from": 6, "to": 7}[steps[0]]
	if len(steps) == 2 {
		axis, _ := strconv.Atoi(steps[1])
		n += axis
	}
	return n
}

// partIndex is the index of each part by id.
func (doc *Document) partIndex() map[string]int {
	index := make(map[string]int, len(doc.Parts))
	for i := range doc.Parts {
		index[doc.Parts[i].ID] = i
	}
	return index
}

// inOrder sorts keys as the document does.
func (doc *Document) inOrder(keys []string) []string {
	parts := doc.partIndex()
	ranks := make(map[string]keyRank, len(keys))
	for _, k := range keys {
		ranks[k], _ = doc.rank(k, parts)
	}
	sort.SliceStable(keys, func(i, j int) bool { return ranks[keys[i]].before(ranks[keys[j]]) })
	return keys
}
