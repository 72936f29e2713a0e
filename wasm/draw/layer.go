package draw

import (
	"scrubline/fitment"
	"scrubline/wasm/view"
)

// LayerID names a picture that whoever paints a [List] keeps: what lies in one of
// the drawings under what moves, or over it.
type LayerID struct {
	slot  slot
	which int
}

// The two layers of a drawing.
const (
	under = iota
	over
)

// Layers keep, while the hand moves one part among many, what does not move as
// two pictures for each drawing, one under it and one over it. Without them every
// frame would bring tens of thousands of corners of which a few hundred have moved.
type Layers struct {
	kept map[slot]*layered
	live map[int]bool // parts that have moved since the first picture
	tops map[int]bool // parts of which something else is hidden than was
}

// Begin forgets all that was kept: whoever paints has nothing either.
func (y *Layers) Begin() { *y = Layers{} }

// layered is what a drawing's layers were painted from.
type layered struct {
	rect      view.Rect
	proj      view.Projection
	near, far float64
	from, to  int // outlines between these are in neither layer
	parts     []layeredPart
	blank     [2]bool // nothing is in that layer
}

type layeredPart struct {
	part      int
	look      PartLook
	live      bool // in neither layer
	topLive   bool // what is painted of it over all others is in neither
	near, far float64
	seen, cut [][]fitment.Pt
	hidden    [][2]fitment.Pt
}

// of is what a sheet's layers are painted from now, and whether those kept still
// show that. Drawn in each picture is all from the first to the last of what the
// hand holds and of what has moved, so that what lies between stays between.
func (y *Layers) of(s *Sheet, near, far float64) (k *layered, fresh [2]bool) {
	if y.kept == nil {
		y.kept, y.live, y.tops = map[slot]*layered{}, map[int]bool{}, map[int]bool{}
	}
	was := y.kept[s.slot]
	k = &layered{rect: s.Rect, proj: s.Proj, near: near, far: far, from: len(s.Outs), to: len(s.Outs), parts: make([]layeredPart, len(s.Outs))}
	for i := range s.Outs {
		o, p := &s.Outs[i], &k.parts[i]
		*p = layeredPart{part: o.Part, look: s.Parts[o.Part], near: o.Near, far: o.Far, seen: o.Seen, cut: o.Cut}
		if s.Hidden != nil {
			p.hidden = s.Hidden[i]
		}
		if was != nil && i < len(was.parts) && was.parts[i].part == o.Part {
			y.live[o.Part] = y.live[o.Part] || !was.parts[i].stands(p)
			y.tops[o.Part] = y.tops[o.Part] || !sameLines(was.parts[i].hidden, p.hidden)
		}
	}
	for i := range k.parts {
		p := &k.parts[i]
		p.live = s.chosen(p.part) || y.live[p.part]
		p.topLive = p.live || y.tops[p.part]
		if p.live {
			k.from, k.to = min(k.from, i), i+1
		}
	}
	y.kept[s.slot] = k
	if was == nil {
		return k, [2]bool{true, true}
	}
	k.blank = was.blank
	return k, was.differs(k)
}

// differs says which of the layers painted from one do not show the other.
func (k *layered) differs(now *layered) (fresh [2]bool) {
	if k.rect != now.rect || k.proj != now.proj || k.near != now.near || k.far != now.far ||
		k.from != now.from || k.to != now.to || len(k.parts) != len(now.parts) {
		return [2]bool{true, true}
	}
	for i := range k.parts {
		a, b := &k.parts[i], &now.parts[i]
		if a.part != b.part || a.live != b.live || !a.live && (a.look != b.look || !a.stands(b)) {
			fresh[under] = fresh[under] || i < k.from
			fresh[over] = fresh[over] || i >= k.to || a.hasTop() || b.hasTop()
		}
		if a.topLive != b.topLive || !a.topLive && !sameLines(a.hidden, b.hidden) {
			fresh[over] = true
		}
	}
	return fresh
}

// stands says whether a part is where it was.
func (a *layeredPart) stands(b *layeredPart) bool {
	return a.near == b.near && a.far == b.far && same(a.seen, b.seen) && same(a.cut, b.cut)
}

// hasTop says whether anything of a part may be painted over all others.
func (a *layeredPart) hasTop() bool { return len(a.cut)+len(a.hidden) > 0 }

// sameLines says whether two lists are the very same.
func sameLines(a, b [][2]fitment.Pt) bool {
	return len(a) == len(b) && (len(a) == 0 || &a[0] == &b[0])
}

// backToFront paints what is seen of all outlines, and over all of them what top
// paints of each. With layers only what moves is painted, and what top paints of it
// lies over that of the others.
func (s *Sheet) backToFront(l *List, top func(i int)) {
	near, far := s.depths()
	if s.Layers == nil {
		for i := range s.Outs {
			s.seen(l, &s.Outs[i], near, far)
		}
		for i := range s.Outs {
			top(i)
		}
		return
	}
	k, fresh := s.Layers.of(s, near, far)
	seen := func(from, to int) {
		for i := from; i < to; i++ {
			s.seen(l, &s.Outs[i], near, far)
		}
	}
	tops := func(live bool) {
		for i := range s.Outs {
			if k.parts[i].topLive == live {
				top(i)
			}
		}
	}
	s.layer(l, k, under, fresh[under], func() { seen(0, k.from) })
	seen(k.from, k.to)
	s.layer(l, k, over, fresh[over], func() {
		seen(k.to, len(s.Outs))
		tops(false)
	})
	tops(true)
}

// layer shows one of a sheet's layers, painted anew when it has to be.
func (s *Sheet) layer(l *List, k *layered, which int, fresh bool, paint func()) {
	id := LayerID{s.slot, which}
	if fresh {
		begin := len(l.Ops)
		l.Ops = append(l.Ops, Op{Kind: BeginLayerOp, Layer: id, Clip: s.Rect.Inset(1)})
		paint()
		if k.blank[which] = len(l.Ops) == begin+1; k.blank[which] {
			l.Ops = l.Ops[:begin]
			return
		}
		l.Ops = append(l.Ops, Op{Kind: EndLayerOp, Layer: id})
	}
	if !k.blank[which] {
		l.Ops = append(l.Ops, Op{Kind: LayerOp, Layer: id})
	}
}
