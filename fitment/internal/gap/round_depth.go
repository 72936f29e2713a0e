package gap

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// roundDepth is the least move apart of a round core and another one deep in it
// or about it, where the polytope runs out of room: a whole circle or half of one
// of directions across is nearly as deep.
//
// A smooth place of the border of the difference set D is a place of least depth
// h only if both its radii of curvature are at least h. Where two rims meet, the
// tensor of the radii is the sum of one along each rim; with the axes nearly
// parallel the rims are too, and the second radius is nearly nought, as it is
// where a rim meets a corner. So the least depth is where a straight side
// touches: on the great circle of directions square to the axis of a round core.
// On each the depth is a wave with kinks, and one variable is searched: 64
// places, and each that is lower than its neighbours narrowed down.
//
// Every depth met is a true move apart; known, from another search, is one as
// well, and the least is taken.
func (m *pair) roundDepth(known core) core {
	u, v := m.axes()
	best := -known.dist
	n := known.n
	for _, axis := range [2]geom.Vec{u, v} {
		if axis == (geom.Vec{}) {
			continue
		}
		c := circle{m: m, x: axis.Perp()}
		c.y = axis.Cross(c.x)
		if d, h := c.least(); h < best {
			best, n = h, d
		}
	}
	if best >= -known.dist {
		return known
	}
	a, b := m.sides(n, best, u, v)
	return core{dist: -best, lower: -best, a: a, b: b, n: n}
}

// axes are those of the two cores in the axes of the first; nought for a core
// that is not round.
func (m *pair) axes() (u, v geom.Vec) {
	switch m.a.Kind {
	case solid.Segment:
		u = geom.Vec{X: 1}
	case solid.Disc, solid.Cylinder:
		u = geom.Vec{Z: 1}
	}
	switch m.b.Kind {
	case solid.Segment:
		v = m.r.AxisX()
	case solid.Disc, solid.Cylinder:
		v = m.r.AxisZ()
	}
	return u, v
}

// circle is the directions x cos φ + y sin φ.
type circle struct {
	m    *pair
	x, y geom.Vec
}

func (c *circle) at(phi float64) geom.Vec {
	sin, cos := geom.Sincos(phi)
	return c.x.Scale(cos).AddScaled(c.y, sin)
}

func (c *circle) depth(phi float64) float64 {
	n := c.at(phi)
	w := c.m.at(n)
	return n.Dot(w.w)
}

// circlePlaces is fine enough to part the kinks from the troughs, of which
// there are two each.
const circlePlaces = 64

func (c *circle) least() (n geom.Vec, h float64) {
	const step = 2 * math.Pi / circlePlaces
	var at [circlePlaces]float64
	for i := range at {
		at[i] = c.depth(float64(step * float64(i)))
	}
	best := math.Inf(1)
	for i, d := range at {
		if d > at[(i+circlePlaces-1)%circlePlaces] || d > at[(i+1)%circlePlaces] {
			continue
		}
		if phi, d := c.narrow(float64(step*float64(i-1)), float64(step*float64(i+1))); d < best {
			best, n = d, c.at(phi)
		}
	}
	return n, best
}

// narrow is the least depth between two angles, by golden section: 40 steps
// bring a tenth of a radian to a billionth.
func (c *circle) narrow(lo, hi float64) (phi, h float64) {
	const g = 0.6180339887498949 // (√5 − 1)/2
	p := hi - float64((hi-lo)*g)
	q := lo + float64((hi-lo)*g)
	fp, fq := c.depth(p), c.depth(q)
	for range 40 {
		if fp <= fq {
			hi, q, fq = q, p, fp
			p = hi - float64((hi-lo)*g)
			fp = c.depth(p)
		} else {
			lo, p, fp = p, q, fq
			q = lo + float64((hi-lo)*g)
			fq = c.depth(q)
		}
	}
	if fp <= fq {
		return p, fp
	}
	return q, fq
}

// sides are the deepest points for a direction n with depth h: on each core the
// place along its straight side, where it has one square to n, that brings the
// two over each other. A side counts as square when a shift along all of it
// changes the depth by less than geom.GapStop.
func (m *pair) sides(n geom.Vec, h float64, u, v geom.Vec) (a, b geom.Vec) {
	w := m.at(n)
	a, b = w.a, w.b()
	halfA, halfB := asRound(m.a).half, asRound(m.b).half
	// What a − b still lacks to n·h lies across n. The part that is across u as
	// well can only come from a shift along v, the rest from one along u.
	if e := u.Cross(n); math.Abs(n.Dot(v))*halfB <= geom.GapStop/2 && v.Dot(e) != 0 {
		lack := n.Scale(h).Sub(a.Sub(b))
		mid := b.Sub(m.t).Dot(v)
		b = b.AddScaled(v, clamp(mid-lack.Dot(e)/v.Dot(e), halfB)-mid)
	}
	if u != (geom.Vec{}) && math.Abs(n.Dot(u))*halfA <= geom.GapStop/2 {
		lack := n.Scale(h).Sub(a.Sub(b))
		mid := a.Dot(u)
		a = a.AddScaled(u, clamp(mid+lack.Dot(u), halfA)-mid)
	}
	return a, b
}
