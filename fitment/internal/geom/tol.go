package geom

// Every tolerance of the engine is here and derives from GapTol.
const (
	// GapTol (mm) is how exact a single gap is on solids up to 6 m: iterations
	// stop when upper and lower bound are this close. A tape reads 0.5 mm; a
	// thousandth is far below anything that can be built.
	GapTol = 1e-3

	// GapStop (mm) is where one iteration inside a gap stops. A gap is at most
	// two such searches, one in the other (an arc against a hull), so that the
	// whole stays inside GapTol with as much again to spare.
	GapStop = GapTol / 4

	// TouchTol (mm) is the distance of two cores below which the direction
	// between their nearest points says little: the coordinates carry about
	// 1e-12 mm of rounding on 6 m, so that at this distance the direction is good
	// to 1e-7 and moves the far end of a 6 m solid by less than TouchTol·GapTol.
	// Nearer cores are treated as touching and measured by depth, which is
	// continuous through zero.
	TouchTol = GapTol / 100

	// FlatTol (mm) is the thickness below which a set of points counts as flat:
	// a depth inside it is nought within GapTol.
	FlatTol = GapTol / 50

	// BoundTol (mm) is how far the certified bound over a travel may lie below
	// the least gap found.
	BoundTol = 0.1

	// Tiny (mm) is a length below which a direction is rounding noise: two
	// points this close are one point.
	Tiny = GapTol * 1e-6

	// Reach (mm) is the largest coordinate or length a solid may have. A
	// kilometre is beyond every vehicle and far inside what the numbers carry.
	Reach = 1e6
)
