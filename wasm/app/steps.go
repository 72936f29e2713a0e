package app

import "scrubline/scene"

// stepsCommand hands out the steps of undo, to be kept beside the document.
func (a *App) stepsCommand(_ *Command, r *Reply) error {
	r.Text = a.hist.Pack()
	return nil
}

// takeSteps puts steps that were kept behind the document that was just opened.
// Where they do not belong to it there is nothing to undo, as with any file.
func (a *App) takeSteps(text string) {
	if text == "" {
		return
	}
	if h, ok := scene.Unpack(a.hist.Doc(), text); ok {
		a.hist = h
	}
}
