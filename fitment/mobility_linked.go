package fitment

import (
	"scrubline/fitment/internal/geom"
	"scrubline/fitment/internal/motion"
)

// The mobility of what hangs on a linkage comes from the bounds of its grid,
// which hold for the interpolated motion itself: bicubic pieces that join
// without a corner, so that there are no kinks.
//
// A point at v from the carrier's origin stands at shift + E(r)·v, with r the
// rotation vector and E its rotation. Its velocity by a parameter is
// shift' + ω×E·v with |ω| ≤ |r'|, and ω differs from r' by at most |r|·|r'|/2
// (the derivative of E(r) is A(r)·r' with A = ∫₀¹ E(τr)dτ, whose distance from
// the identity is at most |r|/2). The derivative of ω by a second parameter is
// at most |r”| + |r'|·|r.|/2, as |A.| ≤ |r.|/2; so that of the velocity is at
// most |shift”| + (|r”| + 1.5·|r'|·|r.|)·|v|.

// linkedRates are the largest velocities, by the height and by the grid's
// second parameter, of points within far of the origin, and the second
// derivatives: by the height twice, by both, by the second twice.
func linkedRates(b *motion.Bounds, far geom.Vec) (rate [2]geom.Vec, bend [3]float64) {
	reach := far.Len()
	lean := geom.V(1, 1, 1).Scale(b.Angle * reach)
	out := far.Add(lean)
	out = geom.V(min(reach, out.X), min(reach, out.Y), min(reach, out.Z))
	for k := range rate {
		swing := b.Swing[k]
		more := b.Angle * swing / 2
		about := func(r float64) float64 { return min(swing, r+more) }
		x, y, z := about(b.Turn[k].X), about(b.Turn[k].Y), about(b.Turn[k].Z)
		most := swing * reach
		rate[k] = b.Shift[k].Add(geom.V(
			min(most, float64(y*out.Z)+float64(z*out.Y)),
			min(most, float64(z*out.X)+float64(x*out.Z)),
			min(most, float64(x*out.Y)+float64(y*out.X))))
	}
	swings := [3]float64{b.Swing[0] * b.Swing[0], b.Swing[0] * b.Swing[1], b.Swing[1] * b.Swing[1]}
	for k := range bend {
		bend[k] = b.ShiftBend[k] + float64((b.TurnBend[k]+float64(1.5*swings[k]))*reach)
	}
	return rate, bend
}

// linkedAxle is the mobility of an axle's points: the grid's parameters are the
// heave and the cross height, and the cross follows the heave by up to 2 either
// way.
func linkedAxle(m *mobility, b *motion.Bounds, heave, cross int, limit float64, far geom.Vec) {
	rate, bend := linkedRates(b, far)
	m.by[heave], m.curve[heave] = rate[0], bend[0]
	if limit > 0 {
		m.by[cross], m.curve[cross] = rate[1], bend[2]
		m.by[heave] = m.by[heave].AddScaled(rate[1], 2)
		m.curve[heave] = bend[0] + float64(4*bend[1]) + float64(4*bend[2])
		m.corner[heave] = 4 * rate[1].Len()
	}
}

// linkedWheel is the mobility of the points of a wheel that moves by itself:
// the grid's parameters are its own height, the heave and half the cross, and,
// with a tie rod, the steer.
func linkedWheel(m *mobility, b *motion.Bounds, heave, cross int, limit float64, steers bool, far geom.Vec) {
	rate, bend := linkedRates(b, far)
	m.by[heave], m.curve[heave] = rate[0], bend[0]
	if limit > 0 {
		m.by[cross], m.curve[cross] = rate[0].Scale(0.5), bend[0]/4
		m.by[heave], m.curve[heave] = rate[0].Scale(2), 4*bend[0]
		m.corner[heave] = 2 * rate[0].Len()
	}
	if steers {
		m.by[steer], m.curve[steer] = rate[1].Scale(degree), bend[2]*degree*degree
	}
}

// followed is the mobility of the far end of a bar, from the grid of that point
// alone: it has no turn, so that nothing is lost to how far it lies from its
// carrier's origin.
func (v *mover) followed(k *link) mobility {
	heave, cross, end := frontHeave, frontCross, v.ch.Front
	axle := k.onB == motion.FrontAxle || k.onB == motion.RearAxle
	front := k.onB == motion.FrontAxle || k.onB == motion.WheelFL || k.onB == motion.WheelFR
	if !front {
		heave, cross, end = rearHeave, rearCross, v.ch.Rear
	}
	m := mobility{group: int(k.onB)}
	b, limit := k.point.Bounds(), v.box.hi[cross]
	if axle {
		linkedAxle(&m, &b, heave, cross, limit, geom.Vec{})
	} else {
		linkedWheel(&m, &b, heave, cross, limit, front && end.Independent && v.ch.ByTie(motion.FrontEnd) && v.box.hi[steer] > 0, geom.Vec{})
	}
	return m
}

// linkedGround is grounded for a vehicle of which an end hangs on a linkage;
// false when none does. With w and B the speed and second derivative of the
// wheel centres of an end, its middle moves no faster than w, and the slope of
// the line through them by at most 3w/track, of which the plane takes half. So
// the plane tilts by at most w·(2/wheelbase + 2/track), and its second
// derivative is at most as much of B and a few times the square of the tilt.
func (v *mover) linkedGround(m *mobility, far float64) bool {
	_, front := v.ch.Limits(motion.FrontEnd)
	_, rear := v.ch.Limits(motion.RearEnd)
	if !front && !rear {
		return false
	}
	far += v.ch.Origin(motion.FrontAxle).Len() + v.box.hi[frontHeave] - v.box.lo[frontHeave]
	share := 2/v.ch.Wheelbase + 2/min(v.ch.Front.Track, v.ch.Rear.Track)
	for i := frontHeave; i <= steer; i++ {
		w, bend := 0.0, 0.0
		for _, on := range [2]motion.Carrier{motion.WheelFL, motion.WheelRL} {
			c := v.carried(on, func(p geom.Vec) geom.Vec { return away(v.ch.Origin(on), p) })
			w, bend = max(w, c.by[i].Len()), max(bend, c.curve[i])
		}
		if w == 0 {
			continue
		}
		tilt := w * share
		m.any[i] = float64(2*w) + float64(2*far*tilt)
		m.curve[i] = float64(8*far*tilt*tilt) + float64(4*w*tilt) + float64((2+float64(2*far*share))*bend)
		if v.box.hi[frontCross]+v.box.hi[rearCross] > 0 {
			m.corner[i] = 2 * m.any[i]
		}
	}
	return true
}

// away is how far a point lies from another along each axis.
func away(a, b geom.Vec) geom.Vec {
	d := a.Sub(b)
	return geom.V(max(d.X, -d.X), max(d.Y, -d.Y), max(d.Z, -d.Z))
}
