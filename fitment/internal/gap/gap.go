// Package gap measures the signed gap between two solids.
package gap

import (
	"scrubline/fitment/internal/geom"
)

// Result is a signed gap (mm): the distance apart, or minus the depth of the
// overlap, with the nearest (or deepest) point on the surface of each solid.
// N is the unit direction from A to B along which the gap is measured.
type Result struct {
	Gap  float64
	A, B geom.Vec
	N    geom.Vec
}
