package fitment

import (
	"math"
	"sort"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
	"scrubline/scene"
)

// link is a round solid hung between two carriers: an air spring whose
// diameter follows its length, or a shaft. Its flat-ended cylinder encloses a
// spring's rounded lobes, which is the safe side.
type link struct {
	onA, onB motion.Carrier
	a, b     geom.Vec // anchors, body axes at ride
	profile  []scene.LengthDiameter
	radius   float64 // without a profile
	limits   scene.Limits
	// directions of what the joints are bolted to, at ride, and the most a
	// joint may bend; 0 for no limit
	axisA, axisB geom.Vec
	maxAngleDeg  float64
	// stop is the height of its end (the heave stopAt) at which it is pushed
	// solid; below, it stays as it is there. See mover.settle.
	stop   float64
	stopAt int
	// bar: a bar of the suspension, whose far end is followed by itself
	bar   bool
	point *motion.Point // that end; nil where its carrier hangs on nothing
}

func (l *lowerer) bellows(s scene.Bellows) *link {
	k := &link{stop: math.Inf(-1), profile: append([]scene.LengthDiameter(nil), s.Profile...), limits: s.Limits}
	sort.Slice(k.profile, func(i, j int) bool { return k.profile[i].LengthMM < k.profile[j].LengthMM })
	k.onA, k.a = l.anchor(s.Top)
	k.onB, k.b = l.anchor(s.Bottom)
	return k
}

func (l *lowerer) shaft(s scene.Shaft) *link {
	k := &link{stop: math.Inf(-1), radius: s.Radius, limits: s.Limits,
		axisA: vec(s.FrontAxis), axisB: vec(s.RearAxis), maxAngleDeg: s.MaxAngleDeg}
	k.onA, k.a = l.anchor(s.Front)
	k.onB, k.b = l.anchor(s.Rear)
	return k
}

// radiusAt is the radius at a length: linear between the rows of the table,
// held beyond them.
func (k *link) radiusAt(length float64) float64 {
	n := len(k.profile)
	if n == 0 {
		return k.radius
	}
	if length <= k.profile[0].LengthMM {
		return k.profile[0].DiameterMM / 2
	}
	for i := 1; i < n; i++ {
		p, q := k.profile[i-1], k.profile[i]
		if length <= q.LengthMM {
			t := (length - p.LengthMM) / (q.LengthMM - p.LengthMM)
			return (p.DiameterMM + float64(t*(q.DiameterMM-p.DiameterMM))) / 2
		}
	}
	return k.profile[n-1].DiameterMM / 2
}

func (k *link) atRide() (s solid.Solid) {
	k.between(k.a, k.b, &s)
	return s
}

// hungAt makes s a link's solid in a state, which it lifts off the link's stop.
func (v *mover) hungAt(k *link, st *motion.State, s *solid.Solid) {
	if k.stopAt == frontHeave {
		up := max(0, k.stop-(st.FL+st.FR)/2)
		st.FL, st.FR = st.FL+up, st.FR+up
	} else {
		up := max(0, k.stop-(st.RL+st.RR)/2)
		st.RL, st.RR = st.RL+up, st.RR+up
	}
	a, b := v.linkEnds(k, st)
	k.between(a, b, s)
}

// linkEnds is where a link's two anchors stand in a state.
func (v *mover) linkEnds(k *link, st *motion.State) (a, b geom.Vec) {
	a = v.carrier(k.onA, st).Apply(k.a)
	if k.point != nil {
		return a, k.point.At(*st)
	}
	return a, v.carrier(k.onB, st).Apply(k.b)
}

// between makes s the solid between two points. Squeezed flat it is still a
// disc lying square to Z: a spring is never without room.
func (k *link) between(a, b geom.Vec, s *solid.Solid) {
	length := a.Dist(b)
	r := k.radiusAt(length)
	if length < shortestLink {
		b = a.Add(geom.V(0, 0, -shortestLink))
	}
	if err := s.SetCylinder(a, b, r, 0); err != nil {
		*s, _ = solid.NewBall(a, math.Max(r, 0))
	}
}

// shortestLink (mm) keeps a link's direction defined when its anchors meet.
const shortestLink = 1.0
