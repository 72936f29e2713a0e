package app

import "scrubline/wasm/view"

// framing is how a view's camera came about, so that another size of the canvas
// and back again shows what was seen before.
type framing struct {
	fitted view.Camera // as it was last fitted
	all    bool        // by "show all" rather than at first sight
	chosen view.Camera // what the hand or a finding made of it, in the sheet of
	sheet  view.Rect
	shown  view.Camera // what that became in the present sheet
}

// refit carries a view's camera over from a sheet of another size: what was
// fitted is fitted again; what was chosen keeps its middle and as much of what
// lies around it in sight.
func (a *App) refit(i int, old view.Rect) {
	f, cam := &a.framings[i], &a.cams[i]
	if *cam == f.fitted {
		a.fitted[i] = false
		return
	}
	if *cam != f.shown {
		f.chosen, f.sheet = *cam, old
	}
	*cam = f.chosen
	cam.PxPerMM *= min(a.lay.Main.W/f.sheet.W, a.lay.Main.H/f.sheet.H)
	f.shown = *cam
}
