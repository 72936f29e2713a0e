package fitment

import (
	"scrubline/fitment/internal/geom"
	"scrubline/scene"
)

// Reach is how an air spring, shock or driveshaft stands in one state.
type Reach struct {
	Part     string
	EndsMM   [2]scene.Vec // its two mounts or joints, body axes
	LengthMM float64      // between them
	// ShortestMM and LongestMM are what it may be, 0 when not measured.
	ShortestMM, LongestMM float64
	// JointDeg are the angles its front and rear joint bend in this state, and
	// MostDeg what they may; all 0 when it has no joint limit.
	JointDeg [2]float64
	MostDeg  float64
	// Past are its limits that are passed in this state, At being the state.
	Past []Limit
}

// Reaches lists how every air spring, shock and driveshaft stands in a state, in
// document order. A bar keeps its length and has no limits; see [Model.Bars].
func (m *Model) Reaches(at State) []Reach {
	var out []Reach
	for _, p := range m.parts {
		for i := range p.items {
			if k := p.items[i].link; k != nil && p.part.Kind != barKind {
				out = append(out, m.reach(p.part.ID, k, at))
			}
		}
	}
	return out
}

func (m *Model) reach(id string, k *link, at State) Reach {
	st := at.motion()
	e := m.endsOf(k, &st)
	l := Reach{Part: id, EndsMM: [2]scene.Vec{unvec(e.a), unvec(e.b)}, LengthMM: e.length(),
		ShortestMM: k.limits.ShortestMM, LongestMM: k.limits.LongestMM, MostDeg: k.maxAngleDeg}
	if l.MostDeg > 0 {
		l.JointDeg[0], l.JointDeg[1] = m.jointAngles(k, &st)
	}
	for _, q := range m.linkMeasures(k) {
		if v := q.value(&st); q.excess(v) > geom.GapTol {
			l.Past = append(l.Past, Limit{Part: id, Kind: q.kind, Value: v, Limit: q.limit, At: at})
		}
	}
	return l
}
