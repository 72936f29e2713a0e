package app

import (
	"errors"
	"fmt"
	"strconv"
	"strings"

	"scrubline/fitment"
	"scrubline/scene"
)

// needForm begins the form of what two parts must keep: need:A|B.
const needForm = "need:"

// Fields of a need.
const (
	needMM     = "need"   // empty text: the table's figure
	needShield = "shield" // a heat shield stands between two parts
	needWhy    = "why"
)

// needPair reads the two parts of such a form, which must be there.
func (a *App) needPair(form string) (x, y string, ok bool) {
	pair, is := strings.CutPrefix(form, needForm)
	x, y, two := strings.Cut(pair, "|")
	return x, y, is && two && x != y && a.partIndex(x) >= 0 && a.partIndex(y) >= 0
}

// pairNeedForm is what two parts must keep as fields to type into; nil when one
// of them is gone.
func (a *App) pairNeedForm() *Form {
	x, y, ok := a.needPair(a.form)
	if !ok {
		return nil
	}
	n, err := a.model.Need(x, y)
	if err != nil {
		return nil
	}
	w := fitment.NewWords(a.doc)
	f := &Form{Target: a.form, Title: a.pairName(x, y), Sub: sentence(minus(w.Need(&n))),
		Warn: a.lessWords(n.Lowered, n.TableMM, &n.Table, n.Caution)}
	switch here := a.overlapWords(x, y); {
	case n.Joined:
		f.Sub += " They are declared joined, and are not checked against each other whatever stands here."
	case here != "":
		f.Sub += " They " + here + "."
	}
	if f.Warn == "" {
		f.Caution = n.Caution
	}
	if i := a.partIndex(a.needFrom); i >= 0 {
		f.Back = a.doc.Parts[i].Name
	}
	f.Fields = a.needFields(&n)
	return f
}

func (a *App) needFields(n *fitment.PairNeed) []FormField {
	list := []FormField{unsigned(a.lengthField(needMM, "", "Needs", "From surface to surface, in the worst state of the travel. Empty: the table’s figure.", n.MM))}
	if n.ShieldMM > 0 || n.Set != nil && n.Set.Shielded {
		help := "The table asks no less with one between these two."
		if n.ShieldMM > 0 {
			help = "With one the table asks " + a.measured(n.ShieldMM) + " instead of " + a.measured(n.Table.MM) + ". It has to be there, and stay there."
		}
		list = append(list, flagField(needShield, "", "A heat shield stands between them", help, n.Set != nil && n.Set.Shielded))
	}
	if n.Set == nil {
		return list
	}
	return append(list, textField(needWhy, "", "Why", "Who said so, what was measured: it is kept with the figure.", n.Set.Why),
		FormField{Field: "drop", Label: "Back to the table’s " + a.measured(n.Table.MM), Type: "action",
			Action: &Command{Do: "edit", Target: a.form, Field: needMM}})
}

// lessWords says plainly that a figure is less than the table asks, and what may
// come of it; empty when it is not.
func (a *App) lessWords(lowered bool, asked float64, t *fitment.Asked, caution string) string {
	if !lowered || caution == "" && !t.Law {
		return ""
	}
	says := "Less than the " + a.measured(asked) + " of the table"
	if t.Law {
		says += ", which is a regulation’s (" + t.Standing + ")"
	}
	says += "."
	if caution != "" {
		says += " " + caution
	}
	return says + " Local codes and licensed practice decide, not this figure."
}

// setPairNeed changes a field of what two parts must keep.
func (a *App) setPairNeed(form, field, text string) (*scene.Document, string, error) {
	x, y, ok := a.needPair(form)
	if !ok {
		return nil, "", errors.New("one of the two parts is no longer there")
	}
	n, err := a.model.Need(x, y)
	if err != nil {
		return nil, "", err
	}
	own := scene.Need{Parts: [2]string{x, y}}
	if n.Set != nil {
		own = *n.Set
	}
	switch field {
	case needMM:
		if strings.TrimSpace(text) == "" {
			return scene.DropNeed(a.doc, own)
		}
		if own.NeedMM, err = scene.ParseLength(text, a.doc.Show); err != nil {
			return nil, "", err
		}
		if asked := shieldedAsk(&n); own.Shielded && own.NeedMM < asked {
			return nil, "", fmt.Errorf("with the shield the table asks %s: untick the shield to set less than that", a.measured(asked))
		}
	case needShield:
		return a.setShield(own, &n, text == strconv.FormatBool(true))
	case needWhy:
		if n.Set == nil {
			return nil, "", errors.New("the table’s figure needs no reason of yours: type a figure first")
		}
		own.Why = text
	default:
		return nil, "", fmt.Errorf("a need has no field %q", field)
	}
	return scene.SetNeed(a.doc, own)
}

// shieldedAsk is what the table asks of a pair with a shield between.
func shieldedAsk(n *fitment.PairNeed) float64 {
	if n.ShieldMM > 0 {
		return n.ShieldMM
	}
	return n.Table.MM
}

// setShield states a shield between two parts, or takes it back. A figure that
// is less than what the shield allows gives way to it.
func (a *App) setShield(own scene.Need, n *fitment.PairNeed, on bool) (*scene.Document, string, error) {
	own.Shielded = on
	if on && own.NeedMM <= shieldedAsk(n) {
		own.NeedMM = 0
	}
	if !on && own.NeedMM == 0 {
		return scene.DropNeed(a.doc, own)
	}
	return scene.SetNeed(a.doc, own)
}

// openNeed opens the form of what two parts must keep. It leads back to the part
// whose form was open.
func (a *App) openNeed(form string) error {
	if _, _, ok := a.needPair(form); !ok {
		return errors.New("one of the two parts is no longer there")
	}
	a.needFrom = a.selected
	a.focus, a.form = "", form
	a.endPicking()
	a.selectPart("")
	return nil
}

// leaveNeed goes back to the part that a need's form was opened from, if there is
// one.
func (a *App) leaveNeed() bool {
	from := a.needFrom
	a.needFrom = ""
	back := strings.HasPrefix(a.form, needForm) && a.partIndex(from) >= 0
	if back {
		a.selectPart(from)
	}
	return back
}

// whyNeeded is where the need of a finding comes from.
func (a *App) whyNeeded(w *fitment.Words, f *fitment.Finding) string {
	n, err := a.checked.Need(f.A, f.B)
	if f.Service != "" || err != nil {
		return upper(f.NeedSource)
	}
	return minus(w.Need(&n))
}
