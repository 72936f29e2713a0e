package scene

import (
	"fmt"
	"math"
)

// cornerColumns are the columns of a run's table of corners.
func cornerColumns(bend float64) []Field {
	return []Field{
		mm("x_mm", "Back", -10000, 10000, 0, "From the run's start; minus is ahead."),
		mmY("y_mm", "Right", -3000, 3000, 0, "From the run's start; minus is left."),
		mm("z_mm", "Up", -3000, 3000, 0, "From the run's start; minus is below."),
		mmOr("mitred", "bend_mm", "Bend radius", 2000, bend, "To the middle of the tube."),
	}
}

// corners reads a table with cornerColumns.
func corners(rows []Row) []RunVertex {
	vs := make([]RunVertex, len(rows))
	for i, r := range rows {
		vs[i] = RunVertex{P: Vec{r[0], r[1], r[2]}, BendRadius: r[3]}
	}
	return vs
}

// bend is the turn of a run at one of its corners.
type bend struct {
	in, out Vec     // unit directions before and after
	setback float64 // from the corner back to where the bend begins: R·tan(θ/2)
	angle   float64 // θ, radians
}

// bendAt is the bend at corner i of vs; ends do not turn. A corner that folds
// straight back has an infinite setback.
func bendAt(vs []RunVertex, i int) bend {
	if i == 0 || i == len(vs)-1 {
		return bend{}
	}
	b := bend{in: vs[i].P.sub(vs[i-1].P).unit(), out: vs[i+1].P.sub(vs[i].P).unit()}
	sin, cos := b.in.cross(b.out).len(), b.in.dot(b.out)
	b.angle = math.Atan2(sin, cos)
	if vs[i].BendRadius > 0 && sin > 0 {
		b.setback = vs[i].BendRadius * sin / (1 + cos) // tan(θ/2) = sin θ/(1+cos θ)
	}
	return b
}

// foldDeg is the sharpest turn a corner may make.
const foldDeg = 170

// checkCorners tells what keeps a tube of this radius from being bent along
// rows: corners on top of each other, a fold, bends that do not fit.
func checkCorners(field string, rows []Row, radius float64) *FieldError {
	vs := corners(rows)
	for i := 1; i < len(vs); i++ {
		if vs[i].P.sub(vs[i-1].P).len() < 1 {
			return bad(fmt.Sprintf("%s/%d/x_mm", field, i), "at least 1 mm away from the corner before")
		}
	}
	for i := 1; i+1 < len(vs); i++ {
		where := fmt.Sprintf("%s/%d/bend_mm", field, i)
		b := bendAt(vs, i)
		if b.angle > radians(foldDeg) {
			return bad(fmt.Sprintf("%s/%d/x_mm", field, i), fmt.Sprintf("such that the tube turns by at most %d degrees here", foldDeg))
		}
		if r := vs[i].BendRadius; r > 0 && r < radius {
			return bad(where, "0, or at least half the tube's diameter")
		}
	}
	for i := 1; i < len(vs); i++ {
		room := vs[i].P.sub(vs[i-1].P).len()
		if bendAt(vs, i-1).setback+bendAt(vs, i).setback > room+1e-6 {
			return bad(fmt.Sprintf("%s/%d/bend_mm", field, min(i, len(vs)-2)), "small enough for its bend to fit between the corners on either side")
		}
	}
	return nil
}

// runLength is the length of a run's centreline.
func runLength(vs []RunVertex) float64 {
	total := 0.0
	for i := 1; i < len(vs); i++ {
		a, b := bendAt(vs, i-1), bendAt(vs, i)
		total += vs[i].P.sub(vs[i-1].P).len() - a.setback - b.setback
		total += arcLength(vs[i], b)
	}
	return total
}

func arcLength(v RunVertex, b bend) float64 {
	if b.setback == 0 {
		return 0
	}
	return float64(v.BendRadius * b.angle)
}

// runPlace is the point of a run's centreline at distance s from its start,
// and the direction there. Beyond the ends it goes straight on.
func runPlace(vs []RunVertex, s float64) (p, dir Vec) {
	for i := 1; i < len(vs); i++ {
		a, b := bendAt(vs, i-1), bendAt(vs, i)
		dir = vs[i].P.sub(vs[i-1].P).unit()
		from := vs[i-1].P.add(dir.scale(a.setback))
		straight := vs[i].P.sub(vs[i-1].P).len() - a.setback - b.setback
		if s <= straight || i == len(vs)-1 {
			return from.add(dir.scale(s)), dir
		}
		s -= straight
		arc := arcLength(vs[i], b)
		if s < arc {
			return onArc(vs[i], b, s/vs[i].BendRadius)
		}
		s -= arc
	}
	return vs[len(vs)-1].P, dir
}

// onArc is the point of a bend at an angle from where it begins.
func onArc(v RunVertex, b bend, angle float64) (p, dir Vec) {
	sin, cos := math.Sincos(angle)
	inward := b.out.sub(b.in.scale(b.in.dot(b.out))).unit()
	start := v.P.sub(b.in.scale(b.setback))
	p = start.add(b.in.scale(v.BendRadius * sin)).add(inward.scale(v.BendRadius * (1 - cos)))
	return p, b.in.scale(cos).add(inward.scale(sin))
}
