package app

import (
	"strconv"

	"scrubline/fitment"
	"scrubline/scene"
)

// suspensionKey names the line of an end whose suspension does not reach the
// document's heights.
func suspensionKey(r *fitment.SuspensionReport) string { return "suspension|" + r.End }

// pointsOf is the heading under which an end's bars stand.
func pointsOf(group string) string { return group + " suspension: its points" }

// suspensionFields are what an end hangs on: its kind, what the engine says of
// it, and its bars by their two ends.
func (a *App) suspensionFields(end, group string, e *scene.End, says *fitment.SuspensionReport) []FormField {
	form, prefix := e.Form(), end+"/suspension/"
	kind := FormField{Field: prefix + "kind", Group: group + " suspension", Label: "Kind", Type: "choice", Value: form.Name,
		Help: form.About + " Another kind begins with assumed points: measure yours and put them in."}
	for _, k := range scene.SuspensionKinds() {
		kind.Choices = append(kind.Choices, FormChoice{k.Name, k.Label})
	}
	list := []FormField{kind}
	if e.Suspension == nil {
		return list
	}
	words := upper(minus(fitment.SuspensionWords(says)))
	if words == "" {
		words = "Reaches every height"
	}
	list = append(list, FormField{Field: prefix + "says", Group: kind.Group, Label: "What its points say", Type: "shown", Value: words + ".",
		Help: "Worked out from the points below over the whole travel, with every bar at its length."})
	if s := e.Suspension; s.Crank != "" {
		list = append(list, FormField{Field: prefix + "crank", Group: kind.Group, Label: "The crank turns on", Type: "choice", Value: s.Crank,
			Help: "What the middle of the Watt's link is bolted to.", Choices: []FormChoice{{scene.CrankOnAxle, "the axle"}, {scene.CrankOnBody, "the body"}}})
	}
	if stand, of := scene.BarsAmongParts(a.doc, end); of > 0 {
		list = append(list, FormField{Field: prefix + barsField, Group: kind.Group, Label: "Check its bars", Type: "flag", Value: strconv.FormatBool(stand == of),
			Help: "Puts the bars among the parts, each joined with what it is bolted to, so that everything is checked against them. Give each its diameter there."})
	}
	return append(list, a.barTable(prefix+"bars", pointsOf(group), e))
}

// barTable is a suspension's bars, each a row with the points of its two ends.
func (a *App) barTable(field, group string, e *scene.End) FormField {
	holds, from, side := "Axle", "the middle of the axle", ""
	if e.Independent {
		holds, from = "Wheel", "the wheel's centre"
		side = " These are the left wheel's; the right one's are their mirror image."
	}
	f := FormField{Field: field, Group: group, Label: group, Type: "table", Rows: [][]string{},
		Help: "The two ends of each bar at ride, by the middles of their joints: on the body, and on what it carries, measured from " + from + "." + side}
	labels := positionLabels(scene.Body)
	for i, way := range [3]string{"back", "right", "up"} {
		f.Columns = append(f.Columns, FormField{Field: "body_mm/" + strconv.Itoa(i), Label: "Body, " + way, Help: labels[i][1], Type: "number", Unit: unit(a.doc.Show)})
	}
	for i, way := range [3]string{"back", "right", "up"} {
		f.Columns = append(f.Columns, FormField{Field: "carried_mm/" + strconv.Itoa(i), Label: holds + ", " + way, Type: "number", Unit: unit(a.doc.Show)})
	}
	for _, b := range e.Suspension.Bars {
		row := make([]string, 0, 6)
		for _, p := range [2]scene.Vec{b.BodyMM, b.CarriedMM} {
			for _, mm := range p {
				row = append(row, a.length(mm))
			}
		}
		f.Rows, f.RowNames = append(f.Rows, row), append(f.RowNames, b.Name)
	}
	f.MinRows, f.MaxRows = len(f.Rows), len(f.Rows) // its kind says how many
	return f
}

// suspensionItems are the ends whose suspension does not reach the document's
// heights: what is checked is less than what was asked, so it stands first.
func (a *App) suspensionItems(r *fitment.Report) []FindingItem {
	var items []FindingItem
	for i := range r.Suspension {
		if s := &r.Suspension[i]; s.Cut {
			items = append(items, FindingItem{Key: suspensionKey(s), Mark: "tight", Sure: true, Opens: "vehicle",
				Title: upper(s.End) + " suspension does not reach every height", Figures: upper(minus(fitment.SuspensionWords(s))),
				Why: "From the points of its bars; heights beyond are not checked"})
		}
	}
	return items
}

// openSuspension opens the vehicle's form for such a line.
func (a *App) openSuspension(key string, r *fitment.Report) bool {
	for i := range r.Suspension {
		if s := &r.Suspension[i]; s.Cut && suspensionKey(s) == key {
			a.finding = ""
			a.selectPart("")
			a.form = "vehicle"
			a.live = upper(s.End) + " suspension: " + fitment.SuspensionWords(s)
			return true
		}
	}
	return false
}
