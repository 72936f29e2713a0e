package draw

import (
	"math"
	"slices"

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
	sides   []side
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

// corners makes room for n more vertices and returns it, and the index of the first.
func (m *Mesh) corners(n int) ([]Vertex, int) {
	base := len(m.V)
	m.V = slices.Grow(m.V, n)[:base+n]
	return m.V[base:], base
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
	if area(pts) < 0 {
		in, out = -in, -out
	}
	sides := m.sidesOf(pts, n)
	v, base := m.corners(2 * n)
	before := sides[n-1]
	for i, p := range pts {
		o, _ := mitre(before, sides[i])
		x, y := p[0]*m.Scale, p[1]*m.Scale
		v[2*i] = Vertex{float32(x + o.x*in), float32(y + o.y*in), c.R, c.G, c.B, 1}
		v[2*i+1] = Vertex{X: float32(x + o.x*out), Y: float32(y + o.y*out)}
		before = sides[i]
	}
	at := func(i, k int) uint16 { return uint16(base + 2*i + k) }
	for i := 1; i+1 < n; i++ {
		m.I = append(m.I, at(0, 0), at(i, 0), at(i+1, 0))
	}
	for i := range n {
		next := i + 1
		if next == n {
			next = 0
		}
		m.I = append(m.I, at(i, 0), at(i, 1), at(next, 0), at(i, 1), at(next, 1), at(next, 0))
	}
}

// rail is one of the four lines that a stroke is drawn as: how far it lies from
// the middle, device pixels, and how much of it is seen.
type rail struct {
	off   float64
	alpha float32
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
	rails := [4]rail{{-hw - 0.5, 0}, {-hw + 0.5, 1}, {hw - 0.5, 1}, {hw + 0.5, 0}}
	if hw < 0.5 { // thinner than a pixel: paler instead
		rails[1], rails[2] = rail{0, float32(2 * hw)}, rail{0, float32(2 * hw)}
	}
	segments := n - 1
	if closed {
		segments = n
	}
	sides := m.sidesOf(pts, segments)
	for i := range segments {
		next := i + 1
		if next == n {
			next = 0
		}
		own := sides[i]
		na, nb := own, own
		pa, pb := side{pts[i][0] * m.Scale, pts[i][1] * m.Scale}, side{pts[next][0] * m.Scale, pts[next][1] * m.Scale}
		along := side{-own.y * hw, own.x * hw}
		if closed || i > 0 {
			if o, ok := mitre(sides[(i+segments-1)%segments], own); ok {
				na = o
			} else {
				pa.x, pa.y = pa.x-along.x, pa.y-along.y
			}
		}
		if closed || i+1 < segments {
			if o, ok := mitre(own, sides[(i+1)%segments]); ok {
				nb = o
			} else {
				pb.x, pb.y = pb.x+along.x, pb.y+along.y
			}
		}
		m.quad(pa, pb, na, nb, &rails, c)
	}
}

func (m *Mesh) quad(pa, pb, na, nb side, rails *[4]rail, c RGBA) {
	v, base := m.corners(8)
	for k := range rails {
		r := &rails[k]
		p := Vertex{R: c.R * r.alpha, G: c.G * r.alpha, B: c.B * r.alpha, A: r.alpha}
		p.X, p.Y = float32(pa.x+na.x*r.off), float32(pa.y+na.y*r.off)
		v[2*k] = p
		p.X, p.Y = float32(pb.x+nb.x*r.off), float32(pb.y+nb.y*r.off)
		v[2*k+1] = p
	}
	for k := 0; k < 6; k += 2 {
		a := uint16(base + k)
		m.I = append(m.I, a, a+1, a+2, a+1, a+3, a+2)
	}
}

// side is the unit normal (dy, −dx) of an edge, or another vector of the screen.
type side struct{ x, y float64 }

// sidesOf are the normals of a polyline's first n edges; the last may lead back to
// its beginning. The result is good until the next call.
func (m *Mesh) sidesOf(pts []mgl64.Vec2, n int) []side {
	m.sides = slices.Grow(m.sides[:0], n)[:n]
	a := pts[0]
	for i := range m.sides {
		next := i + 1
		if next == len(pts) {
			next = 0
		}
		b := pts[next]
		x, y := b[0]-a[0], b[1]-a[1]
		l := math.Sqrt(x*x + y*y)
		if l == 0 {
			l = 1
		}
		m.sides[i] = side{y / l, -x / l}
		a = b
	}
	return m.sides
}

// mitre is where the corner between two edges goes when both move by one along
// their normals u and v: outwards for a polygon that turns clockwise on the screen.
// Its length grows with the sharpness of the corner; it is zero where the line
// turns back on itself. ok is false where the corner is too sharp for a line, whose
// segments then end square.
func mitre(u, v side) (o side, ok bool) {
	k := 1 + u.x*v.x + u.y*v.y
	if k < 1e-6 {
		return side{}, false
	}
	o = side{(u.x + v.x) / k, (u.y + v.y) / k}
	l := o.x*o.x + o.y*o.y
	return o, l > 0 && l < 2.5*2.5
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
		if n := len(out); n == 0 || apart(p, out[n-1]) {
			out = append(out, p)
		}
	}
	for closed && len(out) > 1 && !apart(out[len(out)-1], out[0]) {
		out = out[:len(out)-1]
	}
	m.scratch = out[:0]
	return out
}

// apart says whether two points are more than a hundredth of a pixel apart.
func apart(p, q mgl64.Vec2) bool {
	x, y := p[0]-q[0], p[1]-q[1]
	return x*x+y*y > 1e-4
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
