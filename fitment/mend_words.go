package fitment

import (
	"fmt"
	"math"
	"strings"

	"scrubline/scene"
)

// ways are the words for a move along each body axis, forward and back.
var ways = [3][2]string{{"to the rear", "to the front"}, {"to the right", "to the left"}, {"up", "down"}}

// turnWays are the words for a turn about each body axis, right-handed and back.
var turnWays = [3][2]string{
	{"its right side up", "its left side up"},
	{"its top to the rear", "its top to the front"},
	{"its rear to the right", "its rear to the left"},
}

// MendMove is a move in words: "31 to the right and 15 up". Where a tape's marks
// will do, those are said.
func (w *Words) MendMove(mv *MendMove) string {
	by, deg := mv.ByMM, mv.TurnDeg
	if mv.Tape != nil {
		by, deg = mv.Tape.ByMM, mv.Tape.TurnDeg
	}
	if deg != 0 {
		side := 0
		if deg < 0 {
			side = 1
		}
		return fmt.Sprintf("turned by %.4g°, %s", math.Abs(deg), turnWays[mv.Axis][side])
	}
	return w.Way(by)
}

// Way is a move along the body axes in words.
func (w *Words) Way(by scene.Vec) string {
	var parts []string
	for k, mm := range by {
		if math.Abs(mm) < roundMM/2 {
			continue
		}
		side := 0
		if mm < 0 {
			side = 1
		}
		parts = append(parts, w.exact(math.Abs(mm))+" "+ways[k][side])
	}
	switch n := len(parts); {
	case n == 0:
		return "not at all"
	case n > 2:
		return strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
	default:
		return strings.Join(parts, " and ")
	}
}

// exact is a length that must not be rounded down: on a mark of the tape as
// lengths are written, else in millimetres with its hundredths.
func (w *Words) exact(mm float64) string {
	if n := mm / tapeMark(w.doc.Show); math.Abs(n-math.Round(n)) < 1e-6 {
		return w.Length(mm)
	}
	if w.doc.Show == scene.Inches {
		return fmt.Sprintf("%.2f mm", mm)
	}
	return fmt.Sprintf("%.2f", mm)
}

// MendKeeps says what the part then stands about as near as it may; empty for
// nothing.
func (w *Words) MendKeeps(mv *MendMove) string {
	var parts []string
	for i := range mv.Keeps {
		k := &mv.Keeps[i]
		name := w.Plain(k.Part)
		if k.Room {
			parts = append(parts, "just clear of the room of "+name)
		} else {
			parts = append(parts, w.Length(k.GapMM)+" from "+name)
		}
		if len(parts) == 3 {
			break
		}
	}
	if len(parts) == 0 {
		return ""
	}
	return "then " + strings.Join(parts, ", ")
}

// MendTitle says what can be done with a part, in one sentence.
func (w *Words) MendTitle(m *Mend) string {
	name := w.Begin(m.Part)
	switch {
	case m.Clear:
		return name + " falls short of nothing where it stands"
	case m.Locked:
		return name + " is locked: unlock it to look for a move"
	case len(m.Within) > 0:
		return w.Pair(m.Within[0][0], m.Within[0][1]) + " fall short of each other, and move together: take their group apart to mend it"
	case m.Stays && len(m.Instead) > 0:
		return fmt.Sprintf("%s stays where the vehicle has it: move %s instead", name, w.list(m.Instead))
	case m.Stays:
		return name + " stays where the vehicle has it, and so does what it falls short of"
	case len(m.Moves) == 0:
		text := fmt.Sprintf("No move of %s within %s keeps all its needs", w.Plain(m.Part), w.Length(m.LimitMM))
		if len(m.Blocks) > 0 {
			text += ": in the way are " + w.list(m.Blocks)
		}
		return text
	case m.Moves[0].TurnDeg != 0:
		return name + ": no plain move keeps all its needs, a turn does"
	case !m.Moves[0].Free:
		return fmt.Sprintf("Move %s %s; there may be a smaller way", w.Plain(m.Part), w.MendMove(&m.Moves[0]))
	}
	return fmt.Sprintf("The smallest move of %s that keeps all its needs: %s", w.Plain(m.Part), w.MendMove(&m.Moves[0]))
}

// MendFollows says what a move asks besides: the group goes along, a joint that
// comes apart has to be made anew, what else is joined has to be seen to. Empty for
// nothing.
func (w *Words) MendFollows(m *Mend, mv *MendMove) string {
	var parts []string
	gone := map[string]bool{}
	var away, rest []string
	for i, p := range mv.Parts {
		gone[p.Part] = true
		if i < 3 {
			away = append(away, fmt.Sprintf("%s (%s apart)", w.Plain(p.Part), w.Length(p.GapMM)))
		}
	}
	if n := len(mv.Parts) - len(away); n > 0 {
		away = append(away, fmt.Sprintf("%d more", n))
	}
	for _, id := range m.Joined {
		if !gone[id] {
			rest = append(rest, id)
		}
	}
	if len(m.With) > 0 {
		verb := " go with it"
		if len(m.With) == 1 {
			verb = " goes with it"
		}
		parts = append(parts, w.list(m.With)+verb)
	}
	if len(away) > 0 {
		parts = append(parts, "it comes away from "+inARow(away)+", which it is joined with: make that anew")
	}
	if len(rest) > 0 {
		parts = append(parts, "still joined with "+w.list(rest)+": see that they follow")
	}
	return upperFirst(strings.Join(parts, "; "))
}

// list names parts, at most four of them.
func (w *Words) list(ids []string) string {
	var names []string
	for i, id := range ids {
		if i == 4 {
			names = append(names, fmt.Sprintf("%d more", len(ids)-4))
			break
		}
		names = append(names, w.Plain(id))
	}
	return inARow(names)
}

// inARow writes "a, b and c"; "a; b, the second; and c" where a name has a comma.
func inARow(names []string) string {
	if n := len(names); n > 1 && strings.Contains(strings.Join(names, ""), ",") {
		return strings.Join(names[:n-1], "; ") + "; and " + names[n-1]
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return strings.Join(names, "")
}
