package fitment

import (
	"math"
	"sort"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/scene"
)

// RimLine is the height over the ground of the lowest rim in one state: below
// it nothing but wheels may hang (California Vehicle Code 24008 and its kind).
func (m *Model) RimLine(st State) float64 {
	n, c := m.ch.GroundPlane(st.motion())
	return m.rimLine(st.motion(), n, c)
}

func (m *Model) rimLine(st motion.State, n geom.Vec, c float64) float64 {
	least := math.Inf(1)
	for _, on := range [4]motion.Carrier{motion.WheelFL, motion.WheelFR, motion.WheelRL, motion.WheelRR} {
		end := &m.Doc.Vehicle.Front
		if on >= motion.WheelRL {
			end = &m.Doc.Vehicle.Rear
		}
		pose := m.ch.Pose(on, st)
		centre := pose.Apply(m.ch.Origin(on))
		least = min(least, n.Dot(centre)+c-end.Tyre.Rim()/2)
	}
	return least
}

// wheelKind is the kind of part that stands on the ground by right. A spare
// carried under the body is of another kind, and hangs like anything else.
const wheelKind = "wheel"

// Clearance is what hangs lowest in one state. Wheels, and what stands on the
// ground, do not count; service rooms do not either.
func (m *Model) Clearance(at State) Clearance {
	n, c := m.ch.GroundPlane(at.motion())
	out := Clearance{At: at, GroundMM: math.Inf(1), RimLineMM: m.rimLine(at.motion(), n, c)}
	for _, p := range m.parts {
		h, point, ok := m.lowestOf(p, at, n, c)
		if !ok {
			continue
		}
		if h < out.GroundMM {
			out.GroundMM, out.Part, out.PointMM = h, p.part.ID, unvec(point)
		}
		if h < out.RimLineMM-geom.GapTol {
			out.Below = append(out.Below, Hanging{Part: p.part.ID, GroundMM: h, PointMM: unvec(point)})
		}
	}
	sort.SliceStable(out.Below, func(i, j int) bool { return out.Below[i].GroundMM < out.Below[j].GroundMM })
	if out.Part == "" {
		out.GroundMM = 0
	}
	return out
}

// lowsKept is in how many states the lowest point of a part is remembered: at the
// named heights and where the body is shown, as long as it does not move.
const lowsKept = 5

// lowAt is how low a part hangs in a state, and where.
type lowAt struct {
	known, ok bool
	st        State
	height    float64
	at        geom.Vec
}

// lowestOf is how low a part hangs, and where; ok is false for what does not count.
func (m *Model) lowestOf(p *placed, st State, n geom.Vec, c float64) (height float64, at geom.Vec, ok bool) {
	for i := range p.lows {
		if k := &p.lows[i]; k.known && k.st == st {
			return k.height, k.at, k.ok
		}
	}
	height, at, ok = m.findLowest(p, st, n, c)
	p.lows[p.nextLow] = lowAt{true, ok, st, height, at}
	p.nextLow = (p.nextLow + 1) % lowsKept
	return height, at, ok
}

func (m *Model) findLowest(p *placed, st State, n geom.Vec, c float64) (height float64, at geom.Vec, ok bool) {
	if m.standsOnGround(p) {
		return 0, at, false
	}
	for i := range p.items {
		if p.items[i].room != "" {
			continue
		}
		h, q := m.lowest(&p.items[i], st, n, c)
		if !ok || h < height {
			height, at, ok = h, q, true
		}
	}
	return height, at, ok
}

// standsOnGround says of what stands on the ground by right.
func (m *Model) standsOnGround(p *placed) bool {
	return p.part.Carrier == scene.Ground || p.part.Kind == wheelKind
}
