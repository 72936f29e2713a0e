package scene

import (
	"errors"
	"fmt"
	"math"
	"sort"
	"strconv"
)

// Boxes tells how far a part of a document reaches along the body axes at
// ride, movements at rest; ok is false when nothing of it is solid. The engine
// knows; the document does not compute shapes.
type Boxes func(doc *Document, part string) (lo, hi Vec, ok bool)

// placing is a part in another place.
type placing struct {
	i int
	p Part
}

// withPlaced is doc with parts replaced, once each is valid, and with the
// movements taken along that carry nothing but what was moved. A locked part
// keeps its place.
func (doc *Document) withPlaced(list []placing) (*Document, error) {
	c := *doc
	c.Parts = append([]Part(nil), doc.Parts...)
	for k := range list {
		p := &list[k].p
		if old := &doc.Parts[list[k].i]; !samePlace(old, p) {
			if err := old.Held(); err != nil {
				return nil, err
			}
		}
		if e := validPart(p); e != nil {
			return nil, sentence(doc.Show, p, e)
		}
		c.Parts[list[k].i] = *p
	}
	c.Movements = carriedMovements(doc, &c)
	return &c, nil
}

// carriedMovements are the movements after parts were moved: one all of whose
// parts went the same way goes with them, its hinge's point and its axis.
func carriedMovements(before, after *Document) []Movement {
	list := before.Movements
	for k := range before.Movements {
		m := &before.Movements[k]
		var to *Movement
		for i := range after.Parts {
			p, q := &before.Parts[i], &after.Parts[i]
			if !contains(p.Moves, m.ID) {
				continue
			}
			image := m.along(p, q)
			if to != nil && !to.near(&image) || p.Carrier != q.Carrier {
				to = nil
				break
			}
			to = &image
		}
		if to == nil || to.AtMM == m.AtMM && to.Axis == m.Axis {
			continue
		}
		if &list[0] == &before.Movements[0] {
			list = append([]Movement(nil), before.Movements...)
		}
		list[k] = *to
	}
	return list
}

// near says whether two movements have the same place and direction but for the
// rounding of a turn: each image is rounded to a millionth by itself.
func (m *Movement) near(o *Movement) bool {
	const most = 1e-4
	for i := range m.AtMM {
		if math.Abs(m.AtMM[i]-o.AtMM[i]) > most || math.Abs(m.Axis[i]-o.Axis[i]) > most {
			return false
		}
	}
	return true
}

// along is a movement carried from where part p stands to where it stands as q.
func (m *Movement) along(p, q *Part) Movement {
	out := *m
	switch {
	case p.TurnDeg != q.TurnDeg:
		a, b := turnOf(q.TurnDeg), turnOf(p.TurnDeg)
		back := b.transposed()
		turn := a.times(&back)
		out.AtMM, out.Axis = q.AtMM.add(turn.apply(m.AtMM.sub(p.AtMM))), turn.apply(m.Axis)
		for i := range out.Axis {
			out.Axis[i] = round6(out.Axis[i])
		}
	case p.AtMM != q.AtMM:
		out.AtMM = m.AtMM.add(q.AtMM.sub(p.AtMM))
	default:
		return out
	}
	if m.Kind == Slide {
		out.AtMM = m.AtMM // not used
	}
	for i := range out.AtMM {
		out.AtMM[i] = round6(out.AtMM[i])
	}
	return out
}

// shifted is part i moved by a way in body axes.
func (doc *Document) shifted(i int, by Vec) placing {
	p := doc.Parts[i]
	p.AtMM = p.AtMM.add(by)
	for k := range p.AtMM {
		p.AtMM[k] = round6(p.AtMM[k])
	}
	return placing{i, p}
}

// namesOf is what a few parts are called together: a part's name, a group's,
// or how many they are.
func (doc *Document) namesOf(parts []string) string {
	if len(parts) == 1 {
		if i, err := doc.partAt(parts[0]); err == nil {
			return doc.Parts[i].Name
		}
	}
	if len(parts) > 1 {
		if g := doc.GroupOf(parts[0]); g != nil && len(g.Parts) == len(parts) && len(doc.Together(parts)) == len(parts) {
			return g.Name
		}
	}
	return strconv.Itoa(len(parts)) + " parts"
}

// MoveParts moves parts by one way in body axes.
func MoveParts(doc *Document, parts []string, by Vec) (*Document, string, error) {
	return doc.movedEach(parts, "moved ", func(int) Vec { return by })
}

// movedEach moves each of some parts, by way(k) the k-th.
func (doc *Document) movedEach(parts []string, verb string, way func(k int) Vec) (*Document, string, error) {
	var list []placing
	for k, id := range parts {
		i, err := doc.partAt(id)
		if err != nil {
			return nil, "", err
		}
		if by := way(k); by != (Vec{}) {
			list = append(list, doc.shifted(i, by))
		}
	}
	c, err := doc.withPlaced(list)
	return c, verb + doc.namesOf(parts), err
}

// Line says which places of parts are laid on one line.
type Line string

const (
	LowEdges  Line = "low"
	Middles   Line = "middle"
	HighEdges Line = "high"
)

// of is the place of a box along an axis.
func (l Line) of(lo, hi Vec, axis int) float64 {
	switch l {
	case LowEdges:
		return lo[axis]
	case HighEdges:
		return hi[axis]
	}
	return (lo[axis] + hi[axis]) / 2
}

// boxesOf are the boxes of parts that are to be arranged.
func (doc *Document) boxesOf(parts []string, boxes Boxes) (list [][2]Vec, err error) {
	for _, id := range parts {
		i, err := doc.partAt(id)
		if err != nil {
			return nil, err
		}
		lo, hi, ok := boxes(doc, id)
		if !ok {
			return nil, fmt.Errorf("%s has nothing solid to line up", doc.Parts[i].Name)
		}
		list = append(list, [2]Vec{lo, hi})
	}
	return list, nil
}

// AlignParts lays the edges or middles of parts along an axis on those of the
// first, which stays. A part that is in a group takes along what of its group
// is not listed itself.
func AlignParts(doc *Document, parts []string, axis int, line Line, boxes Boxes) (*Document, string, error) {
	if len(parts) < 2 {
		return nil, "", errors.New("pick two parts or more: the others are lined up with the first")
	}
	b, err := doc.boxesOf(parts, boxes)
	if err != nil {
		return nil, "", err
	}
	to := line.of(b[0][0], b[0][1], axis)
	ways := make([]Vec, len(parts))
	for k := range parts {
		ways[k][axis] = round6(to - line.of(b[k][0], b[k][1], axis))
	}
	return doc.movedWithMates(parts, ways, "lined up ")
}

// SpaceParts makes the gaps between parts along an axis equal. The two
// outermost stay.
func SpaceParts(doc *Document, parts []string, axis int, boxes Boxes) (*Document, string, error) {
	if len(parts) < 3 {
		return nil, "", errors.New("pick three parts or more: those between the two outermost are spaced evenly")
	}
	b, err := doc.boxesOf(parts, boxes)
	if err != nil {
		return nil, "", err
	}
	order := make([]int, len(parts))
	for k := range order {
		order[k] = k
	}
	sort.SliceStable(order, func(x, y int) bool {
		return Middles.of(b[order[x]][0], b[order[x]][1], axis) < Middles.of(b[order[y]][0], b[order[y]][1], axis)
	})
	first, last := b[order[0]], b[order[len(order)-1]]
	room := last[0][axis] - first[1][axis]
	for _, k := range order[1 : len(order)-1] {
		room -= b[k][1][axis] - b[k][0][axis]
	}
	if room < 0 {
		return nil, "", fmt.Errorf("they are %s %s too long together to stand side by side there", FormatLength(-room, doc.Show), doc.Show)
	}
	gap, at := room/float64(len(order)-1), first[1][axis]
	ways := make([]Vec, len(parts))
	for _, k := range order[1 : len(order)-1] {
		at += gap
		ways[k][axis] = round6(at - b[k][0][axis])
		at += b[k][1][axis] - b[k][0][axis]
	}
	return doc.movedWithMates(parts, ways, "spaced ")
}

// movedWithMates moves each part its way, and what of its group is not listed
// the way of the first of the group that is.
func (doc *Document) movedWithMates(parts []string, ways []Vec, verb string) (*Document, string, error) {
	name := doc.namesOf(parts)
	all := doc.Together(parts)
	c, _, err := doc.movedEach(all, verb, func(k int) Vec {
		if k < len(parts) {
			return ways[k]
		}
		g := doc.GroupOf(all[k])
		for j, id := range parts {
			if contains(g.Parts, id) {
				return ways[j]
			}
		}
		return Vec{}
	})
	return c, verb + name, err
}

// TurnParts turns parts about a line along a body axis through the reference
// point of the first, right-handed.
func TurnParts(doc *Document, parts []string, axis int, deg float64) (*Document, string, error) {
	if axis < 0 || axis > 2 || math.IsNaN(deg) || math.Abs(deg) > 360 {
		return nil, "", errors.New("a part turns about one of three axes, by at most 360°")
	}
	if len(parts) == 0 {
		return nil, "", errors.New("pick a part to turn")
	}
	var list []placing
	var pivot Vec
	m := about(axis, deg)
	for k, id := range parts {
		i, err := doc.partAt(id)
		if err != nil {
			return nil, "", err
		}
		p := doc.Parts[i]
		from := doc.Vehicle.origin(p.Carrier)
		at := p.AtMM.add(from)
		if k == 0 {
			pivot = at
		} else {
			p.AtMM = pivot.add(m.apply(at.sub(pivot))).sub(from)
			for j := range p.AtMM {
				p.AtMM[j] = round6(p.AtMM[j])
			}
		}
		p.TurnDeg = turned(p.TurnDeg, axis, deg)
		list = append(list, placing{i, p})
	}
	c, err := doc.withPlaced(list)
	return c, "turned " + doc.namesOf(parts), err
}

// copiedEach makes a copy of each of some parts.
func copiedEach(doc *Document, parts []string, verb string, one func(*Document, string) (*Document, string, error)) (*Document, string, error) {
	if len(parts) == 0 {
		return nil, "", errors.New("pick a part first")
	}
	c := doc
	for _, id := range parts {
		next, _, err := one(c, id)
		if err != nil {
			return nil, "", err
		}
		c = next
	}
	return c, verb + doc.namesOf(parts), nil
}

// DuplicateParts adds a copy of each part; see [DuplicatePart].
func DuplicateParts(doc *Document, parts []string) (*Document, string, error) {
	return copiedEach(doc, parts, "duplicated ", DuplicatePart)
}

// MirrorParts adds each part on the other side; see [MirrorPart].
func MirrorParts(doc *Document, parts []string) (*Document, string, error) {
	return copiedEach(doc, parts, "mirrored ", MirrorPart)
}
