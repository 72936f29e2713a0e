package fitment

import (
	"fmt"
	"math"
	"strconv"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/solid"
	"scrubline/scene"
)

// Feature is a place a tape can be held to: a point, or a face, which a tape
// meets square. Points are body axes in the state asked for, millimetres.
type Feature struct {
	// Name is the same in every state, and for as long as the part is made of
	// the same solids: the solid's number, what of it is meant, which one.
	Name   string
	Words  string      // for people: "right rear top corner"
	At     scene.Vec   // the point; of a face, its middle
	Normal scene.Vec   // of a face, unit length, outward; zero for a point
	Rim    []scene.Vec // corners of a face; none where it has no bounds or is a point
}

// plane says whether a tape meets the feature square.
func (f *Feature) plane() bool { return f.Normal != scene.Vec{} }

// Features lists the places of a part, by its index in the document, where a
// tape can be held in a state. Rooms that must stay free have none.
func (m *Model) Features(part int, st State) []Feature {
	var out []Feature
	p, n := m.parts[part], 0
	for i := range p.items {
		it := &p.items[i]
		if it.room != "" {
			continue
		}
		for k := range it.solids {
			n++
			s := m.solidAt(it, k, st)
			if s.Kind == it.solids[k].Kind {
				b := featureList{model: m, ride: &it.solids[k], now: &s, number: strconv.Itoa(n), hung: it.link != nil}
				b.solid()
				out = append(out, b.list...)
			}
		}
	}
	return out
}

// featureList gathers the features of one solid. What there is and what it is
// called follows from the solid at ride; where it is, from the solid as it
// stands now.
type featureList struct {
	model     *Model
	ride, now *solid.Solid
	number    string
	hung      bool // between two carriers: a spring, a shaft
	list      []Feature
}

// add puts in a point given in the solid's own axes.
func (b *featureList) add(name, words string, local geom.Vec) *Feature {
	b.list = append(b.list, Feature{Name: b.number + "/" + name, Words: words, At: unvec(b.now.Pose.Apply(local))})
	return &b.list[len(b.list)-1]
}

// face puts in a face by its middle, outward normal and corners in the solid's
// own axes.
func (b *featureList) face(name string, middle, normal geom.Vec, rim []geom.Vec) {
	f := b.add(name, faceWords(b.ride.Pose.R.Apply(normal)), middle)
	f.Normal = unvec(b.now.Pose.R.Apply(normal))
	for _, p := range rim {
		f.Rim = append(f.Rim, unvec(b.now.Pose.Apply(p)))
	}
}

func (b *featureList) solid() {
	switch s := b.now; s.Kind {
	case solid.Point:
		b.add("centre", "centre", geom.Vec{})
		b.around("mid", "", geom.Vec{}, geom.Vec{}, s.Round)
	case solid.Segment:
		b.bar(geom.V(1, 0, 0), s.H.X, 0)
	case solid.Disc, solid.Cylinder:
		b.bar(geom.V(0, 0, 1), s.H.Z, s.H.X)
	case solid.Box:
		b.box()
	case solid.Hull:
		b.hull()
	case solid.Arc:
		b.arc()
	}
}

// bar is a round bar about an axis through its middle: half its core's length,
// its core's radius. Where the core has a radius its ends are flat.
func (b *featureList) bar(axis geom.Vec, half, radius float64) {
	round := b.now.Round
	b.add("centre", "centre", geom.Vec{})
	for _, sign := range [2]float64{-1, 1} {
		side, to := signName(sign), axis.Scale(sign)
		end := sideWord(b.ride.Pose.R.Apply(to)) + " end"
		tip := to.Scale(half + round)
		if radius > 0 {
			b.face("end/"+side, tip, to, ring(tip, axis, radius))
			b.list[len(b.list)-1].Words = end
		} else {
			b.add("end/"+side, end, tip)
			b.add("axis/"+side, end+" of its centreline", to.Scale(half))
		}
		b.around("rim/"+side, " of its "+end, to.Scale(half), axis, radius+round)
	}
	b.around("mid", "", geom.Vec{}, axis, radius+round)
}

// ring is a circle about an axis as eight corners, for the rim of a flat end.
func ring(centre, axis geom.Vec, radius float64) []geom.Vec {
	x := geom.V(0, 1, 0)
	y := axis.Cross(x)
	out := make([]geom.Vec, 8)
	for i := range out {
		sin, cos := geom.Sincos(float64(i) * math.Pi / 4)
		out[i] = centre.AddScaled(x, radius*cos).AddScaled(y, radius*sin)
	}
	return out
}

// sides are the six directions of the body axes by name.
var sides = [6]struct {
	name, word string
	d          geom.Vec
}{
	{"front", "front", geom.V(-1, 0, 0)}, {"rear", "rear", geom.V(1, 0, 0)},
	{"left", "left", geom.V(0, -1, 0)}, {"right", "right", geom.V(0, 1, 0)},
	{"bottom", "bottom", geom.V(0, 0, -1)}, {"top", "top", geom.V(0, 0, 1)},
}

// leaning is the cosine between an axis and a direction from which that
// direction no longer counts as beside the axis: about 41°.
const leaning = 0.75

// around puts in where a round thing of a radius about a point is farthest to
// each side of the vehicle, square to the axis; a zero axis is a ball.
func (b *featureList) around(name, of string, centre, axis geom.Vec, radius float64) {
	for _, side := range sides {
		ride := b.ride.Pose.R.ApplyT(side.d)
		if math.Abs(ride.Dot(axis)) > leaning {
			continue
		}
		d := ride
		if b.hung { // its own axes follow from its two ends anew in every state
			d = b.now.Pose.R.ApplyT(side.d)
		}
		if d = d.AddScaled(axis, -d.Dot(axis)).Unit(); d != (geom.Vec{}) {
			b.add(name+"/"+side.name, side.word+of, centre.AddScaled(d, radius))
		}
	}
}

func (b *featureList) box() {
	h := b.now.H
	r := b.now.Round
	h = geom.V(h.X+r, h.Y+r, h.Z+r)
	corner := func(i int) geom.Vec {
		return geom.V(bitSign(i, 1)*h.X, bitSign(i, 2)*h.Y, bitSign(i, 4)*h.Z)
	}
	b.add("centre", "centre", geom.Vec{})
	for i := range 8 {
		c := corner(i)
		b.add(fmt.Sprintf("corner/%d", i), b.cornerWords(c), c)
	}
	for axis := range 3 {
		for _, sign := range [2]int{0, 1} {
			bit := 1 << axis
			u, v := 1<<((axis+1)%3), 1<<((axis+2)%3)
			at := sign * bit
			rim := []geom.Vec{corner(at), corner(at | u), corner(at | u | v), corner(at | v)}
			middle := rim[0].Lerp(rim[2], 0.5)
			normal := geom.V(0, 0, 0)
			switch axis {
			case 0:
				normal.X = bitSign(at, bit)
			case 1:
				normal.Y = bitSign(at, bit)
			default:
				normal.Z = bitSign(at, bit)
			}
			b.face("face/"+signName(bitSign(at, bit))+[3]string{"x", "y", "z"}[axis], middle, normal, rim)
		}
	}
}

// hull has the corners of a sharp hull and its faces.
func (b *featureList) hull() {
	s := b.now
	b.add("centre", "centre", geom.Vec{})
	faces := b.model.faces(s.Points)
	used := make([]bool, len(s.Points))
	for i := range faces {
		for _, k := range faces[i].loop {
			used[k] = true
		}
	}
	if s.Round == 0 {
		for i, p := range s.Points {
			if used[i] {
				b.add(fmt.Sprintf("corner/%d", i), b.cornerWords(p), p)
			}
		}
	}
	for i := range faces {
		f := &faces[i]
		var rim []geom.Vec
		middle := geom.Vec{}
		for _, k := range f.loop {
			p := s.Points[k].AddScaled(f.normal, s.Round)
			rim = append(rim, p)
			middle = middle.AddScaled(p, 1/float64(len(f.loop)))
		}
		b.face(fmt.Sprintf("face/%d", i), middle, f.normal, rim)
	}
}

// arc is a bend: its two ends and its middle on the centreline, the middle's
// inside and outside, and the centre it bends about.
func (b *featureList) arc() {
	s := b.now
	at := func(angle, radius float64) geom.Vec {
		sin, cos := geom.Sincos(angle)
		return geom.V(radius*cos, radius*sin, 0)
	}
	b.add("centre", "centre of the bend", geom.Vec{})
	for _, sign := range [2]float64{-1, 1} {
		sin, cos := geom.Sincos(sign * s.H.Y)
		out := geom.V(-sin*sign, cos*sign, 0) // along the tube, out of this end
		b.add("end/"+signName(sign), sideWord(b.ride.Pose.R.Apply(out))+" end of the bend", at(sign*s.H.Y, s.H.X))
	}
	b.add("mid", "middle of the bend", at(0, s.H.X))
	b.add("outer", "outside of the bend", at(0, s.H.X+s.Round))
	b.add("inner", "inside of the bend", at(0, s.H.X-s.Round))
}

func bitSign(i, bit int) float64 {
	if i&bit != 0 {
		return 1
	}
	return -1
}

func signName(v float64) string {
	if v < 0 {
		return "-"
	}
	return "+"
}

// sideWord is the side of the vehicle a direction points to most.
func sideWord(d geom.Vec) string {
	best, word := math.Inf(-1), ""
	for _, s := range sides {
		if c := s.d.Dot(d); c > best+geom.Tiny {
			best, word = c, s.word
		}
	}
	return word
}

func faceWords(d geom.Vec) string {
	switch w := sideWord(d); w {
	case "bottom":
		return "underside"
	case "top":
		return "top"
	default:
		return w + " face"
	}
}

// cornerWords names a corner by the sides it lies to: "right rear top corner".
// What is hardly off the middle along an axis is not named for it.
func (b *featureList) cornerWords(local geom.Vec) string {
	d := b.ride.Pose.R.Apply(local)
	most := math.Max(math.Abs(d.X), math.Max(math.Abs(d.Y), math.Abs(d.Z)))
	words := ""
	for _, axis := range [3]struct {
		v        float64
		low, top string
	}{{d.Y, "left ", "right "}, {d.X, "front ", "rear "}, {d.Z, "bottom ", "top "}} {
		switch {
		case axis.v < -geom.Tiny-1e-6*most:
			words += axis.low
		case axis.v > geom.Tiny+1e-6*most:
			words += axis.top
		}
	}
	return words + "corner"
}
