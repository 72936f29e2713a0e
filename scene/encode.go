package scene

import (
	"bytes"
	"encoding/json"
	"strings"
)

// Encode writes a valid document as a scene file: indented by two spaces, keys
// in a fixed order, numbers as short as they can be read back exactly, rows on
// one line each so that a difference between two files reads well.
func Encode(doc *Document) []byte {
	w := &writer{}
	w.document(doc.Whole())
	return w.buf.Bytes()
}

func (w *writer) document(doc *Document) {
	w.open("{")
	w.line("format", text(Format))
	w.line("version", number(Version))
	w.line("name", text(doc.Name))
	if doc.Note != "" {
		w.line("note", text(doc.Note))
	}
	w.line("show", text(string(doc.Show)))
	w.line("tolerance_mm", number(doc.ToleranceMM))
	w.money(doc)
	w.key("vehicle")
	w.open("{")
	w.line("wheelbase_mm", number(doc.Vehicle.WheelbaseMM))
	w.end("front", &doc.Vehicle.Front)
	w.end("rear", &doc.Vehicle.Rear)
	w.close("}")
	w.list("heights", len(doc.Heights), func(i int) { w.item(heightRow(doc.Heights[i])) })
	if len(doc.Movements) > 0 {
		w.list("movements", len(doc.Movements), func(i int) { w.item(movementRow(doc.Movements[i])) })
	}
	w.list("parts", len(doc.Parts), func(i int) { w.part(&doc.Parts[i]) })
	if len(doc.Groups) > 0 {
		w.list("groups", len(doc.Groups), func(i int) { w.item(groupRow(doc.Groups[i])) })
	}
	w.list("needs", len(doc.Needs), func(i int) { w.item(needRow(doc.Needs[i])) })
	w.list("joined", len(doc.Joined), func(i int) { w.item(joinedRow(doc.Joined[i])) })
	if len(doc.Photos) > 0 {
		w.list("photos", len(doc.Photos), func(i int) { w.photo(&doc.Photos[i]) })
	}
	if len(doc.Tapes) > 0 {
		w.list("tapes", len(doc.Tapes), func(i int) { w.item(tapeRow(doc.Tapes[i])) })
	}
	if len(doc.Checked) > 0 {
		w.list("checked", len(doc.Checked), func(i int) { w.item(checkRow(doc.Checked[i])) })
	}
	w.unmeasured(doc.Unmeasured)
	w.shelf(doc)
	w.variants(doc)
	w.close("}")
	w.buf.WriteByte('\n')
}

// writer lays out nested objects and lists, a member or element to a line.
type writer struct {
	buf   bytes.Buffer
	depth int
	more  bool // something stands before at this level
	keyed bool // a key was just written: the value follows on its line
	keys  bool // pictures are written as their keys; see [rowsOf]
}

// item starts a new line at this level and writes s.
func (w *writer) item(s string) {
	if w.keyed {
		w.keyed = false
		w.buf.WriteString(s)
		return
	}
	if w.more {
		w.buf.WriteByte(',')
	}
	if w.depth > 0 {
		w.buf.WriteByte('\n')
		w.buf.WriteString(strings.Repeat("  ", w.depth))
	}
	w.more = true
	w.buf.WriteString(s)
}

func (w *writer) key(name string) {
	w.item(text(name) + ": ")
	w.keyed = true
}

// line writes a member whose value is already text.
func (w *writer) line(name, value string) {
	w.key(name)
	w.item(value)
}

func (w *writer) open(bracket string) {
	w.item(bracket)
	w.depth++
	w.more = false
}

func (w *writer) close(bracket string) {
	w.depth--
	if w.more {
		w.buf.WriteByte('\n')
		w.buf.WriteString(strings.Repeat("  ", w.depth))
	}
	w.more = true
	w.buf.WriteString(bracket)
}

// list writes a member that is a list of n elements, each written by f.
func (w *writer) list(name string, n int, f func(i int)) {
	w.key(name)
	w.open("[")
	for i := 0; i < n; i++ {
		f(i)
	}
	w.close("]")
}

func (w *writer) end(name string, e *End) {
	w.key(name)
	w.open("{")
	w.line("track_mm", number(e.TrackMM))
	w.line("tyre", tyreRow(e.Tyre))
	w.line("frame_height_mm", number(e.FrameHeightMM))
	w.line("independent", yesNo(e.Independent))
	w.line("steer_deg", number(e.SteerDeg))
	w.line("cross_mm", number(e.CrossMM))
	w.suspension(e.Suspension)
	w.close("}")
}

func (w *writer) part(p *Part) {
	w.open("{")
	w.line("id", text(p.ID))
	w.line("name", text(p.Name))
	w.line("kind", text(p.Kind))
	w.line("carrier", text(string(p.Carrier)))
	w.line("at_mm", vecRow(p.AtMM))
	w.line("turn_deg", vecRow(p.TurnDeg))
	if len(p.Traits) > 0 {
		w.line("traits", wordRow(p.Traits...))
	}
	if len(p.Moves) > 0 {
		w.line("moves", wordRow(p.Moves...))
	}
	if p.ToleranceMM != nil {
		w.line("tolerance_mm", number(*p.ToleranceMM))
	}
	w.stock(p)
	if p.Note != "" {
		w.line("note", text(p.Note))
	}
	if p.Locked {
		w.line("locked", "true")
	}
	if len(p.MeasuredFrom) > 0 {
		w.list("measured_from", len(p.MeasuredFrom), func(i int) { w.item(measuredRow(p.MeasuredFrom[i])) })
	}
	w.size(KindNamed(p.Kind), p.Size)
	w.close("}")
}

func (w *writer) size(k *Kind, s Size) {
	if k == nil {
		return // no valid document has such a part
	}
	w.key("size")
	w.open("{")
	for i := range k.Fields {
		f := &k.Fields[i]
		v := s[f.Name]
		switch f.Type {
		case Choice:
			w.line(f.Name, text(v.Text))
		case Flag:
			w.line(f.Name, yesNo(v.Flag))
		case Table:
			w.list(f.Name, len(v.Rows), func(r int) { w.item(tableRow(f, v.Rows[r])) })
		default:
			w.line(f.Name, number(v.Num))
		}
	}
	w.close("}")
}

// row is an object on one line; it is built by alternating names and values.
func row(pairs ...string) string {
	var b strings.Builder
	for i := 0; i+1 < len(pairs); i += 2 {
		if i > 0 {
			b.WriteString(", ")
		}
		b.WriteString(text(pairs[i]) + ": " + pairs[i+1])
	}
	return "{" + b.String() + "}"
}

func tableRow(f *Field, r Row) string {
	var pairs []string
	for i, c := range f.Columns {
		pairs = append(pairs, c.Name, number(r[i]))
	}
	return row(pairs...)
}

func tyreRow(t Tyre) string {
	deflection := number(t.DeflectionMM)
	if t.Code != "" {
		code := t.Code
		if read, err := ParseTyre(code); err == nil {
			code = read.Code // as it is read back
		}
		return row("code", text(code), "deflection_mm", deflection)
	}
	return row("diameter_mm", number(t.DiameterMM), "width_mm", number(t.WidthMM),
		"rim_mm", number(t.RimMM), "deflection_mm", deflection)
}

func heightRow(h Height) string {
	return row("id", text(h.ID), "name", text(h.Name), "front_mm", number(h.FrontMM), "rear_mm", number(h.RearMM))
}

func needRow(n Need) string {
	pairs := []string{"parts", wordRow(n.Parts[:]...)}
	if n.Traits != [2]Trait{} {
		pairs = []string{"traits", wordRow(n.Traits[:]...)}
	}
	if n.NeedMM != 0 || !n.Shielded {
		pairs = append(pairs, "need_mm", number(n.NeedMM))
	}
	if n.Shielded {
		pairs = append(pairs, "shielded", "true")
	}
	return row(append(pairs, "why", text(n.Why))...)
}

func joinedRow(j Joined) string {
	return row("a", text(j.A), "b", text(j.B), "why", text(j.Why))
}

func vecRow(v Vec) string {
	return "[" + number(v[0]) + ", " + number(v[1]) + ", " + number(v[2]) + "]"
}

func wordRow[T ~string](words ...T) string {
	quoted := make([]string, len(words))
	for i, w := range words {
		quoted[i] = text(string(w))
	}
	return "[" + strings.Join(quoted, ", ") + "]"
}

func yesNo(v bool) string {
	if v {
		return "true"
	}
	return "false"
}

// plain tells whether s needs no escapes: true of almost all text in a file.
func plain(s string) bool {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c < ' ' || c > '~' || c == '"' || c == '\\' {
			return false
		}
	}
	return true
}

// text is s as JSON text, with <, > and & left readable.
func text(s string) string {
	if plain(s) {
		return `"` + s + `"`
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b)
	e.SetEscapeHTML(false)
	if err := e.Encode(s); err != nil {
		return `""` // a string always encodes
	}
	return strings.TrimSuffix(b.String(), "\n")
}
