package fitment

import (
	"fmt"
	"strings"

	"scrubline/scene"
)

// Words puts answers into plain sentences, in the document's shown unit. The
// screen and the command line print the same ones.
type Words struct {
	doc   *scene.Document
	names map[string]string
}

// NewWords makes the wording for one document.
func NewWords(doc *scene.Document) *Words {
	w := &Words{doc: doc, names: make(map[string]string, len(doc.Parts))}
	for i := range doc.Parts {
		p := &doc.Parts[i]
		w.names[p.ID] = p.Name
		if p.Name == "" {
			w.names[p.ID] = p.ID
		}
	}
	return w
}

// Length is a length in the shown unit, without the unit's name.
func (w *Words) Length(mm float64) string { return scene.FormatLength(mm, w.doc.Show) }

// Units says in which unit the lengths below a heading are.
func (w *Words) Units() string {
	if w.doc.Show == scene.Inches {
		return "lengths in inches"
	}
	return "lengths in mm"
}

// Height is the name of a named height, from its id.
func (w *Words) Height(id string) string {
	for _, h := range w.doc.Heights {
		if h.ID == id {
			return h.Name
		}
	}
	return id
}

// Name is a part's name.
func (w *Words) Name(id string) string { return w.names[id] }

// Plain is a part's name inside a sentence, where a comma within it would read as
// one of the sentence's own: "Frame rail, left" is the left frame rail.
func (w *Words) Plain(id string) string { return PlainName(w.names[id]) }

// Begin is the same where a sentence or a line begins with it.
func (w *Words) Begin(id string) string { return BeginName(w.names[id]) }

// BeginName is [PlainName] at the beginning of a line. A name that needs no other
// order stays as it was typed.
func BeginName(name string) string {
	if plain := PlainName(name); plain != lowerFirst(strings.TrimSpace(name)) {
		return upperFirst(plain)
	}
	return name
}

// Pair names two parts in one line.
func (w *Words) Pair(a, b string) string { return w.Begin(a) + " and " + w.Plain(b) }

// Title says in one line what is in conflict.
func (w *Words) Title(f *Finding) string {
	a, b := w.Begin(f.A), w.Plain(f.B)
	switch {
	case f.Service != "":
		return fmt.Sprintf("%s in the way of %s (%s)", upperFirst(b), f.For, w.Plain(f.A))
	case f.Status == Contact:
		return fmt.Sprintf("%s and %s touch", a, b)
	}
	return fmt.Sprintf("%s close to %s", a, b)
}

// Figures says by how much, where and what is needed.
func (w *Words) Figures(f *Finding) string {
	at := w.State(f.At)
	if f.Still {
		at = "at every height"
	}
	switch {
	case f.Service != "":
		return fmt.Sprintf("reaches %s into its room %s", w.Length(-f.GapMM), at)
	case f.GapMM < 0 && f.Status == Contact:
		return fmt.Sprintf("%s deep %s, needs %s", w.Length(-f.GapMM), at, w.Length(f.NeedMM))
	}
	return fmt.Sprintf("%s apart %s, needs %s", w.Length(f.GapMM), at, w.Length(f.NeedMM))
}

// Spans says over which body heights a pair falls short, and where it touches;
// empty when it is the same at every height.
func (w *Words) Spans(f *Finding, s Spans) string {
	if f.Still || len(s.Short) == 0 {
		return ""
	}
	short, touch := "", ""
	if short = w.both(s.LevelShort, s.Short); len(s.Touch) > 0 {
		touch = w.both(s.LevelTouch, s.Touch)
	}
	switch touch {
	case "":
		return "too close " + short
	case short: // what touches is too close: said once
		return "touching " + touch
	}
	return "too close " + short + "; touching " + touch
}

// both says the heights at rest, and what roll, steer or a movement adds.
func (w *Words) both(level, any []Span) string {
	all := w.heights(any)
	switch rest := w.heights(level); {
	case len(level) == 0:
		return all + ", only when leaning, steered or moved"
	case rest != all:
		return rest + ", leaning, steered or moved " + all
	}
	return all
}

// heights puts ranges of body height into words, by the rear's height: "from
// aired out to −66".
func (w *Words) heights(spans []Span) string {
	var parts []string
	for _, s := range spans {
		low, high := w.level(s.From), w.level(s.To)
		switch {
		case s.From == w.end(false) && s.To == w.end(true):
			parts = append(parts, "at every height")
		case s.From == w.end(false):
			parts = append(parts, "from "+high+" down")
		case s.To == w.end(true):
			parts = append(parts, "from "+low+" up")
		default:
			parts = append(parts, "from "+low+" to "+high)
		}
	}
	return strings.Join(parts, " and ")
}

// end is the lowest or highest of the document's heights.
func (w *Words) end(top bool) (out Level) {
	for i, h := range w.doc.Heights {
		if sum := h.FrontMM + h.RearMM; i == 0 || top == (sum > out.FrontMM+out.RearMM) {
			out = Level{h.FrontMM, h.RearMM}
		}
	}
	return out
}

// level is a body height for people: both ends where they differ.
func (w *Words) level(l Level) string {
	if l.FrontMM == l.RearMM {
		return w.signed(l.RearMM)
	}
	return fmt.Sprintf("%s front, %s rear", w.signed(l.FrontMM), w.signed(l.RearMM))
}

// State says where the body stands, for people: the name of the height when it
// is one, else both ends over ride.
func (w *Words) State(s State) string {
	front, rear := (s.FL+s.FR)/2, (s.RL+s.RR)/2
	where := fmt.Sprintf("at front %s, rear %s", w.signed(front), w.signed(rear))
	if front == rear {
		where = "at " + w.signed(front)
	}
	for _, h := range w.doc.Heights {
		if h.FrontMM == front && h.RearMM == rear {
			where = "at " + lowerFirst(h.Name)
			if h.ID == scene.AiredOut || h.ID == scene.AiredUp {
				where = lowerFirst(h.Name)
			}
			break // one of the user's own at the same place is named after the standing ones
		}
	}
	var more []string
	more = append(more, w.leaning("front", s.FL, s.FR)...)
	more = append(more, w.leaning("rear", s.RL, s.RR)...)
	if s.Steer != 0 {
		more = append(more, fmt.Sprintf("steered %g° %s", abs(s.Steer), side(s.Steer)))
	}
	for i, m := range w.doc.Movements {
		if at := s.Moves[i]; at != 0 {
			more = append(more, lowerFirst(m.Name)+" "+w.moved(&m, at))
		}
	}
	return strings.Join(append([]string{where}, more...), ", ")
}

// leaning says to which side an end leans, and by how much one side stands lower
// than the other; nothing for level.
func (w *Words) leaning(end string, left, right float64) []string {
	if left == right {
		return nil
	}
	return []string{fmt.Sprintf("%s leaning %s to the %s", end, w.Length(abs(left-right)), side(left-right))}
}

// moved is how far a movement has gone.
func (w *Words) moved(m *scene.Movement, by float64) string {
	if m.Kind == scene.Slide {
		return w.signed(by)
	}
	return fmt.Sprintf("%.4g°", by)
}

func (w *Words) signed(mm float64) string {
	text := w.Length(mm)
	if mm > 0 {
		return "+" + text
	}
	return strings.Replace(text, "-", "−", 1)
}

func side(deg float64) string {
	if deg > 0 {
		return "right"
	}
	return "left"
}

func abs(v float64) float64 { return max(v, -v) }

// lowerFirst makes a name fit inside a sentence; words in capitals stay.
func lowerFirst(s string) string {
	if len(s) > 1 && s[0] >= 'A' && s[0] <= 'Z' && s[1] >= 'a' && s[1] <= 'z' {
		return strings.ToLower(s[:1]) + s[1:]
	}
	return s
}

// BelowTitle says that a part hangs below the rim line, or reaches the ground.
func (w *Words) BelowTitle(h *Hanging) string {
	if h.GroundMM <= 0 {
		return w.Begin(h.Part) + " reaches the ground"
	}
	return w.Begin(h.Part) + " below the rim line"
}

// BelowFigures says by how much, and at which height.
func (w *Words) BelowFigures(c *Clearance, h *Hanging) string {
	return fmt.Sprintf("%s %s, the rim line is at %s", w.Over(h.GroundMM), w.State(c.At), w.Length(c.RimLineMM))
}

// Over is a height over the ground, or the depth in it.
func (w *Words) Over(mm float64) string {
	if mm < 0 {
		return w.Length(-mm) + " into the ground"
	}
	return w.Length(mm) + " over the ground"
}

// Lowest says what hangs lowest at a height.
func (w *Words) Lowest(c *Clearance) string {
	if c.Part == "" {
		return "nothing hangs down"
	}
	return fmt.Sprintf("%s %s: %s", w.Length(c.GroundMM), w.State(c.At), w.Plain(c.Part))
}

// Lowered says how a pair is looked at less strictly than the table would.
func (w *Words) Lowered(l *Lowered) string {
	if l.Joined {
		return fmt.Sprintf("%s are declared joined; the table would ask %s between them",
			w.Pair(l.A, l.B), w.Length(l.TableMM))
	}
	if l.Shielded {
		return fmt.Sprintf("%s need %s with the heat shield that is stated between them, %s without",
			w.Pair(l.A, l.B), w.Length(l.NeedMM), w.Length(l.TableMM))
	}
	return fmt.Sprintf("%s need %s by your own figure, %s by the table",
		w.Pair(l.A, l.B), w.Length(l.NeedMM), w.Length(l.TableMM))
}

// SuspensionWords is what is to be known of an end's suspension.
func SuspensionWords(r *SuspensionReport) string {
	say := r.Why
	if r.Approximate {
		if say != "" {
			say += "; "
		}
		say += "an approximation: bars stand for its leaves"
	}
	for _, more := range [2]string{r.uncheckedWords(), r.strayWords()} {
		if say != "" && more != "" {
			say += "; "
		}
		say += more
	}
	return say
}

// uncheckedWords says which of its bars nothing is checked against.
func (r *SuspensionReport) uncheckedWords() string {
	if len(r.Unchecked) == 0 {
		return ""
	}
	return "nothing is checked against " + strings.ToLower(strings.Join(r.Unchecked, ", "))
}

// strayWords says which parts stand for no bar.
func (r *SuspensionReport) strayWords() string {
	if len(r.Stray) == 0 {
		return ""
	}
	return "it has no such bar for " + strings.Join(r.Stray, ", ") + ": nothing stands there"
}

// RimLineSource is where the rim line comes from.
const RimLineSource = "nothing but wheels below the lowest rim (California Vehicle Code 24008; local codes decide)"

// Headline counts what falls short.
func Headline(s *Summary) string {
	var parts []string
	add := func(n int, text string) {
		if n > 0 {
			parts = append(parts, fmt.Sprintf(text, n))
		}
	}
	add(s.Contact, "%d touch")
	add(s.Tight, "%d tight")
	add(s.Limits, "%d spring or shaft past its limit")
	add(s.Locked, "%d suspension that locks")
	add(s.RimLine, "%d below the rim line")
	add(s.Undecided, "%d undecided")
	if len(parts) == 0 {
		return "Nothing falls short"
	}
	return strings.Join(parts, ", ")
}
