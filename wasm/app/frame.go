package app

import (
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// asides are the drawings beside the large one, and whether they show what is now.
// While a part, a saddle or the section is dragged, the large drawing follows in every
// frame, with it what the finger is on, and the others by turns where there is time,
// so that a frame is done before the next is due.
type asides struct {
	stale   [besides]bool
	next    int // whose turn it is
	waited  int // pictures that followed the finger since one of them came
	lay     view.Layout
	pal     *draw.Palette
	panel   bool // the page's panel was renewed with this frame: enough for one
	layered bool // the picture is put together from layers
	still   draw.Layers
}

const (
	staffBeside = iota
	stripBeside
	smallBeside
	besides
)

// Frame composes what changed since the last picture; where nothing did it
// returns nil and the last picture stays. The picture is good until the next call.
func (a *App) Frame() *draw.List {
	b := &a.asides
	if !a.dirty && b.stale == ([besides]bool{}) {
		return nil
	}
	a.frames++
	l := &draw.List{Letters: a.letters, Ops: a.ops[:0]}
	l.Over = a.onlyFollows()
	if b.layered = l.Over && a.hand.mode == dragPart; !b.layered {
		b.still.Begin()
	}
	moved := a.dirty
	if a.dirty || !l.Over {
		a.dirty = false
		b.stale = [besides]bool{true, true, true}
		l.Clip(a.lay.Canvas)
		a.composeMain(l)
	}
	if !l.Over {
		for i := range b.stale {
			a.composeBeside(l, i)
		}
	} else {
		a.composeHeld(l)
		a.composeNext(l, moved)
	}
	b.panel = false
	a.ops = l.Ops
	return l
}

// composeHeld brings the drawing that the finger is on.
func (a *App) composeHeld(l *draw.List) {
	stale := &a.asides.stale
	switch {
	case a.hand.mode == dragStaff && stale[staffBeside]:
		a.composeBeside(l, staffBeside)
	case a.hand.mode == dragFlag && stale[stripBeside]:
		a.composeBeside(l, stripBeside)
	}
}

// besideAfter is how many pictures that follow the finger in a row come without any
// of the drawings beside.
const besideAfter = 3

// composeNext brings one of the drawings beside up to date, if there is time: in a
// picture in which nothing has moved, else now and then.
func (a *App) composeNext(l *draw.List, moved bool) {
	b := &a.asides
	if moved {
		b.waited++
	}
	for range besides {
		if b.panel || moved && b.waited <= besideAfter {
			break
		}
		b.next = (b.next + 1) % besides
		if b.stale[b.next] {
			a.composeBeside(l, b.next)
			b.waited = 0
			break
		}
	}
	if b.stale != ([besides]bool{}) {
		a.host.Wake(100) // the others come with the frames that follow
	}
}

// onlyFollows says whether the last picture needs no more than the large drawing,
// what the finger is on and, by and by, what stands beside them.
func (a *App) onlyFollows() bool {
	b, was := &a.asides, a.asides
	b.lay, b.pal = a.lay, a.Palette()
	return a.following() && a.showing == oneLarge && was.lay == b.lay && was.pal == b.pal
}

// following says that a finger drags something that all drawings show.
func (a *App) following() bool {
	return a.hand.mode == dragPart || a.hand.mode == dragStaff || a.hand.mode == dragFlag
}

func (a *App) composeBeside(l *draw.List, which int) {
	l.Clip(a.lay.Canvas)
	switch which {
	case staffBeside:
		a.staffSheet().Compose(l)
	case stripBeside:
		a.stripSheet().Compose(l)
	case smallBeside:
		if a.lay.Small.W > 0 {
			a.smallSheet().Compose(l)
		}
	}
	a.asides.stale[which] = false
}

// layers are those that the picture may be put together from.
func (a *App) layers() *draw.Layers {
	if !a.asides.layered {
		return nil
	}
	return &a.asides.still
}
