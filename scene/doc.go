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
// # The file
//
// [Decode] is strict and tells the place of the first fault as a JSON pointer
// ([PlaceError]); what it returns validates. [Encode] is canonical: saving an
// opened file twice gives the same bytes. [Document.Validate] asks the same of
// a document built in memory.
//
// # Editing
//
// A document is never changed in place: [AddPart], [SetField] and the other
// edits return a changed copy that shares the rest, a label for undo, or one
// plain sentence saying why not. [History] keeps the copies.
//
// # Kinds
//
// What a part is made of comes from its [Kind]: one file kind_NAME.go each,
// with the dimensions a builder measures and a Form that lists the shapes. A
// form is never smaller than the thing: round notches and ovals are drawn with
// flat sides on the safe side. The exceptions, edge roundings of a tank's
// heads, a housing's rims and a tyre's shoulder, are smaller than the real ones.
//
// # Suspensions
//
// An end of the vehicle may have a [Suspension]: bars between points a builder
// can measure, one list for each [SuspensionKind]. Without one it moves on a
// plain vertical guide and nothing is written. Points on the body are in body
// axes, so that they stay where they were measured when the wheelbase changes;
// the other ends go with their axle or wheel.
//
// # What it knows
//
// The package holds the document's shape, its file format (JSON, described by
// schema.json), its validation, and edit history. It knows what a part is made
// of ([Shape]) but no geometry: how far two shapes are apart is the business
// of package fitment. It uses the standard library only.
package scene
