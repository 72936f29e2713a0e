package outline

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// bend is an arc solid as short straight pieces of tube between discs across
// the centreline. Its two ends are flat. A piece is the hull of its two discs:
// they mirror each other, so the lines between points of equal angle on their
// rims are parallel and make its side. It leaves the true bend by at most the
// chord error of the outermost circle, half the allowance; the other half is
// the rims'.
type bend struct {
	centre        geom.Vec
	u, v, n       geom.Vec // local X, Y, Z in body axes
	radius, round float64
	from, step    float64 // angle of the first disc, and between discs
	pieces        int
	closed        bool // the last disc is the first
	rim           *ring
}

// most is the coarsest pieces a bend is split in: 36 to the full ring, 10° each.
const most = 36

func bendOf(s *solid.Solid) bend {
	half := math.Min(s.H.Y, math.Pi)
	b := bend{
		centre: s.Pose.P,
		u:      s.Pose.R.Apply(geom.V(1, 0, 0)),
		v:      s.Pose.R.Apply(geom.V(0, 1, 0)),
		n:      s.Pose.R.Apply(geom.V(0, 0, 1)),
		radius: s.H.X, round: s.Round,
		from:   -half,
		closed: half == math.Pi,
		rim:    ringFor(s.Round, chord/2),
	}
	around := max(most, len(ringFor(s.H.X+s.Round, chord/2).dir))
	// The allowance keeps a bend of exactly so many pieces from getting one more.
	b.pieces = int(math.Ceil(float64(half/math.Pi*float64(around)) - same))
	b.pieces = min(max(b.pieces, 1), maxAround)
	b.step = 2 * half / float64(b.pieces)
	return b
}

// disc is one disc across the centreline: its middle, and the vectors to its
// rim outward and along the bend's axis.
type disc struct{ c, out, up geom.Vec }

func (b *bend) disc(i int) disc {
	if b.closed && i == b.pieces {
		i = 0
	}
	sin, cos := math.Sincos(b.from + float64(b.step*float64(i)))
	radial := b.u.Scale(cos).AddScaled(b.v, sin)
	return disc{b.centre.AddScaled(radial, b.radius), radial.Scale(b.round), b.n.Scale(b.round)}
}

// at is the rim's point in direction d of (out, up).
func (k *disc) at(d Pt) geom.Vec { return k.c.AddScaled(k.out, d[0]).AddScaled(k.up, d[1]) }

// seenArc is the silhouette of a bend, one polygon for each piece.
func seenArc(s *solid.Solid, v View) [][]Pt {
	b := bendOf(s)
	out := make([][]Pt, 0, b.pieces)
	var buf [2 * maxAround]Pt
	lo := b.disc(0)
	for i := range b.pieces {
		hi := b.disc(i + 1)
		pts := ellipse(buf[:0], v.flat(lo.c), v.flat(lo.out), v.flat(lo.up), b.rim)
		pts = ellipse(pts, v.flat(hi.c), v.flat(hi.out), v.flat(hi.up), b.rim)
		if poly := hull(pts); len(poly) >= 2 {
			out = append(out, poly)
		}
		lo = hi
	}
	return out
}

// cutArc is the section of a bend, one polygon for each piece cut.
func cutArc(s *solid.Solid, x float64) [][]Pt {
	b := bendOf(s)
	var out [][]Pt
	var buf [2*maxAround + 4]Pt
	lo := b.disc(0)
	for i := range b.pieces {
		hi := b.disc(i + 1)
		// A disc in the plane belongs to the piece before it, and to that alone.
		before := i > 0 || b.closed
		if lo.meets(&hi, x) && !(before && lo.inPlane(x)) {
			pts := b.cutSide(buf[:0], &lo, &hi, x)
			pts = hi.cutRim(lo.cutRim(pts, x), x)
			if poly := hull(pts); len(poly) >= 2 {
				out = append(out, poly)
			}
		}
		lo = hi
	}
	return out
}

// reachX is how far the disc reaches from its middle along X.
func (k *disc) reachX() float64 {
	return math.Sqrt(float64(k.out.X*k.out.X) + float64(k.up.X*k.up.X))
}

// inPlane says whether the whole disc lies in the plane X = x.
func (k *disc) inPlane(x float64) bool {
	return k.reachX() <= same && math.Abs(k.c.X-x) <= same
}

// meets says whether the piece between two discs reaches the plane X = x.
func (k *disc) meets(o *disc, x float64) bool {
	a, b := k.reachX(), o.reachX()
	return math.Min(k.c.X-a, o.c.X-b) <= x+same && math.Max(k.c.X+a, o.c.X+b) >= x-same
}

// cutSide appends where the plane X = x crosses the lines along a piece.
func (b *bend) cutSide(dst []Pt, lo, hi *disc, x float64) []Pt {
	for _, d := range b.rim.dir {
		p, q := lo.at(d), hi.at(d)
		if math.Min(p.X, q.X) <= x+same && math.Max(p.X, q.X) >= x-same {
			dst = cutRod(dst, p, q, 0, x)
		}
	}
	return dst
}

// cutRim appends the two points where the rim crosses the plane X = x:
// cos φ·out.X + sin φ·up.X = x − c.X.
func (k *disc) cutRim(dst []Pt, x float64) []Pt {
	reach := k.reachX()
	if reach <= same {
		return dst
	}
	cos := (x - k.c.X) / reach
	if math.Abs(cos) > 1 {
		return dst
	}
	sin := math.Sqrt(1 - float64(cos*cos))
	to := Pt{k.out.X / reach, k.up.X / reach}
	for _, s := range [2]float64{sin, -sin} {
		p := k.at(Pt{
			float64(to[0]*cos) - float64(to[1]*s),
			float64(to[1]*cos) + float64(to[0]*s),
		})
		dst = append(dst, Pt{p.Y, p.Z})
	}
	return dst
}
