package trace

import "math"

// Mesh is a picture laid out as triangles that a graphics library may fill
// without knowing perspective.
type Mesh struct {
	To    []Pt // corners on the screen
	From  []Pt // the same corners in the picture (px)
	Index []uint16
}

// mostCells is the finest a picture is divided, along each of its sides.
const mostCells = 128

// edgeCells is how finely a picture is divided at least that the horizon cuts:
// its far edge is then ragged by less than what is drawn there is smeared.
const edgeCells = 40

// Lay lays a picture of the given size (px) out on the screen. Of what the
// window lo–hi does not show, and of what lies near the horizon, nothing is
// laid. The picture is divided until nothing inside a triangle is further than
// off from where the perspective has it, or into 128 by 128 cells of what shows.
func Lay(toScreen Homography, size, lo, hi Pt, off float64) *Mesh {
	from, to, ok := shown(toScreen, size, lo, hi)
	if !ok {
		return &Mesh{}
	}
	for n := 1; ; {
		l := &layer{h: toScreen, from: from, to: to, lo: lo, hi: hi, n: n}
		l.project()
		bend := l.bend()
		if n >= mostCells || bend <= off {
			return l.mesh()
		}
		// Half as wide a cell bends a quarter as much. The estimate is good
		// once cells are small; until then it is not let run ahead.
		n = min(max(n+1, min(4*n, int(math.Ceil(float64(n)*math.Sqrt(bend/off))))), mostCells)
	}
}

// shown is the part of the picture that the window may show.
func shown(h Homography, size, lo, hi Pt) (from, to Pt, ok bool) {
	to = size
	back, ok := h.inverse(Pt{(lo[0] + hi[0]) / 2, (lo[1] + hi[1]) / 2})
	if !ok {
		return from, to, true
	}
	least, most := Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, c := range [4]Pt{lo, {hi[0], lo[1]}, hi, {lo[0], hi[1]}} {
		p, w := back.At(c)
		// The window's corner shows what lies beyond the horizon, or what lies
		// behind it: then all of the picture may be seen.
		if _, forth := h.At(p); !(w > 0 && forth > 0) {
			return from, to, true
		}
		for k := range 2 {
			least[k], most[k] = math.Min(least[k], p[k]), math.Max(most[k], p[k])
		}
	}
	for k := range 2 {
		from[k], to[k] = math.Max(0, least[k]), math.Min(size[k], most[k])
	}
	return from, to, from[0] < to[0] && from[1] < to[1]
}

// layer is a picture divided into n by n cells.
type layer struct {
	h        Homography
	from, to Pt
	lo, hi   Pt
	n        int
	pts      []Pt
	good     []bool // in front of the horizon
}

func (l *layer) px(i, k float64) Pt {
	return Pt{lerp(l.from[0], l.to[0], i/float64(l.n)), lerp(l.from[1], l.to[1], k/float64(l.n))}
}

func (l *layer) project() {
	for k := range l.n + 1 {
		for i := range l.n + 1 {
			p, w := l.h.At(l.px(float64(i), float64(k)))
			l.pts, l.good = append(l.pts, p), append(l.good, w > horizon)
		}
	}
}

// cell is the corners of a cell by index, and whether it is laid.
func (l *layer) cell(i, k int) (c [4]int, laid bool) {
	a := k*(l.n+1) + i
	c = [4]int{a, a + 1, a + l.n + 2, a + l.n + 1}
	least, most := Pt{math.Inf(1), math.Inf(1)}, Pt{math.Inf(-1), math.Inf(-1)}
	for _, j := range c {
		if !l.good[j] {
			return c, false
		}
		for x := range 2 {
			least[x], most[x] = math.Min(least[x], l.pts[j][x]), math.Max(most[x], l.pts[j][x])
		}
	}
	return c, most[0] >= l.lo[0] && most[1] >= l.lo[1] && least[0] <= l.hi[0] && least[1] <= l.hi[1]
}

// cutOff says whether the horizon goes through a cell: less of it is lost when
// the cells are finer.
func (l *layer) cutOff(c [4]int) bool {
	return (l.good[c[0]] || l.good[c[1]] || l.good[c[2]] || l.good[c[3]]) &&
		!(l.good[c[0]] && l.good[c[1]] && l.good[c[2]] && l.good[c[3]])
}

// bend is how far straight triangles are from the perspective at the most,
// looked at in the middle of every side of every cell that is laid, and of the
// diagonal that divides it; without limit while the horizon cuts off a large
// one.
func (l *layer) bend() float64 {
	most := 0.0
	look := func(a, b int, i, k float64) {
		p, _ := l.h.At(l.px(i, k))
		most = math.Max(most, p.dist(l.pts[a].mid(l.pts[b])))
	}
	for k := range l.n {
		for i := range l.n {
			c, laid := l.cell(i, k)
			if l.n < edgeCells && l.cutOff(c) {
				return math.Inf(1)
			}
			if !laid {
				continue
			}
			x, y := float64(i), float64(k)
			look(c[0], c[1], x+0.5, y)
			look(c[1], c[2], x+1, y+0.5)
			look(c[2], c[3], x+0.5, y+1)
			look(c[3], c[0], x, y+0.5)
			look(c[0], c[2], x+0.5, y+0.5)
		}
	}
	return most
}

// mesh is the cells that are laid, two triangles each.
func (l *layer) mesh() *Mesh {
	m := &Mesh{}
	at := make([]int, len(l.pts)) // 1 + the corner's place in the mesh
	corner := func(j int) uint16 {
		if at[j] == 0 {
			m.To = append(m.To, l.pts[j])
			m.From = append(m.From, l.px(float64(j%(l.n+1)), float64(j/(l.n+1))))
			at[j] = len(m.To)
		}
		return uint16(at[j] - 1)
	}
	for k := range l.n {
		for i := range l.n {
			if c, laid := l.cell(i, k); laid {
				a, b, d, e := corner(c[0]), corner(c[1]), corner(c[2]), corner(c[3])
				m.Index = append(m.Index, a, b, d, a, d, e)
			}
		}
	}
	return m
}
