package app

import (
	"scrubline/wasm/draw"
	"scrubline/wasm/view"
)

// asides are the drawings beside the one that the fingers work in, and whether
// they show what is now. While a part is dragged the drawing under the finger
// follows in every frame and one of these with it, so that a frame is done
// before the next is due.
type asides struct {
	stale [besides]bool
	next  int // whose turn it is
	lay   view.Layout
	pal   *draw.Palette
	panel bool // the page's panel was renewed with this frame: enough for one
	over  bool // the picture is painted over the last one
	still draw.Layers
}

const (
	staffBeside = iota
	stripBeside
	smallBeside
	besides
)

// Frame composes what changed since the last picture; where nothing did it
// returns nil and the last picture stays.
func (a *App) Frame() *draw.List {
	b := &a.asides
	if !a.dirty && b.stale == ([besides]bool{}) {
		return nil
	}
	a.frames++
	l := &draw.List{Letters: a.letters, Ops: make([]draw.Op, 0, a.ops+a.ops/8)}
	if l.Over = a.onlyThePartMoves(); !l.Over {
		b.still.Begin()
	}
	b.over = l.Over
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
		a.composeNext(l)
	}
	b.panel = false
	a.ops = len(l.Ops)
	return l
}

// composeNext brings one of the drawings beside up to date, if there is time.
func (a *App) composeNext(l *draw.List) {
	b := &a.asides
	for range besides {
		b.next = (b.next + 1) % besides
		if b.stale[b.next] && !b.panel {
			a.composeBeside(l, b.next)
			break
		}
	}
	if b.stale != ([besides]bool{}) {
		a.host.Wake(100) // the others come with the frames that follow
	}
}

// onlyThePartMoves says whether the last picture needs no more than the drawing
// under the finger and, by and by, those beside it.
func (a *App) onlyThePartMoves() bool {
	b, was := &a.asides, a.asides
	b.lay, b.pal = a.lay, a.Palette()
	return a.hand.mode == dragPart && a.showing == oneLarge && was.lay == b.lay && was.pal == b.pal
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
	if !a.asides.over {
		return nil
	}
	return &a.asides.still
}
