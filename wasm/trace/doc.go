// Package trace makes a photo true to scale: from points of a picture that
// stand at known places of a plane it finds how picture and plane belong
// together, says how far that can be trusted, and lays the picture out as
// triangles that keep its perspective.
//
// # Conventions
//
// A picture has its origin at the upper left corner, x to the right, y down, in
// pixels (px). A plane has its origin at a corner of the known rectangle, the
// first axis to the right, the second up, in millimetres. A [Homography] maps
// one to the other; the one that maps the plane to the picture comes from
//
//	x = (h0 u + h1 v + h2) / w,  y = (h3 u + h4 v + h5) / w,  w = h6 u + h7 v + h8
//
// solved as the normalised direct linear transformation: both sets of points
// are moved to their middle and scaled to a mean distance of √2, the equations
// times w are linear, and least squares solves them. (R. Hartley, "In defense of the
// eight-point algorithm", IEEE PAMI 19(6), 1997, is where that scaling comes
// from; R. Hartley and A. Zisserman, "Multiple View Geometry in Computer
// Vision", 2nd ed. 2003, algorithm 4.2, has it for homographies. From memory.)
// With more than four points Gauss–Newton then makes the sum of the squared
// distances in the picture least: it is in the picture that fingers slip.
//
// # What can be known
//
// Four points fix a homography: their residual is zero by construction and
// says nothing. What does say something is in [Fit.Camera]: a real camera with
// square pixels and its axis through the middle of the picture takes only some
// of these pictures. [Fit.Slip] tells what a slip of one pixel does. All of it
// holds in the plane of the known points alone; see [Camera.ProudMM].
package trace
