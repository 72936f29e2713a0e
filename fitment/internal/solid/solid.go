// Package solid has the few exact solids everything is built from: a convex
// core grown by a rounding radius, and the circular arc with a tube radius.
package solid

import "scrubline/fitment/internal/geom"

// Kind says which core a solid has.
type Kind uint8

const (
	Point    Kind = iota // at the origin
	Segment              // from -H.X to +H.X along local X
	Disc                 // flat disc of radius H.X about local Z
	Cylinder             // radius H.X, half length H.Z along local Z, flat ends
	Box                  // half lengths H
	Hull                 // convex hull of Points
	Arc                  // circle of radius H.X about local Z in the local XY plane, from angle -H.Y to +H.Y about local X (radians; H.Y = π is the full ring)
	kinds
)

// Solid is a core in its own axes, where it stands, and its rounding radius.
// A solid is a value; Points is shared and never written.
type Solid struct {
	Kind   Kind
	Round  float64    // rounding (or tube) radius ≥ 0
	H      geom.Vec   // sizes of the core, by Kind
	Points []geom.Vec // Hull only: local points
	Pose   geom.Pose
}
