package fitment

import (
	"scrubline/fitment/internal/gap"
	"scrubline/fitment/internal/solid"
)

// barKind is the kind of part that stands for a bar of the suspension.
const barKind = "suspension_bar"

// TouchedAtEnds lists, in document order, the parts that a part hung between two
// carriers (a suspension's bar) touches at ride within one diameter of its two
// ends: what it is bolted to. What it touches farther along is not among them.
func (m *Model) TouchedAtEnds(id string) []string {
	i, ok := m.index[id]
	if !ok {
		return nil
	}
	var balls []solid.Solid
	for k := range m.parts[i].items {
		l := m.parts[i].items[k].link
		if l == nil {
			continue
		}
		for _, p := range [2]ends{{l.a, l.b}, {l.b, l.a}} {
			if b, err := solid.NewBall(p.a, 2*l.most()); err == nil {
				balls = append(balls, b)
			}
		}
	}
	var out []string
	for j, p := range m.parts {
		if j != i && m.touchesAny(p, balls) {
			if g, found := m.gapIn(m.parts[i], p, false, State{}); found && g.Gap <= 0 {
				out = append(out, p.part.ID)
			}
		}
	}
	return out
}

func (m *Model) touchesAny(p *placed, balls []solid.Solid) bool {
	for k := range p.items {
		if p.items[k].room != "" {
			continue
		}
		for s := range p.items[k].solids {
			for b := range balls {
				if r := gap.Between(&p.items[k].solids[s], &balls[b]); r.Gap <= 0 {
					return true
				}
			}
		}
	}
	return false
}

// unchecked lists the bars of an end that do not stand among the parts, by name,
// and the parts that stand for a bar the vehicle has not.
func (m *Model) unchecked(n *endNames) (bars, stray []string) {
	e := n.of(&m.Doc.Vehicle)
	if e.Suspension == nil {
		return nil, m.strays(n)
	}
	there := map[int]bool{}
	for _, p := range m.parts {
		if p.part.Kind == barKind && p.part.Size.Text("end") == n.name {
			there[int(p.part.Size.Num("bar"))-1] = true
		}
	}
	for i := range e.Suspension.Bars {
		if !there[i] {
			bars = append(bars, e.Suspension.Bars[i].Name)
		}
	}
	return bars, m.strays(n)
}

func (m *Model) strays(n *endNames) (out []string) {
	for _, p := range m.parts {
		if p.part.Kind == barKind && p.part.Size.Text("end") == n.name && len(p.items) == 0 {
			out = append(out, p.part.ID)
		}
	}
	return out
}
