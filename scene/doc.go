// Package scene is the document a builder works on: one vehicle, its parts,
// the heights its body stands at, and the gaps its parts must keep.
//
// # Axes and units
//
// Body axes follow ISO 4130: X rearward from the front axle's centreline at
// ride height, Y to the right of the vehicle's centreline, Z up from the frame
// datum plane (the underside of the straight run of the frame rails). The
// trade says station for X, left and right of centre for Y, above and below
// the frame for Z. Stored lengths are millimetres, angles degrees; the unit is
// in the name of every stored number.
//
// # What it knows
//
// The package holds the document's shape, its file format (JSON, described by
// schema.json), its validation, and edit history. It knows what a part is made
// of ([Shape]) but no geometry: how far two shapes are apart is the business
// of package fitment. It uses the standard library only.
package scene
