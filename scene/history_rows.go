package scene

import (
	"slices"
	"strconv"
	"strings"
)

// keyMark stands before the key of a picture where its base64 text would be;
// no base64 text has it (RFC 4648, table 1).
const keyMark = "#"

// base64Key begins the row of a picture's bytes, but for its indentation. No
// other row can: text within a row stands in quotes, with its own escaped.
const base64Key = `"base64": "`

// rowsOf are the rows of a document's file, one a part's member or a thing,
// with pictures as their keys. How it is looked at, through which variant and
// in which unit, is left out: that is no step of a history.
func rowsOf(doc *Document) []string {
	c := *doc.Whole()
	c.Shown, c.Show = "", Millimetres
	w := &writer{keys: true}
	w.document(&c)
	return strings.Split(w.buf.String(), "\n")
}

// pictureKey is the key of the picture whose bytes belong into a row.
func pictureKey(row string) (string, bool) {
	key, ok := strings.CutPrefix(strings.TrimLeft(row, " "), base64Key+keyMark)
	return strings.TrimSuffix(key, `"`), ok
}

// Rows that have to be alike before two texts count as met again, and how far
// apart in both texts together that is looked for: the time goes with its
// square, and a new drawing is not worth it.
const (
	rowsMet   = 3
	rowsApart = 1500
)

// rowChange tells how b differs from a, one hunk after the other: a row with
// the number of the row in a, how many rows of a go and how many of b come,
// then those rows. Empty: they are alike. With both in it, it leads either way.
func rowChange(a, b []string) string {
	i := 0
	for i < len(a) && i < len(b) && a[i] == b[i] {
		i++
	}
	endA, endB := len(a), len(b)
	for endA > i && endB > i && a[endA-1] == b[endB-1] {
		endA--
		endB--
	}
	var out strings.Builder
	for j := i; i < endA || j < endB; {
		if i < endA && j < endB && a[i] == b[j] {
			i++
			j++
			continue
		}
		gone, come := metAgain(a[i:endA], b[j:endB])
		writeHunk(&out, i, a[i:i+gone], b[j:j+come])
		i += gone
		j += come
	}
	return out.String()
}

// metAgain is after how few rows of each two texts go on alike.
func metAgain(a, b []string) (int, int) {
	for sum := 1; sum <= min(rowsApart, len(a)+len(b)); sum++ {
		for da := max(0, sum-len(b)); da <= min(sum, len(a)); da++ {
			if beginAlike(a[da:], b[sum-da:]) {
				return da, sum - da
			}
		}
	}
	return len(a), len(b)
}

func beginAlike(a, b []string) bool {
	for k := range rowsMet {
		if k == len(a) || k == len(b) {
			return len(a) == len(b)
		}
		if a[k] != b[k] {
			return false
		}
	}
	return true
}

func writeHunk(out *strings.Builder, at int, gone, come []string) {
	out.WriteString(strconv.Itoa(at) + " " + strconv.Itoa(len(gone)) + " " + strconv.Itoa(len(come)) + "\n")
	for _, rows := range [][]string{gone, come} {
		for _, r := range rows {
			out.WriteString(r)
			out.WriteByte('\n')
		}
	}
}

// hunk is rows that stand in the place of others, from row at on.
type hunk struct {
	at         int
	gone, come []string
}

// firstHunk takes the first hunk off a change; false when it is damaged.
func firstHunk(change string) (h hunk, rest string, ok bool) {
	head, rest, _ := strings.Cut(change, "\n")
	var n [3]int
	words := strings.Split(head, " ")
	if len(words) != len(n) {
		return h, "", false
	}
	for i, w := range words {
		v, err := strconv.Atoi(w)
		if err != nil || v < 0 || i > 0 && v > len(rest) {
			return h, "", false
		}
		n[i] = v
	}
	rows := make([]string, 0, min(n[1]+n[2], 1+strings.Count(rest, "\n")))
	for range n[1] + n[2] {
		var row string
		if row, rest, ok = strings.Cut(rest, "\n"); !ok {
			return h, "", false
		}
		rows = append(rows, row)
	}
	return hunk{n[0], rows[:n[1]], rows[n[1]:]}, rest, true
}

// changed makes of rows what a change, or its reverse, makes of them; false
// when it does not fit them.
func changed(rows []string, change string, back bool) (out []string, ok bool) {
	done, shift := 0, 0
	for change != "" {
		h, rest, ok := firstHunk(change)
		if !ok {
			return nil, false
		}
		change = rest
		at, gone, come := h.at, h.gone, h.come
		if back {
			at, gone, come = at+shift, come, gone
		}
		shift += len(h.come) - len(h.gone)
		if at < done || at > len(rows)-len(gone) || !slices.Equal(rows[at:at+len(gone)], gone) {
			return nil, false
		}
		out = append(append(out, rows[done:at]...), come...)
		done = at + len(gone)
	}
	return append(out, rows[done:]...), true
}
