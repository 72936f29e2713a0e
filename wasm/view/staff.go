package view

import (
	"math"

	"scrubline/scene"
)

// Travel is the way of the body from aired out over ride to aired up, front
// and rear, mm from ride. Together the two ends move along it in the
// proportion of the named heights; the staff counts along the end that moves
// further.
type Travel struct {
	Front, Rear [3]float64 // aired out, ride, aired up
	byFront     bool
}

// TravelOf reads the travel from a document's heights.
func TravelOf(heights []scene.Height) Travel {
	var t Travel
	for k, id := range [3]string{scene.AiredOut, scene.Ride, scene.AiredUp} {
		for _, h := range heights {
			if h.ID == id {
				t.Front[k], t.Rear[k] = h.FrontMM, h.RearMM
			}
		}
	}
	t.byFront = t.Front[2]-t.Front[0] > t.Rear[2]-t.Rear[0]
	return t
}

// Coord is the staff's figure for a pair of moves: that of the end it counts
// along.
func (t *Travel) Coord(front, rear float64) float64 {
	if t.byFront {
		return front
	}
	return rear
}

// Pair is the pair of moves at a figure of the staff, held to the travel.
func (t *Travel) Pair(s float64) (front, rear float64) {
	own, other := t.Rear, t.Front
	if t.byFront {
		own, other = t.Front, t.Rear
	}
	s = math.Max(own[0], math.Min(own[2], s))
	k := 0
	if s > own[1] {
		k = 1
	}
	o := other[k]
	if d := own[k+1] - own[k]; d > 0 {
		o += (other[k+1] - other[k]) * (s - own[k]) / d
	}
	if t.byFront {
		return s, o
	}
	return o, s
}

// AtFront and AtRear are the figures of the staff at which one end stands at a
// move, held to the travel.
func (t *Travel) AtFront(mm float64) float64 { return t.figure(t.Front, mm) }

// AtRear is the figure at which the rear stands at a move; see [Travel.AtFront].
func (t *Travel) AtRear(mm float64) float64 { return t.figure(t.Rear, mm) }

func (t *Travel) figure(end [3]float64, mm float64) float64 {
	own := t.Rear
	if t.byFront {
		own = t.Front
	}
	k := 0
	if mm > end[1] {
		k = 1
	}
	d := end[k+1] - end[k]
	if d <= 0 {
		return own[1]
	}
	f := math.Max(0, math.Min(1, (mm-end[k])/d))
	return own[k] + (own[k+1]-own[k])*f
}

// Range is the lowest and the highest move of either end.
func (t *Travel) Range() (low, high float64) {
	return math.Min(t.Front[0], t.Rear[0]), math.Max(t.Front[2], t.Rear[2])
}

// Staff is the measuring staff on the screen: LowMM at Bottom, HighMM at Top.
type Staff struct {
	Rect        Rect
	LineX       float64 // the staff's edge
	Top, Bottom float64
	LowMM       float64
	HighMM      float64
	Handle      float64 // height of a saddle, pixels
}

// finger is what a finger needs, pixels.
const finger = 44.0

// NewStaff lays the staff of a travel into a rectangle.
func NewStaff(r Rect, t *Travel) Staff {
	low, high := t.Range()
	if high-low < 20 {
		mid := (low + high) / 2
		low, high = mid-10, mid+10
	}
	line := r.X + 31
	if r.W < staffWide {
		line = r.X + 30
	}
	return Staff{Rect: r, LineX: line, Top: r.Y + 40, Bottom: r.Y + r.H - 40, LowMM: low, HighMM: high, Handle: finger}
}

// Y is where a figure stands on the screen.
func (s *Staff) Y(mm float64) float64 {
	return s.Bottom - (mm-s.LowMM)/(s.HighMM-s.LowMM)*(s.Bottom-s.Top)
}

// MM is the figure at a height on the screen, held to the staff.
func (s *Staff) MM(y float64) float64 {
	mm := s.LowMM + (s.Bottom-y)/(s.Bottom-s.Top)*(s.HighMM-s.LowMM)
	return math.Max(s.LowMM, math.Min(s.HighMM, mm))
}

// PxPerMM is the staff's scale.
func (s *Staff) PxPerMM() float64 { return (s.Bottom - s.Top) / (s.HighMM - s.LowMM) }

// Saddle is the handle at a figure when both ends move together.
func (s *Staff) Saddle(mm float64) Rect {
	return Rect{s.Rect.X + 8, s.Y(mm) - s.Handle/2, math.Min(96, s.Rect.W-16), s.Handle}
}

// SaddleFront and SaddleRear are the two handles when the ends move apart:
// side by side, so that each stays under its own finger at the same height.
func (s *Staff) SaddleFront(mm float64) Rect {
	return Rect{s.Rect.X + 4, s.Y(mm) - s.Handle/2, (s.Rect.W - 12) / 2, s.Handle}
}

// SaddleRear is the rear end's handle; see [Staff.SaddleFront].
func (s *Staff) SaddleRear(mm float64) Rect {
	w := (s.Rect.W - 12) / 2
	return Rect{s.Rect.X + 8 + w, s.Y(mm) - s.Handle/2, w, s.Handle}
}

// Graduation steps a staff may have, by unit, millimetres.
var graduations = map[scene.Units][]float64{
	scene.Millimetres: {1, 2, 5, 10, 20, 50, 100, 200, 500},
	scene.Inches:      {25.4 / 16, 25.4 / 8, 25.4 / 4, 25.4 / 2, 25.4, 50.8, 101.6, 203.2, 406.4},
}

// Graduation is the smallest step of the unit whose marks stand at least
// apart pixels from each other.
func (s *Staff) Graduation(u scene.Units, apart float64) float64 {
	steps := graduations[scene.Millimetres]
	if u == scene.Inches {
		steps = graduations[scene.Inches]
	}
	for _, g := range steps {
		if g*s.PxPerMM() >= apart {
			return g
		}
	}
	return steps[len(steps)-1]
}
