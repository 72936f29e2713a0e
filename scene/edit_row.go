package scene

import (
	"fmt"
	"math"
)

// AddRow adds a row to a table after row (−1: before the first): half way to
// the next one, or, at an end, one step further along.
func AddRow(doc *Document, target, field string, after int) (*Document, string, error) {
	return doc.editRows(target, field, "added a row to ", func(f *Field, rows []Row) ([]Row, error) {
		if after < -1 || after >= len(rows) {
			return nil, fmt.Errorf("%s has no row %d", f.Label, after+1)
		}
		if len(rows) >= f.MaxRows {
			return nil, fmt.Errorf("%s has at most %d rows", f.Label, f.MaxRows)
		}
		out := append([]Row(nil), rows[:after+1]...)
		out = append(out, newRow(f, rows, after))
		return append(out, rows[after+1:]...), nil
	})
}

// newRow makes the row to stand after row after. Its numbers are kept to a
// tenth and within their ranges.
func newRow(f *Field, rows []Row, after int) Row {
	row := make(Row, len(f.Columns))
	for j := range f.Columns {
		c := &f.Columns[j]
		v := c.Default
		switch n := len(rows); {
		case n == 1:
			v = rows[0][j]
		case n > 1 && after < 0:
			v = 2*rows[0][j] - rows[1][j]
		case n > 1 && after == n-1:
			v = 2*rows[n-1][j] - rows[n-2][j]
		case n > 1:
			v = (rows[after][j] + rows[after+1][j]) / 2
		}
		row[j] = min(c.Max, max(c.Min, math.Round(v*10)/10)) + 0
	}
	return row
}

// RemoveRow removes a row of a table.
func RemoveRow(doc *Document, target, field string, row int) (*Document, string, error) {
	return doc.editRows(target, field, "removed a row from ", func(f *Field, rows []Row) ([]Row, error) {
		if row < 0 || row >= len(rows) {
			return nil, fmt.Errorf("%s has no row %d", f.Label, row+1)
		}
		if len(rows) <= f.MinRows {
			return nil, fmt.Errorf("%s needs at least %d rows", f.Label, f.MinRows)
		}
		return append(append([]Row(nil), rows[:row]...), rows[row+1:]...), nil
	})
}

func (doc *Document) editRows(target, field, label string, change func(*Field, []Row) ([]Row, error)) (*Document, string, error) {
	if len(target) < 5 || target[:5] != "part:" {
		return nil, "", fmt.Errorf("only parts have tables, and %s is none", quote(target))
	}
	i, err := doc.partAt(target[5:])
	if err != nil {
		return nil, "", err
	}
	p := doc.Parts[i].clone()
	f := fieldOf(KindNamed(p.Kind).Fields, fieldSteps(field)[0])
	if f == nil || f.Type != Table {
		return nil, "", errNoField(field)
	}
	rows, err := change(f, p.Size[f.Name].Rows)
	if err != nil {
		return nil, "", err
	}
	p.Size[f.Name] = Value{Rows: rows}
	c, err := doc.withPart(i, p)
	return c, label + p.Name, err
}
