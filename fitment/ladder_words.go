package fitment

import (
	"fmt"
	"strings"

	"scrubline/scene"
)

// RungTitle says in one line what happens at a rung.
func (w *Words) RungTitle(r *Rung) string {
	switch r.Kind {
	case RungContact:
		return w.Title(r.Finding)
	case RungTight:
		if f := r.Finding; f.Service == "" {
			return fmt.Sprintf("%s closer than %s to %s", w.Begin(f.A), w.Length(f.NeedMM), w.Plain(f.B))
		}
		return w.Title(r.Finding)
	case RungLimit:
		return w.LimitTitle(r.Limit)
	case RungLock:
		return upperFirst(r.End) + " suspension goes no further"
	case RungRimLine:
		return w.Begin(r.Parts[0]) + " passes below the rim line"
	case RungGround:
		return w.Begin(r.Parts[0]) + " meets the ground"
	}
	return "End of the travel: " + w.endOf(r)
}

// endOf says what ends the travel.
func (w *Words) endOf(r *Rung) string {
	if len(r.Locked) > 0 {
		return fmt.Sprintf("the %s suspension locks", strings.Join(r.Locked, " and the "))
	}
	if r.Height == "" {
		return "the document's heights end here"
	}
	return lowerFirst(w.Height(r.Height))
}

// RungNote says what is special about a rung's height; empty for nothing.
func (w *Words) RungNote(r *Rung, ask LadderAsk) string {
	var say []string
	switch {
	case r.Still:
		say = append(say, "the same at every height")
	case r.AtRide && r.Began != nil:
		say = append(say, "holds at ride, from "+w.LadderLevel(*r.Began, ask)+" on")
	case r.AtRide:
		say = append(say, "holds at ride, all the way from "+w.otherEnd(ask))
	}
	switch {
	case r.LevelAt == nil && r.Kind == RungLock:
		say = append(say, "only when leaning or steered")
	case r.LevelAt == nil:
		say = append(say, "only when leaning, steered or moved")
	case *r.LevelAt != r.At:
		say = append(say, "level from "+w.LadderLevel(*r.LevelAt, ask))
	}
	return strings.Join(say, "; ")
}

// otherEnd is the end of the travel behind a ladder.
func (w *Words) otherEnd(ask LadderAsk) string {
	id := scene.AiredUp
	if ask.Up {
		id = scene.AiredOut
	}
	return lowerFirst(w.Height(id))
}

// RungFurther says how much further the body goes without a rung's cause.
func (w *Words) RungFurther(r *Rung, ask LadderAsk) string {
	if r.Kind == RungEnd {
		return ""
	}
	if r.Still {
		return "does not depend on the height"
	}
	how := "lower"
	if ask.Up {
		how = "higher"
	}
	f, k := w.Length(r.Further.FrontMM), w.Length(r.Further.RearMM)
	switch {
	case ask.Ends == FrontOnly:
		return f + " " + how
	case ask.Ends == RearOnly || f == k:
		return k + " " + how
	}
	return fmt.Sprintf("front %s, rear %s %s", f, k, how)
}

// LadderLevel is a body height on the way of a ladder, for people.
func (w *Words) LadderLevel(l Level, ask LadderAsk) string {
	switch ask.Ends {
	case FrontOnly:
		return w.height(l.FrontMM)
	case RearOnly:
		return w.height(l.RearMM)
	}
	if f, r := w.height(l.FrontMM), w.height(l.RearMM); f != r {
		return f + " front, " + r + " rear"
	}
	return w.height(l.RearMM)
}

// height is one end's height over ride.
func (w *Words) height(mm float64) string {
	if w.Length(mm) == "0" || w.Length(mm) == "-0" {
		return "ride"
	}
	return w.signed(mm)
}

// GoesToWords says how far the body goes and what stops it.
func (l *Ladder) GoesToWords(w *Words) string {
	r := &l.Rungs[l.Stop]
	verb := "Goes down to "
	if l.Ask.Up {
		verb = "Goes up to "
	}
	at := w.LadderLevel(r.At, l.Ask)
	if r.AtRide {
		verb, at = "Already at ", "ride"
	}
	if r.Kind == RungEnd {
		return verb + at + ", the end of the travel: " + w.endOf(r)
	}
	return verb + at + ": " + lowerFirst(w.RungTitle(r))
}

// MeetsWords says where something first touches or runs out that did not at
// ride; empty where GoesToWords has said so.
func (l *Ladder) MeetsWords(w *Words) string {
	r := &l.Rungs[l.Meets]
	if l.Meets == l.Stop {
		return ""
	}
	if r.Kind == RungEnd {
		return "Nothing more touches or runs out up to the end of the travel: " + w.endOf(r)
	}
	return "Nothing more touches or runs out before " + w.LadderLevel(r.At, l.Ask) + ": " + lowerFirst(w.RungTitle(r))
}

func upperFirst(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
