package view

import (
	"math"

	"scrubline/fitment"
	"scrubline/scene"
)

// Grid is the step a dragged length settles on: 5 mm or a quarter inch, finer
// once the drawing is large enough to place finer.
func Grid(u scene.Units, pxPerMM float64) float64 {
	coarse, fine := 5.0, 1.0
	if u == scene.Inches {
		coarse, fine = 25.4/4, 25.4/16
	}
	if fine*pxPerMM >= 6 {
		return fine
	}
	return coarse
}

// Round is v on the grid.
func Round(v, grid float64) float64 { return math.Round(v/grid) * grid }

// Guide is a line a part may snap to: first axis (a vertical line) or second
// axis (a level line) at a figure in body axes, mm.
type Guide struct {
	Second bool
	MM     float64
	Name   string // what it is, for people
	Middle bool   // a part's middle is laid on it, not its edges
	Weak   bool   // it holds from half as far: other parts stand everywhere
}

// Extent is a part's box in a view's plane, mm.
type Extent struct{ Lo, Hi fitment.Pt }

// ExtentOf is the box around convex pieces; ok is false when there are none.
func ExtentOf(groups ...[][]fitment.Pt) (e Extent, ok bool) {
	e.Lo = fitment.Pt{math.Inf(1), math.Inf(1)}
	e.Hi = fitment.Pt{math.Inf(-1), math.Inf(-1)}
	for _, pieces := range groups {
		for _, piece := range pieces {
			for _, p := range piece {
				ok = true
				for k := range 2 {
					e.Lo[k] = math.Min(e.Lo[k], p[k])
					e.Hi[k] = math.Max(e.Hi[k], p[k])
				}
			}
		}
	}
	return e, ok
}

// Snapped is what became of a drag: the movement in the plane and the guides
// it settled on (nil where only the grid held).
type Snapped struct {
	Move          fitment.Pt
	First, Second *Guide
}

// Snap settles a drag. at is the part's reference point in its carrier's axes
// before the drag and e its extent in body axes, both in the plane; move is
// where the finger wants it. Within reach (mm) of a guide an edge of the
// extent, or its middle for a guide that asks for it, is laid on the guide;
// otherwise the reference point settles on the grid. Along an axis with no
// move at all the part stays as it is.
func Snap(at fitment.Pt, e Extent, move fitment.Pt, grid, reach float64, guides []Guide) Snapped {
	var out Snapped
	for k := range 2 {
		if move[k] == 0 {
			continue
		}
		out.Move[k] = Round(at[k]+move[k], grid) - at[k]
		best := reach
		for i := range guides {
			g := &guides[i]
			if g.Second != (k == 1) {
				continue
			}
			edges := [2]float64{e.Lo[k], e.Hi[k]}
			if g.Middle {
				edges = [2]float64{(e.Lo[k] + e.Hi[k]) / 2, (e.Lo[k] + e.Hi[k]) / 2}
			}
			for _, edge := range edges {
				d := math.Abs(edge + move[k] - g.MM)
				if g.Weak {
					d *= 2
				}
				if d < best {
					best = d
					out.Move[k] = g.MM - edge
					if k == 0 {
						out.First = g
					} else {
						out.Second = g
					}
				}
			}
		}
	}
	return out
}

// Nearest is the figure of list nearest to v, when it is within reach.
func Nearest(v, reach float64, list []float64) (float64, bool) {
	best, found := reach, false
	at := v
	for _, x := range list {
		if d := math.Abs(x - v); d <= best {
			best, found, at = d, true, x
		}
	}
	return at, found
}
