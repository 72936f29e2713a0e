package fitment

import (
	"fmt"
	"math"

	"scrubline/fitment/internal/geom"
)

// axes are the body axes of a view's plane, in the order the view gives them.
func (v View) axes() (u, w int) {
	switch v {
	case SideView:
		return 0, 2
	case PlanView:
		return 0, 1
	}
	return 1, 2
}

// RoomOptions says where the room of a part is looked for.
type RoomOptions struct {
	View View
	// LoMM and HiMM bound the reference point in the plane (body axes, as the
	// view orders them); both nought for RoomReachMM each way.
	LoMM, HiMM [2]float64
	// CellMM is the side of the finest cells; 0 is RoomCellMM.
	CellMM float64
}

const (
	RoomCellMM  = 5.0
	RoomReachMM = 320.0
	// roomCellsMost bounds the finest cells of a map.
	roomCellsMost = 1 << 20
	// coarsest (mm) is about how large the first cells are.
	coarsest = 80.0
)

// Room is where a part's reference point may be in the plane of a view, the part
// keeping its turn and its place across the plane, such that it keeps all its
// needs over the whole travel and hangs below no rim line at the named heights.
// The part's group goes with it.
//
// It is refined from squares of a few centimetres down to CellMM. A finest cell
// is free when the part is proven to keep its needs with the reference point in
// the cell's middle; so that the border lies within 0.71 of a cell of the true
// one.
type Room struct {
	Part   string
	View   View
	AtMM   [2]float64 // where the reference point stands
	LoMM   [2]float64 // low corner of the first cell
	CellMM float64
	Nu, Nw int // finest cells along the plane's two axes
	// blocked has for each finest cell what its middle falls short of: roomFree,
	// roomRim, or the number of a part in the document; row by row.
	blocked []int32
	s       *study
	names   []string
	queue   []roomCell
	next    []roomCell // of the level below
	size    int        // of the level's cells, in finest cells
	rough   bool       // every cell of the first level has been looked at
}

const (
	roomFree = -1
	roomRim  = -2
)

// roomCell is a square of finest cells, size of them each way, and the walls
// that can still matter in it.
type roomCell struct {
	u, w  int
	walls []*wall
	rims  bool
}

// NewRoom begins a part's room. An error says that there is no such part, or
// what of the options makes no sense.
func (m *Model) NewRoom(part string, o RoomOptions) (*Room, error) {
	if _, ok := m.index[part]; !ok {
		return nil, fmt.Errorf("there is no part with the id %q", part)
	}
	r := &Room{Part: part, View: o.View, CellMM: o.CellMM}
	if r.CellMM == 0 {
		r.CellMM = RoomCellMM
	}
	p := m.parts[m.index[part]]
	at := m.ch.Origin(carrierOf[p.part.Carrier]).Add(vec(p.part.AtMM))
	ref := [3]float64{at.X, at.Y, at.Z}
	u, w := o.View.axes()
	r.AtMM = [2]float64{ref[u], ref[w]}
	if o.LoMM == o.HiMM {
		for k := range r.AtMM {
			o.LoMM[k], o.HiMM[k] = r.AtMM[k]-RoomReachMM, r.AtMM[k]+RoomReachMM
		}
	}
	if err := r.lay(&o); err != nil {
		return nil, err
	}
	far := 0.0
	for k := range r.AtMM {
		far = max(far, math.Abs(r.LoMM[k]-r.AtMM[k]), math.Abs(r.LoMM[k]+r.CellMM*float64([2]int{r.Nu, r.Nw}[k])-r.AtMM[k]))
	}
	r.s = m.newStudy(part, far*math.Sqrt2)
	for _, q := range m.parts {
		r.names = append(r.names, q.part.ID)
	}
	r.begin()
	return r, nil
}

// lay sets out the cells, so that the reference point is in the middle of one.
func (r *Room) lay(o *RoomOptions) error {
	n := [2]int{}
	for k := range n {
		if !(r.CellMM >= 0.1 && r.CellMM <= 1000) || !(o.HiMM[k] > o.LoMM[k]) || math.Abs(o.LoMM[k]) > 1e5 || math.Abs(o.HiMM[k]) > 1e5 {
			return fmt.Errorf("a room needs a low corner below its high one and cells of 0.1 to 1000 mm, not %v to %v in cells of %g", o.LoMM, o.HiMM, r.CellMM)
		}
		first := math.Floor((o.LoMM[k]-r.AtMM[k])/r.CellMM+0.5) - 0.5
		r.LoMM[k] = r.AtMM[k] + float64(first*r.CellMM)
		n[k] = int(math.Ceil((o.HiMM[k]-r.LoMM[k])/r.CellMM - 1e-9))
	}
	r.Nu, r.Nw = max(1, n[0]), max(1, n[1])
	if r.Nu*r.Nw > roomCellsMost {
		return fmt.Errorf("%d by %d cells are more than a room map has", r.Nu, r.Nw)
	}
	return nil
}

func (r *Room) begin() {
	r.blocked = make([]int32, r.Nu*r.Nw)
	r.size = 1
	for float64(r.size*2)*r.CellMM <= coarsest {
		r.size *= 2
	}
	for w := 0; w < r.Nw; w += r.size {
		for u := 0; u < r.Nu; u += r.size {
			r.queue = append(r.queue, roomCell{u, w, r.s.walls, len(r.s.rims) > 0})
		}
	}
}

// Advance settles the next n cells of those that are not settled, coarse ones
// first. It says whether the map is complete.
func (r *Room) Advance(n int) (done bool) {
	for ; n > 0; n-- {
		if len(r.queue) == 0 {
			r.rough = true
			if len(r.next) == 0 {
				return true
			}
			r.queue, r.next, r.size = r.next, r.queue[:0], r.size/2
		}
		c := r.queue[0]
		r.queue = r.queue[1:]
		r.look(&c)
	}
	r.rough = r.rough || len(r.queue) == 0
	return len(r.queue)+len(r.next) == 0
}

// Rough says that some cells of the first, coarse level have not been looked at
// yet.
func (r *Room) Rough() bool { return !r.rough }

// SizeMM is the side of the cells that are being settled.
func (r *Room) SizeMM() float64 { return float64(r.size) * r.CellMM }

// middle is the move that puts the reference point in the middle of a cell.
func (r *Room) middle(c *roomCell) geom.Vec {
	half := float64(r.size) / 2
	du := r.LoMM[0] + float64((float64(c.u)+half)*r.CellMM) - r.AtMM[0]
	dw := r.LoMM[1] + float64((float64(c.w)+half)*r.CellMM) - r.AtMM[1]
	var by [3]float64
	u, w := r.View.axes()
	by[u], by[w] = du, dw
	return geom.V(by[0], by[1], by[2])
}

// look settles a cell as a whole or hands its quarters on. What stands in it
// until then is what the states met so far say of its middle.
func (r *Room) look(c *roomCell) {
	p := r.s.at(shifted(r.middle(c)))
	reach := float64(r.size) * r.CellMM * math.Sqrt2 / 2 * r.s.lean
	if r.size == 1 {
		reach = 0
	}
	by, whole, walls := r.judge(p, c, reach)
	r.fill(c, by)
	if whole {
		return
	}
	h := r.size / 2
	for _, q := range [4][2]int{{0, 0}, {h, 0}, {0, h}, {h, h}} {
		if u, w := c.u+q[0], c.w+q[1]; u < r.Nu && w < r.Nw {
			r.next = append(r.next, roomCell{u, w, walls, c.rims})
		}
	}
}

func (r *Room) fill(c *roomCell, by int32) {
	for w := c.w; w < min(r.Nw, c.w+r.size); w++ {
		row := r.blocked[w*r.Nu:][:r.Nu]
		for u := c.u; u < min(r.Nu, c.u+r.size); u++ {
			row[u] = by
		}
	}
}

// judge looks at a place: what it falls short of, whether the same holds
// everywhere within reach of it, and else which walls can still matter there.
func (r *Room) judge(p *stance, c *roomCell, reach float64) (by int32, whole bool, left []*wall) {
	by = roomFree
	if c.rims {
		over := math.Inf(1)
		for i := range p.s.rims {
			over = min(over, p.over(&p.s.rims[i]))
		}
		switch {
		case over < -reach-geom.GapTol:
			return roomRim, true, nil
		case over < -geom.GapTol:
			by = roomRim
		}
		c.rims = over < reach
	}
	for k, w := range c.walls {
		short, keeps := p.wall(w, reach)
		if short < -reach-geom.GapTol {
			return int32(w.rival), true, nil
		}
		if by == roomFree && short < -geom.GapTol {
			by = int32(w.rival)
			if reach == 0 {
				return by, true, nil
			}
		}
		if !keeps {
			if left == nil {
				left = make([]*wall, 0, len(c.walls)-k)
			}
			left = append(left, w)
		}
	}
	return by, reach == 0 || len(left) == 0 && !c.rims, left
}

// wall looks at one wall in a place: the least slack it met, infinite when it met
// none, and whether it is proven to keep its need everywhere within reach.
func (p *stance) wall(w *wall, reach float64) (slack float64, keeps bool) {
	slack = math.Inf(1)
	for i := len(w.seen) - 1; i >= 0; i-- {
		slack = min(slack, w.seen[i].gap(p).Gap-w.need)
		if slack < -reach-geom.GapTol {
			return slack, false
		}
	}
	if slack < -geom.GapTol {
		return slack, false
	}
	if !p.near(w, w.need+reach) {
		return slack, true
	}
	if slack < reach-geom.GapTol && reach > 0 {
		return slack, false // not all within reach keeps it, that much is known
	}
	got := p.search(w, w.need+reach, true)
	if got.Bound >= w.need+reach-geom.GapTol {
		return slack, true
	}
	if got.Samples == 0 || got.Gap >= w.need+reach { // given up: it counts as short
		return min(slack, -2*geom.GapTol), false
	}
	return min(slack, got.Gap-w.need), false
}

// At says what the finest cell with a point of the plane says of it: "" when the
// part may stand there, else what it then falls short of, RimLineName for the
// rim line; ok is false outside the map.
func (r *Room) At(u, w float64) (by string, ok bool) {
	i := int(math.Floor((u - r.LoMM[0]) / r.CellMM))
	j := int(math.Floor((w - r.LoMM[1]) / r.CellMM))
	if i < 0 || j < 0 || i >= r.Nu || j >= r.Nw {
		return "", false
	}
	return r.name(r.blocked[j*r.Nu+i]), true
}

// Free says whether a finest cell is free, by its column and row.
func (r *Room) Free(u, w int) bool { return r.blocked[w*r.Nu+u] == roomFree }

// RimLineName stands in a room for the rim line, where parts stand by their ids.
const RimLineName = "rim line"

func (r *Room) name(by int32) string {
	switch by {
	case roomFree:
		return ""
	case roomRim:
		return RimLineName
	}
	return r.names[by]
}

// FreeShare is the part of the map that is free.
func (r *Room) FreeShare() float64 {
	n := 0
	for _, b := range r.blocked {
		if b == roomFree {
			n++
		}
	}
	return float64(n) / float64(len(r.blocked))
}

// Run is a stretch of a row of finest cells that says one thing.
type Run struct {
	From, To int    // cells, To not among them
	By       string // "" for free
}

// Row is a row of the map, from the low end to the high one.
func (r *Room) Row(w int) (out []Run) {
	row := r.blocked[w*r.Nu:][:r.Nu]
	for u := 0; u < len(row); {
		from := u
		for u < len(row) && row[u] == row[from] {
			u++
		}
		out = append(out, Run{from, u, r.name(row[from])})
	}
	return out
}

// RoomOf is a part's whole room at once.
func (m *Model) RoomOf(part string, o RoomOptions) (*Room, error) {
	r, err := m.NewRoom(part, o)
	if err != nil {
		return nil, err
	}
	for !r.Advance(1 << 12) {
	}
	return r, nil
}

// NewRoomWithin begins a part's room within reach (mm) each way of where it
// stands, in cells of the given side (mm).
func (m *Model) NewRoomWithin(part string, view View, reach, cell float64) (*Room, error) {
	o := RoomOptions{View: view, CellMM: cell}
	if k, ok := m.index[part]; ok {
		p := m.parts[k]
		at := unvec(m.ch.Origin(carrierOf[p.part.Carrier]).Add(vec(p.part.AtMM)))
		u, w := view.axes()
		o.LoMM, o.HiMM = [2]float64{at[u] - reach, at[w] - reach}, [2]float64{at[u] + reach, at[w] + reach}
	}
	return m.NewRoom(part, o)
}

// RoomWithin is the whole room of [Model.NewRoomWithin].
func (m *Model) RoomWithin(part string, view View, reach, cell float64) (*Room, error) {
	r, err := m.NewRoomWithin(part, view, reach, cell)
	if err != nil {
		return nil, err
	}
	for !r.Advance(1 << 12) {
	}
	return r, nil
}
