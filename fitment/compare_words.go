package fitment

import (
	"fmt"
	"strconv"
	"strings"

	"scrubline/scene"
)

// Table is a comparison as it is read: a heading for each alternative, and the
// rows below it.
type Table struct {
	Heads []string
	Rows  []TableRow
}

// TableRow is one line of a table. Differs says that its cells do.
type TableRow struct {
	Group   string // heading of the rows it stands among
	Label   string
	Cells   []string
	Marks   []string // touch, tight or empty, for each cell
	Differs bool
}

// Headings of a comparison's rows.
const (
	groupFalls = "What falls short"
	groupStock = "Mass and cost"
	groupPairs = "Least gap, where it differs"
)

// Table puts a complete comparison into words, in the document's shown unit.
func (c *Comparison) Table() Table {
	var t Table
	for i := range c.Columns {
		t.Heads = append(t.Heads, c.Columns[i].Name)
	}
	c.counts(&t)
	c.stock(&t)
	for i := range c.Pairs {
		row := &c.Pairs[i]
		need, same := row.need()
		out := TableRow{Group: groupPairs, Label: c.pairName(row)}
		if same {
			out.Label += ", need " + scene.FormatLength(need, c.Doc.Show)
		}
		for k := range row.Cells {
			text, mark := c.pairWords(&row.Cells[k], same || row.Service != "", row.Service != "")
			out.Cells, out.Marks = append(out.Cells, text), append(out.Marks, mark)
		}
		t.Rows = append(t.Rows, out)
	}
	for i := range t.Rows {
		r := &t.Rows[i]
		for _, cell := range r.Cells {
			r.Differs = r.Differs || cell != r.Cells[0]
		}
	}
	return t
}

// each adds a row with a cell for every alternative.
func (c *Comparison) each(t *Table, group, label string, cell func(*Column) (text, mark string)) {
	row := TableRow{Group: group, Label: label}
	for i := range c.Columns {
		text, mark := cell(&c.Columns[i])
		row.Cells, row.Marks = append(row.Cells, text), append(row.Marks, mark)
	}
	t.Rows = append(t.Rows, row)
}

func (c *Comparison) counts(t *Table) {
	for _, row := range []struct {
		label, mark string
		n           func(*Summary) int
	}{
		{"Touch", "touch", func(s *Summary) int { return s.Contact }},
		{"Tight", "tight", func(s *Summary) int { return s.Tight }},
		{"Past a limit", "tight", func(s *Summary) int { return s.Limits }},
		{"Below the rim line", "tight", func(s *Summary) int { return s.RimLine }},
		{"Suspension locks", "touch", func(s *Summary) int { return s.Locked }},
		{"Undecided", "tight", func(s *Summary) int { return s.Undecided }},
	} {
		c.each(t, groupFalls, row.label, func(col *Column) (string, string) {
			if k := row.n(&col.Model.Check().Summary); k > 0 {
				return strconv.Itoa(k), row.mark
			}
			return "none", ""
		})
	}
	c.each(t, groupFalls, "Lowest before anything touches", c.lowWords)
}

// lowWords say how far down the body goes.
func (c *Comparison) lowWords(col *Column) (text, mark string) {
	w := NewWords(col.Model.Doc)
	var names []string
	for _, id := range col.Low.By {
		names = append(names, w.Plain(id))
	}
	by := strings.Join(names, " and ")
	switch {
	case by == "":
		return w.level(col.Low.At) + ", all the way down", ""
	case col.Low.AtRide:
		return "touches at ride: " + by, "touch"
	}
	return w.level(col.Low.At) + ": then " + by, ""
}

func (c *Comparison) stock(t *Table) {
	c.each(t, groupStock, "Parts", func(col *Column) (string, string) { return strconv.Itoa(col.Totals.Parts), "" })
	c.each(t, groupStock, "Mass", func(col *Column) (string, string) { return MassWords(c.Doc, &col.Totals), "" })
	c.each(t, groupStock, "Cost", func(col *Column) (string, string) {
		mark := ""
		if c.Doc.Budget != nil && col.Totals.Cost > *c.Doc.Budget {
			mark = "tight"
		}
		return CostWords(c.Doc, &col.Totals), mark
	})
	c.each(t, groupStock, "Still to order", func(col *Column) (string, string) { return OrderWords(c.Doc, &col.Totals), "" })
}

// MassWords say what the placed parts weigh together.
func MassWords(doc *scene.Document, t *scene.Totals) string {
	s := scene.FormatMass(t.MassKG, doc.Show) + " " + scene.MassUnit(doc.Show)
	switch t.NoMass {
	case 0:
		return s
	case t.Parts:
		return "not known"
	case 1:
		return s + ", 1 part without a mass"
	}
	return fmt.Sprintf("%s, %d parts without a mass", s, t.NoMass)
}

// CostWords say what the parts cost together, and how that stands to the budget.
func CostWords(doc *scene.Document, t *scene.Totals) string {
	s := doc.Money(t.Cost)
	switch t.NoPrice {
	case 0:
	case t.Priced + t.NoPrice:
		return "not known"
	case 1:
		s += ", 1 part without a price"
	default:
		s += fmt.Sprintf(", %d parts without a price", t.NoPrice)
	}
	if doc.Budget == nil {
		return s
	}
	switch left := *doc.Budget - t.Cost; {
	case left < 0:
		return s + "; " + doc.Money(-left) + " over the budget of " + doc.Money(*doc.Budget)
	case left == 0:
		return s + "; just the budget"
	default:
		return s + "; " + doc.Money(left) + " below the budget of " + doc.Money(*doc.Budget)
	}
}

// OrderWords say what is still to be ordered.
func OrderWords(doc *scene.Document, t *scene.Totals) string {
	switch n := len(t.Order); n {
	case 0:
		return noOrderWords(t)
	case 1:
		return "1 part, " + orderSum(doc, t)
	default:
		return fmt.Sprintf("%d parts, %s", n, orderSum(doc, t))
	}
}

// noOrderWords tell nothing to order from nothing said: without a state a part may
// be either.
func noOrderWords(t *scene.Totals) string {
	switch all := t.Parts + t.OnShelf; {
	case all == 0 || t.NoState < all:
		return "nothing"
	case all == 1:
		return "nothing said; 1 part has no state"
	default:
		return fmt.Sprintf("nothing said; %d parts have no state", all)
	}
}

func orderSum(doc *scene.Document, t *scene.Totals) string {
	switch {
	case t.NoOrder == len(t.Order):
		return "no price"
	case t.NoOrder > 0:
		return fmt.Sprintf("%s, %d without a price", doc.Money(t.OrderSum), t.NoOrder)
	}
	return doc.Money(t.OrderSum)
}

// pairName names a row by the parts of the first alternative that has them.
func (c *Comparison) pairName(row *PairRow) string {
	name := func(id string) string {
		for i := range c.Columns {
			if m := c.Columns[i].Model; m != nil {
				if _, ok := m.index[id]; ok {
					return NewWords(m.Doc).Name(id)
				}
			}
		}
		return id
	}
	if row.Service != "" {
		return BeginName(name(row.B)) + " in the service room of " + PlainName(name(row.A))
	}
	return BeginName(name(row.A)) + " and " + PlainName(name(row.B))
}

// need is what the pair must keep, where that is the same in every alternative
// that asks for it. A service room asks for none.
func (row *PairRow) need() (mm float64, same bool) {
	mm = -1
	for i := range row.Cells {
		p := &row.Cells[i]
		if p.Status == PairAbsent || p.Status == PairJoined {
			continue
		}
		if mm >= 0 && mm != p.NeedMM {
			return 0, false
		}
		mm = p.NeedMM
	}
	return mm, mm >= 0 && row.Service == ""
}

// pairWords is a cell in words, with its mark; bare leaves the need out.
func (c *Comparison) pairWords(p *PairCell, bare, room bool) (text, mark string) {
	length := func(mm float64) string { return scene.FormatLength(mm, c.Doc.Show) }
	needs := ", needs " + length(p.NeedMM)
	if bare {
		needs = ""
	}
	switch p.Status {
	case PairContact:
		if p.GapMM >= 0 {
			return "touch" + needs, "touch"
		}
		return length(-p.GapMM) + " deep" + needs, "touch"
	case PairTight:
		if room {
			return length(-p.GapMM) + " into it", "tight"
		}
		return length(p.GapMM) + " apart" + needs, "tight"
	case PairFar:
		return length(p.GapMM) + " or more" + needs, ""
	case PairUndecided:
		return "not decided, proven " + length(p.BoundMM) + needs, "tight"
	case PairJoined:
		return "joined", ""
	case PairAbsent:
		return "not there", ""
	}
	return length(p.GapMM) + " apart" + needs, ""
}
