package scene

import (
	"fmt"
	"math"
	"unicode"
	"unicode/utf8"
)

// Limits on what a vehicle and a document may say (mm, degrees).
const (
	farMM      = 20000 // a part's position, either way along each axis
	moveMM     = 1000  // a height's move from ride, either way
	maxHeights = 20
	maxPairs   = 20000 // needs, and joined pairs
	nameRunes  = 200
	noteRunes  = 20000
)

// Validate checks a document built in memory as Decode checks a file. The
// error is a *[PlaceError].
func (doc *Document) Validate() error {
	c := &checker{doc: doc, index: make(map[string]int, len(doc.Parts))}
	c.head()
	c.end("/vehicle/front", &doc.Vehicle.Front)
	c.end("/vehicle/rear", &doc.Vehicle.Rear)
	c.rake()
	if s := doc.Vehicle.Rear.SteerDeg; s != 0 {
		c.fail("/vehicle/rear/steer_deg", "0: only the front wheels steer", number(s))
	}
	c.suspension("/vehicle/front", &doc.Vehicle.Front)
	c.suspension("/vehicle/rear", &doc.Vehicle.Rear)
	c.heights()
	c.parts()
	c.movements()
	c.groups()
	c.measured()
	c.needs()
	c.joints()
	c.photos()
	c.unmeasured()
	c.tapes()
	c.checks()
	c.shelf()
	c.variants()
	if c.err != nil {
		return c.err
	}
	return nil
}

// checker collects the first fault of a document.
type checker struct {
	doc   *Document
	index map[string]int // part by id
	err   *PlaceError
}

func (c *checker) fail(place, expected, got string) {
	if c.err == nil {
		c.err = &PlaceError{Place: place, Expected: expected, Got: got}
	}
}

// num checks a range; what is no number is in none.
func (c *checker) num(place string, v, least, most float64) {
	if !(v >= least && v <= most) && c.err == nil {
		c.fail(place, span(least, most), number(v))
		c.err.inRange, c.err.least, c.err.most = true, least, most
	}
}

// line checks text that stands on one line; note text that may have several.
func (c *checker) line(place, text string) { c.text(place, text, nameRunes, false) }
func (c *checker) note(place, text string) { c.text(place, text, noteRunes, true) }

func (c *checker) text(place, text string, most int, lines bool) {
	if !utf8.ValidString(text) {
		c.fail(place, "text in UTF-8", "bytes that are none")
	}
	if n := utf8.RuneCountInString(text); n > most {
		c.fail(place, fmt.Sprintf("at most %d characters", most), fmt.Sprintf("%d", n))
	}
	for _, r := range text {
		if unicode.IsControl(r) && !(lines && (r == '\n' || r == '\t' || r == '\r')) {
			c.fail(place, "text without control characters", quote(text))
			return
		}
	}
}

// id checks what things are called inside the file.
func (c *checker) id(place, id string) {
	ok := id != "" && len(id) <= 64
	for _, r := range id {
		ok = ok && (r == '-' || r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z')
	}
	if !ok {
		c.fail(place, "an id of at most 64 letters, digits, - and _", quote(id))
	}
}

func (c *checker) head() {
	d := c.doc
	if d.Format != Format {
		c.fail("/format", quote(Format), quote(d.Format))
	}
	if d.Version != Version {
		c.fail("/version", fmt.Sprintf("version %d", Version), fmt.Sprintf("%d", d.Version))
	}
	c.line("/name", d.Name)
	c.note("/note", d.Note)
	if d.Show != Millimetres && d.Show != Inches {
		c.fail("/show", "mm or in", quote(string(d.Show)))
	}
	c.num("/tolerance_mm", d.ToleranceMM, 0, 100)
	c.num("/vehicle/wheelbase_mm", d.Vehicle.WheelbaseMM, 500, 12000)
}

func (c *checker) end(at string, e *End) {
	c.num(at+"/track_mm", e.TrackMM, 200, 3500)
	t := e.Tyre
	if t.Code != "" {
		if _, err := ParseTyre(t.Code); err != nil {
			c.fail(at+"/tyre/code", "a tyre size such as 225/45R17", quote(t.Code))
		}
	} else {
		c.num(at+"/tyre/diameter_mm", t.DiameterMM, 100, 2000)
		c.num(at+"/tyre/width_mm", t.WidthMM, 20, 800)
		c.num(at+"/tyre/rim_mm", t.RimMM, 50, 1500)
	}
	if t.Outer() <= t.Rim() {
		c.fail(at+"/tyre/rim_mm", "less than the outer diameter", number(t.Rim()))
	}
	c.num(at+"/tyre/deflection_mm", t.DeflectionMM, 0, max(0, (t.Outer()-t.Rim())/2))
	c.num(at+"/frame_height_mm", e.FrameHeightMM, -500, 2000)
	c.num(at+"/steer_deg", e.SteerDeg, 0, 60)
	c.num(at+"/cross_mm", e.CrossMM, 0, 600)
}

// rake keeps the frame from standing steeper than any vehicle does, where what
// is measured square to the ground and square to the frame would part.
func (c *checker) rake() {
	v := &c.doc.Vehicle
	front, rear, most := v.Front.FrameHeightMM, v.Rear.FrameHeightMM, v.WheelbaseMM/5
	if d := rear - front; max(d, -d) > most {
		c.fail("/vehicle/rear/frame_height_mm", "within a fifth of the wheelbase of the front's, "+number(front), number(rear))
	}
}

func (c *checker) heights() {
	seen := map[string]bool{}
	for i, h := range c.doc.Heights {
		at := below("/heights", i)
		c.id(at+"/id", h.ID)
		if seen[h.ID] {
			c.fail(at+"/id", "an id of its own", "a second "+quote(h.ID))
		}
		seen[h.ID] = true
		c.line(at+"/name", h.Name)
		low, high := -float64(moveMM), float64(moveMM)
		switch h.ID {
		case Ride:
			low, high = 0, 0
		case AiredOut:
			high = 0
		case AiredUp:
			low = 0
		}
		c.move(at+"/front_mm", h.FrontMM, low, high)
		c.move(at+"/rear_mm", h.RearMM, low, high)
	}
	if n := len(c.doc.Heights); n > maxHeights {
		c.fail("/heights", fmt.Sprintf("at most %d heights", maxHeights), fmt.Sprintf("%d", n))
	}
	for _, id := range []string{AiredOut, Ride, AiredUp} {
		if !seen[id] {
			c.fail("/heights", "the height "+id, "none of that id")
		}
	}
}

func (c *checker) move(place string, v, low, high float64) {
	if low == high && v != 0 {
		c.fail(place, "0: moves are measured from ride", number(v))
	}
	c.num(place, v, low, high)
}

func (c *checker) needs() {
	if n := len(c.doc.Needs); n > maxPairs {
		c.fail("/needs", fmt.Sprintf("at most %d needs", maxPairs), fmt.Sprintf("%d", n))
		return
	}
	seen := map[[2]string]bool{}
	for i, n := range c.doc.Needs {
		at := below("/needs", i)
		parts, traits := n.Parts != [2]string{}, n.Traits != [2]Trait{}
		if parts == traits {
			c.fail(at, "either parts or traits", "both or neither")
			return
		}
		if parts {
			c.pair(at+"/parts/0", at+"/parts/1", n.Parts[0], n.Parts[1], seen)
		} else {
			c.traitPair(at, n, seen)
		}
		c.num(at+"/need_mm", n.NeedMM, 0, 2000)
		c.line(at+"/why", n.Why)
	}
}

func (c *checker) traitPair(at string, n Need, seen map[[2]string]bool) {
	for k, t := range n.Traits {
		if !contains(AllTraits, t) {
			c.fail(below(at+"/traits", k), "one of "+list(traitWords()), quote(string(t)))
		}
	}
	if n.Shielded {
		c.fail(at+"/shielded", "a shield between two parts, not two traits", "true")
	}
	// A space keeps trait pairs apart from part pairs: no id has one.
	c.once(at+"/traits", " "+string(n.Traits[0]), " "+string(n.Traits[1]), seen)
}

func (c *checker) joints() {
	if n := len(c.doc.Joined); n > maxPairs {
		c.fail("/joined", fmt.Sprintf("at most %d joined pairs", maxPairs), fmt.Sprintf("%d", n))
		return
	}
	seen := map[[2]string]bool{}
	for i, j := range c.doc.Joined {
		at := below("/joined", i)
		c.pair(at+"/a", at+"/b", j.A, j.B, seen)
		c.line(at+"/why", j.Why)
	}
}

// pair checks that two ids name two different parts, not named together before.
func (c *checker) pair(atA, atB, a, b string, seen map[[2]string]bool) {
	if _, ok := c.index[a]; !ok {
		c.fail(atA, "the id of a part", quote(a))
	}
	if _, ok := c.index[b]; !ok {
		c.fail(atB, "the id of a part", quote(b))
	}
	if a == b {
		c.fail(atB, "another part than the first", quote(b))
	}
	c.once(atB, a, b, seen)
}

func (c *checker) once(at, a, b string, seen map[[2]string]bool) {
	if b < a {
		a, b = b, a
	}
	if seen[[2]string{a, b}] {
		c.fail(at, "each pair once", "a pair listed before")
	}
	seen[[2]string{a, b}] = true
}

func traitWords() []string {
	words := make([]string, len(AllTraits))
	for i, t := range AllTraits {
		words[i] = string(t)
	}
	return words
}

// whole tells whether v is a whole number.
func whole(v float64) bool { return v == math.Trunc(v) }
