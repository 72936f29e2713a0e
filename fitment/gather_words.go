package fitment

import (
	"fmt"
	"strings"

	"scrubline/scene"
)

// Sentence says a finding in one sentence, in its two halves with a colon
// between: what is in conflict and when; how much, where it is worst, and
// what is needed. spans may be empty where they are not known; then the first
// half does not say when.
func (w *Words) Sentence(f *Finding, spans Spans) (what, figures string) {
	if f.Service != "" {
		what = fmt.Sprintf("No room for %s (%s)%s", f.For, PlainName(w.names[f.A]), w.when(f, spans))
		return what, fmt.Sprintf("%s reaches %s into its room %s", The(w.names[f.B]), w.Length(-f.GapMM), w.worst(f))
	}
	how := "are too close"
	if f.Status == Contact {
		how = "touch"
	}
	what = fmt.Sprintf("%s and %s %s%s", upperFirst(The(w.names[f.A])), The(w.names[f.B]), how, w.when(f, spans))
	return what, fmt.Sprintf("%s %s, needs %s", w.Amount(f), w.worst(f), w.Length(f.NeedMM))
}

// GroupText says a group in one sentence: that of its worst finding.
func (w *Words) GroupText(r *Report, g Group, spans Spans) string {
	what, figures := w.Sentence(&r.Findings[g.Findings[0]], spans)
	return what + ": " + figures
}

// GroupMore says what else is in a group; empty when nothing is.
func (w *Words) GroupMore(r *Report, g Group) string {
	if len(g.Findings) < 2 {
		return ""
	}
	first := &r.Findings[g.Findings[0]]
	var list []string
	for _, i := range g.Findings[1:] {
		f := &r.Findings[i]
		list = append(list, w.beside(first, f)+", "+w.Amount(f))
	}
	return fmt.Sprintf("and %d more like it: %s", len(list), strings.Join(list, "; "))
}

// beside names a finding next to the one its group is called by.
func (w *Words) beside(first, f *Finding) string {
	switch {
	case f.Service != "":
		return f.For + " (" + PlainName(w.names[f.A]) + ")"
	case ordered(f.A, f.B) != ordered(first.A, first.B) && (f.A == first.A || f.A == first.B):
		return The(w.names[f.B])
	case ordered(f.A, f.B) != ordered(first.A, first.B) && (f.B == first.A || f.B == first.B):
		return The(w.names[f.A])
	}
	return The(w.names[f.A]) + " and " + The(w.names[f.B])
}

// Amount is by how much two parts are apart, or into each other.
func (w *Words) Amount(f *Finding) string {
	switch {
	case f.Service != "":
		return w.Length(-f.GapMM) + " into its room"
	case f.GapMM < 0 && f.Status == Contact:
		return w.Length(-f.GapMM) + " deep"
	}
	return w.Length(f.GapMM) + " apart"
}

// when says at which heights a pair touches, or is too close if it does not
// touch; with a space before it, or empty where nothing is known or the figures
// say it.
func (w *Words) when(f *Finding, s Spans) string {
	level, any := s.LevelShort, s.Short
	if f.Status == Contact {
		level, any = s.LevelTouch, s.Touch
	}
	switch {
	case f.Still || len(any) == 0:
		return ""
	case len(level) == 0:
		return " only when " + strings.Join(w.causes(f), " or ")
	}
	low, high := w.end(false), w.end(true)
	s0 := level[0]
	switch {
	case len(level) > 1 || s0.From == low && s0.To == high:
	case s0.From == low && s0.To.FrontMM+s0.To.RearMM < 0:
		return " as the body airs out"
	case s0.To == high && s0.From.FrontMM+s0.From.RearMM > 0:
		return " as the body airs up"
	}
	if low.RearMM == high.RearMM || low == level[0].From && high == level[0].To {
		return " " + w.heights(level)
	}
	return " with the rear " + w.rears(level)
}

// rears says heights by the rear's alone; the front goes with it.
func (w *Words) rears(level []Span) string {
	low, high := w.end(false), w.end(true)
	var list []string
	for _, s := range level {
		from, to := w.signed(s.From.RearMM), w.signed(s.To.RearMM)
		switch {
		case s.From == low:
			list = append(list, "from "+to+" down")
		case s.To == high:
			list = append(list, "from "+from+" up")
		default:
			list = append(list, "from "+from+" to "+to)
		}
	}
	return strings.Join(list, " and ")
}

// causes are what a pair that is well with everything at rest may be brought
// together by: the movements of the two, and roll and steer where they can.
func (w *Words) causes(f *Finding) []string {
	var list []string
	lean := f.At.FL != f.At.FR || f.At.RL != f.At.RR
	steer := f.At.Steer != 0
	for _, id := range [2]string{f.A, f.B} {
		p := w.part(id)
		if p == nil {
			continue
		}
		if done := w.doneWith(p); done != "" {
			list = append(list, The(w.names[id])+" is "+done)
		}
		lean = lean || p.Carrier != scene.Body
		steer = steer || p.Carrier == scene.WheelFL || p.Carrier == scene.WheelFR
	}
	if lean || len(list) == 0 && !steer {
		list = append(list, "the body leans")
	}
	if steer {
		list = append(list, "the wheels are steered")
	}
	return list
}

// doneWith says what a part's movements do with it.
func (w *Words) doneWith(p *scene.Part) string {
	var words []string
	for i := range w.doc.Movements {
		m := &w.doc.Movements[i]
		word := movedWord(m)
		if carries(p, m.ID) && (len(words) == 0 || words[len(words)-1] != word) {
			words = append(words, word)
		}
	}
	return strings.Join(words, " or ")
}

func movedWord(m *scene.Movement) string {
	if m.Kind == scene.Slide {
		return "slid"
	}
	return "swung"
}

func carries(p *scene.Part, movement string) bool {
	for _, id := range p.Moves {
		if id == movement {
			return true
		}
	}
	return false
}

func (w *Words) part(id string) *scene.Part {
	for i := range w.doc.Parts {
		if w.doc.Parts[i].ID == id {
			return &w.doc.Parts[i]
		}
	}
	return nil
}

// worst says where a pair is worst, for people.
func (w *Words) worst(f *Finding) string {
	if f.Still {
		return "at every height"
	}
	parts := []string{w.over(f.At)}
	parts = append(parts, w.leaning("front", f.At.FL, f.At.FR)...)
	parts = append(parts, w.leaning("rear", f.At.RL, f.At.RR)...)
	if f.At.Steer != 0 {
		parts = append(parts, fmt.Sprintf("steered %g° to the %s", abs(f.At.Steer), side(f.At.Steer)))
	}
	for i := range w.doc.Movements {
		if at := f.At.Moves[i]; at != 0 {
			parts = append(parts, w.movedBy(f, &w.doc.Movements[i], at))
		}
	}
	return strings.Join(parts, ", ")
}

// movedBy says how far a movement has gone, by the part of the pair it carries.
func (w *Words) movedBy(f *Finding, m *scene.Movement, at float64) string {
	for _, id := range [2]string{f.A, f.B} {
		if p := w.part(id); p != nil && carries(p, m.ID) {
			return fmt.Sprintf("%s %s %s", PlainName(w.names[id]), movedWord(m), w.moved(m, at))
		}
	}
	return lowerFirst(m.Name) + " " + w.moved(m, at)
}

// over says where the body stands over or below ride. An end at ride that does
// not matter is not named.
func (w *Words) over(s State) string {
	front, rear := (s.FL+s.FR)/2, (s.RL+s.RR)/2
	for _, h := range w.doc.Heights {
		if h.FrontMM != front || h.RearMM != rear {
			continue
		}
		if h.ID == scene.AiredOut || h.ID == scene.AiredUp {
			return lowerFirst(h.Name)
		}
		return "at " + lowerFirst(h.Name)
	}
	switch {
	case front == rear:
		return "at " + w.fromRide(front)
	case front == 0:
		return "with the rear " + w.fromRide(rear)
	case rear == 0:
		return "with the front " + w.fromRide(front)
	}
	return "with the front " + w.fromRide(front) + " and the rear " + w.fromRide(rear)
}

func (w *Words) fromRide(mm float64) string {
	switch {
	case mm < 0:
		return w.Length(-mm) + " below ride"
	case mm > 0:
		return w.Length(mm) + " above ride"
	}
	return "ride"
}

// The is a part's name inside a sentence, with its article.
func The(name string) string {
	plain := PlainName(name)
	first, _, _ := strings.Cut(plain, " ")
	switch strings.ToLower(first) {
	case "the", "a", "an", "my", "our":
		return plain
	}
	last := plain[max(len(plain)-1, 0):]
	if strings.ContainsAny(first, "'’") || strings.Trim(last, "0123456789") == "" {
		return plain
	}
	return "the " + plain
}

// placeWords are what a name may end in after a comma, to say which of several.
var placeWords = map[string]bool{"left": true, "right": true, "front": true, "rear": true, "middle": true,
	"upper": true, "lower": true, "inner": true, "outer": true}

// PlainName is a part's name inside a sentence: "Seat riser, front left" is the front
// left seat riser.
func PlainName(name string) string {
	name = strings.TrimSpace(name)
	at := strings.LastIndex(name, ", ")
	if at < 1 {
		return lowerFirst(name)
	}
	for _, word := range strings.Fields(name[at+2:]) {
		if !placeWords[word] {
			return lowerFirst(name)
		}
	}
	return name[at+2:] + " " + lowerFirst(name[:at])
}
