package main

import (
	"math"
	"strconv"

	"scrubline/fitment"
	"scrubline/scene"
	"scrubline/testdata/reference"
)

const sampledHeights = 64

// sampledScene writes a vehicle for the outside program: its parts at 64 heights
// from aired out to aired up, and what is joined. An air spring keeps its
// diameter at ride; rounded edges are left sharp inside the rounding.
func sampledScene(doc *scene.Document) (string, error) {
	m, err := fitment.Compile(doc)
	if err != nil {
		return "", err
	}
	var b []byte
	add := func(vs ...float64) {
		for _, v := range vs {
			b = strconv.AppendFloat(b, v, 'g', -1, 64)
			b = append(b, ' ')
		}
	}
	add(m.Effort().MostNeedMM, float64(len(doc.Joined)))
	index := map[string]int{}
	for i := range doc.Parts {
		index[doc.Parts[i].ID] = i
	}
	for _, j := range doc.Joined {
		add(float64(index[j.A]), float64(index[j.B]))
	}
	solids := outsideSolids(m, fitment.State{})
	add(float64(len(solids)))
	for i := range solids {
		add(float64(solids[i].part))
		b = append(solids[i].Shape(b), '\n')
	}
	add(sampledHeights)
	f0, f1, r0, r1 := m.Travel()
	for k := range sampledHeights {
		t := float64(k) / (sampledHeights - 1)
		at := outsideSolids(m, fitment.StateAt(f0+t*(f1-f0), r0+t*(r1-r0)))
		for i := range at {
			b = append(at[i].Pose(b), '\n')
		}
	}
	return string(b), nil
}

// outside is a solid for the outside program, and whose it is.
type outside struct {
	reference.Solid
	part int
}

var outsideKinds = map[string]int{
	"ball": reference.Ball, "capsule": reference.Capsule, "disc": reference.Disc,
	"cylinder": reference.Cylinder, "box": reference.Box, "hull": reference.Hull,
}

func outsideSolids(m *fitment.Model, at fitment.State) (out []outside) {
	for _, b := range m.Bodies(at) {
		if b.Kind == "arc" {
			out = append(out, chain(&b)...)
			continue
		}
		s := reference.Solid{Kind: outsideKinds[b.Kind], Round: b.Round, H: b.Size, Points: b.Points, R: b.Turn, P: b.At}
		out = append(out, outside{s, b.Part})
	}
	return out
}

// chain is a bend as capsules of about 30 degrees each, as the library has no
// bends: less work for it than an exact one, and up to 3.4 % of the bend's
// radius off.
func chain(b *fitment.Body) (out []outside) {
	n := max(1, math.Round(2*b.Size[1]/(math.Pi/6)))
	step := 2 * b.Size[1] / n
	for k := range int(n) {
		mid := -b.Size[1] + step*(float64(k)+0.5)
		sin, cos := math.Sincos(mid)
		r := b.Size[0] * math.Cos(step/2)
		s := reference.Solid{Kind: reference.Capsule, Round: b.Round, H: [3]float64{b.Size[0] * math.Sin(step/2)}}
		for i := range 3 { // the capsule's axis is the bend's tangent
			x, y, z := b.Turn[3*i], b.Turn[3*i+1], b.Turn[3*i+2]
			s.P[i] = b.At[i] + r*(x*cos+y*sin)
			s.R[3*i], s.R[3*i+1], s.R[3*i+2] = y*cos-x*sin, -(x*cos + y*sin), z
		}
		out = append(out, outside{s, b.Part})
	}
	return out
}
