package motion

import "scrubline/fitment/internal/geom"

// LinkAt is where a link of a linkage stands in one state, in body axes.
type LinkAt struct {
	Name     string
	Right    bool // it is the right wheel's
	From, To geom.Vec
}

// Links are where an end's named bars, its slide and its crank stand in one
// state; none for a plain guide.
func (c *Chassis) Links(end Which, st State) []LinkAt {
	u := c.hung[end]
	if u == nil {
		return nil
	}
	l, r, steer := st.FL, st.FR, st.Steer
	if end == RearEnd {
		l, r, steer = st.RL, st.RR, 0
	}
	if u.s.axle {
		return u.links((l+r)/2, l-r, false)
	}
	if !u.steered() {
		steer = 0
	}
	return append(u.links(l, steer, false), u.links(r, -steer, true)...)
}

func (u *hung) links(x, y float64, other bool) (out []LinkAt) {
	p := u.placeAt(x, y)
	add := func(name string, from, to geom.Vec) {
		if other {
			from.Y, to.Y = -from.Y, -to.Y
		}
		out = append(out, LinkAt{name, other, from, to})
	}
	for i, b := range u.s.l.Bars {
		if b.Name != "" {
			from, to := u.s.ends(&p, i)
			add(b.Name, from, to)
		}
	}
	if s := u.s.l.Slide; s != nil {
		add(s.Name, s.Top, p.o.Add(p.r.Apply(s.Low)))
	}
	if c := u.s.l.Crank; c != nil {
		a, b := u.s.pivot.Add(p.swing[0]), u.s.pivot.Add(p.swing[1])
		if !c.OnBody {
			a, b = p.o.Add(p.r.Apply(a)), p.o.Add(p.r.Apply(b))
		}
		add(c.Name, a, b)
	}
	return out
}

// placeAt is a state of the grid as a place of the system.
func (u *hung) placeAt(x, y float64) (p place) {
	n := u.beyondOrAt(x, y)
	p.o = u.s.origin.Add(geom.V(n[0], n[1], n[2]))
	p.r = rotationOf(geom.V(n[3], n[4], n[5]))
	if u.s.l.Crank != nil {
		p.turnCrank(u.s, n[6])
	} else {
		p.rack = n[6]
	}
	return p
}

func (u *hung) beyondOrAt(x, y float64) node {
	if u.grid.inside(x, y) {
		return u.grid.at(x, y, nodeComps)
	}
	return u.beyond(x, y)
}
