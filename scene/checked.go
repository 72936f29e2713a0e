package scene

import (
	"fmt"
	"hash/fnv"
	"strings"
)

// Check says that the real vehicle was measured and held against the drawing: a
// tape with what it read, or a part as a whole. The last check of each is kept.
type Check struct {
	Tape, Part string // the id of the one that was checked; exactly one is set
	On         string // the day, as in ISO 8601: 2026-11-25
	// A tape: what it read, how much longer that was than the drawing said then,
	// and how far the body had risen over each axle from ride.
	MeasuredMM, OffMM float64
	FrontMM, RearMM   float64
	// Drawn stands for the part's numbers at that time; see [Numbers].
	Drawn string
}

// farthestMM bounds what a tape reads: corner to corner of all that can be drawn.
const farthestMM = 100000

// Numbers stands for all that says where a part is and how large, in sixteen
// hexadecimal digits: two parts with other numbers have, but for chance, other
// digits. Its name, notes, tolerance and what it is do not count, nor do
// dimensions at their default, so that a kind may get new ones.
func Numbers(p *Part) string {
	sum := fnv.New64a()
	say := func(words ...string) {
		// A hash never refuses what is written to it.
		_, _ = sum.Write([]byte(strings.Join(words, "\x00") + "\n"))
	}
	say(p.Kind, string(p.Carrier), vecRow(p.AtMM), vecRow(p.TurnDeg), strings.Join(p.Moves, " "))
	if k := KindNamed(p.Kind); k != nil {
		was := k.DefaultSize()
		for i := range k.Fields {
			f := &k.Fields[i]
			if v := valueRow(f, p.Size[f.Name]); v != valueRow(f, was[f.Name]) {
				say(f.Name, v)
			}
		}
	}
	return fmt.Sprintf("%016x", sum.Sum64())
}

// valueRow is a dimension on one line.
func valueRow(f *Field, v Value) string {
	switch f.Type {
	case Choice:
		return text(v.Text)
	case Flag:
		return yesNo(v.Flag)
	case Table:
		rows := make([]string, len(v.Rows))
		for i, r := range v.Rows {
			rows[i] = tableRow(f, r)
		}
		return strings.Join(rows, ",")
	}
	return number(v.Num)
}

// CheckOfTape and CheckOfPart are the last check of a tape and of a part, nil
// for none.
func (doc *Document) CheckOfTape(id string) *Check {
	return doc.checkOf(func(k *Check) bool { return k.Tape == id })
}

// CheckOfPart is the last check of a part; see [Document.CheckOfTape].
func (doc *Document) CheckOfPart(id string) *Check {
	return doc.checkOf(func(k *Check) bool { return k.Part == id })
}

func (doc *Document) checkOf(is func(*Check) bool) *Check {
	for i := range doc.Checked {
		if is(&doc.Checked[i]) {
			return &doc.Checked[i]
		}
	}
	return nil
}

// TickTape notes what a tape read at the truck on a day, with the body risen
// front and rear from ride, where the drawing says drawn (all mm).
func TickTape(doc *Document, id, on string, measured, drawn, front, rear float64) (*Document, string, error) {
	t := doc.TapeNamed(id)
	if t == nil {
		return nil, "", fmt.Errorf("there is no tape called %s", quote(id))
	}
	return doc.ticked(t.Name, Check{Tape: id, On: on, MeasuredMM: measured + 0, OffMM: measured - drawn + 0, FrontMM: front + 0, RearMM: rear + 0})
}

// TickPart notes that a part was measured on a day and is as drawn.
func TickPart(doc *Document, id, on string) (*Document, string, error) {
	i, err := doc.partAt(id)
	if err != nil {
		return nil, "", err
	}
	return doc.ticked(doc.Parts[i].Name, Check{Part: id, On: on, Drawn: Numbers(&doc.Parts[i])})
}

func (doc *Document) ticked(name string, k Check) (*Document, string, error) {
	c := *doc
	c.dropChecks(func(o *Check) bool { return o.Tape == k.Tape && o.Part == k.Part })
	c.Checked = append(c.Checked, k)
	return c.sound("checked " + name)
}

// Untick takes back that a tape or a part was checked; one of the two is empty.
func Untick(doc *Document, tape, part string) (*Document, string, error) {
	k := doc.CheckOfTape(tape)
	if tape == "" {
		k = doc.CheckOfPart(part)
	}
	if k == nil || tape == "" && part == "" {
		return nil, "", fmt.Errorf("this was not checked")
	}
	c := *doc
	c.dropChecks(func(o *Check) bool { return o.Tape == tape && o.Part == part })
	return &c, "took a check back", nil
}

// dropChecks takes away the checks that gone says.
func (doc *Document) dropChecks(gone func(*Check) bool) {
	var kept []Check
	for i := range doc.Checked {
		if !gone(&doc.Checked[i]) {
			kept = append(kept, doc.Checked[i])
		}
	}
	doc.Checked = kept
}

func (d *decoder) check(n *node, at string) (k Check) {
	if d.err == nil && n.kind == 'o' && n.member("tape") != nil {
		if d.object(n, at, []string{"tape", "on", "measured_mm", "off_mm", "front_mm", "rear_mm"}, nil) {
			k = Check{Tape: d.text(n, at, "tape", ""), On: d.text(n, at, "on", ""),
				MeasuredMM: d.num(n, at, "measured_mm", 0), OffMM: d.num(n, at, "off_mm", 0),
				FrontMM: d.num(n, at, "front_mm", 0), RearMM: d.num(n, at, "rear_mm", 0)}
		}
		return k
	}
	if d.object(n, at, []string{"part", "on", "drawn"}, nil) {
		k = Check{Part: d.text(n, at, "part", ""), On: d.text(n, at, "on", ""), Drawn: d.text(n, at, "drawn", "")}
	}
	return k
}

func checkRow(k Check) string {
	if k.Tape != "" {
		return row("tape", text(k.Tape), "on", text(k.On), "measured_mm", number(k.MeasuredMM), "off_mm", number(k.OffMM),
			"front_mm", number(k.FrontMM), "rear_mm", number(k.RearMM))
	}
	return row("part", text(k.Part), "on", text(k.On), "drawn", text(k.Drawn))
}

func checkedSchema() obj {
	day := obj{"type": "string", "format": "date", "pattern": "^[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$", "description": "The day, as in ISO 8601."}
	return obj{"type": "array", "maxItems": MaxTapes + MaxParts, "description": "What was measured at the real vehicle and held against the drawing.",
		"items": obj{"oneOf": []obj{
			closed(obj{
				"tape": idSchema(), "on": day, "measured_mm": numSchema(0, farthestMM, "What the tape read."),
				"off_mm":   numSchema(-farthestMM, farthestMM, "How much longer that was than the drawing said then."),
				"front_mm": numSchema(-moveMM, moveMM, "How far the body had risen over the front axle."),
				"rear_mm":  numSchema(-moveMM, moveMM, "How far the body had risen over the rear axle."),
			}, "tape", "on", "measured_mm", "off_mm", "front_mm", "rear_mm"),
			closed(obj{
				"part": idSchema(), "on": day,
				"drawn": obj{"type": "string", "pattern": "^[0-9a-f]{16}$", "description": "Stands for the part's numbers at that time."},
			}, "part", "on", "drawn"),
		}}}
}

func (c *checker) checks() {
	if n := len(c.doc.Checked); n > MaxTapes+MaxParts {
		c.fail("/checked", fmt.Sprintf("at most %d checks", MaxTapes+MaxParts), fmt.Sprintf("%d", n))
	}
	seen := map[[2]string]bool{}
	for i := range c.doc.Checked {
		k, at := &c.doc.Checked[i], below("/checked", i)
		c.check(at, k)
		key := [2]string{k.Tape, k.Part}
		if seen[key] {
			c.fail(at, "each tape and each part once", "a second check of it")
		}
		seen[key] = true
	}
}

func (c *checker) check(at string, k *Check) {
	if (k.Tape == "") == (k.Part == "") {
		c.fail(at, "either a tape or a part", "both or neither")
		return
	}
	if !dayOfCalendar(k.On) {
		c.fail(at+"/on", "a day such as 2026-11-25", quote(k.On))
	}
	if k.Part != "" {
		if _, ok := c.index[k.Part]; !ok {
			c.fail(at+"/part", "the id of a part", quote(k.Part))
		}
		if len(k.Drawn) != 16 || strings.Trim(k.Drawn, "0123456789abcdef") != "" {
			c.fail(at+"/drawn", "sixteen hexadecimal digits", quote(k.Drawn))
		}
		if k.MeasuredMM != 0 || k.OffMM != 0 || k.FrontMM != 0 || k.RearMM != 0 {
			c.fail(at, "no measure with a part", "one")
		}
		return
	}
	if k.Drawn != "" {
		c.fail(at+"/drawn", "none with a tape", quote(k.Drawn))
	}
	if c.doc.TapeNamed(k.Tape) == nil {
		c.fail(at+"/tape", "the id of a tape", quote(k.Tape))
	}
	c.num(at+"/measured_mm", k.MeasuredMM, 0, farthestMM)
	c.num(at+"/off_mm", k.OffMM, -farthestMM, farthestMM)
	c.num(at+"/front_mm", k.FrontMM, -moveMM, moveMM)
	c.num(at+"/rear_mm", k.RearMM, -moveMM, moveMM)
}

// dayOfCalendar says whether a text is a day as ISO 8601 writes it, 2026-11-25,
// of the Gregorian calendar. Package time would read it as well, and brings more
// into the sketcher than all of this file.
func dayOfCalendar(s string) bool {
	if len(s) != 10 || s[4] != '-' || s[7] != '-' {
		return false
	}
	n := [3]int{}
	for i, part := range [3]string{s[:4], s[5:7], s[8:]} {
		for _, r := range part {
			if r < '0' || r > '9' {
				return false
			}
			n[i] = 10*n[i] + int(r-'0')
		}
	}
	year, month, day := n[0], n[1], n[2]
	if month < 1 || month > 12 {
		return false
	}
	days := [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}[month-1]
	if month == 2 && year%4 == 0 && (year%100 != 0 || year%400 == 0) {
		days = 29
	}
	return day >= 1 && day <= days
}
