package gap

import "scrubline/fitment/internal/geom"

// The polytope of the depth search lives on the stack. Most searches take a
// dozen vertices, so that a small one is tried first: a large one costs more to
// clear than they take. A smooth core has to be followed facet by facet only near
// its least depth; the worst case, a whole circle of nearly equal depths, is cut
// short at the large size with an upper bound that is still a true move apart
// (see depth).
const (
	fewVertices  = 28
	manyVertices = 256
)

type fewFaces struct {
	v [fewVertices]vertex
	f [2 * fewVertices]face
}

type manyFaces struct {
	v [manyVertices]vertex
	f [2 * manyVertices]face
}

// face is a triangle of the polytope, seen from outside in the order v[0],
// v[1], v[2]. Neighbour e is across the edge from v[e] to v[e+1], and at that
// neighbour the same edge has the number edge[e].
type face struct {
	n    geom.Vec // unit normal, outward
	d    float64  // signed distance of its plane from the origin
	v    [3]int16
	next [3]int16
	edge [3]int8
	seen int16 // the last growth that looked at it
	live bool
}

type polytope struct {
	v      []vertex
	f      []face
	nv, nf int16 // used so far
	pass   int16
	free   int16 // first of the dropped faces, linked by next[0]; -1 for none
}

// full says that there is no room for another vertex, or for the faces it may
// need before those it hides are given back.
func (p *polytope) full() bool { return int(p.nv) == len(p.v) }

var after = [3]int8{1, 2, 0}

// tetrahedron starts with four vertices; d is on the inner side of a, b, c.
func (p *polytope) tetrahedron(a, b, c, d vertex) {
	p.v[0], p.v[1], p.v[2], p.v[3] = a, b, c, d
	p.nv, p.free = 4, -1
	f0, f1 := p.face(0, 1, 2), p.face(1, 0, 3)
	f2, f3 := p.face(2, 1, 3), p.face(0, 2, 3)
	p.bind(f0, 0, f1, 0)
	p.bind(f0, 1, f2, 0)
	p.bind(f0, 2, f3, 0)
	p.bind(f1, 1, f3, 2)
	p.bind(f1, 2, f2, 1)
	p.bind(f2, 2, f3, 1)
}

// face makes the triangle i, j, k. It is -1 when there is no room or no area.
func (p *polytope) face(i, j, k int16) int16 {
	at := p.free
	if at >= 0 {
		p.free = p.f[at].next[0]
	} else {
		if int(p.nf) == len(p.f) {
			return -1
		}
		at = p.nf
		p.nf++
	}
	f := &p.f[at]
	a := p.v[i].w
	n := p.v[j].w.Sub(a).Cross(p.v[k].w.Sub(a))
	l := n.Len()
	if l == 0 {
		return -1
	}
	n = n.Scale(1 / l)
	f.n, f.d, f.live, f.seen = n, n.Dot(a), true, 0
	f.v[0], f.v[1], f.v[2] = i, j, k
	return at
}

func (p *polytope) bind(f int16, e int8, g int16, h int8) {
	p.f[f].next[e], p.f[f].edge[e] = g, h
	p.f[g].next[h], p.f[g].edge[h] = f, e
}

// nearestFace is the face whose plane is least far out.
func (p *polytope) nearestFace() int16 {
	best := int16(-1)
	for i := int16(0); i < p.nf; i++ {
		if p.f[i].live && (best < 0 || p.f[i].d < p.f[best].d) {
			best = i
		}
	}
	return best
}

// horizon is the ring of new faces about a new vertex.
type horizon struct {
	first, last int16
	count       int
}

// grow takes in vertex w, which lies outside face at: the faces that w sees are
// dropped, and each edge on their border gets a face to w. It is false when
// there is no room, or when rounding has left a border that is no ring.
func (p *polytope) grow(at int16, w *vertex) bool {
	f := &p.f[at]
	if p.full() {
		return false
	}
	p.v[p.nv] = *w
	p.nv++
	p.pass++
	f.seen = p.pass
	h := horizon{first: -1, last: -1}
	for e := int8(0); e < 3; e++ {
		if !p.look(f.next[e], f.edge[e], &h) {
			return false
		}
	}
	if h.count < 3 || p.f[h.last].v[1] != p.f[h.first].v[0] {
		return false
	}
	p.bind(h.last, 1, h.first, 2)
	p.drop(at)
	return true
}

// look walks over edge e into face at. A face counts as seen when w is outside
// it by more than a hundredth of the tolerance: then each new face is at least
// that high over its edge, and its normal is good. What that leaves unseen is
// hollow by no more.
func (p *polytope) look(at int16, e int8, h *horizon) bool {
	f := &p.f[at]
	if f.seen == p.pass {
		return true
	}
	w := p.nv - 1
	if f.n.Dot(p.v[w].w)-f.d <= geom.TouchTol {
		return p.border(at, e, h)
	}
	f.seen = p.pass
	e1 := after[e]
	e2 := after[e1]
	if !p.look(f.next[e1], f.edge[e1], h) || !p.look(f.next[e2], f.edge[e2], h) {
		return false
	}
	p.drop(at)
	return true
}

// border makes the new face over edge e of the unseen face at, and binds it to
// the one before.
func (p *polytope) border(at int16, e int8, h *horizon) bool {
	f := &p.f[at]
	g := p.face(f.v[after[e]], f.v[e], p.nv-1)
	if g < 0 {
		return false
	}
	p.f[g].seen = p.pass
	p.bind(g, 0, at, e)
	if h.last < 0 {
		h.first = g
	} else {
		if p.f[h.last].v[1] != p.f[g].v[0] {
			return false
		}
		p.bind(h.last, 1, g, 2)
	}
	h.last = g
	h.count++
	return true
}

// drop gives a face back. Its place may be taken while the same growth still
// walks: the new face is marked as looked at, as the old one was.
func (p *polytope) drop(at int16) {
	p.f[at].live = false
	p.f[at].next[0] = p.free
	p.free = at
}
