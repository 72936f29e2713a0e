package scene

import (
	"errors"
	"strconv"
	"strings"
)

// sentence turns a fault at a place into one plain sentence for the person who
// has just typed, with lengths in the unit they see. p is the part the place
// starts at, nil when it starts at the document.
func sentence(show Units, p *Part, err error) error {
	var e *PlaceError
	if !errors.As(err, &e) {
		return err
	}
	if e.inside != nil {
		return e.inside
	}
	label := placeLabel(p, e.Place)
	if e.inRange {
		least, most := number(e.least), number(e.most)
		switch {
		case strings.Contains(e.Place, "_mm"):
			least, most = FormatLength(e.least, show), FormatLength(e.most, show)+" "+string(show)
		case strings.Contains(e.Place, "_deg"):
			most += "°"
		}
		return errors.New(label + " must be from " + least + " to " + most + ".")
	}
	if e.Expected == "" {
		return errors.New(label + ": " + e.Got + ".")
	}
	return errors.New(label + " must be " + e.Expected + ".")
}

// placeLabel names a place the way the forms do.
func placeLabel(p *Part, place string) string {
	steps := strings.Split(strings.TrimPrefix(place, "/"), "/")
	if p != nil && steps[0] == "size" && len(steps) > 1 {
		if k := KindNamed(p.Kind); k != nil {
			return sizeLabel(k, steps[1:])
		}
	}
	if label := suspensionLabel(steps); label != "" {
		return label
	}
	last := steps[len(steps)-1]
	if n, err := strconv.Atoi(last); err == nil && n < 3 && len(steps) > 1 {
		switch steps[len(steps)-2] {
		case "at_mm":
			return [3]string{"Position back", "Position right", "Position up"}[n]
		case "turn_deg":
			return [3]string{"Roll", "Pitch", "Yaw"}[n]
		}
	}
	words := strings.ReplaceAll(bare(last), "_", " ")
	if len(steps) > 1 && (steps[len(steps)-2] == "front" || steps[len(steps)-2] == "rear") {
		words = steps[len(steps)-2] + " " + words
	}
	if words == "" {
		return "This"
	}
	return strings.ToUpper(words[:1]) + words[1:]
}

// sizeLabel names a field, or a cell of a table by its row and column.
func sizeLabel(k *Kind, steps []string) string {
	f := k.field(steps[0])
	if f == nil {
		return steps[0]
	}
	if len(steps) < 3 {
		return f.Label
	}
	for i := range f.Columns {
		if row, err := strconv.Atoi(steps[1]); err == nil && f.Columns[i].Name == steps[2] {
			return f.Label + ", row " + strconv.Itoa(row+1) + ": " + f.Columns[i].Label
		}
	}
	return f.Label
}
