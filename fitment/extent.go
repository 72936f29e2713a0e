package fitment

import (
	"math"

	"scrubline/fitment/internal/outline"
	"scrubline/scene"
)

// Extent is how far a part reaches along the body axes at ride, movements at
// rest, without its service room. Exact. ok is false when there is no such
// part or nothing of it is solid.
func (m *Model) Extent(part string) (lo, hi scene.Vec, ok bool) {
	return m.ExtentIn(part, StateAt(0, 0))
}

// ExtentIn is [Model.Extent] in any state.
func (m *Model) ExtentIn(part string, at State) (lo, hi scene.Vec, ok bool) {
	k, found := m.index[part]
	if !found {
		return lo, hi, false
	}
	for i := range m.parts[k].items {
		it := &m.parts[k].items[i]
		if it.room != "" {
			continue
		}
		for j := range it.solids {
			s := m.solidAt(it, j, at)
			for axis, v := range [3]outline.View{outline.Section, outline.Side, outline.Plan} {
				near, far := outline.Extent(&s, v)
				near, far = min(near, far), max(near, far)
				if !ok {
					lo[axis], hi[axis] = near, far
				}
				lo[axis], hi[axis] = math.Min(lo[axis], near), math.Max(hi[axis], far)
			}
			ok = true
		}
	}
	return lo, hi, ok
}
