package fitment

import (
	"math"

	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
)

// poseCache keeps where carriers stand in states met lately: the corners of the
// box of states come up again with every pair.
type poseCache struct{ slots [512]poseSlot }

type poseSlot struct {
	known bool
	on    motion.Carrier
	st    motion.State
	pose  geom.Pose
}

// slot picks a place for a carrier in a state by mixing the bits of its numbers
// (the multiplier is 2⁶⁴ over the golden ratio).
func (c *poseCache) slot(on motion.Carrier, st *motion.State) *poseSlot {
	const golden = 0x9e3779b97f4a7c15
	h := uint64(on) + 1
	for _, f := range [5]float64{st.FL, st.FR, st.RL, st.RR, st.Steer} {
		h = (h ^ math.Float64bits(f)) * golden
		h ^= h >> 29
	}
	return &c.slots[h%uint64(len(c.slots))]
}

// carrier is where a carrier puts what stands on it in a state.
func (v *mover) carrier(on motion.Carrier, st motion.State) geom.Pose {
	if on == motion.Body {
		return geom.Still
	}
	s := v.poses.slot(on, &st)
	if !s.known || s.on != on || s.st != st {
		*s = poseSlot{true, on, st, v.ch.Pose(on, st)}
	}
	return s.pose
}
