package app

import (
	"errors"
	"fmt"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

// question is what an edit has left open: parts were measured from something
// that has moved. Until it is answered they stay, with their numbers read anew.
type question struct {
	before *scene.Document // as it was before anything moved
	after  *scene.Document // the last document it was asked for
	who    scene.Following
	word   string // joins the answer to the edit in the history
}

// modelCache keeps the models of the documents an edit compares.
type modelCache struct {
	docs   [3]*scene.Document
	models [3]*fitment.Model
	next   int
}

// modelOf is the model of a document close to the one on the sheet; nil when
// the engine cannot build it.
func (a *App) modelOf(doc *scene.Document) *fitment.Model {
	if a.model.Doc == doc {
		return a.model
	}
	c := &a.arr.models
	for i, d := range c.docs {
		if d == doc {
			return c.models[i]
		}
	}
	m, err := a.model.With(doc)
	if err != nil {
		return nil
	}
	c.docs[c.next], c.models[c.next] = doc, m
	c.next = (c.next + 1) % len(c.docs)
	return m
}

// boxes are the extents that edits line parts up by.
func (a *App) boxes(doc *scene.Document, part string) (lo, hi scene.Vec, ok bool) {
	m := a.modelOf(doc)
	if m == nil {
		return lo, hi, false
	}
	return m.Extent(part)
}

// settleMeasures puts the measurements of an edited document right, takes along
// what always follows, which with says, and asks whether what else was measured
// from something that moved is to follow.
func (a *App) settleMeasures(doc *scene.Document) (settled *scene.Document, with string, q *question, err error) {
	before := a.hist.Doc()
	if q := a.arr.question; q != nil && q.after == before {
		before = q.before // still open: it is about all that has moved since
	}
	if settled, err = scene.Settle(a.hist.Doc(), doc, a.boxes, false); err != nil {
		return nil, "", nil, err
	}
	if ids := scene.Elsewhere(doc, settled); len(ids) > 0 {
		with = ", and " + partsWords(a, ids) + " with it"
	}
	who := scene.Followers(before, settled, a.boxes)
	if len(who.Parts) == 0 {
		if len(who.Locked) > 0 {
			a.say(lockedWords(a, who.Locked))
		}
		return settled, with, nil, nil
	}
	a.arr.asked++
	return settled, with, &question{before: before, after: settled, who: who, word: fmt.Sprintf("follow %d", a.arr.asked)}, nil
}

// lockedWords say that parts do not follow.
func lockedWords(a *App, ids []string) string {
	if len(ids) == 1 {
		return a.name(ids[0]) + " is locked and stays. What it measures is read anew."
	}
	return count(len(ids), "part", "parts") + " are locked and stay. What they measure is read anew."
}

func was(n int) string {
	if n == 1 {
		return "was"
	}
	return "were"
}

// partsWords names one part, or counts several.
func partsWords(a *App, ids []string) string {
	if len(ids) == 1 {
		return a.plain(ids[0])
	}
	return count(len(ids), "part", "parts")
}

// ask is the open question for the page, or nil.
func (a *App) ask() *Ask {
	q := a.arr.question
	if q == nil || q.after != a.hist.Doc() {
		return nil
	}
	n := len(q.who.Parts)
	text := upper(partsWords(a, q.who.Parts)) + " " + was(n) + " measured from " + listed(withArticle(q.who.From)) + ", which has moved. Move " + it(n) + " too?"
	if len(q.who.From) > 1 {
		text = strings.Replace(text, "which has moved", "which have moved", 1)
	}
	if k := len(q.who.Locked); k > 0 {
		text += " " + upper(count(k, "locked part stays", "locked parts stay")) + "."
	}
	return &Ask{Text: text, Yes: "Move " + it(n) + " too", No: "Leave " + it(n)}
}

func it(n int) string {
	if n == 1 {
		return "it"
	}
	return "them"
}

// listed joins names: a, b and c.
func listed(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}

func withArticle(names []string) []string {
	out := make([]string, len(names))
	for i, s := range names {
		out[i] = fitment.The(s)
	}
	return out
}

// follow answers the question: with On the parts go along, in the same step
// that moved what they were measured from.
func (a *App) follow(c *Command, _ *Reply) error {
	q := a.arr.question
	if q == nil || q.after != a.hist.Doc() {
		a.arr.question = nil
		return errors.New("there is nothing to answer any more")
	}
	if !c.On {
		a.arr.question = nil
		return nil
	}
	doc, err := scene.Settle(q.before, q.after, a.boxes, true)
	if err != nil {
		return err
	}
	label := a.hist.UndoLabel() + ", and " + partsWords(a, q.who.Parts) + " with it"
	doc = a.shownIn(doc, a.doc.Show)
	if err := a.show(doc); err != nil {
		return err
	}
	a.arr.question = nil
	a.hist.DoWithin(q.word, doc, label)
	a.live = upper(label)
	a.fitStrip()
	a.save()
	return nil
}
