package draw

import "scrubline/fitment"

// contacts fills where the section cuts two parts that lie in each other: the
// place of the contact itself, not only its mark.
func (s *Sheet) contacts(l *List) {
	if s.View != fitment.SectionView {
		return
	}
	for _, pair := range s.Contacts {
		var a, b *fitment.Outline
		for i := range s.Outs {
			switch s.Outs[i].Part {
			case pair[0]:
				a = &s.Outs[i]
			case pair[1]:
				b = &s.Outs[i]
			}
		}
		if a == nil || b == nil {
			continue
		}
		for _, p := range a.Cut {
			for _, q := range b.Cut {
				if both := common(anticlockwise(p), anticlockwise(q)); len(both) > 2 {
					l.Fill(Paint{Tone: Touch}, 0.5, s.screen(both)...)
				}
			}
		}
	}
}

// common is what two convex anticlockwise polygons share: one of them with what
// lies outside each edge of the other cut off (Sutherland and Hodgman, 1974).
func common(p, q []fitment.Pt) []fitment.Pt {
	out := append([]fitment.Pt(nil), p...)
	for i, a := range q {
		b := q[(i+1)%len(q)]
		inside := func(c fitment.Pt) float64 { return (b[0]-a[0])*(c[1]-a[1]) - (b[1]-a[1])*(c[0]-a[0]) }
		from := out
		out = nil
		for k, c := range from {
			d := from[(k+1)%len(from)]
			dc, dd := inside(c), inside(d)
			if dc >= 0 {
				out = append(out, c)
			}
			if dc >= 0 != (dd >= 0) {
				out = append(out, lerp(c, d, dc/(dc-dd)))
			}
		}
	}
	return out
}
