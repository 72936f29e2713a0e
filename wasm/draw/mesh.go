package draw

import (
	"math"

	"github.com/go-gl/mathgl/mgl64"

	"scrubline/wasm/view"
)

// Vertex is a corner of a triangle: position in device pixels, colour
// multiplied by its alpha.
type Vertex struct{ X, Y, R, G, B, A float32 }

// MaxVertices is where a mesh must be handed on: indices have 16 bits.
const MaxVertices = 60000

// Mesh is triangles. Edges are feathered over one device pixel, so that they
// are smooth without multisampling.
type Mesh struct {
	V []Vertex
	I []uint16
	// Scale is device pixels per CSS pixel.
	Scale float64
	// Clip (CSS pixels) is where anything shows; what lies outside is left
	// out. Without a size it is everywhere.
	Clip    view.Rect
	scratch []mgl64.Vec2
}

// Reset empties the mesh and keeps its room.
func (m *Mesh) Reset() { m.V, m.I = m.V[:0], m.I[:0] }

// Add appends a fill or a line. full says that the mesh must be handed on
// before the operation can be added.
func (m *Mesh) Add(op *Op, pal *Palette) (full bool) {
	if m.unseen(op) {
		return false
	}
	if len(m.V) > 0 && len(m.V)+8*len(op.Pts)*dashGuess(op) > MaxVertices {
		return true
	}
	c := op.Paint.Colour(pal)
	switch op.Kind {
	case FillOp:
		m.fill(op, c)
	case LineOp:
		if op.Dash == nil {
			m.line(op.Pts, op.Closed, op.Width, c)
			break
		}
		for _, d := range Dashes(op.Pts, op.Closed, op.Dash) {
			m.line(d, false, op.Width, c)
		}
	}
	return false
}

// unseen says whether all of an operation lies outside the clip.
func (m *Mesh) unseen(op *Op) bool {
	if m.Clip.W <= 0 || len(op.Pts) == 0 {
		return false
	}
	r := m.Clip.Inset(-op.Width - op.Grow - 2)
	right, bottom := r.X+r.W, r.Y+r.H
	// On all sides at once, for most operations are seen.
	over, under, before, after := true, true, true, true
	for _, p := range op.Pts {
		over, under = over && p[1] < r.Y, under && p[1] > bottom
		before, after = before && p[0] < r.X, after && p[0] > right
		if !over && !under && !before && !after {
			return false
		}
	}
	return true
}

// dashGuess is more pieces per point than a dashed line breaks into.
func dashGuess(op *Op) int {
	if op.Dash == nil {
		return 1
	}
	period, length := 0.0, 0.0
	for _, d := range op.Dash {
		period += d
	}
	for i := 1; i < len(op.Pts); i++ {
		length += op.Pts[i].Sub(op.Pts[i-1]).Len()
	}
	return 3 + int(4*length/math.Max(period, 1))/max(len(op.Pts), 1)
}

func (m *Mesh) vertex(p mgl64.Vec2, c RGBA, a float32) uint16 {
	m.V = append(m.V, Vertex{float32(p[0]), float32(p[1]), c.R * a, c.G * a, c.B * a, a})
	return uint16(len(m.V) - 1)
}

// fill adds a convex polygon: a fan, and around it a feather. Its corners may
// turn either way.
func (m *Mesh) fill(op *Op, c RGBA) {
	pts := m.distinct(op.Pts, true)
	n := len(pts)
	if n < 3 {
		return
	}
	in, out := op.Grow*m.Scale-0.5, op.Grow*m.Scale+0.5
	turn := 1.0
	if area(pts) < 0 {
		turn = -1
	}
	base := len(m.V)
	for i := range pts {
		o := offset(pts[(i+n-1)%n], pts[i], pts[(i+1)%n]).Mul(turn)
		p := pts[i].Mul(m.Scale)
		m.vertex(p.Add(o.Mul(in)), c, 1)
		m.vertex(p.Add(o.Mul(out)), c, 0)
	}
	at := func(i, k int) uint16 { return uint16(base + 2*(i%n) + k) }
	for i := 1; i+1 < n; i++ {
		m.I = append(m.I, at(0, 0), at(i, 0), at(i+1, 0))
	}
	for i := range n {
		m.I = append(m.I, at(i, 0), at(i, 1), at(i+1, 0), at(i, 1), at(i+1, 1), at(i+1, 0))
	}
}

// line adds a polyline as a strip of four rails: clear, full, full, clear.
func (m *Mesh) line(pts []mgl64.Vec2, closed bool, width float64, c RGBA) {
	if len(pts) > 2 || len(pts) == 2 && pts[0] == pts[1] {
		pts = m.distinct(pts, closed)
	}
	n := len(pts)
	if n < 2 {
		return
	}
	if n == 2 {
		closed = false
	}
	hw := width * m.Scale / 2
	rails := [4]float64{-hw - 0.5, -hw + 0.5, hw - 0.5, hw + 0.5}
	alpha := [4]float32{0, 1, 1, 0}
	if hw < 0.5 { // thinner than a pixel: paler instead
		rails[1], rails[2] = 0, 0
		alpha[1], alpha[2] = float32(2*hw), float32(2*hw)
	}
	segments := n - 1
	if closed {
		segments = n
	}
	for i := range segments {
		a, b := pts[i], pts[(i+1)%n]
		own := normal(a, b)
		ext := b.Sub(a).Normalize().Mul(hw)
		na, nb, pa, pb := own, own, a.Mul(m.Scale), b.Mul(m.Scale)
		if closed || i > 0 {
			if o, ok := mitre(pts[(i+n-1)%n], a, b); ok {
				na = o
			} else {
				pa = pa.Sub(ext)
			}
		}
		if closed || i+1 < segments {
			if o, ok := mitre(a, b, pts[(i+2)%n]); ok {
				nb = o
			} else {
				pb = pb.Add(ext)
			}
		}
		m.quad(pa, pb, na, nb, rails, alpha, c)
	}
}

func (m *Mesh) quad(pa, pb, na, nb mgl64.Vec2, rails [4]float64, alpha [4]float32, c RGBA) {
	base := uint16(len(m.V))
	for k := range 4 {
		m.vertex(pa.Add(na.Mul(rails[k])), c, alpha[k])
		m.vertex(pb.Add(nb.Mul(rails[k])), c, alpha[k])
	}
	for k := uint16(0); k < 3; k++ {
		a := base + 2*k
		m.I = append(m.I, a, a+1, a+2, a+1, a+3, a+2)
	}
}

// mitre is the offset at a corner of a line; ok is false where the corner is
// too sharp for it and the two segments end square instead.
func mitre(a, b, d mgl64.Vec2) (mgl64.Vec2, bool) {
	o := offset(a, b, d)
	l := o.Len()
	return o, l > 0 && l < 2.5
}

// offset is where the corner b of a–b–d goes when both edges move by one along
// their normals: outwards for a polygon that turns clockwise on the screen. Its
// length grows with the sharpness of the corner; it is zero where the line
// turns back on itself.
func offset(a, b, d mgl64.Vec2) mgl64.Vec2 {
	u, v := normal(a, b), normal(b, d)
	s := u.Add(v)
	k := 1 + u.Dot(v)
	if k < 1e-6 {
		return mgl64.Vec2{}
	}
	return s.Mul(1 / k)
}

// normal is the unit normal of a–b: (dy, −dx).
func normal(a, b mgl64.Vec2) mgl64.Vec2 {
	x, y := b[0]-a[0], b[1]-a[1]
	l := math.Sqrt(x*x + y*y)
	if l == 0 {
		return mgl64.Vec2{}
	}
	return mgl64.Vec2{y / l, -x / l}
}

func area(pts []mgl64.Vec2) float64 {
	sum := 0.0
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		sum += a[0]*b[1] - a[1]*b[0]
	}
	return sum / 2
}

// distinct drops points closer than a hundredth of a pixel to the one before.
// The result is good until the next call.
func (m *Mesh) distinct(pts []mgl64.Vec2, closed bool) []mgl64.Vec2 {
	out := m.scratch[:0]
	for _, p := range pts {
		if n := len(out); n == 0 || p.Sub(out[n-1]).Len() > 0.01 {
			out = append(out, p)
		}
	}
	for closed && len(out) > 1 && out[len(out)-1].Sub(out[0]).Len() <= 0.01 {
		out = out[:len(out)-1]
	}
	m.scratch = out[:0]
	return out
}

// Dashes breaks a polyline into the dashes of a pattern (on, off, on, off …,
// pixels), beginning with a dash.
func Dashes(pts []mgl64.Vec2, closed bool, pattern []float64) [][]mgl64.Vec2 {
	if closed && len(pts) > 2 {
		pts = append(append([]mgl64.Vec2{}, pts...), pts[0])
	}
	var out [][]mgl64.Vec2
	k, left := 0, pattern[0]
	var now []mgl64.Vec2
	for i := 1; i < len(pts); i++ {
		a, d := pts[i-1], pts[i].Sub(pts[i-1])
		l := d.Len()
		if l == 0 {
			continue
		}
		if k%2 == 0 && now == nil {
			now = []mgl64.Vec2{a}
		}
		for at := 0.0; at < l; {
			step := math.Min(left, l-at)
			at, left = at+step, left-step
			p := a.Add(d.Mul(at / l))
			if k%2 == 0 {
				now = append(now, p)
			}
			if left <= 1e-9 {
				if k%2 == 0 {
					out, now = append(out, now), nil
				} else {
					now = []mgl64.Vec2{p}
				}
				k = (k + 1) % len(pattern)
				left = math.Max(pattern[k], 0.5)
			}
		}
	}
	if len(now) > 1 {
		out = append(out, now)
	}
	return out
}
