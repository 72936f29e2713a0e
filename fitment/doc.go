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
// the tyres. An end without a suspension moves on a plain vertical guide along
// body Z, and its axle rolls about its own middle when its two corners differ.
// An end with one moves as its bars let it: rigid bodies held by bars of fixed
// length, solved over the travel once for a vehicle and kept as smooth pieces.
// Where an axle has more bars than ways to move, they are kept as nearly as can
// be (least squares), and [Model.Suspension] tells what the bushings give; where
// a suspension locks, the travel ends.
//
// The steer of a state is that of the front wheels at ride height. With tie
// rods it sets the rack, and the tie rod then turns the wheel a little as it
// rises (bump steer); otherwise it is a plain turn about the wheel's upright
// axis. The front_axle and rear_axle carriers of ends whose wheels move by
// themselves follow the mean of the two on a plain guide.
//
// # Numbers
//
// Lengths are millimetres in body axes. Gaps are signed: the distance apart,
// or minus the depth of the overlap. A bound is certified: over the whole
// travel the gap is nowhere below it. The same input gives the same bytes on
// every build; nothing depends on map order, clock or chance.
package fitment
