package scene

import "math"

// SuspensionTemplate is a suspension to start from at one end of a vehicle,
// "front" or "rear", for measuring over; nil for the plain guide and for what
// is no kind. Every point is assumed: in common proportion to the track, with
// links to the middle of the vehicle and what holds sideways on the far side of
// the axle.
func SuspensionTemplate(kind string, v *Vehicle, end string) *Suspension {
	k := SuspensionKindNamed(kind)
	if k == nil || k.Name == Guide {
		return nil
	}
	t := template{s: &Suspension{Kind: kind}, k: k, in: -1}
	e := v.Rear
	on := RearAxle
	if end == "front" {
		e, on, t.in = v.Front, FrontAxle, 1
	}
	t.track = e.TrackMM
	t.origin = v.origin(on)
	if k.Alone {
		t.origin[1] = -e.TrackMM / 2
	}
	switch kind {
	case FourLinkPanhard, BeamAxle:
		t.links(100, 0.22, 0.2)
		t.panhard()
	case FourLinkWatts:
		t.links(100, 0.22, 0.2)
		t.watts()
	case TriangulatedFourLink:
		t.links(130, 0.28, 0.07)
	case TrailingArms:
		t.arms()
		t.panhard()
	case LeafSprings:
		t.leaves()
	case DoubleWishbone:
		t.leg(-120, 350, 170, 10, 110, 140)
		t.leg(140, 350, 160, 10, 110, 140)
		t.lowerArm(405, -38)
	case Strut:
		t.leg(20, 190, 520, 0, 120, 60)
		t.lowerArm(450, -42)
	}
	return t.s
}

// template puts bars together. in is the sign of X toward the middle of the
// vehicle.
type template struct {
	s      *Suspension
	k      *SuspensionKind
	origin Vec
	track  float64
	in     float64
}

// bar adds the next bar, both ends measured from the carrier's origin.
func (t *template) bar(body, carried Vec) {
	at := t.origin.add(body)
	for i := range at {
		at[i], carried[i] = math.Round(at[i])+0, math.Round(carried[i])+0
	}
	t.s.Bars = append(t.s.Bars, SuspensionBar{Name: t.k.Bars[len(t.s.Bars)], BodyMM: at, CarriedMM: carried})
}

// leg is a bar of the left wheel.
func (t *template) leg(x, y, z, cx, cy, cz float64) { t.bar(Vec{x, y, z}, Vec{cx, cy, cz}) }

// links are two lower links, and two upper ones whose ends stand so high over
// the axle and at these parts of the track from the middle.
func (t *template) links(up, body, axle float64) {
	for _, side := range []float64{-1, 1} {
		t.bar(Vec{t.in * 600, side * 0.27 * t.track, -70}, Vec{t.in * 30, side * 0.29 * t.track, -100})
	}
	for _, side := range []float64{-1, 1} {
		t.bar(Vec{t.in * 520, side * body * t.track, up - 20}, Vec{0, side * axle * t.track, up})
	}
}

func (t *template) panhard() {
	t.bar(Vec{-t.in * 120, 0.3 * t.track, 60}, Vec{-t.in * 120, -0.3 * t.track, 40})
}

func (t *template) watts() {
	t.s.Crank = CrankOnAxle
	for _, side := range []float64{-1, 1} {
		t.bar(Vec{-t.in * 140, side * 0.32 * t.track, side * -80}, Vec{-t.in * 140, 0, side * -80})
	}
}

func (t *template) arms() {
	for _, side := range []float64{-1, 1} {
		for _, z := range []float64{60, -60} {
			t.bar(Vec{t.in * 900, side * 0.2 * t.track, -30}, Vec{0, side * 0.25 * t.track, z})
		}
	}
}

func (t *template) leaves() {
	for _, side := range []float64{-1, 1} {
		t.bar(Vec{-620, side * 0.33 * t.track, -30}, Vec{0, side * 0.33 * t.track, -60})
	}
}

// lowerArm is the lower arm and a tie rod behind the wheel, whose inner end
// stands so that the wheel hardly steers itself as it rises.
func (t *template) lowerArm(tieY, tieZ float64) {
	t.leg(-150, 420, -90, -10, 90, -120)
	t.leg(170, 420, -95, -10, 90, -120)
	t.leg(135, tieY, tieZ, 130, 105, -65)
}
