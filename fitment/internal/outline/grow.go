package outline

import "math"

// grow is the convex polygon (or line, or point) poly grown by the disc of
// radius r (mm): straight edges moved outward exactly, corners rounded within
// allowed (mm).
func grow(poly []Pt, r, allowed float64) []Pt {
	ring := ringFor(r, allowed)
	if len(poly) == 0 {
		return nil
	}
	var buf [4 * maxAround]Pt
	out := buf[:0]
	if len(poly) == 1 {
		return clean(ellipse(out, poly[0], Pt{r, 0}, Pt{0, r}, ring))
	}
	in := outward(poly[len(poly)-1], poly[0])
	for i, p := range poly {
		next := outward(p, poly[(i+1)%len(poly)])
		out = roundCorner(out, p, in, next, r, allowed, ring)
		in = next
	}
	return clean(out)
}

// outward is the unit normal to the right of a→b.
func outward(a, b Pt) Pt {
	x, y := b[0]-a[0], b[1]-a[1]
	l := math.Sqrt(float64(x*x) + float64(y*y))
	return Pt{y / l, -x / l}
}

// roundCorner appends the arc of radius r about p from normal in to normal
// out. Where the two tangents meet within allowed of the arc, their meeting
// point stands for all of it.
func roundCorner(dst []Pt, p, in, out Pt, r, allowed float64, g *ring) []Pt {
	mid := Pt{in[0] + out[0], in[1] + out[1]}
	// |mid| = 2·cos(half the turn), and the tangents meet at r/cos(half).
	sq := float64(mid[0]*mid[0]) + float64(mid[1]*mid[1])
	if r*(2/math.Sqrt(sq)-1) <= allowed {
		return append(dst, along(p, mid, 2*r/sq))
	}
	dst = append(dst, along(p, in, r))
	// Counting the directions between, rather than comparing each with out,
	// keeps a half turn whole when in and out lie on directions of the ring but
	// for noise.
	n, k := len(g.dir), g.after(in)
	if between := (g.after(out) - k + n) % n; between <= n/2+1 {
		for i := range between {
			dst = append(dst, along(p, g.dir[(k+i)%n], r))
		}
	}
	return append(dst, along(p, out, r))
}

// along is p + s·d.
func along(p, d Pt, s float64) Pt {
	return Pt{p[0] + float64(d[0]*s), p[1] + float64(d[1]*s)}
}
