package fitment

import (
	"math"
	"slices"
	"strings"

	"scrubline/scene"
)

// Group is findings that are one thing to whoever mends them: the left and the
// right of the same, the pieces of one tank against the same neighbour, the
// lines of one bundle, a part and the room that must stay free for its service.
type Group struct {
	// Findings are indexes into the report's findings, worst first; the first
	// one is what the group is called by.
	Findings []int
}

// Two figures of what counts as one thing (common practice, no source).
const (
	// bundleMM is how near to each other two lines run that lie in one bundle.
	bundleMM = 60.0
	// placeMM is how near to each other two joined parts meet a third for it to
	// be one place: a tank and its straps, not a frame at its two ends.
	placeMM = 500.0
	// acrossMM is how far two parts may stand from being mirrored and still
	// count as left and right.
	acrossMM = 1.0
)

// Groups gathers the report's findings: every one is in exactly one group.
// Groups and what is in them stand in the report's order, worst first. Neither
// the parts' names nor their order in the document matter.
func (m *Model) Groups() []Group {
	r := m.Check()
	if m.groups == nil {
		m.groups = gather(m.Doc, r.Findings, m.runTogether)
	}
	return m.groups
}

// runTogether says whether two lines lie in one bundle somewhere.
func (m *Model) runTogether(a, b string) bool {
	g, found := m.gapIn(m.parts[m.index[a]], m.parts[m.index[b]], false, State{})
	return found && g.Gap <= bundleMM
}

// gather puts findings that are alike into groups; together says whether two
// lines lie in one bundle.
func gather(doc *scene.Document, fs []Finding, together func(a, b string) bool) []Group {
	k := newKinship(doc, together)
	of := make([]int, len(fs)) // the first finding each is with
	all := make([]kin, len(fs))
	for i := range fs {
		of[i], all[i] = i, k.of(&fs[i])
		for j := range i {
			if of[j] != of[i] && k.alike(&all[i], &all[j]) {
				into, from := min(of[i], of[j]), max(of[i], of[j])
				for n := range of[:i+1] {
					if of[n] == from {
						of[n] = into
					}
				}
			}
		}
	}
	var out []Group
	at := map[int]int{}
	for i, first := range of {
		if first == i {
			at[i] = len(out)
			out = append(out, Group{})
		}
		g := &out[at[first]]
		g.Findings = append(g.Findings, i)
	}
	return out
}

// kinship knows which parts are one thing. Parts are known by their index: it
// asks about every two findings.
type kinship struct {
	parts    []scene.Part
	index    map[string]int
	group    []int // a part's group; what is in none is a group of its own
	joined   map[[2]int]bool
	across   []int // a part's twin on the other side; what has none is its own
	together func(a, b string) bool
}

func newKinship(doc *scene.Document, together func(a, b string) bool) *kinship {
	n := len(doc.Parts)
	k := &kinship{parts: doc.Parts, index: make(map[string]int, n), group: make([]int, n), joined: map[[2]int]bool{}, across: make([]int, n), together: together}
	for i := range doc.Parts {
		k.index[doc.Parts[i].ID] = i
		k.group[i], k.across[i] = i, i
	}
	for g := range doc.Groups {
		for _, id := range doc.Groups[g].Parts {
			k.group[k.index[id]] = n + g
		}
	}
	for _, j := range doc.Joined {
		k.joined[inOrder(k.index[j.A], k.index[j.B])] = true
	}
	for p, q := range twins(doc) {
		k.across[k.index[p]] = k.index[q]
	}
	return k
}

func inOrder(a, b int) [2]int { return [2]int{min(a, b), max(a, b)} }

// kin is a finding with the parts it is of.
type kin struct {
	*Finding
	parts   [2]int
	units   [2]int // the two things that are in conflict: parts, or groups of parts
	pair    [2]int
	mirror  [2]int // the pair on the other side
	service int    // the part whose room it is; -1 for none
	far     int    // that part's twin
}

func (k *kinship) of(f *Finding) kin {
	a, b := k.index[f.A], k.index[f.B]
	r := kin{Finding: f, parts: [2]int{a, b}, pair: inOrder(a, b), mirror: inOrder(k.across[a], k.across[b]), service: -1, far: -1}
	r.units = inOrder(k.group[a], k.group[b])
	if k.group[a] == k.group[b] { // within one group it is the parts that are
		r.units = r.pair
	}
	if f.Service != "" {
		r.service = k.index[f.Service]
		r.far = k.across[r.service]
	}
	return r
}

// alike says whether two findings are one thing.
func (k *kinship) alike(f, g *kin) bool {
	if f.units == g.units || mirrored(f, g) {
		return true
	}
	for x := range 2 {
		for y := range 2 {
			p, q := f.parts[1-x], g.parts[1-y]
			if f.parts[x] == g.parts[y] && (k.oneBody(f, g, p, q) || k.oneBundle(f, g, p, q)) {
				return true
			}
		}
	}
	return false
}

// mirrored says whether one is the other on the other side of the vehicle, as
// bad and for the same reason.
func mirrored(f, g *kin) bool {
	return f.mirror == g.pair && f.far == g.service && f.Status == g.Status && f.NeedMM == g.NeedMM && f.NeedSource == g.NeedSource
}

// oneBody says whether p and q, which meet the same third part, are fixed
// to each other and meet it in one place for the same reason. With another
// caution it is not: a fuel line is not to be read as one more rail.
func (k *kinship) oneBody(f, g *kin, p, q int) bool {
	if !k.joined[inOrder(p, q)] || f.NeedMM != g.NeedMM || f.NeedSource != g.NeedSource || f.Caution != g.Caution {
		return false
	}
	if (f.service == p) != (g.service == q) || (f.service < 0) != (g.service < 0) {
		return false
	}
	x, y := &k.parts[p], &k.parts[q]
	return x.Carrier == y.Carrier && slices.Equal(x.Moves, y.Moves) && placesApart(f.Finding, g.Finding) <= placeMM
}

// placesApart is how far two findings' places are from each other, mm.
func placesApart(f, g *Finding) float64 {
	sum := 0.0
	for i := range f.PointsMM[0] {
		d := (f.PointsMM[0][i] + f.PointsMM[1][i] - g.PointsMM[0][i] - g.PointsMM[1][i]) / 2
		sum += float64(d * d)
	}
	return math.Sqrt(sum)
}

// lineKinds are the kinds that are laid in bundles.
var lineKinds = map[string]bool{"air_line": true, "brake_line": true, "fuel_line": true, "wiring": true}

// oneBundle says whether p and q are lines that run together past a third part.
func (k *kinship) oneBundle(f, g *kin, p, q int) bool {
	return f.service < 0 && g.service < 0 && p != q &&
		lineKinds[k.parts[p].Kind] && lineKinds[k.parts[q].Kind] && k.together(k.parts[p].ID, k.parts[q].ID)
}

// twins are the parts that stand on both sides, each with its other: by their
// ids (spring_rl and spring_rr, seat_left and seat_right), else by their place.
func twins(doc *scene.Document) map[string]string {
	kind, out := map[string]string{}, map[string]string{}
	for i := range doc.Parts {
		kind[doc.Parts[i].ID] = doc.Parts[i].Kind
	}
	for id := range kind {
		if other := acrossID(id); other != id && kind[other] == kind[id] {
			out[id] = other
		}
	}
	var lone []*scene.Part
	for i := range doc.Parts {
		if p := &doc.Parts[i]; out[p.ID] == "" && math.Abs(p.AtMM[1]) > acrossMM {
			lone = append(lone, p)
		}
	}
	facing := map[string]string{}
	for _, p := range lone {
		n := 0
		for _, q := range lone {
			if faces(p, q) {
				facing[p.ID] = q.ID
				n++
			}
		}
		if n != 1 {
			delete(facing, p.ID)
		}
	}
	for p, q := range facing {
		if facing[q] == p {
			out[p] = q
		}
	}
	return out
}

// faces says whether one part stands where the other does, on the other side.
func faces(p, q *scene.Part) bool {
	y := p.AtMM[1]
	return math.Abs(y+q.AtMM[1]) <= acrossMM && math.Abs(y) > acrossMM && p.Kind == q.Kind && acrossCarrier(p.Carrier) == q.Carrier &&
		math.Abs(p.AtMM[0]-q.AtMM[0]) <= acrossMM && math.Abs(p.AtMM[2]-q.AtMM[2]) <= acrossMM
}

func acrossCarrier(on scene.Carrier) scene.Carrier {
	switch on {
	case scene.WheelFL:
		return scene.WheelFR
	case scene.WheelFR:
		return scene.WheelFL
	case scene.WheelRL:
		return scene.WheelRR
	case scene.WheelRR:
		return scene.WheelRL
	}
	return on
}

// acrossID is an id with its words for a side turned over: l, left, and what
// ends a short word such as fl, rr or 2l.
func acrossID(id string) string {
	out, from := "", 0
	for i := 0; i <= len(id); i++ {
		if i < len(id) && id[i] != '_' && id[i] != '-' {
			continue
		}
		out += acrossWord(id[from:i])
		if i < len(id) {
			out += id[i : i+1]
		}
		from = i + 1
	}
	return out
}

func acrossWord(w string) string {
	switch {
	case w == "left":
		return "right"
	case w == "right":
		return "left"
	case !sideEnding(w):
		return w
	case w[len(w)-1] == 'l':
		return w[:len(w)-1] + "r"
	}
	return w[:len(w)-1] + "l"
}

// sideEnding says whether a word is l or r, after at most f or r and a number.
func sideEnding(w string) bool {
	if w == "" || w[len(w)-1] != 'l' && w[len(w)-1] != 'r' {
		return false
	}
	before := w[:len(w)-1]
	return before == "f" || before == "r" || strings.Trim(before, "0123456789") == ""
}
