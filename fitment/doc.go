// Package fitment is the clearance engine: a scene goes in, findings come out.
//
// [Compile] turns a document into a [Model]; the model answers how far two
// parts are apart in one state, what falls short over the whole travel, and
// what hangs lowest. Everything a screen or a command line prints comes from
// these answers.
//
// # Travel
//
// A [State] is the four corner heights and the steer. The body is the frame of
// reference: axles and wheels move in it, and the ground is the plane under
// the tyres. In this version every axle and wheel moves on a plain vertical
// guide along body Z, and an axle rolls about its own middle when its two
// corners differ.
//
// # Numbers
//
// Lengths are millimetres in body axes. Gaps are signed: the distance apart,
// or minus the depth of the overlap. A bound is certified: over the whole
// travel the gap is nowhere below it. The same input gives the same bytes on
// every build; nothing depends on map order, clock or chance.
package fitment
