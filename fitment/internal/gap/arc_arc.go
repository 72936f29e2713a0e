package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// arcArc is the gap of two arcs' centrelines, by branch and bound over pairs of
// pieces.
//
// A piece of a circle of radius r and half angle α lies within its rise
// r(1 − cos α) of its chord, point by point from the chord's point outward. So
// the distance of two pieces is no less than that of their chords, which has a
// closed form, less both rises. Nor is it less than the slab between the pieces
// square to the line of the chords' nearest points, which loses nothing where
// they bulge towards each other. Both lose to second order in the length, so
// that few halvings suffice. The upper bound is the nearest point of one chord
// carried out to its arc, and the nearest point of the other arc to it, which
// has a closed form too.
func arcArc(a, b *solid.Solid, enough float64, r *core) {
	m := arcPair{a: bend{x: geom.Vec{X: 1}, y: geom.Vec{Y: 1}, r: a.H.X}, b: asBend(b, a), sb: b, sa: a}
	m.best.dist, m.lower = math.Inf(1), math.Inf(1)
	m.start(a.H.Y, b.H.Y)
	for m.n > 0 {
		c := &m.cell[m.n-1]
		if c.lower < m.best.dist-geom.GapStop && c.lower < enough && m.n < arcCells {
			m.try(c)
			m.split()
			continue
		}
		m.n--
		m.lower = min(m.lower, c.lower)
	}
	r.dist, r.lower = m.best.dist, min(m.lower, m.best.dist)
	r.a, r.b, r.n = a.Pose.Apply(m.best.a), a.Pose.Apply(m.best.b), a.Pose.R.Apply(m.best.n)
}

// piece is a stretch of an arc between two turns with its chord.
type piece struct {
	lo, hi turn
	mid, u geom.Vec // middle and direction of the chord
	half   float64  // half its length
	rise   float64  // of the arc over it
}

func (b *bend) piece(lo, hi turn, c *piece) {
	p, q := b.at(lo), b.at(hi)
	half := p.Dist(q) / 2
	c.lo, c.hi, c.mid, c.u, c.half = lo, hi, p.Lerp(q, 0.5), geom.Vec{}, half
	if half > 0 {
		c.u = q.Sub(p).Scale(1 / (2 * half))
	}
	// r − √(r² − half²), without the cancellation.
	k := math.Sqrt(max(0, float64(b.r*b.r)-float64(half*half)))
	c.rise = float64(half*half) / (b.r + k)
}

// cell is two pieces with the lower bound of their distance and the places on
// the chords where it is met.
type cell struct {
	a, b  piece
	s     float64
	lower float64
}

// arcPair is two arcs in the axes of the first.
type arcPair struct {
	a, b   bend
	sa, sb *solid.Solid
	cell   [arcCells]cell
	n      int
	best   core
	lower  float64
}

// arcCells is enough: sixteen to start with, and one more for each halving; a
// piece halved 32 times has a rise far below geom.GapStop. Without room a cell is
// closed with the bound it has.
const arcCells = 16 + 2*32

// start cuts both arcs and puts all pairs of pieces in, the nearest on top.
func (m *arcPair) start(halfA, halfB float64) {
	ea, na := pieces(halfA)
	eb, nb := pieces(halfB)
	for i := range na {
		for j := range nb {
			c := &m.cell[m.n]
			m.a.piece(ea[i], ea[i+1], &c.a)
			m.b.piece(eb[j], eb[j+1], &c.b)
			m.measure(c)
			m.insert()
		}
	}
}

// insert takes in the cell behind the last, and keeps the cells in order of
// falling bounds.
func (m *arcPair) insert() {
	i := m.n
	if m.n++; i == 0 || m.cell[i-1].lower >= m.cell[i].lower {
		return
	}
	c := m.cell[i]
	for ; i > 0 && m.cell[i-1].lower < c.lower; i-- {
		m.cell[i] = m.cell[i-1]
	}
	m.cell[i] = c
}

func (m *arcPair) measure(c *cell) {
	a, b := &c.a, &c.b
	off := b.mid.Sub(a.mid)
	s, t := nearestOnSegments(off, a.u, b.u, a.half, b.half)
	v := off.AddScaled(b.u, t).AddScaled(a.u, -s)
	d := v.Len()
	c.s, c.lower = s, d-a.rise-b.rise
	if d > geom.Tiny {
		n := v.Scale(1 / d)
		c.lower = max(c.lower, -m.b.highest(n.Neg(), b)-m.a.highest(n, a))
	}
}

// highest is the largest n·p over the piece.
func (b *bend) highest(n geom.Vec, p *piece) float64 {
	g := turn{n.Dot(b.x), n.Dot(b.y)}
	if p.lo.cross(g) >= 0 && g.cross(p.hi) >= 0 {
		return n.Dot(b.c) + float64(b.r*math.Sqrt(g.dot(g)))
	}
	return n.Dot(b.c) + float64(b.r*max(g.dot(p.lo), g.dot(p.hi)))
}

// try improves the upper bound from a cell: from the chord of the first arc to
// its point, to the nearest of the second, and back.
func (m *arcPair) try(c *cell) {
	p := c.a.mid.AddScaled(c.a.u, c.s)
	pa := m.sa.LocalSupport(geom.Vec{X: p.X, Y: p.Y})
	for range 2 {
		pb := m.onB(pa)
		var back placed
		placeArc(m.sa, pb, &back)
		pa = back.at
		if back.dist < m.best.dist {
			m.best.apart(pa, pb, m.across(pa, pb))
		}
	}
}

// onB is the point of the second arc nearest to p.
func (m *arcPair) onB(p geom.Vec) geom.Vec {
	d := p.Sub(m.b.c)
	q := m.sb.LocalSupport(geom.Vec{X: d.Dot(m.b.x), Y: d.Dot(m.b.y)})
	return m.b.at(turn{q.X / m.b.r, q.Y / m.b.r})
}

// across is a direction square to both arcs where they meet.
func (m *arcPair) across(pa, pb geom.Vec) geom.Vec {
	ta := geom.Vec{X: -pa.Y, Y: pa.X}
	tb := m.b.x.Cross(m.b.y).Cross(pb.Sub(m.b.c))
	n := ta.Cross(tb)
	if n.Len() <= geom.Tiny*m.a.r*m.b.r {
		return geom.Vec{Z: 1}
	}
	return n.Unit()
}

// split halves the piece with the larger rise of the last cell, and puts the
// better half on top.
func (m *arcPair) split() {
	c, h := &m.cell[m.n-1], &m.cell[m.n]
	m.n++
	*h = *c
	if c.a.rise >= c.b.rise {
		lo, hi := c.a.lo, c.a.hi
		mid := lo.between(hi)
		m.a.piece(lo, mid, &c.a)
		m.a.piece(mid, hi, &h.a)
	} else {
		lo, hi := c.b.lo, c.b.hi
		mid := lo.between(hi)
		m.b.piece(lo, mid, &c.b)
		m.b.piece(mid, hi, &h.b)
	}
	m.measure(c)
	m.measure(h)
	if c.lower < h.lower {
		*c, *h = *h, *c
	}
}
