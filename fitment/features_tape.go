package fitment

import (
	"errors"
	"fmt"
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// TapeReading is what a tape reads in one state.
type TapeReading struct {
	PointsMM [2]scene.Vec // where it is held, body axes
	LengthMM float64      // straight from one to the other
	AlongMM  scene.Vec    // from the first to the second along X, Y and Z of the body
	Square   [2]bool      // whether it meets that end's face square
}

// datumWords are the datums for people.
var datumWords = map[string]string{
	scene.FrameDatum: "frame datum", scene.GroundDatum: "ground", scene.CentreDatum: "centre of the vehicle",
	scene.FrontCentre: "middle of the front axle", scene.RearCentre: "middle of the rear axle",
	string(scene.WheelFL): "front left wheel centre", string(scene.WheelFR): "front right wheel centre",
	string(scene.WheelRL): "rear left wheel centre", string(scene.WheelRR): "rear right wheel centre",
}

// Datum is a datum of the vehicle as a feature; false for an unknown one.
func (m *Model) Datum(name string, st State) (Feature, bool) {
	f := Feature{Name: name, Words: datumWords[name]}
	switch name {
	case scene.FrameDatum:
		f.Normal = scene.Vec{0, 0, 1}
	case scene.CentreDatum:
		f.Normal = scene.Vec{0, 1, 0}
	case scene.GroundDatum:
		n, c := m.GroundPlane(st)
		f.Normal, f.At = n, scene.Vec{-n[0] * c, -n[1] * c, -n[2] * c}
	default:
		if f.Words == "" {
			return f, false
		}
		f.At = m.WheelCentre(scene.Carrier(name), st)
	}
	return f, true
}

// TapeEnd is what one end of a tape is held to; false when that is no more.
func (m *Model) TapeEnd(e scene.TapeEnd, st State) (Feature, bool) {
	if e.Datum != "" {
		return m.Datum(e.Datum, st)
	}
	i, ok := m.index[e.Part]
	if !ok {
		return Feature{}, false
	}
	for _, f := range m.Features(i, st) {
		if f.Name == e.Feature {
			return f, true
		}
	}
	return Feature{}, false
}

// EndWords names one end of a tape for people: "Air tank, rear end".
func (m *Model) EndWords(e scene.TapeEnd) string {
	f, ok := m.TapeEnd(e, State{})
	if e.Datum != "" {
		return f.Words
	}
	i, there := m.index[e.Part]
	if !there {
		return e.Part
	}
	if !ok {
		return m.Doc.Parts[i].Name + ", a place that is no more"
	}
	return m.Doc.Parts[i].Name + ", " + f.Words
}

// Tape is what a tape between two places reads in a state. Point to point is
// the straight length. A face or a plane is met square, as the hook of a tape
// or a straightedge makes it: its distance is that of the plane it lies in. Two
// faces that are not parallel have no one distance: the tape then goes from
// middle to middle, and from the middle of a face square to a datum.
func (m *Model) Tape(from, to scene.TapeEnd, st State) (TapeReading, error) {
	a, ok := m.TapeEnd(from, st)
	if !ok {
		return TapeReading{}, fmt.Errorf("the first place is no more: %s", m.EndWords(from))
	}
	b, ok := m.TapeEnd(to, st)
	if !ok {
		return TapeReading{}, fmt.Errorf("the second place is no more: %s", m.EndWords(to))
	}
	return between(&a, &b)
}

// ErrCross: two planes that cross have no distance.
var ErrCross = errors.New("these two planes cross: there is no distance between them")

// alike is the sine of the angle up to which two faces count as parallel, 0.1°:
// over a face of 300 mm the distance then varies by half a millimetre.
const alike = 0.0018

// wall says whether a feature is a plane without bounds, a datum.
func (f *Feature) wall() bool { return f.plane() && f.Rim == nil }

func between(a, b *Feature) (r TapeReading, err error) {
	p, q := vec(a.At), vec(b.At)
	parallel := a.plane() && b.plane() && vec(a.Normal).Cross(vec(b.Normal)).Len() <= alike
	switch {
	case a.wall() && b.wall() && !parallel && math.Abs(vec(a.Normal).Dot(vec(b.Normal))) < 0.9:
		return r, ErrCross
	case b.wall() || b.plane() && (parallel || !a.plane()):
		q, r.Square[1] = foot(p, b), true
	case a.wall() || a.plane() && !b.plane():
		p, r.Square[0] = foot(q, a), true
	}
	d := q.Sub(p)
	r.PointsMM = [2]scene.Vec{unvec(p), unvec(q)}
	r.LengthMM, r.AlongMM = d.Len(), unvec(d)
	return r, nil
}

// foot is the point of a feature's plane square below p.
func foot(p geom.Vec, f *Feature) geom.Vec {
	n := vec(f.Normal)
	return p.AddScaled(n, -n.Dot(p.Sub(vec(f.At))))
}
