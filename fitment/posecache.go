package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
	"scrubline/fitment/internal/solid"
)

// poseCache keeps where carriers stand in states met lately: the corners of the
// box of states come up again with every pair.
type poseCache struct {
	slots [512]poseSlot
	work  [2]geom.Pose   // of what movements carry
	solid [2]solid.Solid // of a pair measured in one state
}

// poseSlot is a carrier in the part of a state that it goes by.
type poseSlot struct {
	known bool
	on    motion.Carrier
	key   [poseNumbers]float64
	pose  geom.Pose
	rider geom.Pose // the same, as it moves what has no movement of its own
}

// poseNumbers: the two corners of the carrier's own end and the steer, and for the
// ground, which goes by all of a state, the other two.
const poseNumbers = 5

// standing is where a carrier stands in a state, until the next question, which
// may put another into its place. The numbers it goes by stay single: a struct
// of them would be copied, which WebAssembly calls out of its own code for.
func (v *mover) standing(on motion.Carrier, st *motion.State) *poseSlot {
	l, r, steer, l2, r2 := st.FL, st.FR, st.Steer, 0.0, 0.0
	switch on {
	case motion.FrontAxle:
		steer = 0
	case motion.RearAxle, motion.WheelRL, motion.WheelRR:
		l, r, steer = st.RL, st.RR, 0
	case motion.Ground:
		l2, r2 = st.RL, st.RR
	}
	h := mixed(mixed(mixed(uint64(on)+1, l), r), steer)
	if on == motion.Ground {
		h = mixed(mixed(h, l2), r2)
	}
	s := &v.poses.slots[h%uint64(len(v.poses.slots))]
	k := &s.key
	if !s.known || s.on != on || k[0] != l || k[1] != r || k[2] != steer || k[3] != l2 || k[4] != r2 {
		k[0], k[1], k[2], k[3], k[4] = l, r, steer, l2, r2
		s.known, s.on, s.pose = true, on, v.ch.Pose(on, *st)
		geom.Still.ThenInto(&s.pose, &s.rider)
	}
	return s
}

// mixed takes a number's bits into a hash; the multiplier is 2⁶⁴ over the golden
// ratio.
func mixed(h uint64, f float64) uint64 {
	const golden = 0x9e3779b97f4a7c15
	h = (h ^ math.Float64bits(f)) * golden
	return h ^ h>>29
}

// carrier is where a carrier puts what stands on it in a state; until the next
// question.
func (v *mover) carrier(on motion.Carrier, st *motion.State) *geom.Pose {
	if on == motion.Body {
		return &geom.Still
	}
	return &v.standing(on, st).pose
}
