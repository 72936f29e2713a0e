package app

import (
	"strings"

	"scrubline/scene"
)

// barsField is the switch in the vehicle's form that puts an end's bars among
// the parts.
const barsField = "as_parts"

// setBars puts an end's bars among the parts, each joined with what it touches
// at its ends, or takes them out again.
func (a *App) setBars(end string, on bool) (*scene.Document, string, error) {
	if !on {
		return scene.RemoveBars(a.doc, end)
	}
	doc, ids, label, err := scene.AddBars(a.doc, end)
	if err != nil {
		return nil, "", err
	}
	m, err := a.model.With(doc)
	if err != nil {
		return nil, "", err
	}
	for _, id := range ids {
		for _, other := range m.TouchedAtEnds(id) {
			if doc, _, err = scene.SetJoined(doc, id, other, true, "bolted to it"); err != nil {
				return nil, "", err
			}
		}
	}
	return doc, label, nil
}

// barsEnd is the end whose bars a field of the vehicle's form switches.
func barsEnd(target, field string) (end string, ok bool) {
	end, ok = strings.CutSuffix(field, "/suspension/"+barsField)
	return end, ok && target == "vehicle"
}
