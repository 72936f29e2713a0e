package view

import "github.com/go-gl/mathgl/mgl64"

// Rect is a rectangle on the canvas, CSS pixels, Y down.
type Rect struct{ X, Y, W, H float64 }

// Contains says whether p lies in r.
func (r Rect) Contains(p mgl64.Vec2) bool {
	return p[0] >= r.X && p[0] < r.X+r.W && p[1] >= r.Y && p[1] < r.Y+r.H
}

// Overlaps says whether r and s share an area.
func (r Rect) Overlaps(s Rect) bool {
	return r.X < s.X+s.W && s.X < r.X+r.W && r.Y < s.Y+s.H && s.Y < r.Y+r.H
}

// Inset is r made smaller by d on every side.
func (r Rect) Inset(d float64) Rect { return Rect{r.X + d, r.Y + d, r.W - 2*d, r.H - 2*d} }

// Middle is the middle of r.
func (r Rect) Middle() mgl64.Vec2 { return mgl64.Vec2{r.X + r.W/2, r.Y + r.H/2} }

// Inside says whether r lies wholly within s.
func (r Rect) Inside(s Rect) bool {
	return r.X >= s.X && r.Y >= s.Y && r.X+r.W <= s.X+s.W && r.Y+r.H <= s.Y+s.H
}

// Layout is where the drawings stand on the canvas. Small is the second small
// drawing, without size where the screen has no room for one.
type Layout struct{ Canvas, Main, Staff, Strip, Small Rect }

// Gaps and sizes of the three cards, CSS pixels.
const (
	cardGap    = 10.0
	staffWide  = 160.0
	staffSlim  = 124.0
	stripTall  = 144.0
	stripSmall = 96.0
	phoneWidth = 560.0 // a canvas narrower than this gets the slim staff
	lowHeight  = 560.0 // a canvas lower than this gets the small strip
)

// lettersShare is how much of the growth of the letters the staff and the strip
// follow: the main drawing keeps the rest.
const lettersShare = 0.3

// Arrange places the main view, the height staff at its right and the side
// strip below them on a canvas of w by h CSS pixels, for letters that many
// times the usual size.
func Arrange(w, h, letters float64) Layout {
	staff, strip := staffWide, stripTall
	if w < phoneWidth {
		staff = staffSlim
	}
	if h < lowHeight {
		strip = stripSmall
	}
	grown := 1 + lettersShare*(letters-1)
	staff, strip = staff*grown, strip*grown
	top := max(h-strip-cardGap, 1)
	l := Layout{
		Canvas: Rect{0, 0, w, h},
		Main:   Rect{0, 0, max(w-staff-cardGap, 1), top},
		Staff:  Rect{max(w-staff, 0), 0, staff, top},
		Strip:  Rect{0, top + cardGap, w, strip},
	}
	if w >= phoneWidth && h >= lowHeight {
		l.Small = Rect{w - smallWide, top + cardGap, smallWide, strip}
		l.Strip.W = w - smallWide - cardGap
	}
	return l
}

// Sizes of four drawings side by side, CSS pixels.
const (
	smallWide = 190.0 // a vehicle is about as wide as it is tall
	paneLeast = 170.0 // a drawing smaller than this shows nothing
	sideShare = 0.62  // of the width, for what is seen along the vehicle's length
)

// Four divides the main drawing's place in four: along the vehicle's length at
// the left, across it at the right, as the views of first-angle projection
// stand (ISO 5456-2): side, front at its right, plan below it; the section
// takes the fourth. false when there is too little room.
func (l *Layout) Four() (side, front, plan, section Rect, ok bool) {
	m := l.Main
	w, h := (m.W-cardGap)*sideShare, (m.H-cardGap)/2
	x, y := m.X+w+cardGap, m.Y+h+cardGap
	rest := m.W - w - cardGap
	side, front = Rect{m.X, m.Y, w, h}, Rect{x, m.Y, rest, h}
	plan, section = Rect{m.X, y, w, h}, Rect{x, y, rest, h}
	return side, front, plan, section, rest >= paneLeast && h >= paneLeast
}
