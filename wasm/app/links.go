package app

import "scrubline/wasm/draw"

// links are the suspension's bars as the main view shows them where the body
// stands.
func (a *App) links() []draw.Link {
	var list []draw.Link
	for _, b := range a.model.Bars(a.state()) {
		if k, ok := draw.NewLink(a.view, a.station, b.From, b.To); ok {
			list = append(list, k)
		}
	}
	return list
}
