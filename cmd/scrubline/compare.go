package main

import (
	"fmt"
	"io"
	"text/tabwriter"
	"unicode/utf8"

	"scrubline/fitment"
	"scrubline/scene"
)

func runCompare(args []string, stdout, stderr io.Writer) int {
	rest, flags, err := split(args, map[string]bool{"json": true}, nil)
	if err == nil && len(rest) != 1 {
		err = fmt.Errorf("compare takes one scene file")
	}
	if err != nil {
		complain(stderr, "%v", err)
		return exitBad
	}
	doc := loadScene(rest[0], stderr)
	if doc == nil {
		return exitBad
	}
	c, err := fitment.Compare(doc, nil)
	if err != nil {
		complain(stderr, "%s: %v", rest[0], err)
		return exitBad
	}
	c.Finish()
	if flags["json"] != "" {
		stdout.Write(c.JSON())
	} else {
		printComparison(stdout, c)
	}
	for i := range c.Columns {
		if c.Columns[i].Model.Check().Short() {
			return exitShort
		}
	}
	return exitClear
}

// narrow is the most letters of a cell that stands in a column; a row with a
// longer one is printed a line to a cell.
const narrow = 14

func printComparison(out io.Writer, c *fitment.Comparison) {
	fmt.Fprintf(out, "%s: as drawn and %d variants\n", c.Doc.Name, len(c.Doc.Variants))
	printDiffers(out, c)
	t := c.Table()
	for from := 0; from < len(t.Rows); {
		to := from
		for to < len(t.Rows) && t.Rows[to].Group == t.Rows[from].Group {
			to++
		}
		printGroup(out, t.Heads, t.Rows[from:to])
		from = to
	}
}

// printGroup prints the rows below one heading, those that stand in columns
// first.
func printGroup(out io.Writer, heads []string, rows []fitment.TableRow) {
	fmt.Fprintf(out, "\n%s\n", rows[0].Group)
	w := tabwriter.NewWriter(out, 0, 0, 3, ' ', 0)
	line := func(label string, cells []string) {
		fmt.Fprintf(w, "  %s", label)
		for _, cell := range cells {
			fmt.Fprintf(w, "\t%s", cell)
		}
		fmt.Fprintln(w)
	}
	var long []*fitment.TableRow
	for i := range rows {
		switch r := &rows[i]; {
		case isLong(r):
			long = append(long, r)
		case i == len(long):
			line("", heads)
			fallthrough
		default:
			line(r.Label, r.Cells)
		}
	}
	w.Flush()
	for _, r := range long {
		if !r.Differs {
			fmt.Fprintf(out, "  %s: %s\n", r.Label, r.Cells[0])
			continue
		}
		fmt.Fprintf(out, "  %s\n", r.Label)
		for k, cell := range r.Cells {
			fmt.Fprintf(out, "    %s: %s\n", heads[k], cell)
		}
	}
}

func isLong(r *fitment.TableRow) bool {
	for _, cell := range r.Cells {
		if utf8.RuneCountInString(cell) > narrow {
			return true
		}
	}
	return false
}

// printDiffers says how each variant differs from the scene as drawn.
func printDiffers(out io.Writer, c *fitment.Comparison) {
	for i := range c.Columns {
		col := &c.Columns[i]
		if col.ID == "" {
			continue
		}
		fmt.Fprintf(out, "\n%s (%s)\n", col.Name, col.ID)
		if note := c.Doc.VariantNamed(col.ID).Note; note != "" {
			fmt.Fprintf(out, "  %s\n", note)
		}
		if len(col.Differs) == 0 {
			fmt.Fprintln(out, "  nothing differs from the scene as drawn")
		}
		for _, d := range col.Differs {
			fmt.Fprintf(out, "  %s: %s\n", d.Name, d.Text)
		}
	}
}

// loadScene reads a scene file. What is wrong goes to stderr as one line.
func loadScene(path string, stderr io.Writer) *scene.Document {
	data, err := read(path)
	if err != nil {
		complain(stderr, "%s: cannot be read: %v", path, reason(err))
		return nil
	}
	doc, err := scene.Decode(data)
	if err != nil {
		complain(stderr, "%s: %v", path, err)
		return nil
	}
	return doc
}

// loadVariant reads a scene file and compiles one of its variants, or for the
// empty id the scene as drawn.
func loadVariant(path, id string, stderr io.Writer) *fitment.Model {
	doc := loadScene(path, stderr)
	if doc == nil {
		return nil
	}
	made, err := scene.Resolve(doc, id)
	if err != nil {
		complain(stderr, "%s: %v; %s", path, err, variantsOf(doc))
		return nil
	}
	m, err := fitment.Compile(made)
	if err != nil {
		complain(stderr, "%s: %v", path, err)
		return nil
	}
	m.Variant = id
	return m
}

func variantsOf(doc *scene.Document) string {
	if len(doc.Variants) == 0 {
		return "it has none"
	}
	text := "it has "
	for i := range doc.Variants {
		if i > 0 {
			text += ", "
		}
		text += doc.Variants[i].ID
	}
	return text
}
