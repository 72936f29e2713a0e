package scene

import "math"

// The helpers below build what several kinds are made of: prisms over a convex
// polygon of a section, sheets bent along a line, oval bodies.

// pt is a point of a section. For a section along the vehicle U is X and V is
// Z; for one across it U is Y and V is Z.
type pt struct{ U, V float64 }

// sliver (mm²) is the area below which a piece of a section is rounding noise.
const sliver = 1e-3

// sheet thickens the open line path by t on its left side (above it when it
// runs towards larger U), with mitred corners, and returns one convex quad for
// each leg. thin is the first leg whose thickened side has no length left,
// because the corners lie too close for this thickness, or that ends in a turn
// of more than 120 degrees, whose mitre would reach out too far; -1 when all
// are sound.
func sheet(path []pt, t float64) (quads [][]pt, thin int) {
	far := make([]pt, len(path))
	thin = -1
	for i, p := range path {
		before, after := max(i-1, 0), min(i+1, len(path)-1)
		n0, n1 := leftOf(path[before], p), leftOf(p, path[after])
		if i == 0 {
			n0 = n1
		}
		if after == i {
			n1 = n0
		}
		// The mitre lies along n0+n1, as far out as both sides are t away.
		open := 1 + float64(n0.U*n1.U) + float64(n0.V*n1.V)
		if open < 0.5 && thin < 0 {
			thin = i - 1
		}
		k := t / open
		far[i] = pt{p.U + float64(k*(n0.U+n1.U)), p.V + float64(k*(n0.V+n1.V))}
	}
	for i := 0; i+1 < len(path); i++ {
		n := leftOf(path[i], path[i+1])
		du, dv := far[i+1].U-far[i].U, far[i+1].V-far[i].V
		along := float64(du*n.V) - float64(dv*n.U)
		if !(along > 0.1) && thin < 0 {
			thin = i
		}
		quads = append(quads, []pt{path[i], path[i+1], far[i+1], far[i]})
	}
	return quads, thin
}

// leftOf is the unit normal to the left of the way from a to b.
func leftOf(a, b pt) pt {
	du, dv := b.U-a.U, b.V-a.V
	l := math.Sqrt(float64(du*du) + float64(dv*dv))
	if l == 0 {
		return pt{}
	}
	return pt{-dv / l, du / l}
}

// clip keeps the part of a convex polygon where a·U + b·V + c ≥ 0.
func clip(poly []pt, a, b, c float64) []pt {
	side := func(p pt) float64 { return float64(a*p.U) + float64(b*p.V) + c }
	var out []pt
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		sp, sq := side(p), side(q)
		if sp >= 0 {
			out = append(out, p)
		}
		if (sp > 0 && sq < 0) || (sp < 0 && sq > 0) {
			t := sp / (sp - sq)
			out = append(out, pt{p.U + float64(t*(q.U-p.U)), p.V + float64(t*(q.V-p.V))})
		}
	}
	return out
}

// area is the area of a polygon, positive when it runs anticlockwise.
func area(poly []pt) float64 {
	sum := 0.0
	for i, p := range poly {
		q := poly[(i+1)%len(poly)]
		sum += float64(p.U*q.V) - float64(q.U*p.V)
	}
	return sum / 2
}

// prismAcross is a section in X and Z drawn out from Y = y0 to y1.
func prismAcross(poly []pt, y0, y1 float64) Shape {
	return prism(poly, y0, y1, func(p pt, w float64) Vec { return Vec{p.U, w, p.V} })
}

// prismAlong is a section in Y and Z drawn out from X = x0 to x1.
func prismAlong(poly []pt, x0, x1 float64) Shape {
	return prism(poly, x0, x1, func(p pt, w float64) Vec { return Vec{w, p.U, p.V} })
}

// prism draws poly out from w0 to w1; an upright rectangle becomes a box.
func prism(poly []pt, w0, w1 float64, at func(pt, float64) Vec) Shape {
	if lo, hi, ok := rectangle(poly); ok {
		a, b := at(lo, w0), at(hi, w1)
		return block(a, b)
	}
	h := Hull{}
	for _, p := range poly {
		h.Points = append(h.Points, at(p, w0), at(p, w1))
	}
	return h
}

// rectangle tells whether poly is a rectangle along U and V, and its corners.
func rectangle(poly []pt) (lo, hi pt, ok bool) {
	if len(poly) != 4 {
		return lo, hi, false
	}
	a, b, c, d := poly[0], poly[1], poly[2], poly[3]
	ok = a.V == b.V && b.U == c.U && c.V == d.V && d.U == a.U
	return pt{min(a.U, c.U), min(a.V, c.V)}, pt{max(a.U, c.U), max(a.V, c.V)}, ok
}

// block is the box between two opposite corners.
func block(a, b Vec) Box {
	var c, s Vec
	for i := range a {
		c[i] = (a[i] + b[i]) / 2
		s[i] = math.Abs(b[i] - a[i])
	}
	return Box{Center: c, Size: s}
}

// ovalSides is how many flat sides stand for an oval. They lie around it, so
// that nothing of it is left out: at a corner by 1/cos(π/24) − 1 = 0.9 % of
// the half width, and not at all at its full width and height.
const ovalSides = 24

// oval is an oval body from a along the unit direction dir, width measured
// sideways (level), height square to both. A round one is an exact cylinder.
func oval(a, dir Vec, length, width, height float64) Shape {
	b := a.add(dir.scale(length))
	if width == height {
		return Cylinder{From: a, To: b, Radius: width / 2}
	}
	side, up := sidewaysOf(dir)
	h := Hull{}
	for i := 0; i < ovalSides; i++ {
		s, c := math.Sincos(math.Pi * float64(2*i+1) / ovalSides)
		grow := 1 / math.Cos(math.Pi/ovalSides)
		off := side.scale(width / 2 * c * grow).add(up.scale(height / 2 * s * grow))
		h.Points = append(h.Points, a.add(off), b.add(off))
	}
	return h
}

// cone is a body round about the X direction that tapers from radius r0 at a
// to r1 at b; flat sides lie around it as with an oval.
func cone(a, b Vec, r0, r1 float64) Shape {
	if r0 == r1 {
		return Cylinder{From: a, To: b, Radius: r0}
	}
	side, up := sidewaysOf(b.sub(a).unit())
	h := Hull{}
	for i := 0; i < ovalSides; i++ {
		s, c := math.Sincos(math.Pi * float64(2*i+1) / ovalSides)
		off := side.scale(c).add(up.scale(s)).scale(1 / math.Cos(math.Pi/ovalSides))
		h.Points = append(h.Points, a.add(off.scale(r0)), b.add(off.scale(r1)))
	}
	return h
}

// sidewaysOf is the level direction square to dir and the one square to both.
// For an upright dir, sideways is Y.
func sidewaysOf(dir Vec) (side, up Vec) {
	side = Vec{0, 0, 1}.cross(dir)
	if side.len() < 1e-6 {
		side = Vec{0, 1, 0}
	}
	side = side.unit()
	return side, dir.cross(side).unit()
}

// along, across and upright are the stored words for how a body lies.
var liesWords = []string{"along", "across", "upright"}

// liesField asks how a body with one axis lies.
func liesField(def string) Field {
	return Field{Name: "lies", Label: "Lies", Type: Choice, Choices: liesWords,
		ChoiceLabels:  []string{"along the frame", "across", "upright"},
		DefaultChoice: def, Help: "The way its length points."}
}

// liesAxis is half the length along the way a body lies.
func liesAxis(lies string, length float64) Vec {
	switch lies {
	case "across":
		return Vec{0, length / 2, 0}
	case "upright":
		return Vec{0, 0, length / 2}
	}
	return Vec{length / 2, 0, 0}
}

// mm is a length field.
func mm(name, label string, least, most, def float64, help string) Field {
	return Field{Name: name, Label: label, Type: Length, Min: least, Max: most, Default: def, Help: help}
}

// mmOr is a length whose 0 stands for something else.
func mmOr(zero, name, label string, most, def float64, help string) Field {
	f := mm(name, label, 0, most, def, help)
	f.ZeroIs = zero
	return f
}

// mmY is a length across the vehicle that changes sign on the other side.
func mmY(name, label string, least, most, def float64, help string) Field {
	f := mm(name, label, least, most, def, help)
	f.Handed = true
	return f
}

// deg is an angle field.
func deg(name, label string, least, most, def float64, help string) Field {
	return Field{Name: name, Label: label, Type: Angle, Min: least, Max: most, Default: def, Help: help}
}

// there tells whether something that may be left out has a length: below a
// tenth of a millimetre it has none.
func there(length float64) bool { return length >= 0.1 }

// bad is short for a field's error.
func bad(field, expected string) *FieldError { return &FieldError{Field: field, Expected: expected} }
