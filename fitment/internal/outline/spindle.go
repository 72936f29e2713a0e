package outline

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
)

// spindle is a convex solid of revolution: the cylinder of the given radius
// and half length about its axis, grown by round. It covers the ball, the bar
// with round ends, the disc and the cylinder, sharp or rounded.
type spindle struct {
	centre, axis geom.Vec // axis has length 1
	radius, half float64
	round        float64
}

// spindleOf is s, a point, segment, disc or cylinder, as a spindle.
func spindleOf(s *solid.Solid) spindle {
	b := spindle{centre: s.Pose.P, axis: geom.V(1, 0, 0), round: s.Round}
	switch s.Kind {
	case solid.Segment:
		b.axis, b.half = s.Pose.R.Apply(geom.V(1, 0, 0)), s.H.X
	case solid.Disc:
		b.axis, b.radius = s.Pose.R.Apply(geom.V(0, 0, 1)), s.H.X
	case solid.Cylinder:
		b.axis, b.radius, b.half = s.Pose.R.Apply(geom.V(0, 0, 1)), s.H.X, s.H.Z
	}
	return b
}

// slice is the plane X = s in the spindle's terms. The section is symmetric
// about the line that the plane shares with the plane of the axis and X. A
// point at ξ on this line lies at w = d·lean + ξ·rise along the axis and at
// k = d·rise − ξ·lean beside it, so the section's half width there follows
// from the spindle's radius ρ(w): y = √(ρ² − k²).
type slice struct {
	*spindle
	d          float64 // of the plane from the centre, along X
	lean, rise float64 // of the axis along X, and across X
	e          Pt      // the line's direction in (Y, Z)
}

// upright is the rise below which the axis counts as parallel to X: over 6 m
// that moves nothing by more than 6e-9 mm.
const upright = geom.Tiny / 1000

// section appends the border of the spindle's cut at X = s in (Y, Z), counter-
// clockwise, possibly with repeated points; nothing when the plane misses.
func (b *spindle) section(dst []Pt, s float64) []Pt {
	c := slice{spindle: b, d: s - b.centre.X, lean: b.axis.X, e: Pt{1, 0}}
	c.rise = math.Sqrt(float64(b.axis.Y*b.axis.Y) + float64(b.axis.Z*b.axis.Z))
	if c.rise > upright {
		c.e = Pt{b.axis.Y / c.rise, b.axis.Z / c.rise}
	} else {
		c.rise, c.lean = 0, math.Copysign(1, c.lean)
	}
	var buf [2 * maxAround]Pt
	half := c.halfBorder(buf[:0])
	o, up := Pt{b.centre.Y, b.centre.Z}, Pt{-c.e[1], c.e[0]}
	for _, p := range half {
		dst = append(dst, along(along(o, c.e, p[0]), up, -p[1]))
	}
	for i := len(half) - 1; i >= 0; i-- {
		dst = append(dst, along(along(o, c.e, half[i][0]), up, half[i][1]))
	}
	return dst
}

// halfBorder appends (ξ, y) with rising ξ. The border is smooth but where
// rounding begins, so it is sampled piece by piece.
func (c *slice) halfBorder(dst []Pt) []Pt {
	from, to := c.span()
	if !(from <= to) {
		return dst
	}
	dst = append(dst, Pt{from, c.width(from)})
	if c.round > 0 && c.half > 0 && c.rise > 0 {
		for _, w := range [2]float64{-c.half, c.half} {
			if at := (w - float64(c.d*c.lean)) / c.rise; at > from && at < to {
				dst = c.sample(dst, from, at)
				from = at
			}
		}
	}
	return c.sample(dst, from, to)
}

// width is the half width y at ξ.
func (c *slice) width(xi float64) float64 {
	w := math.Abs(float64(c.d*c.lean) + float64(xi*c.rise))
	k := float64(c.d*c.rise) - float64(xi*c.lean)
	rho := c.radius + c.round
	if w > c.half {
		over := w - c.half
		rho = c.radius + math.Sqrt(math.Max(0, float64(c.round*c.round)-float64(over*over)))
	}
	return math.Sqrt(math.Max(0, float64(rho*rho)-float64(k*k)))
}

// span is the range of ξ inside the spindle: where the line crosses its profile,
// a rectangle with rounded corners, taken as two crossing rectangles and four
// corner discs. It is empty (from > to) when the line misses.
func (c *slice) span() (from, to float64) {
	from, to = math.Inf(1), math.Inf(-1)
	join := func(a, b float64) {
		if a <= b {
			from, to = math.Min(from, a), math.Max(to, b)
		}
	}
	join(c.inRectangle(c.half+c.round, c.radius))
	if c.round == 0 {
		return from, to
	}
	join(c.inRectangle(c.half, c.radius+c.round))
	for _, w := range [2]float64{-c.half, c.half} {
		for _, k := range [2]float64{-c.radius, c.radius} {
			off := float64(w*c.lean) + float64(k*c.rise) - c.d
			if math.Abs(off) <= c.round+same {
				mid := float64(w*c.rise) - float64(k*c.lean)
				half := math.Sqrt(math.Max(0, float64(c.round*c.round)-float64(off*off)))
				join(mid-half, mid+half)
			}
		}
	}
	return from, to
}

// inRectangle is the range of ξ with |w| ≤ wMax and |k| ≤ kMax.
func (c *slice) inRectangle(wMax, kMax float64) (from, to float64) {
	a, b := between(float64(c.d*c.lean), c.rise, wMax)
	p, q := between(float64(c.d*c.rise), -c.lean, kMax)
	return math.Max(a, p), math.Min(b, q)
}

// between is the range of ξ with |at + ξ·slope| ≤ limit.
func between(at, slope, limit float64) (from, to float64) {
	if math.Abs(slope) <= upright {
		if math.Abs(at) <= limit+same {
			return math.Inf(-1), math.Inf(1)
		}
		return math.Inf(1), math.Inf(-1)
	}
	a, b := (-limit-at)/slope, (limit-at)/slope
	return math.Min(a, b), math.Max(a, b)
}

// coarse and fine are the most and the least of a smooth piece, in shares of
// its parameter, that one straight edge may stand for. A whole circle has at
// least 2·8 edges; fine is reached only at the tips of very long sections.
const (
	coarse = 1.0 / 8
	fine   = 1.0 / 512
)

// spread takes a piece's parameter to its share of ξ, both from 0 to 1. It is
// flat at both ends, where the border may start at a right angle to the line;
// a half circle gets nearly equal steps.
func spread(t float64) float64 { return t * t * (3 - float64(2*t)) }

// sample appends the border from ξ = from (already there) to ξ = to: first in
// even steps of the parameter, then each halved while its middle is off the
// chord.
func (c *slice) sample(dst []Pt, from, to float64) []Pt {
	if to-from <= same {
		return append(dst, Pt{to, c.width(to)})
	}
	at := func(t float64) Pt {
		xi := from + float64((to-from)*spread(t))
		return Pt{xi, c.width(xi)}
	}
	for lo := 0.0; lo < 1; lo += coarse {
		a := dst[len(dst)-1]
		// A stack of right ends, the nearest on top.
		ends, pts, n := [8]float64{lo + coarse}, [8]Pt{at(lo + coarse)}, 1
		for t := lo; n > 0; {
			end, b := ends[n-1], pts[n-1]
			if end-t > fine {
				mid := (t + end) / 2
				if m := at(mid); bulges(a, m, b) {
					ends[n], pts[n] = mid, m
					n++
					continue
				}
			}
			dst = append(dst, b)
			a, t, n = b, end, n-1
		}
	}
	return dst
}

// bulges says whether m lies further than the allowance off the chord a–b. The
// allowance is below chord, since the middle of the parameter need not be the
// point furthest off.
func bulges(a, m, b Pt) bool {
	const allowed = 0.8 * chord
	t := cross(a, m, b)
	return t*t > allowed*allowed*distSq(a, b)
}
