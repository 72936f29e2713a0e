package fitment

import (
	"fmt"
	"strings"
)

// RoomSVG is a picture of a room, a millimetre a unit: the free cells tinted and
// their border drawn, what bounds them named at it, the silhouettes of the parts
// around at ride, and the part itself heavy with its reference point.
func (m *Model) RoomSVG(r *Room) []byte {
	w := NewWords(m.Doc)
	pic := roomPicture{r: r, down: r.View != PlanView}
	wide, high := float64(r.Nu)*r.CellMM, float64(r.Nw)*r.CellMM
	const foot = 40.0
	pic.say(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.2f %.2f" font-family="sans-serif" font-size="13">`+"\n", wide, high+foot)
	pic.say("<title>%s</title>\n<clipPath id=\"map\"><rect width=\"%.2f\" height=\"%.2f\"/></clipPath>\n", escaped(w.RoomTitle(r)), wide, high)
	pic.say(`<rect width="%.2f" height="%.2f" fill="#fbfaf6"/>`+"\n<g clip-path=\"url(#map)\">\n", wide, high+foot)
	pic.parts(m, false)
	for j := range r.Nw {
		for _, run := range r.Row(j) {
			if run.By == "" {
				pic.say(`<rect x="%.2f" y="%.2f" width="%.2f" height="%.2f" fill="#8fcaa2" fill-opacity="0.45"/>`+"\n",
					float64(run.From)*r.CellMM, pic.top(j), float64(run.To-run.From)*r.CellMM, r.CellMM)
			}
		}
	}
	pic.parts(m, true)
	for _, s := range r.Sides() {
		a, b := pic.at(s.FromMM), pic.at(s.ToMM)
		pic.say(`<path d="M%.2f %.2fL%.2f %.2f" stroke="#1d5c38" stroke-width="1.6"/>`+"\n", a[0], a[1], b[0], b[1])
	}
	for i, b := range r.Borders() {
		if p := pic.at(b.AtMM); i < 8 {
			pic.say(`<text x="%.2f" y="%.2f" text-anchor="middle" fill="#1b2a33" stroke="#fbfaf6" stroke-width="3" paint-order="stroke">%s</text>`+"\n",
				min(wide-60, max(60, p[0])), min(high-6, max(14, p[1]-4)), escaped(w.BorderName(&b)))
		}
	}
	p := pic.at(r.AtMM)
	pic.say(`<path d="M%.2f %.2fh16m-8 -8v16" stroke="#a3341f" stroke-width="1.6"/>`+"\n</g>\n", p[0]-8, p[1])
	pic.say(`<text x="4" y="%.2f" fill="#1b2a33">%s</text>`+"\n</svg>\n", high+24, escaped(w.RoomTitle(r)))
	return []byte(pic.b.String())
}

type roomPicture struct {
	r    *Room
	b    strings.Builder
	down bool // the second axis goes up the sheet
}

func (p *roomPicture) say(format string, args ...any) { fmt.Fprintf(&p.b, format, args...) }

// at is a point of the view's plane on the sheet.
func (p *roomPicture) at(mm [2]float64) [2]float64 {
	x, y := mm[0]-p.r.LoMM[0], mm[1]-p.r.LoMM[1]
	if p.down {
		y = float64(p.r.Nw)*p.r.CellMM - y
	}
	return [2]float64{x + 0, y + 0}
}

// top is where a row of cells begins on the sheet.
func (p *roomPicture) top(row int) float64 {
	if p.down {
		return float64(p.r.Nw-1-row) * p.r.CellMM
	}
	return float64(row) * p.r.CellMM
}

// parts draws the silhouettes that reach into the map, the others' or the part's
// own. In the section those are meant that come near the part along the vehicle.
// Each is stroked whole and then filled whole, so that only its outer border stays.
func (p *roomPicture) parts(m *Model, own bool) {
	outlines := m.Outlines(p.r.View, 1e6, State{})
	self := outlines[m.index[p.r.Part]]
	for i := range outlines {
		o := &outlines[i]
		if mine := m.parts[i].part.ID == p.r.Part; mine != own || o.Far < self.Near-roomDepth || o.Near > self.Far+roomDepth {
			continue
		}
		looks := [2]string{`fill="none" stroke="#5b6b73" stroke-width="1.6"`, `fill="#f1efe7"`}
		if own {
			looks = [2]string{`fill="none" stroke="#a3341f" stroke-width="2"`, `fill="#a3341f" fill-opacity="0.12"`}
		}
		for _, look := range looks {
			for _, poly := range o.Seen {
				p.say(`<path d="%s" %s/>`+"\n", p.path(poly), look)
			}
		}
	}
}

// roomDepth (mm): parts farther than this from the part along the direction of
// looking are left out of the picture.
const roomDepth = 150.0

func (p *roomPicture) path(poly []Pt) string {
	var b strings.Builder
	for i, q := range poly {
		at := p.at(q)
		c := 'L'
		if i == 0 {
			c = 'M'
		}
		fmt.Fprintf(&b, "%c%.1f %.1f", c, at[0], at[1])
	}
	return b.String() + "Z"
}

var xmlMarks = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;")

func escaped(s string) string { return xmlMarks.Replace(s) }
