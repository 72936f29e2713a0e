package app

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/wasm/draw"
)

func (a *App) findingCommand(c *Command, _ *Reply) error {
	if c.Key == "" {
		a.finding = ""
		return nil
	}
	if !a.toFinding(c.Key) {
		return errors.New("this no longer falls short")
	}
	return nil
}

func (a *App) viewCommand(c *Command, _ *Reply) error {
	switch c.View {
	case "four":
		return a.fourAtOnce()
	case "turn":
		a.setShowing(turning)
		return nil
	}
	for v := fitment.SectionView; v <= fitment.FrontView; v++ {
		if viewNames[v] == c.View {
			a.setShowing(oneLarge)
			a.view = v
			return nil
		}
	}
	return fmt.Errorf("there is no view %q", c.View)
}

func (a *App) fit(*Command, *Reply) error {
	a.fitAll()
	a.fitStrip()
	return nil
}

func (a *App) stationCommand(c *Command, _ *Reply) error {
	if math.IsNaN(c.MM) || math.IsInf(c.MM, 0) {
		return errors.New("the station must be a number")
	}
	a.setStation(c.MM)
	return nil
}

func (a *App) heightCommand(c *Command, _ *Reply) error {
	a.setHeight(c.Front, c.Rear)
	return nil
}

func (a *App) named(c *Command, _ *Reply) error {
	for i := range a.doc.Heights {
		if a.doc.Heights[i].ID == c.Key {
			a.toNamed(&a.doc.Heights[i])
			return nil
		}
	}
	return fmt.Errorf("there is no height %q", c.Key)
}

func (a *App) apartCommand(c *Command, _ *Reply) error {
	a.apart = c.On
	a.holdHeight()
	return nil
}

func (a *App) units(c *Command, _ *Reply) error {
	u := scene.Units(c.Text)
	if u != scene.Millimetres && u != scene.Inches {
		return fmt.Errorf("lengths are shown in mm or in, not %q", c.Text)
	}
	if u == a.doc.Show {
		return nil
	}
	// How lengths are read is no edit: there is nothing to undo about it.
	if err := a.show(a.shownIn(a.doc, u)); err != nil {
		return err
	}
	a.save()
	return nil
}

// shownIn is a document with its lengths shown in a unit.
func (a *App) shownIn(doc *scene.Document, u scene.Units) *scene.Document {
	if doc.Show == u {
		return doc
	}
	c := *doc
	c.Show = u
	return &c
}

func (a *App) theme(c *Command, _ *Reply) error {
	switch c.Text {
	case "light":
		a.palette = &draw.Light
	case "dark":
		a.palette = &draw.Dark
	case "sun":
		a.palette = &draw.Sun
	default:
		return fmt.Errorf("the theme is light, dark or sun, not %q", c.Text)
	}
	return nil
}

func (a *App) formCommand(c *Command, _ *Reply) error {
	if id, ok := strings.CutPrefix(c.Text, shelfForm); ok && a.doc.ShelfNamed(id) == nil {
		return errNotOnShelf
	} else if ok {
		a.selectPart("")
		a.focus, a.form = "", c.Text
		a.endPicking()
		return nil
	}
	if strings.HasPrefix(c.Text, needForm) {
		return a.openNeed(c.Text)
	}
	switch c.Text {
	case "", "vehicle", "scene", heightsForm, "unmeasured":
		if c.Text == "" && a.leaveNeed() {
			return nil
		}
		a.focus, a.heightAdded = "", ""
		a.form = c.Text
		a.endPicking()
		if c.Text != "" {
			a.selectPart("")
		}
		return nil
	}
	return fmt.Errorf("there is no form %q", c.Text)
}
