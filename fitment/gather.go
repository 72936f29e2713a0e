package fitment

import (
	"math"
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
	for i := range fs {
		of[i] = i
		for j := range i {
			if of[j] != of[i] && k.alike(&fs[i], &fs[j]) {
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

// kinship knows which parts are one thing.
type kinship struct {
	parts    map[string]*scene.Part
	group    map[string]string // a part's group
	joined   map[[2]string]bool
	across   map[string]string // a part's twin on the other side
	together func(a, b string) bool
}

func newKinship(doc *scene.Document, together func(a, b string) bool) *kinship {
	k := &kinship{parts: map[string]*scene.Part{}, group: map[string]string{}, joined: map[[2]string]bool{}, together: together}
	for i := range doc.Parts {
		k.parts[doc.Parts[i].ID] = &doc.Parts[i]
	}
	for _, g := range doc.Groups {
		for _, id := range g.Parts {
			k.group[id] = g.ID
		}
	}
	for _, j := range doc.Joined {
		k.joined[ordered(j.A, j.B)] = true
	}
	k.across = twins(doc)
	return k
}

// alike says whether two findings are one thing.
func (k *kinship) alike(f, g *Finding) bool {
	if k.units(f) == k.units(g) || k.mirrored(f, g) {
		return true
	}
	for _, x := range [2][2]string{{f.A, f.B}, {f.B, f.A}} {
		for _, y := range [2][2]string{{g.A, g.B}, {g.B, g.A}} {
			if x[0] == y[0] && (k.oneBody(f, g, x[1], y[1]) || k.oneBundle(f, g, x[1], y[1])) {
				return true
			}
		}
	}
	return false
}

// units are the two things that are in conflict: parts, or groups of parts.
// Within one group it is the parts that are.
func (k *kinship) units(f *Finding) [2]string {
	a, b := k.unit(f.A), k.unit(f.B)
	if a == b {
		return ordered(f.A, f.B)
	}
	return ordered(a, b)
}

func (k *kinship) unit(id string) string {
	if g, ok := k.group[id]; ok {
		return "group|" + g // no part's id has such a stroke
	}
	return id
}

// mirrored says whether one is the other on the other side of the vehicle, as
// bad and for the same reason.
func (k *kinship) mirrored(f, g *Finding) bool {
	service := f.Service
	if service != "" {
		service = k.twin(service)
	}
	return f.Status == g.Status && f.NeedMM == g.NeedMM && f.NeedSource == g.NeedSource &&
		ordered(k.twin(f.A), k.twin(f.B)) == ordered(g.A, g.B) && service == g.Service
}

// twin is the same part on the other side; a part without one is its own.
func (k *kinship) twin(id string) string {
	if other, ok := k.across[id]; ok {
		return other
	}
	return id
}

// oneBody says whether p and q, which meet the same third part, are fixed
// to each other and meet it in one place for the same reason. With another
// caution it is not: a fuel line is not to be read as one more rail.
func (k *kinship) oneBody(f, g *Finding, p, q string) bool {
	if !k.joined[ordered(p, q)] || f.NeedMM != g.NeedMM || f.NeedSource != g.NeedSource || f.Caution != g.Caution {
		return false
	}
	if (f.Service == p) != (g.Service == q) || (f.Service == "") != (g.Service == "") {
		return false
	}
	x, y := k.parts[p], k.parts[q]
	return x.Carrier == y.Carrier && strings.Join(x.Moves, "|") == strings.Join(y.Moves, "|") && placesApart(f, g) <= placeMM
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
func (k *kinship) oneBundle(f, g *Finding, p, q string) bool {
	return f.Service == "" && g.Service == "" && p != q &&
		lineKinds[k.parts[p].Kind] && lineKinds[k.parts[q].Kind] && k.together(p, q)
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
	facing := map[string]string{}
	for i := range doc.Parts {
		p := &doc.Parts[i]
		n := 0
		for j := range doc.Parts {
			q := &doc.Parts[j]
			if out[p.ID] == "" && out[q.ID] == "" && faces(p, q) {
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
	return p.Kind == q.Kind && acrossCarrier(p.Carrier) == q.Carrier && math.Abs(y) > acrossMM &&
		math.Abs(y+q.AtMM[1]) <= acrossMM && math.Abs(p.AtMM[0]-q.AtMM[0]) <= acrossMM && math.Abs(p.AtMM[2]-q.AtMM[2]) <= acrossMM
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
